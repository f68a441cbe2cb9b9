package app.tankround.rounds.solver;

/**
 * What a plan's parts cost, in any one unit that the caller chooses, such as a thousandth of a cent.
 *
 * @param perDrivingSecond for each second on the road, 0 to 1 000 000
 * @param perMetre for each metre driven, 0 to 1 000 000
 * @param perOvertimeSecond for each second after the regular end of a shift, 0 to 1 000 000
 * @param perRound for each shift in which a van leaves the depot that would not be {@link VanShift#out} otherwise, 0 to 10^12
 */
public record FleetWeights(long perDrivingSecond, long perMetre, long perOvertimeSecond, long perRound) {

    private static final long MAX_RATE = 1_000_000;
    private static final long MAX_PER_ROUND = 1_000_000_000_000L;

    /** Refuses, with {@link IllegalArgumentException}, values outside the ranges above. */
    public FleetWeights {
        for (long rate : new long[] {perDrivingSecond, perMetre, perOvertimeSecond}) {
            if (rate < 0 || rate > MAX_RATE) {
                throw new IllegalArgumentException("A rate must be 0 to " + MAX_RATE + ", not " + rate);
            }
        }
        if (perRound < 0 || perRound > MAX_PER_ROUND) {
            throw new IllegalArgumentException("The cost of a round must be 0 to 10^12, not " + perRound);
        }
    }
}
