package app.tankround.chemistry;

import app.tankround.units.Quantity;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What is made of a reading.
 *
 * @param verdict on the corrected value
 * @param verdictAsRead the one that the reading, taken at its word, would have had
 * @param status what the checks say about the instrument; absent for kits that are not checked, and where there is none
 * @param trusted whether decisions may rest on it without measuring again
 * @param doubtful whether the instrument failed a later check and no good one lies between
 * @param correctedValue on the scale read; absent where there is no number to correct
 * @param uncertainty expanded uncertainty (k = 2) of the corrected value, on the same scale
 * @param salinity practical salinity, for readings of salinity that can be converted
 * @param salinityUncertainty its expanded uncertainty (k = 2)
 * @param reasons why
 * @param checkIds the checks it rests on
 * @param target in the unit of the reading, without ends where there is none
 * @param judgement probabilities, where there is a number to judge
 * @param budget what the uncertainty is made of, where there is one; on the scale read
 * @param ruleVersion of the rule that said so
 */
public record ReadingVerdict(
        VerdictCode verdict,
        VerdictCode verdictAsRead,
        @Nullable InstrumentStatus status,
        boolean trusted,
        boolean doubtful,
        @Nullable Double correctedValue,
        @Nullable Double uncertainty,
        @Nullable Double salinity,
        @Nullable Double salinityUncertainty,
        List<Reason> reasons,
        List<String> checkIds,
        Target target,
        @Nullable Judgement judgement,
        @Nullable UncertaintyBudget budget,
        int ruleVersion) {

    private static final Target NONE = new Target(null, null);

    public ReadingVerdict {
        reasons = List.copyOf(reasons);
        checkIds = List.copyOf(checkIds);
    }

    /** Whether a reason of that code is among the reasons. */
    public boolean says(ReasonCode code) {
        for (Reason reason : reasons) {
            if (reason.code() == code) {
                return true;
            }
        }
        return false;
    }

    /** Whether nobody should leave before something was done about it, or before it was measured again. */
    public boolean asksBeforeLeaving(Quantity quantity) {
        return RangeVerdict.endangers(quantity, verdict) || says(ReasonCode.REPEAT_BEFORE_LEAVING);
    }

    /** Whether it can be relied on, and tells that nothing of this kind kills. */
    public boolean tellsOfNoDanger(ShownReading reading) {
        return reading.isMeasured() && trusted && RangeVerdict.isHarmless(reading.quantity(), verdict);
    }

    ReadingVerdict with(ReasonCode code) {
        return with(code, status, trusted);
    }

    /** The same of a reading that nothing may rest on, whatever the instrument's checks say. */
    ReadingVerdict distrusted(ReasonCode code) {
        return with(code, status, false);
    }

    /** The same of an instrument that decides nothing until a check settles what is wrong with it. */
    ReadingVerdict suspect(ReasonCode code) {
        return with(code, InstrumentStatus.SUSPECT, false);
    }

    private ReadingVerdict with(ReasonCode code, @Nullable InstrumentStatus changed, boolean believed) {
        List<Reason> more = new ArrayList<>(reasons);
        more.add(new Reason(code, 0));
        return new ReadingVerdict(
                verdict,
                verdictAsRead,
                changed,
                believed,
                doubtful,
                correctedValue,
                uncertainty,
                salinity,
                salinityUncertainty,
                more,
                checkIds,
                target,
                judgement,
                budget,
                ruleVersion);
    }

    /** The same of what no target says anything about. */
    ReadingVerdict withoutTarget() {
        return new ReadingVerdict(
                VerdictCode.NO_TARGET,
                VerdictCode.NO_TARGET,
                status,
                trusted,
                doubtful,
                correctedValue,
                uncertainty,
                salinity,
                salinityUncertainty,
                reasons,
                checkIds,
                NONE,
                judgement == null ? null : judgement.withoutTarget(),
                budget,
                ruleVersion);
    }
}
