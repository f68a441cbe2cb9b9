package app.tankround.chemistry;

/** How an instrument's error moved around the instant of a reading, as far as its checks can tell. */
public enum ErrorMovement {
    /** Nothing to compare: fewer than two checks that count. */
    UNKNOWN,
    /** No more than measuring and usual wandering explain. */
    STEADY,
    /** It goes on as it did between the other checks. */
    DRIFT,
    /** A knock: far more than the other intervals or usual wandering foretell, or beginning with a drop that was noticed. */
    STEP,
    /** It moved, and the checks leave open whether slowly or at once. */
    OPEN
}
