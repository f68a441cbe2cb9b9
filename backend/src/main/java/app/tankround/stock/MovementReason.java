package app.tankround.stock;

/** Why something was moved. Names are kept in rows: they are added to, never renamed. */
public enum MovementReason {
    OPENING,
    PURCHASE,
    /** Made by the business itself. */
    PRODUCTION,
    /** From one place to another, such as into a van and out of it. */
    TRANSFER,
    USE,
    WASTE,
    BREAKAGE,
    LOSS,
    WASH,
    RETIREMENT,
    SENT_BACK,
    COUNT,
    /** What was booked without a lot is known to be of one. */
    LOT_NAMED,
    /** Takes back what should not have been booked. */
    CORRECTION
}
