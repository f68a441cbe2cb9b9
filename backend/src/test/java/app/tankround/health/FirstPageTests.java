package app.tankround.health;

import static org.assertj.core.api.Assertions.assertThat;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.authentication;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.csrf;

import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.PersonId;
import app.tankround.accounts.VanId;
import app.tankround.clients.SiteId;
import app.tankround.followups.FollowupId;
import app.tankround.followups.FollowupView;
import app.tankround.followups.Followups;
import app.tankround.followups.Urgency;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.StandardId;
import app.tankround.persistence.Uuids;
import app.tankround.readings.Bench;
import app.tankround.readings.NewReading;
import app.tankround.readings.ReadingId;
import app.tankround.readings.ReadingService;
import app.tankround.rounds.RoundService;
import app.tankround.schedule.Agreements;
import app.tankround.schedule.NewAgreement;
import app.tankround.schedule.TaskView;
import app.tankround.tanks.LivestockId;
import app.tankround.tanks.NewLivestock;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystems;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBusiness;
import app.tankround.testing.TestClock;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.units.SockSize;
import java.io.UnsupportedEncodingException;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.security.core.Authentication;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.test.web.servlet.assertj.MockMvcTester;
import org.springframework.test.web.servlet.assertj.MvcTestResult;

/** What the owner sees first, from rows of a database shared with other tests: each looks for its own systems. */
@SpringBootTest
@AutoConfigureMockMvc
@IntegrationTest
@Import(Bench.class)
class FirstPageTests {

    @Autowired
    MockMvcTester mvc;

    @Autowired
    Bench bench;

    @Autowired
    ReadingService readings;

    @Autowired
    WaterSystems systems;

    @Autowired
    FirstPage firstPage;

    @Autowired
    HealthReview review;

    @Autowired
    Agreements agreements;

    @Autowired
    RoundService rounds;

    @Autowired
    Followups followups;

    @Autowired
    CurrentPerson currentPerson;

    @Autowired
    JdbcClient jdbc;

    @Autowired
    TestClock clock;

    PersonId person = PersonId.of(new UUID(0, 0));

    @BeforeEach
    void setUp() {
        new TestBusiness(jdbc);
        person = bench.person();
    }

    @Test
    void showsARefractometerThatReadsLowAndTheSystemsInDoubt() throws Exception {
        InstrumentId instrument = bench.refractometer();
        StandardId standard = bench.salinityStandard("35");
        WaterSystemId system = bench.marineSystem();
        name(system, "Mangrove room");
        bench.check(instrument, standard, bench.daysAgo(20), "1.0266", "1.0266");
        readings.record(bench.gravity(system, instrument, person, "1.025", bench.daysAgo(7)));

        bench.check(instrument, standard, bench.daysAgo(0), "1.0186", "1.0186");

        assertThat(worst(system)).isEqualTo(ConcernCode.IN_DOUBT);
        assertThat(health(system).own()).isEmpty();
        assertThat(page("/", "OWNER"))
                .contains("is suspect: nothing may rest on it")
                .contains("\"/doubts\"");
        assertThat(page("/health?text=Mangrove", "OFFICE"))
                .contains("Mangrove room")
                .contains("Salinity was read as 1.025 SG 20/20, but that is in doubt.")
                .contains("The water is really near")
                .contains("class=\"sr-doubt\"")
                .contains("/systems/" + system + "/readings");
    }

    @Test
    void namesAContainerWhoseDissolvedSolidsCreepUp() throws Exception {
        WaterSystemId drum = bench.marineSystem();
        name(drum, "Drum seven");
        jdbc.sql("update water_system set kind = 'SUPPLY' where id = :id")
                .param("id", drum.value())
                .update();
        target(drum, "DISSOLVED_SOLIDS", null, "2", "mg/L");
        int[] values = {0, 0, 1, 2, 3, 4, 6};
        for (int i = 0; i < values.length; i++) {
            record(drum, Quantity.DISSOLVED_SOLIDS, Integer.toString(values[i]), 7 * (values.length - 1 - i));
        }

        assertThat(worst(drum)).isEqualTo(ConcernCode.SOLIDS_CREEP);
        assertThat(page("/health?text=Drum seven", "OWNER"))
                .contains("Dissolved solids creep up: from 0 to 6 mg/L in 42 days.")
                .contains("supply water");
    }

