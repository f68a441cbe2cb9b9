package app.tankround.purification;

/** Where in a plant a sample is drawn, in the order in which water runs through. */
public enum Place {
    FEED,
    AFTER_CARBON,
    AFTER_MEMBRANE,
    AFTER_RESIN,
    CONTAINER
}
