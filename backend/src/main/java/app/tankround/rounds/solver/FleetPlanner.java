package app.tankround.rounds.solver;

import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;

/**
 * Plans many vans on one or many days by slack induction by string removals ({@link StringRemoval},
 * {@link GreedyInsertion}) under simulated annealing. The result depends on problem, seed and the budget's answers only.
 * Immutable and safe to share between threads; one search uses one thread.
 */
public final class FleetPlanner {

    /** Plans tried between two looks at the budget. */
    private static final int BETWEEN_LOOKS = 16;
    /** Temperatures, as parts of the average cost of a visit in the first plan. */
    private static final double FIRST_TEMPERATURE = 0.5;

    private static final double LAST_TEMPERATURE = 0.05;
    private static final double TOLD_EVERY = 0.01;

    private final Consumer<FleetProgress> listener;
    private final BooleanSupplier stop;
    private final Map<Integer, List<Integer>> start;

    private FleetPlanner(Consumer<FleetProgress> listener, BooleanSupplier stop, Map<Integer, List<Integer>> start) {
        this.listener = listener;
        this.stop = stop;
        this.start = start;
    }

    /** Tells nobody how far it is and runs until its budget is spent. */
    public static FleetPlanner withDefaults() {
        return new FleetPlanner(progress -> {}, () -> false, Map.of());
    }

    /** The same planner that tells the first plan and then each hundredth of the budget, in the searching thread. */
    public FleetPlanner withListener(Consumer<FleetProgress> told) {
        return new FleetPlanner(told, stop, start);
    }

    /** The same planner that ends with the best plan so far once this says so; it is asked every few plans. */
    public FleetPlanner withStop(BooleanSupplier asked) {
        return new FleetPlanner(listener, asked, start);
    }

    /**
     * The same planner that begins with these orders of stops, by shift, as far as they keep the rules; each stop only once,
     * and visited on one day only.
     */
    public FleetPlanner withStart(Map<Integer, List<Integer>> orders) {
        return new FleetPlanner(listener, stop, Map.copyOf(orders));
    }

    /** The best plan found; a stop for which no place was found, or only one dearer than its penalty, is left out. */
    public FleetPlan solve(FleetProblem problem, long seed, SearchBudget budget) {
        FleetArrays fleet = new FleetArrays(problem);
        FleetState state = new FleetState(fleet);
        BestPlan best = new BestPlan(state);
        if (fleet.n > 0 && fleet.kinds > 0) {
            anneal(state, best, new SplittableRandom(seed), budget);
            best.polish();
        }
        return plan(state, best);
    }

    private void anneal(FleetState state, BestPlan best, SplittableRandom random, SearchBudget budget) {
        StringRemoval removal = new StringRemoval(state, random);
        GreedyInsertion insertion = new GreedyInsertion(state, random);
        insertion.takeOver(start);
        insertion.placeAll();
        state.keep();
        best.take(state);
        double scale = Math.max(1, costPerVisit(state));
        long current = best.cost();
        long iterations = 0;
        double told = 0;
        double spent = budget.spent(0);
        listener.accept(new FleetProgress(Math.clamp(spent, 0, 1), 0, best.unplaced(), best.cost()));
        while (spent < 1 && !stop.getAsBoolean()) {
            double temperature = scale * FIRST_TEMPERATURE * Math.pow(LAST_TEMPERATURE / FIRST_TEMPERATURE, spent);
            for (int k = 0; k < BETWEEN_LOOKS; k++) {
                removal.run();
                insertion.run(removal.removed, removal.count);
                long cost = state.cost();
                if (cost < current - temperature * Math.log(random.nextDouble())) {
                    state.keep();
                    current = cost;
                    if (cost < best.cost()) {
                        best.take(state);
                    }
                } else {
                    state.undo();
                }
            }
            iterations += BETWEEN_LOOKS;
            spent = budget.spent(iterations);
            if (spent >= 1 || spent >= told + TOLD_EVERY) {
                told = spent;
                listener.accept(new FleetProgress(Math.min(1, spent), iterations, best.unplaced(), best.cost()));
            }
        }
    }

    private static double costPerVisit(FleetState state) {
        long cost = 0;
        int visits = 0;
        for (Tour tour : state.tours) {
            cost += tour.cost;
            visits += tour.stops();
        }
        return (double) cost / Math.max(1, visits);
    }

    private static FleetPlan plan(FleetState state, BestPlan best) {
        FleetProblem problem = state.fleet.problem;
        List<VanRound> rounds = best.rounds();
        long drivingSeconds = 0;
        long metres = 0;
        long overtime = 0;
        int disinfections = 0;
        int reloads = 0;
        for (VanRound round : rounds) {
            VanShift shift = problem.shifts().get(round.shift());
            int at = TravelTimes.depot(shift.depot());
            boolean sick = shift.startsSick();
            for (int visit : round.order()) {
                boolean reload = visit == VanRound.RELOAD;
                int next = reload ? TravelTimes.depot(shift.returnsTo()) : visit;
                TravelLeg leg = problem.travel().leg(at, next);
                drivingSeconds += leg.seconds();
                metres += leg.metres();
                reloads += reload ? 1 : 0;
                disinfections += sick
                                && (reload
                                        || !problem.stops()
                                                .get(visit)
                                                .arrivesAs()
                                                .isSick())
                        ? 1
                        : 0;
                sick = !reload && problem.stops().get(visit).leavesAs().isSick();
                at = next;
            }
            TravelLeg back = problem.travel().leg(at, TravelTimes.depot(shift.returnsTo()));
            drivingSeconds += back.seconds();
            metres += back.metres();
            overtime += Math.max(0, round.returnSecond() - shift.regularEndSecond());
        }
        List<Integer> unplaced = best.out();
        long penalty = unplaced.stream()
                .mapToLong(stop -> problem.stops().get(stop).unplacedPenalty())
                .sum();
        FleetWeights weights = problem.weights();
        Disinfection disinfection = problem.disinfection();
        Reload reload = problem.reload();
        long withoutWishes = drivingSeconds * weights.perDrivingSecond()
                + metres * weights.perMetre()
                + overtime * weights.perOvertimeSecond()
                + rounds.stream()
                        .mapToLong(round -> problem.perRound(problem.shifts().get(round.shift())))
                        .sum()
                + (disinfection == null ? 0 : disinfections * disinfection.cost())
                + (reload == null ? 0 : reloads * reload.cost())
                + penalty;
        return new FleetPlan(
                problem,
                rounds,
                unplaced,
                new FleetCost(
                        drivingSeconds,
                        metres,
                        overtime,
                        rounds.size(),
                        disinfections,
                        reloads,
                        best.cost() - withoutWishes,
                        penalty,
                        best.cost()));
    }
}