    @Test
    void listsTheBrownFilmOfTheSecondWeekUnderNothingToDo() throws Exception {
        WaterSystemId young = bench.marineSystem();
        name(young, "Young entrance");
        startedDaysAgo(young, 10);
        record(young, Quantity.NITRATE, "5", 1);

        String page = page("/", "OWNER");

        assertThat(page).contains("<h1>Monday, 2 March 2026</h1>");
        String calm = page.substring(page.indexOf("Needs nothing, though it may look like it"));
        assertThat(calm).contains("Young entrance").contains("expected now, in week 2");
    }

    @Test
    void raisesAnAlarmForAmmoniaInWeekTen() throws Exception {
        WaterSystemId ten = bench.marineSystem();
        name(ten, "Week ten");
        startedDaysAgo(ten, 64);
        record(ten, Quantity.AMMONIA, "0.5", 0);

        assertThat(worst(ten)).isEqualTo(ConcernCode.FOUND_LATE);
        assertThat(page("/health?kind=DANGER&text=Week ten", "OWNER"))
                .contains("Ammonia, total was found: 0.5 mg/L, in week 10.")
                .contains("state-signal");
    }

    @Test
    void advisesToTopUpFirstWhereTheSumpStoodBelowItsMark() throws Exception {
        WaterSystemId system = bench.marineSystem();
        name(system, "Low sump");
        UUID visit = visitWithLowSump(system, "32");
        NewReading salinity = NewReading.of(
                        ReadingId.of(Uuids.next(clock.instant())),
                        system,
                        Quantity.SALINITY,
                        new BigDecimal("36.8"),
                        MeasurementUnit.PRACTICAL_SALINITY,
                        clock.instant(),
                        person)
                .withInstrument(trustedConductivityMeter())
                .atVisit(visit);
        readings.record(salinity);

        assertThat(worst(system)).isEqualTo(ConcernCode.ABOVE_LOW_WATER);
        assertThat(page("/health?text=Low sump", "OWNER")).contains("but 5 % of the water was missing. Top up first");
    }

    @Test
    void startsAQuarantineAnewWhenAnAnimalIsAddedOnDay25() throws Exception {
        WaterSystemId system = bench.marineSystem();
        name(system, "Quarantine seven");
        LocalDate today = review.today();
        jdbc.sql("update water_system set infection_class = 'QUARANTINE', class_since = :since where id = :id")
                .param("since", today.minusDays(24))
                .param("id", system.value())
                .update();
        assertThat(quarantineDay(system)).isEqualTo(25);

        systems.addLivestock(new NewLivestock(
                LivestockId.of(Uuids.next(clock.instant())),
                system,
                bench.code("L"),
                "Yellow tang",
                null,
                1,
                false,
                today));

        assertThat(quarantineDay(system)).isEqualTo(1);
        String page = page("/", "OWNER");
        assertThat(page.substring(page.indexOf("Quarantine seven"))).contains("day 1 of 30");
    }

    @Test
    void listsChecksThatAreDueOrOverdue() throws Exception {
        InstrumentId instrument = bench.refractometer();
        bench.check(instrument, bench.salinityStandard("35"), bench.daysAgo(70), "1.0266", "1.0266");

        String page = page("/", "OWNER");

        assertThat(page.substring(page.indexOf("/instruments/" + instrument))).contains("overdue since");
    }

