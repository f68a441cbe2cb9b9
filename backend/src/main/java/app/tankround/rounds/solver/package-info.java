/**
 * Orders the stops of one van's round ({@link app.tankround.rounds.solver.RoundSolver}), and shares visits among vans and
 * days ({@link app.tankround.rounds.solver.FleetPlanner}): plain calculators, values in and result records out.
 *
 * <p>Rules of one van's round:
 *
 * <ul>
 *   <li>A stop is named by its index, 0 to n - 1, in the list of stops; the depot is {@link TravelTimes#DEPOT}.
 *   <li>Windows, service and start are whole minutes of the local day; everything calculated is in whole seconds since
 *       the start of that day and may pass 86 400 s when a round runs past midnight.
 *   <li>A van that is early waits. Work must start by the end of the window; work starting exactly then is 0 s late.
 *   <li>A stop arrives as its cleanest system and leaves as its sickest. No stop that arrives clean follows one that was
 *       left sick, unless the crew disinfects in between; that is never traded for time, and happens only where several
 *       stops hold clean and sick systems.
 *   <li>Plans are compared by {@link RoundCost}: legs that cannot be driven, then disinfections, then lateness, then driving
 *       time, then distance.
 * </ul>
 *
 * <p>Rules of a fleet: all is in whole seconds of the local day. Windows, skills, load on every leg and the latest end of a
 * shift are never broken; a stop that would break one is left out instead, at its penalty. A van leaves at the start of
 * its shift and waits where it is early. After a stop that leaves sick no stop follows that arrives clean, unless the problem
 * allows to disinfect and the time and the cost of it are counted: so of two sites that hold both, each needs a round of its
 * own where it does not. Each shift's order is exact in the end, as far as it has 15 stops or fewer.
 */
@NullMarked
package app.tankround.rounds.solver;

import org.jspecify.annotations.NullMarked;
