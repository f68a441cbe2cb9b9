package app.tankround.rounds.solver;

/**
 * What a plan for a fleet costs.
 *
 * @param drivingSeconds time on the road
 * @param metres distance driven
 * @param overtimeSeconds time after the regular end, over all shifts
 * @param rounds shifts in which the van leaves the depot
 * @param disinfections how often a crew disinfects between two stops
 * @param reloads how often a van goes back to the depot between two stops
 * @param wishes cost of wishes that are not met
 * @param penalty sum over the stops left out
 * @param total all of these under the problem's {@link FleetWeights}
 */
public record FleetCost(
        long drivingSeconds,
        long metres,
        long overtimeSeconds,
        int rounds,
        int disinfections,
        int reloads,
        long wishes,
        long penalty,
        long total) {}
