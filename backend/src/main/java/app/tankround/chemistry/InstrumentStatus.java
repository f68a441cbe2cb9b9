package app.tankround.chemistry;

/** What the checks say about an instrument at the instant of a reading, seen with all that is known by now. */
public enum InstrumentStatus {
    /** Checked in its working range within the interval, or bracketed by a later check that it passed. */
    SOUND,
    /** The last check in the working range is older than the interval. */
    OVERDUE,
    /**
     * A check failed and no second standard or lot has confirmed or refuted it yet, it was left outside its permitted error,
     * only a doubtful standard failed it, or it was dropped and not checked since. Nothing may rest on it until it is checked.
     */
    SUSPECT,
    /** A failure was confirmed by a second standard, and no adjustment has brought it back. */
    CONDEMNED,
    /** Only in what rule version 1 computed: left outside its permitted error, or with an implausible gain. */
    FAILED,
    /** Only its zero was ever checked. */
    ZERO_CHECKED_ONLY,
    /** Not checked before the reading. */
    NEVER_CHECKED;

    /** Whether anything may be done because of what such an instrument shows. */
    public boolean decides() {
        return this == SOUND || this == OVERDUE || this == ZERO_CHECKED_ONLY;
    }

    /** Whether a check took it out of use, for now or until it is put right. */
    public boolean isOutOfUse() {
        return this == SUSPECT || this == CONDEMNED;
    }
}
