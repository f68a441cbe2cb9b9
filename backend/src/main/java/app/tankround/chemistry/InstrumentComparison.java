package app.tankround.chemistry;

import app.tankround.units.InputKind;
import app.tankround.units.Ranges;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Two instruments on one sample, by the En number (ISO 13528:2015, 9.7, from memory: the difference over the root sum of
 * squares of the expanded uncertainties; beyond 1 the two disagree). Standards that both were checked with are not allowed
 * for, so that the two agree a little too easily.
 *
 * @param normalizedError En, the first less the second
 * @param agree whether it is within 1
 * @param likelierWrong which is likelier wrong where they disagree; {@code OPEN} if their histories do not say
 * @param grounds what speaks against it, the weightiest first
 * @param next what to measure next, in order; empty where they agree
 */
public record InstrumentComparison(
        double normalizedError, boolean agree, Suspected likelierWrong, List<Ground> grounds, List<Step> next) {

    public InstrumentComparison {
        grounds = List.copyOf(grounds);
        next = List.copyOf(next);
    }

    /** Which of the two. */
    public enum Suspected {
        NEITHER,
        FIRST,
        SECOND,
        OPEN
    }

    /** What speaks against one of them. */
    public enum Ground {
        /** Its status is worse: condemned, suspect, never checked, zero checked only, overdue. */
        STATUS,
        /** A later check failed it. */
        FAILED_LATER,
        /** Its error moves. */
        MOVES,
        /** It left its last check with more of its permitted error used up. */
        ERROR_AT_LAST_CHECK,
        /** Its last check is older. */
        OLDER_CHECK
    }

    /** What to do next. */
    public enum Step {
        /** Measure the sample once more with both, at one temperature. */
        REPEAT_BOTH,
        /** Hold the first in a standard. */
        CHECK_FIRST,
        /** Hold the second in a standard. */
        CHECK_SECOND,
        /** Measure the sample with a third instrument. */
        THIRD_INSTRUMENT
    }

    /**
     * What one of them said.
     *
     * @param value corrected, in a unit that both share
     * @param expandedUncertainty of it (k = 2), above 0
     * @param history the instrument with its checks
     * @param corrected its correction at that instant
     * @param atEpochSecond when
     */
    public record Side(
            double value,
            double expandedUncertainty,
            InstrumentHistory history,
            CorrectedReading corrected,
            long atEpochSecond) {

        public Side {
            Ranges.require(InputKind.READING, value, Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY);
            Ranges.require(InputKind.UNCERTAINTY, expandedUncertainty, Double.MIN_NORMAL, Double.POSITIVE_INFINITY);
        }

        private @Nullable CalibrationCheck lastCheck() {
            int count = history.checksUpTo(atEpochSecond);
            for (int i = count - 1; i >= 0; i--) {
                CalibrationCheck check = history.checks().get(i);
                if (check.isBelieved() && check.checksWorkingRange()) {
                    return check;
                }
            }
            return null;
        }

        /** The error it was left with, in permitted errors; 1 if it was never checked. */
        private double errorShare() {
            @Nullable CalibrationCheck check = lastCheck();
            double largest = check == null ? history.facts().permittedError() : 0;
            if (check != null) {
                for (CheckPoint point : check.counted()) {
                    largest = Math.max(largest, Math.abs(point.errorAsLeft()));
                }
            }
            return largest / history.facts().permittedError();
        }

        /** Time since its last check, in its own intervals. */
        private double age() {
            @Nullable CalibrationCheck check = lastCheck();
            if (check == null) {
                return Double.POSITIVE_INFINITY;
            }
            double seconds = (double) (atEpochSecond - check.atEpochSecond());
            double days = seconds / ErrorSeries.SECONDS_PER_DAY;
            return days / history.facts().checkIntervalDays();
        }

        private double badness() {
            return switch (corrected.status()) {
                case SOUND -> 0;
                case OVERDUE -> 1;
                case ZERO_CHECKED_ONLY -> 2;
                case NEVER_CHECKED -> 3;
                case SUSPECT -> 4;
                case CONDEMNED, FAILED -> 5;
            };
        }

        private double moves() {
            return switch (corrected.movement()) {
                case UNKNOWN, STEADY -> 0;
                case OPEN -> 1;
                case DRIFT, STEP -> 2;
            };
        }
    }

    /** Compares what the two said of one sample. */
    public static InstrumentComparison of(Side first, Side second) {
        double difference = first.value() - second.value();
        double en = difference / Uncertainty.combine(first.expandedUncertainty(), second.expandedUncertainty());
        if (Math.abs(en) <= 1) {
            return new InstrumentComparison(en, true, Suspected.NEITHER, List.of(), List.of());
        }
        List<Ground> against = new ArrayList<>();
        double side = weigh(Ground.STATUS, first.badness(), second.badness(), 0, 0, against);
        side = weigh(Ground.FAILED_LATER, doubt(first), doubt(second), 0, side, against);
        side = weigh(Ground.MOVES, first.moves(), second.moves(), 0, side, against);
        side = weigh(Ground.ERROR_AT_LAST_CHECK, first.errorShare(), second.errorShare(), 0.25, side, against);
        side = weigh(Ground.OLDER_CHECK, first.age(), second.age(), 0.25, side, against);
        Suspected suspected = Suspected.OPEN;
        List<Step> next = new ArrayList<>();
        next.add(Step.REPEAT_BOTH);
        if (side > 0) {
            suspected = Suspected.FIRST;
            next.add(Step.CHECK_FIRST);
            next.add(Step.CHECK_SECOND);
        } else if (side < 0) {
            suspected = Suspected.SECOND;
            next.add(Step.CHECK_SECOND);
            next.add(Step.CHECK_FIRST);
        } else {
            next.add(Step.THIRD_INSTRUMENT);
            next.add(Step.CHECK_FIRST);
            next.add(Step.CHECK_SECOND);
        }
        return new InstrumentComparison(en, false, suspected, against, next);
    }

    private static double doubt(Side side) {
        return side.corrected().doubtful() ? 1 : 0;
    }

    /** The first ground decides; later ones are named only if they speak against the same instrument. */
    private static double weigh(
            Ground ground, double first, double second, double noticeable, double side, List<Ground> against) {
        double now = 0;
        if (first > second + noticeable) {
            now = 1;
        } else if (second > first + noticeable) {
            now = -1;
        }
        if (now != 0 && (side == 0 || side == now)) {
            against.add(ground);
            return now;
        }
        return side;
    }
}
