package app.tankround.plans;

import app.tankround.accounts.Days;
import app.tankround.units.Mass;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.units.Temperature;
import app.tankround.units.UnitSystem;
import app.tankround.units.Volume;
import app.tankround.web.MassText;
import app.tankround.web.NumberText;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.text.NumberFormat;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.time.format.FormatStyle;
import java.util.Locale;

/** Writes and reads the numbers of plans in the units of the business and the locale of the person. */
public record PlanWords(UnitSystem units, Locale locale) {

    private static final double OUNCE_GRAMS = Mass.ofOunces(1).inGrams();
    private static final double FAHRENHEIT_PER_KELVIN = 1.8;
    private static final int FIELD_DECIMALS = 4;
    private static final MathContext DOSE_DIGITS = new MathContext(5, RoundingMode.HALF_EVEN);

    /** A dose is counted for so much water: labels speak of 100 L or of 10 US gallons. */
    private static final double DOSE_LITRES = 100;

    private static final double DOSE_GALLONS = 10;

    /** A value of a quantity with its unit; plans hold temperatures in degrees Celsius. */
    public String value(Quantity quantity, double value) {
        String number = number(shown(quantity, value), decimals(quantity));
        return switch (quantity) {
            case PH -> number;
            case SALINITY -> unit(quantity) + " " + number;
            default -> number + " " + unit(quantity);
        };
    }

    /** A change of a quantity with its unit. */
    public String change(Quantity quantity, double change) {
        String number = number(shownChange(quantity, change), decimals(quantity) + 1);
        return switch (quantity) {
            case PH, SALINITY -> unit(quantity) + " " + number;
            default -> number + " " + unit(quantity);
        };
    }

    /** The unit in which a quantity is shown. */
    public String unit(Quantity quantity) {
        return switch (quantity) {
            case SALINITY -> "S";
            case ALKALINITY -> "dKH";
            case TEMPERATURE -> customary() ? "°F" : "°C";
            case PH -> "pH";
            default -> "mg/L";
        };
    }

    /** The unit in which a value is typed, as readings know it. */
    public MeasurementUnit measured(Quantity quantity) {
        return switch (quantity) {
            case SALINITY -> MeasurementUnit.PRACTICAL_SALINITY;
            case ALKALINITY -> MeasurementUnit.DEGREE_CARBONATE_HARDNESS;
            case TEMPERATURE -> customary() ? MeasurementUnit.DEGREE_FAHRENHEIT : MeasurementUnit.DEGREE_CELSIUS;
            case PH -> MeasurementUnit.PH_UNIT;
            default -> MeasurementUnit.MILLIGRAMS_PER_LITRE;
        };
    }

    public String volume(double litres) {
        double shown = shownVolume(litres);
        return number(shown, shown >= 100 ? 0 : 1) + " " + volumeUnit();
    }

    /** {@code L} or {@code gal}. */
    public String volumeUnit() {
        return customary() ? "gal" : "L";
    }

    /** {@code kg} or {@code lb}. */
    public String massUnit() {
        return new MassText(locale, units).unit();
    }

    /** Kilograms or pounds; below one kilogram grams, with which doses are counted everywhere. */
    public String mass(double kilograms) {
        if (kilograms >= 1) {
            return new MassText(locale, units).of(Mass.ofKilograms(kilograms));
        }
        double grams = kilograms * 1000;
        String weighed = number(grams, grams >= 100 ? 0 : 1) + " g";
        return customary() ? weighed + " (" + number(grams / OUNCE_GRAMS, 2) + " oz)" : weighed;
    }

    public String share(double share) {
        NumberFormat format = NumberFormat.getPercentInstance(locale);
        format.setMaximumFractionDigits(1);
        return format.format(share);
    }

    public String concentration(double milligramsPerLitre) {
        return number(milligramsPerLitre, milligramsPerLitre < 0.1 ? 3 : 2) + " mg/L";
    }

    /** What of a product may be given in a day, for as much water as {@link #doseVolume} says. */
    public String dose(double perHundredLitres, String unit) {
        return NumberText.plain(shownDose(perHundredLitres), locale) + " " + unit;
    }

    /** The water that a limit of a dose is for. */
    public String doseVolume() {
        return customary() ? number(DOSE_GALLONS, 0) + " gal" : number(DOSE_LITRES, 0) + " L";
    }

