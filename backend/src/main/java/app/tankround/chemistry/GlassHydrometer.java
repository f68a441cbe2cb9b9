package app.tankround.chemistry;

import app.tankround.units.GravityReference;
import app.tankround.units.InputKind;
import app.tankround.units.Ranges;
import app.tankround.units.SpecificGravity;
import app.tankround.units.Temperature;

/**
 * A glass hydrometer away from its reference temperature. A float of constant mass displaces less of a denser liquid, and
 * its glass expands by 25e-6 per °C, the conventional figure of ISO 1768:1975. Meniscus and air buoyancy are neglected.
 * Swing-arm instruments of plastic do not follow this law.
 */
public final class GlassHydrometer {

    private static final double CUBIC_EXPANSION_PER_DEGREE = 25e-6;

    private GlassHydrometer() {}

    /**
     * Practical salinity of the sample.
     *
     * @param reading what the scale shows, with the scale's reference
     * @param sample temperature of the sample, -2 to 40 °C
     * @throws app.tankround.units.OutOfRangeException if no salinity from 0 to 50 gives that reading
     */
    public static Computed toSalinity(SpecificGravity reading, Temperature sample) {
        return SeawaterDensity.toSalinity(density(reading, sample), sample);
    }

    /** Density of the sample at its own temperature, kg/m3. */
    public static double density(SpecificGravity reading, Temperature sample) {
        return density(reading.value(), reading.reference(), checked(sample));
    }

    static double density(double reading, GravityReference reference, double sampleCelsius) {
        double warmer = sampleCelsius - reference.sampleCelsius();
        double glass = 1 - CUBIC_EXPANSION_PER_DEGREE * warmer;
        double onScale = reading * SeawaterGravity.pureWater(reference);
        return onScale * glass;
    }

    private static double checked(Temperature sample) {
        return Ranges.require(
                InputKind.TEMPERATURE,
                sample.celsius(),
                SeawaterDensity.LOWEST_CELSIUS,
                SeawaterDensity.HIGHEST_CELSIUS);
    }
}
