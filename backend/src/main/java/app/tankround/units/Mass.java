package app.tankround.units;

/**
 * A mass.
 *
 * @param kilograms mass in kilograms, not negative
 */
public record Mass(double kilograms) {

    /** Kilograms in an avoirdupois pound, exact (NIST Handbook 44, Appendix C). */
    private static final double KILOGRAMS_PER_POUND = 0.45359237;

    private static final double OUNCES_PER_POUND = 16;

    public Mass {
        Ranges.requireNotNegative(InputKind.MASS, kilograms);
    }

    public static Mass ofKilograms(double kilograms) {
        return new Mass(kilograms);
    }

    public static Mass ofGrams(double grams) {
        return new Mass(grams / 1000);
    }

    public static Mass ofPounds(double pounds) {
        return new Mass(pounds * KILOGRAMS_PER_POUND);
    }

    public static Mass ofOunces(double ounces) {
        return ofPounds(ounces / OUNCES_PER_POUND);
    }

    public double inGrams() {
        return kilograms * 1000;
    }

    public double inPounds() {
        return kilograms / KILOGRAMS_PER_POUND;
    }

    public double inOunces() {
        return inPounds() * OUNCES_PER_POUND;
    }

    public Mass plus(Mass other) {
        return new Mass(kilograms + other.kilograms);
    }
}
