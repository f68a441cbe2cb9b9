package app.tankround.rounds.solver;

import java.util.Arrays;
import java.util.Locale;

/** Prints how long rounds of some sizes take, as median and worst of many, and against 12 stops; run by hand. */
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
        lateRounds();
        RoundProblem longRound = RoundProblems.town(1, 100, true);
        long begin = System.nanoTime();
        RoundPlan plan = RoundSolver.withDefaults().solve(longRound);
        System.out.printf(
                Locale.ROOT, "100 stops, local search: %.0f ms, %s%n", (System.nanoTime() - begin) / 1e6, plan.cost());
    }

    /** Rounds that cannot meet their windows leave the bound least to go by. */
    private static void lateRounds() {
        for (int stops : new int[] {12, 15}) {
            double worst = 0;
            double sum = 0;
            for (int seed = 0; seed < ROUNDS; seed++) {
                RoundProblem problem = RoundProblems.random(seed, stops);
                long begin = System.nanoTime();
                RoundPlan plan = RoundSolver.withDefaults().solve(problem);
                double millis = (System.nanoTime() - begin) / 1e6;
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
            long begin = System.nanoTime();
            RoundPlan plan = solver.solve(problem);
            if (!plan.proven()) {
                throw new IllegalStateException("Round " + round + " of " + stops + " stops was not solved exactly");
            }
            if (round >= 0) {
                millis[round] = (System.nanoTime() - begin) / 1e6;
            }
        }
        Arrays.sort(millis);
        return millis;
    }
}
