package app.tankround.chemistry.statistics;

import app.tankround.chemistry.NormalDistribution;

/**
 * How much of something to take where it is decided once and demand is uncertain: the quantile of demand at the critical
 * ratio (Cachon and Terwiesch, Matching Supply with Demand, 3rd ed., chapter on the newsvendor model).
 */
public final class Newsvendor {

    private Newsvendor() {}

    /**
     * How likely it should be that it is enough: Cu / (Cu + Co).
     *
     * @param tooFew what one too few costs (Cu), above 0
     * @param tooMany what one too many costs (Co), above 0
     * @return between 0 and 1
     */
    public static double criticalRatio(double tooFew, double tooMany) {
        return tooFew / (tooFew + tooMany);
    }

    /** What is enough with that likelihood where demand is normal: mean + z standard deviations. */
    public static double normalQuantity(double mean, double deviation, double ratio) {
        return mean + deviation * NormalDistribution.quantile(ratio);
    }

    /** What is missing on average where demand is normal: s (phi(z) - z (1 - Phi(z))), z = (quantity - mean) / s. */
    public static double normalShortfall(double mean, double deviation, double quantity) {
        double z = (quantity - mean) / deviation;
        double tail = z * NormalDistribution.survival(z);
        return deviation * (NormalDistribution.density(z) - tail);
    }
}
