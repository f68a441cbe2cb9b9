package app.tankround.chemistry;

import app.tankround.units.InputKind;
import app.tankround.units.MassConcentration;
import app.tankround.units.Ranges;
import app.tankround.units.Salinity;
import app.tankround.units.Temperature;

/**
 * Oxygen that water holds under water-saturated air (Benson and Krause 1984, Limnology and Oceanography 29, 620, in the
 * form of Standard Methods 4500-O), with the pressure of the site. Vapour pressure by Green and Carritt 1967. Range: 0 to
 * 40 °C, practical salinity 0 to 40, 0.5 to 1.1 atmospheres.
 */
public final class OxygenSaturation {

    /** One standard atmosphere in kPa, exact. */
    public static final double ATMOSPHERE_KILOPASCALS = 101.325;

    public static final double LOWEST_KILOPASCALS = 0.5 * ATMOSPHERE_KILOPASCALS;
    public static final double HIGHEST_KILOPASCALS = 1.1 * ATMOSPHERE_KILOPASCALS;

    private static final double HIGHEST_CELSIUS = 40;
    private static final double HIGHEST_SALINITY = 40;

    /** g/mol, as in the table of the reference. */
    private static final double OXYGEN_MOLAR_MASS = 31.9988;

    private OxygenSaturation() {}

    /**
     * Saturation in mg/L.
     *
     * @param kilopascals barometric pressure at the site, not reduced to sea level
     */
    public static MassConcentration bensonKrause(Temperature temperature, Salinity salinity, double kilopascals) {
        checked(temperature, salinity);
        Ranges.require(InputKind.PRESSURE, kilopascals, LOWEST_KILOPASCALS, HIGHEST_KILOPASCALS);
        double kelvin = temperature.inKelvin();
        double salt = salinity.practical() * (1.7674e-2 + (-10.754 + 2140.7 / kelvin) / kelvin);
        double logarithm = -139.34411
                + (1.575701e5 + (-6.642308e7 + (1.243800e10 - 8.621949e11 / kelvin) / kelvin) / kelvin) / kelvin
                - salt;
        double atmospheres = kilopascals / ATMOSPHERE_KILOPASCALS;
        double vapour = vapourAtmospheres(kelvin, salinity.practical());
        double theta = theta(temperature.celsius());
        double there = (atmospheres - vapour) * (1 - theta * atmospheres);
        double atOne = (1 - vapour) * (1 - theta);
        return new MassConcentration(Math.exp(logarithm) * there / atOne);
    }

    /**
     * Saturation at one atmosphere in µmol for each kg of water, as a check by another fit (Garcia and Gordon 1992,
     * Limnology and Oceanography 37, 1307; the coefficients fitted to the data of Benson and Krause, as in TEOS-10).
     */
    public static double garciaGordonMicromolesPerKilogram(Temperature temperature, Salinity salinity) {
        checked(temperature, salinity);
        double t68 = TemperatureScale.t68(temperature.celsius());
        double s = salinity.practical();
        double x = Math.log((298.15 - t68) / (273.15 + t68));
        double a = 5.80871 + x * (3.20291 + x * (4.17887 + x * (5.10006 + x * (-9.86643e-2 + x * 3.80369))));
        double b = -7.01577e-3 + x * (-7.70028e-3 + x * (-1.13864e-2 + x * -9.51519e-3));
        return Math.exp(a + s * (b + s * -2.75915e-7));
    }

    /** The same in mg/L. */
    public static MassConcentration garciaGordon(Temperature temperature, Salinity salinity) {
        double density = SeawaterDensity.ofSeawater(salinity, temperature).value();
        double micromoles = garciaGordonMicromolesPerKilogram(temperature, salinity);
        return new MassConcentration(micromoles * OXYGEN_MOLAR_MASS * density * 1e-6);
    }

    private static void checked(Temperature temperature, Salinity salinity) {
        Ranges.require(InputKind.TEMPERATURE, temperature.celsius(), 0, HIGHEST_CELSIUS);
        Ranges.require(InputKind.PRACTICAL_SALINITY, salinity.practical(), 0, HIGHEST_SALINITY);
    }

    private static double theta(double celsius) {
        return 0.000975 + celsius * (-1.426e-5 + celsius * 6.436e-8);
    }

    private static double vapourAtmospheres(double kelvin, double s) {
        double inverse = 373.16 / kelvin;
        double direct = kelvin / 373.16;
        double exponent = 18.1973 * (1 - inverse)
                + 3.1813e-7 * (1 - Math.exp(26.1205 * (1 - direct)))
                - 0.018726 * (1 - Math.exp(8.03945 * (1 - inverse)))
                + 5.02802 * Math.log(inverse);
        return (1 - 0.000537 * s) * Math.exp(exponent);
    }
}
