package app.tankround.chemistry;

import app.tankround.units.GravityReference;
import app.tankround.units.InputKind;
import app.tankround.units.Ranges;
import app.tankround.units.Salinity;
import app.tankround.units.SpecificGravity;

/**
 * What a refractometer graduated for sodium chloride brine shows in seawater, and back. Index and density of the brine are
 * smooth fits through the cells at 20 °C of the CRC Handbook, 102nd edition, Concentrative Properties of Aqueous
 * Solutions; four-decimal indices limit this to about 0.5 g/kg. Seawater by Quan and Fry 1995, carried on as the straight
 * line it is above salinity 35. Both indices are taken relative to that of pure water, so the scale is right at zero.
 */
public final class SodiumChlorideScale {

    /** Half-width of what the handbook's four decimals leave open, g/kg. */
    public static final double HANDBOOK_LIMIT = 0.5;

    private static final double INDEX_OF_WATER = 1.33298264;
    private static final double INDEX_PER_PERCENT = 1.76195e-3;
    private static final double INDEX_PER_PERCENT_SQUARED = -8.535e-7;

    private SodiumChlorideScale() {}

    /** The reading in g NaCl per kg, in seawater of practical salinity 0 to 50. */
    public static double readingIn(Salinity salinity) {
        double s =
                Ranges.require(InputKind.PRACTICAL_SALINITY, salinity.practical(), 0, SeawaterDensity.HIGHEST_SALINITY);
        return gramsPerKilogram(s);
    }

    /** The practical salinity of seawater in which such a scale shows a reading in g/kg. */
    public static Salinity toSalinity(double gramsPerKilogram) {
        double highest = gramsPerKilogram(SeawaterDensity.HIGHEST_SALINITY);
        double reading = Ranges.require(InputKind.READING, gramsPerKilogram, 0, highest);
        double rise = indexOfBrine(reading / 10) - INDEX_OF_WATER;
        double s = rise / RefractiveIndex.PER_SALINITY_AT_20;
        return new Salinity(Math.min(SeawaterDensity.HIGHEST_SALINITY, s));
    }

    /**
     * Refractive index of the brine relative to air at 20 °C and the sodium D line.
     *
     * @param massPercent g NaCl per 100 g of solution, 0 to 10
     */
    public static double brineIndex(double massPercent) {
        return indexOfBrine(Ranges.require(InputKind.FRACTION, massPercent, 0, 10));
    }

    /** Density of the brine at 20 °C in g/cm3; through the handbook's cells of 0, 3 and 4 %, 0 to 10 %. */
    public static double brineDensity(double massPercent) {
        return densityOfBrine(Ranges.require(InputKind.FRACTION, massPercent, 0, 10));
    }

    static double gramsPerKilogram(double s) {
        double rise = s * RefractiveIndex.PER_SALINITY_AT_20;
        double four = 4 * INDEX_PER_PERCENT_SQUARED;
        double discriminant = INDEX_PER_PERCENT * INDEX_PER_PERCENT + four * rise;
        double numerator = Math.sqrt(discriminant) - INDEX_PER_PERCENT;
        double twice = 2 * INDEX_PER_PERCENT_SQUARED;
        return 10 * numerator / twice;
    }

    /** What the gravity column of a brine scale shows in seawater of practical salinity 0 to 50. */
    public static SpecificGravity gravityIn(Salinity salinity, GravityReference reference) {
        double s =
                Ranges.require(InputKind.PRACTICAL_SALINITY, salinity.practical(), 0, SeawaterDensity.HIGHEST_SALINITY);
        return new SpecificGravity(gravity(s, reference), reference);
    }

    /** The brine's density at other temperatures is taken to follow pure water's. */
    static double gravity(double s, GravityReference reference) {
        double at20 = densityOfBrine(gramsPerKilogram(s) / 10) / densityOfBrine(0);
        double sampleWater = SeawaterDensity.kilogramsPerCubicMetre(0, reference.sampleCelsius());
        double ratioOfWaters = sampleWater / SeawaterGravity.pureWater(reference);
        return at20 * ratioOfWaters;
    }

    private static double indexOfBrine(double w) {
        return INDEX_OF_WATER + w * (INDEX_PER_PERCENT + w * INDEX_PER_PERCENT_SQUARED);
    }

    private static double densityOfBrine(double w) {
        return 0.998207 + w * (0.00707 + w * 1.8e-5);
    }
}
