package app.tankround.chemistry;

/** How a value with its uncertainty is decided against limits (JCGM 106:2012, 8; ILAC-G8:09/2019, 4.2). */
public enum DecisionRule {
    /**
     * Guarded acceptance and guarded rejection, guard band as wide as the expanded uncertainty (k = 2): the chance that a
     * decision is wrong is at most 2.3 %, and what cannot be decided so stays undecided.
     */
    GUARD_BAND,
    /** The value decides, whatever its uncertainty: near a limit every second decision may be wrong. */
    SIMPLE_ACCEPTANCE
}
