package app.tankround.loads;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.authentication;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.csrf;

import app.tankround.accounts.VanId;
import app.tankround.clients.SiteId;
import app.tankround.loads.Remedy.Kind;
import app.tankround.rounds.RoundId;
import app.tankround.rounds.RoundService;
import app.tankround.rounds.RoundView;
import app.tankround.rounds.StopView;
import app.tankround.schedule.Agreements;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.NewAgreement;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.schedule.TaskKind;
import app.tankround.schedule.TaskUse;
import app.tankround.schedule.TaskUses;
import app.tankround.schedule.TaskView;
import app.tankround.tanks.WaterSystemId;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBusiness;
import app.tankround.testing.TestClock;
import app.tankround.units.SockSize;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.test.web.servlet.assertj.MockMvcTester;
import org.springframework.test.web.servlet.assertj.MvcTestResult;

/**
 * Two sites whose tanks evaporate 6 L a day, 42 L since a week ago, and between them one with its own RO/DI water, which may give
 * 60 L: with four drums 88.6 kg of the 80 that the van may carry beside the 120 that it carries every day.
 */
@SpringBootTest
@AutoConfigureMockMvc
@IntegrationTest
@Import(Maud.class)
class RefillOnTheWayTests {

    private static final LocalDate TODAY = LocalDate.of(2026, 11, 25);

    /** Pure water at 20 °C, kg/L (Tanaka et al., Metrologia 38 (2001) 301). */
    private static final double WATER_KG = 0.9982;

    @Autowired
    private MockMvcTester pages;

    @Autowired
    private Remedies remedies;

    @Autowired
    private RefillOnTheWay refills;

    @Autowired
    private LoadSheets sheets;

    @Autowired
    private LoadTicks ticks;

    @Autowired
    private LoadClosings closings;

    @Autowired
    private LoadReturns returns;

    @Autowired
    private TaskUses uses;

    @Autowired
    private RoundService rounds;

    @Autowired
    private Agreements agreements;

    @Autowired
    private DueVisits dueVisits;

    @Autowired
    private Maud maud;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private TestClock clock;

    private @Nullable TestBusiness business;

    @BeforeEach
    void prepare() {
        clock.set(Instant.parse("2026-11-24T05:00:00Z"));
        business = new TestBusiness(jdbc);
        jdbc.sql("update business set unit_system = 'METRIC'").update();
    }

    /** As little as is enough is asked for, it is done by one tap, and one more takes it back. */
    @Test
    void refillIsFoundDoneAndTakenBack() throws Exception {
        RoundId id = heavyRound();
        RoundView planned = rounds.require(id);
        LoadSheet before = sheets.loadSheet(id);
        // And a sock of 0.3 kg.
        assertThat(before.lifted().kilograms()).isCloseTo(84 * WATER_KG + 4 * 1.2 + 0.3, within(0.05));
        Remedy remedy = refill(id);
        assertThat(remedy.settles()).isTrue();
        Remedy.Choice.Refill choice = (Remedy.Choice.Refill) remedy.choice();
        PlannedVisitId visit = visit(id, "Spring");
        assertThat(choice.litres()).containsOnlyKeys(visit);
        BigDecimal litres = Objects.requireNonNull(choice.litres().get(visit));
        // 9 kg too much, and a drum more may go along; a twentieth of the 42 that are needed is less than 3.
        assertThat(litres.doubleValue()).isBetween(9.0, 14.0);
        int minutes = RefillOnTheWay.minutes(litres);
        assertThat(minutes).isEqualTo(10 + (int) Math.ceil(litres.doubleValue() / 5));
        assertThat(remedy.price()).isPositive();
        assertThat(Maud.text(maud.opens("/rounds/" + id + "/remedies")))
                .contains(
                        "Fill on the way",
                        "Containers for later stops leave empty. Fill " + litres + " L of RO/DI water at stop 2",
                        minutes + " minutes more there.",
                        "Then it fits")
                .doesNotContain("??");

        assertThat(send(id, planned.version(), visit, litres.toPlainString())).hasStatus(302);

        LoadSheet after = sheets.loadSheet(id);
        assertThat(after.fitsOnTheWay()).isTrue();
        assertThat(after.lighter()).isTrue();
        assertThat(after.total().kilograms()).isCloseTo(remedy.left().mass().kilograms(), within(1e-6));
        assertThat(after.refilledAt(2).litres()).isEqualTo(litres.doubleValue());
        // The depot makes what is not filled on the way, and the stops get as much as before.
        assertThat(after.purifiedWater().litres()).isCloseTo(84 - litres.doubleValue(), within(1e-6));
        assertThat(after.waterFor(1).litres()).isCloseTo(42, within(1e-6));
        assertThat(after.waterFor(3).litres()).isCloseTo(42, within(1e-6));
        // With its water the van is no lighter than before once it left the spring, but for drums that are parted
        // otherwise.
        assertThat(after.legs().get(2).mass().kilograms())
                .isCloseTo(before.legs().get(2).mass().kilograms(), within(1.3));
        assertThat(after.legs().get(1).mass().kilograms())
                .isCloseTo(before.legs().get(1).mass().kilograms() - litres.doubleValue() * WATER_KG, within(1.3));
        assertThat(dueVisits.require(visit).tasks())
                .filteredOn(task -> task.kind() == TaskKind.WORK)
                .extracting(task -> task.item().orElse(""))
                .singleElement()
                .asString()
                .startsWith("Fill " + litres + " L of RO/DI water for the stops after this one");
        assertThat(rounds.require(id).stops().get(1).departs())
                .isEqualTo(planned.stops().get(1).departs().plusMinutes(minutes));
        assertThat(Maud.text(maud.opens("/rounds/" + id + "/load")))
                .contains(
                        "Empty drums to fill on the way",
                        "empty: fill " + litres + " L of RO/DI water in all at stop 2",
                        "Measure its dissolved solids first",
                        "/rounds/" + id + "/remedies")
                .doesNotContain("??");
        assertThat(Maud.text(maud.opens("/rounds/" + id + "/remedies")))
                .contains(litres + " L of RO/DI water are filled for the stops after it.");
        assertThat(decidedBy(visit)).isEqualTo("Maud");

        assertThat(pages.post()
                        .uri("/rounds/" + id + "/remedies/back")
                        .param("visit", visit.toString())
                        .with(authentication(maud.signedIn()))
                        .with(csrf())
                        .exchange())
                .hasStatus(302);
        assertThat(sheets.loadSheet(id).total().kilograms())
                .isCloseTo(before.total().kilograms(), within(1e-9));
        assertThat(rounds.require(id).stops()).isEqualTo(planned.stops());
        assertThat(dueVisits.require(visit).tasks()).extracting(TaskView::kind).doesNotContain(TaskKind.WORK);
    }

