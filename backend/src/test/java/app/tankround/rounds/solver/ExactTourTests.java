package app.tankround.rounds.solver;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class ExactTourTests {

    private static final int SEEDS = 1000;

    /** What a day had in it; what no order serves has nothing. */
    private record Compared(boolean possible, boolean disinfected, boolean overtime, boolean reloaded) {}

    @Test
    void findsLeastCostOfAllOrdersUnderEveryRule() {
        List<Compared> days = IntStream.range(0, SEEDS)
                .parallel()
                .mapToObj(ExactTourTests::compare)
                .toList();
        // The comparison is worth something only if each kind of day is well represented.
        assertThat(days.stream().filter(Compared::possible)).hasSizeBetween(SEEDS / 5, SEEDS * 4 / 5);
        assertThat(days.stream().filter(Compared::disinfected)).hasSizeGreaterThan(SEEDS / 100);
        assertThat(days.stream().filter(Compared::overtime)).hasSizeGreaterThan(SEEDS / 20);
        assertThat(days.stream().filter(Compared::reloaded)).hasSizeGreaterThan(SEEDS / 20);
    }

    private static Compared compare(int seed) {
        FleetProblem problem = oneShift(FleetProblems.random(seed, 1 + seed % 8));
        List<Integer> best = new ArrayList<>();
        long least = leastOfAllOrders(problem, new ArrayList<>(), 0, Long.MAX_VALUE, best);
        Tour tour = tour(problem);
        SubsetProgramme.Outcome found = ExactTour.search(tour, Long.MAX_VALUE);
        assertThat(found.complete()).isTrue();
        if (best.isEmpty()) {
            assertThat(found.order()).as("seed %d", seed).isNull();
            return new Compared(false, false, false, false);
        }
        assertThat(found.order()).as("seed %d", seed).isNotNull();
        List<Integer> order = Arrays.stream(found.order()).boxed().toList();
        FleetChecker checker = new FleetChecker(problem);
        assertThat(checker.complaints(0, order)).as("seed %d", seed).isEmpty();
        assertThat(cost(problem, order)).as("seed %d", seed).isEqualTo(least);
        // Nothing costs less: what the search proves is the value itself.
        assertThat(ExactTour.search(tour, least).order()).as("seed %d", seed).isNull();
        assertThat(ExactTour.search(tour, least + 1).order())
                .as("seed %d", seed)
                .isNotNull();
        VanShift shift = problem.shifts().getFirst();
        return new Compared(
                true,
                checker.disinfectionCost(shift, order) > 0,
                checker.returns(shift, order) > shift.regularEndSecond(),
                order.contains(VanRound.RELOAD));
    }

    /** Everything in the first shift, which is long enough for it as often as not, and nothing wished for. */
    private static FleetProblem oneShift(FleetProblem problem) {
        VanShift first = problem.shifts().getFirst();
        int vans = problem.reload() == null ? 2 : 1;
        VanShift shift = new VanShift(
                0,
                first.depot(),
                first.returnsTo(),
                first.startSecond(),
                first.regularEndSecond(),
                first.latestEndSecond() + 10_000,
                new Cargo(first.capacity().grams() * vans, first.capacity().millilitres() * vans),
                first.skills(),
                first.crew(),
                first.startsSick(),
                first.out(),
                first.rest());
        List<FleetStop> stops = problem.stops().stream()
                .map(stop -> new FleetStop(
                        stop.serviceSeconds() / 2,
                        stop.opensSecond(),
                        Math.min(FleetStop.LAST_SECOND, stop.closesSecond() + 9000),
                        stop.delivered(),
                        stop.collected(),
                        Set.of(),
                        stop.arrivesAs(),
                        stop.leavesAs(),
                        stop.unplacedPenalty(),
                        List.of(List.of(0))))
                .toList();
        return new FleetProblem(
                stops,
                List.of(shift),
                problem.travel(),
                problem.weights(),
                problem.disinfection(),
                Evenness.NONE,
                problem.reload());
    }

    private static Tour tour(FleetProblem problem) {
        Tour tour = new Tour(new FleetArrays(problem), 0);
        for (int stop = 0; stop < problem.stops().size(); stop++) {
            tour.insert(stop, stop);
        }
        return tour;
    }

    private static long leastOfAllOrders(
            FleetProblem problem, List<Integer> order, int stops, long least, List<Integer> best) {
        FleetChecker checker = new FleetChecker(problem);
        long found = least;
        if (stops == problem.stops().size()) {
            if (!order.isEmpty() && order.getLast() == VanRound.RELOAD) {
                return least;
            }
            long cost = cost(problem, order);
            if (cost < least && checker.complaints(0, order).isEmpty()) {
                best.clear();
                best.addAll(order);
                return cost;
            }
            return least;
        }
        // Legs only add up, and what is late stays late.
        if (legs(problem, order) >= least || problem.reload() != null && checker.hopeless(0, order)) {
            return least;
        }
        for (int stop = 0; stop < problem.stops().size(); stop++) {
            if (!order.contains(stop)) {
                order.add(stop);
                found = leastOfAllOrders(problem, order, stops + 1, found, best);
                order.removeLast();
            }
        }
        if (problem.reload() != null && !order.isEmpty() && order.getLast() != VanRound.RELOAD) {
            order.add(VanRound.RELOAD);
            found = leastOfAllOrders(problem, order, stops, found, best);
            order.removeLast();
        }
        return found;
    }

    /** Cost of the way to the last of these stops. */
    private static long legs(FleetProblem problem, List<Integer> order) {
        VanShift shift = problem.shifts().getFirst();
        FleetWeights weights = problem.weights();
        int here = TravelTimes.depot(shift.depot());
        long cost = 0;
        for (int stop : order) {
            int next = stop == VanRound.RELOAD ? TravelTimes.depot(shift.returnsTo()) : stop;
            TravelLeg leg = problem.travel().leg(here, next);
            cost += weights.perDrivingSecond() * leg.seconds() + weights.perMetre() * leg.metres();
            here = next;
        }
        return cost;
    }

    private static long cost(FleetProblem problem, List<Integer> order) {
        FleetChecker checker = new FleetChecker(problem);
        VanShift shift = problem.shifts().getFirst();
        FleetWeights weights = problem.weights();
        return weights.perDrivingSecond() * checker.driving(shift, order)
                + weights.perMetre() * checker.metres(shift, order)
                + weights.perOvertimeSecond() * Math.max(0, checker.returns(shift, order) - shift.regularEndSecond())
                + checker.disinfectionCost(shift, order)
                + checker.reloadCost(order);
    }
}
