package app.tankround.chemistry;

/** EOS-80 and PSS-78 were fitted on IPTS-68: t68 = 1.00024 t90 (Saunders 1990, WOCE Newsletter 10). Degrees Celsius. */
public final class TemperatureScale {

    private static final double T68_PER_T90 = 1.00024;

    private TemperatureScale() {}

    /** Temperature on IPTS-68 of one on ITS-90. */
    public static double t68(double t90) {
        return T68_PER_T90 * t90;
    }

    /** Temperature on ITS-90 of one on IPTS-68. */
    public static double t90(double t68) {
        return t68 / T68_PER_T90;
    }
}
