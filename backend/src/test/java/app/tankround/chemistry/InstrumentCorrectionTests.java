package app.tankround.chemistry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.within;

import app.tankround.units.OutOfRangeException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.RepeatedTest;
import org.junit.jupiter.api.RepetitionInfo;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/** The history of an instrument worked through by hand, on a meter that shows practical salinity. */
class InstrumentCorrectionTests {

    private static final long DAY = 86_400;

    /** Nothing is uncertain about it but what a test adds. */
    private static final InstrumentFacts EXACT = new InstrumentFacts(
            InstrumentKind.CONDUCTIVITY_METER,
            SalinityScale.practicalSalinity(),
            1e-9,
            0.5,
            30,
            3,
            0,
            0,
            0,
            1e-9,
            7,
            90);

    private static CheckPoint at35(String standard, double found, double left) {
        return CheckPoint.of(StandardRole.WORKING_RANGE, standard, 35, found, left, 0);
    }

    private static CalibrationCheck check(double day, CheckPoint... points) {
        return new CalibrationCheck("day " + day, Math.round(day * DAY), List.of(points));
    }

    private static CalibrationCheck check(double day, String standard, double found, double left) {
        return check(day, at35(standard, found, left));
    }

    private static CalibrationCheck check(double day, double found) {
        return check(day, "A", found, found);
    }

    private static CorrectedReading correct(
            InstrumentFacts facts, double value, double day, CalibrationCheck... checks) {
        return InstrumentCorrection.correct(InstrumentHistory.of(facts, List.of(checks)), value, Math.round(day * DAY));
    }

    private static double part(CorrectedReading corrected, UncertaintySource source) {
        return corrected.budget().lines().stream()
                .filter(line -> line.source() == source)
                .mapToDouble(UncertaintyBudget.Line::standardUncertainty)
                .findFirst()
                .orElse(0);
    }

    private static List<ReasonCode> codes(CorrectedReading corrected) {
        return corrected.reasons().stream().map(Reason::code).toList();
    }

    /** From 35 to 34 in 40 days, left open whether at once: the variance is f (1 - f) / 2 times the change squared. */
    @ParameterizedTest
    @CsvSource({"0, 0, 0", "10, -0.25, 0.306186", "20, -0.5, 0.353553", "30, -0.75, 0.306186", "40, -1, 0"})
    void runsTheErrorFromCheckToCheckAndLeavesOpenWhenItMoved(double day, double error, double standard) {
        CorrectedReading corrected = correct(EXACT.withPermittedError(2), 34.5, day, check(0, 35), check(40, 34));

        assertThat(corrected.error()).isCloseTo(error, within(1e-9));
        assertThat(corrected.standardUncertainty()).isCloseTo(standard, within(2e-6));
        if (day > 0 && day < 40) {
            assertThat(corrected.movement()).isEqualTo(ErrorMovement.OPEN);
            assertThat(codes(corrected)).contains(ReasonCode.ERROR_MOVED);
        }
    }

    /**
     * A check that adjusted from 34 to 35 in the second of the reading: the reading counts as made after it and says so; one
     * second earlier it counts as made before.
     */
    @Test
    void takesAReadingInTheSecondOfAnAdjustmentToComeAfterItAndSaysSo() {
        CalibrationCheck adjusted = check(40, CheckPoint.of(StandardRole.WORKING_RANGE, "A", 35, 34, 35, 0));

        CorrectedReading on = correct(EXACT.withPermittedError(2), 34.5, 40, check(0, 35), adjusted);
        CorrectedReading before = InstrumentCorrection.correct(
                InstrumentHistory.of(EXACT.withPermittedError(2), List.of(check(0, 35), adjusted)),
                34.5,
                adjusted.atEpochSecond() - 1);

        assertThat(on.error()).isCloseTo(0, within(1e-12));
        assertThat(on.reasons())
                .filteredOn(reason -> reason.code() == ReasonCode.ADJUSTED_AT_THIS_INSTANT)
                .singleElement()
                .satisfies(reason -> assertThat(reason.argument()).isCloseTo(1, within(1e-12)));
        assertThat(before.error()).isCloseTo(-1, within(1e-4));
        assertThat(codes(before)).doesNotContain(ReasonCode.ADJUSTED_AT_THIS_INSTANT);
    }

