package app.tankround.loads;

import static org.assertj.core.api.Assertions.assertThat;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.authentication;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.csrf;

import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.NewPerson;
import app.tankround.accounts.People;
import app.tankround.accounts.PersonId;
import app.tankround.accounts.Role;
import app.tankround.accounts.VanId;
import app.tankround.clients.SiteId;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.InstrumentKind;
import app.tankround.instruments.InstrumentRegister;
import app.tankround.instruments.NewInstrument;
import app.tankround.instruments.NewStandard;
import app.tankround.instruments.StandardId;
import app.tankround.instruments.StandardKind;
import app.tankround.instruments.StandardRegister;
import app.tankround.rounds.RoundChecks;
import app.tankround.rounds.RoundId;
import app.tankround.rounds.RoundService;
import app.tankround.schedule.Agreements;
import app.tankround.schedule.DueCheck;
import app.tankround.schedule.NewAgreement;
import app.tankround.schedule.TaskView;
import app.tankround.tanks.WaterSystemId;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBusiness;
import app.tankround.testing.TestClock;
import app.tankround.testing.TestPeople;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import java.io.UnsupportedEncodingException;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.security.core.Authentication;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.test.web.servlet.assertj.MockMvcTester;
import org.springframework.test.web.servlet.assertj.MvcTestResult;
import tools.jackson.databind.json.JsonMapper;

/** Checks of instruments as tasks of a round, on its pages, its load and at its stops. */
@SpringBootTest
@AutoConfigureMockMvc
@IntegrationTest
class RoundChecksIntegrationTests {

    private static final LocalDate TODAY = LocalDate.of(2026, 11, 25);

    @Autowired
    private MockMvcTester pages;

    @Autowired
    private RoundChecks checks;

    @Autowired
    private RoundService rounds;

    @Autowired
    private LoadSheets sheets;

    @Autowired
    private InstrumentRegister instruments;

    @Autowired
    private StandardRegister standards;

    @Autowired
    private Agreements agreements;

    @Autowired
    private People people;

    @Autowired
    private CurrentPerson currentPerson;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private TestClock clock;

    private @Nullable TestBusiness business;

    @BeforeEach
    void prepare() {
        clock.set(Instant.parse("2026-11-25T05:00:00Z"));
        business = new TestBusiness(jdbc);
    }

    @Test
    void aDueCheckIsATaskOfTheRoundUntilItIsRecorded() throws Exception {
        PersonId noor = person();
        StandardId bottle = standard("35");
        InstrumentId meter = meter(Optional.of(noor));
        RoundId round = round(noor, "07:30");
        String code = instruments.require(meter).code();
        String form = "/instruments/" + meter + "/checks/new?standard=" + bottle;

        for (String page : List.of("/rounds/" + round, "/rounds/" + round + "/load")) {
            assertThat(text(get(noor, page)))
                    .as(page)
                    .contains(
                            code,
                            "No check of it counts yet.",
                            standards.require(bottle).code(),
                            form)
                    .doesNotContain("??");
        }
        assertThat(atTheStop(noor, round))
                .contains(
                        code,
                        "No check of it counts yet.",
                        standards.require(bottle).code(),
                        meter.toString(),
                        bottle.toString());
        assertThat(keys(round))
                .contains(
                        "instrument:" + code,
                        "standard:" + standards.require(bottle).code());
        assertThat(text(get(noor, form))).contains("value=\"" + bottle + "\" selected=\"selected\"");

        assertThat(check(noor, meter, bottle, "35.1")).hasStatus3xxRedirection();

        assertThat(text(get(noor, "/rounds/" + round)))
                .contains(code, "Done 05:01")
                .doesNotContain(form);
        assertThat(atTheStop(noor, round)).doesNotContain(code);
        assertThat(keys(round))
                .doesNotContain("standard:" + standards.require(bottle).code());
        // Thirty days later it is due again, and overdue on the day after.
        assertThat(dueOn(noor, TODAY.plusDays(29), meter)).isEmpty();
        assertThat(dueOn(noor, TODAY.plusDays(30), meter)).contains(DueCheck.Why.DUE);
        assertThat(dueOn(noor, TODAY.plusDays(31), meter)).contains(DueCheck.Why.OVERDUE);
    }

