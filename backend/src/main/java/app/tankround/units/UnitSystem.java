package app.tankround.units;

/** Which units a business reads and writes; quantities are held in metric units either way. */
public enum UnitSystem {
    METRIC,
    US_CUSTOMARY
}
