package app.tankround.chemistry.calculator;

import app.tankround.chemistry.LikelySalinity;
import app.tankround.units.InputKind;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.Refusal;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;

/** One calculator: inputs with units and ranges, outputs with units, the source of its formula, and the call. */
public final class Calculator {

    /** What calculators call a specific gravity. */
    private static final String GRAVITY = "specific_gravity";

    private final String name;
    private final String source;
    private final List<Input> inputs;
    private final List<Output> outputs;
    private final Rule rule;

    private Calculator(Builder builder, Rule rule) {
        this.name = builder.name;
        this.source = builder.source;
        this.inputs = List.copyOf(builder.inputs);
        this.outputs = List.copyOf(builder.outputs);
        this.rule = rule;
    }

    /**
     * Begins a calculator.
     *
     * @param kebabName such as {@code seawater-density}
     */
    public static Builder named(String kebabName) {
        return new Builder(kebabName);
    }

    /** A calculator while its inputs and outputs are named. */
    public static final class Builder {

        private final String name;
        private String source = "";
        private final List<Input> inputs = new ArrayList<>();
        private final List<Output> outputs = new ArrayList<>();

        private Builder(String name) {
            this.name = name;
        }

        /** Where the formula comes from, as it would be cited. */
        public Builder source(String citation) {
            source = citation;
            return this;
        }

        /** Adds inputs, in the order in which a page asks for them. */
        public Builder input(Input... more) {
            Collections.addAll(inputs, more);
            return this;
        }

        /** Adds an output, in the order in which it is shown. */
        public Builder output(String name, String unit) {
            outputs.add(new Output(name, unit));
            return this;
        }

        public Calculator by(Rule rule) {
            return new Calculator(this, rule);
        }
    }

    public String name() {
        return name;
    }

    public List<Input> inputs() {
        return inputs;
    }

    public List<Output> outputs() {
        return outputs;
    }

    public String source() {
        return source;
    }

    /**
     * Works it out.
     *
     * @param given by input name: a number, or a text or a Boolean for a choice, or a List of numbers for a series
     * @throws InputErrors if something is missing, unknown, or no number
     * @throws CalculationRefused outside a range, or where the inputs together have no answer
     */
    public Calculation calculate(Map<String, ? extends @Nullable Object> given) {
        Map<String, Object> values = read(given);
        requireRanges(values);
        Calculation.Results results;
        try {
            results = rule.apply(new Given(this, values));
        } catch (OutOfRangeException refused) {
            throw refused(refused.refusal(), values);
        }
        return answer(results);
    }

    Optional<Input> input(String inputName) {
        return inputs.stream().filter(input -> input.name().equals(inputName)).findFirst();
    }

    private Map<String, Object> read(Map<String, ? extends @Nullable Object> given) {
        List<InputErrors.InputError> errors = new ArrayList<>();
        for (String key : given.keySet()) {
            if (input(key).isEmpty()) {
                errors.add(error(key, InputErrors.Code.UNKNOWN, name + " has no such input"));
            }
        }
        Map<String, Object> values = new LinkedHashMap<>();
        for (Input input : inputs) {
            if (given.containsKey(input.name())) {
                readOne(input, given.get(input.name()), values, errors);
            } else if (input.defaultValue() != null) {
                values.put(input.name(), input.defaultValue());
            } else if (input.required()) {
                errors.add(error(input.name(), InputErrors.Code.MISSING, "must be given"));
            }
        }
        if (!errors.isEmpty()) {
            throw new InputErrors(errors);
        }
        return values;
    }

    private static void readOne(
            Input input, @Nullable Object value, Map<String, Object> values, List<InputErrors.InputError> errors) {
        switch (input.kind()) {
            case NUMBER -> {
                if (value instanceof Number number && isNumber(number)) {
                    values.put(input.name(), number.doubleValue());
                } else {
                    errors.add(error(input.name(), InputErrors.Code.NOT_A_NUMBER, "must be a finite number"));
                }
            }
            case SERIES -> {
                if (value instanceof List<?> list && list.stream().allMatch(Calculator::isNumber)) {
                    values.put(
                            input.name(),
                            list.stream()
                                    .mapToDouble(number -> ((Number) number).doubleValue())
                                    .toArray());
                } else if (value instanceof List<?>) {
                    errors.add(error(input.name(), InputErrors.Code.NOT_A_NUMBER, "must be finite numbers only"));
                } else {
                    errors.add(error(input.name(), InputErrors.Code.NOT_A_SERIES, "must be a list of numbers"));
                }
            }
            case CHOICE -> {
                String text = value instanceof Boolean ? value.toString() : value instanceof String typed ? typed : "";
                if (input.choices().contains(text)) {
                    values.put(input.name(), text);
                } else {
                    errors.add(error(
                            input.name(),
                            InputErrors.Code.NOT_A_CHOICE,
                            "must be one of " + String.join(", ", input.choices())));
                }
            }
        }
    }

    private static boolean isNumber(@Nullable Object value) {
        return value instanceof Number number && Double.isFinite(number.doubleValue());
    }

