package app.tankround.instruments;

/** What sort of instrument; how its readings are understood and what it is checked against follow from this. */
public enum InstrumentKind {
    REFRACTOMETER,
    HYDROMETER,
    /** A plastic box with a pointer; glass expansion does not apply to it. */
    SWING_ARM,
    CONDUCTIVITY_METER,
    TDS_PEN,
    PH_METER,
    THERMOMETER,
    OXYGEN_PROBE,
    /** A colour or drop test; its lot stands in for its serial number. */
    TEST_KIT,
    PHOTOMETER;

    /** Whether readings of it are read off a scale by eye against colours or drops, so that "between two" is an answer. */
    public boolean isKit() {
        return this == TEST_KIT;
    }
}
