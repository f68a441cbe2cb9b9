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
    /** Drops counted until a colour changes. */
    TITRATION_KIT,
    /** A colour held beside printed ones. */
    COLOUR_KIT,
    PHOTOMETER,
    BALANCE,
    OTHER;

    /** Whether such an instrument may or may not make up for temperature by itself. */
    boolean mayBeCompensated() {
        return this == REFRACTOMETER || this == DIGITAL_REFRACTOMETER || this == CONDUCTIVITY_METER;
    }
}
