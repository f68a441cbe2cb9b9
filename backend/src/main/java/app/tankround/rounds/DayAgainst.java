package app.tankround.rounds;

import java.util.Optional;

/**
 * Why a site's visits may not be done on a day.
 *
 * @param detail the reason of a closure, the name of a holiday, or how many days ahead a key is asked for
 */
public record DayAgainst(Kind kind, Optional<String> detail) {

    /** What stands against a day. */
    public enum Kind {
        /** Too far from the agreed day. */
        TOLERANCE,
        /** Nobody can come to the site on that weekday. */
        WEEKDAY,
        /** The agreement pauses. */
        PAUSED,
        /** The site is closed. */
        CLOSED,
        /** A public holiday that the business keeps. */
        HOLIDAY,
        /** A key or a code could not be asked for in time. */
        KEY,
        /** Live animals that come along are not packed by then, or their bag is no longer good once the site opens. */
        ANIMALS
    }
}
