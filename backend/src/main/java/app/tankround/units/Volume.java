package app.tankround.units;

/**
 * An amount of liquid by volume.
 *
 * @param litres volume in litres, not negative
 */
public record Volume(double litres) {

    /** Litres in a US liquid gallon: exactly 231 cubic inches (NIST Handbook 44, Appendix C). */
    private static final double LITRES_PER_US_GALLON = 3.785411784;

    /** Litres in an imperial gallon, exact (UK Weights and Measures Act 1985, Schedule 1). */
    private static final double LITRES_PER_IMPERIAL_GALLON = 4.54609;

    public Volume {
        Ranges.requireNotNegative(InputKind.VOLUME, litres);
    }

    public static Volume ofLitres(double litres) {
        return new Volume(litres);
    }

    public static Volume ofMillilitres(double millilitres) {
        return new Volume(millilitres / 1000);
    }

    public static Volume ofUsGallons(double gallons) {
        return new Volume(gallons * LITRES_PER_US_GALLON);
    }

    public static Volume ofImperialGallons(double gallons) {
        return new Volume(gallons * LITRES_PER_IMPERIAL_GALLON);
    }

    public double inMillilitres() {
        return litres * 1000;
    }

    public double inUsGallons() {
        return litres / LITRES_PER_US_GALLON;
    }

    public double inImperialGallons() {
        return litres / LITRES_PER_IMPERIAL_GALLON;
    }

    public Volume plus(Volume other) {
        return new Volume(litres + other.litres);
    }

    /** The rest after taking another volume out; refused if that is more than there is. */
    public Volume minus(Volume other) {
        return new Volume(litres - other.litres);
    }
}
