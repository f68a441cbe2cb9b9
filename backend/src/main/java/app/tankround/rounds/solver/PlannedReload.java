package app.tankround.rounds.solver;

/**
 * A van at the depot between two stops, times in seconds of day.
 *
 * @param before place of the next stop among the stops of the shift, 1 or more, the first being 0
 * @param arrivalSecond when the van gets there
 * @param departureSecond when it leaves again
 */
public record PlannedReload(int before, int arrivalSecond, int departureSecond) {}
