package app.tankround.chemistry;

import app.tankround.units.GravityReference;
import app.tankround.units.Implausible;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.PlausibleRanges;
import app.tankround.units.Quantity;
import app.tankround.units.Salinity;
import app.tankround.units.SpecificGravity;
import java.util.OptionalDouble;
import java.util.function.Supplier;

/**
 * What a number would be on the scale that was asked for, where it was likely typed on another: 1.025 for a practical
 * salinity, 35 for a specific gravity. To be asked back with, never to be taken.
 */
public final class LikelySalinity {

    /** The reference of most scales in use. */
    public static final GravityReference REFERENCE = new GravityReference(20, 20);

    private LikelySalinity() {}

    /** The practical salinity of a specific gravity (20/20) that was typed for one; empty where none was. */
    public static OptionalDouble ofGravity(double typed) {
        return likely(typed, MeasurementUnit.PRACTICAL_SALINITY, MeasurementUnit.SPECIFIC_GRAVITY)
                ? computed(() -> SeawaterGravity.toSalinity(SpecificGravity.of(typed, REFERENCE)))
                : OptionalDouble.empty();
    }

    /** The specific gravity (20/20) of a practical salinity that was typed for one; empty where none was. */
    public static OptionalDouble asGravity(double typed) {
        return likely(typed, MeasurementUnit.SPECIFIC_GRAVITY, MeasurementUnit.PRACTICAL_SALINITY)
                ? computed(() -> SeawaterGravity.ofSalinity(Salinity.ofPractical(typed), REFERENCE))
                : OptionalDouble.empty();
    }

    private static boolean likely(double typed, MeasurementUnit asked, MeasurementUnit meant) {
        return PlausibleRanges.check(Quantity.SALINITY, asked, typed)
                .flatMap(Implausible::likely)
                .filter(likely -> likely.unit() == meant)
                .isPresent();
    }

    private static OptionalDouble computed(Supplier<Computed> formula) {
        try {
            return OptionalDouble.of(formula.get().value());
        } catch (OutOfRangeException beyond) {
            return OptionalDouble.empty();
        }
    }
}
