package app.tankround.chemistry;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Corrects a reading of any checked instrument on the instrument's own scale.
 *
 * <ul>
 *   <li>Between two checks the error runs in a straight line in time from what the earlier one left to what the later one
 *       found. A knock may have done it at once or a drift slowly, so the error lies between the two: a rectangular
 *       distribution over that interval, narrowing to nothing at the checks.
 *   <li>After the last check the error it left is carried forward; by the end of one interval it may have moved by the
 *       permitted error (rectangular), and so on in proportion. Between two checks the nearer one counts.
 *   <li>Before the first check the error it found is carried back, with all of it in doubt.
 *   <li>A check of the working range goes before a check of the zero alone; an adjustment made at a check of the zero in
 *       between is taken into account as the known jump it is.
 *   <li>A check at the same second as the reading counts as made before it.
 *   <li>A check in the working range that failed as found makes every reading since the last good one doubtful.
 * </ul>
 */
public final class InstrumentCorrection {

    private static final double SECONDS_PER_DAY = 86_400;

    private InstrumentCorrection() {}

    /**
     * Corrects one reading.
     *
     * @param instrument what is known about the instrument
     * @param checks all its checks, in any order
     * @param value the reading, on the instrument's own scale
     * @param atEpochSecond when it was made
     */
    public static CorrectedReading correct(
            InstrumentFacts instrument, List<CalibrationCheck> checks, double value, long atEpochSecond) {
        List<CalibrationCheck> sorted = new ArrayList<>(checks);
        sorted.sort(Comparator.comparingLong(CalibrationCheck::atEpochSecond));
        List<CalibrationCheck> before = new ArrayList<>();
        List<CalibrationCheck> after = new ArrayList<>();
        for (CalibrationCheck check : sorted) {
            (check.atEpochSecond() <= atEpochSecond ? before : after).add(check);
        }
        return new Correction(instrument, before, after, value, atEpochSecond).result();
    }

    /** The error one side speaks of, moved to the instant of the reading by the adjustments in between. */
    private record Side(CalibrationCheck check, CalibrationLine line, double error, double uncertainty, double days) {}

    /** One correction while it is being worked out. */
    private static final class Correction {

        private final InstrumentFacts instrument;
        private final List<CalibrationCheck> before;
        private final List<CalibrationCheck> after;
        private final double value;
        private final long at;
        private final List<Reason> reasons = new ArrayList<>();
        private final @Nullable CalibrationCheck lastWorking;
        private final @Nullable CalibrationCheck last;

        Correction(
                InstrumentFacts instrument,
                List<CalibrationCheck> before,
                List<CalibrationCheck> after,
                double value,
                long at) {
            this.instrument = instrument;
            this.before = before;
            this.after = after;
            this.value = value;
            this.at = at;
            this.lastWorking = lastWorking(before);
            this.last = before.isEmpty() ? null : before.getLast();
        }

        CorrectedReading result() {
            @Nullable Side earlier = side(before, true);
            @Nullable Side later = side(after, false);
            boolean botched = implausible(last) || implausible(lastWorking);
            if (botched) {
                earlier = null;
            }
            double error = error(earlier, later);
            double uncertainty = Uncertainty.combine(
                    Uncertainty.ofResolution(instrument.resolution()), uncertaintyOfError(earlier, later, error));
            List<String> ids = new ArrayList<>();
            if (earlier != null) {
                ids.add(earlier.check().id());
            }
            if (later != null) {
                ids.add(later.check().id());
            }
            reasonsOfError(error);
            boolean doubtful = doubtful();
            InstrumentStatus status = status(error);
            reasonsOfPoints(earlier, later);
            return new CorrectedReading(
                    value,
                    value - error,
                    error,
                    uncertainty,
                    !botched || later != null,
                    status,
                    doubtful,
                    ids,
                    reasons);
        }

        /** The nearest usable check of the working range on one side, else the nearest usable one of the zero. */
        private @Nullable Side side(List<CalibrationCheck> checks, boolean earlier) {
            @Nullable Side zero = null;
            double adjusted = 0;
            for (int i = 0; i < checks.size(); i++) {
                CalibrationCheck check = checks.get(earlier ? checks.size() - 1 - i : i);
                CalibrationLine found = check.asFound(instrument.resolution());
                CalibrationLine left = check.asLeft(instrument.resolution());
                CalibrationLine line = earlier ? left : found;
                if (!line.plausible()) {
                    return zero;
                }
                double moved = earlier ? line.errorAt(value) + adjusted : line.errorAt(value) - adjusted;
                double seconds = Math.abs((double) (at - check.atEpochSecond()));
                double uncertainty = Uncertainty.combine(
                        line.uncertaintyAt(value), line.unknownGainAt(value, instrument.unknownGain()));
                Side side = new Side(check, line, moved, uncertainty, seconds / SECONDS_PER_DAY);
                if (check.checksWorkingRange()) {
                    return side;
                }
                zero = zero == null ? side : zero;
                adjusted += left.errorAt(value) - found.errorAt(value);
            }
            return zero;
        }

