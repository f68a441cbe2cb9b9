package app.tankround.units;

/**
 * Density of a sample over the density of pure water, at the two temperatures of the reference. Without the reference the
 * same 1.025 is anything between practical salinity 32.6 and 35.
 *
 * @param value the ratio, 0.5 to 2
 * @param reference temperatures of sample and water
 */
public record SpecificGravity(double value, GravityReference reference) {

    public SpecificGravity {
        Ranges.require(InputKind.SPECIFIC_GRAVITY, value, 0.5, 2);
    }

    public static SpecificGravity of(double value, GravityReference reference) {
        return new SpecificGravity(value, reference);
    }
}
