package app.tankround.chemistry.statistics;

import app.tankround.chemistry.StudentDistribution;
import app.tankround.units.InputKind;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.Ranges;
import app.tankround.units.RefusalCode;

/**
 * Limits of a method from its calibration line, by DIN 32645: the smallest content that can be told from none, the smallest
 * that is surely found, and the smallest that can be stated as a number.
 *
 * @param decision content above which a reading is called different from none, wrong with probability alpha
 * @param detection content that is called so but for probability beta, here equal to alpha: twice the decision limit
 * @param quantification content whose half-width of the interval is its k-th part
 */
public record DetectionLimits(double decision, double detection, double quantification) {

    /**
     * From a line through standards near the limit.
     *
     * @param alpha probability of calling a blank found, such as 0.01, above 0 and up to one half
     * @param k inverse of the relative uncertainty at the limit of quantification, 1 to 100; 3 is usual
     * @param readings how many readings are averaged, from 1
     * @throws OutOfRangeException with {@code SLOPE_UNCERTAIN} if the standards cannot tell the slope well enough for a limit
     */
    public static DetectionLimits of(StraightLine line, double alpha, double k, double readings) {
        Ranges.require(InputKind.FRACTION, alpha, 1e-9, 0.5);
        Ranges.require(InputKind.READING, k, 1, 100);
        Ranges.require(InputKind.COUNT, readings, 1, Integer.MAX_VALUE);
        double scale = line.residualDeviation() / Math.abs(line.slope());
        double oneSided = StudentDistribution.quantile(1 - alpha, line.degrees());
        double twoSided = StudentDistribution.coverageFactor(1 - alpha, line.degrees());
        double fixed = 1 / readings + 1 / line.weights();
        double decision = oneSided * scale * Math.sqrt(fixed + line.meanX() * line.meanX() / line.squaresX());
        double factor = k * twoSided * scale;
        double curvature = factor * factor / line.squaresX();
        if (!(curvature < 1)) {
            throw new OutOfRangeException(
                    RefusalCode.SLOPE_UNCERTAIN,
                    InputKind.FRACTION,
                    Double.isNaN(curvature) ? Double.POSITIVE_INFINITY : curvature,
                    0,
                    1);
        }
        return new DetectionLimits(decision, 2 * decision, quantification(line, factor, curvature, fixed));
    }

    /** The upper root of x² = factor² (fixed + (x - mean)² / squares), a quadratic equation. */
    private static double quantification(StraightLine line, double factor, double curvature, double fixed) {
        double mean = line.meanX();
        double a = 1 - curvature;
        double b = curvature * mean;
        double c = factor * factor * fixed + curvature * mean * mean;
        return (-b + Math.sqrt(b * b + a * c)) / a;
    }
}