    private static InputErrors.InputError error(String input, InputErrors.Code code, String message) {
        return new InputErrors.InputError(input, code, message);
    }

    private void requireRanges(Map<String, Object> values) {
        for (Input input : inputs) {
            Object value = values.get(input.name());
            if (value instanceof Double number) {
                requireRange(input, number);
            } else if (value instanceof double[] series) {
                requireLength(input, series.length);
                for (double number : series) {
                    requireRange(input, number);
                }
            }
        }
    }

    private static void requireRange(Input input, double number) {
        if (number < input.low() || number > input.high()) {
            OptionalDouble gravity =
                    input.name().equals(GRAVITY) ? LikelySalinity.asGravity(number) : OptionalDouble.empty();
            throw new CalculationRefused(
                    gravity.isPresent() ? CalculationRefused.LOOKS_LIKE_SALINITY : CalculationRefused.OUT_OF_RANGE,
                    new CalculationRefused.Range(input.name(), input.low(), input.high(), input.unit(), input.from()),
                    gravity);
        }
    }

    private static void requireLength(Input input, int length) {
        if (length < input.fewest() || length > input.most()) {
            throw new CalculationRefused(
                    length < input.fewest() ? CalculationRefused.TOO_FEW : CalculationRefused.TOO_MANY,
                    new CalculationRefused.Range(input.name(), input.fewest(), input.most(), "values", ""));
        }
    }

    /** A formula names the quantity that it refuses: the input is the one that has this value, or else this unit. */
    private CalculationRefused refused(Refusal refusal, Map<String, Object> values) {
        String unit = unitOf(refusal.quantity());
        Optional<Input> meant = inputs.stream()
                .filter(input -> values.get(input.name()) instanceof Double number && number == refusal.value())
                .findFirst()
                .or(() -> inputs.stream()
                        .filter(input -> input.kind() == Input.Kind.NUMBER
                                && values.containsKey(input.name())
                                && input.unit().equals(unit)
                                && !unit.equals("1"))
                        .findFirst());
        return new CalculationRefused(
                refusal.code().name(),
                new CalculationRefused.Range(
                        meant.map(Input::name).orElse(lowerCase(refusal.quantity())),
                        refusal.low(),
                        refusal.high(),
                        meant.map(Input::unit).orElse(unit),
                        meant.map(Input::from).orElse("")));
    }

    private static String lowerCase(InputKind quantity) {
        StringBuilder text = new StringBuilder();
        for (char letter : quantity.name().toCharArray()) {
            text.append(Character.toLowerCase(letter));
        }
        return text.toString();
    }

    private static String unitOf(InputKind quantity) {
        return switch (quantity) {
            case ALKALINITY -> "meq/L";
            case ANGLE -> "°";
            case AMMONIA, MASS_CONCENTRATION -> "mg/L";
            case CONDUCTIVITY -> "mS/cm";
            case DENSITY -> "kg/m3";
            case DISTANCE -> "m";
            case FREQUENCY -> "1/min";
            case INTERVAL -> "s";
            case MASS -> "kg";
            case PRESSURE -> "kPa";
            case SALINITY_RATE -> "1/d";
            case SALT_PER_LITRE -> "g/L";
            case TEMPERATURE -> "°C";
            case VAPOUR_PRESSURE_DIFFERENCE -> "Pa";
            case VOLUME -> "L";
            case WAVELENGTH -> "nm";
            case CONDUCTIVITY_RATIO,
                    COUNT,
                    FRACTION,
                    GAIN,
                    PH,
                    PRACTICAL_SALINITY,
                    READING,
                    REFRACTIVE_INDEX,
                    SPECIFIC_GRAVITY,
                    UNCERTAINTY,
                    YIELD -> "1";
        };
    }

    private Calculation answer(Calculation.Results results) {
        Map<String, Object> ordered = new LinkedHashMap<>();
        Map<String, String> units = new LinkedHashMap<>();
        for (Output output : outputs) {
            Object value = results.values().get(output.name());
            if (value != null) {
                requireFinite(output, value);
                ordered.put(output.name(), value);
                units.put(output.name(), output.unit());
            }
        }
        if (ordered.size() != results.values().size()) {
            throw new IllegalStateException(name + " answers more than it declares: " + results.values());
        }
        return new Calculation(
                Collections.unmodifiableMap(ordered), Collections.unmodifiableMap(units), results.lines(), source);
    }

    /** Inputs within their ranges whose answer no number can hold, such as a division by a difference of nothing. */
    private static void requireFinite(Output output, Object value) {
        boolean finite = value instanceof Double number
                ? Double.isFinite(number)
                : !(value instanceof List<?> list)
                        || list.stream().allMatch(each -> each instanceof Double number && Double.isFinite(number));
        if (!finite) {
            throw new CalculationRefused(
                    "NOT_FINITE",
                    new CalculationRefused.Range(
                            output.name(), -Double.MAX_VALUE, Double.MAX_VALUE, output.unit(), ""));
        }
    }
}
