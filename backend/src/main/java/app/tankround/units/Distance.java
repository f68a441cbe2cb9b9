package app.tankround.units;

/**
 * A distance travelled.
 *
 * @param kilometres distance in kilometres, not negative
 */
public record Distance(double kilometres) {

    /** Kilometres in an international mile, exact (NIST Handbook 44, Appendix C). */
    private static final double KILOMETRES_PER_MILE = 1.609344;

    public Distance {
        Ranges.requireNotNegative(InputKind.DISTANCE, kilometres);
    }

    public static Distance ofMetres(double metres) {
        return new Distance(metres / 1000);
    }

    public static Distance ofMiles(double miles) {
        return new Distance(miles * KILOMETRES_PER_MILE);
    }

    public double inMetres() {
        return kilometres * 1000;
    }

    public double inMiles() {
        return kilometres / KILOMETRES_PER_MILE;
    }

    public Distance plus(Distance other) {
        return new Distance(kilometres + other.kilometres);
    }
}
