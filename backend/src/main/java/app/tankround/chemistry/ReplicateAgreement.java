package app.tankround.chemistry;

import app.tankround.units.InputKind;
import app.tankround.units.Ranges;
import java.util.List;

/**
 * Whether readings of one thing, one after the other, lie as close together as readings of that instrument do.
 *
 * <p>ISO 5725-6:1994, 4.1 and table 1: the range of n readings exceeds its critical range, f(n) times the standard deviation of
 * repeatability, in 5 of 100 cases; a result beyond it is no result, and is measured again. The deviation is that of a reading
 * which may be one step of the scale off either way, a rectangular distribution (JCGM 100:2008, 4.3.7; that it is one step:
 * common practice, no source).
 */
public final class ReplicateAgreement {

    /** f(n) for n from 2: the upper 95 % point of the range of n draws of a normal distribution, in its deviations. */
    private static final double[] CRITICAL_RANGE = {2.8, 3.3, 3.6, 3.9, 4.0, 4.2, 4.3, 4.4, 4.5};

    private ReplicateAgreement() {}

    /** f(n) of 2 to {@value CheckPoint#MOST_READINGS} readings. */
    static double criticalFactor(int readings) {
        return CRITICAL_RANGE[readings - 2];
    }

    /**
     * The largest range with which readings agree, on the instrument's own scale.
     *
     * @param readings how many, 2 to {@value CheckPoint#MOST_READINGS}
     * @param resolution smallest step that can be read, above 0
     */
    public static double criticalRange(int readings, double resolution) {
        Ranges.require(InputKind.COUNT, readings, 2, CheckPoint.MOST_READINGS);
        return criticalFactor(readings) * Uncertainty.rectangular(resolution);
    }

    /**
     * Whether readings in a standard contradict each other: they lie further apart than readings of the instrument do, and by
     * some of them it passes and by others not, or it is off to both sides. Those that all pass, or all fail alike, say what
     * they say however far apart they lie.
     */
    public static boolean contradict(
            List<Double> readings, double trueValue, double permittedError, double resolution) {
        if (readings.size() < 2) {
            return false;
        }
        double lowest = Double.POSITIVE_INFINITY;
        double highest = Double.NEGATIVE_INFINITY;
        for (double reading : readings) {
            lowest = Math.min(lowest, reading);
            highest = Math.max(highest, reading);
        }
        double allowed = CalibrationCheck.allowed(permittedError);
        int low = side(lowest - trueValue, allowed);
        int high = side(highest - trueValue, allowed);
        // 1.0266 - 1.0256 is not quite one step in binary.
        return low != high && highest - lowest > criticalRange(readings.size(), resolution) * (1 + 1e-9);
    }

    private static int side(double error, double allowed) {
        if (error > allowed) {
            return 1;
        }
        return error < -allowed ? -1 : 0;
    }
}
