package app.tankround.chemistry;

/** What the checks say about an instrument at the instant of a reading. */
public enum InstrumentStatus {
    /** Checked in its working range within the interval, or bracketed by a later check that it passed. */
    SOUND,
    /** The last check in the working range is older than the interval. */
    OVERDUE,
    /** Left outside its permitted error, or with an implausible gain. */
    FAILED,
    /** Only its zero was ever checked. */
    ZERO_CHECKED_ONLY,
    /** Not checked before the reading. */
    NEVER_CHECKED
}
