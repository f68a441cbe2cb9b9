package app.tankround.chemistry;

import app.tankround.units.Alkalinity;
import app.tankround.units.InputKind;
import app.tankround.units.Mass;
import app.tankround.units.MassConcentration;
import app.tankround.units.Ranges;
import app.tankround.units.Volume;

/**
 * How much of a salt raises alkalinity, calcium or magnesium of a volume of water: stoichiometry, by the net volume and
 * the purity of the product. The product is dissolved outside and given slowly; alkalinity and calcium never together,
 * since they precipitate each other.
 */
public final class SupplementDose {

    /** Moles of calcium in one mole of calcium carbonate take two equivalents of alkalinity with them. */
    private static final double MILLIGRAMS_CALCIUM_PER_MILLIEQUIVALENT = MolarMass.of("Ca") / 2;

    private SupplementDose() {}

    /**
     * @param volume net volume of the water
     * @param to not below {@code from}
     * @param purity share of the salt in the product by mass, above 0 to 1
     * @throws IllegalArgumentException if the salt raises something else
     */
    public static Mass forAlkalinity(Salt salt, Volume volume, Alkalinity from, Alkalinity to, double purity) {
        require(salt, Salt.Raises.ALKALINITY);
        Ranges.require(
                InputKind.ALKALINITY,
                to.milliequivalentsPerLitre(),
                from.milliequivalentsPerLitre(),
                Double.POSITIVE_INFINITY);
        double millimolesPerLitre = (to.milliequivalentsPerLitre() - from.milliequivalentsPerLitre()) / salt.perMole();
        return product(salt, volume, millimolesPerLitre, purity);
    }

    /** As {@link #forAlkalinity}, for calcium or magnesium in mg/L of the metal. */
    public static Mass forMetal(Salt salt, Volume volume, MassConcentration from, MassConcentration to, double purity) {
        double metal = MolarMass.of(
                switch (salt.raises()) {
                    case CALCIUM -> "Ca";
                    case MAGNESIUM -> "Mg";
                    case ALKALINITY -> throw new IllegalArgumentException(salt + " raises no metal");
                });
        Ranges.require(
                InputKind.MASS_CONCENTRATION,
                to.milligramsPerLitre(),
                from.milligramsPerLitre(),
                Double.POSITIVE_INFINITY);
        double millimolesPerLitre = (to.milligramsPerLitre() - from.milligramsPerLitre()) / metal / salt.perMole();
        return product(salt, volume, millimolesPerLitre, purity);
    }

    /** Calcium that calcification takes up with an amount of alkalinity: Ca + 2 HCO3 gives CaCO3. */
    public static MassConcentration calciumTakenWith(Alkalinity alkalinity) {
        return new MassConcentration(alkalinity.milliequivalentsPerLitre() * MILLIGRAMS_CALCIUM_PER_MILLIEQUIVALENT);
    }

    private static void require(Salt salt, Salt.Raises raises) {
        if (salt.raises() != raises) {
            throw new IllegalArgumentException(salt + " does not raise " + raises);
        }
    }

    private static Mass product(Salt salt, Volume volume, double millimolesPerLitre, double purity) {
        Ranges.require(InputKind.FRACTION, purity, Double.MIN_NORMAL, 1);
        double grams = volume.litres() * millimolesPerLitre * salt.molarMass() / 1000;
        return new Mass(grams / purity / 1000);
    }
}
