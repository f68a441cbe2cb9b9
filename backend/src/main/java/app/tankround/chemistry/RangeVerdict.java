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
 * found the interval up to what the method can just see counts as inside (common practice, no source).
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
        boolean nothingSeen = value == 0 && mustNotBeFound(target);
        Judgement judgement = Judgement.of(value, nothingSeen ? 0 : standardUncertainty, low, target.high(), rule);
        return of(quantity, target, judgement, rule, judgement.verdict());
    }

    /**
     * Judges what lies somewhere in an interval: inside only if all of it is, outside only if none of it is. Nothing says
     * where in it the value is likelier, so both rules come to this.
     */
    public static RangeVerdict judge(Quantity quantity, MeasuredInterval measured, Target target) {
        boolean nothingSeen = !measured.found() && measured.high() < Double.POSITIVE_INFINITY;
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