    @RepeatedTest(200)
    void meetsTheChecksWhateverTheyWere(RepetitionInfo seed) {
        Random random = new Random(seed.getCurrentRepetition());
        List<CalibrationCheck> checks = new ArrayList<>();
        double day = 0;
        for (int i = 0; i < 6; i++) {
            day += 1 + random.nextInt(60);
            double found = 35 + 0.4 * random.nextGaussian();
            double left = random.nextBoolean() ? 35 : found;
            double zero = 0.1 * random.nextGaussian();
            checks.add(check(
                    day,
                    CheckPoint.of(StandardRole.ZERO, "pure", 0, zero, zero, 0),
                    CheckPoint.of(StandardRole.WORKING_RANGE, "A", 35, found, left, 0)));
        }
        double value = 20 + 20 * random.nextDouble();
        InstrumentHistory history = InstrumentHistory.of(EXACT, checks);
        for (int i = 0; i < checks.size(); i++) {
            long at = checks.get(i).atEpochSecond();
            CorrectedReading on = InstrumentCorrection.correct(history, value, at);
            assertThat(on.error()).isCloseTo(checks.get(i).line(false).errorAt(value), within(1e-12));
            if (i > 0) {
                CorrectedReading before = InstrumentCorrection.correct(history, value, at - 1);
                assertThat(before.error()).isCloseTo(checks.get(i).line(true).errorAt(value), within(1e-4));
            }
        }
    }

    /** Standard deviation 0.06 after a day: a Brownian bridge half way through 36 days, and 0.06 * sqrt(9) after 9 days. */
    @Test
    void wandersMostHalfWayAndGoesOnAfterTheLastCheck() {
        InstrumentFacts wandering = EXACT.withDriftPerRootDay(0.06);
        CorrectedReading between = correct(wandering, 35, 18, check(0, 35), check(36, 35));
        CorrectedReading after = correct(wandering, 35, 9, check(0, 35));

        // The one interval without a change says "steadier": (2 * 0.06^2 + 0) / 3 a day.
        double perDay = 2 * 0.06 * 0.06 / 3;
        assertThat(part(between, UncertaintySource.DRIFT)).isCloseTo(Math.sqrt(perDay * 36 / 4), within(1e-9));
        assertThat(between.movement()).isEqualTo(ErrorMovement.STEADY);
        assertThat(part(after, UncertaintySource.DRIFT)).isCloseTo(0.18, within(1e-9));
        assertThat(after.budget().dominant()).isEqualTo(UncertaintySource.DRIFT);
    }

    @Test
    void growsWithTimeByItsOwnHistoryShrunkTowardsItsKind() {
        InstrumentFacts kind = EXACT.withDriftPerRootDay(0.02);
        double restless = correct(
                        kind, 35, 130, check(0, 35), check(30, 35.2), check(60, 34.9), check(90, 35.15), check(120, 35))
                .standardUncertainty();
        double calm = correct(kind, 35, 130, check(0, 35), check(30, 35), check(60, 35), check(90, 35), check(120, 35))
                .standardUncertainty();
        double unknown = correct(kind, 35, 130, check(120, 35)).standardUncertainty();

        assertThat(calm).isLessThan(unknown);
        assertThat(restless).isGreaterThan(unknown);
        // Four intervals weigh twice what the kind does: (2 * 0.02^2 + 4 * 0) / 6 a day.
        assertThat(calm).isCloseTo(0.02 * Math.sqrt(10 / 3.0), within(1e-6));
    }

