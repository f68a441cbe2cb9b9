package app.tankround.chemistry;

import app.tankround.units.InputKind;
import app.tankround.units.Mass;
import app.tankround.units.Ranges;
import app.tankround.units.Salinity;
import app.tankround.units.Temperature;
import app.tankround.units.Volume;

/**
 * What a batch of water holds, as masses, so that nothing is lost where volumes do not add up. Density by EOS-80, mass
 * fraction of salt by Millero et al. 2008 ({@link SaltWater}).
 *
 * @param water kilograms of water, not negative
 * @param salt kilograms of anhydrous salt, not negative
 */
public record BatchContents(double water, double salt) {

    public BatchContents {
        Ranges.require(InputKind.MASS, water, 0, Double.POSITIVE_INFINITY);
        Ranges.require(InputKind.MASS, salt, 0, Double.POSITIVE_INFINITY);
    }

    /** Of a volume at its temperature; salinity 0 to 50. */
    public static BatchContents of(Volume volume, Salinity salinity, Temperature temperature) {
        double together = SaltWater.mass(volume, salinity, temperature).kilograms();
        double salt = together * SaltWater.gramsPerKilogram(salinity) / 1000;
        return new BatchContents(together - salt, salt);
    }

    public Mass mass() {
        return new Mass(water + salt);
    }

    /** @throws app.tankround.units.OutOfRangeException if there is nothing in it */
    public Salinity salinity() {
        Ranges.require(InputKind.MASS, water + salt, Double.MIN_NORMAL, Double.POSITIVE_INFINITY);
        return SaltWater.ofGramsPerKilogram(1000 * salt / (water + salt));
    }

    /** How much it takes up at a temperature. */
    public Volume volume(Temperature temperature) {
        return SaltWater.volume(mass(), salinity(), temperature);
    }

    /**
     * With salt mix put in: its anhydrous part is salt, the rest water of crystallisation.
     *
     * @param yield grams of anhydrous salt per gram of product, 0.5 to 1
     */
    public BatchContents plusProduct(Mass product, double yield) {
        Ranges.require(InputKind.YIELD, yield, 0.5, 1);
        double anhydrous = product.kilograms() * yield;
        return new BatchContents(water + product.kilograms() - anhydrous, salt + anhydrous);
    }

    /** With purified water put in, measured at its temperature. */
    public BatchContents plusWater(Volume added, Temperature temperature) {
        return new BatchContents(water + added.litres() * SeawaterDensity.ofPureWater(temperature) / 1000, salt);
    }

    /** With all of another one poured in. */
    public BatchContents plus(BatchContents other) {
        return new BatchContents(water + other.water, salt + other.salt);
    }

    /** So large a part of it, 0 to 1. */
    public BatchContents part(double share) {
        Ranges.require(InputKind.FRACTION, share, 0, 1);
        return new BatchContents(water * share, salt * share);
    }
}
