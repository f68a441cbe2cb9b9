package app.tankround.chemistry.statistics;

import app.tankround.units.OutOfRangeException;

/** Location and spread that bear outliers. */
public final class RobustEstimates {

    /** Makes the median absolute deviation estimate the standard deviation of normally distributed values. */
    private static final double NORMAL_SCALE = 1.4826;

    /** Values farther from the location than this many spreads are drawn in. */
    private static final double HUBER_BOUND = 1.5;

    /** What drawing in leaves of the variance of normally distributed values. */
    private static final double HUBER_VARIANCE = 0.778465;

    private static final double ALGORITHM_A_START = 1.483;
    private static final double ALGORITHM_A_FACTOR = 1.134;
    private static final double CONVERGED = 1e-13;
    private static final int MOST_ROUNDS = 10_000;

    private RobustEstimates() {}

    /**
     * An estimate.
     *
     * @param location in the unit of the values
     * @param spread estimate of their standard deviation, same unit
     */
    public record Estimate(double location, double spread) {}

    public static double median(double[] values) {
        return Series.median(Series.require(values, 1));
    }

    /** Median of the distances from the median; 0 if more than half of the values are equal. */
    public static double medianAbsoluteDeviation(double[] values) {
        double median = median(values);
        double[] distances = new double[values.length];
        for (int i = 0; i < values.length; i++) {
            distances[i] = Math.abs(values[i] - median);
        }
        return Series.median(distances);
    }

    /** 1.4826 times the median absolute deviation. */
    public static double scaledDeviation(double[] values) {
        return NORMAL_SCALE * medianAbsoluteDeviation(values);
    }

    /**
     * Huber's proposal 2 with bound 1.5: location and spread together. Huber, Annals of Mathematical Statistics 35 (1964)
     * 73.
     *
     * @throws OutOfRangeException with {@code NO_SPAN} if more than half of the values are equal, fewer than three refused
     */
    public static Estimate huberProposal2(double[] values) {
        double start = scaledDeviation(Series.require(values, 3));
        return converge(values, start, 1 / Math.sqrt(HUBER_VARIANCE));
    }

    /**
     * Algorithm A of ISO 5725-5 and ISO 13528, iterated until it stands.
     *
     * @throws OutOfRangeException as for proposal 2
     */
    public static Estimate algorithmA(double[] values) {
        return converge(values, algorithmAStart(values).spread(), ALGORITHM_A_FACTOR);
    }

    /** Where algorithm A begins: the median and 1.483 median absolute deviations. */
    public static Estimate algorithmAStart(double[] values) {
        Series.require(values, 3);
        return new Estimate(median(values), ALGORITHM_A_START * medianAbsoluteDeviation(values));
    }

    /** One round of algorithm A. */
    public static Estimate algorithmAStep(double[] values, Estimate from) {
        return step(values, from, ALGORITHM_A_FACTOR);
    }

    /**
     * Huber's location with bound 1.5 where the spread stays the scaled median absolute deviation.
     *
     * @throws OutOfRangeException as for proposal 2
     */
    public static double huberLocation(double[] values) {
        double spread = scaledDeviation(Series.require(values, 3));
        Estimate now = new Estimate(median(values), requireSpread(values, spread));
        for (int round = 0; round < MOST_ROUNDS; round++) {
            double location = Series.mean(drawnIn(values, now));
            double moved = Math.abs(location - now.location());
            now = new Estimate(location, spread);
            if (moved <= CONVERGED * spread) {
                break;
            }
        }
        return now.location();
    }

    private static Estimate converge(double[] values, double start, double factor) {
        Estimate now = new Estimate(median(values), requireSpread(values, start));
        for (int round = 0; round < MOST_ROUNDS; round++) {
            Estimate next = step(values, now, factor);
            double moved = Math.max(Math.abs(next.location() - now.location()), Math.abs(next.spread() - now.spread()));
            now = next;
            if (moved <= CONVERGED * now.spread()) {
                break;
            }
        }
        return now;
    }

    private static Estimate step(double[] values, Estimate from, double factor) {
        double[] drawnIn = drawnIn(values, from);
        return new Estimate(Series.mean(drawnIn), factor * Series.deviation(drawnIn));
    }

    private static double[] drawnIn(double[] values, Estimate from) {
        double reach = HUBER_BOUND * from.spread();
        double[] drawnIn = new double[values.length];
        for (int i = 0; i < values.length; i++) {
            drawnIn[i] = Math.max(from.location() - reach, Math.min(from.location() + reach, values[i]));
        }
        return drawnIn;
    }

    private static double requireSpread(double[] values, double spread) {
        if (!(spread > 0)) {
            throw Series.noSpan(median(values));
        }
        return spread;
    }
}
