package app.tankround.rounds.solver;

import app.tankround.tanks.InfectionClass;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Works a round out again straight from the problem, sharing no code with the solvers: clock in hand, and
 * by trying every order.
 */
final class RoundChecker {

    private static final Set<InfectionClass> SICK =
            EnumSet.of(InfectionClass.QUARANTINE, InfectionClass.SUSPECTED, InfectionClass.TREATMENT);

    record Visit(long arrival, long begin, long departure, long waited, long late) {}

    private final RoundProblem problem;
    private @Nullable List<Integer> bestOrder;
    private long bestLate;
    private long bestDriving;
    private long bestMetres;

    RoundChecker(RoundProblem problem) {
        this.problem = problem;
    }

    List<Visit> visits(List<Integer> order) {
        List<Visit> visits = new ArrayList<>();
        long clock = problem.startMinute() * 60L;
        int here = TravelTimes.DEPOT;
        for (int stop : order) {
            Stop visited = problem.stops().get(stop);
            TimeWindow window = visited.window();
            long arrival = clock + problem.travel().leg(here, stop).seconds();
            long begin = arrival;
            long late = 0;
            if (window != null && arrival < window.fromMinute() * 60L) {
                begin = window.fromMinute() * 60L;
            }
            if (window != null && begin > window.untilMinute() * 60L) {
                late = begin - window.untilMinute() * 60L;
            }
            clock = begin + visited.serviceMinutes() * 60L;
            visits.add(new Visit(arrival, begin, clock, begin - arrival, late));
            here = stop;
        }
        return visits;
    }

    long late(List<Integer> order) {
        return visits(order).stream().mapToLong(Visit::late).sum();
    }

    long driving(List<Integer> order) {
        long sum = 0;
        for (int k = 0; k <= order.size() && !order.isEmpty(); k++) {
            sum += problem.travel()
                    .leg(placeBefore(order, k), placeAt(order, k))
                    .seconds();
        }
        return sum;
    }

    long metres(List<Integer> order) {
        long sum = 0;
        for (int k = 0; k <= order.size() && !order.isEmpty(); k++) {
            sum += problem.travel()
                    .leg(placeBefore(order, k), placeAt(order, k))
                    .metres();
        }
        return sum;
    }

    private static int placeBefore(List<Integer> order, int k) {
        return k == 0 ? TravelTimes.DEPOT : order.get(k - 1);
    }

    private static int placeAt(List<Integer> order, int k) {
        return k == order.size() ? TravelTimes.DEPOT : order.get(k);
    }

    /** Whether, for every pair, no stop free of infection follows a sick one. */
    boolean keepsCleanBeforeSick(List<Integer> order) {
        for (int early = 0; early < order.size(); early++) {
            for (int late = early + 1; late < order.size(); late++) {
                InfectionClass first = problem.stops().get(order.get(early)).leavesAs();
                InfectionClass then = problem.stops().get(order.get(late)).leavesAs();
                if (SICK.contains(first) && !SICK.contains(then)) {
                    return false;
                }
            }
        }
        return true;
    }

    /** Least cost over all allowed orders, by trying them all. */
    RoundCost leastOfAllOrders() {
        tryAll(new ArrayList<>());
        return new RoundCost(bestLate, bestDriving, bestMetres);
    }

    private void tryAll(List<Integer> order) {
        if (order.size() == problem.stops().size()) {
            if (keepsCleanBeforeSick(order)) {
                compare(order);
            }
            return;
        }
        for (int stop = 0; stop < problem.stops().size(); stop++) {
            if (!order.contains(stop)) {
                order.add(stop);
                tryAll(order);
                order.removeLast();
            }
        }
    }

    private void compare(List<Integer> order) {
        long late = late(order);
        if (bestOrder != null && late > bestLate) {
            return;
        }
        long driving = driving(order);
        long metres = metres(order);
        boolean better = bestOrder == null
                || late < bestLate
                || late == bestLate && driving < bestDriving
                || late == bestLate && driving == bestDriving && metres < bestMetres;
        if (better) {
            bestOrder = List.copyOf(order);
            bestLate = late;
            bestDriving = driving;
            bestMetres = metres;
        }
    }
}
