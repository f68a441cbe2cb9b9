package app.tankround.tablet;

import static app.tankround.tanks.web.PageTester.body;
import static app.tankround.tanks.web.PageTester.value;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.within;

import app.tankround.accounts.Role;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.InstrumentKind;
import app.tankround.instruments.InstrumentRegister;
import app.tankround.persistence.Uuids;
import app.tankround.plans.CorrectivePlanId;
import app.tankround.plans.CorrectivePlans;
import app.tankround.plans.LowSumpSalinity;
import app.tankround.plans.NewPlan;
import app.tankround.plans.PlanFollowing;
import app.tankround.plans.PlanMaking;
import app.tankround.plans.PlanState;
import app.tankround.plans.PlanView;
import app.tankround.readings.Bench;
import app.tankround.readings.NewReading;
import app.tankround.readings.ReadingId;
import app.tankround.readings.ReadingService;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.TaskKind;
import app.tankround.tanks.web.PageTester;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestClock;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.web.Entry;
import app.tankround.web.EntryAnswer;
import app.tankround.web.EntryAnswer.Status;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;

/**
 * 400 L of S 35, of which 20 L, 5 %, evaporated: what is left reads 35 / 0.95 = 36.84 until it is topped up with fresh water
 * (conservation of salt).
 */
@SpringBootTest
@IntegrationTest
@AutoConfigureMockMvc
@Import({Bench.class, PageTester.class})
class LowSumpAndPlansTests {

    private static final String EVAPORATED = "36.84";
    private static final String LOW =
            "{'system':'%s','atMark':false,'missing':'20','salinity':'36.84','salinityUnit':'S'}";
    private static final String FILLED = LOW.replace("'missing'", "'filledUp':'20','missing'");

    @Autowired
    private VisitFixture fixture;

    @Autowired
    private Bench bench;

    @Autowired
    private InstrumentRegister instruments;

    @Autowired
    private EntryInbox inbox;

    @Autowired
    private DayBundle bundles;

    @Autowired
    private ReadingService readings;

    @Autowired
    private CorrectivePlans plans;

    @Autowired
    private PlanMaking making;

    @Autowired
    private PlanFollowing following;

    @Autowired
    private DueVisits dueVisits;

    @Autowired
    private PageTester pages;

    @Autowired
    private TestClock clock;

    private VisitFixture.Stop stop;
    private InstrumentId instrument;

    @BeforeEach
    void startVisit() {
        stop = fixture.stop();
        instrument = instruments.add(bench.instrument(
                InstrumentKind.REFRACTOMETER,
                Quantity.SALINITY,
                MeasurementUnit.PRACTICAL_SALINITY,
                null,
                "0.01",
                "0.1"));
        bench.check(instrument, bench.salinityStandard("0"), bench.daysAgo(3), "0", "0");
        bench.check(instrument, bench.salinityStandard("35"), bench.daysAgo(3), "35", "35");
        assertThat(take("visit.start", "{'stop':'%s'}".formatted(stop.stop())).status())
                .isEqualTo(Status.APPLIED);
    }

    /** 36.84 with 5 % of the water missing is 36.84 x 0.95 = 35.0 once pure water is filled up (conservation of salt). */
    @Test
    void judgesASalinityAnewOnceSomebodySaysThatTheSumpIsLow() {
        EntryAnswer read = take("visit.reading", salinity(EVAPORATED));
        assertThat(read.args().get("verdict")).isEqualTo("ABOVE");

        String low = LOW.formatted(stop.system());
        EntryAnswer said = take("visit.top-up", low);

        String key = "reading/" + stop.system() + "/SALINITY";
        var readings = (Map<?, ?>) Objects.requireNonNull(said.args().get("readings"));
        assertThat(String.valueOf(readings.get(key)))
                .contains("overLowSump=true", "verdict=UNDECIDED", "Not judged: the sump was low", "about S 35.0 once");
        assertThat(String.valueOf(
                        bundles.of(stop.technician(), VisitFixture.TODAY, Optional.empty(), Optional.empty(), Locale.UK)
                                .get("visits")))
                .contains("Not judged: the sump was low");
    }

    @Test
    void comparesWithASalinityOfAnEarlierVisitOnly() {
        earlier("35");
        read(EVAPORATED);

        assertThat(say(low()))
                .contains("It reads S 36.8", "the last trusted S 35", "that is evaporation", "Top up 20 L of RO/DI")
                .contains("falls by S 1.8")
                .doesNotContain("salt water was lost", "waits");
    }

