package app.tankround.tanks;

/** What is agreed to be looked at before a quarantine ends. Common practice, no source; a veterinarian may want more. */
public enum ReleaseCheck {
    ALL_EAT,
    NO_SIGNS,
    /** Nothing is given any more, the drug is out of the water, carbon and UV are back. */
    TREATMENT_OVER,
    /** Whatever a veterinarian ordered is done. */
    VETERINARIAN,
    /** Where the animals go is ready for them. */
    DISPLAY_READY
}