    @Test
    void tellsADriftFromAStepWhereTheOtherChecksSay() {
        InstrumentFacts quiet = EXACT.withDriftPerRootDay(0.01).withPermittedError(3);
        CalibrationCheck[] drifting = {check(0, 35), check(30, 35.3), check(60, 35.6), check(90, 35.9), check(120, 36.2)
        };
        CalibrationCheck[] knocked = {check(0, 35), check(30, 35), check(60, 35), check(90, 36.5), check(120, 36.5)};

        CorrectedReading drift = correct(quiet, 35, 75, drifting);
        CorrectedReading step = correct(quiet, 35, 75, knocked);

        assertThat(drift.movement()).isEqualTo(ErrorMovement.DRIFT);
        assertThat(codes(drift)).contains(ReasonCode.ERROR_DRIFTED);
        assertThat(drift.error()).isCloseTo(0.75, within(1e-9));
        assertThat(drift.standardUncertainty()).isLessThan(0.1);
        assertThat(step.movement()).isEqualTo(ErrorMovement.STEP);
        assertThat(codes(step)).contains(ReasonCode.ERROR_STEPPED);
        // Either 0 or 1.5 with even odds: half of it, nearly.
        assertThat(step.error()).isCloseTo(0.75, within(1e-9));
        assertThat(step.standardUncertainty()).isBetween(0.73, 0.76);
        // What goes on drifting is less certain after the last check.
        assertThat(part(correct(quiet, 35, 150, drifting), UncertaintySource.DRIFT))
                .isGreaterThan(0.3 / Math.sqrt(3));
    }

    @Test
    void datesAStepByTheDropThatSomebodyNoticed() {
        InstrumentHistory history = new InstrumentHistory(
                EXACT.withPermittedError(2), List.of(check(0, 35), check(40, 33.5)), List.of(30 * DAY));

        CorrectedReading before = InstrumentCorrection.correct(history, 35, 29 * DAY);
        CorrectedReading after = InstrumentCorrection.correct(history, 35, 30 * DAY);

        assertThat(before.movement()).isEqualTo(ErrorMovement.STEP);
        assertThat(before.error()).isZero();
        assertThat(after.error()).isCloseTo(-1.5, within(1e-12));
        assertThat(after.standardUncertainty()).isLessThan(1e-6);
    }

    @Test
    void suspectsWhatWasDroppedUntilACheckPasses() {
        InstrumentHistory dropped = new InstrumentHistory(EXACT, List.of(check(0, 35)), List.of(10 * DAY));
        InstrumentHistory checked =
                new InstrumentHistory(EXACT, List.of(check(0, 35), check(15, 35.1)), List.of(10 * DAY));

        assertThat(InstrumentCorrection.correct(dropped, 35, 9 * DAY).status()).isEqualTo(InstrumentStatus.SOUND);
        CorrectedReading since = InstrumentCorrection.correct(dropped, 35, 12 * DAY);
        assertThat(since.status()).isEqualTo(InstrumentStatus.SUSPECT);
        assertThat(since.reasons()).contains(new Reason(ReasonCode.DROPPED, 2));
        assertThat(since.budget().dominant()).isEqualTo(UncertaintySource.UNCHECKED);
        assertThat(InstrumentCorrection.correct(checked, 35, 12 * DAY).status()).isEqualTo(InstrumentStatus.SOUND);
    }

    /** Weights (1 - x) and x of the two points, x = 17.5 / 35; GUM 5.1.2. */
    @Test
    void passesEachPointsUncertaintyOnWithItsOwnWeight() {
        CalibrationCheck uneven = check(
                0,
                CheckPoint.of(StandardRole.ZERO, "pure", 0, 0, 0, 0.02),
                CheckPoint.of(StandardRole.WORKING_RANGE, "A", 35, 35, 35, 0.2));

        assertThat(part(correct(EXACT, 0, 0, uneven), UncertaintySource.STANDARD))
                .isCloseTo(0.02, within(1e-12));
        assertThat(part(correct(EXACT, 35, 0, uneven), UncertaintySource.STANDARD))
                .isCloseTo(0.2, within(1e-12));
        assertThat(part(correct(EXACT, 17.5, 0, uneven), UncertaintySource.STANDARD))
                .isCloseTo(Math.hypot(0.01, 0.1), within(1e-12));
        assertThat(part(correct(EXACT, 42, 0, uneven), UncertaintySource.STANDARD))
                .isCloseTo(Math.hypot(0.004, 0.24), within(1e-12));
    }

