package app.tankround.rounds.solver;

import ch.qos.logback.classic.Level;
import ch.qos.logback.classic.Logger;
import com.graphhopper.jsprit.core.algorithm.VehicleRoutingAlgorithm;
import com.graphhopper.jsprit.core.algorithm.acceptor.SchrimpfAcceptance;
import com.graphhopper.jsprit.core.algorithm.box.Jsprit;
import com.graphhopper.jsprit.core.algorithm.listener.AlgorithmStartsListener;
import com.graphhopper.jsprit.core.algorithm.listener.IterationStartsListener;
import com.graphhopper.jsprit.core.problem.Location;
import com.graphhopper.jsprit.core.problem.VehicleRoutingProblem;
import com.graphhopper.jsprit.core.problem.job.Job;
import com.graphhopper.jsprit.core.problem.job.Service;
import com.graphhopper.jsprit.core.problem.solution.VehicleRoutingProblemSolution;
import com.graphhopper.jsprit.core.problem.solution.route.VehicleRoute;
import com.graphhopper.jsprit.core.problem.solution.route.activity.TimeWindow;
import com.graphhopper.jsprit.core.problem.solution.route.activity.TourActivity;
import com.graphhopper.jsprit.core.problem.vehicle.VehicleImpl;
import com.graphhopper.jsprit.core.problem.vehicle.VehicleTypeImpl;
import com.graphhopper.jsprit.core.util.FastVehicleRoutingTransportCostsMatrix;
import com.graphhopper.jsprit.core.util.Solutions;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.slf4j.LoggerFactory;

/**
 * The plan that jsprit, a general routing library, comes to with a published instance: one kind of van from one depot on one
 * day, windows, loads, and the distance as the only cost.
 *
 * <p>It gets what suits these instances: regrets as they are worked out fast, no search among vans that are all alike, and an
 * annealing that has cooled down when the budget is spent, where its own would need 2,000 rounds of ruin and recreate whatever
 * they cost. All else is as it is by default. It runs in one thread.
 */
final class JspritPlans {

    private static final int COOLING_STEPS = 10_000;

    /** Parameters {@code threshold.alpha} and {@code threshold.ini} of jsprit 1.8 as they are by default. */
    private static final double COOLING_SPEED = 0.15;

    private static final double FIRST_THRESHOLD = 0.03;

    private JspritPlans() {}

    /** The best plan until the budget is spent; null where jsprit found none that serves everybody. */
    static @Nullable FleetPlan solve(FleetProblem problem, long seed, SearchBudget budget) {
        ((Logger) LoggerFactory.getLogger("com.graphhopper.jsprit")).setLevel(Level.WARN);
        VehicleRoutingProblem theirs = read(problem);
        // One plan is gone on from, as by default.
        SchrimpfAcceptance annealing = new SchrimpfAcceptance(1, COOLING_SPEED);
        annealing.setMaxIterations(COOLING_STEPS);
        VehicleRoutingAlgorithm algorithm = Jsprit.Builder.newInstance(theirs)
                .setRandom(new Random(seed))
                .setProperty(Jsprit.Parameter.FAST_REGRET, "true")
                .setProperty(Jsprit.Parameter.VEHICLE_SWITCH, "false")
                .setProperty(Jsprit.Parameter.ITERATIONS, String.valueOf(Integer.MAX_VALUE))
                .setCustomAcceptor(annealing::acceptSolution)
                .buildAlgorithm();
        int[] cooled = new int[1];
        algorithm.addListener(
                (AlgorithmStartsListener) (problemOfTheirs, itself, first) -> annealing.setInitialThreshold(
                        FIRST_THRESHOLD * Solutions.bestOf(first).getCost()));
        algorithm.addListener((IterationStartsListener) (iteration, problemOfTheirs, found) -> {
            for (; cooled[0] < COOLING_STEPS * budget.spent(0); cooled[0]++) {
                annealing.incIteration();
            }
        });
        algorithm.setPrematureAlgorithmTermination(found -> budget.spent(0) >= 1);
        VehicleRoutingProblemSolution best = Solutions.bestOf(algorithm.searchSolutions());
        return !best.getUnassignedJobs().isEmpty() ? null : plan(problem, best);
    }

