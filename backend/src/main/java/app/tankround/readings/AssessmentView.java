package app.tankround.readings;

import app.tankround.chemistry.InstrumentStatus;
import app.tankround.chemistry.VerdictCode;
import app.tankround.instruments.CalibrationId;
import java.math.BigDecimal;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * What was computed from a reading. Computing again adds another; the newest is the one that counts.
 *
 * @param verdict on the corrected value
 * @param verdictAsRead the one that the reading, taken at its word, would have had
 * @param instrumentStatus what the checks say about the instrument; empty for kits, which are not checked against standards
 * @param trusted whether decisions may rest on it without measuring again
 * @param doubtful whether the instrument failed a later check and no good one lies between
 * @param correctedValue on the scale read; empty where there is no number to correct
 * @param uncertainty expanded uncertainty (k = 2) of the corrected value, on the same scale
 * @param salinity practical salinity, for readings of salinity that can be converted
 * @param salinityUncertainty its expanded uncertainty (k = 2)
 * @param calibrationIds the calibrations it rests on
 * @param targetLow the target at that time, in the unit of the reading
 * @param targetHigh likewise
 * @param ruleVersion of the rule that said so
 * @param grounds what the verdict came from; empty where there is no number to judge, or where they were not kept then
 */
public record AssessmentView(
        VerdictCode verdict,
        VerdictCode verdictAsRead,
        Optional<InstrumentStatus> instrumentStatus,
        boolean trusted,
        boolean doubtful,
        Optional<Double> correctedValue,
        Optional<Double> uncertainty,
        Optional<Double> salinity,
        Optional<Double> salinityUncertainty,
        List<Reason> reasons,
        List<CalibrationId> calibrationIds,
        Optional<BigDecimal> targetLow,
        Optional<BigDecimal> targetHigh,
        int ruleVersion,
        Instant computedAt,
        Optional<VerdictGrounds> grounds) {

    public AssessmentView {
        reasons = List.copyOf(reasons);
        calibrationIds = List.copyOf(calibrationIds);
    }

    /** Whether anything may be done because of the reading, however coarse it is. */
    public boolean decides() {
        return !doubtful
                && !says(ReadingRule.KIT_EXPIRED)
                && instrumentStatus.filter(status -> !status.decides()).isEmpty();
    }

    /** Whether its instrument is suspect, so that nothing is done on its word until a check settles it. */
    public boolean isBySuspect() {
        return instrumentStatus.filter(InstrumentStatus.SUSPECT::equals).isPresent();
    }

    /** The same with a further reason. */
    AssessmentView with(Reason reason) {
        List<Reason> more = new ArrayList<>(reasons);
        more.add(reason);
        return new AssessmentView(
                verdict,
                verdictAsRead,
                instrumentStatus,
                trusted,
                doubtful,
                correctedValue,
                uncertainty,
                salinity,
                salinityUncertainty,
                more,
                calibrationIds,
                targetLow,
                targetHigh,
                ruleVersion,
                computedAt,
                grounds);
    }

    /** Whether somebody who read another assessment of the same reading was told the same. */
    public boolean saysTheSame(AssessmentView other) {
        return verdict == other.verdict && trusted == other.trusted && doubtful == other.doubtful;
    }

    /** Whether a reason of that code is among the reasons. */
    public boolean says(String code) {
        return reasons.stream().anyMatch(reason -> reason.code().equals(code));
    }
}