    @Test
    void countsABottleUsedTwiceOnceAndTwoBottlesApart() {
        CheckPoint first = CheckPoint.of(StandardRole.WORKING_RANGE, "A", 35, 35, 35, 0.2);
        CheckPoint same = CheckPoint.of(StandardRole.WORKING_RANGE, "A", 35, 35, 35, 0.2);
        CheckPoint other = CheckPoint.of(StandardRole.WORKING_RANGE, "B", 35, 35, 35, 0.2);

        assertThat(part(correct(EXACT, 35, 10, check(0, first), check(20, same)), UncertaintySource.STANDARD))
                .isCloseTo(0.2, within(1e-12));
        assertThat(part(correct(EXACT, 35, 10, check(0, first), check(20, other)), UncertaintySource.STANDARD))
                .isCloseTo(0.2 / Math.sqrt(2), within(1e-12));
    }

    @Test
    void drawsALineThroughThreePointsAndAddsWhatTheyMissItBy() {
        CalibrationCheck bent = check(
                0,
                CheckPoint.of(StandardRole.ZERO, "pure", 0, 0, 0, 0),
                CheckPoint.of(StandardRole.WORKING_RANGE, "half", 20, 20.3, 20.3, 0),
                CheckPoint.of(StandardRole.WORKING_RANGE, "A", 40, 40, 40, 0));

        CorrectedReading corrected = correct(EXACT, 20.1, 0, bent);

        // Least squares by hand: readings 0, 20.3, 40, errors 0, 0.3, 0; mean reading 20.1, mean error 0.1.
        assertThat(corrected.error()).isCloseTo(0.1, within(1e-9));
        assertThat(part(corrected, UncertaintySource.SLOPE)).isCloseTo(0.24494 / Math.sqrt(3), within(1e-4));
    }

    /** Readings 35.1, 34.9, 35.0: s = 0.1, two degrees of freedom count as three, so s^2 is tripled; mean of three. */
    @Test
    void takesScatterFromRepeatedReadings() {
        CheckPoint repeated = new CheckPoint(
                StandardRole.WORKING_RANGE,
                "A",
                StandardState.SOUND,
                35,
                0,
                List.of(35.1, 34.9, 35.0),
                List.of(),
                null,
                null);

        CorrectedReading corrected = correct(EXACT, 35, 0, check(0, repeated));

        double single = 0.03;
        assertThat(part(corrected, UncertaintySource.REPLICATES))
                .isCloseTo(Math.sqrt(single + single / 3), within(1e-6));
        assertThat(corrected.error()).isCloseTo(0, within(1e-12));
    }

    @Test
    void doesNotCountRoundingTwice() {
        InstrumentFacts coarse = EXACT.withResolution(1);
        CheckPoint repeated = new CheckPoint(
                StandardRole.WORKING_RANGE,
                "A",
                StandardState.SOUND,
                35,
                0,
                List.of(35.0, 35.0, 35.0, 35.0, 35.0, 35.0, 35.0, 35.0, 35.0, 35.5),
                List.of(),
                null,
                null);

        CorrectedReading corrected = correct(coarse, 35, 0, check(0, repeated));

        assertThat(part(corrected, UncertaintySource.REPLICATES)).isZero();
        assertThat(part(corrected, UncertaintySource.RESOLUTION)).isCloseTo(Math.sqrt(2.0 / 12), within(1e-9));
    }

    @Test
    void allowsForAStandardFromAColdVan() {
        InstrumentFacts warm =
                new InstrumentFacts(EXACT.kind(), EXACT.scale(), 1e-9, 0.5, 30, 3, 0, 0, 0.065, 1e-9, 7, 90);
        CheckPoint cold = new CheckPoint(
                StandardRole.WORKING_RANGE, "A", StandardState.SOUND, 35, 0, List.of(35.0), List.of(), 5.0, 25.0);

        assertThat(part(correct(warm, 35, 0, check(0, cold)), UncertaintySource.TEMPERATURE))
                .isCloseTo(20 * 0.065 / Math.sqrt(3), within(1e-9));
    }

