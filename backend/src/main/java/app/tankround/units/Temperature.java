package app.tankround.units;

/**
 * A temperature on the International Temperature Scale of 1990.
 *
 * @param celsius temperature in degrees Celsius, from absolute zero to 1000
 */
public record Temperature(double celsius) {

    private static final double ABSOLUTE_ZERO_CELSIUS = -273.15;

    public Temperature {
        Ranges.require(InputKind.TEMPERATURE, celsius, ABSOLUTE_ZERO_CELSIUS, 1000);
    }

    public static Temperature ofCelsius(double celsius) {
        return new Temperature(celsius);
    }

    /** From degrees Fahrenheit: °C = (°F - 32) / 1.8, exact (NIST Special Publication 811, B.8). */
    public static Temperature ofFahrenheit(double fahrenheit) {
        double aboveFreezing = fahrenheit - 32;
        return new Temperature(aboveFreezing / 1.8);
    }

    public double inFahrenheit() {
        return celsius * 1.8 + 32;
    }

    public double inKelvin() {
        return celsius - ABSOLUTE_ZERO_CELSIUS;
    }
}
