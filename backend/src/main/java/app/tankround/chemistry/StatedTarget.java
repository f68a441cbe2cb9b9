package app.tankround.chemistry;

import app.tankround.units.GravityReference;
import app.tankround.units.MeasurementUnit;
import org.jspecify.annotations.Nullable;

/**
 * A target as somebody set it.
 *
 * @param limits in {@code unit}
 * @param unit it was set in
 * @param reference temperatures of the scale; present exactly where the unit is specific gravity
 */
public record StatedTarget(
        Target limits, MeasurementUnit unit, @Nullable GravityReference reference) {}