    private static VehicleRoutingProblem read(FleetProblem problem) {
        int places = problem.stops().size() + 1;
        FastVehicleRoutingTransportCostsMatrix.Builder legs =
                FastVehicleRoutingTransportCostsMatrix.Builder.newInstance(places, false);
        for (int from = 0; from < places; from++) {
            for (int to = 0; to < places; to++) {
                if (from != to) {
                    TravelLeg leg = problem.travel().leg(from - 1, to - 1);
                    legs.addTransportTimeAndDistance(from, to, leg.seconds(), leg.metres());
                }
            }
        }
        VehicleRoutingProblem.Builder builder = VehicleRoutingProblem.Builder.newInstance()
                .setFleetSize(VehicleRoutingProblem.FleetSize.FINITE)
                .setRoutingCost(legs.build());
        for (int shift = 0; shift < problem.shifts().size(); shift++) {
            VanShift terms = problem.shifts().get(shift);
            builder.addVehicle(VehicleImpl.Builder.newInstance(String.valueOf(shift))
                    .setType(VehicleTypeImpl.Builder.newInstance("van")
                            .addCapacityDimension(0, terms.capacity().grams())
                            .setCostPerDistance(1)
                            .build())
                    .setStartLocation(Location.newInstance(0))
                    .setEarliestStart(terms.startSecond())
                    .setLatestArrival(terms.latestEndSecond())
                    .build());
        }
        for (int stop = 0; stop < problem.stops().size(); stop++) {
            FleetStop terms = problem.stops().get(stop);
            builder.addJob(Service.Builder.newInstance(String.valueOf(stop))
                    .setLocation(Location.newInstance(stop + 1))
                    .setServiceTime(terms.serviceSeconds())
                    .setTimeWindow(TimeWindow.newInstance(terms.opensSecond(), terms.closesSecond()))
                    .addSizeDimension(0, terms.delivered().grams())
                    .build());
        }
        return builder.build();
    }

    /** Their routes under our clock, so that the checker works out every time and load again. */
    private static FleetPlan plan(FleetProblem problem, VehicleRoutingProblemSolution solution) {
        List<VanRound> rounds = new ArrayList<>();
        long seconds = 0;
        long metres = 0;
        TreeSet<Integer> left = new TreeSet<>();
        for (int stop = 0; stop < problem.stops().size(); stop++) {
            left.add(stop);
        }
        for (VehicleRoute route : solution.getRoutes()) {
            int shift = Integer.parseInt(route.getVehicle().getId());
            VanShift terms = problem.shifts().get(shift);
            List<PlannedStop> stops = new ArrayList<>();
            int time = terms.startSecond();
            int at = TravelTimes.depot(terms.depot());
            for (TourActivity activity : route.getActivities()) {
                Job job = ((TourActivity.JobActivity) activity).getJob();
                int stop = Integer.parseInt(job.getId());
                FleetStop visited = problem.stops().get(stop);
                TravelLeg leg = problem.travel().leg(at, stop);
                int arrival = time + leg.seconds();
                int begin = Math.max(arrival, visited.opensSecond());
                time = begin + visited.serviceSeconds();
                stops.add(new PlannedStop(stop, arrival, begin, time, begin - arrival, 0, 0));
                seconds += leg.seconds();
                metres += leg.metres();
                left.remove(stop);
                at = stop;
            }
            TravelLeg back = problem.travel().leg(at, TravelTimes.depot(terms.returnsTo()));
            seconds += back.seconds();
            metres += back.metres();
            rounds.add(new VanRound(shift, stops, List.of(), time + back.seconds()));
        }
        rounds.sort((a, b) -> Integer.compare(a.shift(), b.shift()));
        FleetWeights weights = problem.weights();
        long total =
                seconds * weights.perDrivingSecond() + metres * weights.perMetre() + rounds.size() * weights.perRound();
        FleetCost cost = new FleetCost(seconds, metres, 0, rounds.size(), 0, 0, 0, 0, total);
        return new FleetPlan(problem, rounds, List.copyOf(left), cost);
    }
}
