package app.tankround.plans;

/** Where a plan stands. */
public enum PlanState {
    /** Worked out, but nobody follows it yet: no visit knows of it. */
    PROPOSED,
    /** Its steps are tasks of the visits to come. */
    RUNNING,
    /** Somebody or something stopped it before the end. */
    STOPPED,
    /** A reading showed the target. */
    DONE
}
