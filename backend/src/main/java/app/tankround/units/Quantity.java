package app.tankround.units;

import static app.tankround.units.MeasurementUnit.*;

import java.util.Arrays;
import java.util.List;

/** What can be measured in water and at what makes it, with the units it may be written down in; the first is the usual one. */
public enum Quantity {
    TEMPERATURE(DEGREE_CELSIUS, DEGREE_FAHRENHEIT),
    SALINITY(SPECIFIC_GRAVITY, PRACTICAL_SALINITY, MILLISIEMENS_PER_CENTIMETRE),
    PH(PH_UNIT),
    ALKALINITY(DEGREE_CARBONATE_HARDNESS, MILLIEQUIVALENTS_PER_LITRE, MILLIGRAMS_PER_LITRE_CACO3),
    HARDNESS(DEGREE_GENERAL_HARDNESS, MILLIGRAMS_PER_LITRE_CACO3),
    CALCIUM(MILLIGRAMS_PER_LITRE),
    MAGNESIUM(MILLIGRAMS_PER_LITRE),
    /** Total ammonia, NH3 and NH4 together, as mg/L of NH3/NH4 as the kit reports it. */
    AMMONIA(MILLIGRAMS_PER_LITRE),
    NITRITE(MILLIGRAMS_PER_LITRE),
    /** Nitrate as NO3. */
    NITRATE(MILLIGRAMS_PER_LITRE),
    /** Phosphate as PO4. */
    PHOSPHATE(MILLIGRAMS_PER_LITRE),
    OXYGEN(MILLIGRAMS_PER_LITRE),
    /** Chlorine where nobody said whether the kit sees chloramine. */
    CHLORINE(MILLIGRAMS_PER_LITRE),
    COPPER(MILLIGRAMS_PER_LITRE),
    /** Dissolved solids of fresh water, as the meter converts them from conductivity. */
    DISSOLVED_SOLIDS(MILLIGRAMS_PER_LITRE),
    /** As Cl2; does not see chloramine. */
    FREE_CHLORINE(MILLIGRAMS_PER_LITRE),
    /** As Cl2, free chlorine and chloramine together. */
    TOTAL_CHLORINE(MILLIGRAMS_PER_LITRE),
    /** What the water meter of a plant shows: all that it ever made. */
    VOLUME_MADE(LITRE, CUBIC_METRE, US_GALLON),
    /** Purified water that a membrane gives while it runs. */
    PERMEATE_FLOW(LITRES_PER_DAY, MILLILITRES_PER_MINUTE, US_GALLONS_PER_DAY),
    /** Of the water in a pipe, above that of the air. */
    PRESSURE(KILOPASCAL, BAR, POUNDS_PER_SQUARE_INCH),
    /** What a balance shows: of salt, supplements and what standards are made up from; nothing of water. */
    MASS(GRAM, KILOGRAM, POUND);

    private final List<MeasurementUnit> units;

    Quantity(MeasurementUnit... units) {
        this.units = List.of(units);
    }

    /** The units in which this quantity may be written down, the usual one first. */
    public List<MeasurementUnit> units() {
        return units;
    }

    /** Whether it is shown by the plant that makes water, so that no water has a target for it. */
    public boolean isOfPlant() {
        return switch (this) {
            case VOLUME_MADE, PERMEATE_FLOW, PRESSURE -> true;
            default -> false;
        };
    }

    /** Whether it can be read at a water system: of its water, or at the plant that makes it. */
    public boolean isRead() {
        return this != MASS;
    }

    /** What is measured in water, in the order of the constants. */
    public static List<Quantity> ofWater() {
        return read().stream().filter(quantity -> !quantity.isOfPlant()).toList();
    }

    /** What can be read at a water system, in the order of the constants. */
    public static List<Quantity> read() {
        return Arrays.stream(values()).filter(Quantity::isRead).toList();
    }

    public boolean allows(MeasurementUnit unit) {
        return units.contains(unit);
    }
}
