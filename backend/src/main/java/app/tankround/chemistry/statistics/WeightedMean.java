package app.tankround.chemistry.statistics;

import app.tankround.units.InputKind;
import app.tankround.units.OutOfRangeException;
import org.apache.commons.statistics.distribution.ChiSquaredDistribution;

/**
 * The mean of several results weighted by their uncertainties, and whether these explain how far the results lie apart:
 * procedure A of Cox, The evaluation of key comparison data, Metrologia 39 (2002) 589; Birge ratio of Birge, Physical
 * Review 40 (1932) 207.
 *
 * @param mean weighted by 1/u²
 * @param standardUncertainty of the mean, from the uncertainties alone
 * @param chiSquared sum of the squared deviations, each over its u²
 * @param degrees degrees of freedom, one less than there are results
 */
public record WeightedMean(double mean, double standardUncertainty, double chiSquared, int degrees) {

    private static final double CONSISTENT = 0.95;

    /**
     * Of results with their standard uncertainties.
     *
     * @throws OutOfRangeException if there are fewer than two, or an uncertainty is not above 0
     */
    public static WeightedMean of(double[] values, double[] uncertainties) {
        requireResults(values, uncertainties);
        return withBetween(values, uncertainties, 0);
    }

    /**
     * By Mandel and Paule: a variance between the results, the same for each, is added to make them consistent. Paule and
     * Mandel, Journal of Research of the National Bureau of Standards 87 (1982) 377.
     *
     * @return its mean, the uncertainty of that, and the variance between, 0 if none is needed
     * @throws OutOfRangeException as for the weighted mean
     */
    public static MandelPaule mandelPaule(double[] values, double[] uncertainties) {
        requireResults(values, uncertainties);
        double between = 0;
        double before = -1;
        // Newton's steps on a falling convex function from its left end: they rise to the root and never pass it.
        while (between > before) {
            before = between;
            WeightedMean now = withBetween(values, uncertainties, between);
            double excess = now.chiSquared - now.degrees;
            double slope = 0;
            for (int i = 0; i < values.length; i++) {
                double weight = 1 / (uncertainties[i] * uncertainties[i] + between);
                double off = (values[i] - now.mean) * weight;
                slope += off * off;
            }
            if (excess > 0 && slope > 0) {
                between += excess / slope;
            }
        }
        WeightedMean mean = withBetween(values, uncertainties, between);
        return new MandelPaule(mean.mean, mean.standardUncertainty, between);
    }

    /**
     * A mean with a variance between the results.
     *
     * @param mean weighted by 1/(u² + variance between)
     * @param standardUncertainty of the mean
     * @param betweenVariance in the square of the results' unit
     */
    public record MandelPaule(double mean, double standardUncertainty, double betweenVariance) {}

    /** Greatest chi-squared at which results count as consistent, the 95 % quantile. */
    public double criticalChiSquared() {
        return ChiSquaredDistribution.of(degrees).inverseCumulativeProbability(CONSISTENT);
    }

    /** Probability of a chi-squared above this one if the uncertainties are right. */
    public double probability() {
        return ChiSquaredDistribution.of(degrees).survivalProbability(chiSquared);
    }

    public boolean consistent() {
        return chiSquared <= criticalChiSquared();
    }

    /** How many times farther the results lie apart than their uncertainties say. */
    public double birgeRatio() {
        return Math.sqrt(chiSquared / degrees);
    }

    /** Standard uncertainty of the mean, widened by the Birge ratio if that is above 1. */
    public double widenedUncertainty() {
        return standardUncertainty * Math.max(1, birgeRatio());
    }

    private static void requireResults(double[] values, double[] uncertainties) {
        Series.require(values, 2);
        Series.requireSameLength(values, uncertainties);
        Series.requireAboveZero(InputKind.UNCERTAINTY, uncertainties);
    }

    private static WeightedMean withBetween(double[] values, double[] uncertainties, double between) {
        double weights = 0;
        double weighted = 0;
        double[] weight = new double[values.length];
        for (int i = 0; i < values.length; i++) {
            weight[i] = 1 / (uncertainties[i] * uncertainties[i] + between);
            weights += weight[i];
            weighted += weight[i] * values[i];
        }
        double mean = weighted / weights;
        double chiSquared = 0;
        for (int i = 0; i < values.length; i++) {
            chiSquared += weight[i] * (values[i] - mean) * (values[i] - mean);
        }
        return new WeightedMean(mean, 1 / Math.sqrt(weights), chiSquared, values.length - 1);
    }
}
