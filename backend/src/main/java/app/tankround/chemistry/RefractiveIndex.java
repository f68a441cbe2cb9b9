package app.tankround.chemistry;

import app.tankround.units.InputKind;
import app.tankround.units.Ranges;
import app.tankround.units.Salinity;
import app.tankround.units.Temperature;

/**
 * Refractive index of seawater relative to air, as a refractometer sees it, by two independent published fits. Handheld
 * scales refer to the sodium D line, {@link #SODIUM_D_NANOMETRES}.
 */
public final class RefractiveIndex {

    public static final double SODIUM_D_NANOMETRES = 589.3;

    /** Highest practical salinity of Quan and Fry. */
    public static final double HIGHEST_QUAN_FRY = 35;

    /** Highest practical salinity of Millard and Seaver. */
    public static final double HIGHEST_MILLARD_SEAVER = 43;

    /** Highest temperature of both in degrees Celsius; the lowest is 0. */
    public static final double HIGHEST_CELSIUS = 30;

    /** Shortest wavelengths in nm. */
    public static final double SHORTEST_QUAN_FRY = 400;

    public static final double SHORTEST_MILLARD_SEAVER = 500;

    /** Longest wavelength of both in nm. */
    public static final double LONGEST = 700;

    /** The coefficients n0 to n9 of Quan and Fry. */
    static final double[] QUAN_FRY = {
        1.31405, 1.779e-4, -1.05e-6, 1.6e-8, -2.02e-6, 15.868, 0.01155, -0.00423, -4382, 1.1455e6
    };

    private RefractiveIndex() {}

    /**
     * Quan and Fry 1995, Applied Optics 34, 3477.
     *
     * @param salinity 0 to 35
     * @param temperature 0 to 30 °C
     * @param nanometres wavelength, 400 to 700
     */
    public static double quanFry(Salinity salinity, Temperature temperature, double nanometres) {
        double s = Ranges.require(InputKind.PRACTICAL_SALINITY, salinity.practical(), 0, HIGHEST_QUAN_FRY);
        double t = Ranges.require(InputKind.TEMPERATURE, temperature.celsius(), 0, HIGHEST_CELSIUS);
        double l = Ranges.require(InputKind.WAVELENGTH, nanometres, SHORTEST_QUAN_FRY, LONGEST);
        return quanFry(s, t, l, QUAN_FRY);
    }

    static double quanFry(double s, double t, double l, double[] n) {
        double perSalinity = n[1] + t * (n[2] + t * n[3]);
        double perLength = n[5] + n[6] * s + n[7] * t;
        double l2 = l * l;
        double l3 = l2 * l;
        return n[0] + perSalinity * s + n[4] * t * t + perLength / l + n[8] / l2 + n[9] / l3;
    }

    /**
     * Millard and Seaver 1990, Deep-Sea Research 37, 1909, at the surface.
     *
     * @param salinity 0 to 43
     * @param temperature 0 to 30 °C
     * @param nanometres wavelength, 500 to 700
     */
    public static double millardSeaver(Salinity salinity, Temperature temperature, double nanometres) {
        double s = Ranges.require(InputKind.PRACTICAL_SALINITY, salinity.practical(), 0, HIGHEST_MILLARD_SEAVER);
        double t = Ranges.require(InputKind.TEMPERATURE, temperature.celsius(), 0, HIGHEST_CELSIUS);
        double l = Ranges.require(InputKind.WAVELENGTH, nanometres, SHORTEST_MILLARD_SEAVER, LONGEST) / 1000;
        return millardSeaverWater(t, l) + s * millardSeaverPerSalinity(t, l);
    }

    private static double millardSeaverWater(double t, double l) {
        double l2 = l * l;
        double l4 = l2 * l2;
        double l6 = l4 * l2;
        double dispersion = 1.3280657 - 4.5536802e-3 * l2 + 2.5471707e-3 / l2 + 7.501966e-6 / l4 + 2.802632e-6 / l6;
        double plain = t * (-5.2883907e-6 + t * (-3.0738272e-6 + t * (3.0124687e-8 + t * -2.0883178e-10)));
        double crossed = t * (1.0508621e-5 + t * (2.1282248e-7 + t * -1.705881e-9));
        return dispersion + plain + crossed * l;
    }

    private static double millardSeaverPerSalinity(double t, double l) {
        double l2 = l * l;
        double plain = t * (-7.3960297e-7 + t * (8.9818478e-9 + t * 1.2078804e-10));
        double crossed = t * l;
        return 1.9029121e-4 + 2.4239607e-6 / l2 + plain - 3.589495e-7 * crossed;
    }

    /**
     * How much salinity raises the index at 20 °C and the sodium D line, per unit of practical salinity: both fits are
     * straight lines in salinity. Quan and Fry's figure.
     */
    static final double PER_SALINITY_AT_20 =
            QUAN_FRY[1] + 20 * (QUAN_FRY[2] + 20 * QUAN_FRY[3]) + QUAN_FRY[6] / SODIUM_D_NANOMETRES;
}
