package app.tankround.rounds.solver;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import app.tankround.tanks.InfectionClass;
import java.net.URI;
import java.net.URISyntaxException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FleetPlannerTests {

    private static final int SEEDS = 1000;
    private static final int STARTS = 20;
    private static final FleetWeights DRIVING = new FleetWeights(1, 0, 0, 0);

    @Test
    void findsLeastCostOfAllPlans() {
        int atOnce = 0;
        int leftOut = 0;
        int overtime = 0;
        int severalRounds = 0;
        int reloaded = 0;
        for (int seed = 0; seed < SEEDS; seed++) {
            FleetProblem problem = FleetProblems.random(seed, 1 + seed % 6);
            long least = FleetBruteForce.leastCost(problem);
            FleetPlan plan = plan(problem, 1, 2000);
            atOnce += plan.cost().total() == least ? 1 : 0;
            // Annealing may end in a corner; another start must lead out of it.
            for (int start = 2; plan.cost().total() != least && start <= STARTS; start++) {
                assertThat(plan.cost().total()).as("seed %d", seed).isGreaterThan(least);
                plan = plan(problem, start, 4000);
            }
            assertThat(plan.cost().total()).as("seed %d", seed).isEqualTo(least);
            leftOut += plan.unplaced().isEmpty() ? 0 : 1;
            overtime += plan.cost().overtimeSeconds() > 0 ? 1 : 0;
            severalRounds += plan.rounds().size() > 1 ? 1 : 0;
            reloaded += plan.cost().reloads() > 0 ? 1 : 0;
        }
        assertThat(atOnce).isGreaterThan(SEEDS * 98 / 100);
        // The comparison is worth something only if each kind of plan is well represented.
        assertThat(leftOut).isBetween(SEEDS / 10, SEEDS * 9 / 10);
        assertThat(overtime).isBetween(SEEDS / 20, SEEDS * 9 / 10);
        assertThat(severalRounds).isBetween(SEEDS / 5, SEEDS * 9 / 10);
        assertThat(reloaded).isGreaterThan(SEEDS / 20);
    }

    @ParameterizedTest
    // Best known values: see routing/README.md.
    @CsvSource({"R101.txt, 25, 617.1", "RC201.txt, 25, 360.2"})
    void solvesPublishedInstancesWithManyVans(String file, int customers, double bestKnown) throws Exception {
        RoutingInstance instance = RoutingInstance.solomon(published(file), customers);
        FleetPlan plan = plan(instance.problem(), 10_000);
        assertThat(plan.unplaced()).isEmpty();
        assertThat(instance.distance(plan)).isEqualTo(bestKnown);
    }

    @ParameterizedTest
    @CsvSource({"n20w20.001.txt, 378", "n20w20.002.txt, 286"})
    void solvesPublishedInstancesWithOneVan(String file, double bestKnown) throws Exception {
        RoutingInstance instance = RoutingInstance.tsptw(published(file));
        FleetPlan plan = plan(instance.problem(), 10_000);
        assertThat(plan.unplaced()).isEmpty();
        assertThat(instance.distance(plan)).isEqualTo(bestKnown);
    }

    @Test
    void choosesDaysOfPublishedPeriodicInstance() throws Exception {
        RoutingInstance instance = RoutingInstance.pvrp(published("p01.txt"));
        FleetPlan plan = plan(instance.problem(), 30_000);
        assertThat(plan.unplaced()).isEmpty();
        assertThat(instance.distance(plan)).isCloseTo(524.61, within(524.61 * 0.02));
    }

    @Test
    void plansWeeksUnderEveryRule() {
        FleetProblem problem = FleetProblems.weeks(1, 60, 2, 4);
        FleetPlan plan = plan(problem, 500);
        assertThat(plan.unplaced()).isEmpty();
    }

    @Test
    void repeatsItselfFromItsSeed() {
        FleetProblem problem = FleetProblems.weeks(2, 30, 1, 4);
        FleetPlan plan = plan(problem, 500);
        assertThat(plan(problem, 500)).isEqualTo(plan);
        FleetPlan other = FleetPlanner.withDefaults().solve(problem, 2, SearchBudget.iterations(500));
        assertThat(other.rounds()).isNotEqualTo(plan.rounds());
    }

    @Test
    void tellsHowFarItIs() {
        List<FleetProgress> told = new ArrayList<>();
        FleetPlan plan = FleetPlanner.withDefaults()
                .withListener(told::add)
                .solve(FleetProblems.weeks(3, 30, 1, 4), 1, SearchBudget.iterations(3200));
        assertThat(told).hasSizeBetween(50, 101);
        assertThat(told).isSortedAccordingTo((a, b) -> Long.compare(b.cost(), a.cost()));
        assertThat(told)
                .extracting(FleetProgress::spent)
                .isSorted()
                .startsWith(0.0)
                .endsWith(1.0);
        assertThat(told.getLast())
                .isEqualTo(new FleetProgress(
                        1, 3200, plan.unplaced().size(), plan.cost().total()));
        assertThat(plan.cost().total()).isLessThan(told.getFirst().cost());
    }

    @Test
    void keepsBestPlanSoFarWhenStopped() {
        FleetProblem problem = FleetProblems.weeks(4, 30, 1, 4);
        List<FleetProgress> told = new ArrayList<>();
        FleetPlan plan = FleetPlanner.withDefaults()
                .withListener(told::add)
                .withStop(() -> told.size() >= 40)
                .solve(problem, 1, SearchBudget.iterations(16_000));
        assertChecks(problem, plan);
        assertThat(told).hasSize(40);
        assertThat(plan.cost().total()).isEqualTo(told.getLast().cost());
    }

    @Test
    void endsWhenProcessorTimeIsSpent() {
        FleetProblem problem = FleetProblems.weeks(5, 20, 1, 3);
        FleetPlan plan = FleetPlanner.withDefaults().solve(problem, 1, SearchBudget.processorSeconds(0.05));
        assertChecks(problem, plan);
    }

    @Test
    void plansNothingAndNobody() {
        FleetProblem nothing = new FleetProblem(List.of(), List.of(shift(10_000, 10_000, 0)), line(), DRIVING);
        assertThat(plan(nothing, 16).rounds()).isEmpty();
        FleetProblem nobody = new FleetProblem(List.of(stop()), List.of(), line(), DRIVING);
        assertThat(plan(nobody, 16).unplaced()).containsExactly(0);
    }

    @Test
    void sendsSecondVanRatherThanCleanAfterSick() {
        // Two sites with a healthy and a sick system each: whichever comes first is left sick, so each needs its own
        // van.
        FleetStop mixed = infected(InfectionClass.HEALTHY, InfectionClass.TREATMENT);
        List<VanShift> vans = List.of(shift(10_000, 10_000, 100), shift(10_000, 10_000, 100));
        FleetPlan plan = plan(new FleetProblem(List.of(mixed, mixed), vans, line(), DRIVING), 400);
        assertThat(plan.rounds()).hasSize(2);
        // Where nothing healthy is left to protect, one van does both.
        FleetStop sick = infected(InfectionClass.SUSPECTED, InfectionClass.TREATMENT);
        FleetPlan both = plan(new FleetProblem(List.of(sick, mixed), vans, line(), DRIVING), 400);
        assertThat(both.rounds()).hasSize(1);
        assertThat(both.rounds().getFirst().stops())
                .extracting(PlannedStop::stop)
                .containsExactly(1, 0);
    }

    @Test
    void weighsWasteWaterOnEachLeg() {
        // A van of 100 takes 60 there and 70 back, but not 70 back beside the 60 that are still to be delivered.
        FleetStop takes = cargo(new Cargo(60, 0), Cargo.NONE);
        FleetStop gives = cargo(Cargo.NONE, new Cargo(70, 0));
        List<VanShift> vans = List.of(shift(10_000, 10_000, 100));
        FleetPlan plan = plan(new FleetProblem(List.of(gives, takes), vans, line(), DRIVING), 400);
        assertThat(plan.unplaced()).isEmpty();
        assertThat(plan.rounds().getFirst().stops())
                .extracting(PlannedStop::stop)
                .containsExactly(1, 0);
        FleetStop fillsRoom = cargo(Cargo.NONE, new Cargo(0, 101));
        assertThat(plan(new FleetProblem(List.of(fillsRoom), vans, line(), DRIVING), 400)
                        .unplaced())
                .containsExactly(0);
    }

    @Test
    void weighsOvertimeAgainstAnotherVan() {
        // One van drives 400 s and works 2000 s, 900 s of all that too long; two drive 600 s and are back in time.
        List<FleetStop> stops = List.of(stop(), stop());
        List<VanShift> vans = List.of(shift(1500, 4000, 0), shift(1500, 4000, 0));
        FleetPlan together = plan(new FleetProblem(stops, vans, line(), new FleetWeights(10, 0, 1, 0)), 400);
        assertThat(together.cost()).isEqualTo(new FleetCost(400, 400, 900, 1, 0, 0, 0, 0, 4900));
        FleetPlan apart = plan(new FleetProblem(stops, vans, line(), new FleetWeights(10, 0, 5, 0)), 400);
        assertThat(apart.cost()).isEqualTo(new FleetCost(600, 600, 0, 2, 0, 0, 0, 0, 6000));
    }

    private static FleetPlan plan(FleetProblem problem, int iterations) {
        return plan(problem, 1, iterations);
    }

    private static FleetPlan plan(FleetProblem problem, long seed, int iterations) {
        FleetPlan plan = FleetPlanner.withDefaults().solve(problem, seed, SearchBudget.iterations(iterations));
        assertChecks(problem, plan);
        return plan;
    }

    private static void assertChecks(FleetProblem problem, FleetPlan plan) {
        assertThat(new FleetChecker(problem).complaints(plan)).isEmpty();
    }

    private static Path published(String file) throws URISyntaxException {
        URI found = Objects.requireNonNull(FleetPlannerTests.class.getResource("/routing/" + file))
                .toURI();
        return Path.of(found);
    }

    /** Stops along a road, 100 s and 100 m apart, the first one that far from the depot. */
    private static TravelTimes line() {
        return (from, to) -> new TravelLeg(100 * Math.abs(from - to), 100 * Math.abs(from - to));
    }

    /** Leaves at second 0. */
    private static VanShift shift(int regularEnd, int latestEnd, int capacity) {
        return new VanShift(0, 0, 0, regularEnd, latestEnd, new Cargo(capacity, capacity), Set.of());
    }

    private static FleetStop stop() {
        return cargo(Cargo.NONE, Cargo.NONE);
    }

    private static FleetStop cargo(Cargo delivered, Cargo collected) {
        return stop(delivered, collected, InfectionClass.HEALTHY, InfectionClass.HEALTHY);
    }

    private static FleetStop infected(InfectionClass arrivesAs, InfectionClass leavesAs) {
        return stop(Cargo.NONE, Cargo.NONE, arrivesAs, leavesAs);
    }

    /** 1000 s of work at any time of day 0. */
    private static FleetStop stop(Cargo delivered, Cargo collected, InfectionClass arrivesAs, InfectionClass leavesAs) {
        return new FleetStop(
                1000,
                0,
                FleetStop.LAST_SECOND,
                delivered,
                collected,
                Set.of(),
                arrivesAs,
                leavesAs,
                1_000_000,
                List.of(List.of(0)));
    }
}
