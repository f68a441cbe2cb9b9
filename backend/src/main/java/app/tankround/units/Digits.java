package app.tankround.units;

/** Decimal digits as numbers, without the parser of the JDK, which is larger than all formulas together in the browser. */
final class Digits {

    private static final double TEN = 10;

    /** A double holds as many digits whatever they are, so that one division gives the nearest number. */
    private static final int MOST = 15;

    private Digits() {}

    /** The number that digits with at most one point stand for; not a number where they stand for none, or are too many. */
    static double value(String text) {
        double number = 0;
        double places = 1;
        boolean fraction = false;
        int digits = 0;
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            if (c == '.' && !fraction) {
                fraction = true;
                continue;
            }
            if (c < '0' || c > '9') {
                return Double.NaN;
            }
            number = number * TEN + (c - '0');
            places = fraction ? places * TEN : places;
            digits++;
        }
        return digits == 0 || digits > MOST ? Double.NaN : number / places;
    }
}