    /** Behind the stops that need water there is nothing to fill; before all of them the van is too heavy once it is filled. */
    @Test
    void refillBehindOrBeforeAllThatNeedItIsNotOffered() {
        for (int opens : List.of(7, 16)) {
            SiteId spring = spring(opens);
            RoundId id = round(van(), dry("East", 9), dry("South", 12), spring);
            assertThat(rounds.require(id).stops())
                    .element(opens == 7 ? 0 : 2)
                    .satisfies(stop -> assertThat(stop.siteId()).isEqualTo(spring));
            assertThat(remedies.of(id).now().fits()).isFalse();
            assertThat(remedies.of(id).remedies())
                    .isNotEmpty()
                    .extracting(remedy -> remedy.choice().kind())
                    .doesNotContain(Kind.REFILL_ON_THE_WAY);
        }
    }

    @Test
    void nothingIsOfferedNorFilledWhereASystemIsSick() throws Exception {
        RoundId id = heavyRound();
        PlannedVisitId visit = visit(id, "Spring");
        maud.does(() -> decide(visit, "20"));
        assertThat(sheets.loadSheet(id).refilledAt(2).litres()).isEqualTo(20);
        SiteId site = dueVisits.require(visit).siteId();
        UUID sick = business().system(site.value(), "Beside it", "QUARANTINE");
        assertThat(sheets.loadSheet(id).refilledAt(2).litres()).isZero();
        assertThat(sheets.loadSheet(id).purifiedWater().litres()).isCloseTo(84, within(1e-6));
        assertThat(Maud.text(maud.opens("/rounds/" + id + "/load"))).contains("since a system there is sick");
        maud.does(() -> {
            remedies.takeBack(id, visit);
            return id;
        });
        assertThat(remedies.of(id).remedies())
                .extracting(remedy -> remedy.choice().kind())
                .doesNotContain(Kind.REFILL_ON_THE_WAY);
        assertRefused("loads.refill.sick", () -> maud.does(() -> decide(visit, "20")));
        jdbc.sql("update water_system set infection_class = 'HEALTHY' where id = :id")
                .param("id", sick)
                .update();
        maud.does(() -> decide(visit, "20"));
        assertThat(sheets.loadSheet(id).refilledAt(2).litres()).isEqualTo(20);
    }

