package app.tankround.chemistry;

import app.tankround.units.GravityReference;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import org.jspecify.annotations.Nullable;

/**
 * A reading as it was written down, as far as a verdict on it needs that. What was shown lies between two ends: a number
 * has both ends alike, "below detection" has no lower and "above the scale" no upper one, and what was not measured has
 * neither.
 *
 * @param quantity what was measured
 * @param unit it was written down in, one that the quantity allows
 * @param reference temperatures of the scale; present exactly where the unit is specific gravity
 * @param lower the number, the lower of two marks or the end of the scale
 * @param upper the number, the higher of two marks or what the method can just see; not below {@code lower}
 * @param atEpochMilli when, in milliseconds since 1970-01-01T00:00Z
 * @param sampleCelsius temperature of the water while it was read, if it was written down
 * @param lotStated whether the lot of a kit was written down
 */
public record ShownReading(
        Quantity quantity,
        MeasurementUnit unit,
        @Nullable GravityReference reference,
        @Nullable Double lower,
        @Nullable Double upper,
        long atEpochMilli,
        @Nullable Double sampleCelsius,
        boolean lotStated) {

    private static final double MILLIS = 1000;

    public ShownReading {
        if (!quantity.allows(unit)) {
            throw new IllegalArgumentException(quantity.name() + " is not measured in " + unit.code());
        }
        if ((unit == MeasurementUnit.SPECIFIC_GRAVITY) != (reference != null)) {
            throw new IllegalArgumentException("A reference belongs to a specific gravity and to nothing else");
        }
        if (lower != null && upper != null && lower > upper) {
            throw new IllegalArgumentException("The upper end lies below the lower one");
        }
    }

    /** Whether anything was measured. */
    public boolean isMeasured() {
        return lower != null || upper != null;
    }

    boolean isNumber() {
        return lower != null && lower.equals(upper);
    }

    /** The scale that it would be on if nothing were known of the instrument. */
    SalinityScale scale() {
        return SalinityScale.of(unit, reference);
    }

    long atEpochSecond() {
        return (long) Math.floor(atEpochMilli / MILLIS);
    }
}
