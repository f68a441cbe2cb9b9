package app.tankround.chemistry;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Corrects a reading of any checked instrument on the instrument's own scale.
 *
 * <ul>
 *   <li>Between two checks the error runs in a straight line in time from what the earlier one left to what the later one
 *       found. Its wandering adds f (1 - f) s² D to the variance, where f is the share of the D days that has gone by and s²
 *       the variance per day: a Brownian bridge, nothing at the checks and most half way.
 *   <li>What the error moved beyond that, J, it moved slowly or at once. A knock at an unknown instant means either of two
 *       errors with odds f to 1 - f, so it adds f (1 - f) J²; where the checks leave open whether it was one, half of that;
 *       nothing where the other checks foretold the drift. A drop that was noticed dates the knock: until then the earlier
 *       check is carried forward, from then on the later one back.
 *   <li>After the last check the error it left is carried forward, and its variance grows by s² a day; an established drift
 *       adds what it would have moved, as a rectangular distribution.
 *   <li>Before the first check the error it found is carried back, with all of it in doubt.
 *   <li>A check of the working range goes before a check of the zero alone; an adjustment made at a check of the zero in
 *       between is taken into account as the known jump it is.
 *   <li>A check at the same second as the reading counts as made before it.
 *   <li>Nothing is corrected by a check with an implausible gain or a worn-out electrode, by one that a second standard refuted, or by a standard
 *       that may not be believed.
 *   <li>A check that failed as found makes every reading since the last good one doubtful.
 * </ul>
 */
public final class InstrumentCorrection {

    private static final double SECONDS_PER_DAY = ErrorSeries.SECONDS_PER_DAY;

    private InstrumentCorrection() {}

    /**
     * Corrects one reading.
     *
     * @param history the instrument with all its checks
     * @param value the reading, on the instrument's own scale
     * @param atEpochSecond when it was made, in seconds since 1970-01-01T00:00Z
     */
    public static CorrectedReading correct(InstrumentHistory history, double value, long atEpochSecond) {
        return new Correction(history, value, atEpochSecond).result();
    }

    /** The error one side speaks of, moved to the instant of the reading by the adjustments in between. */
    private record Side(int index, CalibrationLine line, double error, double days) {}

    /** What is wrong since a check, and whether the instrument was left so. */
    private record Failing(int check, Reason reason, boolean condemned, boolean leftOff) {

        /** Only a second standard settles what the first one found. */
        boolean waits() {
            return reason.code() == ReasonCode.FAILURE_UNCONFIRMED && !condemned;
        }
    }

    /** One correction while it is being worked out. */
    private static final class Correction {

        private final InstrumentHistory history;
        private final InstrumentFacts facts;
        private final List<CalibrationCheck> checks;
        private final CheckOutcomes outcomes;
        private final double value;
        private final long at;
        private final double repeatVariance;
        private final ErrorSeries series;
        private final int before;
        private final List<Reason> reasons = new ArrayList<>();
        private final int last;
        private final int lastWorking;

        Correction(InstrumentHistory history, double value, long at) {
            this.history = history;
            this.facts = history.facts();
            this.checks = history.checks();
            this.value = value;
            this.at = at;
            this.outcomes = new CheckOutcomes(history);
            this.repeatVariance = history.repeatVariance();
            this.series = new ErrorSeries(history, outcomes, value, repeatVariance);
            this.before = history.checksUpTo(at);
            this.last = lastBefore(false);
            this.lastWorking = lastBefore(true);
        }

        CorrectedReading result() {
            @Nullable Side later = side(false);
            boolean botched = implausible(last) || implausible(lastWorking);
            @Nullable Side earlier = botched ? null : side(true);
            BudgetBuilder budget = new BudgetBuilder(facts, repeatVariance);
            budget.addReading();
            ErrorMovement movement = ErrorMovement.UNKNOWN;
            double error = 0;
            if (earlier != null && later != null) {
                movement = movement(earlier, later);
                error = between(earlier, later, movement, budget);
            } else if (earlier != null) {
                movement = series.lately();
                error = carriedForward(earlier, budget);
            } else if (later != null) {
                error = carriedBack(later, budget);
            } else {
                double half = Uncertainty.rectangular(facts.uncheckedError());
                budget.add(UncertaintySource.UNCHECKED, half * half);
            }
            reasonsOfError(error);
            boolean doubtful = doubtful();
            InstrumentStatus status = status(budget);
            reasonsOfPoints(earlier, later);
            reasonOfInstant();
            UncertaintyBudget whole = budget.build();
            return new CorrectedReading(
                    value,
                    value - error,
                    error,
                    whole.combined(),
                    whole,
                    movement,
                    !botched || later != null,
                    status,
                    doubtful,
                    ids(earlier, later),
                    reasons);
        }

