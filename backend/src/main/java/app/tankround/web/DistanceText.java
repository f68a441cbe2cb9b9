package app.tankround.web;

import app.tankround.units.Distance;
import app.tankround.units.UnitSystem;
import java.text.NumberFormat;
import java.util.Locale;

/** Writes distances the same everywhere: in the unit that the business reads, whole from ten on, below with
 * one decimal, below a tenth with two. */
public record DistanceText(Locale locale, UnitSystem units) {

    private static final double SHORT = 0.1;
    private static final double LONG = 10;

    /** The number with its unit, such as {@code 47 km}. */
    public String of(Distance distance) {
        return ofUnits(value(distance));
    }

    /** The same of a number that is in km or miles already. */
    public String ofUnits(double shown) {
        NumberFormat format = NumberFormat.getNumberInstance(locale);
        format.setMaximumFractionDigits(shown < SHORT ? 2 : shown < LONG ? 1 : 0);
        return format.format(shown) + " " + unit();
    }

    /** The same of a number of metres. */
    public String ofMetres(double metres) {
        return of(Distance.ofMetres(metres));
    }

    /** The same of a difference in kilometres, with a minus in front where it is one. */
    public String ofDifference(double kilometres) {
        return (kilometres < 0 ? "\u2212" : "") + of(new Distance(Math.abs(kilometres)));
    }

    /** A speed with its unit, such as {@code 29 km/h}. */
    public String perHour(double kilometres) {
        return NumberFormat.getIntegerInstance(locale).format(Math.round(value(new Distance(kilometres))))
                + (units == UnitSystem.US_CUSTOMARY ? " mph" : " km/h");
    }

    /** In km or miles. */
    public double value(Distance distance) {
        return units == UnitSystem.US_CUSTOMARY ? distance.inMiles() : distance.kilometres();
    }

    public String unit() {
        return units == UnitSystem.US_CUSTOMARY ? "mi" : "km";
    }
}