    @Test
    void listsAsDueWhatTheChecksOfAnInstrumentAskForAndWhatIsPastItsUse() {
        InstrumentId zeroOnly = bench.refractometer();
        bench.check(zeroOnly, bench.salinityStandard("0"), bench.daysAgo(1), "1.0000", "1.0000");
        InstrumentId sound = bench.refractometer();
        bench.check(sound, bench.salinityStandard("35"), bench.daysAgo(1), "1.0266", "1.0266");
        InstrumentId condemned = bench.refractometer();
        bench.check(condemned, bench.salinityStandard("35"), bench.daysAgo(90), "1.0186", "1.0186");
        bench.check(condemned, bench.salinityStandard("35"), bench.daysAgo(89), "1.0186", "1.0186");
        LocalDate last = review.today().plusDays(2);
        InstrumentId kit = bench.kit(Quantity.NITRATE, "5", last);

        Map<String, LocalDate> due = firstPage.overview().checks().stream()
                .collect(Collectors.toMap(FirstPage.CheckDue::href, FirstPage.CheckDue::due, (one, other) -> one));

        assertThat(due)
                .containsEntry("/instruments/" + zeroOnly, review.today())
                .containsEntry("/instruments/" + kit, last)
                .doesNotContainKeys("/instruments/" + sound, "/instruments/" + condemned);
    }

    @Test
    void showsAVanThatIsTooHeavyAndSocksThatRunShort() throws Exception {
        var business = new TestBusiness(jdbc);
        UUID site = business.site("Quay Street School", 52.1, 5, null, null);
        WaterSystemId system = WaterSystemId.of(business.system(site, "Library", "HEALTHY"));
        VanId van = VanId.of(business.van("Van nine", 52, 5));
        jdbc.sql("update van set payload_kg = 200 where id = :id")
                .param("id", van.value())
                .update();
        LocalDate today = review.today();
        agreements.add(new NewAgreement(
                "A-" + system,
                system,
                1,
                Set.of(today.getDayOfWeek()),
                today,
                Optional.empty(),
                60,
                BigDecimal.TEN,
                List.of(
                        TaskView.waterChangePercent(new BigDecimal("50")),
                        TaskView.sockSwap(2, SockSize.ofDiameter(137), 7)),
                Optional.empty()));

        rounds.plan(today, van, List.of(SiteId.of(site)));

        String page = page("/", "OWNER");
        assertThat(page.substring(page.indexOf("Van nine")))
                .contains("Quay Street School")
                .containsPattern("\\d+ of 200 kg, too heavy");
        assertThat(page.substring(page.indexOf("137 mm"))).containsPattern("2 short, from");
    }

    @Test
    void sendsTechniciansToTheirRound() throws Exception {
        MvcTestResult result =
                mvc.get().uri("/").with(authentication(signedIn("TECHNICIAN"))).exchange();

        assertThat(result).hasStatus3xxRedirection().hasRedirectedUrl("/rounds/today");
    }

    @Test
    void putsAmmoniaBeforeACondemnedInstrumentAndNamesTheInstrumentOnceForAllThatWasReadWithIt() throws Exception {
        InstrumentId instrument = bench.refractometer();
        StandardId standard = bench.salinityStandard("35");
        bench.check(instrument, standard, bench.daysAgo(20), "1.0266", "1.0266");
        for (int i = 0; i < 3; i++) {
            WaterSystemId read = bench.marineSystem();
            name(read, "Merely read " + i);
            readings.record(bench.gravity(read, instrument, person, "1.025", bench.daysAgo(7)));
        }
        bench.check(instrument, standard, bench.daysAgo(1), "1.0186", "1.0186");
        bench.check(instrument, bench.salinityStandard("35", "B"), bench.daysAgo(0), "1.0186", "1.0186");
        WaterSystemId poisoned = bench.marineSystem();
        name(poisoned, "Poisoned pool");
        record(poisoned, Quantity.AMMONIA, "2.0", 0);
        WaterSystemId since = bench.marineSystem();
        name(since, "Poisoned days ago");
        record(since, Quantity.AMMONIA, "2.0", 3);

        String page = page("/", "OWNER");

        String code = code(instrument);
        assertThat(page.indexOf("Poisoned pool: the ammonia")).isPositive().isLessThan(page.indexOf(code + " "));
        assertThat(page.indexOf("Poisoned days ago")).isPositive().isLessThan(page.indexOf(code + " "));
        assertThat(page).contains("3 systems were last read with it: Salinity.").doesNotContain("Merely read");
        String of = page("/health?instrument=" + instrument, "OFFICE");
        assertThat(of)
                .contains("Merely read 0", "Merely read 1", "Merely read 2")
                .doesNotContain("Poisoned");
        assertThat(page("/health", "OFFICE"))
                .contains("href=\"/health?instrument=" + instrument)
                .doesNotContain("Merely read");
    }