        private List<String> ids(@Nullable Side earlier, @Nullable Side later) {
            List<String> ids = new ArrayList<>();
            if (earlier != null) {
                ids.add(checks.get(earlier.index()).id());
            }
            if (later != null) {
                ids.add(checks.get(later.index()).id());
            }
            return ids;
        }

        private int lastBefore(boolean working) {
            for (int i = before - 1; i >= 0; i--) {
                if (outcomes.of(i).counts() && (!working || outcomes.working(i))) {
                    return i;
                }
            }
            return -1;
        }

        /** The nearest usable check of the working range on one side, else the nearest usable one of the zero. */
        private @Nullable Side side(boolean earlier) {
            @Nullable Side zero = null;
            double adjusted = 0;
            int step = earlier ? -1 : 1;
            for (int i = earlier ? before - 1 : before; i >= 0 && i < checks.size(); i += step) {
                if (outcomes.of(i).counts()) {
                    CalibrationLine line = earlier ? outcomes.left(i) : outcomes.found(i);
                    if (!line.plausible()) {
                        return zero;
                    }
                    double moved = earlier ? line.errorAt(value) + adjusted : line.errorAt(value) - adjusted;
                    double seconds = Math.abs((double) (at - checks.get(i).atEpochSecond()));
                    Side side = new Side(i, line, moved, seconds / SECONDS_PER_DAY);
                    if (outcomes.working(i)) {
                        return side;
                    }
                    zero = zero == null ? side : zero;
                }
                adjusted += outcomes.adjusted(i, value);
            }
            return zero;
        }

        private ErrorMovement movement(Side earlier, Side later) {
            long from = checks.get(earlier.index()).atEpochSecond();
            long to = checks.get(later.index()).atEpochSecond();
            ErrorMovement movement = series.between(earlier.index(), later.index(), firstDrop(from, to) != null);
            double change = later.error() - earlier.error();
            switch (movement) {
                case DRIFT -> reasons.add(new Reason(ReasonCode.ERROR_DRIFTED, change));
                case STEP -> reasons.add(new Reason(ReasonCode.ERROR_STEPPED, change));
                case OPEN -> reasons.add(new Reason(ReasonCode.ERROR_MOVED, change));
                default -> {}
            }
            return movement;
        }

        private double between(Side earlier, Side later, ErrorMovement movement, BudgetBuilder budget) {
            double days = earlier.days() + later.days();
            double fraction = earlier.days() / days;
            double perDay = series.variancePerDay();
            long from = checks.get(earlier.index()).atEpochSecond();
            long to = checks.get(later.index()).atEpochSecond();
            @Nullable Long first = movement == ErrorMovement.STEP ? firstDrop(from, to) : null;
            if (first != null && at < first) {
                earlier.line().addTo(budget, value, 1);
                budget.add(UncertaintySource.DRIFT, perDay * earlier.days());
                return earlier.error();
            }
            if (first != null && at >= lastDrop(from, to)) {
                later.line().addTo(budget, value, 1);
                budget.add(UncertaintySource.DRIFT, perDay * later.days());
                return later.error();
            }
            double rest = 1 - fraction;
            double change = later.error() - earlier.error();
            double open = fraction * rest;
            double wandering = perDay * days;
            double explained = wandering + series.measuring(earlier.index(), later.index());
            double jump = Math.max(0, change * change - explained) * likelihoodOfStep(movement);
            earlier.line().addTo(budget, value, rest);
            later.line().addTo(budget, value, fraction);
            budget.add(UncertaintySource.DRIFT, open * (wandering + jump));
            return earlier.error() + fraction * change;
        }

        private static double likelihoodOfStep(ErrorMovement movement) {
            return switch (movement) {
                case STEP -> 1;
                case DRIFT -> 0;
                default -> 0.5;
            };
        }

        private double carriedForward(Side earlier, BudgetBuilder budget) {
            earlier.line().addTo(budget, value, 1);
            budget.add(UncertaintySource.DRIFT, series.variancePerDay() * earlier.days());
            ErrorSeries.Rate rate = series.rate();
            if (rate.isEstablished()) {
                double reach = Uncertainty.rectangular(rate.perDay() * earlier.days());
                budget.add(UncertaintySource.DRIFT, reach * reach);
            }
            return earlier.error();
        }

