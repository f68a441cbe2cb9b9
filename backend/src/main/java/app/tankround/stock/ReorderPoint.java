package app.tankround.stock;

import app.tankround.chemistry.NormalDistribution;

/**
 * When to order, so that what is there lasts until the delivery with a given probability. Demand of a day and days until
 * the delivery both vary, normally and independently: the demand until then has the mean {@code d L} and the variance
 * {@code L s_d^2 + d^2 s_L^2} (Heizer and Render, Operations Management, chapter on inventory).
 *
 * @param mean demand until the delivery, in units
 * @param deviation its standard deviation, in units
 */
public record ReorderPoint(double mean, double deviation) {

    /**
     * @param perDay mean demand of a day, 0 or more
     * @param sdPerDay its standard deviation, 0 or more
     * @param days until the delivery on average, 0 or more
     * @param sdDays their standard deviation, 0 or more
     */
    public static ReorderPoint of(double perDay, double sdPerDay, double days, double sdDays) {
        double variance = days * sdPerDay * sdPerDay + perDay * perDay * sdDays * sdDays;
        return new ReorderPoint(perDay * days, Math.sqrt(variance));
    }

    /**
     * Units beyond the mean demand that are kept against its variation.
     *
     * @param serviceLevel probability of not running out, above 0 and below 1
     */
    public double safetyStock(double serviceLevel) {
        return NormalDistribution.quantile(serviceLevel) * deviation;
    }

    /** Units at which to order. */
    public double units(double serviceLevel) {
        return mean + safetyStock(serviceLevel);
    }

    /** Probability that so many units last until the delivery. */
    public double serviceLevel(double units) {
        if (deviation == 0) {
            return units >= mean ? 1 : 0;
        }
        return NormalDistribution.cumulative((units - mean) / deviation);
    }
}
