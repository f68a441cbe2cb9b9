package app.tankround.tanks;

import app.tankround.units.GravityReference;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.units.Temperature;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.data.relational.core.mapping.Table;

/**
 * The range that a quantity is meant to stay in. A temperature given in degrees Fahrenheit is kept in degrees Celsius, to
 * four decimals.
 *
 * @param low lowest value that is well, none where that side is open
 * @param high highest value that is well, not below {@code low}
 * @param unit one in which the quantity may be written down
 * @param gravityReference reference temperatures such as {@code 20/20}, exactly where the unit is specific gravity
 */
@Table("target")
public record TargetRange(
        Quantity quantity,
        @Nullable BigDecimal low,
        @Nullable BigDecimal high,
        MeasurementUnit unit,
        @Nullable String gravityReference) {

    /** @throws FieldRefusal naming the field, the refused value and what is accepted */
    public TargetRange {
        if (!Quantity.ofWater().contains(quantity)) {
            throw new FieldRefusal("quantity", "tanks.no-target-of-plant", quantity.name());
        }
        if (!quantity.allows(unit)) {
            throw new FieldRefusal("unit", "tanks.unit-not-of-quantity", unit.code(), allowed(quantity));
        }
        low = kept("low", low, unit);
        high = kept("high", high, unit);
        if (unit == MeasurementUnit.DEGREE_FAHRENHEIT) {
            unit = MeasurementUnit.DEGREE_CELSIUS;
        }
        if (low == null && high == null) {
            throw new FieldRefusal("low", "tanks.target-without-limits");
        }
        if (low != null && high != null && low.compareTo(high) > 0) {
            throw new FieldRefusal("high", "tanks.target-upside-down", high, low);
        }
        if (unit == MeasurementUnit.SPECIFIC_GRAVITY) {
            String given = gravityReference == null ? "" : gravityReference.strip();
            gravityReference = GravityReference.parse(given)
                    .map(GravityReference::toString)
                    .orElseThrow(() -> given.isEmpty()
                            ? new FieldRefusal("gravityReference", "tanks.gravity-reference-missing")
                            : new FieldRefusal("gravityReference", "tanks.gravity-reference-malformed", given));
        } else if (gravityReference != null && !gravityReference.isBlank()) {
            throw new FieldRefusal(
                    "gravityReference", "tanks.gravity-reference-without-gravity", gravityReference, unit.code());
        } else {
            gravityReference = null;
        }
    }

    /** @param low none where that side is open */
    public static TargetRange of(Quantity quantity, @Nullable String low, @Nullable String high, MeasurementUnit unit) {
        return new TargetRange(quantity, number(low), number(high), unit, null);
    }

    public static TargetRange ofGravity(@Nullable String low, @Nullable String high, String reference) {
        return new TargetRange(
                Quantity.SALINITY, number(low), number(high), MeasurementUnit.SPECIFIC_GRAVITY, reference);
    }

    TargetView view() {
        return new TargetView(
                quantity,
                Optional.ofNullable(low),
                Optional.ofNullable(high),
                unit,
                Optional.ofNullable(gravityReference));
    }

    /** The lowest and highest limit that is no slip of the finger, in that unit. */
    static BigDecimal[] acceptedLimits(MeasurementUnit unit) {
        return switch (unit) {
            case DEGREE_CELSIUS -> limits("-5", "60");
            case DEGREE_FAHRENHEIT -> limits("23", "140");
            case PRACTICAL_SALINITY -> limits("0", "120");
            case SPECIFIC_GRAVITY -> limits("0.98", "1.2");
            case MILLISIEMENS_PER_CENTIMETRE -> limits("0", "200");
            case PH_UNIT -> limits("0", "14");
            case DEGREE_CARBONATE_HARDNESS, DEGREE_GENERAL_HARDNESS -> limits("0", "1000");
            case MILLIEQUIVALENTS_PER_LITRE -> limits("0", "360");
            case MILLIGRAMS_PER_LITRE, MILLIGRAMS_PER_LITRE_CACO3 -> limits("0", "20000");
            default -> throw new IllegalArgumentException(unit.code() + " is of no water's target");
        };
    }

    private static BigDecimal[] limits(String low, String high) {
        return new BigDecimal[] {new BigDecimal(low), new BigDecimal(high)};
    }

    private static @Nullable BigDecimal kept(String field, @Nullable BigDecimal limit, MeasurementUnit unit) {
        if (limit == null) {
            return null;
        }
        BigDecimal[] accepted = acceptedLimits(unit);
        if (limit.compareTo(accepted[0]) < 0 || limit.compareTo(accepted[1]) > 0) {
            throw new FieldRefusal(field, "web.number-out-of-range", limit, accepted[0], accepted[1]);
        }
        BigDecimal inStoredUnit = unit == MeasurementUnit.DEGREE_FAHRENHEIT
                ? BigDecimal.valueOf(
                                Temperature.ofFahrenheit(limit.doubleValue()).celsius())
                        .setScale(4, RoundingMode.HALF_EVEN)
                : limit;
        BigDecimal plain = inStoredUnit.stripTrailingZeros();
        return plain.scale() < 0 ? plain.setScale(0) : plain;
    }

    private static String allowed(Quantity quantity) {
        return String.join(
                ", ", quantity.units().stream().map(MeasurementUnit::code).toList());
    }

    private static @Nullable BigDecimal number(@Nullable String text) {
        return text == null ? null : new BigDecimal(text);
    }
}
