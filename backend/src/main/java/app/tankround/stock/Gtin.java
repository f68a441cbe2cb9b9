package app.tankround.stock;

/** Global trade item numbers as barcodes carry them (GS1 General Specifications, 7.9: check digit calculations). */
final class Gtin {

    private static final int HEAVY = 3;
    private static final int TEN = 10;

    private Gtin() {}

    /** Whether a text has the digits of a GTIN-8, GTIN-12, GTIN-13 or GTIN-14. */
    static boolean looksLikeOne(String text) {
        return text.matches("\\d{8}|\\d{12,14}");
    }

    /** Whether the last digit is the one that follows from the others: weights 3 and 1 in turns, 3 next to it. */
    static boolean hasItsCheckDigit(String digits) {
        int sum = 0;
        for (int i = 0; i < digits.length(); i++) {
            int fromRight = digits.length() - 1 - i;
            sum += Character.digit(digits.charAt(i), TEN) * (fromRight % 2 == 1 ? HEAVY : 1);
        }
        return sum % TEN == 0;
    }
}
