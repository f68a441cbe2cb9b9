package app.tankround.chemistry;

import app.tankround.units.Conductivity;
import app.tankround.units.InputKind;
import app.tankround.units.Ranges;
import app.tankround.units.Salinity;
import app.tankround.units.Temperature;

/**
 * Practical Salinity Scale 1978 (Fofonoff and Millard 1983, UNESCO Technical Papers in Marine Science 44, equations 1 to
 * 4), both ways, for practical salinity 0 to 42 and -2 to 35 °C. Below 2 the extension of Hill, Dauphinee and Woods
 * (1986, IEEE Journal of Oceanic Engineering 11, 109) is used, scaled at 2 so that the two join, as in the TEOS-10
 * library. The scale is defined by conductivity, so nothing is extrapolated above 42: it refuses.
 */
public final class PracticalSalinity {

    /** Conductivity of seawater of salinity 35 at 15 °C (IPTS-68) in mS/cm, the value of the TEOS-10 library. */
    static final double CONDUCTIVITY_35_15 = 42.9140;

    static final double HIGHEST_SALINITY = 42;

    private static final double HILL_BELOW = 2;

    /** Square root of a conductivity ratio that lies above salinity 42 at every temperature of the range. */
    private static final double HIGHEST_ROOT = 1.2;

    private static final double ROUNDING = 1e-9;

    private PracticalSalinity() {}

    /**
     * Practical salinity from conductivity at the temperature of the sample.
     *
     * @throws app.tankround.units.OutOfRangeException outside -2 to 35 °C, or if the salinity would exceed 42
     */
    public static Salinity fromConductivity(Conductivity conductivity, Temperature temperature) {
        double t90 = checked(temperature);
        double highest = conductivity(HIGHEST_SALINITY, t90);
        double c =
                Ranges.require(InputKind.CONDUCTIVITY, conductivity.millisiemensPerCentimetre(), 0, highest + ROUNDING);
        return new Salinity(salinity(c, t90));
    }

    /**
     * Conductivity at the temperature of the sample from practical salinity.
     *
     * @throws app.tankround.units.OutOfRangeException outside salinity 0 to 42 or -2 to 35 °C
     */
    public static Conductivity toConductivity(Salinity salinity, Temperature temperature) {
        double s = Ranges.require(InputKind.PRACTICAL_SALINITY, salinity.practical(), 0, HIGHEST_SALINITY);
        return new Conductivity(conductivity(s, checked(temperature)));
    }

    static double salinity(double millisiemensPerCentimetre, double t90) {
        double ratio = millisiemensPerCentimetre / CONDUCTIVITY_35_15;
        return salinityOfRatio(ratio, TemperatureScale.t68(t90));
    }

    static double conductivity(double s, double t90) {
        return CONDUCTIVITY_35_15 * ratioOfSalinity(s, TemperatureScale.t68(t90));
    }

    /** From the ratio to the conductivity of S = 35 at 15 °C, both at the surface. */
    static double salinityOfRatio(double ratio, double t68) {
        double atTemperature = ratio / ratioOf35(t68);
        return joined(Math.sqrt(atTemperature), t68, hillScale(t68));
    }

    static double ratioOfSalinity(double s, double t68) {
        double scale = hillScale(t68);
        double x = Bisection.whereRises(root -> joined(root, t68, scale), s, 0, HIGHEST_ROOT);
        double atTemperature = x * x;
        return atTemperature * ratioOf35(t68);
    }

    private static double ratioOf35(double t) {
        return 0.6766097 + t * (2.00564e-2 + t * (1.104259e-4 + t * (-6.9698e-7 + t * 1.0031e-9)));
    }

    private static double joined(double x, double t, double hillScale) {
        double plain = plain(x, t);
        return plain < HILL_BELOW ? hillScale * hill(x, t, plain) : plain;
    }

    private static double plain(double x, double t) {
        double at15 = 0.0080 + x * (-0.1692 + x * (25.3851 + x * (14.0941 + x * (-7.0261 + x * 2.7081))));
        double away = 0.0005 + x * (-0.0056 + x * (-0.0066 + x * (-0.0375 + x * (0.0636 + x * -0.0144))));
        return at15 + temperatureTerm(t) * away;
    }

    private static double hill(double x, double t, double plain) {
        double ratio400 = 400 * x * x;
        double root100 = 10 * x;
        double at15 = 1 + ratio400 * (1.5 + ratio400);
        double away = 1 + root100 * (1 + root100 * (1 + root100));
        double awayPart = 0.0005 * temperatureTerm(t);
        return plain - 0.0080 / at15 - awayPart / away;
    }

    private static double hillScale(double t) {
        double xAt2 = Bisection.whereRises(x -> plain(x, t), HILL_BELOW, 0.05, HIGHEST_ROOT);
        return HILL_BELOW / hill(xAt2, t, HILL_BELOW);
    }

    private static double temperatureTerm(double t) {
        double from15 = t - 15;
        double divisor = 1 + 0.0162 * from15;
        return from15 / divisor;
    }

    private static double checked(Temperature temperature) {
        return Ranges.require(InputKind.TEMPERATURE, temperature.celsius(), -2, 35);
    }
}
