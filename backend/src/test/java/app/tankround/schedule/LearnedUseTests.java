package app.tankround.schedule;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import org.apache.commons.math3.analysis.UnivariateFunction;
import org.apache.commons.math3.analysis.integration.SimpsonIntegrator;
import org.apache.commons.math3.distribution.MultivariateNormalDistribution;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.LUDecomposition;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.linear.RealVector;
import org.junit.jupiter.api.Test;

/** Against the model itself, solved by a general-purpose library without the closed form. */
class LearnedUseTests {

    private static final int K = LearnedUse.PRIOR_VISITS;
    private static final LearnedUse.OfKind KIND = new LearnedUse.OfKind(6, 40, 1.3, 1.7);
    private static final double[] PARTS = {1.1, 0.9, 1.6, 1.2, 1.4};

    @Test
    void nothingOfAKindIsThePlanWithTheUsualSpread() {
        LearnedUse learned = LearnedUse.of(LearnedUse.Sums.NONE, LearnedUse.OfKind.NONE);
        assertThat(learned.mean()).isEqualTo(1);
        assertThat(learned.onKind()).isEqualTo(1);
        assertThat(learned.variance()).isCloseTo(0.04 * 1.25, within(1e-12));
    }

    /** Best linear unbiased prediction of a system's mean: K + t² 1' (s² I + t² J)^-1 (y - K 1) with t² = s² / k. */
    @Test
    void meanIsTheBestLinearPredictionOfTheModelWithRandomSystems() {
        int n = PARTS.length;
        double between = 1.0 / K;
        RealMatrix covariance = new Array2DRowRealMatrix(n, n);
        for (int i = 0; i < n; i++) {
            for (int j = 0; j < n; j++) {
                covariance.setEntry(i, j, between + (i == j ? 1 : 0));
            }
        }
        RealVector apart = new ArrayRealVector(PARTS).mapSubtract(KIND.drawnMean());
        RealVector solved = new LUDecomposition(covariance).getSolver().solve(apart);
        double predicted =
                KIND.drawnMean() + between * Arrays.stream(solved.toArray()).sum();
        assertThat(learned().mean()).isCloseTo(predicted, within(1e-12));
    }

    /** The mean of s² after the visits, by Simpson's rule over s² with a prior of 2 + k degrees of freedom around S². */
    @Test
    void varianceIsTheOneThatTheModelExpectsAfterTheVisits() {
        double degrees = 2.0 + K;
        UnivariateFunction density = logVariance -> {
            double variance = Math.exp(logVariance);
            double prior = Math.pow(variance, -degrees / 2) * Math.exp(-K * KIND.variance() / (2 * variance));
            return prior * likelihood(variance);
        };
        double whole = integral(density);
        double mean = integral(logVariance -> Math.exp(logVariance) * density.value(logVariance)) / whole;
        double next = mean * (1 + 1.0 / (PARTS.length + K));
        assertThat(learned().variance()).isCloseTo(next, within(1e-5 * next));
    }

    @Test
    void restsOnTheKindTheLessTheMoreVisitsThereAre() {
        assertThat(LearnedUse.of(LearnedUse.Sums.NONE, KIND).onKind()).isEqualTo(1);
        assertThat(learned().onKind()).isCloseTo(4.0 / 9, within(1e-12));
        assertThat(LearnedUse.of(new LearnedUse.Sums(20, 1, 0), KIND).onKind()).isCloseTo(4.0 / 24, within(1e-12));
    }

    private static double likelihood(double variance) {
        int n = PARTS.length;
        double[] means = new double[n];
        Arrays.fill(means, KIND.drawnMean());
        double[][] covariance = new double[n][n];
        for (int i = 0; i < n; i++) {
            for (int j = 0; j < n; j++) {
                covariance[i][j] = variance / K + (i == j ? variance : 0);
            }
        }
        return new MultivariateNormalDistribution(means, covariance).density(PARTS);
    }

    private static double integral(UnivariateFunction function) {
        return new SimpsonIntegrator(1e-9, 1e-15, 5, 20).integrate(200_000, function, Math.log(1e-4), Math.log(50));
    }

    private static LearnedUse learned() {
        double mean = Arrays.stream(PARTS).average().orElseThrow();
        double squares =
                Arrays.stream(PARTS).map(part -> (part - mean) * (part - mean)).sum();
        return LearnedUse.of(new LearnedUse.Sums(PARTS.length, mean, squares), KIND);
    }
}
