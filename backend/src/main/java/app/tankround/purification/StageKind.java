package app.tankround.purification;

/** What a stage of a plant is, in the order in which water runs through. */
public enum StageKind {
    PREFILTER,
    CARBON,
    MEMBRANE,
    RESIN
}
