package app.tankround.units;

import static app.tankround.units.MeasurementUnit.*;

import java.math.BigDecimal;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;

/**
 * Which values are accepted for a quantity in a unit: wide enough for any water a trade firm meets, narrow enough that a
 * lost decimal point or a value in another unit is asked back.
 *
 * <p>Common practice, no source.
 */
public final class PlausibleRanges {

    private static final Map<Quantity, Map<MeasurementUnit, Ends>> TABLE = new EnumMap<>(Quantity.class);

    static {
        accept(Quantity.TEMPERATURE, DEGREE_CELSIUS, "-2", "45", "10");
        accept(Quantity.TEMPERATURE, DEGREE_FAHRENHEIT, "46", "113", "18");
        accept(Quantity.SALINITY, SPECIFIC_GRAVITY, "0.990", "1.070", "0.012");
        accept(Quantity.SALINITY, PRACTICAL_SALINITY, "0", "90", "15");
        accept(Quantity.SALINITY, MILLISIEMENS_PER_CENTIMETRE, "0", "110", "20");
        accept(Quantity.PH, PH_UNIT, "3", "11", "2");
        accept(Quantity.ALKALINITY, DEGREE_CARBONATE_HARDNESS, "0", "30", "5");
        accept(Quantity.ALKALINITY, MILLIEQUIVALENTS_PER_LITRE, "0", "11", "2");
        accept(Quantity.ALKALINITY, MILLIGRAMS_PER_LITRE_CACO3, "0", "540", "90");
        // Seawater holds about 350 °dGH.
        accept(Quantity.HARDNESS, DEGREE_GENERAL_HARDNESS, "0", "450", "20");
        accept(Quantity.HARDNESS, MILLIGRAMS_PER_LITRE_CACO3, "0", "8000", "360");
        accept(Quantity.CALCIUM, MILLIGRAMS_PER_LITRE, "0", "1000", "150");
        accept(Quantity.MAGNESIUM, MILLIGRAMS_PER_LITRE, "0", "3000", "400");
        accept(Quantity.AMMONIA, MILLIGRAMS_PER_LITRE, "0", "50", "5");
        accept(Quantity.NITRITE, MILLIGRAMS_PER_LITRE, "0", "100", "5");
        accept(Quantity.NITRATE, MILLIGRAMS_PER_LITRE, "0", "1000", "50");
        accept(Quantity.PHOSPHATE, MILLIGRAMS_PER_LITRE, "0", "50", "2");
        accept(Quantity.OXYGEN, MILLIGRAMS_PER_LITRE, "0", "25", "5");
        accept(Quantity.CHLORINE, MILLIGRAMS_PER_LITRE, "0", "20", "2");
        accept(Quantity.COPPER, MILLIGRAMS_PER_LITRE, "0", "5", "0.5");
        accept(Quantity.DISSOLVED_SOLIDS, MILLIGRAMS_PER_LITRE, "0", "5000", "300");
        accept(Quantity.FREE_CHLORINE, MILLIGRAMS_PER_LITRE, "0", "20", "2");
        accept(Quantity.TOTAL_CHLORINE, MILLIGRAMS_PER_LITRE, "0", "20", "2");
        accept(Quantity.VOLUME_MADE, LITRE, "0", "100000000", "20000");
        accept(Quantity.VOLUME_MADE, CUBIC_METRE, "0", "100000", "20");
        accept(Quantity.VOLUME_MADE, US_GALLON, "0", "25000000", "5000");
        accept(Quantity.PERMEATE_FLOW, LITRES_PER_DAY, "1", "50000", "400");
        accept(Quantity.PERMEATE_FLOW, MILLILITRES_PER_MINUTE, "1", "35000", "300");
        accept(Quantity.PERMEATE_FLOW, US_GALLONS_PER_DAY, "0.3", "13000", "100");
        accept(Quantity.PRESSURE, KILOPASCAL, "0", "2000", "200");
        accept(Quantity.PRESSURE, BAR, "0", "20", "2");
        accept(Quantity.PRESSURE, POUNDS_PER_SQUARE_INCH, "0", "290", "30");
        accept(Quantity.MASS, GRAM, "0", "200000", "100");
        accept(Quantity.MASS, KILOGRAM, "0", "200", "1");
        accept(Quantity.MASS, POUND, "0", "440", "2");
    }

    private PlausibleRanges() {}

    /** A range by its digits. */
    record Ends(String low, String high, String farOff) {}

    private static void accept(Quantity quantity, MeasurementUnit unit, String low, String high, String farOff) {
        TABLE.computeIfAbsent(quantity, q -> new EnumMap<>(MeasurementUnit.class))
                .put(unit, new Ends(low, high, farOff));
    }

    /** @throws IllegalArgumentException if the quantity is not written down in that unit */
    public static PlausibleRange of(Quantity quantity, MeasurementUnit unit) {
        Ends ends = ends(quantity, unit);
        return new PlausibleRange(new BigDecimal(ends.low), new BigDecimal(ends.high), new BigDecimal(ends.farOff));
    }

    /** The digits of the highest accepted value; refuses likewise. */
    public static String highest(Quantity quantity, MeasurementUnit unit) {
        return ends(quantity, unit).high;
    }

    static Ends ends(Quantity quantity, MeasurementUnit unit) {
        Map<MeasurementUnit, Ends> byUnit = TABLE.get(quantity);
        Ends ends = byUnit == null ? null : byUnit.get(unit);
        if (ends == null) {
            throw new IllegalArgumentException(quantity + " is not measured in " + unit.code());
        }
        return ends;
    }

    /** What is to be asked back about a value as it was typed; empty if it can be accepted. */
    public static Optional<Implausible> check(Quantity quantity, MeasurementUnit unit, BigDecimal value) {
        return Optional.ofNullable(Plausibility.check(quantity, unit, value.toPlainString()))
                .map(asked -> new Implausible(value, unit, of(quantity, unit), likely(asked)));
    }

    /** As {@link #check(Quantity, MeasurementUnit, BigDecimal)} for a number whose digits are not known. */
    public static Optional<Implausible> check(Quantity quantity, MeasurementUnit unit, double value) {
        return check(quantity, unit, BigDecimal.valueOf(value));
    }

    private static Optional<Implausible.Likely> likely(Plausibility.Asked asked) {
        String value = asked.likely();
        MeasurementUnit unit = asked.likelyUnit();
        return value == null || unit == null
                ? Optional.empty()
                : Optional.of(new Implausible.Likely(new BigDecimal(value), unit));
    }
}
