package app.tankround.chemistry.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.within;

import app.tankround.chemistry.StudentDistribution;
import app.tankround.chemistry.statistics.AcceptanceInterval.Decision;
import app.tankround.chemistry.statistics.UncertaintyBudget.Component;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.RefusalCode;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.function.Consumer;
import java.util.stream.IntStream;
import org.apache.commons.math3.stat.correlation.KendallsCorrelation;
import org.apache.commons.math3.stat.regression.SimpleRegression;
import org.assertj.core.api.ThrowableAssert.ThrowingCallable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Properties, second opinions, limits and refusals. The published values are in the reference tables; the second opinions
 * are Apache Commons Math 3.6.1 and counting by force.
 */
class StatisticsTests {

    private static final double INFINITE = Double.POSITIVE_INFINITY;

    private static double[] normal(Random random, int count, double mean, double deviation) {
        return IntStream.range(0, count)
                .mapToDouble(i -> mean + deviation * random.nextGaussian())
                .toArray();
    }

    private static double[] rising(int count) {
        return IntStream.range(0, count).mapToDouble(i -> i + 0.25 * (i % 3)).toArray();
    }

    private static void assertRefused(RefusalCode code, ThrowingCallable call) {
        assertThatExceptionOfType(OutOfRangeException.class)
                .isThrownBy(call)
                .satisfies(refused -> assertThat(refused.refusal().code()).isEqualTo(code));
    }

