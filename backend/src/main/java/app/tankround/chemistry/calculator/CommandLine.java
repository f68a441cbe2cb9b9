package app.tankround.chemistry.calculator;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Calculations from the words of a command line: {@code NAME key=value …}, series with commas between their numbers. */
public final class CommandLine {

    private CommandLine() {}

    /** Calls the calculator that the first word names with the inputs in the others. */
    public static Answer answer(List<String> words) {
        String name = words.isEmpty() ? "" : words.getFirst();
        return Calculators.named(name)
                .map(calculator -> answer(calculator, words.subList(1, words.size())))
                .orElseGet(() -> Answer.to(name, Map.of()));
    }

    private static Answer answer(Calculator calculator, List<String> words) {
        Map<String, Object> given = new LinkedHashMap<>();
        List<InputErrors.InputError> errors = new ArrayList<>();
        for (String word : words) {
            int equals = word.indexOf('=');
            String key = equals < 0 ? word : word.substring(0, equals);
            if (equals < 0) {
                errors.add(new InputErrors.InputError(key, InputErrors.Code.MALFORMED, "must be written key=value"));
            } else if (given.put(key, value(calculator, key, word.substring(equals + 1))) != null) {
                errors.add(new InputErrors.InputError(key, InputErrors.Code.GIVEN_TWICE, "must be given once"));
            }
        }
        return errors.isEmpty() ? Answer.to(calculator.name(), given) : Answer.notTaken(errors);
    }

    /** Text that is no number stays text, which the calculator then refuses at its input. */
    private static Object value(Calculator calculator, String key, String text) {
        Input.Kind kind = calculator.input(key).map(Input::kind).orElse(Input.Kind.CHOICE);
        return switch (kind) {
            case CHOICE -> text;
            case NUMBER -> number(text);
            case SERIES -> numbers(text);
        };
    }

    private static List<Object> numbers(String text) {
        List<Object> numbers = new ArrayList<>();
        int from = 0;
        while (from <= text.length() && !text.isEmpty()) {
            int comma = text.indexOf(',', from);
            int to = comma < 0 ? text.length() : comma;
            numbers.add(number(text.substring(from, to)));
            from = to + 1;
        }
        return numbers;
    }

    private static Object number(String text) {
        try {
            return new BigDecimal(text).doubleValue();
        } catch (NumberFormatException noNumber) {
            return text;
        }
    }
}
