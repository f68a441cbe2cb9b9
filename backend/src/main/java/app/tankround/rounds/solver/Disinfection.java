package app.tankround.rounds.solver;

/**
 * What lets a clean stop follow one that was left sick.
 *
 * @param seconds how long it takes, 0 to 14 400 s
 * @param cost of time and materials, in the unit of {@link FleetWeights}, 0 to 10^10
 */
public record Disinfection(int seconds, long cost) {

    private static final int MAX_SECONDS = 14_400;
    private static final long MAX_COST = 10_000_000_000L;

    /** Refuses, with {@link IllegalArgumentException}, values outside the ranges above. */
    public Disinfection {
        if (seconds < 0 || seconds > MAX_SECONDS || cost < 0 || cost > MAX_COST) {
            throw new IllegalArgumentException(
                    "Disinfection must take 0 to 14400 seconds and cost 0 to 10^10, not " + seconds + ", " + cost);
        }
    }
}
