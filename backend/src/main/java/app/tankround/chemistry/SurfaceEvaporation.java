package app.tankround.chemistry;

import app.tankround.units.InputKind;
import app.tankround.units.Ranges;
import app.tankround.units.Temperature;

/**
 * Evaporation from an undisturbed indoor surface into still air (Shah 2012, 2014, ASHRAE Transactions). A first estimate:
 * published data scatter about it by 18 % on average (Shah 2002), and fans, overflows and lids matter more. A measured
 * top-up is better.
 *
 * <p>Range as published (from memory): water from 7 °C, air 6 to 35 °C, relative humidity 0.28 to 0.98, at least 210 Pa
 * between the vapour pressure at the surface and in the room; water above 45 °C is refused.
 */
public final class SurfaceEvaporation {

    /** Mean deviation of published data from the correlation, as a share. */
    public static final double SCATTER = 0.18;

    public static final double LOWEST_WATER_CELSIUS = 7;
    public static final double HIGHEST_WATER_CELSIUS = 45;
    public static final double LOWEST_AIR_CELSIUS = 6;
    public static final double HIGHEST_AIR_CELSIUS = 35;
    public static final double LOWEST_HUMIDITY = 0.28;
    public static final double HIGHEST_HUMIDITY = 0.98;
    public static final double LOWEST_KILOPASCALS = 70;
    public static final double HIGHEST_KILOPASCALS = 110;

    private static final double LEAST_DIFFERENCE_PASCALS = 210;
    private static final double MOST_DIFFERENCE_PASCALS = 80_156;

    /** Ratio of the molar masses of water and dry air, and gas constant of dry air in kJ/(kg K). */
    private static final double MOLAR_MASS_RATIO = 0.621945;

    private static final double DRY_AIR_GAS_CONSTANT = 0.287042;

    private SurfaceEvaporation() {}

    /**
     * Rate in kg for each m2 and hour.
     *
     * @param relativeHumidity of the room's air, 0.28 to 0.98
     * @param kilopascals barometric pressure, 70 to 110 kPa
     */
    public static double kilogramsPerSquareMetreHour(
            Temperature water, Temperature air, double relativeHumidity, double kilopascals) {
        Ranges.require(InputKind.TEMPERATURE, water.celsius(), LOWEST_WATER_CELSIUS, HIGHEST_WATER_CELSIUS);
        Ranges.require(InputKind.TEMPERATURE, air.celsius(), LOWEST_AIR_CELSIUS, HIGHEST_AIR_CELSIUS);
        Ranges.require(InputKind.FRACTION, relativeHumidity, LOWEST_HUMIDITY, HIGHEST_HUMIDITY);
        Ranges.require(InputKind.PRESSURE, kilopascals, LOWEST_KILOPASCALS, HIGHEST_KILOPASCALS);
        double atSurface = saturationPressurePascals(water);
        double inRoom = relativeHumidity * saturationPressurePascals(air);
        double difference = Ranges.require(
                InputKind.VAPOUR_PRESSURE_DIFFERENCE,
                atSurface - inRoom,
                LEAST_DIFFERENCE_PASCALS,
                MOST_DIFFERENCE_PASCALS);
        double forced = 5e-5 * difference;
        double surfaceDensity = dryAirDensity(atSurface, water, kilopascals);
        double buoyancy = dryAirDensity(inRoom, air, kilopascals) - surfaceDensity;
        if (buoyancy <= 0) {
            return forced;
        }
        double humidityDifference = humidityRatio(atSurface, kilopascals) - humidityRatio(inRoom, kilopascals);
        double natural = 35 * surfaceDensity * Math.pow(buoyancy, 1.0 / 3) * humidityDifference;
        return Math.max(natural, forced);
    }

    /** Saturation pressure over water in Pa by Hyland and Wexler 1983 (coefficients from memory), 0 to 200 °C. */
    static double saturationPressurePascals(Temperature temperature) {
        double t = temperature.inKelvin();
        double polynomial = 1.3914993 + t * (-4.8640239e-2 + t * (4.1764768e-5 + t * -1.4452093e-8));
        return Math.exp(-5.8002206e3 / t + polynomial + 6.5459673 * Math.log(t));
    }

    /** kg of water vapour for each kg of dry air. */
    private static double humidityRatio(double vapourPascals, double kilopascals) {
        double vapour = vapourPascals / 1000;
        return MOLAR_MASS_RATIO * vapour / (kilopascals - vapour);
    }

    /** Mass of dry air in a m3 of moist air. */
    private static double dryAirDensity(double vapourPascals, Temperature temperature, double kilopascals) {
        double dry = kilopascals - vapourPascals / 1000;
        double perKilogram = DRY_AIR_GAS_CONSTANT * temperature.inKelvin();
        return dry / perKilogram;
    }
}
