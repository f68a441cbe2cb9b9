package app.tankround.readings.web;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.BusinessSettings;
import app.tankround.accounts.PersonId;
import app.tankround.accounts.Role;
import app.tankround.chemistry.DecisionRule;
import app.tankround.chemistry.VerdictCode;
import app.tankround.followups.FollowupView;
import app.tankround.followups.Followups;
import app.tankround.followups.Urgency;
import app.tankround.instruments.InstrumentId;
import app.tankround.persistence.Uuids;
import app.tankround.readings.Answer;
import app.tankround.readings.AssessmentView;
import app.tankround.readings.Bench;
import app.tankround.readings.NewReading;
import app.tankround.readings.ReadingId;
import app.tankround.readings.ReadingService;
import app.tankround.readings.VerdictGrounds;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.web.PageTester;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestClock;
import app.tankround.testing.TestPeople;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import java.math.BigDecimal;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.assertj.core.data.Offset;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;
import org.springframework.jdbc.core.simple.JdbcClient;

/** What a verdict came from is kept with it and shown, and the business chooses how it is decided. */
@SpringBootTest
@IntegrationTest
@AutoConfigureMockMvc
@Import({Bench.class, PageTester.class})
class ReadingGroundsTests {

    @Autowired
    private PageTester pages;

    @Autowired
    private Bench bench;

    @Autowired
    private ReadingService readings;

    @Autowired
    private BusinessProfile business;

    @Autowired
    private TestPeople people;

    @Autowired
    private Followups followups;

    @Autowired
    private TestClock clock;

    @Autowired
    private JdbcClient jdbc;

    private WaterSystemId system = WaterSystemId.of(new UUID(0, 0));
    private PersonId person = PersonId.of(new UUID(0, 0));

    @BeforeEach
    void setUp() {
        person = people.person(Role.OFFICE);
        people.person(Role.OWNER);
        system = bench.marineSystem();
    }

    @AfterEach
    void decideWithAGuardBandAgain() {
        decideBy(DecisionRule.GUARD_BAND);
    }

    @Test
    void keepsHowLikelyEachSideOfTheTargetIs() {
        NewReading reading = nitrate("38");
        readings.record(reading);

        AssessmentView kept = readings.require(reading.id()).assessment();

        assertThat(kept.verdict()).isEqualTo(VerdictCode.UNDECIDED);
        VerdictGrounds grounds = kept.grounds().orElseThrow();
        assertThat(grounds.decisionRule()).isEqualTo(DecisionRule.GUARD_BAND);
        // Phi((38 - 40) / 2.5) = Phi(-0.8) = 0.2119, table of the normal distribution, from memory.
        assertThat(grounds.above()).isEqualTo(0.2119, Offset.offset(0.00005));
        assertThat(grounds.below()).isZero();
        assertThat(grounds.inside()).isEqualTo(0.7881, Offset.offset(0.00005));
        assertThat(grounds.budget().combined()).isEqualTo(2.5, Offset.offset(1e-9));
    }

    @Test
    void showsChancesAndBudgetAndChecksOfAReading() {
        InstrumentId instrument = bench.refractometer();
        bench.check(instrument, bench.salinityStandard("35"), bench.daysAgo(10), "1.0266", "1.0266");
        NewReading reading = bench.gravity(system, instrument, person, "1.025", clock.instant());
        readings.record(reading);

        String page = pages.page(Role.OFFICE, "/readings/" + reading.id());

        assertThat(page)
                .contains("How sure this is", "Inside the target", "Decided with a guard band")
                .contains("Where the uncertainty comes from", "the smallest step of the scale", "The largest part: ")
                .contains("Checks it rests on", "1.0266");
        assertThat(pages.page(Role.OFFICE, "/systems/" + system + "/readings"))
                .contains("href=\"/readings/" + reading.id() + "\"");
    }

    @Test
    void saysInPlainNumbersWhatTheChancesAre() {
        NewReading reading = nitrate("38");
        readings.record(reading);

        assertThat(pages.page(Role.OFFICE, "/readings/" + reading.id()))
                .contains("79 of 100", "21 of 100", "Fewer than 1", "The largest part: the method itself")
                .contains("No check of the instrument is behind it");
    }

