package app.tankround.rounds.solver;

import java.util.List;

/**
 * A plan that keeps every hard rule, the best one that was found; nothing proves that there is no better one.
 *
 * @param problem what was planned
 * @param rounds the shifts in which a van leaves the depot, in the order of the shifts
 * @param unplaced indexes of the stops left out, rising
 * @param cost the totals
 */
public record FleetPlan(FleetProblem problem, List<VanRound> rounds, List<Integer> unplaced, FleetCost cost) {

    public FleetPlan {
        rounds = List.copyOf(rounds);
        unplaced = List.copyOf(unplaced);
    }
}
