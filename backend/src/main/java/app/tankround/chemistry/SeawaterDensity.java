package app.tankround.chemistry;

import app.tankround.units.InputKind;
import app.tankround.units.Ranges;
import app.tankround.units.Salinity;
import app.tankround.units.Temperature;

/**
 * Density of seawater at one atmosphere by the International Equation of State of Seawater, EOS-80 (Millero and Poisson
 * 1981, Deep-Sea Research 28A, 625; Fofonoff and Millard 1983, UNESCO Technical Papers in Marine Science 44, equations 13
 * and 14), and its inverse.
 *
 * <p>Published for practical salinity 0 to 42 and -2 to 40 °C. From 42 to 50 the polynomial is carried on, because a
 * neglected tank can get there and its keeper has to know; such results are marked extrapolated. Above 50 it refuses.
 */
public final class SeawaterDensity {

    /** Highest practical salinity for which EOS-80 was published. */
    public static final double HIGHEST_PUBLISHED_SALINITY = 42;

    /** Highest practical salinity answered at all. */
    public static final double HIGHEST_SALINITY = 50;

    /** Lowest and highest temperature in degrees Celsius. */
    public static final double LOWEST_CELSIUS = -2;

    public static final double HIGHEST_CELSIUS = 40;

    /** Largest difference from TEOS-10 within the published range, kg/m3; found on a grid in the tests. */
    static final double UNCERTAINTY_WITHIN = 0.02;

    /** Largest difference from TEOS-10 between practical salinity 42 and 50, kg/m3; found on a grid in the tests. */
    static final double UNCERTAINTY_EXTRAPOLATED = 0.05;

    /** kg/m3 per unit of practical salinity, the smallest in the range, to carry an uncertainty over to salinity. */
    private static final double SMALLEST_SLOPE = 0.72;

    /** Rounding of an inverse at the end of the range is no extrapolation. */
    private static final double ROUNDING = 1e-9;

    /** The published coefficients: a0 to a5 of pure water, b0 to b4, c0 to c2 and d0 of salinity. */
    static final double[] EOS_80 = {
        999.842594,
        6.793952e-2,
        -9.095290e-3,
        1.001685e-4,
        -1.120083e-6,
        6.536332e-9,
        8.24493e-1,
        -4.0899e-3,
        7.6438e-5,
        -8.2467e-7,
        5.3875e-9,
        -5.72466e-3,
        1.0227e-4,
        -1.6546e-6,
        4.8314e-4
    };

    private SeawaterDensity() {}

    /**
     * Density in kg/m3.
     *
     * @throws app.tankround.units.OutOfRangeException above salinity 50 or outside -2 to 40 °C
     */
    public static Computed ofSeawater(Salinity salinity, Temperature temperature) {
        double s = Ranges.require(InputKind.PRACTICAL_SALINITY, salinity.practical(), 0, HIGHEST_SALINITY);
        return computed(kilogramsPerCubicMetre(s, checked(temperature)), s, 1);
    }

    /** Density of pure water in kg/m3, -2 to 40 °C. */
    public static double ofPureWater(Temperature temperature) {
        return kilogramsPerCubicMetre(0, checked(temperature));
    }

    /**
     * Practical salinity of seawater of a density.
     *
     * @param kilogramsPerCubicMetre density at the temperature, kg/m3
     * @throws app.tankround.units.OutOfRangeException if no salinity from 0 to 50 has that density, or outside -2 to 40 °C
     */
    public static Computed toSalinity(double kilogramsPerCubicMetre, Temperature temperature) {
        double t90 = checked(temperature);
        double lowest = kilogramsPerCubicMetre(0, t90);
        double highest = kilogramsPerCubicMetre(HIGHEST_SALINITY, t90);
        Ranges.require(InputKind.DENSITY, kilogramsPerCubicMetre, lowest - ROUNDING, highest + ROUNDING);
        double s = salinity(kilogramsPerCubicMetre, t90);
        return computed(s, s, SMALLEST_SLOPE);
    }

    static boolean isExtrapolated(double practicalSalinity) {
        return practicalSalinity > HIGHEST_PUBLISHED_SALINITY + ROUNDING;
    }

    /** Expanded uncertainty of the formula at a salinity, in units of practical salinity. */
    static double uncertaintyInSalinity(double practicalSalinity) {
        double density = isExtrapolated(practicalSalinity) ? UNCERTAINTY_EXTRAPOLATED : UNCERTAINTY_WITHIN;
        return density / SMALLEST_SLOPE;
    }

    static Computed computed(double value, double practicalSalinity, double densityPerUnit) {
        boolean extrapolated = isExtrapolated(practicalSalinity);
        double density = extrapolated ? UNCERTAINTY_EXTRAPOLATED : UNCERTAINTY_WITHIN;
        return new Computed(value, density / densityPerUnit, extrapolated);
    }

    static double salinity(double kilogramsPerCubicMetre, double t90) {
        return Bisection.whereRises(s -> kilogramsPerCubicMetre(s, t90), kilogramsPerCubicMetre, 0, HIGHEST_SALINITY);
    }

    static double kilogramsPerCubicMetre(double s, double t90) {
        return kilogramsPerCubicMetreAtT68(s, TemperatureScale.t68(t90));
    }

    static double kilogramsPerCubicMetreAtT68(double s, double t) {
        return kilogramsPerCubicMetreAtT68(s, t, EOS_80);
    }

    /** With other coefficients than {@link #EOS_80}, in its order. */
    static double kilogramsPerCubicMetreAtT68(double s, double t, double[] k) {
        double water = k[0] + t * (k[1] + t * (k[2] + t * (k[3] + t * (k[4] + t * k[5]))));
        double b = k[6] + t * (k[7] + t * (k[8] + t * (k[9] + t * k[10])));
        double c = k[11] + t * (k[12] + t * k[13]);
        double root = Math.sqrt(s);
        double perSalinity = b + c * root + k[14] * s;
        return water + s * perSalinity;
    }

    private static double checked(Temperature temperature) {
        return Ranges.require(InputKind.TEMPERATURE, temperature.celsius(), LOWEST_CELSIUS, HIGHEST_CELSIUS);
    }
}
