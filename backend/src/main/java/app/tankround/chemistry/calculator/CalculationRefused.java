package app.tankround.chemistry.calculator;

import java.io.Serializable;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;

/** A calculator does not answer: the inputs are numbers, but outside what its formula holds for. */
public final class CalculationRefused extends RuntimeException {

    private static final long serialVersionUID = 1L;

    /** A number lies outside the accepted range. */
    public static final String OUT_OF_RANGE = "OUT_OF_RANGE";

    /** A number for a practical salinity is likely a specific gravity. */
    public static final String LOOKS_LIKE_GRAVITY = "LOOKS_LIKE_GRAVITY";

    /** A number for a specific gravity is likely a practical salinity. */
    public static final String LOOKS_LIKE_SALINITY = "LOOKS_LIKE_SALINITY";

    /** A series has fewer numbers than the calculator needs. */
    public static final String TOO_FEW = "TOO_FEW";

    /** A series has more numbers than the calculator takes. */
    public static final String TOO_MANY = "TOO_MANY";

    /**
     * What would have been accepted.
     *
     * @param input the input that was refused
     * @param low lowest accepted; negative infinity where there is no limit
     * @param high highest accepted; positive infinity where there is no limit
     * @param unit of the limits
     * @param from the model that the limits come from, empty where they are the quantity's own
     */
    public record Range(String input, double low, double high, String unit, String from) implements Serializable {}

    private final String code;
    private final Range range;
    private final @Nullable Double likely;

    public CalculationRefused(String code, Range range) {
        this(code, range, OptionalDouble.empty());
    }

    /** @param likely what the number would be on the scale that was asked for */
    public CalculationRefused(String code, Range range, OptionalDouble likely) {
        super(code + ": " + range.input() + ", accepted is " + range.low() + " to " + range.high() + " "
                + range.unit());
        this.code = code;
        this.range = range;
        this.likely = likely.isPresent() ? likely.getAsDouble() : null;
    }

    /** Why, in UPPER_SNAKE. */
    public String code() {
        return code;
    }

    public Range range() {
        return range;
    }

    /** What the number would be on the scale that was asked for, where it is likely on another. */
    public OptionalDouble likely() {
        return likely == null ? OptionalDouble.empty() : OptionalDouble.of(likely);
    }
}