        private double carriedBack(Side later, BudgetBuilder budget) {
            later.line().addTo(budget, value, 1);
            double reach = Uncertainty.rectangular(Math.max(Math.abs(later.error()), facts.permittedError()));
            budget.add(UncertaintySource.UNCHECKED, reach * reach);
            return later.error();
        }

        private @Nullable Long firstDrop(long from, long to) {
            for (Long drop : history.droppedAtEpochSeconds()) {
                if (drop > from && drop <= to) {
                    return drop;
                }
            }
            return null;
        }

        private long lastDrop(long from, long to) {
            long last = from;
            for (Long drop : history.droppedAtEpochSeconds()) {
                last = drop > from && drop <= to ? drop : last;
            }
            return last;
        }

        private void reasonsOfError(double error) {
            double noticeable = 0.5 * facts.resolution();
            if (error < -noticeable) {
                reasons.add(new Reason(ReasonCode.READS_LOW_BY, -error));
            } else if (error > noticeable) {
                reasons.add(new Reason(ReasonCode.READS_HIGH_BY, error));
            }
        }

        private boolean doubtful() {
            for (int i = before; i < checks.size(); i++) {
                CheckOutcome outcome = outcomes.of(i);
                if (outcome == CheckOutcome.QUESTIONED) {
                    double error = outcomes.found(i).errorAt(value);
                    reasons.add(new Reason(ReasonCode.STANDARD_QUESTIONABLE, error));
                }
                // The wrong adjustment came after the reading: what explains the failure clears it.
                boolean cleared = outcome == CheckOutcome.EXPLAINED && outcomes.explainedBy(i) >= before;
                if (outcome.failed() && !cleared) {
                    reasons.add(new Reason(
                            ReasonCode.LATER_CHECK_FAILED, outcomes.found(i).errorAt(value)));
                    addGain(outcomes.found(i));
                    return true;
                }
                if (outcome.counts() && outcomes.working(i)) {
                    return false;
                }
            }
            return false;
        }

        private InstrumentStatus status(BudgetBuilder budget) {
            @Nullable InstrumentStatus failing = failing();
            if (last < 0) {
                reasons.add(new Reason(ReasonCode.NEVER_CHECKED, facts.uncheckedError()));
                return failing == null ? InstrumentStatus.NEVER_CHECKED : failing;
            }
            if (failing != null) {
                return failing;
            }
            boolean bracketed = bracketed();
            @Nullable Long dropped = droppedSinceLastCheck();
            if (dropped != null && !bracketed) {
                double since = (double) (at - dropped);
                reasons.add(new Reason(ReasonCode.DROPPED, Math.floor(since / SECONDS_PER_DAY)));
                double half = Uncertainty.rectangular(facts.uncheckedError());
                budget.add(UncertaintySource.UNCHECKED, half * half);
                return InstrumentStatus.SUSPECT;
            }
            if (lastWorking < 0) {
                double zero = outcomes.left(last).meanReading();
                reasons.add(new Reason(ReasonCode.WORKING_RANGE_UNCHECKED, zero));
                return InstrumentStatus.ZERO_CHECKED_ONLY;
            }
            int interval = new IntervalStaircase(history, outcomes, repeatVariance, before).days();
            double seconds = (double) (at - checks.get(lastWorking).atEpochSecond());
            double late = seconds / SECONDS_PER_DAY - interval;
            if (late > 0 && !bracketed) {
                reasons.add(new Reason(ReasonCode.CHECK_OVERDUE_DAYS, Math.ceil(late)));
                return InstrumentStatus.OVERDUE;
            }
            return InstrumentStatus.SOUND;
        }

