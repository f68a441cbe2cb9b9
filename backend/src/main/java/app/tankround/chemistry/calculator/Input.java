package app.tankround.chemistry.calculator;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * One input of a calculator.
 *
 * @param name snake_case with the unit as suffix
 * @param unit of numbers, {@code 1} for pure numbers, empty for a choice
 * @param low lowest accepted number; negative infinity where there is no limit
 * @param high highest accepted number; positive infinity where there is no limit
 * @param from the model that the limits come from, empty where they are the quantity's own
 * @param defaultValue what is taken when nothing is given: a Double or one of the choices
 * @param required whether it must be given
 * @param choices accepted texts of a choice
 * @param fewest fewest numbers of a series
 * @param most most numbers of a series
 */
public record Input(
        String name,
        String unit,
        Kind kind,
        double low,
        double high,
        String from,
        @Nullable Object defaultValue,
        boolean required,
        List<String> choices,
        int fewest,
        int most) {

    /** Keeps the slowest of the rank statistics within a second. */
    public static final int LONGEST_SERIES = 1000;

    /** What an input takes. */
    public enum Kind {
        NUMBER,
        SERIES,
        CHOICE
    }

    /** A number that must be given, both limits accepted. */
    public static Input number(String name, String unit, double low, double high) {
        return new Input(name, unit, Kind.NUMBER, low, high, "", null, true, List.of(), 0, 0);
    }

    /** One or more numbers that must be given, both limits accepted. */
    public static Input series(String name, String unit, double low, double high) {
        return new Input(name, unit, Kind.SERIES, low, high, "", null, true, List.of(), 1, LONGEST_SERIES);
    }

    /** One of several texts that must be given. */
    public static Input choice(String name, String... choices) {
        return new Input(name, "", Kind.CHOICE, 0, 0, "", null, true, List.of(choices), 0, 0);
    }

    /** The scale that the calculator's temperatures are on; {@link Given#temperature} takes it into account. */
    public static Input temperatureScale() {
        return choice(Given.TEMPERATURE_SCALE, "ITS-90", "IPTS-68").orElse("ITS-90");
    }

    /** This input with a number that is taken when none is given. */
    public Input orElse(double value) {
        return with(value);
    }

    /** This input with the choice that is taken when none is made. */
    public Input orElse(String choice) {
        return with(choice);
    }

    /** This input, which may be left out. */
    public Input optional() {
        return new Input(name, unit, kind, low, high, from, null, false, choices, fewest, most);
    }

    /** This input with the name of the model that its limits come from, such as {@code EOS-80}. */
    public Input from(String model) {
        return new Input(name, unit, kind, low, high, model, defaultValue, required, choices, fewest, most);
    }

    /** This series with the fewest numbers that the calculator can work with. */
    public Input withAtLeast(int numbers) {
        return new Input(name, unit, kind, low, high, from, defaultValue, required, choices, numbers, most);
    }

    private Input with(Object value) {
        return new Input(name, unit, kind, low, high, from, value, false, choices, fewest, most);
    }
}
