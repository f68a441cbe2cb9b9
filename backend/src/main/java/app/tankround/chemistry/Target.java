package app.tankround.chemistry;

import app.tankround.units.InputKind;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.Ranges;
import app.tankround.units.RefusalCode;
import org.jspecify.annotations.Nullable;

/**
 * The range a value should lie in, both ends included; for salinity in units of practical salinity.
 *
 * @param low lowest wanted value, if there is one
 * @param high highest wanted value, if there is one; not below {@code low}
 */
public record Target(@Nullable Double low, @Nullable Double high) {

    public static final Target NONE = new Target(null, null);

    public Target {
        if (low != null) {
            Ranges.require(InputKind.READING, low, Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY);
        }
        if (high != null) {
            Ranges.require(InputKind.READING, high, Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY);
        }
        if (low != null && high != null && low > high) {
            throw new OutOfRangeException(
                    RefusalCode.OUT_OF_RANGE, InputKind.READING, high, low, Double.POSITIVE_INFINITY);
        }
    }

    public static Target between(double low, double high) {
        return new Target(low, high);
    }

    public static Target atLeast(double low) {
        return new Target(low, null);
    }

    public static Target atMost(double high) {
        return new Target(null, high);
    }
}
