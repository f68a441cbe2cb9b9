package app.tankround.chemistry.calculator;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * What a program gets that asks for a calculation, over HTTP and on the command line alike: the calculation, or problem
 * details (RFC 9457) in English that say why there is none.
 *
 * @param outcome which of them
 * @param body names and values as they stand in the JSON
 */
public record Answer(Outcome outcome, Map<String, @Nullable Object> body) {

    /** How a call ended. */
    public enum Outcome {
        ANSWERED(200, 0),
        /** There is no calculator of that name. */
        UNKNOWN_CALCULATOR(404, 64),
        /** An input is missing, unknown or no number. */
        NOT_TAKEN(400, 64),
        /** The calculator refuses: out of its range, or no answer exists. */
        REFUSED(422, 2);

        private final int httpStatus;
        private final int exitStatus;

        Outcome(int httpStatus, int exitStatus) {
            this.httpStatus = httpStatus;
            this.exitStatus = exitStatus;
        }

        public int httpStatus() {
            return httpStatus;
        }

        /** Exit status of the command line; 64 is EX_USAGE of sysexits.h. */
        public int exitStatus() {
            return exitStatus;
        }
    }

    /** Calls the calculator of that name. */
    public static Answer to(String calculatorName, Map<String, ? extends @Nullable Object> given) {
        Optional<Calculator> calculator = Calculators.named(calculatorName);
        if (calculator.isEmpty()) {
            return problem(
                    Outcome.UNKNOWN_CALCULATOR, "unknown-calculator", "There is no calculator of this name", Map.of());
        }
        try {
            return answered(calculator.get().calculate(given));
        } catch (InputErrors refused) {
            return notTaken(refused.errors());
        } catch (CalculationRefused refused) {
            return refused(refused);
        }
    }

    /** Problem details for inputs that were not taken. */
    static Answer notTaken(List<InputErrors.InputError> refused) {
        List<Map<String, String>> errors = new ArrayList<>();
        for (InputErrors.InputError error : refused) {
            Map<String, String> line = new LinkedHashMap<>();
            line.put("field", error.input());
            line.put("code", error.code().name());
            line.put("message", error.message());
            errors.add(line);
        }
        return problem(Outcome.NOT_TAKEN, "input-errors", "These inputs are not taken", Map.of("errors", errors));
    }

    /** All calculators with what they take and give, as {@code GET /api/calculations} lists them. */
    public static List<Map<String, @Nullable Object>> list() {
        return Calculators.all().stream().map(Answer::described).toList();
    }

    private static Answer answered(Calculation calculation) {
        Map<String, @Nullable Object> body = new LinkedHashMap<>();
        body.put("results", calculation.results());
        body.put("units", calculation.units());
        body.put("working", calculation.working());
        body.put("source", calculation.source());
        return new Answer(Outcome.ANSWERED, body);
    }

    private static Answer refused(CalculationRefused refused) {
        CalculationRefused.Range range = refused.range();
        Map<String, Object> limits = new LinkedHashMap<>();
        limits.put("input", range.input());
        putLimits(limits, range.low(), range.high(), range.from());
        limits.put("unit", range.unit());
        Map<String, Object> parts = new LinkedHashMap<>();
        parts.put("code", refused.code());
        parts.put("range", limits);
        refused.likely().ifPresent(likely -> parts.put("likely", likely));
        return problem(Outcome.REFUSED, "calculation-refused", "The calculator refuses these inputs", parts);
    }

    private static Answer problem(Outcome outcome, String type, String title, Map<String, ?> parts) {
        Map<String, @Nullable Object> body = new LinkedHashMap<>();
        body.put("type", "/problems/" + type);
        body.put("title", title);
        body.put("status", outcome.httpStatus());
        body.putAll(parts);
        return new Answer(outcome, body);
    }

    private static Map<String, @Nullable Object> described(Calculator calculator) {
        Map<String, @Nullable Object> body = new LinkedHashMap<>();
        body.put("name", calculator.name());
        body.put("inputs", calculator.inputs().stream().map(Answer::described).toList());
        body.put("outputs", calculator.outputs());
        body.put("source", calculator.source());
        return body;
    }

    private static Map<String, @Nullable Object> described(Input input) {
        Map<String, @Nullable Object> body = new LinkedHashMap<>();
        body.put("name", input.name());
        body.put("unit", input.unit());
        body.put("kind", input.kind().name());
        body.put("required", input.required());
        body.put("default", input.defaultValue());
        if (input.kind() == Input.Kind.CHOICE) {
            body.put("choices", input.choices());
            return body;
        }
        Map<String, Object> range = new LinkedHashMap<>();
        putLimits(range, input.low(), input.high(), input.from());
        body.put("range", range);
        if (input.kind() == Input.Kind.SERIES) {
            body.put("fewest", input.fewest());
            body.put("most", input.most());
        }
        return body;
    }

    /** JSON has no infinity: a limit that does not exist is left out. */
    private static void putLimits(Map<String, Object> range, double low, double high, String from) {
        if (Double.isFinite(low)) {
            range.put("low", low);
        }
        if (Double.isFinite(high)) {
            range.put("high", high);
        }
        if (!from.isEmpty()) {
            range.put("from", from);
        }
    }
}
