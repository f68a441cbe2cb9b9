package app.tankround.chemistry;

/** The unit in which an instrument is read. */
public enum ScaleUnit {
    /** Specific gravity; its reference stands beside it. */
    SPECIFIC_GRAVITY,
    /** Practical salinity; with a graduation for brine, grams of sodium chloride per kilogram. */
    PRACTICAL_SALINITY,
    /** Conductivity in mS/cm, at 25 °C or referred to it by PSS-78. */
    CONDUCTIVITY_AT_25,
    /** Any other unit: such an instrument is corrected and judged, but not converted to salinity. */
    OTHER
}