    @Test
    void wantsTheReasonOfAPersonWhoSettlesADeadlyMatterAndKeepsIt() throws Exception {
        WaterSystemId system = bench.marineSystem();
        name(system, "Reasoned pool");
        record(system, Quantity.AMMONIA, "2.0", 0);
        FollowupView open = matterOf(system.value());
        assertThat(open.urgency()).isEqualTo(Urgency.DEADLY);

        assertThat(text(settle(open.id(), "reason", " ").exchange())).contains("It says nowhere why this is settled.");
        assertThat(text(settle(open.id(), "reason", "....").exchange())).contains("f-reason-error");
        assertThat(matterOf(system.value())).isEqualTo(open);

        assertThat(settle(open.id(), "reason", "Half of the water was changed.").exchange())
                .hasRedirectedUrl("/");

        assertThat(followups.open()).extracting(FollowupView::id).doesNotContain(open.id());
        MvcTestResult again =
                settle(open.id(), "reason", "The fish looked well.").exchange();
        assertThat(again).hasStatus(409);
        assertThat(text(again))
                .contains("It was settled meanwhile")
                .contains("Half of the water was changed.")
                .contains("Your reason was not kept: The fish looked well.");
        assertThat(followups.require(open.id()).settled().orElseThrow().why())
                .isEqualTo("Half of the water was changed.");
        assertThat(page("/followups", "OFFICE")).contains("Reasoned pool").contains("Half of the water was changed.");
    }

    @Test
    void takesTheMeasurementThatEndedADeadlyMatterAndNoOther() throws Exception {
        WaterSystemId system = bench.marineSystem();
        WaterSystemId other = bench.marineSystem();
        record(system, Quantity.AMMONIA, "2.0", 0);
        FollowupView open = matterOf(system.value());
        ReadingId elsewhere = record(other, Quantity.NITRATE, "5", 0);

        assertThat(text(settle(open.id(), "reading", elsewhere.toString()).exchange()))
                .contains("This reading does not end the matter");
        assertThat(matterOf(system.value())).isEqualTo(open);
    }

    @Test
    void saysThatThereIsNoSuchMatter() throws Exception {
        assertThat(settle(FollowupId.of(new UUID(0, 77)), "reason", "It was put right.")
                        .exchange())
                .hasStatus(404);
    }

    @Test
    void forbidsTechniciansToSettle() throws Exception {
        assertThat(mvc.post()
                        .uri("/followups/" + new UUID(0, 1) + "/settle")
                        .with(authentication(signedIn("TECHNICIAN")))
                        .with(csrf())
                        .exchange())
                .hasStatus(403);
    }

    private MockMvcTester.MockMvcRequestBuilder settle(FollowupId id, String field, String value) throws Exception {
        return mvc.post()
                .uri("/followups/" + id + "/settle")
                .param(field, value)
                .with(authentication(signedIn("OFFICE")))
                .with(csrf());
    }

    private FollowupView matterOf(UUID subject) {
        return followups.open().stream()
                .filter(matter -> matter.subjectId().equals(subject))
                .findFirst()
                .orElseThrow();
    }

    private String code(InstrumentId instrument) {
        return jdbc.sql("select code from instrument where id = :id")
                .param("id", instrument.value())
                .query(String.class)
                .single();
    }

    private ConcernCode worst(WaterSystemId system) {
        return health(system).worst().orElseThrow().code();
    }

    private SystemHealth health(WaterSystemId system) {
        return review.review().ranked().stream()
                .filter(health -> health.facts().id().equals(system))
                .findFirst()
                .orElseThrow();
    }

    private long quarantineDay(WaterSystemId system) {
        return review.review().quarantines().stream()
                .filter(line -> line.facts().id().equals(system))
                .findFirst()
                .orElseThrow()
                .day();
    }