    @Test
    void namesSimpleAcceptanceWithEveryVerdictOnceItIsChosen() {
        BusinessSettings now = business.current();
        assertThat(pages.page(Role.OWNER, "/settings")).contains("How verdicts are decided");
        var saved = pages.post(
                Role.OWNER,
                "/settings",
                Map.ofEntries(
                        Map.entry("version", Integer.toString(now.version())),
                        Map.entry("name", now.name()),
                        Map.entry("currency", now.currency().getCode()),
                        Map.entry("country", now.country()),
                        Map.entry("locale", "en-IE"),
                        Map.entry("zone", now.zone().getId()),
                        Map.entry("unitSystem", now.unitSystem().name()),
                        Map.entry("gravityReference", now.gravityReference()),
                        Map.entry("saltYield", Double.toString(now.saltYield())),
                        Map.entry("decisionRule", "SIMPLE_ACCEPTANCE")));
        assertThat(saved).hasStatus3xxRedirection();
        assertThat(business.current().decisionRule()).isEqualTo(DecisionRule.SIMPLE_ACCEPTANCE);
        assertThat(jdbc.sql("select detail::text from change_log order by id desc limit 1")
                        .query(String.class)
                        .single())
                .contains("decisionRule", "GUARD_BAND", "SIMPLE_ACCEPTANCE");

        NewReading reading = nitrate("38");
        readings.record(reading);

        assertThat(readings.require(reading.id()).assessment().verdict()).isEqualTo(VerdictCode.INSIDE);
        for (String page :
                List.of("/readings/" + reading.id(), "/systems/" + system + "/readings", "/systems/" + system)) {
            assertThat(pages.page(Role.OFFICE, page)).contains("Inside, simple acceptance");
        }
        decideBy(DecisionRule.GUARD_BAND);
        assertThat(pages.page(Role.OFFICE, "/readings/" + reading.id()))
                .contains("Inside, simple acceptance", "Decided by simple acceptance");
    }

    @Test
    void keepsTheRuleOfThenWhenALaterCheckAssessesAgain() {
        decideBy(DecisionRule.SIMPLE_ACCEPTANCE);
        InstrumentId instrument = bench.refractometer();
        bench.check(instrument, bench.salinityStandard("35"), bench.daysAgo(10), "1.0266", "1.0266");
        NewReading reading = bench.gravity(system, instrument, person, "1.025", bench.daysAgo(5));
        readings.record(reading);
        decideBy(DecisionRule.GUARD_BAND);

        bench.check(instrument, bench.salinityStandard("35"), bench.daysAgo(1), "1.0268", "1.0268");

        assertThat(readings.require(reading.id()).assessment().grounds().orElseThrow())
                .returns(DecisionRule.SIMPLE_ACCEPTANCE, VerdictGrounds::decisionRule);
    }

    @Test
    void sendsSomebodyBackWhereWhatKillsCouldNotBeToldAndIsSettledByAReadingThatTells() {
        decideBy(DecisionRule.SIMPLE_ACCEPTANCE);
        // 0.03 plus or minus 0.05 against a limit of 0: Phi(1.2) = 0.885 for above, which the guard band leaves open.
        InstrumentId kit = bench.kit(Quantity.AMMONIA, "0.05", null);
        NewReading reading = ammonia("0.03", kit);
        readings.record(reading);

        assertThat(readings.require(reading.id()).assessment().verdict()).isEqualTo(VerdictCode.UNDECIDED);
        FollowupView open = matters().getFirst();
        assertThat(open.urgency()).isEqualTo(Urgency.NOW);
        assertThat(open.page()).isEqualTo("/readings/" + reading.id());
        assertThat(pages.page(Role.OFFICE, "/")).contains("the ammonia is too close to its limit to tell");
        assertThat(pages.page(Role.OFFICE, open.page()))
                .contains("Measure it again before you leave", "whatever the settings say");

        clock.advance(Duration.ofMinutes(10));
        readings.record(ammonia("0.4", kit));

        FollowupView deadly = matters().getFirst();
        assertThat(deadly.urgency()).isEqualTo(Urgency.DEADLY);
        assertThat(pages.page(Role.OFFICE, "/")).contains("the ammonia is above its limit, and it kills");
        assertThat(pages.page(Role.OFFICE, deadly.page()))
                .contains("Dangerous: ammonia kills", "Begin with the emergency plan at once");

        clock.advance(Duration.ofMinutes(10));
        readings.record(ammonia("0.05", kit).withAnswer(Answer.BELOW_DETECTION));

        assertThat(matters()).isEmpty();
    }

    private List<FollowupView> matters() {
        return followups.open().stream()
                .filter(open -> open.subjectId().equals(system.value()))
                .toList();
    }

    private NewReading nitrate(String value) {
        return NewReading.of(
                        ReadingId.of(Uuids.next(clock.instant())),
                        system,
                        Quantity.NITRATE,
                        new BigDecimal(value),
                        MeasurementUnit.MILLIGRAMS_PER_LITRE,
                        clock.instant(),
                        person)
                .withInstrument(bench.kit(Quantity.NITRATE, "5", null));
    }

    private NewReading ammonia(String value, InstrumentId kit) {
        return NewReading.of(
                        ReadingId.of(Uuids.next(clock.instant())),
                        system,
                        Quantity.AMMONIA,
                        new BigDecimal(value),
                        MeasurementUnit.MILLIGRAMS_PER_LITRE,
                        clock.instant(),
                        person)
                .withInstrument(kit);
    }

    private void decideBy(DecisionRule rule) {
        BusinessSettings now = business.current();
        business.save(new BusinessSettings(
                now.name(),
                now.email(),
                now.phone(),
                now.address(),
                now.currency(),
                now.country(),
                now.locale(),
                now.zone(),
                now.unitSystem(),
                now.gravityReference(),
                now.saltYield(),
                rule,
                now.version()));
    }
}
