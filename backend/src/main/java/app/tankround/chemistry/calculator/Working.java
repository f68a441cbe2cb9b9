package app.tankround.chemistry.calculator;

import java.math.BigDecimal;
import java.math.MathContext;

/** Numbers as they stand in lines of working: no locale, so that a line can be computed again by machine. */
public final class Working {

    private static final MathContext EIGHT_DIGITS = new MathContext(8);

    private Working() {}

    /** The number with up to eight significant digits; with a power of ten below 1e-5 and from 1e9. */
    public static String number(double value) {
        if (!Double.isFinite(value)) {
            return Double.toString(value);
        }
        if (value == 0) {
            return "0";
        }
        BigDecimal rounded = new BigDecimal(value).round(EIGHT_DIGITS).stripTrailingZeros();
        double size = Math.abs(value);
        if (size >= 1e-5 && size < 1e9) {
            return rounded.toPlainString();
        }
        int exponent = rounded.precision() - rounded.scale() - 1;
        return rounded.movePointLeft(exponent).stripTrailingZeros().toPlainString() + "e" + exponent;
    }
}
