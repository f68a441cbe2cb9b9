package app.tankround.instruments;

import app.tankround.chemistry.LikelySalinity;
import app.tankround.chemistry.SalinityScale;
import app.tankround.units.GravityReference;
import app.tankround.units.MeasurementUnit;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Optional;

/** The scale that a unit, with its reference where it needs one, stands for. */
public final class SalinityScales {

    private SalinityScales() {}

    /**
     * A scale drawn for seawater; one that shows no salinity for units such as mg/L.
     *
     * @param gravityReference such as {@code 20/20}; needed for specific gravity, ignored for the rest
     * @throws IllegalArgumentException if the unit is specific gravity and the reference is missing or malformed
     */
    public static SalinityScale of(MeasurementUnit unit, Optional<String> gravityReference) {
        if (unit != MeasurementUnit.SPECIFIC_GRAVITY) {
            return SalinityScale.of(unit, null);
        }
        return SalinityScale.of(
                unit,
                gravityReference
                        .flatMap(GravityReference::parse)
                        .orElseThrow(() -> new IllegalArgumentException("specific gravity without a reference")));
    }

    /**
     * Requires that what was typed for a practical salinity is not likely a specific gravity.
     *
     * @throws FieldRefusal at the field if it is, with the salinity that it would be at 20/20
     */
    public static void requireNoGravity(String field, BigDecimal typed) {
        LikelySalinity.ofGravity(typed.doubleValue()).ifPresent(likely -> {
            throw new FieldRefusal(
                    field,
                    "units.gravity-for-salinity",
                    typed.toPlainString(),
                    LikelySalinity.REFERENCE.toString(),
                    BigDecimal.valueOf(likely).setScale(1, RoundingMode.HALF_EVEN));
        });
    }
}
