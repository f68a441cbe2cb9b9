package app.tankround.tablet;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.accounts.CurrentPerson;
import app.tankround.followups.FollowupView;
import app.tankround.followups.Followups;
import app.tankround.followups.Urgency;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.InstrumentRegister;
import app.tankround.persistence.Uuids;
import app.tankround.plans.SafeRates;
import app.tankround.readings.Bench;
import app.tankround.readings.NewReading;
import app.tankround.readings.ReadingId;
import app.tankround.readings.ReadingService;
import app.tankround.schedule.TaskView;
import app.tankround.stock.BatchMeasurement;
import app.tankround.stock.NewWaterBatch;
import app.tankround.stock.WaterBatchId;
import app.tankround.stock.WaterBatchView;
import app.tankround.stock.WaterBatches;
import app.tankround.tanks.WaterSystemId;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestClock;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.visits.VisitId;
import app.tankround.visits.VisitService;
import app.tankround.web.EntryAnswer;
import app.tankround.web.EntryAnswer.Status;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.context.annotation.Import;

/**
 * A change of water is held against what may change in a day: S 1.3 up or down and 0.5 °C (trade-facts, common practice).
 * The system holds 400 L and shows S 35 (1.0266 at 20/20, EOS-80); by the straight line, 100 L of S 29 lower it to 33.5, and
 * 100 L of S 31 to 34.
 */
@SpringBootTest(webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT)
@IntegrationTest
@Import(Bench.class)
class WaterChangeGuardTests {

    @Autowired
    private VisitFixture fixture;

    @Autowired
    private Bench bench;

    @Autowired
    private EntryInbox inbox;

    @Autowired
    private VisitService visits;

    @Autowired
    private Followups followups;

    @Autowired
    private SafeRates rates;

    @Autowired
    private InstrumentRegister instruments;

    @Autowired
    private WaterBatches batches;

    @Autowired
    private ReadingService readings;

    @Autowired
    private CurrentPerson currentPerson;

    private VisitFixture.Stop stop;
    private InstrumentId sound;

    @BeforeEach
    void readTheTank() {
        sound = fixture.refractometer("1.0266");
        begin(fixture.stop());
        read(sound);
    }

    private void begin(VisitFixture.Stop begun) {
        stop = begun;
        take("visit.start", "{'stop':'%s'}".formatted(stop.stop()));
    }

    private void read(InstrumentId with) {
        assertThat(take("visit.reading", VisitFixture.salinity(stop, with, "1.0266"))
                        .status())
                .isEqualTo(Status.APPLIED);
    }

    private EntryAnswer take(String kind, String body) {
        return inbox.take(fixture.entry(stop, kind, body));
    }

    private EntryAnswer change(String members) {
        return take("visit.water-change", body(members));
    }

    private String body(String members) {
        return "{'system':'%s',%s}".formatted(stop.system(), members);
    }

    private static String fresh(String litres, String salinity) {
        return "'out':'%s','salinity':'%s','salinityUnit':'S'".formatted(litres, salinity);
    }

    private void assertAskedBack(EntryAnswer answer, String code) {
        assertThat(answer.status()).isEqualTo(Status.REFUSED);
        assertThat(answer.code()).isEqualTo(code);
        assertThat(answer.args().get("field")).isEqualTo("because");
        assertThat(String.valueOf(answer.args().get("words"))).isNotEqualTo(code);
        assertThat(visits.require(VisitId.of(stop.visit())).fields())
                .doesNotContainKey("water-change/" + stop.system());
    }

    private List<FollowupView> matters() {
        return followups.open().stream()
                .filter(matter -> matter.code().startsWith("visits.followup.water-change")
                        && matter.subjectId().equals(stop.system().value()))
                .toList();
    }

