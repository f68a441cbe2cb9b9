package app.tankround.schedule;

import java.util.Optional;

/**
 * Why nobody can come on a day.
 *
 * @param detail the holiday's name, or what a site is closed for
 */
public record DayHindrance(Kind kind, Optional<String> detail) {

    public enum Kind {
        /** Not one of the weekdays on which the site can be visited. */
        WEEKDAY,
        /** The site is closed. */
        CLOSED,
        /** A public holiday of the business. */
        HOLIDAY
    }
}
