package app.tankround.chemistry;

import app.tankround.units.InputKind;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.Ranges;

/**
 * Probabilities of Student's t for any degrees of freedom from 1, also broken and infinite ones, within the arithmetic
 * that is the same in the browser. The incomplete beta function of NIST's Digital Library of Mathematical Functions: the
 * series 8.17.8 in the middle, the even part of the continued fraction 8.17.22 in the tails, and the ratio of gamma
 * functions by 5.11.14; nowhere does a sum lose digits, so that tails are accurate in relation to themselves.
 */
public final class StudentDistribution {

    private static final double TAIL = 3;

    /** Past it the square would overflow; its tail is below 1e-150 for any degrees of freedom. */
    private static final double FARTHEST = 1e150;

    private static final int FRACTION_TERMS = 30;
    private static final int MOST_STEPS = 200;
    private static final double GAMMA_SERIES_FROM = 20;

    private StudentDistribution() {}

    /**
     * The density at {@code t}.
     *
     * @param degrees degrees of freedom, from 1 to infinity
     * @throws OutOfRangeException if they are not
     */
    public static double density(double t, double degrees) {
        requireDegrees(degrees);
        if (Double.isInfinite(degrees)) {
            return NormalDistribution.density(t);
        }
        double distance = Math.min(Math.abs(t), FARTHEST);
        double halved = 0.5 * degrees;
        double power = halved + 0.5;
        double scaled = distance * distance / degrees;
        double scale = Math.sqrt(Math.PI * degrees);
        return gammaRatio(halved) * Math.exp(-power * logOfOneAnd(scaled)) / scale;
    }

    /** Probability of a value up to {@code t}; the infinities are taken. */
    public static double cumulative(double t, double degrees) {
        return survival(-t, degrees);
    }

    /**
     * Probability of a value above {@code t}; the infinities are taken.
     *
     * @param degrees degrees of freedom, from 1 to infinity
     * @throws OutOfRangeException if {@code t} is not a number or the degrees of freedom are below 1
     */
    public static double survival(double t, double degrees) {
        requireDegrees(degrees);
        if (Double.isNaN(t) || Double.isInfinite(degrees)) {
            return NormalDistribution.survival(t);
        }
        if (Double.isInfinite(t)) {
            return t < 0 ? 1 : 0;
        }
        double distance = Math.min(Math.abs(t), FARTHEST);
        double tail = distance < TAIL ? 0.5 - fromMiddle(distance, degrees) : upperTail(distance, degrees);
        return t < 0 ? 1 - tail : tail;
    }

    /** Probability of a value between two others; 0 if the second is not above the first. */
    public static double between(double low, double high, double degrees) {
        if (low >= high) {
            return 0;
        }
        return low > 0
                ? survival(low, degrees) - survival(high, degrees)
                : cumulative(high, degrees) - cumulative(low, degrees);
    }

    /**
     * The value that is not exceeded with the given probability.
     *
     * @param probability 1e-100 up to the last number below 1
     * @param degrees degrees of freedom, from 1 to infinity
     * @throws OutOfRangeException otherwise
     */
    public static double quantile(double probability, double degrees) {
        Ranges.require(InputKind.FRACTION, probability, NormalDistribution.LEAST_TAIL, NormalDistribution.BELOW_ONE);
        requireDegrees(degrees);
        double fromTop = 1 - probability;
        return probability < 0.5 ? -upperQuantile(probability, degrees) : upperQuantile(fromTop, degrees);
    }

    /**
     * How many standard uncertainties on either side hold the given share.
     *
     * @param share of the probability in the middle, 0 up to the last number below 1, such as 0.95
     * @param degrees degrees of freedom, from 1 to infinity
     * @throws OutOfRangeException otherwise
     */
    public static double coverageFactor(double share, double degrees) {
        Ranges.require(InputKind.FRACTION, share, 0, NormalDistribution.BELOW_ONE);
        requireDegrees(degrees);
        double outside = 1 - share;
        return upperQuantile(0.5 * outside, degrees);
    }

