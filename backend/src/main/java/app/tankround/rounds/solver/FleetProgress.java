package app.tankround.rounds.solver;

/**
 * How far a search has come.
 *
 * @param spent part of the budget used up, 0 to 1
 * @param iterations plans tried so far
 * @param unplaced stops that the best plan so far leaves out
 * @param cost what the best plan so far costs in all, under the problem's {@link FleetWeights}
 */
public record FleetProgress(double spent, long iterations, int unplaced, long cost) {}
