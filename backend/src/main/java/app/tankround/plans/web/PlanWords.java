package app.tankround.plans.web;

import app.tankround.units.Mass;
import app.tankround.units.Quantity;
import app.tankround.units.Temperature;
import app.tankround.units.UnitSystem;
import app.tankround.units.Volume;
import app.tankround.web.MassText;
import app.tankround.web.NumberText;
import java.math.BigDecimal;
import java.text.NumberFormat;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.time.format.FormatStyle;
import java.util.Locale;

/** Writes the numbers of plans in the units of the business and the locale of the person. */
public record PlanWords(UnitSystem units, Locale locale) {

    private static final double OUNCE_GRAMS = Mass.ofOunces(1).inGrams();

    /** A value of a quantity with its unit; plans hold temperatures in degrees Celsius. */
    public String value(Quantity quantity, double value) {
        double shown = quantity == Quantity.TEMPERATURE && customary()
                ? Temperature.ofCelsius(value).inFahrenheit()
                : value;
        String number = number(shown, decimals(quantity));
        return switch (quantity) {
            case PH -> number;
            case SALINITY -> unit(quantity) + " " + number;
            default -> number + " " + unit(quantity);
        };
    }

    /** A change of a quantity with its unit. */
    public String change(Quantity quantity, double change) {
        double shown = quantity == Quantity.TEMPERATURE && customary() ? change * 1.8 : change;
        String number = number(shown, decimals(quantity) + 1);
        return quantity == Quantity.PH || quantity == Quantity.SALINITY ? number : number + " " + unit(quantity);
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

    public String volume(double litres) {
        Volume volume = Volume.ofLitres(litres);
        double shown = customary() ? volume.inUsGallons() : litres;
        return number(shown, shown >= 100 ? 0 : 1) + " " + (customary() ? "gal" : "L");
    }

    /** Grams or kilograms, ounces or pounds: what is weighed on the scale that fits. */
    public String mass(double kilograms) {
        if (kilograms >= 1) {
            return new MassText(locale, units).of(Mass.ofKilograms(kilograms));
        }
        double grams = kilograms * 1000;
        if (customary()) {
            return number(grams / OUNCE_GRAMS, 2) + " oz";
        }
        return number(grams, grams >= 100 ? 0 : 1) + " g";
    }

    public String share(double share) {
        NumberFormat format = NumberFormat.getPercentInstance(locale);
        format.setMaximumFractionDigits(1);
        return format.format(share);
    }

    public String concentration(double milligramsPerLitre) {
        return number(milligramsPerLitre, milligramsPerLitre < 0.1 ? 3 : 2) + " mg/L";
    }

    public String day(LocalDate day) {
        return DateTimeFormatter.ofLocalizedDate(FormatStyle.MEDIUM)
                .withLocale(locale)
                .format(day);
    }

    /** As a form's field shows it. */
    String plain(double value) {
        return NumberText.plain(
                new BigDecimal(BigDecimal.valueOf(value).stripTrailingZeros().toPlainString()), locale);
    }

    private boolean customary() {
        return units == UnitSystem.US_CUSTOMARY;
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
