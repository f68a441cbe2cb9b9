package app.tankround.chemistry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.within;

import app.tankround.units.OutOfRangeException;
import org.apache.commons.statistics.distribution.ContinuousDistribution;
import org.apache.commons.statistics.distribution.TDistribution;
import org.assertj.core.api.SoftAssertions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Our own probabilities beside those of Apache Commons Statistics 1.2: absolute difference at most 1e-12 or relative
 * difference at most 1e-9, and in the tails both.
 */
class ProbabilityTests {

    private static final ContinuousDistribution NORMAL =
            org.apache.commons.statistics.distribution.NormalDistribution.of(0, 1);

    private static void agree(SoftAssertions all, double ours, double theirs, String what) {
        double difference = Math.abs(ours - theirs);
        all.assertThat(difference)
                .as("%s: %s beside %s", what, ours, theirs)
                .isLessThanOrEqualTo(Math.min(1e-12, 1e-9 * Math.abs(theirs)));
    }

    private static void agreeRelatively(SoftAssertions all, double ours, double theirs, String what) {
        all.assertThat(Math.abs(ours - theirs))
                .as("%s: %s beside %s", what, ours, theirs)
                .isLessThanOrEqualTo(1e-9 * Math.abs(theirs));
    }

    @Test
    void normalAgreesWithCommonsFarIntoBothTails() {
        SoftAssertions all = new SoftAssertions();
        for (int i = -3700; i <= 3700; i++) {
            double z = i / 100.0;
            agree(all, NormalDistribution.cumulative(z), NORMAL.cumulativeProbability(z), "up to " + z);
            agree(all, NormalDistribution.survival(z), NORMAL.survivalProbability(z), "above " + z);
            agree(all, NormalDistribution.density(z), NORMAL.density(z), "at " + z);
        }
        all.assertAll();
    }

    @Test
    void normalQuantilesAgreeWithCommons() {
        SoftAssertions all = new SoftAssertions();
        for (int exponent = -99; exponent < 0; exponent++) {
            double p = Math.pow(10, exponent);
            agreeRelatively(
                    all, NormalDistribution.quantile(p), NORMAL.inverseCumulativeProbability(p), "quantile " + p);
        }
        for (int i = 1; i < 1000; i++) {
            double p = i / 1000.0;
            all.assertThat(NormalDistribution.quantile(p))
                    .as("quantile %s", p)
                    .isCloseTo(NORMAL.inverseCumulativeProbability(p), within(1e-12));
        }
        all.assertAll();
    }

    @ParameterizedTest
    @ValueSource(
            doubles = {1, 1.5, 2, 2.7, 3, 4, 5, 7, 9, 12.25, 16, 20, 30, 39.9, 50, 100, 145.38, 300, 1e3, 1e4, 1e5, 1e6
            })
    void studentAgreesWithCommonsFarIntoBothTails(double degrees) {
        TDistribution theirs = TDistribution.of(degrees);
        SoftAssertions all = new SoftAssertions();
        for (int i = -400; i <= 400; i++) {
            double t = i / 20.0;
            String at = t + " with " + degrees + " degrees of freedom";
            agree(all, StudentDistribution.cumulative(t, degrees), theirs.cumulativeProbability(t), "up to " + at);
            agree(all, StudentDistribution.survival(t, degrees), theirs.survivalProbability(t), "above " + at);
            agree(all, StudentDistribution.density(t, degrees), theirs.density(t), "at " + at);
        }
        for (double t : new double[] {50, 1e3, 1e6, 1e9}) {
            double tail = theirs.survivalProbability(t);
            if (tail > Double.MIN_NORMAL) {
                agree(all, StudentDistribution.survival(t, degrees), tail, "above " + t + " with " + degrees);
            }
        }
        all.assertAll();
    }

