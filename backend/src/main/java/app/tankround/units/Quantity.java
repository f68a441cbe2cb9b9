package app.tankround.units;

import static app.tankround.units.MeasurementUnit.*;

import java.util.List;

/** What can be measured in water, with the units it may be written down in; the first is the usual one. */
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
    CHLORINE(MILLIGRAMS_PER_LITRE),
    COPPER(MILLIGRAMS_PER_LITRE),
    /** Dissolved solids of fresh water, as the meter converts them from conductivity. */
    DISSOLVED_SOLIDS(MILLIGRAMS_PER_LITRE);

    private final List<MeasurementUnit> units;

    Quantity(MeasurementUnit... units) {
        this.units = List.of(units);
    }

    /** The units in which this quantity may be written down, the usual one first. */
    public List<MeasurementUnit> units() {
        return units;
    }

    public boolean allows(MeasurementUnit unit) {
        return units.contains(unit);
    }
}
