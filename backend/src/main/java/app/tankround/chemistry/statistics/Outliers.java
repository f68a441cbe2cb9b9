package app.tankround.chemistry.statistics;

import app.tankround.chemistry.StudentDistribution;
import app.tankround.units.InputKind;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.Ranges;

/** Whether a value of a series lies too far from the others to belong to them. */
public final class Outliers {

    /** Modified scores above it are suspicious (Iglewicz and Hoaglin, How to Detect and Handle Outliers, 1993). */
    public static final double SUSPICIOUS_SCORE = 3.5;

    /** What the median absolute deviation is of the standard deviation of normally distributed values. */
    private static final double NORMAL_SHARE = 0.6745;

    private Outliers() {}

    /**
     * Grubbs' statistic: greatest distance from the mean in standard deviations. Technometrics 11 (1969) 1.
     *
     * @throws OutOfRangeException if there are fewer than three values, or {@code NO_SPAN} if all are equal
     */
    public static double grubbs(double[] values) {
        double mean = Series.mean(Series.require(values, 3));
        double deviation = Series.deviation(values);
        if (!(deviation > 0)) {
            throw Series.noSpan(values[0]);
        }
        return Math.abs(values[farthest(values)] - mean) / deviation;
    }

    /** Which value lies farthest from the mean, counted from 0. */
    public static int farthest(double[] values) {
        double mean = Series.mean(Series.require(values, 1));
        int farthest = 0;
        for (int i = 1; i < values.length; i++) {
            if (Math.abs(values[i] - mean) > Math.abs(values[farthest] - mean)) {
                farthest = i;
            }
        }
        return farthest;
    }

    /**
     * Greatest statistic that still belongs, for the one-sided test of either the highest or the lowest value.
     *
     * @param count how many values, from 3
     * @param alpha probability of a false alarm, above 0 and up to one half
     */
    public static double grubbsCritical(int count, double alpha) {
        Ranges.require(InputKind.COUNT, count, 3, Integer.MAX_VALUE);
        Ranges.require(InputKind.FRACTION, alpha, 1e-9, 0.5);
        double t = StudentDistribution.quantile(1 - alpha / count, count - 2);
        return grubbsBound(count) * Math.sqrt(t * t / (count - 2 + t * t));
    }

    /** The statistic can be no higher than this, whatever the values. */
    public static double grubbsBound(int count) {
        return (count - 1) / Math.sqrt(count);
    }

    /**
     * Distance of each value from the median, in median absolute deviations, scaled like a standard score.
     *
     * @throws OutOfRangeException with {@code NO_SPAN} if more than half of the values are equal
     */
    public static double[] modifiedScores(double[] values) {
        double median = RobustEstimates.median(Series.require(values, 3));
        double deviation = RobustEstimates.medianAbsoluteDeviation(values);
        if (!(deviation > 0)) {
            throw Series.noSpan(median);
        }
        double[] scores = new double[values.length];
        for (int i = 0; i < values.length; i++) {
            scores[i] = NORMAL_SHARE * (values[i] - median) / deviation;
        }
        return scores;
    }
}
