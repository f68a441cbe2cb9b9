package app.tankround.rounds.solver;

import app.tankround.rounds.solver.SubsetProgramme.Outcome;

/**
 * Finds the order of the stops of one round that costs least: exactly up to a number of stops, by local search above.
 * Immutable and safe to share between threads.
 */
public final class RoundSolver {

    private static final int DEFAULT_EXACT_LIMIT = 15;
    /** About 30 bytes each; a round that needs more has nearly free windows and too many stops to be solved exactly. */
    private static final int MAX_LABELS = 6_000_000;

    private final int exactLimit;
    private final int maxLabels;

    private RoundSolver(int exactLimit, int maxLabels) {
        this.exactLimit = exactLimit;
        this.maxLabels = maxLabels;
    }

    /** Solves rounds of up to 15 stops exactly. */
    public static RoundSolver withDefaults() {
        return new RoundSolver(DEFAULT_EXACT_LIMIT, MAX_LABELS);
    }

    /**
     * The same solver with another limit. Above 15 stops the exact method is quick only where windows leave few orders;
     * where they do not and it runs out of memory set aside for it, the result is that of the local search.
     *
     * @param stops 0 to 22
     * @throws IllegalArgumentException if outside that range
     */
    public RoundSolver withExactLimit(int stops) {
        if (stops < 0 || stops > SubsetProgramme.MAX_STOPS) {
            throw new IllegalArgumentException(
                    "Limit must be 0 to " + SubsetProgramme.MAX_STOPS + " stops, not " + stops);
        }
        return new RoundSolver(stops, maxLabels);
    }

    /** The same solver that gives the exact method up at about so many labels; tests make it give up soon. */
    RoundSolver withMaxLabels(int labels) {
        return new RoundSolver(exactLimit, labels);
    }

    /** The cheapest round under the rules of this package; {@link RoundPlan#proven()} says whether it is proven so. */
    public RoundPlan solve(RoundProblem problem) {
        RoundArrays round = new RoundArrays(problem);
        int[] found = LocalSearch.solve(round);
        if (round.n > exactLimit) {
            return round.plan(found, false, PlanningMethod.LOCAL_SEARCH);
        }
        RoundCost cost = round.cost(found, round.n);
        if (cost.latenessSeconds() > 0) {
            // Where every window can be met, asking for just that is far quicker than allowing lateness.
            Outcome punctual = round.exactOnTime(cost, maxLabels);
            if (punctual.complete() && punctual.order() != null) {
                return round.plan(punctual.order(), true, PlanningMethod.EXACT);
            }
        }
        Outcome outcome = round.exact(cost, maxLabels);
        if (!outcome.complete()) {
            return round.plan(found, false, PlanningMethod.LOCAL_SEARCH);
        }
        return round.plan(outcome.order() == null ? found : outcome.order(), true, PlanningMethod.EXACT);
    }
}
