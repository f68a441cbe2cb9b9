package app.tankround.chemistry;

/** Decimal rounding that is the same on the server and in the browser. */
public final class SignificantDigits {

    private static final double TEN = 10;

    private SignificantDigits() {}

    /**
     * The number nearest to a value that has so many digits.
     *
     * @param digits 1 to 15
     * @param value finite
     */
    public static double rounded(int digits, double value) {
        double size = Math.abs(value);
        if (size == 0) {
            return 0;
        }
        double least = 1;
        for (int i = 1; i < digits; i++) {
            least *= TEN;
        }
        double up = 1;
        while (size * up < least) {
            up *= TEN;
        }
        double down = 1;
        while (size / down >= TEN * least) {
            down *= TEN;
        }
        double whole = Math.floor(size * up / down + 0.5);
        double found = up > 1 ? whole / up : whole * down;
        return value < 0 ? -found : found;
    }
}
