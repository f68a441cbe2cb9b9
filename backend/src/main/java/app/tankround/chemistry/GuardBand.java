package app.tankround.chemistry;

import org.jspecify.annotations.Nullable;

/**
 * Decides what lies somewhere in an interval, as a colour between two fields does: inside only if all of the interval is,
 * outside only if none of it is, and undecided otherwise (JCGM 106:2012, 8.3, with the interval for the guard band).
 */
final class GuardBand {

    /** An interval ending on the limit counts as within; binary fractions of decimal limits differ in the last place. */
    private static final double ROUNDING = 1e-12;

    private GuardBand() {}

    static VerdictCode decide(double from, double to, @Nullable Double low, @Nullable Double high) {
        if (low == null && high == null) {
            return VerdictCode.NO_TARGET;
        }
        double lowest = low == null ? Double.NEGATIVE_INFINITY : low - rounding(low);
        double highest = high == null ? Double.POSITIVE_INFINITY : high + rounding(high);
        if (from >= lowest && to <= highest) {
            return VerdictCode.INSIDE;
        }
        if (from > highest) {
            return VerdictCode.ABOVE;
        }
        return to < lowest ? VerdictCode.BELOW : VerdictCode.UNDECIDED;
    }

    private static double rounding(double limit) {
        return ROUNDING * Math.max(1, Math.abs(limit));
    }
}