        /**
         * Goes through the checks in time; each settles what was wrong at the places that it looks at again, and one of the
         * working range all that was wrong at the zero.
         */
        private @Nullable InstrumentStatus failing() {
            List<Failing> open = new ArrayList<>();
            for (int i = 0; i < before; i++) {
                CheckOutcome outcome = outcomes.of(i);
                if (outcome == CheckOutcome.REFUTED || outcome == CheckOutcome.SET_ASIDE) {
                    continue;
                }
                @Nullable Failing own = failing(i);
                boolean questioned = outcome == CheckOutcome.QUESTIONED;
                boolean condemned = false;
                List<Failing> kept = new ArrayList<>();
                for (Failing so : open) {
                    boolean zero = outcomes.working(i) && !outcomes.working(so.check());
                    boolean again = outcomes.looksAgain(i, so.check()) && !(own == null && so.waits());
                    if (questioned || !(zero || again)) {
                        kept.add(so);
                    } else {
                        condemned |= again && so.condemned();
                    }
                }
                if (own != null && !(questioned && !kept.isEmpty())) {
                    boolean still = outcome == CheckOutcome.UNCONFIRMED && condemned;
                    kept.add(new Failing(i, own.reason(), own.condemned() || still, own.leftOff()));
                }
                open = kept;
            }
            @Nullable Failing worst = null;
            for (Failing so : open) {
                worst = worst == null || so.condemned() || !worst.condemned() ? so : worst;
            }
            if (worst == null) {
                return null;
            }
            reasons.add(worst.reason());
            if (worst.leftOff() && worst.reason().code() != ReasonCode.LEFT_OUT_OF_TOLERANCE) {
                reasons.add(new Reason(
                        ReasonCode.LEFT_OUT_OF_TOLERANCE,
                        outcomes.left(worst.check()).errorAt(value)));
            }
            addGain(outcomes.left(worst.check()));
            return worst.condemned() ? InstrumentStatus.CONDEMNED : InstrumentStatus.SUSPECT;
        }

        /** What is wrong by one check alone. */
        private @Nullable Failing failing(int check) {
            CheckOutcome outcome = outcomes.of(check);
            double found = outcomes.found(check).errorAt(value);
            if (outcome == CheckOutcome.QUESTIONED) {
                return new Failing(check, new Reason(ReasonCode.STANDARD_QUESTIONABLE, found), false, false);
            }
            boolean off = !outcomes.leftGood(check);
            if (outcome == CheckOutcome.UNCONFIRMED) {
                return new Failing(check, new Reason(ReasonCode.FAILURE_UNCONFIRMED, found), false, off);
            }
            if (outcome == CheckOutcome.CONFIRMED && off) {
                return new Failing(check, new Reason(ReasonCode.FAILURE_CONFIRMED, found), true, true);
            }
            double left = outcomes.left(check).errorAt(value);
            return off ? new Failing(check, new Reason(ReasonCode.LEFT_OUT_OF_TOLERANCE, left), false, true) : null;
        }

        /** When it was first dropped since the last check in the working range that counts. */
        private @Nullable Long droppedSinceLastCheck() {
            long checked =
                    lastWorking < 0 ? Long.MIN_VALUE : checks.get(lastWorking).atEpochSecond();
            return firstDrop(checked, at);
        }

        private boolean bracketed() {
            for (int i = before; i < checks.size(); i++) {
                if (outcomes.of(i).counts() && outcomes.working(i)) {
                    return outcomes.of(i) == CheckOutcome.PASSED;
                }
            }
            return false;
        }

        private void reasonsOfPoints(@Nullable Side earlier, @Nullable Side later) {
            @Nullable Side single = onePoint(earlier) ? earlier : later;
            if (single != null && onePoint(single)) {
                reasons.add(new Reason(ReasonCode.ONE_POINT_ONLY, single.line().meanReading()));
            }
        }

        /** Nobody can tell whether a reading of the same second was made before or after the adjustment. */
        private void reasonOfInstant() {
            int index = before - 1;
            if (index >= 0
                    && checks.get(index).atEpochSecond() == at
                    && checks.get(index).isAdjusted()) {
                reasons.add(new Reason(ReasonCode.ADJUSTED_AT_THIS_INSTANT, outcomes.adjusted(index, value)));
            }
        }

        private boolean onePoint(@Nullable Side side) {
            return side != null && side.line().onePoint() && outcomes.working(side.index());
        }

        private boolean implausible(int check) {
            return check >= 0 && !outcomes.left(check).plausible();
        }

        private void addGain(CalibrationLine line) {
            if (line.standardsEqual()) {
                reasons.add(new Reason(ReasonCode.STANDARDS_EQUAL, line.meanReading()));
            } else if (!line.plausible()) {
                addSlope(line);
            }
        }

        private void addSlope(CalibrationLine line) {
            @Nullable PhElectrode electrode = line.wornOut();
            if (electrode == null) {
                reasons.add(new Reason(ReasonCode.GAIN_IMPLAUSIBLE, line.gain()));
                return;
            }
            if (!electrode.slopeUsable()) {
                reasons.add(new Reason(ReasonCode.ELECTRODE_SLOPE, electrode.slope()));
            }
            if (!electrode.offsetUsable()) {
                reasons.add(new Reason(ReasonCode.ELECTRODE_OFFSET, electrode.offsetMillivolts()));
            }
        }
    }
}
