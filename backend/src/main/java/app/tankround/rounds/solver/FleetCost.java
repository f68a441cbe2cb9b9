package app.tankround.rounds.solver;

/**
 * What a plan for a fleet costs.
 *
 * @param drivingSeconds time on the road
 * @param metres distance driven
 * @param overtimeSeconds time after the regular end, over all shifts
 * @param rounds shifts in which the van leaves the depot
 * @param penalty sum over the stops left out
 * @param total all of these under the problem's {@link FleetWeights}
 */
public record FleetCost(long drivingSeconds, long metres, long overtimeSeconds, int rounds, long penalty, long total) {}
