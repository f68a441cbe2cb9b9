package app.tankround.rounds.solver;

import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import app.tankround.tanks.InfectionClass;
import java.util.Collections;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FleetProblemTests {

    private static final List<List<Integer>> TODAY = List.of(List.of(0));

    @ParameterizedTest
    @CsvSource({"-1, 0", "50000001, 0", "0, -1", "0, 50000001"})
    void refusesImpossibleCargo(int grams, int millilitres) {
        assertThatIllegalArgumentException().isThrownBy(() -> new Cargo(grams, millilitres));
    }

    @ParameterizedTest
    @CsvSource({
        "-1, 0, 1, 0",
        "86401, 0, 1, 0",
        "0, -1, 1, 0",
        "0, 2, 1, 0",
        "0, 0, 172801, 0",
        "0, 0, 1, -1",
        "0, 0, 1, 1000000000001"
    })
    void refusesImpossibleStop(int service, int opens, int closes, long penalty) {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> stop(service, opens, closes, InfectionClass.NEW, penalty, TODAY));
    }

    @Test
    void refusesStopLeftCleanerThanReached() {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> stop(0, 0, 1, InfectionClass.HEALTHY, 0, TODAY))
                .withMessage("The sickest system (HEALTHY) cannot be cleaner than the cleanest (NEW)");
    }

    @Test
    void refusesChoiceOfNoDayAndOfOneDayTwice() {
        for (List<List<Integer>> choices :
                List.of(List.<List<Integer>>of(), List.of(List.<Integer>of()), List.of(List.of(1, 1)))) {
            assertThatIllegalArgumentException()
                    .isThrownBy(() -> stop(0, 0, 1, InfectionClass.NEW, 0, choices))
                    .withMessage(
                            "Each choice of days must name one day or more, none twice, each 0 to 399: " + choices);
        }
        for (int day : new int[] {-1, 400}) {
            assertThatIllegalArgumentException()
                    .isThrownBy(() -> stop(0, 0, 1, InfectionClass.NEW, 0, List.of(List.of(day))));
        }
    }

    @ParameterizedTest
    @CsvSource({
        "-1, 0, 0, 1, 2",
        "400, 0, 0, 1, 2",
        "0, -1, 0, 1, 2",
        "0, 200, 0, 1, 2",
        "0, 0, -1, 1, 2",
        "0, 0, 2, 1, 2",
        "0, 0, 0, 2, 1",
        "0, 0, 0, 1, 172801"
    })
    void refusesImpossibleShift(int day, int depot, int start, int regularEnd, int latestEnd) {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> new VanShift(day, depot, start, regularEnd, latestEnd, Cargo.NONE, Set.of()));
    }

    @ParameterizedTest
    @CsvSource({"-1, 0, 0, 0", "0, -1, 0, 0", "0, 0, -1, 0", "0, 0, 0, -1", "1000001, 0, 0, 0", "0, 0, 0, 1000000000001"
    })
    void refusesImpossibleWeights(long perDrivingSecond, long perMetre, long perOvertimeSecond, long perRound) {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> new FleetWeights(perDrivingSecond, perMetre, perOvertimeSecond, perRound));
    }

    @Test
    void refusesMoreThanItCanPlanAtOnce() {
        FleetStop stop = stop(0, 0, 1, InfectionClass.NEW, 0, TODAY);
        VanShift shift = new VanShift(0, 0, 0, 1, 2, Cargo.NONE, Set.of());
        TravelTimes travel = (from, to) -> new TravelLeg(0, 0);
        FleetWeights weights = new FleetWeights(0, 0, 0, 0);
        assertThatCode(() -> new FleetProblem(
                        Collections.nCopies(3000, stop), Collections.nCopies(3000, shift), travel, weights))
                .doesNotThrowAnyException();
        assertThatIllegalArgumentException()
                .isThrownBy(() -> new FleetProblem(Collections.nCopies(3001, stop), List.of(), travel, weights))
                .withMessage("At most 3000 stops are planned at once, not 3001");
        assertThatIllegalArgumentException()
                .isThrownBy(() -> new FleetProblem(List.of(), Collections.nCopies(3001, shift), travel, weights))
                .withMessage("At most 3000 shifts are planned at once, not 3001");
    }

    private static FleetStop stop(
            int service, int opens, int closes, InfectionClass leavesAs, long penalty, List<List<Integer>> choices) {
        return new FleetStop(
                service,
                opens,
                closes,
                Cargo.NONE,
                Cargo.NONE,
                Set.of(),
                InfectionClass.NEW,
                leavesAs,
                penalty,
                choices);
    }
}
