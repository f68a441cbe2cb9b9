package app.tankround.chemistry;

import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.units.UnitConversions;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A reading that lies further from the last trusted one than such water moves meanwhile and both methods explain: worth
 * taking once more before anything rests on it.
 *
 * <p>How far water moves by itself in a day, and at most between two visits, is common practice, no source. Where the system
 * itself has moved further between two trusted readings, that counts instead.
 *
 * @param last the trusted reading before, in {@link #unit}
 * @param days since then
 * @param movement how far such water moves in that time, above 0
 * @param methods how far two readings of the same water may lie apart (k = 2), at least 0
 * @param planned to where a plan was to bring it since then; absent where there is none
 */
public record Surprise(
        double last,
        double days,
        double movement,
        double methods,
        @Nullable Double planned) {

    private static final double MILLIS_PER_DAY = 86_400_000;
    private static final double SHORTEST_DAYS = 0.25;

    /** What was read longer ago says nothing about today. */
    private static final double LONGEST_DAYS = 60;

    /**
     * A trusted reading.
     *
     * @param value in {@link #unit}
     * @param expandedUncertainty k = 2, likewise
     */
    public record Measured(double value, double expandedUncertainty, long atEpochMilli) {

        /** The same from another unit of the quantity. */
        public static Measured of(
                Quantity quantity, MeasurementUnit unit, double value, double expandedUncertainty, long atEpochMilli) {
            MeasurementUnit plain = unit(quantity);
            double low = UnitConversions.convert(value, unit, plain);
            double high = UnitConversions.convert(value + expandedUncertainty, unit, plain);
            return new Measured(low, high - low, atEpochMilli);
        }
    }

    /** How far water moves without anybody doing anything. */
    private record Wander(double perDay, double most) {}

    /** What values are compared in: °C, practical salinity, pH, dKH, dGH, mg/L. */
    public static MeasurementUnit unit(Quantity quantity) {
        return switch (quantity) {
            case TEMPERATURE -> MeasurementUnit.DEGREE_CELSIUS;
            case SALINITY -> MeasurementUnit.PRACTICAL_SALINITY;
            case PH -> MeasurementUnit.PH_UNIT;
            case ALKALINITY -> MeasurementUnit.DEGREE_CARBONATE_HARDNESS;
            case HARDNESS -> MeasurementUnit.DEGREE_GENERAL_HARDNESS;
            default -> MeasurementUnit.MILLIGRAMS_PER_LITRE;
        };
    }

    /** Whether it is known how far the water moves; nothing surprises about another quantity. */
    public static boolean follows(Quantity quantity) {
        return wander(quantity) != null;
    }

    private static @Nullable Wander wander(Quantity quantity) {
        return switch (quantity) {
            case TEMPERATURE -> new Wander(1, 2);
            case SALINITY -> new Wander(0.3, 1.5);
            case PH -> new Wander(0.2, 0.4);
            case ALKALINITY -> new Wander(1, 2.5);
            case HARDNESS -> new Wander(0.5, 3);
            case CALCIUM -> new Wander(15, 50);
            case MAGNESIUM -> new Wander(20, 100);
            case AMMONIA, NITRITE -> new Wander(0.25, 0.5);
            case NITRATE -> new Wander(3, 20);
            case PHOSPHATE -> new Wander(0.05, 0.2);
            case OXYGEN -> new Wander(2, 3);
            case COPPER -> new Wander(0.1, 0.3);
            default -> null;
        };
    }

    /**
     * What surprises about a reading.
     *
     * @param earlier trusted ones of the same place, oldest first, none of them after {@code now}
     * @param planned to where a plan was to bring the water since the last of them, in {@link #unit}
     * @return absent where nothing does, or too little is known
     */
    public static @Nullable Surprise of(
            Quantity quantity, Measured now, List<Measured> earlier, @Nullable Double planned) {
        Wander usual = wander(quantity);
        if (usual == null || earlier.isEmpty()) {
            return null;
        }
        Measured last = earlier.get(earlier.size() - 1);
        double days = Math.max(SHORTEST_DAYS, (now.atEpochMilli - last.atEpochMilli) / MILLIS_PER_DAY);
        if (days > LONGEST_DAYS) {
            return null;
        }
        double movement = Math.max(Math.min(usual.perDay * days, usual.most), largestStep(earlier));
        double own = now.expandedUncertainty * now.expandedUncertainty;
        double before = last.expandedUncertainty * last.expandedUncertainty;
        double methods = Math.sqrt(own + before);
        double lowest = planned == null ? last.value : Math.min(last.value, planned);
        double highest = planned == null ? last.value : Math.max(last.value, planned);
        double off = Math.max(lowest - now.value, now.value - highest);
        return off > movement + methods ? new Surprise(last.value, days, movement, methods, planned) : null;
    }

    private static double largestStep(List<Measured> earlier) {
        double largest = 0;
        for (int i = 1; i < earlier.size(); i++) {
            largest = Math.max(largest, Math.abs(earlier.get(i).value - earlier.get(i - 1).value));
        }
        return largest;
    }
}
