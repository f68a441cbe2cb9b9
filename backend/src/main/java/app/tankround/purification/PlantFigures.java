package app.tankround.purification;

import app.tankround.units.MeasurementUnit;
import app.tankround.units.UnitConversions;
import app.tankround.units.UnitSystem;
import java.text.NumberFormat;
import java.util.Locale;

/** Writes what a plant shows in the units of the business and the locale of the person. */
public record PlantFigures(UnitSystem units, Locale locale) {

    private static final double SMALL = 10;
    private static final double LARGE = 100;

    public MeasurementUnit volumeUnit() {
        return units == UnitSystem.US_CUSTOMARY ? MeasurementUnit.US_GALLON : MeasurementUnit.LITRE;
    }

    public MeasurementUnit pressureUnit() {
        return units == UnitSystem.US_CUSTOMARY ? MeasurementUnit.POUNDS_PER_SQUARE_INCH : MeasurementUnit.BAR;
    }

    public MeasurementUnit temperatureUnit() {
        return units == UnitSystem.US_CUSTOMARY ? MeasurementUnit.DEGREE_FAHRENHEIT : MeasurementUnit.DEGREE_CELSIUS;
    }

    public String volume(double litres) {
        return written(litres, MeasurementUnit.LITRE, volumeUnit());
    }

    public String pressure(double kilopascals) {
        return written(kilopascals, MeasurementUnit.KILOPASCAL, pressureUnit());
    }

    /** To three significant digits or the whole unit, whichever says more. */
    public String number(double value) {
        NumberFormat format = NumberFormat.getNumberInstance(locale);
        double size = Math.abs(value);
        format.setMaximumFractionDigits(size >= LARGE ? 0 : size >= SMALL ? 1 : 2);
        return format.format(value);
    }

    private String written(double value, MeasurementUnit from, MeasurementUnit to) {
        return number(UnitConversions.convert(value, from, to)) + "\u00a0" + to.symbol();
    }
}