    // Uncertainty

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5})
    void combinedUncertaintyDoesNotDependOnOrderAndScalesWithItsComponents(long seed) {
        Random random = new Random(seed);
        List<Component> components = new ArrayList<>();
        List<Component> scaled = new ArrayList<>();
        for (int i = 0; i < 7; i++) {
            double u = random.nextDouble();
            double c = random.nextGaussian();
            double degrees = 1 + 30 * random.nextDouble();
            components.addFirst(new Component(u, c, degrees));
            scaled.add(new Component(1e6 * u, -c, degrees));
        }
        UncertaintyBudget budget = UncertaintyBudget.of(components);
        UncertaintyBudget larger = UncertaintyBudget.of(scaled);

        assertThat(larger.combined()).isCloseTo(1e6 * budget.combined(), within(1e-6));
        assertThat(larger.effectiveDegrees()).isCloseTo(budget.effectiveDegrees(), within(1e-9));
        assertThat(budget.effectiveDegrees())
                .isBetween(
                        components.stream()
                                .mapToDouble(Component::degrees)
                                .min()
                                .orElseThrow(),
                        components.stream().mapToDouble(Component::degrees).sum());
        assertThat(budget.expanded(0.99)).isGreaterThan(budget.expanded(0.95));
    }

    /** JCGM 100:2008, G.4.1: effective degrees of freedom between two whole numbers take the lower one. */
    @ParameterizedTest
    @CsvSource({"16.999, 16", "16, 16", "1.5, 1", "Infinity, Infinity"})
    void degreesOfFreedomAreTruncatedDownwards(double degrees, double truncated) {
        UncertaintyBudget budget = UncertaintyBudget.of(List.of(new Component(0.3, 2, degrees)));

        assertThat(budget.truncatedDegrees()).isEqualTo(truncated);
        assertThat(budget.coverageFactor(0.95)).isEqualTo(StudentDistribution.coverageFactor(0.95, truncated));
    }

    @Test
    void equalComponentsKeepTheWholeNumberOfTheirDegrees() {
        for (int count = 1; count <= 30; count++) {
            List<Component> components = new ArrayList<>();
            for (int i = 0; i < count; i++) {
                components.add(new Component(0.1, 0.7, 3));
            }
            assertThat(UncertaintyBudget.of(components).truncatedDegrees()).isEqualTo(3 * count);
        }
    }

    @Test
    void withoutUncertaintyThereIsNoneToExpand() {
        UncertaintyBudget budget = UncertaintyBudget.of(List.of(new Component(0, 1, 4)));

        assertThat(budget.combined()).isZero();
        assertThat(budget.expanded(0.95)).isZero();
    }

    @Test
    void componentsThatAreNoneAreRefused() {
        assertRefused(RefusalCode.OUT_OF_RANGE, () -> new Component(-0.1, 1, 4));
        assertRefused(RefusalCode.OUT_OF_RANGE, () -> new Component(0.1, 1, 0.9));
        assertRefused(RefusalCode.NOT_FINITE, () -> new Component(0.1, Double.NaN, 4));
        assertRefused(RefusalCode.OUT_OF_RANGE, () -> UncertaintyBudget.of(List.of()));
        assertRefused(
                RefusalCode.OUT_OF_RANGE,
                () -> UncertaintyBudget.of(List.of(new Component(1, 1, 4))).coverageFactor(1));
    }

    // Acceptance

    @Test
    void aValueOnALimitBelongsToWhatTheLimitEncloses() {
        AcceptanceInterval interval = new AcceptanceInterval(33, 35.1, 0.1);

        assertThat(interval.guardedAcceptance(33.1)).isEqualTo(Decision.INSIDE);
        assertThat(interval.guardedAcceptance(35)).isEqualTo(Decision.INSIDE);
        assertThat(interval.guardedAcceptance(35 + 1e-9)).isEqualTo(Decision.UNDECIDED);
        assertThat(interval.guardedAcceptance(33)).isEqualTo(Decision.UNDECIDED);
        assertThat(interval.guardedAcceptance(33 - 1e-9)).isEqualTo(Decision.OUTSIDE);
        assertThat(interval.guardedBothWays(33 - 1e-9)).isEqualTo(Decision.UNDECIDED);
        assertThat(interval.guardedBothWays(32.9)).isEqualTo(Decision.UNDECIDED);
        assertThat(interval.guardedBothWays(32.9 - 1e-9)).isEqualTo(Decision.OUTSIDE);
        assertThat(interval.guardedBothWays(35.2 + 1e-9)).isEqualTo(Decision.OUTSIDE);
        assertThat(new AcceptanceInterval(-INFINITE, 1, 0.1).guardedAcceptance(-1e9))
                .isEqualTo(Decision.INSIDE);
    }

    @Test
    void aGuardBandThatLeavesNothingAcceptsNothing() {
        AcceptanceInterval wide = new AcceptanceInterval(33, 34, 0.51);

        assertThat(new AcceptanceInterval(33, 34, 0.5).accepts()).isTrue();
        assertThat(new AcceptanceInterval(33, 34, 0.5).guardedAcceptance(33.5)).isEqualTo(Decision.INSIDE);
        assertThat(wide.accepts()).isFalse();
        assertThat(wide.guardedAcceptance(33.5)).isEqualTo(Decision.UNDECIDED);
        assertThat(wide.guardedBothWays(34.52)).isEqualTo(Decision.OUTSIDE);
    }

    @Test
    void limitsTheWrongWayRoundAreRefused() {
        assertRefused(RefusalCode.OUT_OF_RANGE, () -> new AcceptanceInterval(33, 34, -0.1));
        assertRefused(RefusalCode.NO_SPAN, () -> new AcceptanceInterval(34, 33, 0));
        assertRefused(RefusalCode.NO_SPAN, () -> new AcceptanceInterval(Double.NaN, 33, 0));
        assertRefused(RefusalCode.OUT_OF_RANGE, () -> AcceptanceInterval.guardBandFactor(0.51));
    }

    @ParameterizedTest
    @ValueSource(doubles = {1e-6, 0.001, 0.01, 0.025, 0.05, 0.3, 0.5})
    void theGuardBandForARiskHasThatRisk(double risk) {
        double factor = AcceptanceInterval.guardBandFactor(risk);

        assertThat(new AcceptanceInterval(-INFINITE, 7, Math.abs(factor) * 0.3).largestFalseAcceptance(0.3))
                .isCloseTo(risk, within(1e-12));
    }

    // Agreement

    @Test
    void twoResultsThatDifferByTheirUncertaintyStillAgree() {
        assertThat(EnNumber.of(35.5, 0.3, 35, 0.4).value()).isCloseTo(1, within(1e-12));
        assertThat(EnNumber.of(35.25, 0.3, 34.75, 0.4).satisfactory()).isTrue();
        assertThat(EnNumber.of(35.51, 0.3, 35, 0.4).satisfactory()).isFalse();
        assertThat(EnNumber.of(34, 0.3, 35, 0.4).value())
                .isEqualTo(-EnNumber.of(35, 0.4, 34, 0.3).value());
        assertRefused(RefusalCode.OUT_OF_RANGE, () -> EnNumber.of(35, 0, 35, 0));
        assertRefused(RefusalCode.OUT_OF_RANGE, () -> EnNumber.of(35, -0.1, 35, 0.4));
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
    void mandelPauleMakesResultsConsistentOrAddsNothing(long seed) {
        Random random = new Random(seed);
        double[] values = normal(random, 9, 35, seed % 2 == 0 ? 0.5 : 0.05);
        double[] uncertainties = IntStream.range(0, 9)
                .mapToDouble(i -> 0.05 + 0.1 * random.nextDouble())
                .toArray();
        WeightedMean plain = WeightedMean.of(values, uncertainties);
        WeightedMean.MandelPaule widened = WeightedMean.mandelPaule(values, uncertainties);
        double[] sorted = Series.sorted(values);

        assertThat(plain.mean()).isBetween(sorted[0], sorted[8]);
        assertThat(widened.mean()).isBetween(sorted[0], sorted[8]);
        if (plain.chiSquared() <= plain.degrees()) {
            assertThat(widened).isEqualTo(new WeightedMean.MandelPaule(plain.mean(), plain.standardUncertainty(), 0));
            assertThat(plain.widenedUncertainty()).isEqualTo(plain.standardUncertainty());
        } else {
            double[] wider = Arrays.stream(uncertainties)
                    .map(u -> Math.sqrt(u * u + widened.betweenVariance()))
                    .toArray();
            assertThat(WeightedMean.of(values, wider).chiSquared()).isCloseTo(8, within(1e-9));
            assertThat(WeightedMean.of(values, wider).mean()).isCloseTo(widened.mean(), within(1e-12));
            assertThat(plain.widenedUncertainty()).isGreaterThan(plain.standardUncertainty());
        }
        assertThat(plain.consistent()).isEqualTo(plain.probability() >= 0.05);
    }

    @Test
    void resultsWithoutUncertaintyHaveNoWeightedMean() {
        assertRefused(RefusalCode.OUT_OF_RANGE, () -> WeightedMean.of(new double[] {1, 2}, new double[] {0.1, 0}));
        assertRefused(RefusalCode.OUT_OF_RANGE, () -> WeightedMean.of(new double[] {1, 2}, new double[] {0.1}));
        assertRefused(RefusalCode.OUT_OF_RANGE, () -> WeightedMean.of(new double[] {1}, new double[] {0.1}));
        assertRefused(RefusalCode.NOT_FINITE, () -> WeightedMean.of(new double[] {1, Double.NaN}, new double[] {1, 1}));
    }

    // Lines

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5})
    void aLineIsTheOneOfCommonsMath(long seed) {
        Random random = new Random(seed);
        double[] x = normal(random, 12, 100, 20);
        double[] y =
                Arrays.stream(x).map(v -> 3 - 0.7 * v + random.nextGaussian()).toArray();
        StraightLine line = StraightLine.through(x, y);
        SimpleRegression theirs = new SimpleRegression();
        for (int i = 0; i < x.length; i++) {
            theirs.addData(x[i], y[i]);
        }

        assertThat(line.slope()).isCloseTo(theirs.getSlope(), within(1e-11));
        assertThat(line.intercept()).isCloseTo(theirs.getIntercept(), within(1e-9));
        assertThat(line.slopeUncertainty()).isCloseTo(theirs.getSlopeStdErr(), within(1e-11));
        assertThat(line.interceptUncertainty()).isCloseTo(theirs.getInterceptStdErr(), within(1e-9));
        assertThat(line.determination()).isCloseTo(theirs.getRSquare(), within(1e-12));
        assertThat(line.squaredResiduals()).isCloseTo(theirs.getSumSquaredErrors(), within(1e-8));
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5})
    void aWeightedLineCountsAPointAsOftenAsItsWeight(long seed) {
        Random random = new Random(seed);
        double[] x = {0, 1, 2, 3, 0, 3, 3};
        double[] y = normal(random, 7, 5, 1);
        y[4] = y[0];
        y[5] = y[3];
        y[6] = y[3];
        StraightLine repeated = StraightLine.through(x, y);
        StraightLine weighted =
                StraightLine.weighted(Arrays.copyOf(x, 4), Arrays.copyOf(y, 4), new double[] {2, 1, 1, 3});
        StraightLine scaled =
                StraightLine.weighted(Arrays.copyOf(x, 4), Arrays.copyOf(y, 4), new double[] {200, 100, 100, 300});

        assertThat(weighted.slope()).isCloseTo(repeated.slope(), within(1e-12));
        assertThat(weighted.intercept()).isCloseTo(repeated.intercept(), within(1e-12));
        assertThat(weighted.squaredResiduals()).isCloseTo(repeated.squaredResiduals(), within(1e-12));
        assertThat(scaled.slopeUncertainty()).isCloseTo(weighted.slopeUncertainty(), within(1e-12));
        assertThat(scaled.correlation()).isCloseTo(weighted.correlation(), within(1e-12));
    }

    /** JCGM 100:2008, H.3.5: the uncertainty of the line by intercept, slope and their correlation, another way round. */
    @Test
    void uncertaintyOfTheLineFollowsFromItsParametersAndTheirCorrelation() {
        StraightLine line =
                StraightLine.through(new double[] {1, 2, 4, 7, 9}, new double[] {2.1, 3.9, 8.2, 13.8, 18.1});
        for (double x : new double[] {-3, 0, 2, 5, 12}) {
            double a = line.interceptUncertainty();
            double b = x * line.slopeUncertainty();
            assertThat(line.uncertaintyAt(x))
                    .isCloseTo(Math.sqrt(a * a + b * b + 2 * a * b * line.correlation()), within(1e-12));
        }
    }

    @Test
    void pointsThatMakeNoLineAreRefused() {
        assertRefused(
                RefusalCode.NO_SPAN, () -> StraightLine.through(new double[] {35, 35, 35}, new double[] {34, 35, 36}));
        assertRefused(
                RefusalCode.NO_SPAN,
                () -> StraightLine.through(new double[] {0.1 + 0.2, 0.3, 0.3}, new double[] {34, 35, 36}));
        assertRefused(
                RefusalCode.NO_SPAN,
                () -> StraightLine.through(new double[] {-1e9, -1e9, Math.nextUp(-1e9)}, new double[] {34, 35, 36}));
        assertThat(StraightLine.through(new double[] {1e9, 1e9 + 1, 1e9 + 2}, new double[] {34, 35, 36})
                        .slope())
                .isCloseTo(1, within(1e-12));
        assertRefused(RefusalCode.OUT_OF_RANGE, () -> StraightLine.through(new double[] {0, 35}, new double[] {0, 35}));
        assertRefused(
                RefusalCode.OUT_OF_RANGE, () -> StraightLine.through(new double[] {0, 1, 2}, new double[] {0, 1}));
        assertRefused(
                RefusalCode.NOT_FINITE,
                () -> StraightLine.through(new double[] {0, 1, 2}, new double[] {0, Double.NaN, 1}));
        assertRefused(
                RefusalCode.OUT_OF_RANGE,
                () -> StraightLine.weighted(new double[] {0, 1, 2}, new double[] {0, 1, 2}, new double[] {1, 0, 1}));
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6})
    void fiellersLimitsAreWhereTheReadingJustFitsTheLine(long seed) {
        Random random = new Random(seed);
        double[] x = rising(8);
        double sign = seed % 2 == 0 ? 1 : -1;
        double[] y = Arrays.stream(x)
                .map(v -> 5 + sign * 2 * v + random.nextGaussian())
                .toArray();
        StraightLine line = StraightLine.through(x, y);
        double reading = 5 + sign * 2 * 6.5;
        InversePrediction prediction = InversePrediction.of(line, reading, 2, 0.95);
        double t = StudentDistribution.coverageFactor(0.95, line.degrees());

        for (double limit : new double[] {prediction.low(), prediction.high()}) {
            double off = Math.abs(reading - line.at(limit));
            assertThat(off).isCloseTo(t * line.uncertaintyOfReadingAt(limit, 2), within(1e-9));
        }
        assertThat(line.at(prediction.value())).isCloseTo(reading, within(1e-12));
        assertThat(prediction.value()).isBetween(prediction.low(), prediction.high());
    }

    @Test
    void aLineReadBackwardsAtItsOwnStandardsLeadsBackToThem() {
        double[] x = {0, 10, 20, 35};
        double[] y = {0.5, 10.7, 20.9, 36.2};
        StraightLine line = StraightLine.through(x, y);

        for (double standard : x) {
            assertThat(InversePrediction.of(line, line.at(standard), 1, 0.95).value())
                    .isCloseTo(standard, within(1e-12));
        }
    }

    @Test
    void aSlopeThatMayBeNoneCannotBeReadBackwards() {
        double[] x = {0, 1, 2, 3};
        StraightLine noisy = StraightLine.through(x, new double[] {1, -1, 1.2, -0.8});
        StraightLine flat = StraightLine.through(x, new double[] {2, 2, 2, 2});

        assertRefused(RefusalCode.SLOPE_UNCERTAIN, () -> InversePrediction.of(noisy, 0.5, 1, 0.95));
        assertRefused(RefusalCode.SLOPE_UNCERTAIN, () -> InversePrediction.of(flat, 2, 1, 0.95));
        assertRefused(RefusalCode.SLOPE_UNCERTAIN, () -> DetectionLimits.of(noisy, 0.05, 3, 1));
        assertRefused(RefusalCode.SLOPE_UNCERTAIN, () -> DetectionLimits.of(flat, 0.05, 3, 1));
    }

    @Test
    void atTheLimitOfQuantificationTheIntervalIsItsThirdPart() {
        StraightLine line = StraightLine.through(
                new double[] {0, 0.05, 0.1, 0.2, 0.3, 0.5}, new double[] {0.01, 0.062, 0.108, 0.213, 0.3, 0.51});
        DetectionLimits once = DetectionLimits.of(line, 0.05, 3, 1);
        InversePrediction there = InversePrediction.of(line, line.at(once.quantification()), 1, 0.95);

        assertThat(there.halfWidth()).isCloseTo(once.quantification() / 3, within(1e-12));
        assertThat(once.detection()).isEqualTo(2 * once.decision()).isLessThan(once.quantification());
        assertThat(DetectionLimits.of(line, 0.05, 3, 4).decision()).isLessThan(once.decision());
        assertRefused(RefusalCode.OUT_OF_RANGE, () -> DetectionLimits.of(line, 0, 3, 1));
        assertRefused(RefusalCode.OUT_OF_RANGE, () -> DetectionLimits.of(line, 0.05, 0.5, 1));
    }

    // Trends

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5})
    void tauIsTheOneOfCommonsMathWithoutTies(long seed) {
        double[] series = normal(new Random(seed), 25, 8, 1);
        double[] time = IntStream.range(0, 25).mapToDouble(i -> i).toArray();

        assertThat(MannKendall.of(series).tau())
                .isCloseTo(new KendallsCorrelation().correlation(time, series), within(1e-12));
    }

    @ParameterizedTest
    @CsvSource({
        "'1 2 3 4 5 6', 15",
        "'3 1 2 5 4 6', 9",
        "'1 1 2 3 3 3', 11",
        "'2 2 2 1 1 3', -1",
        "'7 7 7 7 7 7', 0",
        "'5 4 3 2 2 1', -14"
    })
    void exactProbabilityIsTheShareOfAllOrdersOfTheseValues(String text, int expected) {
        double[] series =
                Arrays.stream(text.split(" ")).mapToDouble(Double::parseDouble).toArray();
        MannKendall trend = MannKendall.of(series);
        int[] counted = new int[3];
        orders(series.clone(), 0, order -> {
            long score = score(order);
            counted[0]++;
            counted[1] += score >= trend.score() ? 1 : 0;
            counted[2] += score <= trend.score() ? 1 : 0;
        });

        assertThat(trend.score()).isEqualTo(expected).isEqualTo(score(series));
        assertThat(counted[0]).isEqualTo(720);
        assertThat(trend.upperTail()).isCloseTo(counted[1] / 720.0, within(1e-14));
        assertThat(trend.lowerTail()).isCloseTo(counted[2] / 720.0, within(1e-14));
    }

    private static long score(double[] series) {
        long score = 0;
        for (int i = 0; i < series.length; i++) {
            for (int j = 0; j < i; j++) {
                score += (long) Math.signum(series[i] - series[j]);
            }
        }
        return score;
    }

    private static void orders(double[] values, int from, Consumer<double[]> each) {
        if (from == values.length) {
            each.accept(values);
            return;
        }
        for (int i = from; i < values.length; i++) {
            swap(values, from, i);
            orders(values, from + 1, each);
            swap(values, from, i);
        }
    }

    private static void swap(double[] values, int i, int j) {
        double kept = values[i];
        values[i] = values[j];
        values[j] = kept;
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5})
    void theVarianceWithTiesIsThatOfTheOrders(long seed) {
        Random random = new Random(seed);
        double[] series =
                IntStream.range(0, 30).mapToDouble(i -> random.nextInt(9)).toArray();
        List<Integer> ties = MannKendall.ties(series);
        double[] falling = MannKendall.fallingPairs(ties);
        double variance = 0;
        double all = 0;
        for (int pairs = 0; pairs < falling.length; pairs++) {
            double score = falling.length - 1 - 2.0 * pairs;
            variance += falling[pairs] * score * score;
            all += falling[pairs];
        }

        assertThat(all).isCloseTo(1, within(1e-12));
        assertThat(variance).isCloseTo(MannKendall.of(series).variance(), within(1e-8));
    }

    @Test
    void aReversedSeriesFallsAsMuchAsItRose() {
        double[] series = {7, 7.2, 7.1, 7.4, 7.4, 7.9, 8};
        double[] reversed = {8, 7.9, 7.4, 7.4, 7.1, 7.2, 7};
        MannKendall up = MannKendall.of(series);
        MannKendall down = MannKendall.of(reversed);

        assertThat(down.score()).isEqualTo(-up.score());
        assertThat(down.z()).isEqualTo(-up.z());
        assertThat(down.probability()).isCloseTo(up.probability(), within(1e-15));
        assertThat(down.upperTail()).isCloseTo(up.lowerTail(), within(1e-15));
    }

    @Test
    void countingAndApproximationMeetAtTheLastCountedLength() {
        double[] fifty = normal(new Random(4), 50, 0, 1);
        double[] more = normal(new Random(4), 51, 0, 1);
        for (int i = 0; i < 50; i++) {
            fifty[i] += 0.02 * i;
        }

        assertThat(MannKendall.of(fifty).exact()).isTrue();
        assertThat(MannKendall.of(fifty).probability())
                .isCloseTo(MannKendall.of(fifty).normalProbability(), within(0.001));
        assertThat(MannKendall.of(more).exact()).isFalse();
        assertThat(MannKendall.of(more).probability())
                .isEqualTo(MannKendall.of(more).normalProbability());
        assertThat(MannKendall.of(new double[] {3, 3, 3}).probability()).isEqualTo(1);
        assertThat(MannKendall.of(new double[] {3, 3, 3}).normalProbability()).isEqualTo(1);
        assertRefused(RefusalCode.OUT_OF_RANGE, () -> MannKendall.of(new double[] {1, 2}));
        assertRefused(RefusalCode.NOT_FINITE, () -> MannKendall.of(new double[] {1, 2, Double.NaN}));
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5})
    void aTheilSenSlopeFollowsScaleAndTiltAndBearsAnOutlier(long seed) {
        Random random = new Random(seed);
        double[] x = rising(15);
        double[] y = normal(random, 15, 8, 0.3);
        TheilSen plain = TheilSen.through(x, y);
        double[] tilted = IntStream.range(0, 15)
                .mapToDouble(i -> 3 * y[i] + 0.5 * x[i] - 4)
                .toArray();
        double[] spoilt = y.clone();
        spoilt[seed > 2 ? 14 : 3] = 1e6;
        TheilSen.Limits gilbert = plain.gilbertLimits(0.95).orElseThrow();
        TheilSen.Limits sen = plain.senLimits(0.95).orElseThrow();

        assertThat(TheilSen.through(x, tilted).slope()).isCloseTo(3 * plain.slope() + 0.5, within(1e-12));
        assertThat(TheilSen.through(x, spoilt).slope()).isCloseTo(plain.slope(), within(0.2));
        assertThat(plain.slope()).isBetween(gilbert.low(), gilbert.high()).isBetween(sen.low(), sen.high());
        assertThat(sen.coverage()).isGreaterThanOrEqualTo(0.95);
        assertThat(plain.senLimits(0.5).orElseThrow().low()).isGreaterThanOrEqualTo(sen.low());
    }

    @Test
    void slopesWithoutEnoughPointsOrWithTiesHaveNoExactLimits() {
        double[] x = {1, 2, 3, 4};
        TheilSen few = TheilSen.through(x, new double[] {1, 3, 2, 5});
        TheilSen tied = TheilSen.through(rising(12), new double[] {1, 2, 3, 4, 5, 6, 6, 7, 8, 9, 10, 11});

        assertThat(few.senLimits(0.95)).isEmpty();
        assertThat(few.senLimits(0.9))
                .hasValueSatisfying(limits -> assertThat(limits.coverage()).isCloseTo(1 - 2 / 24.0, within(1e-12)));
        assertThat(few.gilbertLimits(0.95)).isEmpty();
        assertThat(tied.senLimits(0.95)).isEmpty();
        assertThat(tied.gilbertLimits(0.95)).isPresent();
        assertRefused(RefusalCode.NO_SPAN, () -> TheilSen.through(new double[] {2, 2, 2}, new double[] {1, 2, 3}));
        assertThat(TheilSen.through(new double[] {2, 2, 3}, new double[] {1, 2, 3})
                        .slopes())
                .isEqualTo(2);
    }

    /** Kendall 1970: no variance is left of S where either variable does not vary, whatever the ties of the other. */
    @ParameterizedTest
    @ValueSource(strings = {"1 1 1 1 1 2 3 3", "1 1 1 2 3 4 5 6", "1 2 3 4 5 6 7 8", "1 1 2 2 3 3 4 4"})
    void aLevelSeriesHasALevelSlopeWithinLevelLimits(String text) {
        double[] x =
                Arrays.stream(text.split(" ")).mapToDouble(Double::parseDouble).toArray();
        double[] level = new double[x.length];
        Arrays.fill(level, 2);
        TheilSen trend = TheilSen.through(x, level);

        assertThat(MannKendall.variance(x.length, MannKendall.ties(x), MannKendall.ties(level)))
                .isEqualTo(MannKendall.variance(x.length, MannKendall.ties(level), MannKendall.ties(x)))
                .isBetween(0.0, 1e-12);
        assertThat(trend.slope()).isZero();
        assertThat(trend.gilbertLimits(0.95)).contains(new TheilSen.Limits(0, 0, 0.95));
    }

    /** Of all orders of tied y against tied x; Kendall's variance is that of their S. */
    @Test
    void theVarianceWithTiesInBothIsThatOfTheOrders() {
        double[] x = {1, 1, 2, 3, 3, 3};
        double[] y = {4, 4, 5, 5, 6, 7};
        double[] sums = new double[2];
        orders(y.clone(), 0, order -> {
            double score = 0;
            for (int i = 0; i < x.length; i++) {
                for (int j = 0; j < i; j++) {
                    score += Math.signum(x[i] - x[j]) * Math.signum(order[i] - order[j]);
                }
            }
            sums[0]++;
            sums[1] += score * score;
        });

        assertThat(MannKendall.variance(6, MannKendall.ties(x), MannKendall.ties(y)))
                .isCloseTo(sums[1] / sums[0], within(1e-12));
    }

    @Test
    void exactLimitsHoldAsMuchAsTheirRankSays() {
        Random random = new Random(11);
        double[] x = rising(20);
        TheilSen trend = TheilSen.through(x, normal(random, x.length, 8, 1));
        TheilSen.Limits limits = trend.senLimits(0.9).orElseThrow();
        int rank = 1;
        while (TheilSen.coverageOfRank(x.length, rank + 1) >= 0.9) {
            rank += 1;
        }

        assertThat(limits.coverage()).isEqualTo(TheilSen.coverageOfRank(x.length, rank));
        assertThat(limits.low()).isLessThan(trend.slope());
        assertThat(limits.high()).isGreaterThan(trend.slope());
    }

    // Robust estimates

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5})
    void robustEstimatesFollowShiftAndScaleAndBearAnOutlier(long seed) {
        double[] values = normal(new Random(seed), 21, 35, 0.4);
        double[] moved = Arrays.stream(values).map(v -> 10 - 2 * v).toArray();
        double[] spoilt = values.clone();
        spoilt[4] = 350;
        for (boolean proposal2 : new boolean[] {true, false}) {
            RobustEstimates.Estimate plain = estimate(proposal2, values);
            RobustEstimates.Estimate far = estimate(proposal2, moved);
            RobustEstimates.Estimate bad = estimate(proposal2, spoilt);

            assertThat(far.location()).isCloseTo(10 - 2 * plain.location(), within(1e-9));
            assertThat(far.spread()).isCloseTo(2 * plain.spread(), within(1e-9));
            assertThat(bad.location()).isCloseTo(plain.location(), within(0.1));
            assertThat(bad.spread()).isBetween(0.8 * plain.spread(), 1.3 * plain.spread());
        }
        assertThat(RobustEstimates.huberLocation(moved))
                .isCloseTo(10 - 2 * RobustEstimates.huberLocation(values), within(1e-9));
        assertThat(Outliers.farthest(spoilt)).isEqualTo(4);
        assertThat(Outliers.grubbs(spoilt)).isGreaterThan(Outliers.grubbsCritical(21, 0.01));
        assertThat(Outliers.grubbs(spoilt)).isLessThanOrEqualTo(Outliers.grubbsBound(21));
        assertThat(Outliers.modifiedScores(spoilt)[4]).isGreaterThan(Outliers.SUSPICIOUS_SCORE);
    }

    private static RobustEstimates.Estimate estimate(boolean proposal2, double[] values) {
        return proposal2 ? RobustEstimates.huberProposal2(values) : RobustEstimates.algorithmA(values);
    }

    @Test
    void valuesOfWhichMostAreEqualHaveAMedianButNoRobustSpread() {
        double[] values = {35, 35, 35, 35, 36};

        assertThat(RobustEstimates.median(values)).isEqualTo(35);
        assertThat(RobustEstimates.scaledDeviation(values)).isZero();
        assertRefused(RefusalCode.NO_SPAN, () -> RobustEstimates.huberProposal2(values));
        assertRefused(RefusalCode.NO_SPAN, () -> RobustEstimates.algorithmA(values));
        assertRefused(RefusalCode.NO_SPAN, () -> RobustEstimates.huberLocation(values));
        assertRefused(RefusalCode.NO_SPAN, () -> Outliers.modifiedScores(values));
        assertRefused(RefusalCode.NO_SPAN, () -> Outliers.grubbs(new double[] {35, 35, 35}));
        assertRefused(RefusalCode.OUT_OF_RANGE, () -> RobustEstimates.algorithmA(new double[] {35, 36}));
        assertRefused(RefusalCode.OUT_OF_RANGE, () -> Outliers.grubbsCritical(2, 0.05));
        assertRefused(RefusalCode.OUT_OF_RANGE, () -> RobustEstimates.median(new double[0]));
    }
}
