package app.tankround.chemistry;

/** What can be said about a value and its target. */
public enum VerdictCode {
    /** Within the target, by the decision rule. */
    INSIDE,
    /** Above the target, by the decision rule. */
    ABOVE,
    /** Below the target, by the decision rule. */
    BELOW,
    /** Neither inside nor outside can be claimed. */
    UNDECIDED,
    /** There is no target. */
    NO_TARGET
}
