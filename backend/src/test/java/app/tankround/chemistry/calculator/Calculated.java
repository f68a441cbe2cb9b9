package app.tankround.chemistry.calculator;

import java.util.Map;
import java.util.Objects;
import org.junit.jupiter.api.Assertions;

/** Calculators called by name, as the API and the command line call them. */
final class Calculated {

    private Calculated() {}

    static Calculation by(String calculator, Map<String, ?> given) {
        return Calculators.named(calculator).orElseThrow().calculate(given);
    }

    static double number(String calculator, String output, Map<String, ?> given) {
        return number(by(calculator, given), output);
    }

    static double number(Calculation calculation, String output) {
        return (Double) Objects.requireNonNull(calculation.results().get(output), output);
    }

    static CalculationRefused refusal(String calculator, Map<String, ?> given) {
        try {
            return Assertions.fail("answers " + by(calculator, given).results());
        } catch (CalculationRefused refused) {
            return refused;
        }
    }

    static InputErrors.InputError error(String calculator, Map<String, ?> given) {
        try {
            return Assertions.fail("answers " + by(calculator, given).results());
        } catch (InputErrors errors) {
            return errors.errors().getFirst();
        }
    }
}
