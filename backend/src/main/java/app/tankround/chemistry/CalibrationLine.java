package app.tankround.chemistry;

import java.util.List;
import java.util.function.ToDoubleFunction;

/**
 * The error of an instrument along its scale as one check shows it: a straight line by least squares through the points of
 * the check, exact for two; an offset if there is only one standard.
 */
final class CalibrationLine {

    /** Accepted range of true span over read span; outside it the check was botched (own choice, no source). */
    static final double LOWEST_GAIN = 0.9;

    static final double HIGHEST_GAIN = 1.1;

    private final double meanReading;
    private final double meanError;
    private final double errorPerReading;
    private final double squares;
    private final int count;
    private final double pointUncertainty;
    private final boolean onePoint;
    private final double gain;

    private CalibrationLine(
            double meanReading,
            double meanError,
            double errorPerReading,
            double squares,
            int count,
            double pointUncertainty,
            boolean onePoint,
            double gain) {
        this.meanReading = meanReading;
        this.meanError = meanError;
        this.errorPerReading = errorPerReading;
        this.squares = squares;
        this.count = count;
        this.pointUncertainty = pointUncertainty;
        this.onePoint = onePoint;
        this.gain = gain;
    }

    static CalibrationLine through(List<CheckPoint> points, ToDoubleFunction<CheckPoint> reading, double resolution) {
        int n = points.size();
        double readings = 0;
        double errors = 0;
        double uncertainty = 0;
        double lowestTrue = Double.POSITIVE_INFINITY;
        double highestTrue = Double.NEGATIVE_INFINITY;
        for (CheckPoint point : points) {
            double read = reading.applyAsDouble(point);
            double error = read - point.trueValue();
            readings += read;
            errors += error;
            uncertainty = Math.max(uncertainty, point.standardUncertainty());
            lowestTrue = Math.min(lowestTrue, point.trueValue());
            highestTrue = Math.max(highestTrue, point.trueValue());
        }
        double meanReading = readings / n;
        double meanError = errors / n;
        double pointUncertainty = Uncertainty.combine(uncertainty, Uncertainty.ofResolution(resolution));
        if (highestTrue <= lowestTrue) {
            return new CalibrationLine(meanReading, meanError, 0, 0, n, pointUncertainty, true, 1);
        }
        double squares = 0;
        double products = 0;
        for (CheckPoint point : points) {
            double read = reading.applyAsDouble(point);
            double error = read - point.trueValue();
            double fromReading = read - meanReading;
            double fromError = error - meanError;
            squares += fromReading * fromReading;
            products += fromReading * fromError;
        }
        double slope = squares > 0 ? products / squares : 0;
        double gain = squares > 0 ? 1 - slope : 0;
        return new CalibrationLine(meanReading, meanError, slope, squares, n, pointUncertainty, false, gain);
    }

    /** True span over read span, 1 for a single standard, 0 if the readings do not differ. */
    double gain() {
        return gain;
    }

    boolean plausible() {
        return gain >= LOWEST_GAIN && gain <= HIGHEST_GAIN;
    }

    boolean onePoint() {
        return onePoint;
    }

    double meanReading() {
        return meanReading;
    }

    double errorAt(double reading) {
        double fromMean = reading - meanReading;
        return meanError + errorPerReading * fromMean;
    }

    /** Standard uncertainty of the error from standard and resolution, as of a straight line. */
    double uncertaintyAt(double reading) {
        double fromMean = reading - meanReading;
        double share = squares > 0 ? fromMean * fromMean / squares : 0;
        double variance = 1.0 / count + share;
        return pointUncertainty * Math.sqrt(variance);
    }

    /** Standard uncertainty because one standard says nothing about the slope away from it. */
    double unknownGainAt(double reading, double unknownGain) {
        double fromMean = reading - meanReading;
        return onePoint ? Uncertainty.rectangular(unknownGain * Math.abs(fromMean)) : 0;
    }
}
