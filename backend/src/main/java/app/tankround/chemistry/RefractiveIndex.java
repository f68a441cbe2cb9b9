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

    private RefractiveIndex() {}

    /**
     * Quan and Fry 1995, Applied Optics 34, 3477.
     *
     * @param salinity 0 to 35
     * @param temperature 0 to 30 °C
     * @param nanometres wavelength, 400 to 700
     */
    public static double quanFry(Salinity salinity, Temperature temperature, double nanometres) {
        double s = Ranges.require(InputKind.PRACTICAL_SALINITY, salinity.practical(), 0, 35);
        double t = Ranges.require(InputKind.TEMPERATURE, temperature.celsius(), 0, 30);
        double l = Ranges.require(InputKind.WAVELENGTH, nanometres, 400, 700);
        double perSalinity = 1.779e-4 + t * (-1.05e-6 + t * 1.6e-8);
        double perLength = 15.868 + 0.01155 * s - 0.00423 * t;
        double l2 = l * l;
        double l3 = l2 * l;
        return 1.31405 + perSalinity * s - 2.02e-6 * t * t + perLength / l - 4382 / l2 + 1.1455e6 / l3;
    }

    /**
     * Millard and Seaver 1990, Deep-Sea Research 37, 1909, at the surface.
     *
     * @param salinity 0 to 43
     * @param temperature 0 to 30 °C
     * @param nanometres wavelength, 500 to 700
     */
    public static double millardSeaver(Salinity salinity, Temperature temperature, double nanometres) {
        double s = Ranges.require(InputKind.PRACTICAL_SALINITY, salinity.practical(), 0, 43);
        double t = Ranges.require(InputKind.TEMPERATURE, temperature.celsius(), 0, 30);
        double l = Ranges.require(InputKind.WAVELENGTH, nanometres, 500, 700) / 1000;
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
    static final double PER_SALINITY_AT_20 = 1.779e-4 + 20 * (-1.05e-6 + 20 * 1.6e-8) + 0.01155 / SODIUM_D_NANOMETRES;
}
