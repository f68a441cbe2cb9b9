package app.tankround.chemistry.statistics;

import app.tankround.chemistry.StudentDistribution;
import app.tankround.units.InputKind;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.Ranges;
import app.tankround.units.RefusalCode;

/**
 * A straight line read backwards: the x behind readings of y. Massart and others, Handbook of Chemometrics and
 * Qualimetrics A (1997), 8.2; the exact limits of Fieller, Journal of the Royal Statistical Society B 16 (1954) 175.
 *
 * @param value the estimate of x
 * @param standardError of the estimate, by first-order propagation
 * @param halfWidth of the classical interval, symmetrical about the estimate
 * @param low lower exact limit
 * @param high upper exact limit
 * @param g how uncertain the slope is: the square of its half-width over the slope; below about 0.05 the classical limits do
 */
public record InversePrediction(
        double value, double standardError, double halfWidth, double low, double high, double g) {

    /**
     * From the mean of readings.
     *
     * @param meanReading mean of the readings of y
     * @param readings how many; with a weighted line the weight of their mean, above 0
     * @param share of the limits, such as 0.95
     * @throws OutOfRangeException with {@code SLOPE_UNCERTAIN} and g if the slope cannot be told from none, so that x has
     *     no finite limits
     */
    public static InversePrediction of(StraightLine line, double meanReading, double readings, double share) {
        Ranges.require(InputKind.READING, meanReading, -Double.MAX_VALUE, Double.MAX_VALUE);
        Series.requireAboveZero(InputKind.COUNT, readings);
        double t = StudentDistribution.coverageFactor(Series.requireShare(share), line.degrees());
        double deviation = line.residualDeviation();
        double relative = t * line.slopeUncertainty() / line.slope();
        double g = relative * relative;
        if (!(g < 1)) {
            throw new OutOfRangeException(
                    RefusalCode.SLOPE_UNCERTAIN,
                    InputKind.FRACTION,
                    Double.isNaN(g) ? Double.POSITIVE_INFINITY : g,
                    0,
                    1);
        }
        double off = (meanReading - line.meanY()) / line.slope();
        double ofReadings = 1 / readings + 1 / line.weights();
        double ofDistance = off * off / line.squaresX();
        double scale = deviation / Math.abs(line.slope());
        double error = scale * Math.sqrt(ofReadings + ofDistance);
        double centre = line.meanX() + off / (1 - g);
        double half = t * scale / (1 - g) * Math.sqrt((1 - g) * ofReadings + ofDistance);
        return new InversePrediction(line.meanX() + off, error, t * error, centre - half, centre + half, g);
    }
}
