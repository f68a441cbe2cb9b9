package app.tankround.chemistry;

import java.util.ArrayList;
import java.util.List;

/**
 * Sorts the checks of an instrument into those that passed, failed, and failed for a reason other than the instrument.
 *
 * <p>A first failure may be the standard's. It is decided by later readings at each place where it failed
 * ({@link InstrumentFacts#isOnePlace}) in another bottle or lot: what they show, less what was adjusted since the failure, is
 * the error that the instrument had. One of them that is off confirms it; only all of them together refute it. A slope that
 * cannot be is decided by a later check that shows the slope.
 */
public final class CheckOutcomes {

    private final InstrumentFacts facts;
    private final List<CalibrationCheck> checks;
    private final List<List<CheckPoint>> counted = new ArrayList<>();
    private final boolean[] working;
    private final CalibrationLine[] found;
    private final CalibrationLine[] left;
    private final CheckOutcome[] outcomes;
    private final int[] explainedBy;
    private final double allowed;

    public CheckOutcomes(InstrumentHistory history) {
        facts = history.facts();
        checks = history.checks();
        int n = checks.size();
        working = new boolean[n];
        found = new CalibrationLine[n];
        left = new CalibrationLine[n];
        outcomes = new CheckOutcome[n];
        explainedBy = new int[n];
        allowed = CalibrationCheck.allowed(facts.permittedError());
        for (int i = 0; i < n; i++) {
            CalibrationCheck check = checks.get(i);
            counted.add(check.counted());
            working[i] = check.checksWorkingRange();
            found[i] = CalibrationLine.through(counted.get(i), true, check.electrode());
            left[i] = check.isAdjusted() ? CalibrationLine.through(counted.get(i), false, check.electrode()) : found[i];
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
        boolean failed = off > 0 || !found[i].plausible() && !contradicts(points);
        if (!check.isBelieved()) {
            return failed ? CheckOutcome.QUESTIONED : CheckOutcome.SET_ASIDE;
        }
        if (!failed) {
            return CheckOutcome.PASSED;
        }
        return together ? CheckOutcome.CONFIRMED : CheckOutcome.UNCONFIRMED;
    }

    private static boolean contradicts(List<CheckPoint> points) {
        for (CheckPoint point : points) {
            if (point.standardState() == StandardState.READINGS_CONTRADICT) {
                return true;
            }
        }
        return false;
    }

    private boolean isOff(CheckPoint point) {
        return point.standardState() != StandardState.READINGS_CONTRADICT && Math.abs(point.errorAsFound()) > allowed;
    }

    /** Two standards of one check that are off to the same side. */
    private static boolean confirms(CheckPoint one, CheckPoint other) {
        return isOther(one.standard(), other.standard()) && one.errorAsFound() > 0 == other.errorAsFound() > 0;
    }

    private static boolean isOther(String one, String other) {
        return !one.isEmpty() && !other.isEmpty() && !one.equals(other);
    }

    private void decide(int failed) {
        List<CheckPoint> open = wrongAt(failed, false);
        boolean ofSlope = open.isEmpty();
        for (int later = failed + 1; later < checks.size(); later++) {
            if (!checks.get(later).isBelieved()) {
                continue;
            }
            boolean repeated = false;
            boolean off = false;
            boolean fresh = true;
            if (ofSlope) {
                repeated = showsSlopeAgain(later, failed) && anyOther(later, failed);
                off = !found[later].plausible();
                fresh = allOther(later, failed);
            } else {
                for (CheckPoint point : counted.get(later)) {
                    if (repeats(point, failed)) {
                        repeated = true;
                        off |= isOffSince(failed, later, point);
                        open = without(open, point);
                    }
                }
            }
            // With one of the bottles again, a slope that is still wrong may be that bottle's.
            if (repeated && (off ? fresh : open.isEmpty())) {
                settle(failed, later, off);
                return;
            }
        }
    }

    private void settle(int failed, int later, boolean off) {
        outcomes[failed] = off ? CheckOutcome.CONFIRMED : CheckOutcome.REFUTED;
        if (outcomes[later] != CheckOutcome.UNCONFIRMED) {
            return;
        }
        if (off) {
            outcomes[later] = CheckOutcome.CONFIRMED;
            return;
        }
        for (CheckPoint point : counted.get(later)) {
            if (isOffSince(failed, later, point)) {
                return;
            }
        }
        outcomes[later] = CheckOutcome.EXPLAINED;
        explainedBy[later] = failed;
    }

    /** Whether a point is off even without what was adjusted since a check. */
    private boolean isOffSince(int failed, int later, CheckPoint point) {
        double adjusted = 0;
        for (int i = failed; i < later; i++) {
            adjusted += adjusted(i, point.meanAsFound());
        }
        return Math.abs(point.errorAsFound() - adjusted) > allowed;
    }

    /**
     * Where a check found the instrument off, or left it so: in the working range, else at the zero. Empty if only its slope
     * is wrong.
     */
    private List<CheckPoint> wrongAt(int check, boolean orLeft) {
        List<CheckPoint> wrong = new ArrayList<>();
        List<CheckPoint> zero = new ArrayList<>();
        for (CheckPoint point : counted.get(check)) {
            if (isOff(point) || (orLeft && Math.abs(point.errorAsLeft()) > allowed)) {
                (point.role() == StandardRole.ZERO ? zero : wrong).add(point);
            }
        }
        return wrong.isEmpty() ? zero : wrong;
    }

    /** Whether a later check looks again at all that was wrong at a check, in whatever standard. */
    boolean looksAgain(int later, int failed) {
        List<CheckPoint> wrong = wrongAt(failed, true);
        if (wrong.isEmpty()) {
            return showsSlopeAgain(later, failed);
        }
        for (CheckPoint first : wrong) {
            boolean seen = false;
            for (CheckPoint point : counted.get(later)) {
                seen |= isOnePlace(first, point);
            }
            if (!seen) {
                return false;
            }
        }
        return true;
    }

    private boolean showsSlopeAgain(int later, int failed) {
        if (found[failed].wornOut() != null) {
            return checks.get(later).electrode() != null;
        }
        return found[failed].onePoint() || !found[later].onePoint();
    }

    private boolean isOnePlace(CheckPoint one, CheckPoint other) {
        return one.role() == other.role() && facts.isOnePlace(one.trueValue(), other.trueValue());
    }

    /** Whether a later reading can decide a failure: a place that failed, in another standard. */
    private boolean repeats(CheckPoint point, int failed) {
        for (CheckPoint first : wrongAt(failed, false)) {
            if (isOnePlace(first, point) && isOther(first.standard(), point.standard())) {
                return true;
            }
        }
        return false;
    }

    /** The places that a reading says nothing about. */
    private List<CheckPoint> without(List<CheckPoint> open, CheckPoint point) {
        List<CheckPoint> rest = new ArrayList<>();
        for (CheckPoint first : open) {
            if (!isOnePlace(first, point) || !isOther(first.standard(), point.standard())) {
                rest.add(first);
            }
        }
        return rest;
    }

    private boolean anyOther(int later, int failed) {
        for (CheckPoint point : counted.get(later)) {
            if (isOtherThanAll(point, failed)) {
                return true;
            }
        }
        return false;
    }

    private boolean allOther(int later, int failed) {
        for (CheckPoint point : counted.get(later)) {
            if (!isOtherThanAll(point, failed)) {
                return false;
            }
        }
        return true;
    }

    private boolean isOtherThanAll(CheckPoint point, int failed) {
        for (CheckPoint first : counted.get(failed)) {
            if (!isOther(first.standard(), point.standard())) {
                return false;
            }
        }
        return true;
    }
}