    @Test
    void aSuspectOneStaysAndAnotherIsOfferedWhileItsRepeatWaitsForAnotherBottle() throws Exception {
        PersonId noor = person();
        StandardId bottle = standard("35");
        InstrumentId meter = meter(Optional.of(noor));
        InstrumentId other = meter(Optional.of(noor));
        assertThat(check(noor, meter, bottle, "33.5")).hasStatus3xxRedirection();
        assertThat(check(noor, other, bottle, "35")).hasStatus3xxRedirection();
        RoundId round = round(noor, "07:30");
        String code = instruments.require(meter).code();
        String good = instruments.require(other).code();

        assertThat(keys(round)).contains("instrument:" + good).doesNotContain("instrument:" + code);
        String load = text(get(noor, "/rounds/" + round + "/load"));
        assertThat(load)
                .contains(code + " stays here: it is suspect until a check in another standard or lot decides. Take "
                        + good + " instead.");
        assertThat(task(round, meter).why()).isEqualTo(DueCheck.Why.SUSPECT);
        assertThat(task(round, meter).standard().standard().map(standard -> standard.id()))
                .as("not the bottle in which it failed")
                .isNotEqualTo(Optional.of(bottle));

        StandardId second = standard("35");
        assertThat(task(round, meter).standard().standard().map(standard -> standard.id()))
                .contains(second);
        assertThat(check(noor, meter, second, "33.5")).hasStatus3xxRedirection();
        assertThat(checks.of(rounds.require(round)))
                .as("condemned, it is repaired and not checked")
                .noneMatch(each -> each.instrument().id().equals(meter));
        assertThat(text(get(noor, "/rounds/" + round + "/load")))
                .contains(code + " stays here: it is out of use. Take " + good + " instead.");
    }

    @Test
    void whatNobodyCarriesIsCheckedByWhoLeavesFirst() {
        PersonId early = person();
        PersonId late = person();
        InstrumentId shared = meter(Optional.empty());
        InstrumentId own = meter(Optional.of(late));
        RoundId second = round(late, "08:30");
        RoundId first = round(early, "05:30");

        assertThat(ids(first)).contains(shared).doesNotContain(own);
        assertThat(ids(second)).contains(own).doesNotContain(shared);
    }

    @Test
    void saysOnRoundAndLoadThatNoStandardIsToBeHad() throws Exception {
        PersonId noor = person();
        InstrumentId pen = instruments.add(instrument(
                "T-" + UUID.randomUUID(),
                InstrumentKind.OXYGEN_PROBE,
                Quantity.OXYGEN,
                MeasurementUnit.MILLIGRAMS_PER_LITRE,
                Optional.of(noor)));
        RoundId round = round(noor, "07:30");

        assertThat(task(round, pen).standard().standard()).isEmpty();
        for (String page : List.of("/rounds/" + round, "/rounds/" + round + "/load")) {
            assertThat(text(get(noor, page))).contains("No standard on the list fits it. Order one");
        }
        assertThat(atTheStop(noor, round)).contains("No standard on the list fits it. Order one");
    }

    private Optional<DueCheck.Why> dueOn(PersonId technician, LocalDate day, InstrumentId instrument) {
        clock.set(day.atTime(5, 0).toInstant(ZoneOffset.UTC));
        RoundId round = round(technician, "07:30", day);
        return checks.of(rounds.require(round)).stream()
                .filter(check -> check.instrument().id().equals(instrument))
                .map(DueCheck::why)
                .findFirst();
    }

    private DueCheck task(RoundId round, InstrumentId instrument) {
        return checks.of(rounds.require(round)).stream()
                .filter(check -> check.instrument().id().equals(instrument))
                .findFirst()
                .orElseThrow();
    }

    private List<InstrumentId> ids(RoundId round) {
        return checks.of(rounds.require(round)).stream()
                .map(check -> check.instrument().id())
                .toList();
    }

    private List<String> keys(RoundId round) {
        return sheets.loadSheet(round).lines().stream().map(LoadLine::key).toList();
    }

