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
    public static final double CONDUCTIVITY_35_15 = 42.9140;

    /** Highest practical salinity of the scale. */
    public static final double HIGHEST_SALINITY = 42;

    /** The published coefficients: a0 to a5, b0 to b5, c0 to c4 of the ratio at S = 35, and k. */
    static final double[] PSS_78 = {
        0.0080,
        -0.1692,
        25.3851,
        14.0941,
        -7.0261,
        2.7081,
        0.0005,
        -0.0056,
        -0.0066,
        -0.0375,
        0.0636,
        -0.0144,
        0.6766097,
        2.00564e-2,
        1.104259e-4,
        -6.9698e-7,
        1.0031e-9,
        0.0162
    };

    /** Lowest and highest temperature in degrees Celsius. */
    public static final double LOWEST_CELSIUS = -2;

    public static final double HIGHEST_CELSIUS = 35;

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
        double c = conductivity.millisiemensPerCentimetre();
        double s = salinity(c, t90);
        if (s <= HIGHEST_SALINITY) {
            return new Salinity(s);
        }
        double highest = conductivity(HIGHEST_SALINITY, t90);
        Ranges.require(InputKind.CONDUCTIVITY, c, 0, highest + ROUNDING);
        return new Salinity(s);
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
        return salinityOfRatio(ratio, t68, PSS_78);
    }

    /** With other coefficients than {@link #PSS_78}, in its order. */
    static double salinityOfRatio(double ratio, double t68, double[] k) {
        double atTemperature = ratio / ratioOf35(t68, k);
        double x = Math.sqrt(atTemperature);
        double plain = plain(x, t68, k);
        return plain < HILL_BELOW ? hillScale(t68, k) * hill(x, t68, plain, k) : plain;
    }

    static double ratioOfSalinity(double s, double t68) {
        double scale = s > HILL_BELOW ? 1 : hillScale(t68, PSS_78);
        double x = s > HILL_BELOW
                ? Bisection.whereRises(root -> plain(root, t68, PSS_78), s, 0, HIGHEST_ROOT)
                : Bisection.whereRises(root -> extended(root, t68, scale), s, 0, HIGHEST_ROOT);
        double atTemperature = x * x;
        return atTemperature * ratioOf35(t68, PSS_78);
    }

    private static double ratioOf35(double t, double[] k) {
        return k[12] + t * (k[13] + t * (k[14] + t * (k[15] + t * k[16])));
    }

    private static double extended(double x, double t, double hillScale) {
        double plain = plain(x, t, PSS_78);
        return plain < HILL_BELOW ? hillScale * hill(x, t, plain, PSS_78) : plain;
    }

    private static double plain(double x, double t, double[] k) {
        double at15 = k[0] + x * (k[1] + x * (k[2] + x * (k[3] + x * (k[4] + x * k[5]))));
        double away = k[6] + x * (k[7] + x * (k[8] + x * (k[9] + x * (k[10] + x * k[11]))));
        return at15 + temperatureTerm(t, k) * away;
    }

    private static double hill(double x, double t, double plain, double[] k) {
        double ratio400 = 400 * x * x;
        double root100 = 10 * x;
        double at15 = 1 + ratio400 * (1.5 + ratio400);
        double away = 1 + root100 * (1 + root100 * (1 + root100));
        double awayPart = k[6] * temperatureTerm(t, k);
        return plain - k[0] / at15 - awayPart / away;
    }

    private static double hillScale(double t, double[] k) {
        double xAt2 = Bisection.whereRises(x -> plain(x, t, k), HILL_BELOW, 0.05, HIGHEST_ROOT);
        return HILL_BELOW / hill(xAt2, t, HILL_BELOW, k);
    }

    private static double temperatureTerm(double t, double[] k) {
        double from15 = t - 15;
        double divisor = 1 + k[17] * from15;
        return from15 / divisor;
    }

    private static double checked(Temperature temperature) {
        return Ranges.require(InputKind.TEMPERATURE, temperature.celsius(), LOWEST_CELSIUS, HIGHEST_CELSIUS);
    }
}
