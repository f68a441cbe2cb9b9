package app.tankround.chemistry;

import app.tankround.units.InputKind;
import app.tankround.units.Ranges;

/**
 * Waves of small height on water of constant depth, by the dispersion relation w2 = g k tanh(k h), and those that stand
 * in a closed rectangular basin, k = n pi / L (USACE, Coastal Engineering Manual EM 1110-2-1100, II-1 and II-5). Merian's
 * formula is the limit of long waves: 19 % too short in a tank of 1.2 m by 0.5 m.
 */
public final class StandingWave {

    /** Standard acceleration for this purpose, m/s2. */
    public static final double GRAVITY = 9.81;

    private StandingWave() {}

    /**
     * Period of a mode of a closed rectangular basin in seconds.
     *
     * @param length in the direction of the motion, m, above 0
     * @param depth of the water, m, above 0
     * @param mode number of half waves in the length, from 1
     * @param gravity in m/s2
     */
    public static double period(double length, double depth, int mode, double gravity) {
        double k = waveNumber(length, depth, mode);
        return 2 * Math.PI / Math.sqrt(gravity * k * tanh(k * depth));
    }

    /** Period by Merian's formula 2 L / (n sqrt(g h)), right only for basins much longer than deep; arguments as above. */
    public static double merianPeriod(double length, double depth, int mode, double gravity) {
        waveNumber(length, depth, mode);
        return 2 * length / (mode * Math.sqrt(gravity * depth));
    }

    /** Length in m of a wave of a period in seconds on water of a depth in m. */
    public static double wavelength(double period, double depth, double gravity) {
        require(period);
        require(depth);
        double frequency = 2 * Math.PI / period;
        double square = frequency * frequency;
        double deep = square / gravity;
        double shallow = frequency / Math.sqrt(gravity * depth);
        double k = Bisection.whereRises(x -> gravity * x * tanh(x * depth), square, 0, deep + shallow);
        return 2 * Math.PI / k;
    }

    /** Length in m of a wave of a period in seconds on deep water. */
    public static double deepWaterWavelength(double period, double gravity) {
        return gravity * require(period) * period / (2 * Math.PI);
    }

    /** Wavelength by the approximation L0 sqrt(tanh(2 pi d / L0)) (Coastal Engineering Manual, II-1-11), as a check. */
    public static double approximateWavelength(double deepWaterWavelength, double depth) {
        return deepWaterWavelength * Math.sqrt(tanh(2 * Math.PI * require(depth) / require(deepWaterWavelength)));
    }

    private static double waveNumber(double length, double depth, int mode) {
        Ranges.require(InputKind.COUNT, mode, 1, 100);
        require(depth);
        return mode * Math.PI / require(length);
    }

    private static double require(double positive) {
        return Ranges.require(InputKind.DISTANCE, positive, Double.MIN_NORMAL, Double.POSITIVE_INFINITY);
    }

    private static double tanh(double x) {
        double e = Math.exp(-2 * x);
        return (1 - e) / (1 + e);
    }
}
