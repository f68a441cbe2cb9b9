package app.tankround.tanks;

/** How likely a system is to infect another; clean systems are visited first, sick ones last. */
public enum InfectionClass {
    HEALTHY,
    /** Young system whose animals have shown nothing yet. */
    NEW,
    /** New animals kept apart until their days are over. */
    QUARANTINE,
    SUSPECTED,
    TREATMENT;

    /** Whether hands and tools that touched this system must not touch another before they are disinfected. */
    public boolean isSick() {
        return this == QUARANTINE || this == SUSPECTED || this == TREATMENT;
    }
}
