package app.tankround.chemistry;

import app.tankround.units.InputKind;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.Ranges;
import app.tankround.units.RefusalCode;

/**
 * What a measurement says: all values between two ends. A test kit answers "below detection", "between two colours" or
 * "beyond the last colour", never exactly zero.
 *
 * @param low lower end
 * @param high upper end, positive infinity if nothing limits it
 * @param found whether the method saw anything at all
 */
public record MeasuredInterval(double low, double high, boolean found) {

    public MeasuredInterval {
        Ranges.require(InputKind.READING, low, Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY);
        if (Double.isNaN(high) || high < low) {
            throw new OutOfRangeException(
                    RefusalCode.OUT_OF_RANGE, InputKind.READING, high, low, Double.POSITIVE_INFINITY);
        }
    }

    /** A value with its expanded uncertainty (k = 2); for quantities that may be negative, such as temperature. */
    public static MeasuredInterval value(double value, double expandedUncertainty) {
        Ranges.requireNotNegative(InputKind.UNCERTAINTY, expandedUncertainty);
        return new MeasuredInterval(value - expandedUncertainty, value + expandedUncertainty, true);
    }

    /** A concentration with its expanded uncertainty (k = 2), cut at zero, since there is no less than nothing. */
    public static MeasuredInterval concentration(double value, double expandedUncertainty) {
        Ranges.requireNotNegative(InputKind.MASS_CONCENTRATION, value);
        MeasuredInterval whole = value(value, expandedUncertainty);
        return new MeasuredInterval(Math.max(0, whole.low()), whole.high(), value > 0);
    }

    /** Below the detection limit: anything from nothing to the limit. */
    public static MeasuredInterval belowDetection(double limit) {
        Ranges.requireNotNegative(InputKind.MASS_CONCENTRATION, limit);
        return new MeasuredInterval(0, limit, false);
    }

    /** Beyond the measuring range: anything from its end upwards. */
    public static MeasuredInterval aboveRange(double end) {
        return new MeasuredInterval(end, Double.POSITIVE_INFINITY, true);
    }

    /** Between two neighbouring colours of a kit. */
    public static MeasuredInterval between(double low, double high) {
        return new MeasuredInterval(low, high, true);
    }
}