    @Test
    void refusesWhatTheSiteDoesNotAllow() throws Exception {
        RoundId id = heavyRound();
        PlannedVisitId visit = visit(id, "Spring");
        for (String litres : List.of("0", "-1", "60.1", "1000")) {
            assertRefused("loads.refill.out-of-range", () -> maud.does(() -> decide(visit, litres)));
        }
        assertRefused("loads.refill.cannot", () -> maud.does(() -> decide(visit(id, "East"), "10")));
        int version = rounds.require(id).version();
        assertThat(send(id, version, visit, "61"))
                .hasStatus(422)
                .bodyText()
                .contains("61 L at Spring", "above 0, and up to the 60 L that the site allows");
        assertThat(send(id, version, visit(id, "East"), "10"))
                .hasStatus(422)
                .bodyText()
                .contains("At East no water can be taken along");
        assertThat(send(id, version, PlannedVisitId.of(UUID.randomUUID()), "10"))
                .hasStatus(422)
                .bodyText()
                .contains("not on this round any more");
        assertThat(send(id, version + 1, visit, "10")).hasStatus(409);
        assertThat(refills.among(List.of(visit, visit(id, "East")))).isEmpty();
        maud.does(() -> decide(visit, "60"));
        jdbc.sql("update site set refill_litres = 15 where name = 'Spring'").update();
        assertThat(sheets.loadSheet(id).refilledAt(2).litres()).isEqualTo(15);
        jdbc.sql("update site set refill_litres = null where name = 'Spring'").update();
        assertThat(sheets.loadSheet(id).refilledAt(2).litres()).isZero();
        assertThat(Maud.text(maud.opens("/rounds/" + id + "/load"))).contains("the site allows none any more");
    }

    /** Of two people who decide at once one does; the other is told what stands, or has decided on the same. */
    @Test
    void twoPeopleAtOnceDecideOnce() throws Exception {
        RoundId id = heavyRound();
        PlannedVisitId visit = visit(id, "Spring");
        List<Callable<PlannedVisitId>> both =
                List.of(() -> maud.does(() -> decide(visit, "20")), () -> maud.does(() -> decide(visit, "30")));
        int refused = 0;
        try (var people = Executors.newFixedThreadPool(2)) {
            for (Future<PlannedVisitId> each : people.invokeAll(both)) {
                try {
                    each.get();
                } catch (java.util.concurrent.ExecutionException e) {
                    assertThat(e.getCause())
                            .isInstanceOfSatisfying(
                                    FieldRefusal.class,
                                    refusal -> assertThat(refusal.code()).isEqualTo("loads.refill.decided"));
                    refused++;
                }
            }
        }
        assertThat(refused).isEqualTo(1);
        BigDecimal stands = Objects.requireNonNull(refills.among(List.of(visit)).get(visit));
        maud.does(() -> decide(visit, stands.toPlainString()));
        assertThat(dueVisits.require(visit).tasks())
                .filteredOn(task -> task.kind() == TaskKind.WORK)
                .hasSize(1);
    }

    /**
     * Loaded, then decided: drums are taken out again. Closed and driven, what was filled on the way counts as gone out, once
     * somebody was at the spring.
     */
    @Test
    void sheetChangesAndReturnReckonWithWhatWasFilled() throws Exception {
        RoundId id = heavyRound();
        PlannedVisitId visit = visit(id, "Spring");
        int version = rounds.require(id).version();
        for (LoadLine line : sheets.loadSheet(id).lines()) {
            maud.does(() -> ticks.tick(id, version, line.key(), line.amount(), true));
        }
        clock.set(Instant.parse("2026-11-24T06:00:00Z"));
        maud.does(() -> decide(visit, "59"));
        assertThat(Maud.text(maud.opens("/rounds/" + id + "/load")))
                .contains("Take out 2 drums of 25 L", "Empty drums to fill on the way");
        int now = rounds.require(id).version();
        Map<String, String> reasons = new HashMap<>();
        for (LoadLine line : sheets.loadSheet(id).lines()) {
            maud.does(() -> ticks.tick(id, now, line.key(), line.amount(), true));
            reasons.put(line.key(), "known");
        }
        maud.does(() -> closings.close(id, now, reasons));
        assertThat(water(id).loaded()).isEqualByComparingTo("42");

        clock.set(Instant.parse("2026-11-25T15:00:00Z"));
        done(visit);
        assertThat(water(id).loaded()).isEqualByComparingTo("84");
        assertThat(water(id).used()).isEqualByComparingTo("0");
        PlannedVisitId east = visit(id, "East");
        PlannedVisitId south = visit(id, "South");
        uses.record(
                UUID.randomUUID(),
                TODAY,
                List.of(new TaskUse(dueVisits.require(east).waterSystemId(), TaskKind.TOP_UP, "", 42, 40)));
        done(east);
        done(south);
        assertThat(water(id).used()).isEqualByComparingTo("82");
        assertThat(water(id).left()).isEqualByComparingTo("2");
        // What was done is not taken back.
        maud.does(() -> {
            refills.takeBack(visit);
            return id;
        });
        assertThat(refills.among(List.of(visit))).containsKey(visit);
    }

