package app.tankround.web;

import java.math.BigDecimal;
import java.text.DecimalFormatSymbols;
import java.util.Locale;
import java.util.regex.Pattern;

/**
 * Reads a number as a person of a given locale typed it.
 *
 * <p>A text that could be meant two ways is refused instead of guessed: {@code 1,025} is a gravity to one person and a
 * thousand and twenty-five to another, and the wrong choice harms animals.
 */
public final class NumberInput {

    private static final int LONGEST = 24;
    private static final Pattern PLAIN = Pattern.compile("[-+]?(\\d+\\.?\\d*|\\.\\d+)");
    private static final Pattern ONE_GROUP = Pattern.compile("[-+]?\\d{1,3}(\\D\\d{3})+");

    private NumberInput() {}

    /**
     * The number that {@code text} stands for in {@code locale}; its scale is the number of decimals typed.
     *
     * @throws NumberRefusal with code {@code number-missing}, {@code number-malformed} or {@code number-ambiguous}
     */
    public static BigDecimal parse(String text, Locale locale) {
        String typed = text.strip().replace('\u2212', '-');
        if (typed.isEmpty()) {
            throw new NumberRefusal("number-missing", text);
        }
        if (typed.length() > LONGEST) {
            throw new NumberRefusal("number-malformed", text.strip());
        }
        DecimalFormatSymbols symbols = DecimalFormatSymbols.getInstance(locale);
        char decimal = symbols.getDecimalSeparator() == ',' ? ',' : '.';
        char grouping = decimal == ',' ? '.' : ',';
        String withoutSpaces = typed.replaceAll("(?<=\\d)[ \\u00A0\\u202F'\\u2019](?=\\d{3})", "");
        int otherAt = withoutSpaces.indexOf(grouping);
        if (otherAt >= 0) {
            int decimalAt = withoutSpaces.indexOf(decimal);
            boolean groupsThenDecimals = decimalAt > otherAt
                    && ONE_GROUP.matcher(withoutSpaces.substring(0, decimalAt)).matches()
                    && withoutSpaces.indexOf(grouping, decimalAt) < 0;
            if (!groupsThenDecimals) {
                boolean ambiguous =
                        decimalAt < 0 && ONE_GROUP.matcher(withoutSpaces).matches();
                throw new NumberRefusal(ambiguous ? "number-ambiguous" : "number-separator", typed);
            }
            withoutSpaces = withoutSpaces.replace(String.valueOf(grouping), "");
        }
        String plain = withoutSpaces.replace(decimal, '.');
        if (!PLAIN.matcher(plain).matches()) {
            throw new NumberRefusal("number-malformed", typed);
        }
        return new BigDecimal(plain);
    }
}