    public String day(LocalDate day) {
        return Days.day(day, locale);
    }

    public String moment(Instant at, ZoneId zone) {
        return DateTimeFormatter.ofLocalizedDateTime(FormatStyle.MEDIUM, FormatStyle.SHORT)
                .withLocale(locale)
                .format(at.atZone(zone));
    }

    // For the fields of forms

    /** A number that has no unit to be told apart, as a field shows it. */
    public String plain(double value) {
        return NumberText.plain(inField(value), locale);
    }

    /** A value in the shown unit, as a field takes it. */
    public BigDecimal typed(Quantity quantity, double value) {
        return inField(shown(quantity, value));
    }

    /** A change in the shown unit, as a field takes it. */
    public BigDecimal typedChange(Quantity quantity, double change) {
        return inField(shownChange(quantity, change));
    }

    /** A volume in the shown unit, as a field takes it. */
    public BigDecimal typedVolume(double litres) {
        return inField(shownVolume(litres));
    }

    /** A mass in the shown unit, as a field takes it. */
    public BigDecimal typedMass(double kilograms) {
        return inField(new MassText(locale, units).value(Mass.ofKilograms(kilograms)));
    }

    /** A number as a field shows it. */
    public String field(BigDecimal number) {
        return NumberText.plain(number, locale);
    }

    /** What somebody typed, in the unit that plans are held in. */
    public double held(Quantity quantity, BigDecimal typed) {
        double value = typed.doubleValue();
        return fahrenheit(quantity) ? Temperature.ofFahrenheit(value).celsius() : value;
    }

    /** A change that somebody typed, likewise. */
    public double heldChange(Quantity quantity, BigDecimal typed) {
        double change = typed.doubleValue();
        return fahrenheit(quantity) ? change / FAHRENHEIT_PER_KELVIN : change;
    }

    public double litres(BigDecimal typed) {
        double value = typed.doubleValue();
        return customary() ? Volume.ofUsGallons(value).litres() : value;
    }

    public double kilograms(BigDecimal typed) {
        double value = typed.doubleValue();
        return customary() ? Mass.ofPounds(value).kilograms() : value;
    }

    /** A limit of a dose as a field shows it. */
    public BigDecimal shownDose(double perHundredLitres) {
        return new BigDecimal(new BigDecimal(perHundredLitres * doseLitres() / DOSE_LITRES)
                .round(DOSE_DIGITS)
                .stripTrailingZeros()
                .toPlainString());
    }

    /** A limit of a dose that somebody typed, for 100 litres. */
    public double dosePerHundredLitres(BigDecimal typed) {
        return typed.doubleValue() * DOSE_LITRES / doseLitres();
    }

    private double doseLitres() {
        return customary() ? Volume.ofUsGallons(DOSE_GALLONS).litres() : DOSE_LITRES;
    }

    private double shown(Quantity quantity, double value) {
        return fahrenheit(quantity) ? Temperature.ofCelsius(value).inFahrenheit() : value;
    }

    private double shownChange(Quantity quantity, double change) {
        return fahrenheit(quantity) ? change * FAHRENHEIT_PER_KELVIN : change;
    }

    private double shownVolume(double litres) {
        return customary() ? Volume.ofLitres(litres).inUsGallons() : litres;
    }

    private boolean fahrenheit(Quantity quantity) {
        return quantity == Quantity.TEMPERATURE && customary();
    }

    private boolean customary() {
        return units == UnitSystem.US_CUSTOMARY;
    }

    private static BigDecimal inField(double value) {
        BigDecimal rounded = BigDecimal.valueOf(value).setScale(FIELD_DECIMALS, RoundingMode.HALF_EVEN);
        return new BigDecimal(
                rounded.signum() == 0 ? "0" : rounded.stripTrailingZeros().toPlainString());
    }

    private static int decimals(Quantity quantity) {
        return switch (quantity) {
            case CALCIUM, MAGNESIUM, NITRATE -> 0;
            case PH, PHOSPHATE -> 2;
            default -> 1;
        };
    }

    private String number(double value, int decimals) {
        NumberFormat format = NumberFormat.getNumberInstance(locale);
        format.setMaximumFractionDigits(decimals);
        return format.format(value);
    }
}
