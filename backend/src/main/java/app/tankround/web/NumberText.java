package app.tankround.web;

import java.math.BigDecimal;
import java.text.DecimalFormatSymbols;
import java.util.Locale;

/** Writes numbers so that {@link NumberInput} reads the same number back. */
public final class NumberText {

    private NumberText() {}

    /** All decimals of the number, no grouping, with the decimal separator that {@link NumberInput} takes. */
    public static String plain(BigDecimal number, Locale locale) {
        boolean comma = DecimalFormatSymbols.getInstance(locale).getDecimalSeparator() == ',';
        String text = number.toPlainString();
        return comma ? text.replace('.', ',') : text;
    }
}
