package app.tankround.instruments;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import app.tankround.chemistry.CheckOutcome;
import app.tankround.chemistry.CheckOutcomes;
import app.tankround.chemistry.CheckPoint;
import app.tankround.readings.Bench;
import app.tankround.testing.IntegrationTest;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.time.Instant;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.context.annotation.Import;

/** A check keeps every reading; what cannot be used for correcting is kept all the same. */
@SpringBootTest
@IntegrationTest
@Import(Bench.class)
class ReplicateChecksTests {

    @Autowired
    Bench bench;

    @Autowired
    CalibrationService calibrations;

    @Autowired
    InstrumentStandings standings;

    InstrumentId instrument = InstrumentId.of(new UUID(0, 0));
    StandardId standard = StandardId.of(new UUID(0, 0));

    @BeforeEach
    void setUp() {
        instrument = bench.refractometer();
        standard = bench.salinityStandard("35");
    }

    @Test
    void keepsEveryReadingWithTemperaturesAndWhatWasAdjusted() {
        calibrations.record(check(
                bench.daysAgo(1),
                Optional.of("screw turned"),
                point(standard, figures("1.0236", "1.0246", "1.0246"), figures("1.0266", "1.0266"))));

        CalibrationView kept = calibrations.of(instrument).getFirst();
        assertThat(kept.asFound()).isEqualTo(figures("1.0236", "1.0246", "1.0246"));
        // By hand: (1.0236 + 1.0246 + 1.0246) / 3 = 1.02427, one decimal more than was read.
        assertThat(kept.meanAsFound()).isEqualTo("1.02427");
        assertThat(kept.meanAsLeft()).isEqualTo("1.02660");
        assertThat(kept.temperature()).contains(new BigDecimal("20.5"));
        assertThat(kept.instrumentTemperature()).contains(new BigDecimal("12"));
        assertThat(kept.adjusted()).contains("screw turned");
        CheckPoint point =
                calibrations.history(instrument).checks().getFirst().points().getFirst();
        assertThat(point.asFound()).containsExactly(1.0236, 1.0246, 1.0246);
        assertThat(point.instrumentCelsius()).isEqualTo(12);
    }