    /** What the page of a stop is told of checks. */
    private String atTheStop(PersonId technician, RoundId round) throws Exception {
        String bundle =
                text(get(technician, "/api/bundles/" + rounds.require(round).date()));
        return JsonMapper.shared()
                .readTree(bundle)
                .path("rounds")
                .valueStream()
                .filter(each -> each.path("id").asString().equals(round.toString()))
                .map(each -> each.path("checks").toString())
                .findFirst()
                .orElseThrow();
    }

    private InstrumentId meter(Optional<PersonId> holder) {
        return instruments.add(instrument(
                "C-" + UUID.randomUUID(),
                InstrumentKind.CONDUCTIVITY_METER,
                Quantity.SALINITY,
                MeasurementUnit.PRACTICAL_SALINITY,
                holder));
    }

    private static NewInstrument instrument(
            String code, InstrumentKind kind, Quantity quantity, MeasurementUnit unit, Optional<PersonId> holder) {
        return new NewInstrument(
                code,
                "Meter",
                kind,
                quantity,
                unit,
                Optional.empty(),
                Optional.empty(),
                new BigDecimal("0.1"),
                new BigDecimal("0.5"),
                30,
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                holder);
    }

    /** Opened today, later than all that other tests left. */
    private StandardId standard(String value) {
        jdbc.sql("update standard set opened_on = date '2026-01-01'").update();
        return standards.add(new NewStandard(
                "S-" + UUID.randomUUID(),
                "Standard",
                StandardKind.SEAWATER,
                Quantity.SALINITY,
                new BigDecimal(value),
                MeasurementUnit.PRACTICAL_SALINITY,
                new BigDecimal("0.1"),
                Optional.empty(),
                Optional.of("lot " + UUID.randomUUID()),
                Optional.of(TODAY),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty()));
    }

    private MvcTestResult check(PersonId by, InstrumentId instrument, StandardId standard, String shown) {
        clock.advance(Duration.ofSeconds(60));
        return pages.post()
                .uri("/instruments/" + instrument + "/checks/new")
                .param("on", TODAY.toString())
                .param(
                        "at",
                        LocalTime.ofInstant(
                                        clock.instant(), TestPeople.settings().zone())
                                .toString())
                .param("points[0].standardId", standard.toString())
                .param("points[0].asFound[0].value", shown)
                .param("farOffConfirmed", "true")
                .with(authentication(signedIn(by)))
                .with(csrf())
                .exchange();
    }

    private RoundId round(PersonId technician, String leaves) {
        return round(technician, leaves, TODAY);
    }

    /** One stop at a client of its own. */
    private RoundId round(PersonId technician, String leaves, LocalDate day) {
        VanId van = VanId.of(business().van("Van", 52, 5));
        jdbc.sql("update van set technician_id = :technician, leaves_at = cast(:leaves as time) where id = :id")
                .param("technician", technician.value())
                .param("leaves", leaves)
                .param("id", van.value())
                .update();
        UUID site = business().site("Harbour Dental", 52.1, 5, null, null);
        WaterSystemId system = WaterSystemId.of(business().system(site, "Reef", "HEALTHY"));
        agreements.add(new NewAgreement(
                "A-" + system,
                system,
                1,
                Set.of(day.getDayOfWeek()),
                day.minusDays(2),
                Optional.empty(),
                45,
                new BigDecimal("60"),
                List.of(TaskView.test(Quantity.SALINITY)),
                Optional.of(day)));
        return rounds.plan(day, van, List.of(SiteId.of(site)));
    }

    private PersonId person() {
        String name = "checks-" + UUID.randomUUID();
        return people.add(new NewPerson(PersonId.of(UUID.randomUUID()), name, "Noor", Role.TECHNICIAN, Locale.ENGLISH));
    }

    private MvcTestResult get(PersonId by, String address) {
        return pages.get().uri(address).with(authentication(signedIn(by))).exchange();
    }

    private static String text(MvcTestResult result) throws UnsupportedEncodingException {
        assertThat(result).doesNotHaveFailed();
        return result.getResponse().getContentAsString();
    }

    private Authentication signedIn(PersonId id) {
        try {
            return currentPerson.actingAs(
                    id,
                    () -> Objects.requireNonNull(
                            SecurityContextHolder.getContext().getAuthentication()));
        } catch (Exception impossible) {
            throw new AssertionError(impossible);
        }
    }

    private TestBusiness business() {
        return Objects.requireNonNull(business);
    }
}
