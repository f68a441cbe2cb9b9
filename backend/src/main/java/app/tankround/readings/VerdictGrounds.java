package app.tankround.readings;

import app.tankround.chemistry.Conformity;
import app.tankround.chemistry.DecisionRule;
import app.tankround.chemistry.Judgement;
import app.tankround.chemistry.UncertaintyBudget;

/**
 * What the verdict on a number came from.
 *
 * @param decisionRule the rule that was applied; for what kills always the guard band
 * @param below how likely the true value lies below the target, 0 to 1
 * @param above how likely it lies above it, 0 to 1
 * @param budget what the uncertainty is made of, on the scale read
 */
public record VerdictGrounds(DecisionRule decisionRule, double below, double above, UncertaintyBudget budget) {

    static VerdictGrounds of(Judgement judgement, UncertaintyBudget budget) {
        return new VerdictGrounds(judgement.decisionRule(), judgement.below(), judgement.above(), budget);
    }

    /** How likely the true value lies inside the target, 0 to 1. */
    public double inside() {
        return Conformity.rounded(Math.max(0, 1 - below - above));
    }
}
