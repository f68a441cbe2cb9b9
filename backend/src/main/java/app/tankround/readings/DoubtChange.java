package app.tankround.readings;

/** What became of a verdict once its instrument was condemned. */
public enum DoubtChange {
    UNCHANGED,
    CHANGED,
    /** It was decided and cannot be any more. */
    NOT_DECIDABLE
}
