package app.tankround.health;

/** The sentence that tells a concern; its words are the message {@code health.concern.CODE}. */
public enum ConcernCode {
    ABOVE,
    BELOW,
    /** Something that must not be there was found. */
    FOUND,
    /** Ammonia or nitrite in week ten or later; number: the week. */
    FOUND_LATE,
    /** Ammonia or nitrite while the filter still ripens; number: the week. */
    FOUND_EARLY,
    /** Its instrument failed a later check. */
    IN_DOUBT,
    /** Its instrument was known to be wrong already. */
    KNOWN_WRONG,
    /** Numbers: days from the first to the last reading. */
    SOLIDS_CREEP,
    SOLIDS_OVER,
    /** A plant for purified water needs something, which its note says. */
    PLANT,
    /** Salinity too high, and the water stood below its mark; number: missing share in tenths of a percent, if known. */
    ABOVE_LOW_WATER,
    /** A brown film in week five or later; number: the week in which it was seen. */
    FILM_LASTS,
    /** A brown film in a system whose start nobody knows. */
    FILM_BACK,
    UNDECIDED_TWICE,
    NOT_MEASURED_TWICE,
    /** Numbers: days since the last reading, and days from one visit to the next. */
    NO_READING,
    NEVER_READ
}
