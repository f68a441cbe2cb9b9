package app.tankround.units;

import static app.tankround.units.MeasurementUnit.MILLISIEMENS_PER_CENTIMETRE;
import static app.tankround.units.MeasurementUnit.PRACTICAL_SALINITY;

import app.tankround.units.PlausibleRanges.Ends;
import org.jspecify.annotations.Nullable;

/**
 * What is asked back about a value as it was typed: with the digits themselves, since 1.020 is a gravity and 1.02 may be a
 * salinity, and without the big numbers of the JDK, which are larger than all formulas together in the browser.
 */
public final class Plausibility {

    /** Practical salinity written with two or more decimals in this range is a specific gravity in the wrong field. */
    private static final double GRAVITY_IN_SALINITY_LOW = 0.99;

    private static final double GRAVITY_IN_SALINITY_HIGH = 1.07;
    private static final int GRAVITY_DECIMALS = 2;

    /**
     * A conductivity may well be 1.02 mS/cm, in water that is hardly salty; with three decimals it is written as gravities
     * are and conductivities are not. 35 mS/cm stays: it is water of S 22, such as brackish water or a low-salinity treatment.
     */
    private static final int GRAVITY_DECIMALS_IN_CONDUCTIVITY = 3;

    /** From here on the digits are those of microsiemens: 53000 for 53 mS/cm. */
    private static final double MICROSIEMENS = 500;

    private static final int MOST_PLACES_LOST = 3;
    private static final int MILLI = 3;

    /** A double tells so many digits apart. */
    private static final int SIGNIFICANT = 15;

    private Plausibility() {}

    /**
     * A value that is not taken as it is.
     *
     * @param value its digits
     * @param low the lowest accepted
     * @param high the highest accepted
     * @param likely what was likely meant, in {@code likelyUnit}; both absent where nothing can be offered
     */
    public record Asked(
            String value,
            String low,
            String high,
            MeasurementUnit unit,
            @Nullable String likely,
            @Nullable MeasurementUnit likelyUnit) {}

    /**
     * What is to be asked back.
     *
     * @param digits an optional sign and decimal digits with at most one point
     * @return absent where the value can be taken
     * @throws IllegalArgumentException if the quantity is not written down in that unit
     */
    public static @Nullable Asked check(Quantity quantity, MeasurementUnit unit, String digits) {
        String plain = plain(digits);
        double value = value(plain);
        Ends ends = PlausibleRanges.ends(quantity, unit);
        if (inside(ends, value) && !isGravity(unit, plain, value)) {
            return null;
        }
        for (MeasurementUnit other : quantity.units()) {
            if (other != unit && value > 0 && inside(PlausibleRanges.ends(quantity, other), value)) {
                return new Asked(plain, ends.low(), ends.high(), unit, plain, other);
            }
        }
        String meant = shifted(unit, plain, value, ends);
        return new Asked(plain, ends.low(), ends.high(), unit, meant, meant == null ? null : unit);
    }

    /** Digits as they are written without a needless sign, zero or point. */
    public static String plain(String digits) {
        boolean negative = digits.startsWith("-");
        String size = negative || digits.startsWith("+") ? digits.substring(1) : digits;
        int zeros = 0;
        while (zeros + 1 < size.length() && size.charAt(zeros) == '0' && size.charAt(zeros + 1) != '.') {
            zeros++;
        }
        size = size.substring(zeros);
        if (size.startsWith(".")) {
            size = "0" + size;
        }
        if (size.endsWith(".")) {
            size = size.substring(0, size.length() - 1);
        }
        return negative && !isNothing(size) ? "-" + size : size;
    }

    /** Decimals that are written. */
    public static int decimals(String plain) {
        int point = plain.indexOf('.');
        return point < 0 ? 0 : plain.length() - point - 1;
    }

    /** The number nearest to plain digits; of more of them than anybody reads, to the first. */
    public static double value(String plain) {
        boolean negative = plain.startsWith("-");
        String size = negative ? plain.substring(1) : plain;
        int point = size.indexOf('.');
        int whole = point < 0 ? size.length() : point;
        if (whole > SIGNIFICANT) {
            return negative ? Double.NEGATIVE_INFINITY : Double.POSITIVE_INFINITY;
        }
        double number = Digits.value(size.length() > SIGNIFICANT + 1 ? size.substring(0, SIGNIFICANT + 1) : size);
        return negative ? -number : number;
    }

    private static boolean isNothing(String size) {
        for (int i = 0; i < size.length(); i++) {
            if (size.charAt(i) != '0' && size.charAt(i) != '.') {
                return false;
            }
        }
        return true;
    }

    private static boolean inside(Ends ends, double value) {
        return value >= value(ends.low()) && value <= value(ends.high());
    }

    /** Whether digits that the unit allows are those of a specific gravity all the same. */
    private static boolean isGravity(MeasurementUnit unit, String plain, double value) {
        int least = unit == PRACTICAL_SALINITY
                ? GRAVITY_DECIMALS
                : unit == MILLISIEMENS_PER_CENTIMETRE ? GRAVITY_DECIMALS_IN_CONDUCTIVITY : Integer.MAX_VALUE;
        return decimals(plain) >= least && value >= GRAVITY_IN_SALINITY_LOW && value <= GRAVITY_IN_SALINITY_HIGH;
    }

    /** The value with its point where it was likely meant; absent where that cannot be told. */
    private static @Nullable String shifted(MeasurementUnit unit, String plain, double value, Ends ends) {
        if (unit == MILLISIEMENS_PER_CENTIMETRE && value >= MICROSIEMENS) {
            String milli = withoutZeros(pointLeft(plain, MILLI));
            return inside(ends, value(milli)) ? milli : null;
        }
        // A lost decimal point: 82 for pH 8.2, 1025 for gravity 1.025.
        if (value > 0 && decimals(plain) == 0 && value(ends.low()) > 0) {
            for (int places = 1; places <= MOST_PLACES_LOST; places++) {
                String moved = pointLeft(plain, places);
                if (inside(ends, value(moved))) {
                    return moved;
                }
            }
        }
        return null;
    }

    private static String pointLeft(String plain, int places) {
        int point = plain.indexOf('.');
        String digits = point < 0 ? plain : plain.substring(0, point) + plain.substring(point + 1);
        int whole = (point < 0 ? plain.length() : point) - places;
        StringBuilder moved = new StringBuilder();
        if (whole <= 0) {
            moved.append("0.");
            for (int i = whole; i < 0; i++) {
                moved.append('0');
            }
            return moved.append(digits).toString();
        }
        return moved.append(digits.substring(0, whole))
                .append('.')
                .append(digits.substring(whole))
                .toString();
    }

    private static String withoutZeros(String decimal) {
        int end = decimal.length();
        while (decimal.charAt(end - 1) == '0') {
            end--;
        }
        return decimal.substring(0, decimal.charAt(end - 1) == '.' ? end - 1 : end);
    }
}
