package app.tankround.chemistry;

/** Whether what was read in a standard may be believed; where it may not, it never condemns an instrument by itself. */
public enum StandardState {
    SOUND,
    /** Past its use-by date, or open for too long. */
    EXPIRED,
    /** Something is wrong with it: left open, refilled, contradicted by another one. */
    SUSPICIOUS,
    /** Nothing is wrong with it, but what was read in it contradicts itself, so nobody knows what the instrument shows. */
    READINGS_CONTRADICT
}