    @Test
    void takesNoSalinityOfAnEarlierLowSumpForTheTrustedOne() {
        earlier("35");
        read(EVAPORATED);
        low();
        clock.advance(Duration.ofDays(1));
        UUID next = UUID.randomUUID();
        assertThat(takeAt(next, "visit.start", "{'site':'%s'}".formatted(stop.site()), null)
                        .status())
                .isEqualTo(Status.APPLIED);

        assertThat(say(takeAt(next, "visit.top-up", LOW.formatted(stop.system()), null)))
                .contains("the last trusted S 35", "that is evaporation");
    }

    @Test
    void takesBackWhatAPlanDrewFromALowSumpAndWaits() {
        ReadingId before = earlier("38");
        PlanView plan = follow(35);
        read(EVAPORATED);
        assertThat(plan(plan).from()).isCloseTo(36.84, within(0.001));

        assertThat(say(low()))
                .contains("Neither fits", "The plan for salinity waits for a measurement after topping up.");

        assertThat(plan(plan).readingId()).isEqualTo(before);
        assertThat(plan(plan).steps()).isEqualTo(plan.steps());
        assertThat(stepsDue()).isEqualTo(plan.steps().size());
        String page = pages.page(Role.OFFICE, "/plans/" + plan.id());
        assertThat(page)
                .contains("Waits for a measurement after topping up", "S 36.8, was read while the sump was low")
                .contains("With 5% of the water missing by evaporation it is about S 35 once topped up");

        // What was read before the sump was filled up stays what it was when it is written anew.
        String written =
                String.valueOf(readings.byVisit(stop.visit()).getFirst().id());
        assertThat(take(
                                "visit.correct-reading",
                                salinity("36.9").replace("{", "{'reading':'" + written + "','reason':'Typed wrongly',"),
                                salinity(EVAPORATED))
                        .status())
                .isEqualTo(Status.APPLIED);
        assertThat(plan(plan).readingId()).isEqualTo(before);
        assertThat(take("visit.top-up", FILLED.formatted(stop.system()), LOW.formatted(stop.system()))
                        .status())
                .isEqualTo(Status.APPLIED);
        assertThat(plan(plan).readingId()).isEqualTo(before);
        assertThat(plans.lowSump(stop.system())).isPresent();

        read("37.5", salinity("36.9").replace("{", "{'reading':'" + written + "','reason':'Typed wrongly',"));

        assertThat(plan(plan).from()).isEqualTo(37.5);
        assertThat(plans.lowSump(stop.system())).isEmpty();
        assertThat(pages.page(Role.OFFICE, "/plans/" + plan.id())).doesNotContain("Waits for a measurement");
    }

    @Test
    void reopensAPlanThatALowSumpSeemedToEnd() {
        ReadingId before = earlier("33");
        PlanView plan = follow(35);
        read(EVAPORATED);
        assertThat(plan(plan).state()).isEqualTo(PlanState.DONE);

        low();

        assertThat(plan(plan).state()).isEqualTo(PlanState.RUNNING);
        assertThat(plan(plan).readingId()).isEqualTo(before);
        assertThat(stepsDue()).isEqualTo(plan.steps().size());
    }

    @Test
    void stopsAPlanThatWasMadeOfALowSump() {
        read(EVAPORATED);
        PlanView plan = follow(35);

        low();

        assertThat(plan(plan).state()).isEqualTo(PlanState.STOPPED);
        assertThat(pages.page(Role.OFFICE, "/plans/" + plan.id())).contains("was read while the sump was low. Fill up");
        assertThat(stepsDue()).isZero();
    }

    @Test
    void drawsFromASumpThatWasTakenForLowByMistake() {
        earlier("38");
        PlanView plan = follow(35);
        read("37");
        String mistaken = "{'system':'%s','atMark':false}".formatted(stop.system());
        take("visit.top-up", mistaken);
        assertThat(plan(plan).from()).isEqualTo(38);

        take("visit.top-up", "{'system':'%s','atMark':true}".formatted(stop.system()), mistaken);

        assertThat(plan(plan).from()).isEqualTo(37);
        assertThat(plans.lowSump(stop.system())).isEmpty();
    }

