package app.tankround.chemistry;

/** What can be said about a value and its target. */
public enum VerdictCode {
    /** The whole interval value ± expanded uncertainty lies within the target. */
    INSIDE,
    /** The whole interval lies above the target. */
    ABOVE,
    /** The whole interval lies below the target. */
    BELOW,
    /** The interval reaches across a limit: neither inside nor outside can be claimed. */
    UNDECIDED,
    /** There is no target. */
    NO_TARGET
}
