package app.tankround.rounds;

import java.util.List;

/**
 * What an order of stops costs against the best one found, and which promises it breaks.
 *
 * @param extraDrivingMinutes time on the road beyond the best order; negative where the order drives less but is later
 *     or breaks a promise
 * @param extraKilometres distance beyond the best order
 * @param broken in the order of the stops; empty if every promise is kept
 */
public record OrderCost(double extraDrivingMinutes, double extraKilometres, List<BrokenPromise> broken) {

    public OrderCost {
        broken = List.copyOf(broken);
    }

    /** What can be promised and broken. */
    public enum Promise {
        /** Work starts within the attended hours. */
        WINDOW,
        /** No stop with a clean system comes after one that is left sick; else the crew has to disinfect in between. */
        CLEAN_BEFORE_SICK,
        /** There is a road from each stop to the next. */
        DRIVABLE
    }

    /**
     * A promise this order breaks.
     *
     * @param stop the stop that is late, that has a clean system and comes after a sick one, or on whose way a leg lies that
     *     cannot be driven
     * @param lateMinutes rounded up; 0 where nothing is late
     */
    public record BrokenPromise(Promise promise, StopId stop, String siteName, int lateMinutes) {}

    public boolean keepsCleanBeforeSick() {
        return broken.stream().noneMatch(each -> each.promise() == Promise.CLEAN_BEFORE_SICK);
    }
}
