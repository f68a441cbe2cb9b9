package app.tankround.rounds.solver;

import app.tankround.tanks.InfectionClass;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Objects;
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
    private @Nullable RoundCost best;

    RoundChecker(RoundProblem problem) {
        this.problem = problem;
    }

    List<Visit> visits(List<Integer> order) {
        return visits(order, clock());
    }

    /** When the van is back. */
    long returns(List<Integer> order) {
        CheckedClock clock = clock();
        visits(order, clock);
        clock.spend(problem.travel().leg(order.getLast(), TravelTimes.DEPOT).seconds());
        return clock.now();
    }

    private CheckedClock clock() {
        return new CheckedClock(problem.rest(), problem.startMinute() * 60L);
    }

    private List<Visit> visits(List<Integer> order, CheckedClock clock) {
        List<Visit> visits = new ArrayList<>();
        int here = TravelTimes.DEPOT;
        boolean dirty = problem.startsSick();
        for (int stop : order) {
            Stop visited = problem.stops().get(stop);
            if (dirty && !SICK.contains(visited.arrivesAs())) {
                clock.spend(problem.disinfectionMinutes() * 60L);
                dirty = false;
                if (!visits.isEmpty()) {
                    Visit left = visits.removeLast();
                    visits.add(new Visit(left.arrival(), left.begin(), clock.now(), left.waited(), left.late()));
                }
            }
            dirty |= SICK.contains(visited.leavesAs());
            TimeWindow window = visited.window();
            clock.spend(problem.travel().leg(here, stop).seconds());
            long arrival = clock.now();
            clock.begin(window == null ? 0 : window.fromMinute() * 60L);
            long begin = clock.now();
            long late = window == null ? 0 : Math.max(0, begin - window.untilMinute() * 60L);
            clock.spend(visited.serviceMinutes() * 60L);
            visits.add(new Visit(arrival, begin, clock.now(), begin - arrival, late));
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

    /** Whether, for every pair, no stop with a clean system follows one that was left sick. */
    boolean keepsCleanBeforeSick(List<Integer> order) {
        for (int early = 0; early < order.size(); early++) {
            for (int late = early + 1; late < order.size(); late++) {
                InfectionClass first = problem.stops().get(order.get(early)).leavesAs();
                InfectionClass then = problem.stops().get(order.get(late)).arrivesAs();
                if (SICK.contains(first) && !SICK.contains(then)) {
                    return false;
                }
            }
        }
        return order.isEmpty()
                || !problem.startsSick()
                || order.stream()
                        .allMatch(
                                stop -> SICK.contains(problem.stops().get(stop).arrivesAs()));
    }

    /** How often the crew has to be made clean again on the way. */
    int disinfections(List<Integer> order) {
        int count = 0;
        boolean dirty = problem.startsSick();
        for (int stop : order) {
            if (dirty && !SICK.contains(problem.stops().get(stop).arrivesAs())) {
                count++;
                dirty = false;
            }
            dirty |= SICK.contains(problem.stops().get(stop).leavesAs());
        }
        return count;
    }

    private int blockedLegs(List<Integer> order) {
        int count = 0;
        for (int k = 0; k <= order.size() && !order.isEmpty(); k++) {
            count += problem.travel().drivable(placeBefore(order, k), placeAt(order, k)) ? 0 : 1;
        }
        return count;
    }

    RoundCost cost(List<Integer> order) {
        return new RoundCost(blockedLegs(order), disinfections(order), late(order), driving(order), metres(order));
    }

    /** Least cost over all orders, by trying them all. */
    RoundCost leastOfAllOrders() {
        tryAll(new ArrayList<>());
        return Objects.requireNonNull(best);
    }

    private void tryAll(List<Integer> order) {
        if (order.size() == problem.stops().size()) {
            if (best == null || blockedLegs(order) <= best.blockedLegs()) {
                compare(cost(order));
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

    private void compare(RoundCost cost) {
        List<Long> parts = parts(cost);
        List<Long> least = best == null ? List.of() : parts(best);
        for (int k = 0; k < least.size(); k++) {
            if (!parts.get(k).equals(least.get(k))) {
                best = parts.get(k) < least.get(k) ? cost : best;
                return;
            }
        }
        best = cost;
    }

    private static List<Long> parts(RoundCost cost) {
        return List.of(
                (long) cost.blockedLegs(),
                (long) cost.disinfections(),
                cost.latenessSeconds(),
                cost.drivingSeconds(),
                cost.metres());
    }
}
