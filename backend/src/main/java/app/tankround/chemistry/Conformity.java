package app.tankround.chemistry;

import app.tankround.units.InputKind;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.Ranges;

/** How likely a measured value's true value lies within limits (JCGM 106:2012, 7). */
public final class Conformity {

    private static final double BILLION = 1e9;

    private Conformity() {}

    /**
     * Probability that the true value is within the limits.
     *
     * @param value the estimate, finite
     * @param standardUncertainty in the same unit, above 0
     * @param degrees degrees of freedom of the uncertainty, from 1; infinity is the normal distribution
     * @param low lower limit, negative infinity if there is none
     * @param high upper limit, infinity if there is none
     * @return 0 to 1
     * @throws OutOfRangeException if an argument is not as said, or {@code high} lies below {@code low}
     */
    public static double probability(
            double value, double standardUncertainty, double degrees, double low, double high) {
        Ranges.require(InputKind.READING, value, Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY);
        Ranges.require(InputKind.UNCERTAINTY, standardUncertainty, Double.MIN_NORMAL, Double.POSITIVE_INFINITY);
        if (Double.isNaN(low) || Double.isNaN(high) || low > high) {
            Ranges.require(InputKind.INTERVAL, high - low, 0, Double.POSITIVE_INFINITY);
        }
        double fromLow = (low - value) / standardUncertainty;
        double fromHigh = (high - value) / standardUncertainty;
        return StudentDistribution.between(fromLow, fromHigh, degrees);
    }

    /**
     * A probability as it is compared with a limit: rounded to 9 decimals, so that the server and the browser, which may
     * differ in the last places, decide alike.
     */
    public static double rounded(double probability) {
        double scaled = BILLION * probability;
        return Math.floor(scaled + 0.5) / BILLION;
    }
}
