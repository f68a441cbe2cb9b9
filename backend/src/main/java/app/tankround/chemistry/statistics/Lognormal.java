package app.tankround.chemistry.statistics;

import app.tankround.chemistry.NormalDistribution;

/**
 * A quantity above 0 whose logarithm is normal. A sum of such quantities is nearly one again, with the sum of their means and
 * variances (L. F. Fenton, The sum of log-normal probability distributions in scatter transmission systems, IRE Trans.
 * Communications Systems 8 (1960) 57).
 *
 * @param mu mean of the logarithm
 * @param sigma standard deviation of the logarithm, above 0
 */
public record Lognormal(double mu, double sigma) {

    /** The one of that mean and variance, both above 0. */
    public static Lognormal of(double mean, double variance) {
        double logVariance = Math.log(1 + variance / (mean * mean));
        return new Lognormal(Math.log(mean) - logVariance / 2, Math.sqrt(logVariance));
    }

    public double mean() {
        return Math.exp(mu + sigma * sigma / 2);
    }

    /** What is not exceeded with that probability, between 0 and 1. */
    public double quantile(double probability) {
        return Math.exp(mu + sigma * NormalDistribution.quantile(probability));
    }

    /** How likely it is not more than that, which is above 0. */
    public double cumulative(double value) {
        return NormalDistribution.cumulative(z(value));
    }

    /** By how much it is more than that on average, counting nothing where it is not. */
    public double shortfall(double value) {
        double above = mean() * NormalDistribution.survival(z(value) - sigma);
        return above - value * NormalDistribution.survival(z(value));
    }

    private double z(double value) {
        return (Math.log(value) - mu) / sigma;
    }
}
