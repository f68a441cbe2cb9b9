package app.tankround.web;

import app.tankround.units.UnitSystem;
import app.tankround.units.Volume;
import java.text.NumberFormat;
import java.util.Locale;

/** Writes volumes the same everywhere: in the unit that the business reads, with one decimal at most. */
public record VolumeText(Locale locale, UnitSystem units) {

    /** The number with its unit, such as {@code 1,040.3 L}, or {@code 12.5 gal} of the United States. */
    public String of(Volume volume) {
        NumberFormat format = NumberFormat.getNumberInstance(locale);
        format.setMaximumFractionDigits(1);
        return units == UnitSystem.US_CUSTOMARY
                ? format.format(volume.inUsGallons()) + " gal"
                : format.format(volume.litres()) + " L";
    }
}
