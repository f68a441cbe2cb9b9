package app.tankround.chemistry;

import app.tankround.units.InputKind;
import app.tankround.units.Quantity;
import app.tankround.units.Ranges;
import org.jspecify.annotations.Nullable;

/**
 * A measurement of anything but salinity against its target.
 *
 * <p>For what kills ({@link #kills}) the guard band decides whatever rule the business chose, and an undecided verdict asks
 * for a repeat before anybody leaves; it never reads as inside.
 *
 * <p>A target of at most zero means "must not be found". No method can show that nothing is there, so where nothing was
 * found the interval up to what the method can just see counts as inside (common practice, no source). Of what kills that
 * holds only up to {@link #highestUnseen}: a method that sees nothing below a deadly amount says nothing.
 *
 * @param target the range it should lie in
 * @param judgement probabilities, where the measurement is a number with its uncertainty; absent for what only lies
 *     somewhere in an interval
 * @param decisionRule the rule that was applied
 * @param verdict the decision
 * @param repeatBeforeLeaving whether to measure again before anybody leaves
 */
public record RangeVerdict(
        Target target,
        @Nullable Judgement judgement,
        DecisionRule decisionRule,
        VerdictCode verdict,
        boolean repeatBeforeLeaving) {

    /** What passes for not found, in the least errors of the usual method. */
    private static final double UNSEEN = 4;

    /** Sums of decimal fractions differ in the last place. */
    private static final double ROUNDING = 1e-9;

    /** mg/L. */
    private static final double LEAST_OXYGEN = 4;

    /** °C. */
    private static final double COLDEST = 4;

    /** °C. */
    private static final double HOTTEST = 32;

    /**
     * Judges a number.
     *
     * @param quantity what was measured
     * @param value best estimate, corrected by the checks of the instrument where it has any
     * @param standardUncertainty of it (k = 1), not negative
     * @param target same unit
     * @param chosen the rule the business chose
     */
    public static RangeVerdict judge(
            Quantity quantity, double value, double standardUncertainty, Target target, DecisionRule chosen) {
        Ranges.require(InputKind.READING, value, Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY);
        Ranges.requireNotNegative(InputKind.UNCERTAINTY, standardUncertainty);
        DecisionRule rule = kills(quantity) ? DecisionRule.GUARD_BAND : chosen;
        @Nullable Double low = lowest(quantity, target);
        boolean nothingSeen =
                value == 0 && mustNotBeFound(target) && 2 * standardUncertainty <= highestUnseen(quantity);
        Judgement judgement = Judgement.of(value, nothingSeen ? 0 : standardUncertainty, low, target.high(), rule);
        return of(quantity, target, judgement, rule, judgement.verdict());
    }

    /**
     * Judges what lies somewhere in an interval: inside only if all of it is, outside only if none of it is. Nothing says
     * where in it the value is likelier, so both rules come to this.
     */
    public static RangeVerdict judge(Quantity quantity, MeasuredInterval measured, Target target) {
        boolean nothingSeen = !measured.found()
                && measured.high() < Double.POSITIVE_INFINITY
                && measured.high() <= highestUnseen(quantity) + ROUNDING;
        VerdictCode verdict = mustNotBeFound(target) && nothingSeen
                ? GuardBand.decide(0, 0, target.low(), target.high())
                : GuardBand.decide(measured.low(), measured.high(), target.low(), target.high());
        return of(quantity, target, null, DecisionRule.GUARD_BAND, verdict);
    }

    private static RangeVerdict of(
            Quantity quantity, Target target, @Nullable Judgement judgement, DecisionRule rule, VerdictCode verdict) {
        boolean repeat = kills(quantity) && verdict == VerdictCode.UNDECIDED;
        return new RangeVerdict(target, judgement, rule, verdict, repeat);
    }

    /**
     * What fish of fresh water are treated with, in water that is not soft, mg/L: traces below it, as in plant foods and tap
     * water, endanger no fish. Common practice, no source.
     */
    public static final Target COPPER_OF_FRESHWATER_FISH = Target.atMost(0.2);

    /**
     * Up to where something may be and still pass for not found, mg/L: the first colour of a usual kit and what the kit may
     * be off (common practice, no source). Infinite for what does not kill.
     */
    private static double highestUnseen(Quantity quantity) {
        return switch (quantity) {
            case AMMONIA -> UNSEEN * UncertaintyDefaults.Method.AMMONIA_COLOUR.expandedUncertainty(0);
            case NITRITE -> UNSEEN * UncertaintyDefaults.Method.NITRITE_COLOUR.expandedUncertainty(0);
            case CHLORINE, FREE_CHLORINE, TOTAL_CHLORINE, COPPER ->
                UNSEEN * UncertaintyDefaults.Method.COPPER_COLOUR.expandedUncertainty(0);
            default -> Double.POSITIVE_INFINITY;
        };
    }

    /**
     * Beyond which animals of any kind are in danger, for water for which no target says so: mg/L, or °C. Nothing of a poison
     * may be found (common practice, no source).
     *
     * @return absent for what does not kill
     */
    public static @Nullable Target dangerLimit(Quantity quantity) {
        return switch (quantity) {
            case AMMONIA, NITRITE, CHLORINE, FREE_CHLORINE, TOTAL_CHLORINE, COPPER -> Target.atMost(0);
            case OXYGEN -> Target.atLeast(LEAST_OXYGEN);
            case TEMPERATURE -> Target.between(COLDEST, HOTTEST);
            default -> null;
        };
    }

    /** Whether a verdict tells, and tells of no danger. */
    public static boolean isHarmless(Quantity quantity, VerdictCode verdict) {
        return verdict != VerdictCode.UNDECIDED && !endangers(quantity, verdict);
    }

    /** Whether a wrong value of it kills within hours or days (common practice, no source). */
    public static boolean kills(Quantity quantity) {
        return switch (quantity) {
            case AMMONIA, NITRITE, CHLORINE, FREE_CHLORINE, TOTAL_CHLORINE, OXYGEN, COPPER, TEMPERATURE -> true;
            default -> false;
        };
    }

    /**
     * Whether a verdict on it means that animals are dying or soon will: beyond the limit on the side that kills (common
     * practice, no source). Too little of a poison, or too much oxygen, is another matter.
     */
    public static boolean endangers(Quantity quantity, VerdictCode verdict) {
        if (!kills(quantity)) {
            return false;
        }
        return switch (quantity) {
            case TEMPERATURE -> verdict == VerdictCode.ABOVE || verdict == VerdictCode.BELOW;
            case OXYGEN -> verdict == VerdictCode.BELOW;
            default -> verdict == VerdictCode.ABOVE;
        };
    }

    /** There is no less than nothing of a substance, so a lowest value of 0 is no limit. */
    private static @Nullable Double lowest(Quantity quantity, Target target) {
        Double low = target.low();
        return low != null && low <= 0 && quantity != Quantity.TEMPERATURE ? (Double) Double.NEGATIVE_INFINITY : low;
    }

    private static boolean mustNotBeFound(Target target) {
        Double high = target.high();
        return high != null && high == 0;
    }

    /** The verdict on something between two values of which each would be judged as stated. */
    public static VerdictCode between(VerdictCode lower, VerdictCode upper) {
        return lower == upper ? lower : VerdictCode.UNDECIDED;
    }
}