    @ParameterizedTest
    @ValueSource(doubles = {1, 1.5, 2, 2.7, 3, 4, 5, 7, 9, 12.25, 16, 20, 30, 50, 100, 145.38, 300, 1e3, 1e4})
    void studentQuantilesAgreeWithCommons(double degrees) {
        TDistribution theirs = TDistribution.of(degrees);
        SoftAssertions all = new SoftAssertions();
        for (int i = 1; i < 200; i++) {
            double p = i / 200.0;
            all.assertThat(StudentDistribution.quantile(p, degrees))
                    .as("quantile %s with %s", p, degrees)
                    .isCloseTo(theirs.inverseCumulativeProbability(p), within(1e-9));
        }
        all.assertAll();
    }

    @ParameterizedTest
    @ValueSource(doubles = {1, 1.5, 2, 3, 5, 10, 30, 100, 1e3, 1e6, 1e12})
    void studentQuantilesLeadBackToTheirProbability(double degrees) {
        SoftAssertions all = new SoftAssertions();
        for (double p : new double[] {1e-100, 1e-30, 1e-12, 1e-6, 1e-3, 0.0227, 0.2499, 0.25, 0.4, 0.499999, 0.5}) {
            double t = StudentDistribution.quantile(p, degrees);
            agreeRelatively(all, StudentDistribution.cumulative(t, degrees), p, "back to " + p + " with " + degrees);
            double mirrored = 1 - p;
            if (mirrored < 1) {
                all.assertThat(StudentDistribution.cumulative(StudentDistribution.quantile(mirrored, degrees), degrees))
                        .isCloseTo(mirrored, within(1e-12));
            }
        }
        all.assertAll();
    }

    /** Two-sided coverage factors: JCGM 100:2008, table G.2 (from memory). */
    @ParameterizedTest
    @CsvSource({
        "1, 0.95, 12.71", "1, 0.99, 63.66", "1, 0.9545, 13.97", "2, 0.95, 4.30", "4, 0.99, 4.60", "5, 0.9545, 2.65",
        "8, 0.95, 2.31", "10, 0.9973, 3.96", "16, 0.99, 2.92", "20, 0.95, 2.09", "50, 0.9545, 2.05", "100, 0.99, 2.626",
        "Infinity, 0.95, 1.960", "Infinity, 0.9973, 3.000"
    })
    void coverageFactorsAreThoseOfTheGuide(double degrees, double share, double printed) {
        assertThat(StudentDistribution.coverageFactor(share, degrees)).isCloseTo(printed, within(0.0051));
    }

    @Test
    void manyDegreesOfFreedomLeadToTheNormalDistribution() {
        for (double t : new double[] {-8, -3, -1.96, -0.5, 0, 0.1, 2, 2.9999, 3, 6, 12}) {
            assertThat(StudentDistribution.survival(t, 1e15)).isCloseTo(NormalDistribution.survival(t), within(1e-12));
            assertThat(StudentDistribution.survival(t, Double.POSITIVE_INFINITY))
                    .isEqualTo(NormalDistribution.survival(t));
        }
    }

    @ParameterizedTest
    @ValueSource(doubles = {1, 3, 10, 1e4, Double.POSITIVE_INFINITY})
    void probabilitiesFallWithoutAStepWhereTheMethodChanges(double degrees) {
        double before = Math.nextDown(3.0);
        assertThat(StudentDistribution.survival(before, degrees))
                .isCloseTo(StudentDistribution.survival(3, degrees), within(1e-15));
        double last = 1;
        for (int i = -1000; i <= 1000; i++) {
            double now = StudentDistribution.survival(i / 50.0, degrees);
            assertThat(now).isLessThanOrEqualTo(last).isBetween(0.0, 1.0);
            last = now;
        }
    }

