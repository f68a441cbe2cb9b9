package app.tankround.chemistry;

import java.util.ArrayList;
import java.util.List;

/**
 * Sorts the checks of an instrument into those that passed, failed, and failed for a reason other than the instrument.
 *
 * <p>A first failure may be the standard's. It is decided by the next reading in the same part of the scale in another
 * bottle or lot: what that shows, less what was adjusted since the failure, is the error that the instrument had.
 */
public final class CheckOutcomes {

    private final List<CalibrationCheck> checks;
    private final List<List<CheckPoint>> counted = new ArrayList<>();
    private final boolean[] working;
    private final CalibrationLine[] found;
    private final CalibrationLine[] left;
    private final CheckOutcome[] outcomes;
    private final int[] explainedBy;
    private final double allowed;

    public CheckOutcomes(InstrumentHistory history) {
        checks = history.checks();
        int n = checks.size();
        working = new boolean[n];
        found = new CalibrationLine[n];
        left = new CalibrationLine[n];
        outcomes = new CheckOutcome[n];
        explainedBy = new int[n];
        allowed = CalibrationCheck.allowed(history.facts().permittedError());
        for (int i = 0; i < n; i++) {
            CalibrationCheck check = checks.get(i);
            counted.add(check.counted());
            working[i] = check.checksWorkingRange();
            found[i] = CalibrationLine.through(counted.get(i), true);
            left[i] = check.isAdjusted() ? CalibrationLine.through(counted.get(i), false) : found[i];
        }
        for (int i = 0; i < n; i++) {
            outcomes[i] = alone(i);
        }
        for (int i = 0; i < n; i++) {
            if (outcomes[i] == CheckOutcome.UNCONFIRMED) {
                decide(i);
            }
        }
    }

    /** Whether it checked the working range. */
    boolean working(int check) {
        return working[check];
    }

    /** Its points that count. */
    List<CheckPoint> counted(int check) {
        return counted.get(check);
    }

    /** Of the check at a place in {@link InstrumentHistory#checks}. */
    public CheckOutcome of(int check) {
        return outcomes[check];
    }

    CalibrationLine found(int check) {
        return found[check];
    }

    CalibrationLine left(int check) {
        return left[check];
    }

    /** The refuted check whose adjustment a check that failed is explained by. */
    int explainedBy(int check) {
        return explainedBy[check];
    }

    /** By how much a check moved the error at a reading. */
    double adjusted(int check, double reading) {
        return left[check].errorAt(reading) - found[check].errorAt(reading);
    }

    boolean leftGood(int check) {
        if (!left[check].plausible()) {
            return false;
        }
        for (CheckPoint point : counted.get(check)) {
            if (Math.abs(point.errorAsLeft()) > allowed) {
                return false;
            }
        }
        return true;
    }

    private CheckOutcome alone(int i) {
        CalibrationCheck check = checks.get(i);
        int off = 0;
        boolean together = false;
        List<CheckPoint> points = counted.get(i);
        for (int a = 0; a < points.size(); a++) {
            if (!isOff(points.get(a))) {
                continue;
            }
            off++;
            for (int b = 0; b < a; b++) {
                together |= isOff(points.get(b)) && confirms(points.get(a), points.get(b));
            }
        }
        boolean failed = off > 0 || !found[i].plausible();
        if (!check.isBelieved()) {
            return failed ? CheckOutcome.QUESTIONED : CheckOutcome.SET_ASIDE;
        }
        if (!failed) {
            return CheckOutcome.PASSED;
        }
        return together ? CheckOutcome.CONFIRMED : CheckOutcome.UNCONFIRMED;
    }

    private boolean isOff(CheckPoint point) {
        return Math.abs(point.errorAsFound()) > allowed;
    }

    /** Two standards of one check that are off to the same side. */
    private static boolean confirms(CheckPoint one, CheckPoint other) {
        return isOther(one.standard(), other.standard()) && one.errorAsFound() > 0 == other.errorAsFound() > 0;
    }

    private static boolean isOther(String one, String other) {
        return !one.isEmpty() && !other.isEmpty() && !one.equals(other);
    }

    private void decide(int failed) {
        for (int later = failed + 1; later < checks.size(); later++) {
            if (!checks.get(later).isBelieved()) {
                continue;
            }
            boolean repeated = false;
            boolean off = !found[later].plausible();
            for (CheckPoint point : counted.get(later)) {
                if (repeats(point, failed)) {
                    repeated = true;
                    double adjusted = 0;
                    for (int i = failed; i < later; i++) {
                        adjusted += adjusted(i, point.meanAsFound());
                    }
                    off |= Math.abs(point.errorAsFound() - adjusted) > allowed;
                }
            }
            if (repeated) {
                settle(failed, later, off);
                return;
            }
        }
    }

    private void settle(int failed, int later, boolean off) {
        outcomes[failed] = off ? CheckOutcome.CONFIRMED : CheckOutcome.REFUTED;
        if (outcomes[later] == CheckOutcome.UNCONFIRMED) {
            outcomes[later] = off ? CheckOutcome.CONFIRMED : CheckOutcome.EXPLAINED;
            explainedBy[later] = failed;
        }
    }

    /** Whether a later reading can decide a failure: the part of the scale that failed, in another standard. */
    private boolean repeats(CheckPoint point, int failed) {
        boolean anyOff = false;
        for (CheckPoint first : counted.get(failed)) {
            anyOff |= isOff(first);
        }
        for (CheckPoint first : counted.get(failed)) {
            boolean suspected = isOff(first) || !anyOff;
            if (suspected && first.role() == point.role() && isOther(first.standard(), point.standard())) {
                return true;
            }
        }
        return false;
    }
}
