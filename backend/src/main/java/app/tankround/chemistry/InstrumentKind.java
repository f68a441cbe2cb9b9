package app.tankround.chemistry;

/** What an instrument is, as far as its errors differ. */
public enum InstrumentKind {
    REFRACTOMETER,
    DIGITAL_REFRACTOMETER,
    /** Corrected for the expansion of its glass if the sample's temperature is known. */
    GLASS_HYDROMETER,
    SWING_ARM_HYDROMETER,
    CONDUCTIVITY_METER,
    DISSOLVED_SOLIDS_PEN,
    PH_ELECTRODE,
    THERMOMETER,
    OXYGEN_PROBE,
    /** A colour or drop test. */
    TEST_KIT,
    PHOTOMETER,
    BALANCE,
    OTHER
}