    @Test
    void takesTheSameCheckTwiceForOneAndAnotherReadingForAnother() {
        Instant at = bench.daysAgo(1);
        NewCalibration once = check(at, Optional.empty(), point(standard, figures("1.0266", "1.0266"), List.of()));
        assertThat(calibrations.record(once).alreadyRecorded()).isFalse();
        assertThat(calibrations.record(once).alreadyRecorded()).isTrue();

        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() ->
                        calibrations.record(check(at, Optional.empty(), point(standard, figures("1.0266"), List.of()))))
                .returns("points[0].asFound[0]", FieldRefusal::field)
                .returns("instruments.check-never-changed", FieldRefusal::code);
        assertThat(calibrations.of(instrument)).hasSize(1);
    }

    /** Forms tell the minute. Salinity 35 is 1.0266 at 20/20 (EOS-80), so 1.0186 is 0.008 off and 1.0266 right. */
    @Test
    void takesASecondStandardInTheMinuteOfAFailedCheckForItsRepeat() {
        StandardId second = bench.salinityStandard("35");
        Instant minute = bench.daysAgo(1);
        bench.check(instrument, standard, bench.daysAgo(30), "1.0266", "1.0266");
        bench.check(instrument, standard, minute, "1.0186", "1.0186");
        assertThat(standings.standing(instrument)).isEqualTo(Standing.SUSPECT);

        bench.check(instrument, second, minute, "1.0266", "1.0266");

        assertThat(standings.standing(instrument)).isEqualTo(Standing.IN_USE);
        var history = calibrations.history(instrument).history();
        var outcomes = new CheckOutcomes(history);
        assertThat(history.checks())
                .hasSize(3)
                .allSatisfy(check -> assertThat(check.points()).hasSize(1));
        assertThat(outcomes.of(1)).isEqualTo(CheckOutcome.REFUTED);
        assertThat(outcomes.of(2)).isEqualTo(CheckOutcome.PASSED);
        assertThat(calibrations.of(instrument).getLast().performedAt()).isEqualTo(minute.plusSeconds(1));
        assertThat(bench.check(instrument, second, minute, "1.0266", "1.0266").alreadyRecorded())
                .isTrue();
    }

    @Test
    void namesTheReadingThatCannotBe() {
        refused(point(standard, figures("1.0266", "10.266"), List.of()), "points[0].asFound[1]");
        refused(point(standard, List.of(), List.of()), "points[0].asFound[0]");
        refused(point(standard, Collections.nCopies(11, new BigDecimal("1.0266")), List.of()), "points[0].asFound[0]");
        assertThat(calibrations.of(instrument)).isEmpty();
    }

    @Test
    void wantsAReadingAfterAdjusting() {
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> calibrations.record(check(
                        bench.daysAgo(1), Optional.of("screw turned"), point(standard, figures("1.0236"), List.of()))))
                .returns("instruments.adjusted-without-reading", FieldRefusal::code);
    }

    /** Salinity 0 and 35 are 1.0000 and 1.0266 at 20/20; read as 1.0000 and 1.0306 the gain is 266 / 306 = 0.87. */
    @Test
    void keepsACheckWithAnImpossibleGainAsFoundAndCorrectsNothingByIt() {
        bench.check(instrument, standard, bench.daysAgo(30), "1.0266", "1.0266");
        StandardId zero = bench.salinityStandard("0");

        RecordedCheck recorded = calibrations.record(check(
                bench.daysAgo(1),
                Optional.empty(),
                point(zero, figures("1.000"), List.of()),
                point(standard, figures("1.0306"), List.of())));

        assertThat(recorded.ids()).hasSize(2);
        assertThat(calibrations.of(instrument)).hasSize(3);
        assertThat(standings.standing(instrument)).isEqualTo(Standing.SUSPECT);
        var corrected = app.tankround.chemistry.InstrumentCorrection.correct(
                calibrations.history(instrument).history(),
                1.025,
                bench.daysAgo(0).getEpochSecond());
        assertThat(corrected.correctable()).isFalse();
        assertThat(corrected.reasons())
                .anySatisfy(reason -> assertThat(reason.code()).hasToString("GAIN_IMPLAUSIBLE"));
    }

    /** 1.0266 is right and 1.0206 is 0.006 off; their mean would fail, and that of 1.0266 four times and 1.0226 pass. */
    @Test
    void asksBackForReadingsThatPassAndFailInOneFormAndThenLetsThemSayNeither() {
        bench.check(instrument, standard, bench.daysAgo(30), "1.0266", "1.0266");
        for (List<BigDecimal> readings :
                List.of(figures("1.0266", "1.0206"), figures("1.0266", "1.0266", "1.0266", "1.0266", "1.0226"))) {
            NewCalibration once = check(bench.daysAgo(2), Optional.empty(), point(standard, readings, List.of()));
            assertThatExceptionOfType(FieldRefusal.class)
                    .isThrownBy(() -> calibrations.record(unconfirmed(once)))
                    .returns("points[0].asFound[0]", FieldRefusal::field)
                    .returns("instruments.readings-contradict", FieldRefusal::code);
            assertThat(calibrations.of(instrument)).hasSize(1);
        }

        RecordedCheck recorded = calibrations.record(
                check(bench.daysAgo(2), Optional.empty(), point(standard, figures("1.0266", "1.0206"), List.of())));

        assertThat(recorded.contradicts()).isTrue();
        assertThat(calibrations.of(instrument).getLast().asFound()).isEqualTo(figures("1.0266", "1.0206"));
        assertThat(standings.standing(instrument)).isEqualTo(Standing.IN_USE);
        CalibrationHistory history = calibrations.history(instrument);
        assertThat(new CheckOutcomes(history.history()).of(1)).isEqualTo(CheckOutcome.SET_ASIDE);
        assertThat(history.lastGoodBefore(bench.daysAgo(0))).contains(bench.daysAgo(30));
    }

    /** Neither does it confirm nor refute what another standard said. */
    @Test
    void settlesNoFailureByReadingsThatContradictEachOther() {
        bench.check(instrument, standard, bench.daysAgo(30), "1.0266", "1.0266");
        bench.check(instrument, standard, bench.daysAgo(3), "1.0186", "1.0186");
        StandardId second = bench.salinityStandard("35", "other");

        calibrations.record(check(
                bench.daysAgo(2), Optional.empty(), point(second, figures("1.0266", "1.0266", "1.0206"), List.of())));

        assertThat(standings.standing(instrument)).isEqualTo(Standing.SUSPECT);
    }

    private static NewCalibration unconfirmed(NewCalibration check) {
        return new NewCalibration(
                check.instrumentId(),
                check.performedAt(),
                check.person(),
                check.points(),
                check.instrumentTemperature(),
                check.adjusted(),
                check.note(),
                false);
    }

    /** One bottle twice says nothing about the slope. */
    @Test
    void refusesACheckWithBothStandardsEqual() {
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> calibrations.record(check(
                        bench.daysAgo(1),
                        Optional.empty(),
                        point(standard, figures("1.0266"), List.of()),
                        point(standard, figures("1.0256"), List.of()))))
                .returns("points[1].standardId", FieldRefusal::field)
                .returns("instruments.standard-twice", FieldRefusal::code);
        assertThat(calibrations.of(instrument)).isEmpty();
    }

    /** Two bottles of one value confirm each other; nothing is said about the slope. */
    @Test
    void takesTwoBottlesOfOneValueForOnePoint() {
        calibrations.record(check(
                bench.daysAgo(1),
                Optional.empty(),
                point(standard, figures("1.0266"), List.of()),
                point(bench.salinityStandard("35"), figures("1.0266"), List.of())));

        var corrected = app.tankround.chemistry.InstrumentCorrection.correct(
                calibrations.history(instrument).history(),
                1.025,
                bench.daysAgo(0).getEpochSecond());
        assertThat(corrected.correctable()).isTrue();
        assertThat(corrected.reasons())
                .anySatisfy(reason -> assertThat(reason.code()).hasToString("ONE_POINT_ONLY"));
    }

    @Test
    void refusesACheckBeforeItWasBoughtOrInTheFuture() {
        Instant bought = Instant.parse("2023-12-31T10:00:00Z");
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> bench.check(instrument, standard, bought, "1.0266", "1.0266"))
                .returns("performedAt", FieldRefusal::field)
                .returns("instruments.check-before-purchase", FieldRefusal::code);
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> bench.check(instrument, standard, bench.daysAgo(-1), "1.0266", "1.0266"))
                .returns("performedAt", FieldRefusal::field)
                .returns("instruments.check-in-future", FieldRefusal::code);
        assertThat(calibrations.of(instrument)).isEmpty();
    }

    private void refused(NewCalibration.Point point, String field) {
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> calibrations.record(check(bench.daysAgo(1), Optional.empty(), point)))
                .returns(field, FieldRefusal::field);
    }

    private NewCalibration check(Instant at, Optional<String> adjusted, NewCalibration.Point... points) {
        return new NewCalibration(
                instrument,
                at,
                Optional.empty(),
                List.of(points),
                Optional.of(new BigDecimal("12")),
                adjusted,
                Optional.empty(),
                true);
    }

    private static NewCalibration.Point point(StandardId standard, List<BigDecimal> found, List<BigDecimal> left) {
        return new NewCalibration.Point(standard, found, left, Optional.of(new BigDecimal("20.5")));
    }

    private static List<BigDecimal> figures(String... readings) {
        return Stream.of(readings).map(BigDecimal::new).toList();
    }
}
