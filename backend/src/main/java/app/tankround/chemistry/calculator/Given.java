package app.tankround.chemistry.calculator;

import app.tankround.chemistry.LikelySalinity;
import app.tankround.chemistry.TemperatureScale;
import app.tankround.units.Salinity;
import app.tankround.units.Temperature;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.OptionalDouble;
import java.util.stream.Stream;

/** The inputs as a rule reads them: checked, defaults filled in. Asking for an input that is not declared is a mistake. */
public final class Given {

    static final String TEMPERATURE_SCALE = "temperature_scale";

    private final Calculator calculator;
    private final Map<String, Object> values;

    Given(Calculator calculator, Map<String, Object> values) {
        this.calculator = calculator;
        this.values = values;
    }

    /** Whether the input was given or has a default. */
    public boolean has(String input) {
        return values.containsKey(declared(input).name());
    }

    /** A number that is required or has a default. */
    public double number(String input) {
        return (Double) value(input);
    }

    /**
     * A number whose accepted range follows from the other inputs.
     *
     * @param from the model that the limits come from
     * @throws CalculationRefused outside the range, both ends accepted
     */
    public double numberWithin(String input, double low, double high, String from) {
        double number = number(input);
        if (number < low || number > high) {
            throw new CalculationRefused(
                    CalculationRefused.OUT_OF_RANGE,
                    new CalculationRefused.Range(
                            input, low, high, declared(input).unit(), from));
        }
        return number;
    }

    /**
     * A practical salinity that a person typed.
     *
     * @throws CalculationRefused if it is likely a specific gravity
     */
    public Salinity salinity(String input) {
        double number = number(input);
        OptionalDouble likely = LikelySalinity.ofGravity(number);
        if (likely.isPresent()) {
            Input asked = declared(input);
            throw new CalculationRefused(
                    CalculationRefused.LOOKS_LIKE_GRAVITY,
                    new CalculationRefused.Range(input, asked.low(), asked.high(), asked.unit(), asked.from()),
                    likely);
        }
        return new Salinity(number);
    }

    /** A number that may have been left out. */
    public OptionalDouble optional(String input) {
        return has(input) ? OptionalDouble.of(number(input)) : OptionalDouble.empty();
    }

    /**
     * The one of several inputs that was given, where exactly one must be.
     *
     * @throws InputErrors if none was given, or more than one
     */
    public String oneOf(String... inputs) {
        List<String> present = atLeastOneOf(inputs);
        if (present.size() > 1) {
            throw new InputErrors(present.stream()
                    .skip(1)
                    .map(input -> new InputErrors.InputError(
                            input, InputErrors.Code.NOT_TOGETHER, "not together with " + present.getFirst()))
                    .toList());
        }
        return present.getFirst();
    }

    /**
     * Those of several inputs that were given, where at least one must be.
     *
     * @throws InputErrors if none was given
     */
    public List<String> atLeastOneOf(String... inputs) {
        List<String> present = Stream.of(inputs).filter(this::has).toList();
        if (present.isEmpty()) {
            String message =
                    inputs.length == 1 ? "must be given" : "one of " + String.join(", ", inputs) + " must be given";
            throw Choices.missing(inputs[0], message);
        }
        return present;
    }

    /** The numbers of a series. */
    public double[] series(String input) {
        return ((double[]) value(input)).clone();
    }

    /** One of the texts of a choice. */
    public String choice(String input) {
        return (String) value(input);
    }

    /** A number in degrees Celsius on the scale that {@link Input#temperatureScale} was given, ITS-90 where it has none. */
    public Temperature temperature(String input) {
        double celsius = number(input);
        boolean older = "IPTS-68".equals(values.get(TEMPERATURE_SCALE));
        return new Temperature(older ? TemperatureScale.t90(celsius) : celsius);
    }

    private Object value(String input) {
        return Objects.requireNonNull(values.get(declared(input).name()), input);
    }

    private Input declared(String input) {
        return calculator.input(input).orElseThrow(() -> new IllegalArgumentException("not declared: " + input));
    }
}
