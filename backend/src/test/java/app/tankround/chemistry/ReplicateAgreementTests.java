package app.tankround.chemistry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** A refractometer with steps of 0.001 SG that may be off by 0.001, in a standard of 1.0266. */
class ReplicateAgreementTests {

    private static final double TRUE_VALUE = 1.0266;
    private static final double PERMITTED = 0.001;
    private static final double STEP = 0.001;

    /**
     * The distribution of the range of n draws, n times the integral of phi(z) (Phi(z + w) - Phi(z))^(n - 1), is 95 % at f(n)
     * (ISO 5725-6:1994, 4.1 and table 1, its figures from memory), which has one decimal.
     */
    @ParameterizedTest
    @ValueSource(ints = {2, 3, 4, 5, 6, 7, 8, 9, 10})
    void takesForCriticalWhatTheRangeOfNormalDrawsExceedsInFiveOfAHundredCases(int n) {
        double factor = ReplicateAgreement.criticalFactor(n);

        assertThat(ofRange(n, factor - 0.05)).isLessThan(0.95);
        assertThat(ofRange(n, factor + 0.05)).isGreaterThan(0.95);
    }

    private static double ofRange(int n, double width) {
        NormalDistribution normal = new NormalDistribution(null, 0, 1);
        double step = 0.001;
        double sum = 0;
        for (double z = -9; z < 9; z += step) {
            sum += normal.density(z)
                    * Math.pow(normal.cumulativeProbability(z + width) - normal.cumulativeProbability(z), n - 1);
        }
        return n * sum * step;
    }

    /** By hand: one step either way is 0.001 / sqrt(3) = 0.000577 (JCGM 100:2008, 4.3.7); times 2.8 and 3.3. */
    @Test
    void letsTwoReadingsLieOneStepApartAndNotTwo() {
        assertThat(ReplicateAgreement.criticalRange(2, STEP)).isCloseTo(0.001617, within(1e-6));
        assertThat(ReplicateAgreement.criticalRange(3, STEP)).isCloseTo(0.001905, within(1e-6));
    }

    @ParameterizedTest
    @CsvSource({
        "1.0266 1.0186, true",
        "1.0186 1.0346, true",
        "1.0266 1.0246, true",
        "1.0266 1.0256, false",
        "1.0256 1.0246, false",
        "1.0186 1.0206, false",
        "1.0186, false",
        "1.0256 1.0276, false"
    })
    void tellsContradictionFromScatter(String readings, boolean contradict) {
        List<Double> numbers =
                Arrays.stream(readings.split(" ")).map(Double::valueOf).toList();

        assertThat(ReplicateAgreement.contradict(numbers, TRUE_VALUE, PERMITTED, STEP))
                .isEqualTo(contradict);
    }
}