    @ParameterizedTest
    @CsvSource({
        "29, visits.water-change.salinity.lowered",
        "0, visits.water-change.salinity.lowered",
        "41, visits.water-change.salinity.raised",
        "31, ",
        "39, "
    })
    void asksBackWhatMovesTheSalinityFasterThanADayMay(String salinity, @Nullable String code) {
        EntryAnswer answer = change(fresh("100", salinity));

        if (code == null) {
            assertThat(answer.status()).isEqualTo(Status.APPLIED);
            assertThat(matters()).isEmpty();
        } else {
            assertAskedBack(answer, code);
        }
    }

    /** That salinity is read once a month at least: common practice, no source. */
    @ParameterizedTest
    @CsvSource({"59, ", "61, visits.salinity-too-old"})
    void asksForTheSalinityOfSaltWaterThatNobodyReadLately(int daysAgo, @Nullable String code) {
        begin(fixture.stop());
        Instant at = TestClock.START.minus(Duration.ofDays(daysAgo));
        readings.record(NewReading.of(
                ReadingId.of(Uuids.next(at)),
                WaterSystemId.of(stop.system().value()),
                Quantity.SALINITY,
                new BigDecimal("35"),
                MeasurementUnit.PRACTICAL_SALINITY,
                at,
                stop.technician()));

        EntryAnswer answer = change(fresh("20", "35"));

        if (code == null) {
            assertThat(answer.status()).isEqualTo(Status.APPLIED);
        } else {
            assertAskedBack(answer, code);
            assertThat(change(fresh("20", "35") + ",'because':'As every week'").status())
                    .isEqualTo(Status.APPLIED);
        }
    }

    @Test
    void saysFromWhereToWhereItWouldGoAndHowMuchADayMayBring() {
        assertThat(String.valueOf(change(fresh("100", "29")).args().get("words")))
                .contains("from S 35 down to S 33.5 at once", "S 1.3 a day", "new water (S 29)");
    }

    /** By masses at 25 °C: 300 L x 1.0234 kg/L of S 35 and 100 L x 0.9971 kg/L of none make S 26.42. */
    @Test
    void keepsAChangeThatWasMadeAllTheSameWithItsReasonAndTellsTheOfficeUntilItIsCorrected() {
        String rescue = body(fresh("100", "0") + ",'because':'Rescue, copper in the tank'");

        EntryAnswer answer = take("visit.water-change", rescue);

        assertThat(answer.status()).isEqualTo(Status.APPLIED);
        assertThat(answer.code()).isEqualTo("visits.water-change.given-against");
        assertThat(String.valueOf(answer.args().get("words")))
                .contains("The office is told", "from S 35 down to S 26.4");
        assertThat(matters()).singleElement().satisfies(matter -> {
            assertThat(matter.urgency()).isEqualTo(Urgency.NOW);
            assertThat(matter.args()).contains("Rescue, copper in the tank");
        });

        assertThat(inbox.take(fixture.entry(stop, "visit.water-change", body(fresh("100", "34")), rescue))
                        .status())
                .isEqualTo(Status.APPLIED);
        assertThat(matters()).isEmpty();
    }

    @Test
    void holdsRaisingAndLoweringAgainstTheRateOfTheirOwn() {
        rates.set(Optional.of(stop.system()), Quantity.SALINITY, Optional.of(0.5), Optional.of(3.0), "Anemones", 0);

        assertAskedBack(change(fresh("100", "38")), "visits.water-change.salinity.raised");
        assertThat(change(fresh("100", "25")).status()).isEqualTo(Status.APPLIED);
    }

    /** 100 L at 20 °C cool 300 L at 25 °C to 23.75. */
    @Test
    void asksBackWhatCoolsTheTankFasterThanADayMay() {
        take(
                "visit.reading",
                "{'system':'%s','quantity':'TEMPERATURE','answer':'VALUE','value':'25','unit':'degC','instrument':'%s'}"
                        .formatted(stop.system(), bench.thermometer()));
        String members = fresh("100", "35") + ",'temperature':'%s','temperatureUnit':'%s'";

        assertAskedBack(change(members.formatted("20", "degC")), "visits.water-change.temperature.lowered");
        assertThat(change(members.formatted("75", "degF")).status()).isEqualTo(Status.APPLIED);
    }

