package app.tankround.units;

/** The range checks shared by quantities and calculators. */
public final class Ranges {

    private Ranges() {}

    /**
     * Refuses a value that is not finite or lies outside the range; both ends are accepted.
     *
     * @return the value
     * @throws OutOfRangeException if refused
     */
    public static double require(InputKind quantity, double value, double low, double high) {
        if (Double.isNaN(value) || Double.isInfinite(value)) {
            throw new OutOfRangeException(RefusalCode.NOT_FINITE, quantity, value, low, high);
        }
        if (value < low || value > high) {
            throw new OutOfRangeException(RefusalCode.OUT_OF_RANGE, quantity, value, low, high);
        }
        return value;
    }

    /** Refuses a value that is not finite or is negative. */
    public static double requireNotNegative(InputKind quantity, double value) {
        return require(quantity, value, 0, Double.POSITIVE_INFINITY);
    }
}
