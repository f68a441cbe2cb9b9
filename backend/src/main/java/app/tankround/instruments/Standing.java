package app.tankround.instruments;

/** Whether anything may rest on an instrument, apart from when it was checked last. */
public enum Standing {
    IN_USE,
    /** Decides nothing until a check settles it. */
    SUSPECT,
    /** A failure was confirmed; out of use until a person puts it back. */
    CONDEMNED
}
