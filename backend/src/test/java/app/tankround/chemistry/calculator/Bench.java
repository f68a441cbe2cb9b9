package app.tankround.chemistry.calculator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;

/** One calculator under test, called as a program would call it: by name, with names and values in turn. */
record Bench(String calculator) {

    Calculation calculate(Object... namesAndValues) {
        return Calculators.named(calculator).orElseThrow().calculate(given(namesAndValues));
    }

    double number(String output, Object... namesAndValues) {
        return (Double)
                Objects.requireNonNull(calculate(namesAndValues).results().get(output), output);
    }

    CalculationRefused refusal(Object... namesAndValues) {
        return Objects.requireNonNull(
                catchThrowableOfType(CalculationRefused.class, () -> calculate(namesAndValues)), "answers");
    }

    /** Asserts one input error. */
    void notTaken(String input, InputErrors.Code code, Object... namesAndValues) {
        InputErrors errors = Objects.requireNonNull(
                catchThrowableOfType(InputErrors.class, () -> calculate(namesAndValues)), "answers");
        assertThat(errors.errors())
                .extracting(InputErrors.InputError::input, InputErrors.InputError::code)
                .containsExactly(org.assertj.core.groups.Tuple.tuple(input, code));
    }

    private static Map<String, Object> given(Object... namesAndValues) {
        Map<String, Object> given = new HashMap<>();
        for (int i = 0; i < namesAndValues.length; i += 2) {
            given.put((String) namesAndValues[i], namesAndValues[i + 1]);
        }
        return given;
    }

    static List<Double> list(Calculation calculation, String output) {
        return ((List<?>) Objects.requireNonNull(calculation.results().get(output)))
                .stream().map(Double.class::cast).toList();
    }
}
