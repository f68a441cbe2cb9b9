package app.tankround.rounds.solver;

/**
 * Travel from one place to another.
 *
 * @param seconds driving time, 0 to 86 400 s
 * @param metres distance driven, 0 to 5 000 000 m
 */
public record TravelLeg(int seconds, int metres) {

    private static final int MAX_SECONDS = 86_400;
    private static final int MAX_METRES = 5_000_000;

    /** Refuses, with {@link IllegalArgumentException}, values outside the ranges above. */
    public TravelLeg {
        if (seconds < 0 || seconds > MAX_SECONDS) {
            throw new IllegalArgumentException("Travel must take 0 to 86400 seconds, not " + seconds);
        }
        if (metres < 0 || metres > MAX_METRES) {
            throw new IllegalArgumentException("Travel must be 0 to 5000000 metres, not " + metres);
        }
    }
}
