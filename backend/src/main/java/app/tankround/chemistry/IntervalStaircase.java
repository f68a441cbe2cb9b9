package app.tankround.chemistry;

/**
 * The interval to the next check, stepped up and down by how the checks in the working range went. After the staircase
 * method of ILAC-G24 / OIML D 10, "Guidelines for the determination of recalibration intervals" (from memory; steps and
 * runs are this project's own choice): three checks in a row that passed with room lengthen it by half, a failure halves
 * it at once. With room means that the error as found and its expanded uncertainty together are within half the permitted
 * error.
 */
final class IntervalStaircase {

    static final int RUN = 3;
    private static final double LONGER = 1.5;
    private static final double SHORTER = 0.5;
    private static final double ROOM = 0.5;

    private final InstrumentHistory history;
    private final CheckOutcomes outcomes;
    private final double repeatVariance;
    private int days;
    private int daysBefore;
    private int run;
    private int lengthened;
    private boolean shortenedLast;
    private double lastFailure;

    IntervalStaircase(InstrumentHistory history, CheckOutcomes outcomes, double repeatVariance, int checks) {
        this.history = history;
        this.outcomes = outcomes;
        this.repeatVariance = repeatVariance;
        days = history.facts().checkIntervalDays();
        daysBefore = days;
        for (int i = 0; i < checks; i++) {
            CheckOutcome outcome = outcomes.of(i);
            if (outcome == CheckOutcome.UNCONFIRMED || outcome == CheckOutcome.CONFIRMED) {
                shorten(i);
            } else if (outcome == CheckOutcome.PASSED && outcomes.working(i)) {
                pass(i);
            }
        }
    }

    int days() {
        return days;
    }

    /** The interval before the last step. */
    int daysBefore() {
        return daysBefore;
    }

    /** Checks in a row that passed with room, since the last step. */
    int run() {
        return run;
    }

    /** How many steps up since the last failure. */
    int lengthened() {
        return lengthened;
    }

    boolean shortened() {
        return shortenedLast;
    }

    /** The error at the worst point of the last failure. */
    double lastFailure() {
        return lastFailure;
    }

    private void shorten(int check) {
        daysBefore = days;
        days = Math.max(history.facts().shortestIntervalDays(), (int) Math.floor(days * SHORTER));
        run = 0;
        lengthened = 0;
        shortenedLast = true;
        lastFailure = history.checks().get(check).worst().errorAsFound();
    }

    private void pass(int check) {
        if (!withRoom(check)) {
            run = 0;
            return;
        }
        run++;
        if (run == RUN) {
            int longest = history.facts().longestIntervalDays();
            int longer = Math.min(longest, (int) Math.floor(days * LONGER));
            if (longer > days) {
                daysBefore = days;
                lengthened++;
                shortenedLast = false;
            }
            days = longer;
            run = 0;
        }
    }

    private boolean withRoom(int check) {
        double permitted = history.facts().permittedError();
        for (CheckPoint point : outcomes.counted(check)) {
            BudgetBuilder budget = new BudgetBuilder(history.facts(), repeatVariance);
            budget.addPoint(point, point.asFound().size(), 1, 1);
            double reach = Math.abs(point.errorAsFound()) + Uncertainty.COVERAGE * Math.sqrt(budget.variance());
            if (reach > ROOM * CalibrationCheck.allowed(permitted)) {
                return false;
            }
        }
        return true;
    }
}
