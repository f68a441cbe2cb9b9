package app.tankround.units;

import java.util.Arrays;
import java.util.Optional;

/** A unit that a reading, a target or a standard is written down in. */
public enum MeasurementUnit {
    DEGREE_CELSIUS("degC", "°C"),
    DEGREE_FAHRENHEIT("degF", "°F"),
    /** Practical salinity (PSS-78), which has no unit. */
    PRACTICAL_SALINITY("S"),
    /** Specific gravity; never without its reference temperatures. */
    SPECIFIC_GRAVITY("SG"),
    MILLISIEMENS_PER_CENTIMETRE("mS/cm"),
    PH_UNIT("pH"),
    DEGREE_CARBONATE_HARDNESS("dKH"),
    DEGREE_GENERAL_HARDNESS("dGH"),
    MILLIEQUIVALENTS_PER_LITRE("meq/L"),
    MILLIGRAMS_PER_LITRE("mg/L"),
    MILLIGRAMS_PER_LITRE_CACO3("mg/L CaCO3"),
    LITRE("L"),
    CUBIC_METRE("m3", "m³"),
    US_GALLON("gal"),
    LITRES_PER_DAY("L/d"),
    MILLILITRES_PER_MINUTE("mL/min"),
    US_GALLONS_PER_DAY("gal/d"),
    KILOPASCAL("kPa"),
    BAR("bar"),
    POUNDS_PER_SQUARE_INCH("psi"),
    GRAM("g"),
    KILOGRAM("kg"),
    POUND("lb");

    private final String code;
    private final String symbol;

    MeasurementUnit(String code) {
        this(code, code);
    }

    MeasurementUnit(String code, String symbol) {
        this.code = code;
        this.symbol = symbol;
    }

    /** The ASCII code under which the unit is stored and exchanged, such as {@code mg/L}. */
    public String code() {
        return code;
    }

    /** How people write it, the same in every language. */
    public String symbol() {
        return symbol;
    }

    public static Optional<MeasurementUnit> ofCode(String code) {
        return Arrays.stream(values()).filter(unit -> unit.code.equals(code)).findFirst();
    }
}
