package app.tankround.units;

import java.util.Optional;

/**
 * The two temperatures without which a specific gravity means nothing: that of the sample and that of the pure water it
 * is compared with. Written sample first, as in {@code 25/4} or {@code 60F/60F}.
 *
 * @param sampleCelsius sample temperature in degrees Celsius, 0 to 40
 * @param waterCelsius water temperature in degrees Celsius, 0 to 40
 */
public record GravityReference(double sampleCelsius, double waterCelsius) {

    /** Lowest and highest temperature in degrees Celsius. */
    public static final double LOWEST_CELSIUS = 0;

    public static final double HIGHEST_CELSIUS = 40;

    /** 60 °F in degrees Celsius, about 15.5556. */
    private static final double SIXTY_FAHRENHEIT = 28 / 1.8;

    public static final GravityReference AT_20_20 = new GravityReference(20, 20);
    public static final GravityReference AT_25_25 = new GravityReference(25, 25);
    public static final GravityReference AT_60F_60F = new GravityReference(SIXTY_FAHRENHEIT, SIXTY_FAHRENHEIT);
    public static final GravityReference AT_20_4 = new GravityReference(20, 4);
    public static final GravityReference AT_25_4 = new GravityReference(25, 4);
    public static final GravityReference AT_15_4 = new GravityReference(15, 4);

    public GravityReference {
        Ranges.require(InputKind.TEMPERATURE, sampleCelsius, LOWEST_CELSIUS, HIGHEST_CELSIUS);
        Ranges.require(InputKind.TEMPERATURE, waterCelsius, LOWEST_CELSIUS, HIGHEST_CELSIUS);
    }

    /**
     * Reads the written form: two temperatures with a slash between, each in degrees Celsius or, with an {@code F} after
     * it, in degrees Fahrenheit.
     *
     * @return empty if the text is not of that form or a temperature is outside 0 to 40 °C
     */
    public static Optional<GravityReference> parse(String text) {
        int slash = text.indexOf('/');
        if (slash < 0) {
            return Optional.empty();
        }
        double sample = celsius(text.substring(0, slash).trim());
        double water = celsius(text.substring(slash + 1).trim());
        return accepted(sample) && accepted(water)
                ? Optional.of(new GravityReference(sample, water))
                : Optional.empty();
    }

    private static boolean accepted(double celsius) {
        return celsius >= LOWEST_CELSIUS && celsius <= HIGHEST_CELSIUS;
    }

    private static double celsius(String text) {
        boolean fahrenheit = text.endsWith("F") || text.endsWith("f");
        String digits = fahrenheit ? text.substring(0, text.length() - 1).trim() : text;
        double number = Digits.value(digits);
        double aboveFreezing = number - 32;
        return fahrenheit ? aboveFreezing / 1.8 : number;
    }

    /** The written form; a temperature that is a whole number of degrees Fahrenheit but not of Celsius is written in °F. */
    @Override
    public String toString() {
        return written(sampleCelsius) + "/" + written(waterCelsius);
    }

    private static String written(double celsius) {
        if (celsius == Math.floor(celsius)) {
            return Integer.toString((int) celsius);
        }
        double fahrenheit = celsius * 1.8 + 32;
        double whole = Math.floor(fahrenheit + 0.5);
        return Math.abs(fahrenheit - whole) < 1e-9 ? (int) whole + "F" : Double.toString(celsius);
    }
}
