package app.tankround.instruments;

/** What made an instrument suspect. */
public enum SuspicionCause {
    FAILED_CHECK,
    DROPPED,
    /** It disagreed with another instrument on the same water. */
    DISAGREEMENT
}
