package app.tankround.rounds.solver;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import app.tankround.tanks.InfectionClass;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class PlanCostTests {

    /** Along a road, 10 minutes and 10 km a step from the depot: healthy, healthy until 8:35, in treatment. */
    private static final RoundProblem PROBLEM = new RoundProblem(
            List.of(
                    Stop.healthy(20, null),
                    Stop.healthy(20, new TimeWindow(480, 515)),
                    new Stop(20, null, InfectionClass.HEALTHY, InfectionClass.TREATMENT)),
            (from, to) -> new TravelLeg(Math.abs(from - to) * 600, Math.abs(from - to) * 10_000),
            480);

    private static final RoundPlan BEST = RoundSolver.withDefaults().solve(PROBLEM);

    @Test
    void costsSameOrderAtNothingExtra() {
        // Worked by hand: 8:00, stop 1 at 8:20 to 8:40, back to stop 0 at 8:50 to 9:10, stop 2 at 9:30; 80 min in all.
        assertThat(BEST.order()).containsExactly(1, 0, 2);
        PlanCost cost = BEST.evaluate(List.of(1, 0, 2));
        assertThat(cost.extraDrivingMinutes()).isZero();
        assertThat(cost.extraKilometres()).isZero();
        assertThat(cost.extraLatenessMinutes()).isZero();
        assertThat(cost.findings()).isEmpty();
        assertThat(cost.cleanBeforeSick()).isTrue();
        assertThat(cost.given().method()).isEqualTo(PlanningMethod.GIVEN);
    }

    @Test
    void namesMissedWindowWithMinutes() {
        // Stop 0 at 8:10 to 8:30, stop 1 at 8:40, 5 minutes late; driving 60 min and 60 km against 80.
        PlanCost cost = BEST.evaluate(List.of(0, 1, 2));
        assertThat(cost.findings()).containsExactly(new PlanFinding(PlanFinding.Code.WINDOW_MISSED, List.of(1, 5)));
        assertThat(cost.extraLatenessMinutes()).isEqualTo(5);
        assertThat(cost.extraDrivingMinutes()).isEqualTo(-20);
        assertThat(cost.extraKilometres()).isEqualTo(-20);
        assertThat(cost.cleanBeforeSick()).isTrue();
    }

    @Test
    void namesHealthyStopBeforeWhichTheCrewDisinfects() {
        // Stop 2 at 8:30 to 8:50, half an hour to disinfect, stop 1 at 9:30, 55 minutes late, to 9:50, stop 0 at 10:00;
        // driving 60 min.
        PlanCost cost = BEST.evaluate(List.of(2, 1, 0));
        assertThat(cost.cleanBeforeSick()).isFalse();
        assertThat(cost.findings())
                .containsExactly(
                        new PlanFinding(PlanFinding.Code.WINDOW_MISSED, List.of(1, 55)),
                        new PlanFinding(PlanFinding.Code.SICK_BEFORE_CLEAN, List.of(2, 1)));
        assertThat(cost.given().returnSecond()).isEqualTo(630 * 60);
    }

    @Test
    void roundsLatenessUpToWholeMinutes() {
        RoundProblem problem = new RoundProblem(
                List.of(Stop.healthy(1, new TimeWindow(480, 490))), (from, to) -> new TravelLeg(601, 0), 480);
        RoundPlan best = RoundSolver.withDefaults().solve(problem);
        assertThat(best.evaluate(List.of(0)).findings())
                .containsExactly(new PlanFinding(PlanFinding.Code.WINDOW_MISSED, List.of(0, 1)));
    }

    @Test
    void agreesWithCheckerOnAnyOrder() {
        for (int seed = 0; seed < 1000; seed++) {
            RoundProblem problem = RoundProblems.random(seed, 2 + seed % 8);
            RoundPlan best = RoundSolver.withDefaults().solve(problem);
            List<Integer> order = new ArrayList<>(best.order());
            Collections.shuffle(order, new Random(seed));
            PlanCost cost = best.evaluate(order);
            RoundChecker checker = new RoundChecker(problem);
            assertThat(cost.given().cost()).isEqualTo(checker.cost(order));
            assertThat(cost.cleanBeforeSick()).isEqualTo(checker.keepsCleanBeforeSick(order));
            assertThat(cost.given().cost()).isGreaterThanOrEqualTo(best.cost());
            assertThat(cost.findings().stream().filter(f -> f.code() == PlanFinding.Code.WINDOW_MISSED))
                    .hasSize((int) checker.visits(order).stream()
                            .filter(visit -> visit.late() > 0)
                            .count());
        }
    }

    @Test
    void refusesOrderThatDoesNotNameEveryStopOnce() {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> BEST.evaluate(List.of(0, 1, 1)))
                .withMessage("An order must name each of the 3 stops exactly once, not [0, 1, 1]");
        assertThatIllegalArgumentException().isThrownBy(() -> BEST.evaluate(List.of(0, 1)));
        assertThatIllegalArgumentException().isThrownBy(() -> BEST.evaluate(List.of(0, 1, 3)));
        assertThatIllegalArgumentException().isThrownBy(() -> BEST.evaluate(List.of(0, 1, -1)));
        assertThatIllegalArgumentException().isThrownBy(() -> BEST.evaluate(List.of(0, 1, 2, 2)));
    }
}
