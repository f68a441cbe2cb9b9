package app.tankround.units;

import org.jspecify.annotations.Nullable;

/**
 * A number as a person typed it.
 *
 * <p>A text that could be meant two ways is refused instead of guessed: {@code 1,025} is a gravity to one person and a
 * thousand and twenty-five to another, and the wrong choice harms animals.
 *
 * @param digits an optional sign and decimal digits with at most one point; empty where it is refused
 * @param refusal {@code number-missing}, {@code number-malformed}, {@code number-ambiguous} or {@code number-separator};
 *     absent where it is a number
 */
public record TypedNumber(String digits, @Nullable String refusal) {

    private static final int LONGEST = 24;
    private static final int GROUP = 3;

    /** @param comma whether the person's language writes decimals after a comma */
    public static TypedNumber read(String text, boolean comma) {
        String typed = text.strip().replace('\u2212', '-');
        if (typed.isEmpty()) {
            return refused("number-missing");
        }
        if (typed.length() > LONGEST) {
            return refused("number-malformed");
        }
        char decimal = comma ? ',' : '.';
        char grouping = comma ? '.' : ',';
        String number = withoutSpaces(typed);
        int otherAt = number.indexOf(grouping);
        if (otherAt >= 0) {
            int decimalAt = number.indexOf(decimal);
            boolean groupsThenDecimals = decimalAt > otherAt
                    && isGrouped(number.substring(0, decimalAt))
                    && number.indexOf(grouping, decimalAt) < 0;
            if (!groupsThenDecimals) {
                return refused(decimalAt < 0 && isGrouped(number) ? "number-ambiguous" : "number-separator");
            }
            number = without(grouping, number);
        }
        String plain = number.replace(decimal, '.');
        return isPlain(plain) ? new TypedNumber(plain, null) : refused("number-malformed");
    }

    /** Decimals that were typed. */
    public int decimals() {
        int point = digits.indexOf('.');
        return point < 0 ? 0 : digits.length() - point - 1;
    }

    /** The number nearest to the digits; not a number where it is refused, or has more of them than anybody reads. */
    public double value() {
        boolean signed = digits.startsWith("-") || digits.startsWith("+");
        double size = Digits.value(signed ? digits.substring(1) : digits);
        return digits.startsWith("-") ? -size : size;
    }

    private static TypedNumber refused(String code) {
        return new TypedNumber("", code);
    }

    /** Without what parts groups of three. */
    private static String withoutSpaces(String typed) {
        StringBuilder kept = new StringBuilder();
        for (int i = 0; i < typed.length(); i++) {
            boolean parts = isSpace(typed.charAt(i))
                    && i > 0
                    && isDigit(typed.charAt(i - 1))
                    && i + GROUP < typed.length()
                    && digitsFrom(typed, i + 1) >= GROUP;
            if (!parts) {
                kept.append(typed.charAt(i));
            }
        }
        return kept.toString();
    }

    private static boolean isSpace(char c) {
        return c == ' ' || c == '\u00A0' || c == '\u202F' || c == '\'' || c == '\u2019';
    }

    private static String without(char separator, String number) {
        StringBuilder kept = new StringBuilder();
        for (int i = 0; i < number.length(); i++) {
            if (number.charAt(i) != separator) {
                kept.append(number.charAt(i));
            }
        }
        return kept.toString();
    }

    /** One to three digits, and then groups of three, each after something that is no digit. */
    private static boolean isGrouped(String number) {
        int at = afterSign(number);
        int first = digitsFrom(number, at);
        at += first;
        if (first < 1 || first > GROUP || at == number.length()) {
            return false;
        }
        while (at < number.length()) {
            if (digitsFrom(number, at + 1) != GROUP) {
                return false;
            }
            at += GROUP + 1;
        }
        return true;
    }

    private static boolean isPlain(String number) {
        int at = afterSign(number);
        int whole = digitsFrom(number, at);
        at += whole;
        if (at == number.length()) {
            return whole > 0;
        }
        int fraction = digitsFrom(number, at + 1);
        return number.charAt(at) == '.' && at + 1 + fraction == number.length() && whole + fraction > 0;
    }

    private static int afterSign(String number) {
        return number.startsWith("-") || number.startsWith("+") ? 1 : 0;
    }

    private static int digitsFrom(String text, int from) {
        int at = from;
        while (at < text.length() && isDigit(text.charAt(at))) {
            at++;
        }
        return at - from;
    }

    private static boolean isDigit(char c) {
        return c >= '0' && c <= '9';
    }
}
