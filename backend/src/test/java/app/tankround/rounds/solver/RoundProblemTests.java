package app.tankround.rounds.solver;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import app.tankround.tanks.InfectionClass;
import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

class RoundProblemTests {

    @ParameterizedTest
    @CsvSource({"600, 599", "600, 600", "600, 1441"})
    void refusesWindowThatDoesNotEndAfterItStarts(int from, int until) {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> new TimeWindow(from, until))
                .withMessage("Window end must be after its start (minute 600) and at most 1440 minutes of day, not "
                        + until);
    }

    @ParameterizedTest
    @ValueSource(ints = {-1, 1440})
    void refusesWindowThatStartsOutsideTheDay(int from) {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> new TimeWindow(from, 1440))
                .withMessage("Window start must be 0 to 1439 minutes of day, not " + from);
    }

    @ParameterizedTest
    @ValueSource(ints = {-1, 1441})
    void refusesImpossibleService(int minutes) {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> Stop.healthy(minutes, null))
                .withMessage("Service must be 0 to 1440 minutes, not " + minutes);
    }

    @Test
    void refusesStopLeftCleanerThanReached() {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> new Stop(10, null, InfectionClass.SUSPECTED, InfectionClass.HEALTHY))
                .withMessage("The sickest system (HEALTHY) cannot be cleaner than the cleanest (SUSPECTED)");
    }

    @ParameterizedTest
    @EnumSource(
            value = InfectionClass.class,
            names = {"QUARANTINE", "SUSPECTED", "TREATMENT"})
    void stopWithOneSickSystemIsSick(InfectionClass sickest) {
        assertThat(new Stop(10, null, InfectionClass.HEALTHY, sickest).sick()).isTrue();
    }

    @ParameterizedTest
    @EnumSource(
            value = InfectionClass.class,
            names = {"HEALTHY", "NEW"})
    void stopWithoutSickSystemIsNotSick(InfectionClass sickest) {
        assertThat(new Stop(10, null, InfectionClass.HEALTHY, sickest).sick()).isFalse();
    }

    @ParameterizedTest
    @CsvSource({"-1, 0", "86401, 0", "0, -1", "0, 5000001"})
    void refusesImpossibleTravel(int seconds, int metres) {
        assertThatIllegalArgumentException().isThrownBy(() -> new TravelLeg(seconds, metres));
    }

    @ParameterizedTest
    @ValueSource(ints = {-1, 1440})
    void refusesStartOutsideTheDay(int start) {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> new RoundProblem(List.of(), (from, to) -> new TravelLeg(0, 0), start))
                .withMessage("Start must be 0 to 1439 minutes of day, not " + start);
    }

    @Test
    void refusesMoreThan100Stops() {
        List<Stop> stops = Collections.nCopies(101, Stop.healthy(1, null));
        assertThatIllegalArgumentException()
                .isThrownBy(() -> new RoundProblem(stops, (from, to) -> new TravelLeg(0, 0), 480))
                .withMessage("A round has at most 100 stops, not 101");
    }
}
