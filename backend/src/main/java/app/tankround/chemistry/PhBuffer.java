package app.tankround.chemistry;

import app.tankround.units.InputKind;
import app.tankround.units.Ranges;
import app.tankround.units.Temperature;

/**
 * pH of the buffers that electrodes are checked in, by temperature, 0 to 50 °C: the values of the former National Bureau of
 * Standards (Covington, Bates and Durst 1985, Pure and Applied Chemistry 57, 531), read as reprinted in two measuring
 * programs of a maker of converters; the buffer of pH 7.000, which is no primary one, from there only. Between the cells a
 * cubic.
 */
public enum PhBuffer {
    /** Potassium hydrogen phthalate, 0.05 mol/kg: sold as pH 4.01 or 4.00. */
    PHTHALATE(4.000, 3.998, 3.997, 3.998, 4.001, 4.005, 4.011, 4.018, 4.027, 4.038, 4.050),
    /** Potassium dihydrogen and disodium hydrogen phosphate, 0.025 mol/kg each: sold as pH 6.86 or 6.87. */
    PHOSPHATE(6.984, 6.951, 6.923, 6.900, 6.881, 6.865, 6.853, 6.844, 6.838, 6.834, 6.833),
    /** The same salts in another ratio: sold as pH 7.00. */
    PHOSPHATE_SEVEN(7.118, 7.087, 7.059, 7.036, 7.016, 7.000, 6.987, 6.977, 6.970, 6.965, 6.964),
    /** Borax, 0.01 mol/kg: sold as pH 9.18. */
    BORAX(9.464, 9.395, 9.332, 9.276, 9.225, 9.180, 9.139, 9.102, 9.068, 9.038, 9.010),
    /** Sodium hydrogen carbonate and carbonate, 0.025 mol/kg each: sold as pH 10.01 or 10.00. */
    CARBONATE(10.317, 10.245, 10.179, 10.118, 10.062, 10.012, 9.966, 9.925, 9.889, 9.857, 9.828);

    /** Where the tables begin and end, °C. */
    public static final double LOWEST_CELSIUS = 0;

    public static final double HIGHEST_CELSIUS = 50;

    /** What a bottle's label refers to unless it says otherwise. */
    public static final Temperature USUAL = Temperature.ofCelsius(25);

    private final double[] values;

    PhBuffer(double... values) {
        this.values = values;
    }

    /** pH at a temperature of 0 to 50 °C. */
    public double at(Temperature temperature) {
        double t = Ranges.require(InputKind.TEMPERATURE, temperature.celsius(), LOWEST_CELSIUS, HIGHEST_CELSIUS);
        return Interpolation.cubic(values, LOWEST_CELSIUS, 5, t);
    }
}
