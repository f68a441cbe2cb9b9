package app.tankround.socks;

import app.tankround.units.SockSize;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;

/**
 * Clean socks of one size that is asked for over the days ahead. What serves several sizes is for the one first that can take
 * no other.
 *
 * @param clean all that serve, on the shelf now
 * @param counted whether the catalogue holds any that serves
 * @param days each day from today on, in order
 * @param waysOut what can be done where it runs short; none that would not help
 */
public record SockForecast(SockSize size, int clean, boolean counted, List<Day> days, List<SockWayOut> waysOut) {

    /**
     * One day.
     *
     * @param atLoading clean on the shelf when the vans load
     * @param needed by the day's visits
     * @param missing of these
     * @param washed put into the machine in the evening
     */
    public record Day(LocalDate date, int atLoading, int needed, int missing, int washed) {}

    public SockForecast {
        days = List.copyOf(days);
        waysOut = List.copyOf(waysOut);
    }

    /** How many are needed over all the days. */
    public int needed() {
        return days.stream().mapToInt(Day::needed).sum();
    }

    /** How many are missing over all the days; 0 if there are always enough. */
    public int missing() {
        return days.stream().mapToInt(Day::missing).sum();
    }

    /** The first day on which any are missing. */
    public Optional<LocalDate> shortOn() {
        return days.stream().filter(day -> day.missing() > 0).map(Day::date).findFirst();
    }

    /** The first so many days alone. */
    SockForecast first(int many) {
        return new SockForecast(size, clean, counted, days.subList(0, Math.min(many, days.size())), List.of());
    }
}
