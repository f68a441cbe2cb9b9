package app.tankround.chemistry;

import java.util.ArrayList;
import java.util.List;

/**
 * How an instrument's error at one reading moved from check to check, and what that says about how it moves.
 *
 * <p>Model: between checks the error wanders (a random walk, standard deviation growing with the square root of time),
 * may drift at a constant rate, and may be knocked. The variance of the wandering after a day is estimated from this
 * instrument's own intervals, each weighted by how well it can tell wandering from measuring, and shrunk towards its
 * kind's, which counts as {@link #KIND_INTERVALS} intervals. An interval counts for at most nine times its kind's, so that
 * one knock does not spoil the rest (own choices).
 */
final class ErrorSeries {

    static final double SECONDS_PER_DAY = 86_400;

    /** How many intervals of its own an instrument needs until they weigh as much as its kind's. */
    static final double KIND_INTERVALS = 2;

    private static final double MOST = 9;
    static final double LEAST = 0.04;

    /** Limits in standard deviations: to be seen at all, and beyond what the other intervals foretell. */
    private static final double NOTICEABLE = 2;

    private static final double BEYOND = 3;

    private final double kindVariance;
    private final List<Interval> intervals = new ArrayList<>();
    private final double variancePerDay;

    /** The change between two checks in the working range, less what was adjusted at other checks in between. */
    private record Interval(int from, int to, double days, double change, double measuring) {}

    ErrorSeries(InstrumentHistory history, CheckOutcomes outcomes, double reading, double repeatVariance) {
        double sigma = history.facts().driftAfterOneDay();
        kindVariance = sigma * sigma;
        List<CalibrationCheck> checks = history.checks();
        int previous = -1;
        double adjusted = 0;
        for (int i = 0; i < checks.size(); i++) {
            boolean counts = outcomes.of(i).counts() && outcomes.working(i);
            boolean usable = counts && outcomes.found(i).plausible();
            if (usable && previous >= 0) {
                double seconds = (double)
                        (checks.get(i).atEpochSecond() - checks.get(previous).atEpochSecond());
                if (seconds > 0) {
                    double before = outcomes.left(previous).errorAt(reading) + adjusted;
                    BudgetBuilder budget = new BudgetBuilder(history.facts(), repeatVariance);
                    outcomes.found(i).addTo(budget, reading, 1);
                    outcomes.left(previous).addTo(budget, reading, -1);
                    intervals.add(new Interval(
                            previous,
                            i,
                            seconds / SECONDS_PER_DAY,
                            outcomes.found(i).errorAt(reading) - before,
                            budget.variance()));
                }
            }
            if (counts) {
                previous = outcomes.left(i).plausible() ? i : -1;
                adjusted = 0;
            } else {
                adjusted += outcomes.adjusted(i, reading);
            }
        }
        double weights = KIND_INTERVALS + ownWeight();
        double sum = KIND_INTERVALS * kindVariance + ownSum();
        variancePerDay = Math.max(LEAST * kindVariance, sum / weights);
    }

    /** Variance of the wandering after one day. */
    double variancePerDay() {
        return variancePerDay;
    }

    /** How many intervals' worth its own history has to say. */
    double ownWeight() {
        double weights = 0;
        for (Interval interval : intervals) {
            weights += weight(interval);
        }
        return weights;
    }

    /** What it says of the variance per day, times {@link #ownWeight}. */
    double ownSum() {
        double sum = 0;
        for (Interval interval : intervals) {
            sum += weight(interval) * Math.min(MOST * kindVariance, moved(interval));
        }
        return sum;
    }

    /** The same two of the intervals in which it was not knocked: it moved by no more than three of its kind's deviations. */
    double calmWeight() {
        double weights = 0;
        for (Interval interval : intervals) {
            weights += knocked(interval) ? 0 : weight(interval);
        }
        return weights;
    }

    double calmSum() {
        double sum = 0;
        for (Interval interval : intervals) {
            sum += knocked(interval) ? 0 : weight(interval) * moved(interval);
        }
        return sum;
    }

    private boolean knocked(Interval interval) {
        return moved(interval) > MOST * kindVariance;
    }

    /** Variance per day that an interval speaks for. */
    private static double moved(Interval interval) {
        return (interval.change() * interval.change() - interval.measuring()) / interval.days();
    }

    private double weight(Interval interval) {
        double expected = kindVariance * interval.days();
        double informative = expected / (expected + interval.measuring());
        return informative * informative;
    }

    /** A rate of drift in units of the scale per day, with its variance. */
    record Rate(int intervals, double perDay, double variance) {

        boolean isEstablished() {
            return intervals >= 2 && Math.abs(perDay) > NOTICEABLE * Math.sqrt(variance);
        }
    }

    /** The rate of all intervals that count, by weighted least squares. */
    Rate rate() {
        return rateWithout(-1);
    }

    private Rate rateWithout(int left) {
        double weights = 0;
        double sum = 0;
        int count = 0;
        for (int i = 0; i < intervals.size(); i++) {
            Interval interval = intervals.get(i);
            if (i == left) {
                continue;
            }
            double own = variancePerDay * interval.days() + interval.measuring();
            weights += interval.days() * interval.days() / own;
            sum += interval.days() * interval.change() / own;
            count++;
        }
        return count == 0 ? new Rate(0, 0, Double.POSITIVE_INFINITY) : new Rate(count, sum / weights, 1 / weights);
    }

    /** How the error moved from one check to another; {@code dropped} if somebody dropped it in between. */
    ErrorMovement between(int from, int to, boolean dropped) {
        for (int i = 0; i < intervals.size(); i++) {
            Interval interval = intervals.get(i);
            if (interval.from() == from && interval.to() == to) {
                return movement(i, dropped);
            }
        }
        return ErrorMovement.OPEN;
    }

    /** How it moved most lately. */
    ErrorMovement lately() {
        return intervals.isEmpty() ? ErrorMovement.UNKNOWN : movement(intervals.size() - 1, false);
    }

    private ErrorMovement movement(int index, boolean dropped) {
        Interval interval = intervals.get(index);
        double usual = variancePerDay * interval.days() + interval.measuring();
        if (Math.abs(interval.change()) <= NOTICEABLE * Math.sqrt(usual)) {
            return ErrorMovement.STEADY;
        }
        if (dropped) {
            return ErrorMovement.STEP;
        }
        Rate others = rateWithout(index);
        if (others.intervals() < 2) {
            return ErrorMovement.OPEN;
        }
        double days = interval.days();
        double beyond = Math.abs(interval.change() - others.perDay() * days);
        double expected = Math.sqrt(usual + days * days * others.variance());
        if (beyond > BEYOND * expected) {
            return ErrorMovement.STEP;
        }
        boolean foretold = beyond <= NOTICEABLE * expected && others.isEstablished();
        return foretold ? ErrorMovement.DRIFT : ErrorMovement.OPEN;
    }

    double measuring(int from, int to) {
        for (Interval interval : intervals) {
            if (interval.from() == from && interval.to() == to) {
                return interval.measuring();
            }
        }
        return 0;
    }
}
