package app.tankround.chemistry;

/** Whether a standard may be believed; one that may not never condemns an instrument by itself. */
public enum StandardState {
    SOUND,
    /** Past its use-by date, or open for too long. */
    EXPIRED,
    /** Something is wrong with it: left open, refilled, contradicted by another one. */
    SUSPICIOUS
}