    @Test
    void sharesOfTheBudgetMakeOneAndNameTheLargest() {
        InstrumentFacts facts =
                UncertaintyDefaults.instrument(InstrumentKind.REFRACTOMETER, SalinityScale.practicalSalinity());
        CorrectedReading corrected = correct(facts, 33, 3, check(0, "A", 35, 35));

        assertThat(corrected.budget().lines().stream()
                        .mapToDouble(UncertaintyBudget.Line::share)
                        .sum())
                .isCloseTo(1, within(1e-12));
        assertThat(corrected.standardUncertainty()).isEqualTo(corrected.budget().combined());
        assertThat(corrected.budget().dominant()).isEqualTo(UncertaintySource.RESOLUTION);
    }

    @Test
    void waitsForASecondStandardBeforeItCondemns() {
        CorrectedReading alone = correct(EXACT, 34, 1, check(-30, 35), check(0, 34));
        CorrectedReading sameBottle = correct(EXACT, 34, 2, check(-30, 35), check(0, 34), check(1, 34));
        CorrectedReading confirmed = correct(EXACT, 34, 2, check(-30, 35), check(0, 34), check(1, "B", 34.1, 34.1));

        assertThat(alone.status()).isEqualTo(InstrumentStatus.SUSPECT);
        assertThat(codes(alone)).contains(ReasonCode.FAILURE_UNCONFIRMED);
        assertThat(alone.value()).isCloseTo(35, within(1e-9));
        assertThat(sameBottle.status()).isEqualTo(InstrumentStatus.SUSPECT);
        assertThat(confirmed.status()).isEqualTo(InstrumentStatus.CONDEMNED);
        assertThat(codes(confirmed)).contains(ReasonCode.FAILURE_CONFIRMED);
        assertThat(confirmed.trusted()).isFalse();
    }

    @Test
    void takesTwoStandardsOffToOneSideInOneCheckAsConfirmed() {
        CalibrationCheck both = check(
                0,
                CheckPoint.of(StandardRole.ZERO, "pure", 0, -1, -1, 0),
                CheckPoint.of(StandardRole.WORKING_RANGE, "A", 35, 34, 34, 0));

        assertThat(correct(EXACT, 34, 1, both).status()).isEqualTo(InstrumentStatus.CONDEMNED);
    }

    @Test
    void trustsItAgainOnceAdjustedAndConfirmedByTheSecondStandard() {
        CorrectedReading between =
                correct(EXACT, 34, -10, check(-30, 35), check(0, "A", 34, 35), check(1, "B", 35.1, 35.1));
        CorrectedReading since =
                correct(EXACT, 34, 2, check(-30, 35), check(0, "A", 34, 35), check(1, "B", 35.1, 35.1));

        assertThat(between.doubtful()).isTrue();
        assertThat(since.status()).isEqualTo(InstrumentStatus.SOUND);
        assertThat(since.trusted()).isTrue();
    }

    @Test
    void forgetsAFailureThatASecondStandardRefutes() {
        CalibrationCheck[] wrongBottle = {check(-30, 35), check(0, "old", 34, 34), check(1, "B", 35, 35)};

        CorrectedReading before = correct(EXACT, 34, -10, wrongBottle);
        CorrectedReading meanwhile = correct(EXACT, 34, 0.5, wrongBottle);
        CorrectedReading since = correct(EXACT, 34, 2, wrongBottle);

        assertThat(before.trusted()).isTrue();
        assertThat(before.value()).isCloseTo(34, within(1e-9));
        assertThat(meanwhile.status()).isEqualTo(InstrumentStatus.SOUND);
        assertThat(since.trusted()).isTrue();
    }

    /** Adjusted by -1 to a bottle that had evaporated: wrong from there until the second standard. */
    @Test
    void undoesAnAdjustmentToAWrongStandard() {
        CalibrationCheck[] misled = {check(-30, 35), check(0, "old", 36, 35), check(1, "B", 34, 35)};

        CorrectedReading before = correct(EXACT, 34, -10, misled);
        CorrectedReading misadjusted = correct(EXACT, 34, 0.5, misled);
        CorrectedReading since = correct(EXACT, 34, 2, misled);

        assertThat(before.value()).isCloseTo(34, within(1e-9));
        assertThat(before.doubtful()).isFalse();
        assertThat(misadjusted.value()).isCloseTo(35, within(1e-9));
        assertThat(misadjusted.doubtful()).isTrue();
        assertThat(since.value()).isCloseTo(34, within(1e-9));
        assertThat(since.status()).isEqualTo(InstrumentStatus.SOUND);
    }

