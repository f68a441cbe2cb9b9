package app.tankround.rounds.solver;

/** How infectious a water system is taken to be, from cleanest to sickest; the declared order is that order. */
public enum InfectionClass {
    /** No known infection. */
    HEALTHY,
    /** New or returned animals that are still being watched. */
    QUARANTINE,
    /** Signs of disease, not yet diagnosed. */
    SUSPECTED,
    /** Under treatment for a disease. */
    TREATMENT;

    /**
     * Whether a visit must wait until all healthy stops are done. Cleanest stock first, new and sick stock last, is the
     * advice of fishery biosecurity guides; applying it to a whole round is common practice, no source.
     */
    public boolean sick() {
        return this != HEALTHY;
    }
}
