package app.tankround.chemistry;

import app.tankround.units.Conductivity;
import app.tankround.units.InputKind;
import app.tankround.units.Ranges;
import app.tankround.units.Temperature;

/**
 * Conductivity of fresh water at a reference temperature, up to that of practical salinity 2: from there on conductivity
 * is converted by {@link PracticalSalinity}.
 */
public final class ConductivityCompensation {

    /** Highest temperature of the table of ISO 7888. */
    public static final double HIGHEST_CELSIUS = 35.9;

    /** Where the Practical Salinity Scale begins to hold without an extension. */
    private static final double HIGHEST_SALINITY = 2;

    /**
     * Factor to 25 °C for natural water at 0, 1, ... 35 °C, ISO 7888:1985 (EN 27888), as reprinted in the manual of a
     * bench meter (all whole degrees read there; two further manuals agree at every fifth degree). The last cell, for
     * 36 °C, is carried on from those before it so that 35 to 35.9 °C have a line to lie on.
     */
    private static final double[] FACTOR_TO_25 = {
        1.918, 1.857, 1.800, 1.745, 1.693, 1.643, 1.596, 1.551, 1.508, 1.467, 1.428, 1.390, 1.354, 1.320, 1.287, 1.256,
        1.225, 1.196, 1.168, 1.141, 1.116, 1.091, 1.067, 1.044, 1.021, 1.000, 0.979, 0.959, 0.940, 0.921, 0.903, 0.886,
        0.869, 0.853, 0.837, 0.822, 0.8075
    };

    /** Factor to 25 °C at 20 °C; dividing by it gives a factor to 20 °C. */
    private static final double FACTOR_AT_20 = 1.116;

    private ConductivityCompensation() {}

    /**
     * Factor by which the conductivity of natural water at a temperature is multiplied to have it at 25 °C; straight lines
     * between whole degrees, within 0.001 of the tenths in the table.
     *
     * @throws app.tankround.units.OutOfRangeException outside 0 to 35.9 °C
     */
    public static double naturalWaterFactorTo25(Temperature temperature) {
        double t = Ranges.require(InputKind.TEMPERATURE, temperature.celsius(), 0, HIGHEST_CELSIUS);
        return Interpolation.linear(FACTOR_TO_25, 0, 1, t);
    }

    /** The same to 20 °C. */
    public static double naturalWaterFactorTo20(Temperature temperature) {
        return naturalWaterFactorTo25(temperature) / FACTOR_AT_20;
    }

    /**
     * Factor by a constant coefficient: 1 / (1 + alpha (t - reference)).
     *
     * @param perDegree alpha, share for each °C, referred to the reference temperature: 0 to 0.05
     */
    public static double linearFactor(Temperature temperature, Temperature reference, double perDegree) {
        Ranges.require(InputKind.TEMPERATURE, temperature.celsius(), 0, HIGHEST_CELSIUS);
        Ranges.require(InputKind.TEMPERATURE, reference.celsius(), 0, HIGHEST_CELSIUS);
        Ranges.require(InputKind.FRACTION, perDegree, 0, 0.05);
        double rise = 1 + perDegree * (temperature.celsius() - reference.celsius());
        Ranges.require(InputKind.FRACTION, rise, 0.1, Double.POSITIVE_INFINITY);
        return 1 / rise;
    }

    /** Coefficient of a solution from two measurements of it, for each °C, referred to the second temperature. */
    public static double linearCoefficient(
            Conductivity measured, Temperature at, Conductivity atReference, Temperature reference) {
        double degrees = at.celsius() - reference.celsius();
        double ratio = measured.millisiemensPerCentimetre() / atReference.millisiemensPerCentimetre();
        return (ratio - 1) / degrees;
    }

    /** The highest conductivity at a temperature that still is fresh water here. */
    public static Conductivity highest(Temperature temperature) {
        return new Conductivity(PracticalSalinity.conductivity(HIGHEST_SALINITY, temperature.celsius()));
    }
}
