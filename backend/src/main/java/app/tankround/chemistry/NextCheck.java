package app.tankround.chemistry;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * When an instrument is to be checked next, and why ({@link IntervalStaircase}).
 *
 * @param dueAtEpochSecond when, in seconds since 1970-01-01T00:00Z; absent if it is due now whatever the date
 * @param intervalDays the interval that its history earned
 * @param intervalBeforeDays the interval before the last step up or down; the same as {@code intervalDays} if there was none
 * @param reasons why, the most pressing first
 */
public record NextCheck(@Nullable Long dueAtEpochSecond, int intervalDays, int intervalBeforeDays, List<Why> reasons) {

    private static final long SECONDS_PER_DAY = 86_400;

    public NextCheck {
        reasons = List.copyOf(reasons);
    }

    /** Why; the argument each code carries is named here. */
    public enum Code {
        /** Never held in any standard; argument: 0. */
        NOW_NEVER_CHECKED,
        /** Its working range never was; argument: 0. */
        NOW_WORKING_RANGE,
        /** It is suspect, and a check decides; argument: 0. */
        NOW_SUSPECT,
        /** It is out of use until it is adjusted and passes; argument: 0. */
        NOW_CONDEMNED,
        /** The interval is the one that was set for it; argument: days. */
        AS_SET,
        /** Checks passed with room several times in a row; argument: how many times the interval was lengthened. */
        LENGTHENED,
        /** A check failed; argument: the largest error it found, on the scale. */
        SHORTENED,
        /** It cannot be shorter for this kind; argument: days. */
        SHORTEST,
        /** It cannot be longer for this kind; argument: days. */
        LONGEST,
        /** Some passed with room, not yet enough to lengthen it; argument: how many more are needed. */
        MORE_TO_LENGTHEN
    }

    /** One reason. */
    public record Why(Code code, double argument) {}

    /**
     * Plans the next check.
     *
     * @param history the instrument with its checks
     * @param atEpochSecond now; later checks are left out
     */
    public static NextCheck of(InstrumentHistory history, long atEpochSecond) {
        int count = history.checksUpTo(atEpochSecond);
        InstrumentHistory known = new InstrumentHistory(
                history.facts(), history.checks().subList(0, count), history.droppedAtEpochSeconds());
        CheckOutcomes outcomes = new CheckOutcomes(known);
        IntervalStaircase stairs = new IntervalStaircase(known, outcomes, known.repeatVariance(), count);
        long last = Long.MIN_VALUE;
        double anywhere = 0;
        for (int i = 0; i < count; i++) {
            CalibrationCheck check = known.checks().get(i);
            anywhere = check.points().getLast().trueValue();
            last = outcomes.of(i).counts() && outcomes.working(i) ? check.atEpochSecond() : last;
        }
        List<Why> reasons = new ArrayList<>();
        @Nullable Code now =
                now(InstrumentCorrection.correct(known, anywhere, atEpochSecond).status());
        if (now != null) {
            reasons.add(new Why(now, 0));
        }
        reasonsOfInterval(history.facts(), stairs, reasons);
        Long due = now == null ? (Long) (last + stairs.days() * SECONDS_PER_DAY) : null;
        return new NextCheck(due, stairs.days(), stairs.daysBefore(), reasons);
    }

    private static @Nullable Code now(InstrumentStatus status) {
        return switch (status) {
            case SOUND, OVERDUE -> null;
            case SUSPECT -> Code.NOW_SUSPECT;
            case CONDEMNED, FAILED -> Code.NOW_CONDEMNED;
            case ZERO_CHECKED_ONLY -> Code.NOW_WORKING_RANGE;
            case NEVER_CHECKED -> Code.NOW_NEVER_CHECKED;
        };
    }

    private static void reasonsOfInterval(InstrumentFacts facts, IntervalStaircase stairs, List<Why> reasons) {
        int days = stairs.days();
        if (stairs.shortened()) {
            reasons.add(new Why(Code.SHORTENED, stairs.lastFailure()));
        } else if (stairs.lengthened() > 0) {
            reasons.add(new Why(Code.LENGTHENED, stairs.lengthened()));
        } else {
            reasons.add(new Why(Code.AS_SET, days));
        }
        if (days == facts.shortestIntervalDays() && stairs.shortened()) {
            reasons.add(new Why(Code.SHORTEST, days));
        } else if (days == facts.longestIntervalDays()) {
            reasons.add(new Why(Code.LONGEST, days));
        }
        if (stairs.run() > 0 && days < facts.longestIntervalDays()) {
            reasons.add(new Why(Code.MORE_TO_LENGTHEN, IntervalStaircase.RUN - stairs.run()));
        }
    }
}