    @ParameterizedTest
    @EnumSource(
            value = StandardState.class,
            names = {"EXPIRED", "SUSPICIOUS"})
    void letsNoDoubtfulStandardCondemnOrCorrect(StandardState state) {
        CalibrationCheck good = check(-10, 35);
        CalibrationCheck doubted = check(0, at35("old", 33, 33).withStandardState(state));
        CalibrationCheck again = check(1, at35("older", 33, 33).withStandardState(state));

        CorrectedReading since = correct(EXACT, 34, 2, good, doubted, again);
        CorrectedReading before = correct(EXACT, 34, -5, good, doubted, again);
        CorrectedReading cleared = correct(EXACT, 34, 4, good, doubted, again, check(3, 35));

        assertThat(since.status()).isEqualTo(InstrumentStatus.SUSPECT);
        assertThat(codes(since)).contains(ReasonCode.STANDARD_QUESTIONABLE);
        assertThat(since.value()).isCloseTo(34, within(1e-9));
        assertThat(before.doubtful()).isFalse();
        assertThat(before.trusted()).isTrue();
        assertThat(cleared.status()).isEqualTo(InstrumentStatus.SOUND);
    }

    @Test
    void letsABelievedStandardSpeakForADoubtfulOneBesideIt() {
        CalibrationCheck both =
                check(0, at35("old", 33, 33).withStandardState(StandardState.EXPIRED), at35("B", 35, 35));

        assertThat(correct(EXACT, 34, 1, both).status()).isEqualTo(InstrumentStatus.SOUND);
    }

    @Test
    void keepsACheckAgainstEqualStandardsButCorrectsNothingByIt() {
        CalibrationCheck equal = check(0, at35("A", 35, 35), at35("A", 35, 35));
        CalibrationCheck twoLots = check(0, at35("A", 35, 35), at35("B", 35.2, 35.2));

        CorrectedReading refused = correct(EXACT, 34, 1, equal);
        CorrectedReading meant = correct(EXACT, 34, 1, twoLots);

        assertThat(refused.correctable()).isFalse();
        assertThat(refused.status()).isEqualTo(InstrumentStatus.SUSPECT);
        assertThat(codes(refused)).contains(ReasonCode.STANDARDS_EQUAL);
        assertThat(refused.value()).isEqualTo(34);
        assertThat(meant.correctable()).isTrue();
        assertThat(meant.error()).isCloseTo(0.1, within(1e-12));
    }

    @Test
    void doesNotMindTheOrderOfChecks() {
        List<CalibrationCheck> checks =
                new ArrayList<>(List.of(check(0, 35), check(30, 35.2), check(60, 35.4), check(90, "B", 34, 35)));
        CorrectedReading sorted = InstrumentCorrection.correct(InstrumentHistory.of(EXACT, checks), 34, 70 * DAY);
        Collections.reverse(checks);

        assertThat(InstrumentCorrection.correct(InstrumentHistory.of(EXACT, checks), 34, 70 * DAY))
                .isEqualTo(sorted);
    }

    @ParameterizedTest
    @CsvSource({"0, 0", "11, 0", "1, 11"})
    void refusesNoReadingOrTooMany(int found, int left) {
        assertThatExceptionOfType(OutOfRangeException.class).isThrownBy(() -> point(found, left, 20.0));
    }

    @Test
    void refusesATemperatureNoStandardHas() {
        assertThatExceptionOfType(OutOfRangeException.class).isThrownBy(() -> point(1, 0, 60.1));
        assertThat(point(10, 10, 60.0).meanAsLeft()).isEqualTo(35);
    }

    private static CheckPoint point(int found, int left, @Nullable Double celsius) {
        return new CheckPoint(
                StandardRole.WORKING_RANGE,
                "A",
                StandardState.SOUND,
                35,
                0,
                Collections.nCopies(found, 35.0),
                Collections.nCopies(left, 35.0),
                celsius,
                null);
    }
}
