package app.tankround.chemistry;

import app.tankround.units.InputKind;
import app.tankround.units.Mass;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.Ranges;
import app.tankround.units.RefusalCode;
import app.tankround.units.Salinity;
import app.tankround.units.Temperature;
import app.tankround.units.Volume;
import java.util.List;

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
    public static final double GRAMS_PER_KILOGRAM = 35.16504 / 35;

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

    /** One of the waters that are poured together. */
    public record Water(Mass mass, Salinity salinity) {}

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
     * Volume to take out and replace by as much water of the same temperature to bring a target: RO/DI water of salinity 0
     * or any other. By balance of masses; that two waters poured together take up a little less than their volumes is
     * neglected (below 0.04 %).
     *
     * @throws OutOfRangeException with code {@code UNREACHABLE} if the target does not lie between present and new water
     */
    public static Volume volumeToSwap(
            Volume volume, Salinity from, Salinity to, Salinity replacement, Temperature temperature) {
        double present = SeawaterDensity.ofSeawater(from, temperature).value();
        double added = SeawaterDensity.ofSeawater(replacement, temperature).value();
        double wanted = Math.abs(to.practical() - from.practical());
        if (wanted == 0) {
            return new Volume(0);
        }
        requireBetween(to, from, replacement);
        double lost = present * wanted;
        double gained = added * Math.abs(replacement.practical() - to.practical());
        double sum = lost + gained;
        return new Volume(volume.litres() * lost / sum);
    }

    /**
     * Salinity of waters poured together.
     *
     * @throws OutOfRangeException if a salinity is above 50 or there is no water at all
     */
    public static Salinity blend(List<Water> waters) {
        double together = 0;
        double salt = 0;
        double saltiest = 0;
        for (Water water : waters) {
            double s = Ranges.require(
                    InputKind.PRACTICAL_SALINITY, water.salinity().practical(), 0, SeawaterDensity.HIGHEST_SALINITY);
            together += water.mass().kilograms();
            salt += water.mass().kilograms() * s;
            saltiest = Math.max(saltiest, s);
        }
        Ranges.require(InputKind.MASS, together, Double.MIN_NORMAL, Double.POSITIVE_INFINITY);
        // Rounding makes no water saltier than the saltiest.
        return new Salinity(Math.min(saltiest, salt / together));
    }

    /** Volume of a mass of seawater. */
    public static Volume volume(Mass mass, Salinity salinity, Temperature temperature) {
        double density = SeawaterDensity.ofSeawater(salinity, temperature).value();
        return new Volume(1000 * mass.kilograms() / density);
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
        requireBetween(to, from, replacement);
        return wanted / most;
    }

    private static void requireBetween(Salinity wanted, Salinity from, Salinity replacement) {
        double low = Math.min(from.practical(), replacement.practical());
        double high = Math.max(from.practical(), replacement.practical());
        if (wanted.practical() < low || wanted.practical() > high) {
            throw new OutOfRangeException(
                    RefusalCode.UNREACHABLE, InputKind.PRACTICAL_SALINITY, wanted.practical(), low, high);
        }
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

    /** Reference salinity: grams of salt per kilogram of seawater. */
    public static double gramsPerKilogram(Salinity salinity) {
        return GRAMS_PER_KILOGRAM * salinity.practical();
    }

    /** Practical salinity from grams of salt per kilogram of seawater. */
    public static Salinity ofGramsPerKilogram(double gramsPerKilogram) {
        return new Salinity(gramsPerKilogram / GRAMS_PER_KILOGRAM);
    }

    /** Grams of salt in a litre of seawater measured at a temperature. */
    public static double gramsPerLitre(Salinity salinity, Temperature temperature) {
        double density = SeawaterDensity.ofSeawater(salinity, temperature).value();
        return gramsPerKilogram(salinity) * density / 1000;
    }

    /**
     * Practical salinity from grams of salt in a litre measured at a temperature.
     *
     * @throws OutOfRangeException if that is more than a litre holds at practical salinity 50
     */
    public static Salinity ofGramsPerLitre(double gramsPerLitre, Temperature temperature) {
        double highest = gramsPerLitre(new Salinity(SeawaterDensity.HIGHEST_SALINITY), temperature);
        double wanted = Ranges.require(InputKind.SALT_PER_LITRE, gramsPerLitre, 0, highest);
        return new Salinity(Bisection.whereRises(
                s -> gramsPerLitre(new Salinity(s), temperature), wanted, 0, SeawaterDensity.HIGHEST_SALINITY));
    }
}