    @Test
    void asksBackWhatTakesMostOfTheWaterUnlessItWasAgreed() {
        assertAskedBack(change("'out':'300'"), "visits.water-change.most");
        assertThat(change("'out':'200'").status()).isEqualTo(Status.APPLIED);

        begin(fixture.stop(TaskView.waterChangePercent(new BigDecimal("70"))));
        read(sound);
        assertThat(change("'out':'300'").status()).isEqualTo(Status.APPLIED);
    }

    @Test
    void saysOfTankAndNewWaterThatOneDoubtedInstrumentMeasuredThatTheyOnlyMatched() throws Exception {
        InstrumentId suspect = fixture.refractometer("1.0186");
        begin(fixture.stop());
        read(suspect);
        String named = "'out':'40','salinity':'1.0266','salinityUnit':'SG','gravityReference':'20/20',"
                + "'salinityInstrument':'%s'";

        EntryAnswer answer = change(named.formatted(suspect));

        assertAskedBack(answer, "visits.water-change.only-matched.SUSPECT");
        assertThat(String.valueOf(answer.args().get("words")))
                .contains(
                        instruments.require(suspect).code(), "they matched", "correct that in one visit is the danger");
        assertThat(change(named.formatted(suspect) + ",'because':'Leak, it had to be filled'")
                        .status())
                .isEqualTo(Status.APPLIED);
        assertThat(matters())
                .extracting(FollowupView::code)
                .containsExactly("visits.followup.water-change.only-matched.SUSPECT");
    }

    @Test
    void saysTheSameOfABatchThatTheInstrumentLetOut() throws Exception {
        InstrumentId failing = fixture.refractometer("1.0266");
        WaterBatchView batch = released(failing);
        begin(fixture.stop());
        read(failing);
        fixture.check(failing, "1.0186", 1800);

        assertAskedBack(
                change("'out':'40','batch':'%s'".formatted(batch.id())), "visits.water-change.only-matched.SUSPECT");
    }

    @Test
    void asksBackNewWaterThatADoubtedInstrumentAloneMeasured() {
        InstrumentId suspect = fixture.refractometer("1.0186");

        assertAskedBack(
                change("'out':'40','salinity':'1.0266','salinityUnit':'SG','gravityReference':'20/20',"
                        + "'salinityInstrument':'%s'".formatted(suspect)),
                "visits.rests-on-alone.SUSPECT");
    }

    @Test
    void saysThatNobodyNamedWhatMeasuredTheNewWater() {
        assertThat(change(fresh("40", "35")).code()).isEqualTo("visits.water-change.unnamed");
    }

    @Test
    void refusesAnInstrumentOfAnotherQuantityAtItsField() {
        EntryAnswer answer = change(fresh("40", "35") + ",'salinityInstrument':'%s'".formatted(bench.thermometer()));

        assertThat(answer.code()).isEqualTo("readings.instrument-of-other-quantity");
        assertThat(answer.args().get("field")).isEqualTo("salinityInstrument");
    }

    private WaterBatchView released(InstrumentId with) throws Exception {
        WaterBatchView made = batches.make(new NewWaterBatch(
                WaterBatchId.of(UUID.randomUUID()),
                bench.vat(),
                "drum 4",
                new BigDecimal("180"),
                Optional.of(new BigDecimal("6.9")),
                Optional.of(new BigDecimal("34")),
                new BigDecimal("36")));
        var measured = new BatchMeasurement(
                ReadingId.of(Uuids.next(TestClock.START)), with, new BigDecimal("1.0266"), Optional.empty());
        return currentPerson.actingAs(stop.technician(), () -> batches.release(made.id(), made.version(), measured));
    }
}