    /** Newton from the normal value, which lies below: on logarithms where the tail is thin, so that heavy tails are quick. */
    private static double upperQuantile(double tail, double degrees) {
        double t = NormalDistribution.upperQuantile(tail);
        if (Double.isInfinite(degrees) || t <= 0) {
            return t;
        }
        for (int i = 0; i < MOST_STEPS; i++) {
            double reached = survival(t, degrees);
            double density = density(t, degrees);
            double next;
            if (tail < 0.25) {
                double slope = t * density / reached;
                double missing = Math.log(reached / tail);
                next = t * Math.exp(missing / slope);
            } else {
                double missing = reached - tail;
                next = t + missing / density;
            }
            double step = Math.abs(next - t);
            t = next;
            if (step <= 1e-14 * t) {
                break;
            }
        }
        return t;
    }

    private static double fromMiddle(double t, double degrees) {
        double squared = t * t;
        double share = squared / (degrees + squared);
        double top = 0.5 * degrees + 0.5;
        double term = 1;
        double sum = 1;
        double before = 0;
        for (int i = 0; sum > before; i++) {
            before = sum;
            double above = top + i;
            double below = 1.5 + i;
            term = term * share * above / below;
            sum += term;
        }
        return t * density(t, degrees) * sum;
    }

    private static double upperTail(double t, double degrees) {
        double a = 0.5 * degrees;
        double squared = t * t;
        double whole = degrees + squared;
        double y = squared / whole;
        double x = degrees / whole;
        double fraction = stage(FRACTION_TERMS, a, x, y);
        for (int m = FRACTION_TERMS; m > 0; m--) {
            double before = a + m - 1;
            double odd = a + 2 * m - 1;
            double numerator = before * (before + 0.5) * m * (m - 0.5);
            double denominator = (odd - 1) * odd * odd * (odd + 1);
            double partial = numerator / denominator * x * x / fraction;
            fraction = stage(m - 1, a, x, y) - partial;
        }
        double product = degrees * fraction;
        return t * density(t, degrees) / product;
    }

    /** Two neighbouring terms of the fraction in one, so arranged that nothing is subtracted from 1. */
    private static double stage(int m, double a, double x, double y) {
        double even = a + 2 * m;
        double after = even + 1;
        double first = a * (2 * m + 0.5);
        double second = 1.5 * m * (2 * m + 1);
        double third = (a + m) * (a + m + 0.5) * y;
        double below = even * after;
        double odd = (first + second + third) / below;
        if (m == 0) {
            return odd;
        }
        double drop = m * (m - 0.5) * x;
        double under = (even - 1) * even;
        return odd - drop / under;
    }

    /** Gamma(a + 1/2) / Gamma(a). */
    private static double gammaRatio(double a) {
        double factor = 1;
        double shifted = a;
        while (shifted < GAMMA_SERIES_FROM) {
            double above = shifted + 0.5;
            factor = factor * shifted / above;
            shifted += 1;
        }
        double w = shifted - 0.25;
        double square = w * w;
        double v = 1 / square;
        double series = 1 + v * (1 / 64.0 + v * (-19 / 8192.0 + v * (631 / 524288.0 + v * (-174317 / 134217728.0))));
        return factor * Math.sqrt(w) * series;
    }

    /** The logarithm of 1 + {@code small} without losing the digits that 1 + {@code small} drops. */
    private static double logOfOneAnd(double small) {
        double sum = 1 + small;
        double kept = sum - 1;
        return kept > 0 ? Math.log(sum) * small / kept : small;
    }

    private static void requireDegrees(double degrees) {
        if (degrees != Double.POSITIVE_INFINITY) {
            Ranges.require(InputKind.COUNT, degrees, 1, Double.POSITIVE_INFINITY);
        }
    }
}
