package app.tankround.rounds.solver;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What would be better at a stop, and what is settled there. Costs are in the unit of {@link FleetWeights}, 0 to 10^12.
 *
 * @param choiceCosts cost of each choice of days, such as of leaving the tolerance; empty for none
 * @param onlyShift index of the one shift that may visit it, such as because it was locked; null for any
 * @param promise when work was promised to start; null for never
 * @param crew who is known there; empty for nobody
 * @param strangerCost cost of a visit by another crew than that
 */
public record StopWishes(
        List<Long> choiceCosts,
        @Nullable Integer onlyShift,
        @Nullable Promise promise,
        String crew,
        long strangerCost) {

    /** Nothing to wish for. */
    public static final StopWishes NONE = new StopWishes(List.of(), null, null, "", 0);

    static final long MAX_COST = 1_000_000_000_000L;
    private static final long MAX_PER_SECOND = 1_000_000;

    /**
     * That work starts from one second of the day to another, both included.
     *
     * @param cost of starting at any other time
     * @param perSecondLate for each second by which it starts later than promised, 0 to 1 000 000
     */
    public record Promise(int fromSecond, int untilSecond, long cost, long perSecondLate) {

        /** Refuses, with {@link IllegalArgumentException}, an end before the start and a cost outside its range. */
        public Promise {
            if (untilSecond < fromSecond
                    || cost < 0
                    || cost > MAX_COST
                    || perSecondLate < 0
                    || perSecondLate > MAX_PER_SECOND) {
                throw new IllegalArgumentException(
                        "A promise must end after it starts and cost 0 to 10^12 and 0 to 10^6 a second, not "
                                + fromSecond + " to " + untilSecond + " for " + cost + " and " + perSecondLate);
            }
        }
    }

    /** Refuses, with {@link IllegalArgumentException}, costs outside their range. */
    public StopWishes {
        choiceCosts = List.copyOf(choiceCosts);
        if (strangerCost < 0
                || strangerCost > MAX_COST
                || choiceCosts.stream().anyMatch(cost -> cost < 0 || cost > MAX_COST)) {
            throw new IllegalArgumentException(
                    "A wish must cost 0 to 10^12, not " + strangerCost + " and " + choiceCosts);
        }
    }
}
