package app.tankround.rounds.solver;

/** How the order of a plan came about. */
public enum PlanningMethod {
    /** Every order was considered, by dynamic programming over the sets of stops. */
    EXACT,
    /** Cheapest insertion, then moves of stops and turned stretches as long as they help. */
    LOCAL_SEARCH,
    /** The order was given by hand. */
    GIVEN
}
