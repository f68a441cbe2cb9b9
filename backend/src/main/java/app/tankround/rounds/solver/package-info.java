/**
 * Orders the stops of one van's round: plain calculators, values in and result records out.
 *
 * <p>Rules that hold throughout the package:
 *
 * <ul>
 *   <li>A stop is named by its index, 0 to n - 1, in the list of stops; the depot is {@link TravelTimes#DEPOT}.
 *   <li>Windows, service and start are whole minutes of the local day; everything calculated is in whole seconds since
 *       the start of that day and may pass 86 400 s when a round runs past midnight.
 *   <li>A van that is early waits. Work must start by the end of the window; work starting exactly then is 0 s late.
 *   <li>Every sick stop comes after every stop that is not sick; this is never traded for time.
 *   <li>Plans are compared by {@link RoundCost}: lateness, then driving time, then distance.
 * </ul>
 */
@NullMarked
package app.tankround.rounds.solver;

import org.jspecify.annotations.NullMarked;
