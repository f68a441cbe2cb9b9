package app.tankround.chemistry;

import app.tankround.units.Alkalinity;
import app.tankround.units.InputKind;
import app.tankround.units.MassConcentration;
import app.tankround.units.Ranges;
import app.tankround.units.Temperature;
import app.tankround.units.Volume;

/**
 * Saturated limewater (calcium hydroxide). It is caustic and burns skin and eyes (ICSC 0408), and it is given drop by
 * drop: poured, it lifts pH.
 *
 * <p>Strength: 1.55 g/L at 25 °C, the middle of 1.49 to 1.57 from PHREEQC-3 with three databases, 1.5 in compilations
 * after Seidell and Linke, and 1.59 by a handbook table; with temperature as that table falls (0.185, 0.176, 0.165,
 * 0.153, 0.141 g in 100 g of water at 0, 10, 20, 30, 40 °C). Expanded uncertainty 5 %. Range: 0 to 40 °C.
 */
public final class Limewater {

    private static final double[] HANDBOOK_GRAMS_PER_100_GRAMS = {0.185, 0.176, 0.165, 0.153, 0.141};
    private static final double STRENGTH_AT_25 = 1.55;
    private static final double RELATIVE_UNCERTAINTY = 0.08 / STRENGTH_AT_25;

    private static final double MOLAR_MASS = MolarMass.of("Ca(OH)2");

    private Limewater() {}

    /** Calcium hydroxide in g/L of a saturated solution. */
    public static Computed saturated(Temperature temperature) {
        double t = Ranges.require(InputKind.TEMPERATURE, temperature.celsius(), 0, 40);
        double strength = STRENGTH_AT_25 * handbook(t) / handbook(25);
        return new Computed(strength, strength * RELATIVE_UNCERTAINTY, false);
    }

    /** Alkalinity of a solution: two equivalents for each mole. */
    public static Alkalinity alkalinity(double gramsPerLitre) {
        return new Alkalinity(2 * 1000 * gramsPerLitre / MOLAR_MASS);
    }

    /** Calcium of a solution. */
    public static MassConcentration calcium(double gramsPerLitre) {
        return new MassConcentration(1000 * gramsPerLitre * MolarMass.of("Ca") / MOLAR_MASS);
    }

    /**
     * Alkalinity that limewater adds to a system.
     *
     * @param added no more than has evaporated, or the water rises and freshens: the ceiling
     * @param held net volume, above 0
     */
    public static Alkalinity alkalinityAdded(double gramsPerLitre, Volume added, Volume held) {
        return new Alkalinity(alkalinity(gramsPerLitre).milliequivalentsPerLitre() * share(added, held));
    }

    /** Calcium that limewater adds to a system; arguments as for alkalinity. */
    public static MassConcentration calciumAdded(double gramsPerLitre, Volume added, Volume held) {
        return new MassConcentration(calcium(gramsPerLitre).milligramsPerLitre() * share(added, held));
    }

    private static double share(Volume added, Volume held) {
        Ranges.require(InputKind.VOLUME, held.litres(), Double.MIN_NORMAL, Double.POSITIVE_INFINITY);
        return added.litres() / held.litres();
    }

    private static double handbook(double celsius) {
        return Interpolation.linear(HANDBOOK_GRAMS_PER_100_GRAMS, 0, 10, celsius);
    }
}
