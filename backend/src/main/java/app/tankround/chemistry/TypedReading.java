package app.tankround.chemistry;

import app.tankround.units.MeasurementUnit;
import app.tankround.units.Plausibility;
import app.tankround.units.PlausibleRanges;
import app.tankround.units.Quantity;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A reading as somebody typed it, before it is written down: what cannot be is asked back, at the office and on a tablet
 * without a signal alike.
 *
 * @param exact whether the value itself was seen, and not only where it lies
 * @param belowDetection whether the value is the smallest amount that the method can show
 * @param value digits with at most one point; absent where nothing was measured
 * @param upperValue likewise, of what lies between two; else absent
 * @param sampleTemperature likewise, in °C; absent where nobody measured it
 */
public record TypedReading(
        Quantity quantity,
        MeasurementUnit unit,
        boolean exact,
        boolean belowDetection,
        @Nullable String value,
        @Nullable String upperValue,
        @Nullable String sampleTemperature) {

    private static final int MOST_DECIMALS = 6;
    private static final double COLDEST = -2;
    private static final double WARMEST = 40;

    /**
     * What is asked back.
     *
     * @param field of the reading
     * @param code of the message
     * @param args of the message
     */
    public record Asked(String field, String code, List<String> args) {}

    /** The first thing that cannot be; absent where the reading can be taken. */
    public @Nullable Asked asked() {
        if (value != null && upperValue != null && number(upperValue) <= number(value)) {
            return new Asked(
                    "upperValue",
                    "readings.upper-not-above",
                    List.of(Plausibility.plain(upperValue), Plausibility.plain(value)));
        }
        Asked asked = value == null ? null : implausible("value", value);
        if (asked == null && value != null) {
            asked = nothing(Plausibility.plain(value));
        }
        if (asked == null && upperValue != null) {
            asked = implausible("upperValue", upperValue);
        }
        return asked == null && sampleTemperature != null ? sample(Plausibility.plain(sampleTemperature)) : asked;
    }

    private static double number(String digits) {
        return Plausibility.value(Plausibility.plain(digits));
    }

    private @Nullable Asked implausible(String field, String digits) {
        Plausibility.Asked asked = Plausibility.check(quantity, unit, digits);
        if (asked != null) {
            String likely = asked.likely();
            MeasurementUnit likelyUnit = asked.likelyUnit();
            return likely == null || likelyUnit == null
                    ? new Asked(
                            field,
                            "units.value-implausible",
                            List.of(asked.value(), asked.low(), asked.high(), unit.symbol()))
                    : new Asked(
                            field,
                            "units.value-implausible-likely",
                            List.of(
                                    asked.value(),
                                    asked.low(),
                                    asked.high(),
                                    unit.symbol(),
                                    likely,
                                    likelyUnit.symbol()));
        }
        String plain = Plausibility.plain(digits);
        return Plausibility.decimals(plain) > MOST_DECIMALS
                ? new Asked(field, "readings.too-many-decimals", List.of(plain, "0", "" + MOST_DECIMALS))
                : null;
    }

    /** No method can show that there is none of what kills, only that there is less than it can show. */
    private @Nullable Asked nothing(String plain) {
        if (Plausibility.value(plain) != 0) {
            return null;
        }
        if (belowDetection) {
            return new Asked(
                    "value",
                    "readings.detection-limit",
                    List.of(plain, unit.symbol(), PlausibleRanges.highest(quantity, unit)));
        }
        return exact && isTrace()
                ? new Asked("value", "readings.zero-below-detection", List.of(plain, unit.symbol()))
                : null;
    }

    private boolean isTrace() {
        return switch (quantity) {
            case AMMONIA, NITRITE, CHLORINE, FREE_CHLORINE, TOTAL_CHLORINE, COPPER -> true;
            default -> false;
        };
    }

    private static @Nullable Asked sample(String plain) {
        double celsius = Plausibility.value(plain);
        return celsius < COLDEST || celsius > WARMEST
                ? new Asked("sampleTemperature", "readings.sample-temperature", List.of(plain, "-2", "40"))
                : null;
    }
}
