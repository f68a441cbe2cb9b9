package app.tankround.chemistry;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What a salinity reading is worth. Carries its inputs, so that a page can show the working.
 *
 * @param ruleVersion {@link SalinityVerdictRule#RULE_VERSION}
 * @param reading the reading as written down
 * @param target the target, practical salinity
 * @param correctedValue corrected, on the instrument's own scale
 * @param correctedUncertainty its expanded uncertainty (k = 2), on the same scale
 * @param budget what that uncertainty is made of, on the same scale
 * @param movement how the instrument's error moved around that instant
 * @param salinity corrected practical salinity; absent beyond every salinity answered
 * @param salinityUncertainty its expanded uncertainty (k = 2); absent with it
 * @param salinityAsRead practical salinity the uncorrected reading seems to say; absent beyond every salinity answered
 * @param extrapolated whether the salinity is beyond the published range of the formula
 * @param judgement the corrected value against the target, with the decision rule that was applied
 * @param verdictAsRead the uncorrected value against the target taken at its word, without uncertainty: what the record
 *     said before anything was known about the instrument
 * @param status what the checks say about the instrument
 * @param doubtful whether a later check failed and no good check lies between
 * @param trusted whether decisions may rest on it without a retest: sound and not doubtful
 * @param checkIds the checks it rests on, in order of time
 * @param reasons why, as codes
 */
public record SalinityVerdict(
        int ruleVersion,
        SalinityReading reading,
        Target target,
        double correctedValue,
        double correctedUncertainty,
        UncertaintyBudget budget,
        ErrorMovement movement,
        @Nullable Double salinity,
        @Nullable Double salinityUncertainty,
        @Nullable Double salinityAsRead,
        boolean extrapolated,
        Judgement judgement,
        VerdictCode verdictAsRead,
        InstrumentStatus status,
        boolean doubtful,
        boolean trusted,
        List<String> checkIds,
        List<Reason> reasons) {

    public SalinityVerdict {
        checkIds = List.copyOf(checkIds);
        reasons = List.copyOf(reasons);
    }

    /** The corrected value against the target. */
    public VerdictCode verdict() {
        return judgement.verdict();
    }
}
