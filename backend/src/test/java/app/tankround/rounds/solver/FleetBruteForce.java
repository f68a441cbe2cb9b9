package app.tankround.rounds.solver;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;

/** Least cost of a tiny problem by trying every order of every set of stops on every shift, judged by the checker. */
final class FleetBruteForce {

    private static final long IMPOSSIBLE = Long.MAX_VALUE / 100;

    private final FleetProblem problem;
    private final FleetChecker checker;
    /** Per shift and set of stops, as bits, what visiting just those costs. */
    private final long[][] cheapest;

    private long least = IMPOSSIBLE;

    private FleetBruteForce(FleetProblem problem) {
        this.problem = problem;
        checker = new FleetChecker(problem);
        cheapest = new long[problem.shifts().size()][1 << problem.stops().size()];
    }

    static long leastCost(FleetProblem problem) {
        FleetBruteForce all = new FleetBruteForce(problem);
        for (int shift = 0; shift < problem.shifts().size(); shift++) {
            Arrays.fill(all.cheapest[shift], IMPOSSIBLE);
            all.tryOrders(shift, new ArrayList<>(), 0);
        }
        all.tryDays(0, new int[problem.shifts().size()], 0);
        return all.least;
    }

    private void tryOrders(int shift, List<Integer> order, int set) {
        if (checker.complaints(shift, order).isEmpty()) {
            cheapest[shift][set] = Math.min(cheapest[shift][set], cost(shift, order));
        }
        if (checker.hopeless(shift, order)) {
            return;
        }
        if (problem.reload() != null && !order.isEmpty() && order.getLast() != VanRound.RELOAD) {
            order.add(VanRound.RELOAD);
            tryOrders(shift, order, set);
            order.removeLast();
        }
        for (int stop = 0; stop < problem.stops().size(); stop++) {
            if ((set & 1 << stop) == 0) {
                order.add(stop);
                tryOrders(shift, order, set | 1 << stop);
                order.removeLast();
            }
        }
    }

    private long cost(int shiftIndex, List<Integer> order) {
        VanShift shift = problem.shifts().get(shiftIndex);
        FleetWeights weights = problem.weights();
        return order.isEmpty()
                ? 0
                : (shift.out() ? 0 : weights.perRound())
                        + weights.perDrivingSecond() * checker.driving(shift, order)
                        + weights.perMetre() * checker.metres(shift, order)
                        + weights.perOvertimeSecond()
                                * Math.max(0, checker.returns(shift, order) - shift.regularEndSecond())
                        + checker.disinfectionCost(shift, order)
                        + checker.reloadCost(order)
                        + checker.wishes(shiftIndex, order);
    }

    private void tryDays(int stop, int[] sets, long penalty) {
        if (stop == problem.stops().size()) {
            long cost = penalty;
            for (int shift = 0; shift < sets.length; shift++) {
                cost += cheapest[shift][sets[shift]];
            }
            Map<Integer, List<Integer>> stops = new HashMap<>();
            for (int shift = 0; shift < sets.length; shift++) {
                int set = sets[shift];
                stops.put(
                        shift,
                        IntStream.range(0, stop)
                                .filter(each -> (set & 1 << each) != 0)
                                .boxed()
                                .toList());
            }
            least = Math.min(least, cost < least ? cost + checker.uneven(stops) : cost);
            return;
        }
        FleetStop placed = problem.stops().get(stop);
        tryDays(stop + 1, sets, penalty + placed.unplacedPenalty());
        for (int choice = 0; choice < placed.dayChoices().size(); choice++) {
            List<Long> costs = placed.wishes().choiceCosts();
            tryShifts(
                    stop,
                    placed.dayChoices().get(choice),
                    0,
                    sets,
                    penalty + (costs.isEmpty() ? 0 : costs.get(choice)));
        }
    }

    private void tryShifts(int stop, List<Integer> days, int next, int[] sets, long penalty) {
        if (next == days.size()) {
            tryDays(stop + 1, sets, penalty);
            return;
        }
        for (int shift = 0; shift < sets.length; shift++) {
            if (problem.shifts().get(shift).day() == days.get(next)) {
                sets[shift] |= 1 << stop;
                tryShifts(stop, days, next + 1, sets, penalty);
                sets[shift] &= ~(1 << stop);
            }
        }
    }
}