        private double error(@Nullable Side earlier, @Nullable Side later) {
            if (earlier != null && later != null) {
                double change = later.error() - earlier.error();
                return earlier.error() + fraction(earlier, later) * change;
            }
            if (earlier != null) {
                return earlier.error();
            }
            return later != null ? later.error() : 0;
        }

        private double uncertaintyOfError(@Nullable Side earlier, @Nullable Side later, double error) {
            if (earlier != null && later != null) {
                double fraction = fraction(earlier, later);
                double rest = 1 - fraction;
                double change = Math.abs(later.error() - earlier.error());
                double narrowing = 2 * Math.sqrt(fraction * rest);
                double when = Uncertainty.rectangular(0.5 * change) * narrowing;
                double standards = rest * earlier.uncertainty() + fraction * later.uncertainty();
                double nearest = Math.min(earlier.days(), later.days());
                return Uncertainty.combine(standards, Uncertainty.combine(when, ageing(nearest)));
            }
            if (earlier != null) {
                return Uncertainty.combine(earlier.uncertainty(), ageing(earlier.days()));
            }
            if (later != null) {
                double reach = Math.max(Math.abs(error), instrument.permittedError());
                return Uncertainty.combine(later.uncertainty(), Uncertainty.rectangular(reach));
            }
            return Uncertainty.rectangular(instrument.uncheckedError());
        }

        private static double fraction(Side earlier, Side later) {
            double days = earlier.days() + later.days();
            return earlier.days() / days;
        }

        private double ageing(double days) {
            double intervals = days / instrument.checkIntervalDays();
            return Uncertainty.rectangular(instrument.permittedError() * intervals);
        }

        private void reasonsOfError(double error) {
            double noticeable = 0.5 * instrument.resolution();
            if (error < -noticeable) {
                reasons.add(new Reason(ReasonCode.READS_LOW_BY, -error));
            } else if (error > noticeable) {
                reasons.add(new Reason(ReasonCode.READS_HIGH_BY, error));
            }
        }

        private boolean doubtful() {
            for (CalibrationCheck check : after) {
                if (!check.passedAsFound(instrument.permittedError())) {
                    double error = check.asFound(instrument.resolution()).errorAt(value);
                    reasons.add(new Reason(ReasonCode.LATER_CHECK_FAILED, error));
                    addGain(check.asFound(0));
                    return true;
                }
                if (check.checksWorkingRange()) {
                    return false;
                }
            }
            return false;
        }

        private InstrumentStatus status(double error) {
            if (last == null) {
                reasons.add(new Reason(ReasonCode.NEVER_CHECKED, instrument.uncheckedError()));
                return InstrumentStatus.NEVER_CHECKED;
            }
            double permitted = instrument.permittedError();
            addGain(last.asLeft(0));
            if (!last.passedAsLeft(permitted) || lastWorking != null && !lastWorking.passedAsLeft(permitted)) {
                reasons.add(new Reason(ReasonCode.LEFT_OUT_OF_TOLERANCE, error));
                return InstrumentStatus.FAILED;
            }
            if (lastWorking == null) {
                double zero = last.asLeft(0).meanReading();
                reasons.add(new Reason(ReasonCode.WORKING_RANGE_UNCHECKED, zero));
                return InstrumentStatus.ZERO_CHECKED_ONLY;
            }
            double seconds = (double) (at - lastWorking.atEpochSecond());
            double late = seconds / SECONDS_PER_DAY - instrument.checkIntervalDays();
            if (late > 0 && !bracketed()) {
                reasons.add(new Reason(ReasonCode.CHECK_OVERDUE_DAYS, Math.ceil(late)));
                return InstrumentStatus.OVERDUE;
            }
            return InstrumentStatus.SOUND;
        }

        private boolean bracketed() {
            for (CalibrationCheck check : after) {
                if (check.checksWorkingRange()) {
                    return check.passedAsFound(instrument.permittedError());
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

        private static boolean onePoint(@Nullable Side side) {
            return side != null && side.line().onePoint() && side.check().checksWorkingRange();
        }

        private static boolean implausible(@Nullable CalibrationCheck check) {
            return check != null && !check.asLeft(0).plausible();
        }

        private void addGain(CalibrationLine line) {
            if (!line.plausible()) {
                reasons.add(new Reason(ReasonCode.GAIN_IMPLAUSIBLE, line.gain()));
            }
        }

        private static @Nullable CalibrationCheck lastWorking(List<CalibrationCheck> checks) {
            @Nullable CalibrationCheck found = null;
            for (CalibrationCheck check : checks) {
                found = check.checksWorkingRange() ? check : found;
            }
            return found;
        }
    }
}
