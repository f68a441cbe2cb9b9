package app.tankround.chemistry;

/**
 * How many decimals of a value to show: as many as its expanded uncertainty allows. At most two significant digits of the
 * uncertainty are given (JCGM 100:2008, 7.2.6): two where it begins with 1 or 2, one otherwise (own choice), and the value
 * to the same place.
 */
public final class ShownDigits {

    /** More are never shown. */
    public static final int MOST_DECIMALS = 6;

    /** Shown where nothing is known of the uncertainty. */
    private static final int WITHOUT_UNCERTAINTY = 2;

    /** Uncertainties from which on a decimal fewer is shown; literals, equal everywhere. */
    private static final double[] FEWER_FROM = {3e-5, 3e-4, 3e-3, 3e-2, 3e-1, 3};

    private ShownDigits() {}

    /**
     * Decimals to show.
     *
     * @param expandedUncertainty k = 2, in the unit that is shown
     * @return 0 to 6
     */
    public static int decimals(double expandedUncertainty) {
        if (!(expandedUncertainty > 0)) {
            return WITHOUT_UNCERTAINTY;
        }
        int decimals = MOST_DECIMALS;
        for (double from : FEWER_FROM) {
            if (expandedUncertainty >= from) {
                decimals--;
            }
        }
        return decimals;
    }
}
