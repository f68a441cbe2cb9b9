package app.tankround.chemistry;

/** Combining uncertainties as in the Guide to the Expression of Uncertainty in Measurement, JCGM 100:2008, 4.3 and 5.1. */
public final class Uncertainty {

    /** Coverage factor of every expanded uncertainty here. */
    static final double COVERAGE = 2;

    private Uncertainty() {}

    static double combine(double first, double second) {
        double a = first * first;
        double b = second * second;
        return Math.sqrt(a + b);
    }

    /** Standard uncertainty of a value known to lie within a half-width. */
    public static double rectangular(double halfWidth) {
        return halfWidth / Math.sqrt(3.0);
    }

    /** Standard uncertainty of a value that swings as a sine does, by half the distance of its ends (H.1.3.4). */
    public static double arcsine(double halfWidth) {
        return halfWidth / Math.sqrt(2.0);
    }

    static double ofResolution(double resolution) {
        return rectangular(0.5 * resolution);
    }
}