    private void name(WaterSystemId system, String name) {
        jdbc.sql("update water_system set name = :name where id = :id")
                .param("name", name)
                .param("id", system.value())
                .update();
    }

    private void startedDaysAgo(WaterSystemId system, int days) {
        jdbc.sql("update water_system set started_on = :day where id = :id")
                .param("day", review.today().minusDays(days))
                .param("id", system.value())
                .update();
    }

    private void target(WaterSystemId system, String quantity, @Nullable String low, String high, String unit) {
        jdbc.sql("""
                        insert into target (water_system, quantity, low, high, unit)
                        values (:system, :quantity, cast(:low as numeric), cast(:high as numeric), :unit)
                        """)
                .param("system", system.value())
                .param("quantity", quantity)
                .param("low", low)
                .param("high", high)
                .param("unit", unit)
                .update();
    }

    @Test
    void listsTheMostUrgentChecksAndLinksToTheRest() throws Exception {
        for (int more = 0; more < 7; more++) {
            bench.refractometer();
        }

        String page = page("/", "OWNER");

        String checks = page.substring(page.indexOf("Checks due"), page.indexOf("Quarantine</h2>"));
        assertThat(checks.split("href=\"/instruments/", -1)).hasSize(1 + 5);
        assertThat(checks).containsPattern("href=\"/instruments\">All instruments: [0-9]+ more checks? (is|are) due");
    }

    private ReadingId record(WaterSystemId system, Quantity quantity, String value, int daysAgo) {
        Instant at = clock.instant().minus(Duration.ofDays(daysAgo));
        ReadingId id = ReadingId.of(Uuids.next(at));
        readings.record(NewReading.of(
                        id,
                        system,
                        quantity,
                        new BigDecimal(value),
                        quantity.units().getFirst(),
                        at,
                        person)
                .withKitLot("K-1"));
        return id;
    }

    private InstrumentId trustedConductivityMeter() {
        InstrumentId meter = bench.refractometer();
        jdbc.sql("""
                        update instrument
                        set kind = 'CONDUCTIVITY_METER', unit = 'S', gravity_reference = null, resolution = 0.1, permitted_error = 0.2
                        where id = :id
                        """).param("id", meter.value()).update();
        bench.check(meter, bench.salinityStandard("35"), bench.daysAgo(1), "35", "35");
        return meter;
    }

    private UUID visitWithLowSump(WaterSystemId system, String litres) {
        UUID visit = Uuids.next(clock.instant());
        jdbc.sql("""
                        insert into visit (id, code, site_id, service_date, technician_id, planned_visits, version)
                        select :id, :code, w.site_id, :day, :person, cast('{}' as uuid[]), 1
                        from water_system w where w.id = :system
                        """)
                .param("id", visit)
                .param("code", bench.code("V"))
                .param("day", review.today())
                .param("person", person.value())
                .param("system", system.value())
                .update();
        jdbc.sql("""
                        insert into visit_entry (
                            id, visit_id, kind, field, counts, water_system_id, body, facts, author_id, entered_at,
                            entered_offset, happened_at, received_at)
                        values (:id, :visit, 'visit.top-up', 'top-up/' || :system, true, :system, '{}',
                            jsonb_build_object('atMark', false, 'filledUp', cast(:litres as text)), :person, now(), 'Z', now(), now())
                        """)
                .param("id", UUID.randomUUID())
                .param("visit", visit)
                .param("system", system.value())
                .param("litres", litres)
                .param("person", person.value())
                .update();
        return visit;
    }

    private String page(String address, String role) throws Exception {
        MvcTestResult result =
                mvc.get().uri(address).with(authentication(signedIn(role))).exchange();
        assertThat(result).hasStatusOk();
        return text(result);
    }

    private static String text(MvcTestResult result) throws UnsupportedEncodingException {
        return result.getResponse().getContentAsString();
    }

    private Authentication signedIn(String role) throws Exception {
        PersonId id = bench.person();
        jdbc.sql("update person set role = :role where id = :id")
                .param("role", role)
                .param("id", id.value())
                .update();
        return currentPerson.actingAs(
                id, () -> SecurityContextHolder.getContext().getAuthentication());
    }
}
