package app.tankround.instruments;

import app.tankround.units.Quantity;
import java.math.BigDecimal;
import java.util.EnumSet;
import java.util.Set;

/** What a standard is made of, and so which kinds of instrument it may check. */
public enum StandardKind {
    /** RO/DI water: the zero of everything that measures salt. */
    PURE_WATER(
            InstrumentKind.REFRACTOMETER,
            InstrumentKind.HYDROMETER,
            InstrumentKind.SWING_ARM,
            InstrumentKind.CONDUCTIVITY_METER,
            InstrumentKind.TDS_PEN,
            InstrumentKind.TITRATION_KIT,
            InstrumentKind.COLOUR_KIT,
            InstrumentKind.PHOTOMETER),
    /** Seawater, or a mix that bends light, weighs and conducts as seawater does. */
    SEAWATER(
            InstrumentKind.REFRACTOMETER,
            InstrumentKind.HYDROMETER,
            InstrumentKind.SWING_ARM,
            InstrumentKind.CONDUCTIVITY_METER),
    /** Table-salt brine that bends light as seawater of the stated salinity does; it neither weighs nor conducts the same. */
    SODIUM_CHLORIDE(InstrumentKind.REFRACTOMETER),
    /** Potassium chloride solution. */
    CONDUCTIVITY(InstrumentKind.CONDUCTIVITY_METER, InstrumentKind.TDS_PEN),
    PH_BUFFER(InstrumentKind.PH_METER, InstrumentKind.COLOUR_KIT, InstrumentKind.PHOTOMETER),
    /** A certified thermometer in the same water, or melting ice. */
    REFERENCE_THERMOMETER(InstrumentKind.THERMOMETER),
    AIR_SATURATED_WATER(InstrumentKind.OXYGEN_PROBE, InstrumentKind.TITRATION_KIT, InstrumentKind.COLOUR_KIT),
    /** A solution of a known amount of what the kit measures. */
    KNOWN_CONCENTRATION(InstrumentKind.TITRATION_KIT, InstrumentKind.COLOUR_KIT, InstrumentKind.PHOTOMETER),
    /** A weight of known mass. */
    TEST_MASS(InstrumentKind.BALANCE),
    /** From before kinds were kept, or none of these. */
    OTHER(InstrumentKind.values());

    private final Set<InstrumentKind> checked;

    StandardKind(InstrumentKind... checked) {
        this.checked = Set.copyOf(EnumSet.of(checked[0], checked));
    }

    public boolean checks(InstrumentKind kind) {
        return checked.contains(kind);
    }

    /** Whether a standard of this kind has a value of that quantity. */
    public boolean isOf(Quantity quantity) {
        return switch (this) {
            case SEAWATER, SODIUM_CHLORIDE -> quantity == Quantity.SALINITY;
            case CONDUCTIVITY -> quantity == Quantity.SALINITY || quantity == Quantity.DISSOLVED_SOLIDS;
            case PH_BUFFER -> quantity == Quantity.PH;
            case REFERENCE_THERMOMETER -> quantity == Quantity.TEMPERATURE;
            case AIR_SATURATED_WATER -> quantity == Quantity.OXYGEN;
            case TEST_MASS -> quantity == Quantity.MASS;
            case PURE_WATER, KNOWN_CONCENTRATION ->
                switch (quantity) {
                    case TEMPERATURE, PH, VOLUME_MADE, PERMEATE_FLOW, PRESSURE, MASS -> false;
                    default -> true;
                };
            case OTHER -> !quantity.isOfPlant();
        };
    }

    /** Whether it is the zero and nothing else; all others but a thermometer, a solution and what has no kind are above it. */
    public boolean isZero() {
        return this == PURE_WATER;
    }

    /** Whether a value of zero would make it no standard. */
    public boolean isAboveZero() {
        return switch (this) {
            case SEAWATER, SODIUM_CHLORIDE, CONDUCTIVITY, PH_BUFFER, AIR_SATURATED_WATER, TEST_MASS -> true;
            default -> false;
        };
    }

    /** What a standard is that nobody named the kind of. */
    public static StandardKind usual(Quantity quantity, BigDecimal value) {
        return switch (quantity) {
            case SALINITY -> value.signum() == 0 ? PURE_WATER : SEAWATER;
            case PH -> PH_BUFFER;
            case MASS -> TEST_MASS;
            default -> OTHER;
        };
    }
}
