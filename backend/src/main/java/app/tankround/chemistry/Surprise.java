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
 * @param lowest to where what was changed and dosed since then may have brought it, at least
 * @param highest likewise, at most; either is absent where nobody knows how strong a dose was
 */
public record Surprise(
        double last,
        double days,
        double movement,
        double methods,
        @Nullable Double planned,
        @Nullable Double lowest,
        @Nullable Double highest) {

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

    /**
     * Something that was done to the water since the last reading.
     *
     * @param share of the water that was replaced, 0 to 1
     * @param low what the new water held at least
     * @param high likewise, at most
     * @param falls how far a dose lowers at most, at least 0; infinite where nobody knows
     * @param rises how far a dose raises at most, likewise
     */
    public record Done(double share, double low, double high, double falls, double rises) {

        /**
         * A change of water.
         *
         * @param salt whether it is salt water
         * @param share of the water that was replaced, 0 to 1
         * @param fresh what the new water held, in {@link #unit}; absent where nobody measured it
         */
        public static Done change(Quantity quantity, boolean salt, double share, @Nullable Double fresh) {
            double part = Math.max(0, Math.min(1, share));
            if (fresh != null) {
                return new Done(part, fresh, fresh, 0, 0);
            }
            NewWater usual = newWater(quantity, salt);
            return usual == null ? NOTHING : new Done(part, usual.low, usual.high, 0, 0);
        }

        /**
         * A dose.
         *
         * @param product its name in small letters
         * @param rise how far it raises the quantity, where the product and the water are known; else absent
         */
        public static Done dose(Quantity quantity, String product, @Nullable Double rise) {
            if (rise != null) {
                return new Done(0, 0, 0, Math.max(0, -rise), Math.max(0, rise));
            }
            boolean raises = names(product, raising(quantity));
            boolean lowers = names(product, lowering(quantity));
            return new Done(0, 0, 0, lowers ? Double.POSITIVE_INFINITY : 0, raises ? Double.POSITIVE_INFINITY : 0);
        }

        private static boolean names(String product, String[] parts) {
            for (String part : parts) {
                if (product.contains(part)) {
                    return true;
                }
            }
            return false;
        }
    }

    private static final Done NOTHING = new Done(0, 0, 0, 0, 0);

    /** What new water that nobody measured holds. */
    private record NewWater(double low, double high) {}

    /** Of salt water mixed as usual, of RO/DI or tap water: common practice, no source. */
    private static @Nullable NewWater newWater(Quantity quantity, boolean salt) {
        return switch (quantity) {
            case TEMPERATURE -> new NewWater(15, 30);
            case SALINITY -> salt ? new NewWater(30, 38) : new NewWater(0, 1);
            case PH -> salt ? new NewWater(7.8, 8.6) : new NewWater(6, 8.5);
            case ALKALINITY -> salt ? new NewWater(6, 13) : new NewWater(0, 18);
            case HARDNESS -> new NewWater(0, 25);
            case CALCIUM -> salt ? new NewWater(350, 480) : new NewWater(0, 150);
            case MAGNESIUM -> salt ? new NewWater(1150, 1500) : new NewWater(0, 50);
            case AMMONIA, NITRITE, COPPER -> new NewWater(0, 0.1);
            case NITRATE -> salt ? new NewWater(0, 5) : new NewWater(0, 50);
            case PHOSPHATE -> new NewWater(0, 0.5);
            case OXYGEN -> new NewWater(5, 10);
            default -> null;
        };
    }

    private static final String[] NONE = {};

    /** Parts of names of what raises a quantity: general chemistry, from memory. */
    private static String[] raising(Quantity quantity) {
        return switch (quantity) {
            case PH, ALKALINITY ->
                new String[] {
                    "alkal", "buffer", "carbonate", "hydroxide", "lime", "kalk", "soda", "kh plus", "kh+", "bora"
                };
            case CALCIUM -> new String[] {"calcium", "kalk", "lime", "cacl"};
            case MAGNESIUM -> new String[] {"magnes", "mgcl", "epsom"};
            case HARDNESS -> new String[] {"hardness", "mineral", "calcium", "magnes", "gh plus", "gh+"};
            case SALINITY -> new String[] {"salt", "brine"};
            case AMMONIA -> new String[] {"ammoni"};
            case NITRITE -> new String[] {"nitrite", "ammoni"};
            case NITRATE -> new String[] {"nitrate", "nitrogen", "kno3", "fertili"};
            case PHOSPHATE -> new String[] {"phosph", "fertili"};
            case COPPER -> new String[] {"copper", "cupr", "cuso4"};
            case OXYGEN -> new String[] {"peroxide", "oxygen", "oxydator"};
            default -> NONE;
        };
    }

    /** Likewise of what lowers it. */
    private static String[] lowering(Quantity quantity) {
        return switch (quantity) {
            case PH, ALKALINITY -> new String[] {"acid", "ph minus", "ph-", "ph down", "vinegar", "carbon dioxide"};
            case AMMONIA -> new String[] {"ammonia", "bacteria", "conditioner"};
            case NITRITE -> new String[] {"bacteria", "nitrite"};
            case NITRATE -> new String[] {"nitrate", "bacteria", "vodka", "vinegar", "ethanol", "carbon source"};
            case PHOSPHATE -> new String[] {"phosph", "lanthan", "vodka", "vinegar", "ethanol", "iron oxide"};
            case COPPER -> new String[] {"conditioner", "chelat"};
            default -> NONE;
        };
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
     * @param done what was changed and dosed since the last of them, in the order of it
     * @return absent where nothing does, or too little is known
     */
    public static @Nullable Surprise of(
            Quantity quantity, Measured now, List<Measured> earlier, @Nullable Double planned, List<Done> done) {
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
        double fallen = last.value;
        double risen = last.value;
        double lowest = last.value;
        double highest = last.value;
        for (Done each : done) {
            double left = 1 - each.share;
            double brought = each.share * each.low;
            double broughtAtMost = each.share * each.high;
            fallen = fallen * left + brought - each.falls;
            risen = risen * left + broughtAtMost + each.rises;
            // Whatever was done may not have worked, or not yet.
            lowest = Math.min(lowest, fallen);
            highest = Math.max(highest, risen);
        }
        double low = planned == null ? lowest : Math.min(lowest, planned);
        double high = planned == null ? highest : Math.max(highest, planned);
        double off = Math.max(low - now.value, now.value - high);
        return off > movement + methods
                ? new Surprise(last.value, days, movement, methods, planned, finite(lowest), finite(highest))
                : null;
    }

    private static @Nullable Double finite(double value) {
        return Double.isInfinite(value) ? null : (Double) value;
    }

    private static double largestStep(List<Measured> earlier) {
        double largest = 0;
        for (int i = 1; i < earlier.size(); i++) {
            largest = Math.max(largest, Math.abs(earlier.get(i).value - earlier.get(i - 1).value));
        }
        return largest;
    }
}
