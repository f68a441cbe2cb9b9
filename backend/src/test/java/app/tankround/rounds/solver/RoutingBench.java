package app.tankround.rounds.solver;

import com.sun.management.OperatingSystemMXBean;
import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.stream.Collectors;
import java.util.stream.IntStream;

/**
 * Plans a published instance and says how far from the best known value it comes; the last line is a JSON object.
 *
 * <p>{@code weeks VISITS --cpu SECONDS} plans so many invented visits of eight weeks for twelve vans instead, and says when
 * the first plan stood in which nothing is left out.
 *
 * <p>{@code solomon|tsptw|pvrp FILE [--cpu SECONDS] [--seed N] [--customers N] [--best VALUE]
 * [--vehicles-first no] [--jsprit yes] [--warm SECONDS]}. The budget is processor
 * time of the whole process from the start of the search, so compiler and garbage collector are paid from it too.
 *
 * <p>With {@code --jsprit yes} jsprit plans the same instance after that, from the same seed and with a budget of the same
 * size ({@link JspritPlans}); its plan is checked as ours is, and the last line tells both. Its code takes the compiler far
 * longer than ours, so {@code --warm} lets each search run for so long before its budget begins.
 */
final class RoutingBench {

    private RoutingBench() {}

    public static void main(String[] args) throws IOException {
        Map<String, String> options = IntStream.range(2, args.length / 2 + 1)
                .mapToObj(k -> Arrays.copyOfRange(args, 2 * k - 2, 2 * k))
                .collect(Collectors.toMap(pair -> pair[0], pair -> pair[1]));
        double seconds = Double.parseDouble(options.getOrDefault("--cpu", "5"));
        long seed = Long.parseLong(options.getOrDefault("--seed", "1"));
        if (args[0].equals("weeks")) {
            weeks(Integer.parseInt(args[1]), seconds, seed);
            return;
        }
        Path file = Path.of(args[1]);
        int customers = Integer.parseInt(options.getOrDefault("--customers", "100"));
        RoutingInstance instance = switch (args[0]) {
            case "solomon" -> RoutingInstance.solomon(file, customers);
            case "tsptw" -> RoutingInstance.tsptw(file);
            case "pvrp" -> RoutingInstance.pvrp(file);
            default -> throw new IllegalArgumentException("solomon, tsptw or pvrp, not " + args[0]);
        };
        OptionalDouble best = options.containsKey("--best")
                ? OptionalDouble.of(Double.parseDouble(options.get("--best")))
                : RoutingInstance.bestKnown(file, instance.name());
        double warm = Double.parseDouble(options.getOrDefault("--warm", "0"));
        if (warm > 0) {
            FleetPlanner.withDefaults().solve(instance.problem(), seed, budget(warm));
        }
        long[] plans = new long[1];
        FleetPlan plan = FleetPlanner.withDefaults()
                .withListener(progress -> plans[0] = progress.iterations())
                .solve(instance.problem(), seed, budget(seconds));
        boolean compared = options.getOrDefault("--jsprit", "no").equals("yes");
        if (compared && args[0].equals("pvrp")) {
            throw new IllegalArgumentException("jsprit knows no choices of days");
        }
        if (compared && warm > 0) {
            JspritPlans.solve(instance.problem(), seed, budget(warm));
        }
        FleetPlan theirs = compared ? JspritPlans.solve(instance.problem(), seed, budget(seconds)) : null;
        if (args[0].equals("solomon")
                && !options.getOrDefault("--vehicles-first", "yes").equals("no")) {
            RoutingInstance fewest = instance.vehiclesFirst();
            FleetPlan fewer = FleetPlanner.withDefaults().solve(fewest.problem(), seed, budget(seconds));
            System.out.printf(
                    Locale.ROOT,
                    "Vehicles first, with a budget of its own: %d vehicles, distance %.2f, %d not served, %s%n",
                    fewer.rounds().size(),
                    fewest.distance(fewer),
                    fewer.unplaced().size(),
                    new FleetChecker(fewest.problem()).complaints(fewer));
        }
        System.out.printf(Locale.ROOT, "%d plans tried%n", plans[0]);
        String line = String.format(
                Locale.ROOT,
                "\"instance\":\"%s\",\"best\":%s,%s",
                instance.name(),
                best.isEmpty() ? "null" : Double.toString(best.getAsDouble()),
                figures("", instance, plan, best));
        if (compared) {
            line += theirs == null
                    ? ",\"jsprit_feasible\":false,\"not_worse\":true"
                    : "," + figures("jsprit_", instance, theirs, best) + ",\"not_worse\":"
                            + (plan.cost().metres() <= theirs.cost().metres());
        }
        System.out.println("{" + line + "}");
    }

    private static void weeks(int visits, double seconds, long seed) {
        FleetProblem problem = FleetProblems.asDriven(FleetProblems.weeks(seed, visits / 8, 8, 12));
        // The budget of one second is spent as often as seconds have gone by.
        SearchBudget cpu = budget(1);
        double[] complete = {Double.NaN};
        FleetPlan plan = FleetPlanner.withDefaults()
                .withListener(progress -> {
                    double now = cpu.spent(0);
                    if (progress.unplaced() == 0 && Double.isNaN(complete[0])) {
                        complete[0] = now;
                    }
                })
                .solve(problem, seed, budget(seconds));
        List<String> complaints = new FleetChecker(problem).complaints(plan);
        complaints.forEach(complaint -> System.out.println("The checker says: " + complaint));
        System.out.printf(
                Locale.ROOT,
                "{\"visits\":%d,\"rounds\":%d,\"unplaced\":%d,\"cost\":%d,\"complete_after_cpu_s\":%.2f,\"cpu_s\":%.2f,"
                        + "\"feasible\":%b}%n",
                problem.stops().size(),
                plan.rounds().size(),
                plan.unplaced().size(),
                plan.cost().total(),
                complete[0],
                cpu.spent(0),
                complaints.isEmpty() && plan.unplaced().isEmpty());
    }

    private static String figures(String prefix, RoutingInstance instance, FleetPlan plan, OptionalDouble best) {
        List<String> complaints = new FleetChecker(instance.problem()).complaints(plan);
        complaints.forEach(complaint -> System.out.println("The checker says: " + complaint));
        if (!plan.unplaced().isEmpty()) {
            System.out.println("Not served: " + plan.unplaced());
        }
        double distance = instance.distance(plan);
        String gap =
                best.isEmpty() ? "null" : String.format(Locale.ROOT, "%.3f", 100 * (distance / best.getAsDouble() - 1));
        return String.format(
                Locale.ROOT,
                "\"%1$svehicles\":%2$d,\"%1$sdistance\":%3$.2f,\"%1$sgap\":%4$s,\"%1$sfeasible\":%5$b",
                prefix,
                plan.rounds().size(),
                distance,
                gap,
                complaints.isEmpty() && plan.unplaced().isEmpty());
    }

    /** Processor time of all threads of this process, from now on. */
    static SearchBudget budget(double seconds) {
        OperatingSystemMXBean system = ManagementFactory.getPlatformMXBean(OperatingSystemMXBean.class);
        long begin = system.getProcessCpuTime();
        return iterations -> (system.getProcessCpuTime() - begin) / (seconds * 1e9);
    }
}