    @Test
    void plansNothingFromALowSumpUntilItIsToppedUpAndMeasured() {
        read(EVAPORATED);
        CorrectivePlanId proposed = making.propose(plan(35));
        low();

        LowSumpSalinity found = plans.lowSump(stop.system()).orElseThrow();
        assertThat(found.missingShare().orElseThrow()).isEqualTo(0.05);
        assertThat(found.toppedUp().orElseThrow()).isCloseTo(35, within(0.005));
        assertThat(plans.known(stop.system())).doesNotContainKey(Quantity.SALINITY);
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> making.propose(plan(35)))
                .returns("plans.sump-low", FieldRefusal::code);
        String page = pages.page(Role.OFFICE, "/plans/" + proposed);
        assertThat(body(pages.post(
                        Role.OFFICE, "/plans/" + proposed + "/start", Map.of("version", value(page, "version")))))
                .contains("this waits for a measurement after topping up");
        assertThat(plans.require(proposed).state()).isEqualTo(PlanState.PROPOSED);
        String ask = "/systems/" + stop.system() + "/plans/new?quantity=SALINITY";
        assertThat(pages.page(Role.OFFICE, ask))
                .contains("S 36.8, was read while the sump was low", "about S 35 once topped up with RO/DI water")
                .contains("let it mix, then measure")
                .doesNotContain("name=\"to\"");
        assertThat(pages.page(Role.OFFICE, "/systems/" + stop.system()))
                .contains("S 36.8, was read while the sump was low");

        take("visit.top-up", FILLED.formatted(stop.system()), LOW.formatted(stop.system()));
        assertThat(pages.page(Role.OFFICE, ask)).doesNotContain("name=\"to\"");
        read("35.8", salinity(EVAPORATED));

        assertThat(pages.page(Role.OFFICE, ask)).contains("S 35.8", "name=\"to\"");
        assertThat(plans.require(proposed).from()).isEqualTo(35.8);
        following.start(proposed, plans.require(proposed).version());
    }

    private ReadingId earlier(String practical) {
        Instant at = bench.daysAgo(2);
        ReadingId id = ReadingId.of(Uuids.next(at));
        readings.record(NewReading.of(
                        id,
                        stop.system(),
                        Quantity.SALINITY,
                        new BigDecimal(practical),
                        MeasurementUnit.PRACTICAL_SALINITY,
                        at,
                        bench.person())
                .withInstrument(instrument));
        return id;
    }

    private PlanView follow(double to) {
        CorrectivePlanId id = making.propose(plan(to));
        following.start(id, plans.require(id).version());
        return plans.require(id);
    }

    private NewPlan plan(double to) {
        return new NewPlan(
                CorrectivePlanId.of(UUID.randomUUID()),
                stop.system(),
                Quantity.SALINITY,
                to,
                Optional.empty(),
                1,
                0,
                0,
                0,
                0,
                100,
                1000,
                Optional.of("Agreed with the client"));
    }

    private PlanView plan(PlanView plan) {
        return plans.require(plan.id());
    }

    private long stepsDue() {
        return dueVisits.dueFor(stop.system()).stream()
                .filter(visit -> visit.tasks().stream()
                        .filter(task -> task.kind() == TaskKind.TEST)
                        .anyMatch(task -> task.quantity().equals(Optional.of(Quantity.SALINITY))))
                .count();
    }

    private void read(String practical) {
        read(practical, null);
    }

    private void read(String practical, @Nullable String base) {
        assertThat(take("visit.reading", salinity(practical), base).status()).isEqualTo(Status.APPLIED);
    }

    private String salinity(String practical) {
        return "{'system':'%s','quantity':'SALINITY','answer':'VALUE','value':'%s','unit':'S','instrument':'%s'}"
                .formatted(stop.system(), practical, instrument);
    }

    private EntryAnswer low() {
        return take("visit.top-up", LOW.formatted(stop.system()));
    }

    private static String say(EntryAnswer answer) {
        return String.valueOf(answer.args().get("words"));
    }

    private EntryAnswer take(String kind, String body) {
        return take(kind, body, null);
    }

    private EntryAnswer take(String kind, String body, @Nullable String base) {
        return takeAt(stop.visit(), kind, body, base);
    }

    /** Each a minute after the one before. */
    private EntryAnswer takeAt(UUID visit, String kind, String body, @Nullable String base) {
        clock.advance(Duration.ofMinutes(1));
        Entry now = fixture.entry(stop, kind, body, base);
        return inbox.take(new Entry(
                now.id(),
                kind,
                Optional.of(visit),
                now.device(),
                now.sequence(),
                clock.instant().atOffset(now.deviceTime().getOffset()),
                Duration.ZERO,
                now.base(),
                now.body(),
                now.author()));
    }
}
