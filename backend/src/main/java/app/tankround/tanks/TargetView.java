package app.tankround.tanks;

import app.tankround.chemistry.StatedTarget;
import app.tankround.chemistry.Target;
import app.tankround.units.GravityReference;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import java.math.BigDecimal;
import java.util.Optional;

/**
 * The range that a quantity is meant to stay in. At least one limit is there; a missing one means that side is open.
 *
 * @param unit of both limits; a temperature is always in degrees Celsius
 * @param gravityReference such as {@code 20/20}, exactly where the unit is specific gravity
 */
public record TargetView(
        Quantity quantity,
        Optional<BigDecimal> low,
        Optional<BigDecimal> high,
        MeasurementUnit unit,
        Optional<String> gravityReference) {

    /** As the formulas take it. */
    public StatedTarget asFormula() {
        return new StatedTarget(
                new Target(
                        low.map(BigDecimal::doubleValue).orElse(null),
                        high.map(BigDecimal::doubleValue).orElse(null)),
                unit,
                gravityReference.flatMap(GravityReference::parse).orElse(null));
    }
}