    @Test
    void theEndsAreTaken() {
        assertThat(NormalDistribution.cumulative(Double.POSITIVE_INFINITY)).isEqualTo(1);
        assertThat(NormalDistribution.cumulative(Double.NEGATIVE_INFINITY)).isZero();
        assertThat(NormalDistribution.density(Double.POSITIVE_INFINITY)).isZero();
        assertThat(StudentDistribution.cumulative(Double.POSITIVE_INFINITY, 3)).isEqualTo(1);
        assertThat(StudentDistribution.survival(Double.POSITIVE_INFINITY, 3)).isZero();
        assertThat(StudentDistribution.between(2, 1, 3)).isZero();
        assertThat(StudentDistribution.quantile(0.5, 3)).isZero();
        assertThat(StudentDistribution.coverageFactor(0, 3)).isZero();
    }

    @Test
    void whatIsNoProbabilityIsRefused() {
        for (double p : new double[] {0, 1, -0.1, 1.1, Double.NaN, 1e-101}) {
            assertThatExceptionOfType(OutOfRangeException.class).isThrownBy(() -> NormalDistribution.quantile(p));
            assertThatExceptionOfType(OutOfRangeException.class).isThrownBy(() -> StudentDistribution.quantile(p, 4));
        }
        for (double degrees : new double[] {0, 0.99, -1, Double.NaN}) {
            assertThatExceptionOfType(OutOfRangeException.class)
                    .isThrownBy(() -> StudentDistribution.survival(0, degrees));
        }
        assertThatExceptionOfType(OutOfRangeException.class).isThrownBy(() -> NormalDistribution.survival(Double.NaN));
        assertThatExceptionOfType(OutOfRangeException.class)
                .isThrownBy(() -> StudentDistribution.survival(Double.NaN, 2));
    }

    /** JCGM 106:2012, 7.3 and 7.4 (see the reference table), and one limit missing. */
    @Test
    void conformityIsTheShareOfTheDistributionWithinTheLimits() {
        double infinite = Double.POSITIVE_INFINITY;
        assertThat(Conformity.probability(13.6, 1.8, infinite, 12.5, 16.3)).isCloseTo(0.66, within(0.005));
        assertThat(Conformity.probability(-5.47, 0.05, infinite, -infinite, -5.40))
                .isCloseTo(0.92, within(0.005));
        assertThat(Conformity.probability(35, 0.5, infinite, -infinite, infinite))
                .isEqualTo(1);
        assertThat(Conformity.probability(35, 0.5, 5, 35, infinite)).isEqualTo(0.5);
        assertThat(Conformity.probability(35, 0.5, 5, 34, 36))
                .isCloseTo(1 - 2 * TDistribution.of(5).survivalProbability(2), within(1e-12))
                .isLessThan(Conformity.probability(35, 0.5, infinite, 34, 36));
    }

    @Test
    void conformityIsRefusedWithoutUncertaintyOrWithLimitsTheWrongWayRound() {
        for (double u : new double[] {0, -1, Double.NaN, Double.POSITIVE_INFINITY}) {
            assertThatExceptionOfType(OutOfRangeException.class)
                    .isThrownBy(() -> Conformity.probability(35, u, 5, 33, 36));
        }
        assertThatExceptionOfType(OutOfRangeException.class)
                .isThrownBy(() -> Conformity.probability(35, 0.5, 5, 36, 33));
        assertThatExceptionOfType(OutOfRangeException.class)
                .isThrownBy(() -> Conformity.probability(35, 0.5, 5, Double.NaN, 33));
        assertThatExceptionOfType(OutOfRangeException.class)
                .isThrownBy(() -> Conformity.probability(Double.NaN, 0.5, 5, 33, 36));
    }

    @Test
    void aProbabilityIsComparedWithNineDecimals() {
        assertThat(Conformity.rounded(0.95 - 4e-10)).isEqualTo(0.95);
        assertThat(Conformity.rounded(0.95 + 4e-10)).isEqualTo(0.95);
        assertThat(Conformity.rounded(0.95 - 6e-10)).isEqualTo(0.949999999);
        assertThat(Conformity.rounded(1)).isEqualTo(1);
        assertThat(Conformity.rounded(0)).isZero();
    }
}
