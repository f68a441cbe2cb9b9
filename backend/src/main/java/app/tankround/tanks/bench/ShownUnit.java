package app.tankround.tanks.bench;

import app.tankround.units.Mass;
import app.tankround.units.Temperature;
import app.tankround.units.UnitSystem;
import app.tankround.units.Volume;
import java.util.Set;
import java.util.function.DoubleUnaryOperator;

/**
 * The unit in which the bench shows and takes a number of a calculator: temperatures, volumes and masses in those of the
 * business, everything else as the calculator has it.
 *
 * @param text as written beside a number, empty for a pure number
 * @param shown from the calculator's unit
 * @param taken into the calculator's unit
 */
record ShownUnit(String text, DoubleUnaryOperator shown, DoubleUnaryOperator taken) {

    static ShownUnit of(String unit, UnitSystem units) {
        if (units == UnitSystem.US_CUSTOMARY) {
            switch (unit) {
                case "°C" -> {
                    return new ShownUnit(
                            "°F",
                            celsius -> Temperature.ofCelsius(celsius).inFahrenheit(),
                            fahrenheit -> Temperature.ofFahrenheit(fahrenheit).celsius());
                }
                case "L" -> {
                    return new ShownUnit(
                            "gal", litres -> litres / LITRES_IN_GALLON, gallons -> gallons * LITRES_IN_GALLON);
                }
                case "kg" -> {
                    return new ShownUnit(
                            "lb", kilograms -> kilograms / KILOGRAMS_IN_POUND, pounds -> pounds * KILOGRAMS_IN_POUND);
                }
                default -> {}
            }
        }
        return new ShownUnit(written(unit), DoubleUnaryOperator.identity(), DoubleUnaryOperator.identity());
    }

    /** By factor, since a calculator may be given less than nothing and refuses that itself. */
    private static final double LITRES_IN_GALLON = Volume.ofUsGallons(1).litres();

    private static final double KILOGRAMS_IN_POUND = Mass.ofPounds(1).kilograms();

    /** Units of the person's own data, whatever they measured; beside a number they would say nothing. */
    private static final Set<String> UNSAID = Set.of("1", "value", "value^2", "x", "y", "y/x", "y^2");

    static boolean isSaid(String unit) {
        return !UNSAID.contains(unit);
    }

    private static String written(String unit) {
        return isSaid(unit) ? unit.replace("m3", "m³").replace("m2", "m²") : "";
    }
}
