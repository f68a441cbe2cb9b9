package app.tankround.readings;

/** How a line of a doubt list ended. */
public enum DoubtOutcome {
    MEASURED_AGAIN,
    CLIENT_TOLD,
    HARMLESS,
    /** Another instrument on the same water vouched for everything up to then. */
    EVIDENCE,
    /** What was written down was corrected; the corrected one is in doubt on its own account, if it is. */
    CORRECTED
}
