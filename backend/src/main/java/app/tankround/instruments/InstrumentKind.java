package app.tankround.instruments;

import app.tankround.units.Quantity;

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
    /** Drops counted until a colour changes; its lot stands in for its serial number. */
    TITRATION_KIT,
    /** A colour held beside printed ones; its lot stands in for its serial number. */
    COLOUR_KIT,
    PHOTOMETER,
    /** Checked with a test mass. */
    BALANCE;

    /** What kits were called before drops and colours were told apart; files of then still say so. */
    static final String KIT_OF_OLD = "TEST_KIT";

    /** Whether readings of it are read off a scale by eye against colours or drops, so that "between two" is an answer. */
    public boolean isKit() {
        return this == TITRATION_KIT || this == COLOUR_KIT;
    }

    /** Whether such an instrument can measure it at all; whatever is read at a plant is read off the plant. */
    public boolean measures(Quantity quantity) {
        return switch (this) {
            case REFRACTOMETER, HYDROMETER, SWING_ARM -> quantity == Quantity.SALINITY;
            case CONDUCTIVITY_METER -> quantity == Quantity.SALINITY || quantity == Quantity.DISSOLVED_SOLIDS;
            case TDS_PEN -> quantity == Quantity.DISSOLVED_SOLIDS;
            case PH_METER -> quantity == Quantity.PH;
            case THERMOMETER -> quantity == Quantity.TEMPERATURE;
            case OXYGEN_PROBE -> quantity == Quantity.OXYGEN;
            case TITRATION_KIT ->
                switch (quantity) {
                    case TEMPERATURE, PH, DISSOLVED_SOLIDS, VOLUME_MADE, PERMEATE_FLOW, PRESSURE, MASS -> false;
                    default -> true;
                };
            case COLOUR_KIT, PHOTOMETER ->
                switch (quantity) {
                    case TEMPERATURE, SALINITY, DISSOLVED_SOLIDS, VOLUME_MADE, PERMEATE_FLOW, PRESSURE, MASS -> false;
                    default -> true;
                };
            case BALANCE -> quantity == Quantity.MASS;
        };
    }

    /** Whether a sample is made ready for it by shaking and waiting. */
    public boolean takesTime() {
        return isKit() || this == PHOTOMETER;
    }

    /** Whether it can be set right at a check; glass, a plastic box and a bottle of drops are as they are. */
    public boolean isAdjustable() {
        return !isKit() && this != HYDROMETER && this != SWING_ARM;
    }

    /** Whether it may or may not make up for temperature by itself. */
    public boolean mayBeCompensated() {
        return this == REFRACTOMETER || this == CONDUCTIVITY_METER || this == TDS_PEN;
    }

    /** What a kit is that nobody told the kind of: alkalinity, hardness, calcium and magnesium are titrated. */
    static InstrumentKind usualKit(Quantity quantity) {
        return switch (quantity) {
            case ALKALINITY, HARDNESS, CALCIUM, MAGNESIUM -> TITRATION_KIT;
            default -> COLOUR_KIT;
        };
    }
}
