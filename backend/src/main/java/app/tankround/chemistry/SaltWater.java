package app.tankround.chemistry;

import app.tankround.units.InputKind;
import app.tankround.units.Mass;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.Ranges;
import app.tankround.units.RefusalCode;
import app.tankround.units.Salinity;
import app.tankround.units.Temperature;
import app.tankround.units.Volume;

/**
 * Mixing salt water and changing its salinity, by balance of masses with EOS-80 densities. The mass fraction of salt is the
 * reference salinity of Millero et al. 2008, 35.16504/35 g/kg per unit of practical salinity.
 *
 * <p>Volumes are those at the temperature given. A product's yield is the share of anhydrous salt in it, 0.5 to 1: about
 * 0.85 for a fully hydrated recipe (estimated from memory of Kester et al. 1967), set from the label or a test batch.
 * Salinities above 50 are refused. Dry salt is never put into a stocked tank: dissolve it outside.
 */
public final class SaltWater {

    /** Grams of salt per kilogram of seawater per unit of practical salinity. */
    static final double GRAMS_PER_KILOGRAM = 35.16504 / 35;

    private SaltWater() {}

    /**
     * What a batch is mixed from.
     *
     * @param volume volume of the finished batch
     * @param salinity its salinity
     * @param seawater mass of the finished batch
     * @param anhydrousSalt mass of salt without water
     * @param product mass of the product to weigh out
     * @param water volume of RO/DI water at its own temperature
     */
    public record Batch(
            Volume volume, Salinity salinity, Mass seawater, Mass anhydrousSalt, Mass product, Volume water) {}

    /** Mass of a volume of seawater. */
    public static Mass mass(Volume volume, Salinity salinity, Temperature temperature) {
        double density = SeawaterDensity.ofSeawater(salinity, temperature).value();
        return new Mass(volume.litres() * density / 1000);
    }

    /**
     * What to weigh and measure for a batch.
     *
     * @param volume wanted volume
     * @param salinity wanted salinity
     * @param temperature temperature of the finished batch
     * @param waterTemperature temperature at which the RO/DI water is measured
     * @param yield grams of anhydrous salt per gram of product, 0.5 to 1
     */
    public static Batch mix(
            Volume volume, Salinity salinity, Temperature temperature, Temperature waterTemperature, double yield) {
        Ranges.require(InputKind.YIELD, yield, 0.5, 1);
        Mass seawater = mass(volume, salinity, temperature);
        double salt = seawater.kilograms() * gramsPerKilogram(salinity) / 1000;
        double product = salt / yield;
        double water = 1000 * (seawater.kilograms() - product) / SeawaterDensity.ofPureWater(waterTemperature);
        return new Batch(volume, salinity, seawater, new Mass(salt), new Mass(product), new Volume(water));
    }

    /**
     * Mass of product that raises the salinity of water from which nothing is taken out.
     *
     * @throws OutOfRangeException if the target is below the present salinity
     */
    public static Mass productToRaise(
            Volume volume, Salinity from, Salinity to, Temperature temperature, double yield) {
        Ranges.require(InputKind.YIELD, yield, 0.5, 1);
        double present = mass(volume, from, temperature).kilograms();
        Ranges.require(
                InputKind.PRACTICAL_SALINITY, to.practical(), from.practical(), SeawaterDensity.HIGHEST_SALINITY);
        double rise = gramsPerKilogram(to) - gramsPerKilogram(from);
        double room = 1000 * yield - gramsPerKilogram(to);
        return new Mass(present * rise / room);
    }

    /**
     * Volume to take out and replace by RO/DI water of the same temperature to lower the salinity.
     *
     * @throws OutOfRangeException if the target is above the present salinity
     */
    public static Volume volumeToSwapForFresh(Volume volume, Salinity from, Salinity to, Temperature temperature) {
        Ranges.require(InputKind.PRACTICAL_SALINITY, to.practical(), 0, from.practical());
        if (from.practical() <= 0) {
            return new Volume(0);
        }
        double density = SeawaterDensity.ofSeawater(from, temperature).value();
        double fall = from.practical() - to.practical();
        double lost = density * fall;
        double gained = SeawaterDensity.ofPureWater(temperature) * to.practical();
        double sum = lost + gained;
        return new Volume(volume.litres() * lost / sum);
    }

    /** Salinity of two waters of one temperature poured together. */
    public static Salinity blend(
            Volume first, Salinity firstSalinity, Volume second, Salinity secondSalinity, Temperature temperature) {
        double a = mass(first, firstSalinity, temperature).kilograms();
        double b = mass(second, secondSalinity, temperature).kilograms();
        double together = a + b;
        Ranges.require(InputKind.MASS, together, Double.MIN_NORMAL, Double.POSITIVE_INFINITY);
        double salt = a * firstSalinity.practical() + b * secondSalinity.practical();
        return new Salinity(salt / together);
    }

    /**
     * The salinity that replacement water needs so that one change of a share of the water brings the target; by the
     * straight line, which neglects the small difference of densities.
     *
     * @param share share of the water changed, above 0 to 1
     * @throws OutOfRangeException if it would have to be below 0 or above 45
     */
    public static Salinity replacementFor(Salinity from, Salinity to, double share) {
        Ranges.require(InputKind.FRACTION, share, Double.MIN_NORMAL, 1);
        double change = to.practical() - from.practical();
        double needed = from.practical() + change / share;
        if (!(needed >= 0 && needed <= 45)) {
            throw new OutOfRangeException(RefusalCode.UNREACHABLE, InputKind.PRACTICAL_SALINITY, needed, 0, 45);
        }
        return new Salinity(needed);
    }

    /**
     * Share of the water to change for water of a given salinity to bring the target; by the straight line.
     *
     * @throws OutOfRangeException if no change of up to all the water does
     */
    public static double shareToReplace(Salinity from, Salinity to, Salinity replacement) {
        double wanted = to.practical() - from.practical();
        double most = replacement.practical() - from.practical();
        if (wanted == 0) {
            return 0;
        }
        double share = wanted / most;
        if (!(share >= 0 && share <= 1)) {
            double low = Math.min(from.practical(), replacement.practical());
            double high = Math.max(from.practical(), replacement.practical());
            throw new OutOfRangeException(
                    RefusalCode.UNREACHABLE, InputKind.PRACTICAL_SALINITY, to.practical(), low, high);
        }
        return share;
    }

    /**
     * Salinity after pure water has evaporated.
     *
     * @param evaporated mass of water gone, less than there is
     */
    public static Salinity afterEvaporation(Mass seawater, Salinity salinity, Mass evaporated) {
        double left = seawater.kilograms() - evaporated.kilograms();
        Ranges.require(InputKind.MASS, left, Double.MIN_NORMAL, Double.POSITIVE_INFINITY);
        return new Salinity(salinity.practical() * seawater.kilograms() / left);
    }

    static double gramsPerKilogram(Salinity salinity) {
        return GRAMS_PER_KILOGRAM * salinity.practical();
    }
}
