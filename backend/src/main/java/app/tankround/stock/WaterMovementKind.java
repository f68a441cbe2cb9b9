package app.tankround.stock;

/** What a movement of water was. */
public enum WaterMovementKind {
    /** From the membranes into a tank. */
    RUN,
    /** From one vat to another. */
    BETWEEN,
    /** Out of a vat into drums. */
    DRUMS,
    /** Out of a vat, poured away. */
    AWAY,
    /** Out of drums that came back, into a vat. */
    BACK
}
