package app.tankround.web;

import app.tankround.units.TypedNumber;
import java.math.BigDecimal;
import java.text.DecimalFormatSymbols;
import java.util.Locale;

/** Reads a number as a person of a given locale typed it; see {@link TypedNumber}. */
public final class NumberInput {

    private NumberInput() {}

    /**
     * The number that {@code text} stands for in {@code locale}; its scale is the number of decimals typed.
     *
     * @throws NumberRefusal with code as {@link TypedNumber#refusal} has it
     */
    public static BigDecimal parse(String text, Locale locale) {
        boolean comma = DecimalFormatSymbols.getInstance(locale).getDecimalSeparator() == ',';
        TypedNumber typed = TypedNumber.read(text, comma);
        String refusal = typed.refusal();
        if (refusal != null) {
            throw new NumberRefusal(refusal, text.strip());
        }
        return new BigDecimal(typed.digits());
    }
}
