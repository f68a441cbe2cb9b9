package app.tankround.chemistry;

import org.jspecify.annotations.Nullable;

/**
 * How likely a normally distributed value lies below, inside and above its target (JCGM 106:2012, 7), and what the
 * decision rule makes of it. Probabilities are rounded ({@link Conformity#rounded}) before they are compared, so that a value exactly
 * on an acceptance limit is accepted wherever it is computed.
 *
 * @param decisionRule the rule that was applied
 * @param below probability of a value below the target, 0 to 1
 * @param inside of one inside it
 * @param above of one above it
 * @param verdict the decision
 */
public record Judgement(DecisionRule decisionRule, double below, double inside, double above, VerdictCode verdict) {

    /** 1 - Phi(2): the probability beyond an expanded uncertainty with k = 2, on one side. */
    public static final double ACCEPTED_RISK = 0.022750132;

    /** A value without uncertainty on its limit counts as within; binary fractions of decimals differ in the last place. */
    private static final double ROUNDING = 1e-12;

    /**
     * Decides a value.
     *
     * @param value finite
     * @param standardUncertainty k = 1, not negative
     * @param low lowest wanted value, if there is one
     * @param high highest wanted value, if there is one
     */
    static Judgement of(
            double value,
            double standardUncertainty,
            @Nullable Double low,
            @Nullable Double high,
            DecisionRule decisionRule) {
        double below = low == null ? 0 : beyond(low - value, standardUncertainty, low);
        double above = high == null ? 0 : beyond(value - high, standardUncertainty, high);
        double inside = Conformity.rounded(Math.max(0, 1 - below - above));
        VerdictCode verdict = low == null && high == null ? VerdictCode.NO_TARGET : decide(below, above, decisionRule);
        return new Judgement(decisionRule, below, inside, above, verdict);
    }

    /** The same, where nothing may be decided. */
    Judgement undecided() {
        VerdictCode open = verdict == VerdictCode.NO_TARGET ? verdict : VerdictCode.UNDECIDED;
        return new Judgement(decisionRule, below, inside, above, open);
    }

    /** The same, where no target says anything. */
    Judgement withoutTarget() {
        return new Judgement(decisionRule, 0, 1, 0, VerdictCode.NO_TARGET);
    }

    private static VerdictCode decide(double below, double above, DecisionRule decisionRule) {
        double accepted = decisionRule == DecisionRule.GUARD_BAND ? ACCEPTED_RISK : 0.5;
        if (below <= accepted && above <= accepted) {
            return VerdictCode.INSIDE;
        }
        double certain = Conformity.rounded(1 - accepted);
        if (above >= certain) {
            return VerdictCode.ABOVE;
        }
        if (below >= certain) {
            return VerdictCode.BELOW;
        }
        return VerdictCode.UNDECIDED;
    }

    /** Probability that a value lies beyond a limit, given how far beyond it the best estimate is. */
    private static double beyond(double distance, double standardUncertainty, double limit) {
        if (standardUncertainty > 0) {
            return Conformity.rounded(NormalDistribution.cumulative(distance / standardUncertainty));
        }
        return distance > ROUNDING * Math.max(1, Math.abs(limit)) ? 1 : 0;
    }
}
