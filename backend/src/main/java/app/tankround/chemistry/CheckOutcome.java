package app.tankround.chemistry;

/** What one check says about an instrument, seen with all that came later. */
public enum CheckOutcome {
    /** Within the permitted error, by a standard that may be believed. */
    PASSED,
    /** Failed, and no second standard or lot has been held against the instrument since. */
    UNCONFIRMED,
    /** Failed, and a second standard says the same. */
    CONFIRMED,
    /** Failed because an earlier, wrong standard had been adjusted to. */
    EXPLAINED,
    /** Failed, but a second standard found nothing: the first was wrong. Only what it adjusted counts. */
    REFUTED,
    /** Failed by standards that may not be believed. */
    QUESTIONED,
    /** Passed by standards that may not be believed, or by readings that contradict each other: says nothing. */
    SET_ASIDE;

    /** Whether its errors may be used. */
    public boolean counts() {
        return this == PASSED || this == UNCONFIRMED || this == CONFIRMED || this == EXPLAINED;
    }

    /** Whether the instrument was off when it was found. */
    public boolean failed() {
        return this == UNCONFIRMED || this == CONFIRMED || this == EXPLAINED;
    }
}
