package app.tankround.chemistry;

import app.tankround.units.InputKind;
import app.tankround.units.Mass;
import app.tankround.units.Ranges;
import app.tankround.units.Salinity;
import app.tankround.units.Temperature;
import app.tankround.units.Volume;
import java.util.List;

/**
 * The yield of a salt mix, in grams of anhydrous salt per gram as bought, by what batches that were made of it came to, and how
 * it changes in an opened bag, since salt draws water out of the air.
 *
 * <p>A batch's yield is taken as {@code a + b w} with the weeks {@code w} that the bag was open, plus the error of its own
 * measurement. With normal priors for {@code a} and {@code b} the posterior is normal as well: its precision is that of the
 * priors plus the sum over the batches of {@code (1, w)(1, w)' / s²} (Bayesian linear regression with known variances: Gelman
 * et al., Bayesian Data Analysis, 3rd ed., 14, from memory). That a yield changes by {@value #WEEKLY_SPREAD} a week, one
 * standard deviation, is an own choice without a source.
 *
 * @param fresh expected yield of a bag just opened
 * @param weekly expected change in each week that it is open
 * @param freshVariance of {@code fresh}
 * @param weeklyVariance of {@code weekly}
 * @param covariance of the two
 */
public record SaltYield(double fresh, double weekly, double freshVariance, double weeklyVariance, double covariance) {

    /** Standard deviation of what a week in an open bag changes, before anything is known. */
    public static final double WEEKLY_SPREAD = 0.002;

    private static final double GRAMS_PER_KILOGRAM = 1000;

    /**
     * What one batch came to.
     *
     * @param yield see {@link #ofBatch}
     * @param deviation standard uncertainty of it, above 0
     * @param weeksOpen how long the bag had been open, 0 or more
     */
    public record Measured(double yield, double deviation, double weeksOpen) {}

    /**
     * The yield that a finished batch tells of: salt in it by its volume and salinity, over the product that went in.
     *
     * @param product as bought, above 0
     * @param salinity 0 to 50
     */
    public static double ofBatch(Mass product, Volume volume, Salinity salinity, Temperature temperature) {
        Ranges.require(InputKind.MASS, product.kilograms(), Double.MIN_NORMAL, Double.POSITIVE_INFINITY);
        double water = SaltWater.mass(volume, salinity, temperature).kilograms();
        double salt = water * SaltWater.gramsPerKilogram(salinity) / GRAMS_PER_KILOGRAM;
        return salt / product.kilograms();
    }

    /**
     * @param known yield expected before any batch of this bag, such as that of other bags
     * @param knownDeviation standard deviation of that, above 0
     */
    public static SaltYield of(double known, double knownDeviation, List<Measured> batches) {
        double freshPrecision = 1 / (knownDeviation * knownDeviation);
        double weeklyPrecision = 1 / (WEEKLY_SPREAD * WEEKLY_SPREAD);
        double together = 0;
        double fresh = known * freshPrecision;
        double weekly = 0;
        for (Measured batch : batches) {
            double weight = 1 / (batch.deviation() * batch.deviation());
            freshPrecision += weight;
            together += weight * batch.weeksOpen();
            weeklyPrecision += weight * batch.weeksOpen() * batch.weeksOpen();
            fresh += weight * batch.yield();
            weekly += weight * batch.weeksOpen() * batch.yield();
        }
        double determinant = freshPrecision * weeklyPrecision - together * together;
        double freshVariance = weeklyPrecision / determinant;
        double weeklyVariance = freshPrecision / determinant;
        double covariance = -together / determinant;
        return new SaltYield(
                freshVariance * fresh + covariance * weekly,
                covariance * fresh + weeklyVariance * weekly,
                freshVariance,
                weeklyVariance,
                covariance);
    }

    /** Expected after so many weeks. */
    public double after(double weeks) {
        return fresh + weekly * weeks;
    }

    /** Standard deviation of {@link #after}. */
    public double deviationAfter(double weeks) {
        double twice = 2 * covariance * weeks;
        double drift = weeklyVariance * weeks * weeks;
        return Math.sqrt(freshVariance + twice + drift);
    }
}
