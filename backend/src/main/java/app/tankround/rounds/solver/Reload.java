package app.tankround.rounds.solver;

/**
 * What it takes to go back to the depot in the middle of a shift: waste water is let out and what the stops after it need is
 * taken. Whoever comes from a stop that was left sick disinfects first, since what is handled at the depot goes to clean
 * systems too; common practice, no source.
 *
 * @param seconds at the depot, the way there and back not counted, 0 to 14 400 s
 * @param cost of it, in the unit of {@link FleetWeights}, 0 to 10^10
 */
public record Reload(int seconds, long cost) {

    private static final int MAX_SECONDS = 14_400;
    private static final long MAX_COST = 10_000_000_000L;

    /** Refuses, with {@link IllegalArgumentException}, values outside the ranges above. */
    public Reload {
        if (seconds < 0 || seconds > MAX_SECONDS || cost < 0 || cost > MAX_COST) {
            throw new IllegalArgumentException(
                    "A reload must take 0 to 14400 seconds and cost 0 to 10^10, not " + seconds + ", " + cost);
        }
    }
}
