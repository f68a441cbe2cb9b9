package app.tankround.rounds.solver;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import app.tankround.tanks.InfectionClass;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class RoundSolverTests {

    private static final int SEEDS = 1000;

    @Test
    void findsLeastCostOfAllOrders() {
        int late = 0;
        int sick = 0;
        int disinfected = 0;
        int blocked = 0;
        for (int seed = 0; seed < SEEDS; seed++) {
            RoundProblem problem = RoundProblems.random(seed, 1 + seed % 8);
            RoundPlan plan = RoundSolver.withDefaults().solve(problem);
            RoundCost least = new RoundChecker(problem).leastOfAllOrders();
            assertThat(plan.cost()).as("seed %d", seed).isEqualTo(least);
            assertThat(plan.proven()).isTrue();
            assertThat(plan.method()).isEqualTo(PlanningMethod.EXACT);
            assertChecks(problem, plan);
            // The exact method must find the same without the help of the local search.
            RoundArrays round = new RoundArrays(problem);
            int[] order = Objects.requireNonNull(round.exact(new RoundCost(40, 0, 0, 0, 0), Integer.MAX_VALUE)
                    .order());
            assertThat(round.cost(order, round.n)).as("seed %d", seed).isEqualTo(least);
            late += least.latenessSeconds() > 0 ? 1 : 0;
            disinfected += least.disinfections() > 0 ? 1 : 0;
            blocked += allDrivable(problem) ? 0 : 1;
            sick += problem.stops().stream().anyMatch(Stop::sick) ? 1 : 0;
        }
        // The comparison is worth something only if each kind of problem is well represented.
        assertThat(disinfected).isBetween(SEEDS / 10, SEEDS / 2);
        assertThat(blocked).isBetween(SEEDS / 10, SEEDS / 2);
        assertThat(late).isBetween(SEEDS / 5, SEEDS * 4 / 5);
        assertThat(sick).isBetween(SEEDS / 5, SEEDS * 9 / 10);
    }

    @Test
    void exactMethodDropsNothingJustBelowBound() {
        for (int seed = 0; seed < SEEDS; seed++) {
            RoundProblem problem = RoundProblems.random(seed, 4 + seed % 7);
            RoundArrays round = new RoundArrays(problem);
            RoundCost least = RoundSolver.withDefaults().solve(problem).cost();
            RoundCost aMetreMore = new RoundCost(
                    least.blockedLegs(),
                    least.disinfections(),
                    least.latenessSeconds(),
                    least.drivingSeconds(),
                    least.metres() + 1);
            int[] order = Objects.requireNonNull(
                    round.exact(aMetreMore, Integer.MAX_VALUE).order());
            assertThat(round.cost(order, round.n)).as("seed %d", seed).isEqualTo(least);
            assertThat(round.exact(least, Integer.MAX_VALUE).order()).isNull();
        }
    }

    @Test
    void localSearchKeepsRulesAndNeverBeatsExactMethod() {
        int equal = 0;
        for (int seed = 0; seed < SEEDS; seed++) {
            RoundProblem problem = RoundProblems.random(seed, 4 + seed % 7);
            RoundPlan plan = RoundSolver.withDefaults().withExactLimit(3).solve(problem);
            RoundPlan exact = RoundSolver.withDefaults().solve(problem);
            assertThat(plan.proven()).isFalse();
            assertThat(plan.method()).isEqualTo(PlanningMethod.LOCAL_SEARCH);
            assertThat(plan.cost()).as("seed %d", seed).isGreaterThanOrEqualTo(exact.cost());
            assertChecks(problem, plan);
            assertChecks(problem, exact);
            equal += plan.cost().equals(exact.cost()) ? 1 : 0;
        }
        assertThat(equal).isGreaterThan(SEEDS / 4);
    }

    @Test
    void localSearchPlansLongRounds() {
        RoundProblem problem = RoundProblems.town(7, 60, true);
        RoundPlan plan = RoundSolver.withDefaults().solve(problem);
        assertThat(plan.proven()).isFalse();
        assertChecks(problem, plan);
    }

    @ParameterizedTest
    // Best known values: augustindelecluse/tsptw-init, data/TSPTW/best_known_sol/Dumas.txt; see routing/README.md.
    @CsvSource({"n20w20.001.txt, 378", "n20w20.002.txt, 286"})
    void solvesPublishedInstances(String file, int bestKnown) {
        RoundProblem problem = RoundProblems.published(file);
        RoundPlan plan = RoundSolver.withDefaults().withExactLimit(20).solve(problem);
        assertThat(plan.cost()).isEqualTo(new RoundCost(0, 0, 0, bestKnown * 60L, bestKnown));
        assertThat(plan.proven()).isTrue();
        assertChecks(problem, plan);
    }

    @Test
    void fallsBackToLocalSearchWhenExactMethodIsTooLarge() {
        RoundProblem problem = RoundProblems.town(3, 12, true);
        RoundPlan plan = RoundSolver.withDefaults().withMaxLabels(10).solve(problem);
        assertThat(plan.proven()).isFalse();
        assertThat(plan.method()).isEqualTo(PlanningMethod.LOCAL_SEARCH);
        assertChecks(problem, plan);
    }

    @Test
    void plansRoundWithoutStops() {
        RoundPlan plan = RoundSolver.withDefaults().solve(new RoundProblem(List.of(), (a, b) -> leg(1), 480));
        assertThat(plan.stops()).isEmpty();
        assertThat(plan.returnSecond()).isEqualTo(480 * 60);
        assertThat(plan.cost()).isEqualTo(new RoundCost(0, 0, 0, 0, 0));
    }

    @Test
    void waitsForWindowToOpen() {
        RoundProblem problem = line(Stop.healthy(20, new TimeWindow(540, 600)));
        RoundPlan plan = RoundSolver.withDefaults().solve(problem);
        assertThat(plan.stops()).containsExactly(new PlannedStop(0, 490 * 60, 540 * 60, 560 * 60, 50 * 60, 0, 0));
        assertThat(plan.returnSecond()).isEqualTo(570 * 60);
        assertThat(plan.cost()).isEqualTo(new RoundCost(0, 0, 0, 20 * 60, 20_000));
    }

    @Test
    void keepsLateStopAndNamesItsMinutes() {
        RoundProblem problem = line(Stop.healthy(20, new TimeWindow(420, 450)), Stop.healthy(20, null));
        RoundPlan plan = RoundSolver.withDefaults().solve(problem);
        assertThat(plan.order()).containsExactly(0, 1);
        assertThat(plan.lateStops()).extracting(PlannedStop::stop).containsExactly(0);
        assertThat(plan.lateStops()).extracting(PlannedStop::latenessMinutes).containsExactly(40);
    }

    @Test
    void isOnTimeWhenWorkStartsAtTheEndOfTheWindow() {
        RoundProblem problem = line(Stop.healthy(20, new TimeWindow(420, 490)));
        assertThat(RoundSolver.withDefaults().solve(problem).lateStops()).isEmpty();
    }

    @Test
    void visitsSickStopLastEvenWhenThatMakesItLate() {
        Stop sick = new Stop(10, new TimeWindow(480, 495), InfectionClass.HEALTHY, InfectionClass.TREATMENT);
        RoundPlan plan = RoundSolver.withDefaults().solve(line(sick, Stop.healthy(60, null)));
        assertThat(plan.order()).containsExactly(1, 0);
        assertThat(plan.lateStops()).extracting(PlannedStop::stop).containsExactly(0);
    }

    @Test
    void visitsStopWithCleanAndSickSystemsAfterCleanOnesAndBeforeSickOnes() {
        Stop sick = new Stop(10, null, InfectionClass.SUSPECTED, InfectionClass.TREATMENT);
        Stop mixed = new Stop(10, null, InfectionClass.NEW, InfectionClass.QUARANTINE);
        Stop clean = new Stop(10, null, InfectionClass.HEALTHY, InfectionClass.NEW);
        RoundPlan plan = RoundSolver.withDefaults().solve(line(sick, mixed, clean));
        assertThat(plan.order()).containsExactly(2, 1, 0);
        assertThat(plan.cost().disinfections()).isZero();
    }

    @Test
    void disinfectsBetweenTwoStopsThatBothHoldCleanAndSickSystems() {
        // 8:00, 10 min to stop 0, work to 8:20, disinfection to 8:50, 10 min to stop 1, work to 9:10, 20 min back.
        Stop early = new Stop(10, new TimeWindow(480, 495), InfectionClass.HEALTHY, InfectionClass.TREATMENT);
        Stop mixed = new Stop(10, null, InfectionClass.HEALTHY, InfectionClass.TREATMENT);
        RoundPlan plan = RoundSolver.withDefaults().solve(line(early, mixed));
        assertThat(plan.cost().disinfections()).isEqualTo(1);
        assertThat(plan.stops())
                .containsExactly(
                        new PlannedStop(0, 490 * 60, 490 * 60, 530 * 60, 0, 0, 30 * 60),
                        new PlannedStop(1, 540 * 60, 540 * 60, 550 * 60, 0, 0, 0));
        assertThat(plan.returnSecond()).isEqualTo(570 * 60);
    }

    @Test
    void prefersShorterDistanceAtEqualDrivingTime() {
        TravelTimes travel = (from, to) -> new TravelLeg(600, from == TravelTimes.DEPOT && to == 1 ? 1000 : 5000);
        RoundProblem problem = new RoundProblem(List.of(Stop.healthy(5, null), Stop.healthy(5, null)), travel, 480);
        assertThat(RoundSolver.withDefaults().solve(problem).order()).containsExactly(1, 0);
    }

    @Test
    void refusesLimitOutsideRange() {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> RoundSolver.withDefaults().withExactLimit(23))
                .withMessage("Limit must be 0 to 22 stops, not 23");
        assertThatIllegalArgumentException()
                .isThrownBy(() -> RoundSolver.withDefaults().withExactLimit(-1));
    }

    /** Stops along a road, 10 minutes and 10 km apart, the first one that far from the depot; leaving at 8:00. */
    private static RoundProblem line(Stop... stops) {
        return new RoundProblem(List.of(stops), (from, to) -> leg(Math.abs(from - to)), 480);
    }

    private static TravelLeg leg(int steps) {
        return new TravelLeg(steps * 600, steps * 10_000);
    }

    private static boolean allDrivable(RoundProblem problem) {
        for (int from = -1; from < problem.stops().size(); from++) {
            for (int to = -1; to < problem.stops().size(); to++) {
                if (from != to && !problem.travel().drivable(from, to)) {
                    return false;
                }
            }
        }
        return true;
    }

    private static void assertChecks(RoundProblem problem, RoundPlan plan) {
        RoundChecker checker = new RoundChecker(problem);
        List<Integer> order = plan.order();
        assertThat(order).doesNotHaveDuplicates().hasSameSizeAs(problem.stops());
        assertThat(plan.cost()).isEqualTo(checker.cost(order));
        // Only a stop that holds clean and sick systems itself, of which another one comes before, cannot be had clean.
        long mixed = problem.stops().stream()
                .filter(stop -> stop.arrivesClean() && stop.sick())
                .count();
        if (mixed <= 1 && !problem.startsSick() && plan.cost().blockedLegs() == 0 && allDrivable(problem)) {
            assertThat(checker.keepsCleanBeforeSick(order)).isTrue();
        }
        List<RoundChecker.Visit> visits = checker.visits(order);
        for (int k = 0; k < visits.size(); k++) {
            RoundChecker.Visit visit = visits.get(k);
            PlannedStop stop = plan.stops().get(k);
            assertThat(new RoundChecker.Visit(
                            stop.arrivalSecond(),
                            stop.startSecond(),
                            stop.departureSecond(),
                            stop.waitSeconds(),
                            stop.latenessSeconds()))
                    .isEqualTo(visit);
        }
        assertThat((long) plan.returnSecond()).isEqualTo(checker.returns(order));
    }
}
