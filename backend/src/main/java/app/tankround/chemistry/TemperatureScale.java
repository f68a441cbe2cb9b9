package app.tankround.chemistry;

/** EOS-80 and PSS-78 were fitted on IPTS-68: t68 = 1.00024 t90 (Saunders 1990, WOCE Newsletter 10). */
final class TemperatureScale {

    private TemperatureScale() {}

    static double t68(double t90) {
        return 1.00024 * t90;
    }
}
