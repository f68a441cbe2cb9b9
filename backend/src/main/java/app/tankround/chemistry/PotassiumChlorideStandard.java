package app.tankround.chemistry;

import app.tankround.units.Conductivity;
import app.tankround.units.InputKind;
import app.tankround.units.Ranges;
import app.tankround.units.Temperature;

/**
 * Conductivity of the potassium chloride solutions that meters are calibrated with (Pratt, Koch, Wu and Berezansky 2001,
 * Pure and Applied Chemistry 73, 1783, as printed in the CRC Handbook), 0 to 50 °C. Read: 20, 25 and 30 °C of the weaker,
 * 25 and 30 °C of the stronger; the other cells are from memory, and their differences run as smoothly as those read.
 * Between the cells a cubic; carbon dioxide of the air, a few µS/cm, comes on top.
 */
public enum PotassiumChlorideStandard {
    MOL_PER_KG_0_01(0.01, new double[] {
        772.92, 890.96, 1013.95, 1141.45, 1273.03, 1408.23, 1546.63, 1687.79, 1831.27, 1976.62, 2123.43
    }),
    MOL_PER_KG_0_1(0.1, new double[] {
        7116.85, 8183.70, 9291.72, 10437.1, 11615.9, 12824.6, 14059.2, 15316.0, 16591.0, 17880.6, 19180.9
    });

    /**
     * Potassium chloride in g for each kg of the solution whose conductivity at 15 °C (IPTS-68) defines practical salinity
     * 35 (Fofonoff and Millard 1983, UNESCO Technical Papers in Marine Science 44, p. 6).
     */
    public static final double GRAMS_PER_KILOGRAM_OF_SALINITY_35 = 32.4356;

    private final double molality;
    private final double[] microsiemens;

    PotassiumChlorideStandard(double molality, double[] microsiemens) {
        this.molality = molality;
        this.microsiemens = microsiemens;
    }

    /** Moles of potassium chloride for each kg of water. */
    public double molality() {
        return molality;
    }

    /** Potassium chloride in g for each kg of water. */
    public double gramsPerKilogramOfWater() {
        return molality * MolarMass.of("KCl");
    }

    public Conductivity at(Temperature temperature) {
        double t = Ranges.require(InputKind.TEMPERATURE, temperature.celsius(), 0, 50);
        return Conductivity.ofMicrosiemensPerCentimetre(Interpolation.cubic(microsiemens, 0, 5, t));
    }
}
