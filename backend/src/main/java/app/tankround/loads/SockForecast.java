package app.tankround.loads;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;

/**
 * Clean socks of one size over the days ahead.
 *
 * @param onHand at the last count
 * @param counted whether the catalogue holds this size at all
 * @param needed over all the days
 * @param shortOn the first day on which more will have been used than there are
 * @param days days on which any are needed
 */
public record SockForecast(
        int sizeMm, int onHand, boolean counted, int needed, Optional<LocalDate> shortOn, List<Day> days) {

    /** How many are needed on one day. */
    public record Day(LocalDate date, int needed) {}

    public SockForecast {
        days = List.copyOf(days);
    }

    /** How many are missing at the end; 0 if there are enough. */
    public int missing() {
        return Math.max(0, needed - onHand);
    }
}