    /** In a business that reads US gallons the task and the page say gallons. */
    @Test
    void saysGallonsWhereTheBusinessReadsThem() throws Exception {
        RoundId id = heavyRound();
        PlannedVisitId visit = visit(id, "Spring");
        jdbc.sql("update business set unit_system = 'US_CUSTOMARY'").update();
        maud.does(() -> decide(visit, "37.85411784"));
        assertThat(dueVisits.require(visit).tasks())
                .extracting(task -> task.item().orElse(""))
                .anyMatch(task -> task.startsWith("Fill 10 gal of RO/DI water"));
        assertThat(Maud.text(maud.opens("/rounds/" + id + "/load"))).contains("fill 10 gal of RO/DI water in all");
        jdbc.sql("update business set unit_system = 'METRIC'").update();
    }

    private ReturnSheet.Thing water(RoundId id) {
        return returns.of(id).things().stream()
                .filter(thing -> thing.key().equals("ro-di"))
                .findFirst()
                .orElseThrow();
    }

    private void done(PlannedVisitId visit) {
        jdbc.sql("update planned_visit set state = 'DONE', done_on = :today where id = :id")
                .param("today", TODAY)
                .param("id", visit.value())
                .update();
    }

    private String decidedBy(PlannedVisitId visit) {
        return jdbc.sql("""
                        select p.name from refill_on_the_way r
                        join person p on p.id = r.person_id
                        where r.planned_visit_id = :id and r.decided_at is not null
                        """).param("id", visit.value()).query(String.class).single();
    }

    private PlannedVisitId decide(PlannedVisitId visit, String litres) {
        refills.decide(visit, new BigDecimal(litres));
        return visit;
    }

    private MvcTestResult send(RoundId id, int version, PlannedVisitId visit, String litres) {
        return pages.post()
                .uri("/rounds/" + id + "/remedies")
                .param("version", String.valueOf(version))
                .param("kind", "REFILL_ON_THE_WAY")
                .param("visits", visit.toString())
                .param("litres", litres)
                .with(authentication(maud.signedIn()))
                .with(csrf())
                .exchange();
    }

    private static void assertRefused(String code, Callable<?> work) {
        assertThatThrownBy(work::call)
                .isInstanceOfSatisfying(
                        FieldRefusal.class,
                        refusal -> assertThat(refusal.code()).isEqualTo(code));
    }

    private Remedy refill(RoundId id) {
        return remedies.of(id).remedies().stream()
                .filter(remedy -> remedy.choice().kind() == Kind.REFILL_ON_THE_WAY)
                .findFirst()
                .orElseThrow();
    }

    private PlannedVisitId visit(RoundId round, String site) {
        return rounds.require(round).stops().stream()
                .filter(stop -> stop.siteName().equals(site))
                .map(StopView::plannedVisits)
                .findFirst()
                .orElseThrow()
                .getFirst();
    }

    private RoundId heavyRound() {
        RoundId id = round(van(), spring(10), dry("East", 7), dry("South", 12));
        assertThat(rounds.require(id).stops())
                .extracting(StopView::siteName)
                .containsExactly("East", "Spring", "South");
        return id;
    }

    private VanId van() {
        VanId van = VanId.of(business().van("Van", 52, 5));
        jdbc.sql("update van set payload_kg = 200 where id = :id")
                .param("id", van.value())
                .update();
        return van;
    }

    /** @param opens hour from which on somebody is there, two hours long */
    private SiteId spring(int opens) {
        UUID site = business().site("Spring", 52.01, 5, LocalTime.of(opens, 0), LocalTime.of(opens + 2, 0));
        jdbc.sql("update site set own_ro_di = true, refill_litres = 60 where id = :id")
                .param("id", site)
                .update();
        visited(site, "Spring", 0, TaskView.sockSwap(1, SockSize.ofDiameter(100), 7));
        return SiteId.of(site);
    }

    private SiteId dry(String name, int opens) {
        UUID site = business().site(name, 52.02, 5, LocalTime.of(opens, 0), LocalTime.of(opens + 2, 0));
        visited(site, name, 6, TaskView.topUp());
        return SiteId.of(site);
    }

    /** One system that is looked after every Wednesday, as tomorrow. */
    private void visited(UUID site, String name, double evaporation, TaskView task) {
        UUID system = business().system(site, name + " system", "HEALTHY");
        jdbc.sql("update water_system set evaporation_l_day = :litres where id = :id")
                .param("litres", evaporation)
                .param("id", system)
                .update();
        agreements.add(new NewAgreement(
                "A-" + system,
                WaterSystemId.of(system),
                1,
                Set.of(DayOfWeek.WEDNESDAY),
                TODAY.minusDays(2),
                Optional.empty(),
                45,
                new BigDecimal("60"),
                List.of(task),
                Optional.of(TODAY)));
    }

    private RoundId round(VanId van, SiteId... sites) {
        return rounds.plan(TODAY, van, List.of(sites));
    }

    private TestBusiness business() {
        return Objects.requireNonNull(business);
    }
}
