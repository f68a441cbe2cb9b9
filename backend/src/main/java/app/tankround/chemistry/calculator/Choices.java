package app.tankround.chemistry.calculator;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;

/** Inputs that are alternatives: one of an enum's constants, or one of several ways to give the same thing. */
final class Choices {

    private Choices() {}

    /** A choice between the constants of an enum, written in kebab-case. */
    static <E extends Enum<E>> Input choice(String name, E[] constants) {
        return Input.choice(name, Arrays.stream(constants).map(Choices::written).toArray(String[]::new));
    }

    /** The constant that was chosen. */
    static <E extends Enum<E>> E chosen(Given given, String name, E[] constants) {
        return Arrays.stream(constants)
                .filter(constant -> written(constant).equals(given.choice(name)))
                .findFirst()
                .orElseThrow();
    }

    static <E extends Enum<E>> String written(E constant) {
        return constant.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /**
     * Those of several inputs that were given: none or one.
     *
     * @throws InputErrors if more than one was
     */
    static List<String> present(Given given, String... names) {
        List<String> present = new ArrayList<>();
        for (String name : names) {
            if (given.has(name)) {
                present.add(name);
            }
        }
        if (present.size() > 1) {
            throw new InputErrors(List.of(new InputErrors.InputError(
                    present.get(1), InputErrors.Code.NOT_TOGETHER, "is given as " + present.getFirst() + " already")));
        }
        return present;
    }

    static InputErrors missing(String input, String message) {
        return new InputErrors(List.of(new InputErrors.InputError(input, InputErrors.Code.MISSING, message)));
    }
}
