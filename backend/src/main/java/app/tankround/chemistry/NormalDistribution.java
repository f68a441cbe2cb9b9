package app.tankround.chemistry;

import app.tankround.units.InputKind;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.Ranges;

/**
 * Probabilities of the standard normal distribution, within the arithmetic that is the same in the browser. Abramowitz
 * and Stegun, Handbook of Mathematical Functions: series 26.2.11 in the middle, continued fraction 26.2.14 in the tails,
 * starting value 26.2.23 for the inverse.
 */
public final class NormalDistribution {

    /** Smallest probability of a tail that is inverted. */
    public static final double LEAST_TAIL = 1e-100;

    /** Largest number below 1. */
    static final double BELOW_ONE = 0x1.fffffffffffffp-1;

    /** Where the series would need more terms than the fraction. */
    private static final double TAIL = 3;

    /** Beyond it the tail is below the smallest double. */
    private static final double EMPTY = 40;

    private static final int FRACTION_TERMS = 50;
    private static final int REFINEMENTS = 3;
    private static final double ROOT_OF_TWO_PI = 2.5066282746310005024;

    private NormalDistribution() {}

    /** The bell curve at {@code z}; 0 at the infinities. */
    public static double density(double z) {
        double square = z * z;
        return Math.exp(-0.5 * square) / ROOT_OF_TWO_PI;
    }

    /**
     * Probability of a value up to {@code z}; the infinities are taken.
     *
     * @throws OutOfRangeException if it is not a number
     */
    public static double cumulative(double z) {
        return survival(-z);
    }

    /**
     * Probability of a value above {@code z}, accurate in relation to itself however far out; the infinities are taken.
     *
     * @throws OutOfRangeException if it is not a number
     */
    public static double survival(double z) {
        if (Double.isNaN(z)) {
            Ranges.require(InputKind.READING, z, Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY);
        }
        double distance = Math.abs(z);
        double tail = distance < TAIL ? 0.5 - fromMiddle(distance) : upperTail(distance);
        return z < 0 ? 1 - tail : tail;
    }

    /** Probability of a value between two others; 0 if the second is not above the first. */
    public static double between(double low, double high) {
        if (low >= high) {
            return 0;
        }
        return low > 0 ? survival(low) - survival(high) : cumulative(high) - cumulative(low);
    }

    /**
     * The value that is not exceeded with the given probability.
     *
     * @param probability 1e-100 up to the last number below 1
     * @throws OutOfRangeException otherwise
     */
    public static double quantile(double probability) {
        Ranges.require(InputKind.FRACTION, probability, LEAST_TAIL, BELOW_ONE);
        double fromTop = 1 - probability;
        return probability < 0.5 ? -upperQuantile(probability) : upperQuantile(fromTop);
    }

    /** The value exceeded with a probability of at most one half. */
    static double upperQuantile(double tail) {
        if (tail >= 0.5) {
            return 0;
        }
        double t = Math.sqrt(-2 * Math.log(tail));
        double numerator = 2.515517 + t * (0.802853 + t * 0.010328);
        double denominator = 1 + t * (1.432788 + t * (0.189269 + t * 0.001308));
        double z = t - numerator / denominator;
        for (int i = 0; i < REFINEMENTS; i++) {
            double excess = (survival(z) - tail) / density(z);
            double curvature = 0.5 * excess * z;
            z += excess / (1 - curvature);
        }
        return Math.max(z, 0);
    }

    private static double fromMiddle(double z) {
        double square = z * z;
        double term = z;
        double sum = z;
        double before = 0;
        for (int odd = 3; sum > before; odd += 2) {
            before = sum;
            term = term * square / odd;
            sum += term;
        }
        return sum * density(z);
    }

    private static double upperTail(double z) {
        if (z > EMPTY) {
            return 0;
        }
        double fraction = z;
        for (int i = FRACTION_TERMS; i > 0; i--) {
            fraction = z + i / fraction;
        }
        return density(z) / fraction;
    }
}
