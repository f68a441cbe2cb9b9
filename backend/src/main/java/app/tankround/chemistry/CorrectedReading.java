package app.tankround.chemistry;

import java.util.List;

/**
 * A reading corrected by the checks on either side of it; values on the instrument's own scale.
 *
 * @param asRead the reading as written down
 * @param value the reading less the instrument's error
 * @param error the instrument's error at the instant of the reading, reading minus true
 * @param standardUncertainty standard uncertainty (k = 1) of the corrected value
 * @param budget what that uncertainty is made of
 * @param movement how the error moved around that instant
 * @param correctable false if the checks make no correction possible, so that nothing may rest on the value
 * @param status what the checks say about the instrument
 * @param doubtful whether a later check failed and no good check lies between
 * @param checkIds the checks the correction rests on, in order of time
 * @param reasons why
 */
public record CorrectedReading(
        double asRead,
        double value,
        double error,
        double standardUncertainty,
        UncertaintyBudget budget,
        ErrorMovement movement,
        boolean correctable,
        InstrumentStatus status,
        boolean doubtful,
        List<String> checkIds,
        List<Reason> reasons) {

    public CorrectedReading {
        checkIds = List.copyOf(checkIds);
        reasons = List.copyOf(reasons);
    }

    /** Whether decisions may rest on it without a retest. */
    public boolean trusted() {
        return status == InstrumentStatus.SOUND && !doubtful;
    }

    /** Expanded uncertainty, k = 2. */
    public double expandedUncertainty() {
        return Uncertainty.COVERAGE * standardUncertainty;
    }
}
