package app.tankround.web;

import app.tankround.units.Mass;
import app.tankround.units.UnitSystem;
import java.text.NumberFormat;
import java.util.Locale;

/** Writes masses the same everywhere: in the unit that the business reads, with one decimal, below one with two. */
public record MassText(Locale locale, UnitSystem units) {

    private static final double SMALL = 1;

    /** The number with its unit, such as {@code 1,040.3 kg}. */
    public String of(Mass mass) {
        return number(mass) + " " + unit();
    }

    /** The number alone, such as {@code 0.12}. */
    public String number(Mass mass) {
        double shown = value(mass);
        NumberFormat format = NumberFormat.getNumberInstance(locale);
        format.setMaximumFractionDigits(shown > 0 && shown < SMALL ? 2 : 1);
        return format.format(shown);
    }

    /** In kg or lb. */
    public double value(Mass mass) {
        return units == UnitSystem.US_CUSTOMARY ? mass.inPounds() : mass.kilograms();
    }

    public String unit() {
        return units == UnitSystem.US_CUSTOMARY ? "lb" : "kg";
    }
}
