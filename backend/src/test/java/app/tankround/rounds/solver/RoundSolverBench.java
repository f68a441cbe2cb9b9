package app.tankround.rounds.solver;

import java.lang.management.ManagementFactory;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.Set;

/**
 * Prints how long rounds of some sizes take, as median and worst of many, and against 12 stops; run by hand. Times are of the
 * processor in the one thread that solves, so that other work on the machine counts less.
 */
final class RoundSolverBench {

    private static final int WARM_UP = 30;
    private static final int ROUNDS = 40;

    private RoundSolverBench() {}

    public static void main(String[] args) {
        double reference = 0;
        for (boolean windows : new boolean[] {true, false}) {
            for (int stops : new int[] {12, 10, 15}) {
                double[] millis = times(stops, windows);
                reference = reference == 0 ? millis[ROUNDS / 2] : reference;
                System.out.printf(
                        Locale.ROOT,
                        "%d stops, town %s: median %.1f ms, worst %.1f ms, ratio to 12 stops with windows %.1f%n",
                        stops,
                        windows ? "with windows" : "without windows",
                        millis[ROUNDS / 2],
                        millis[ROUNDS - 1],
                        millis[ROUNDS / 2] / reference);
            }
        }
        for (int stops : new int[] {12, 15}) {
            daysUnderEveryRule(stops);
        }
        lateRounds();
        RoundProblem longRound = RoundProblems.town(1, 100, true);
        long begin = cpuNanos();
        RoundPlan plan = RoundSolver.withDefaults().solve(longRound);
        System.out.printf(
                Locale.ROOT, "100 stops, local search: %.0f ms, %s%n", (cpuNanos() - begin) / 1e6, plan.cost());
    }

    /** Days as the planner of many vans polishes them: windows that must be met, infection order, payload on every leg. */
    private static void daysUnderEveryRule(int count) {
        double[] millis = new double[ROUNDS];
        int possible = 0;
        for (int round = -WARM_UP; round < ROUNDS; round++) {
            RoundProblem town = RoundProblems.town(round, count, true);
            Random random = new Random(round);
            List<FleetStop> stops = town.stops().stream()
                    .map(stop -> new FleetStop(
                            stop.serviceMinutes() * 20,
                            stop.window() == null ? 0 : stop.window().fromMinute() * 60,
                            stop.window() == null ? 86_400 : stop.window().untilMinute() * 60,
                            new Cargo(20_000 + random.nextInt(60_000), 20_000 + random.nextInt(60_000)),
                            new Cargo(20_000 + random.nextInt(60_000), 20_000 + random.nextInt(60_000)),
                            Set.of(),
                            stop.arrivesAs(),
                            stop.leavesAs(),
                            1_000_000,
                            List.of(List.of(0))))
                    .toList();
            int capacity = count * 60_000;
            VanShift shift =
                    new VanShift(0, 0, 8 * 3600, 16 * 3600, 20 * 3600, new Cargo(capacity, capacity), Set.of());
            FleetProblem problem = new FleetProblem(
                    stops,
                    List.of(shift),
                    town.travel(),
                    new FleetWeights(10, 1, 15, 0),
                    new Disinfection(1800, 20_000));
            Tour tour = new Tour(new FleetArrays(problem), 0);
            for (int stop = 0; stop < count; stop++) {
                tour.insert(stop, stop);
            }
            long begin = cpuNanos();
            SubsetProgramme.Outcome outcome = ExactTour.search(tour, Long.MAX_VALUE);
            if (!outcome.complete()) {
                throw new IllegalStateException("Day " + round + " of " + count + " stops was not solved exactly");
            }
            if (round >= 0) {
                millis[round] = (cpuNanos() - begin) / 1e6;
                possible += outcome.order() == null ? 0 : 1;
            }
        }
        Arrays.sort(millis);
        System.out.printf(
                Locale.ROOT,
                "%d stops, windows, infection order and payload: median %.1f ms, worst %.1f ms, %d of %d possible%n",
                count,
                millis[ROUNDS / 2],
                millis[ROUNDS - 1],
                possible,
                ROUNDS);
    }

    /** Rounds that cannot meet their windows leave the bound least to go by. */
    private static void lateRounds() {
        for (int stops : new int[] {12, 15}) {
            double worst = 0;
            double sum = 0;
            for (int seed = 0; seed < ROUNDS; seed++) {
                RoundProblem problem = RoundProblems.random(seed, stops);
                long begin = cpuNanos();
                RoundPlan plan = RoundSolver.withDefaults().solve(problem);
                double millis = (cpuNanos() - begin) / 1e6;
                if (!plan.proven()) {
                    throw new IllegalStateException("Round " + seed + " of " + stops + " stops was not solved exactly");
                }
                worst = Math.max(worst, millis);
                sum += millis;
            }
            System.out.printf(
                    Locale.ROOT, "%d stops, mostly late: mean %.1f ms, worst %.1f ms%n", stops, sum / ROUNDS, worst);
        }
    }

    private static double[] times(int stops, boolean windows) {
        RoundSolver solver = RoundSolver.withDefaults();
        double[] millis = new double[ROUNDS];
        for (int round = -WARM_UP; round < ROUNDS; round++) {
            RoundProblem problem = RoundProblems.town(round, stops, windows);
            long begin = cpuNanos();
            RoundPlan plan = solver.solve(problem);
            if (!plan.proven()) {
                throw new IllegalStateException("Round " + round + " of " + stops + " stops was not solved exactly");
            }
            if (round >= 0) {
                millis[round] = (cpuNanos() - begin) / 1e6;
            }
        }
        Arrays.sort(millis);
        return millis;
    }

    private static long cpuNanos() {
        return ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
    }
}
