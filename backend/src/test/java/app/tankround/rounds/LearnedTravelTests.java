package app.tankround.rounds;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import app.tankround.rounds.LearnedTravel.Trip;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.Test;

class LearnedTravelTests {

    @Test
    void guessStandsWhereNothingIsKnown() {
        assertThat(LearnedTravel.of(List.of())).isEqualTo(LearnedTravel.nothing());
        assertThat(LearnedTravel.nothing().ratios()).hasSize(24).containsOnly(1.0);
    }

    /** n/(n + 10): 30 trips twice as long as guessed give (30 x 2 + 10 x 1) / 40 = 1.75 over the day. */
    @Test
    void isDrawnTowardsTheGuessByTheNumberOfTrips() {
        LearnedTravel learned = LearnedTravel.of(Collections.nCopies(30, new Trip(8, 1200, 600)));
        assertThat(learned.usual()).isEqualTo(1.75);
        assertThat(learned.ratios().get(8)).isEqualTo((30 * 2 + 10 * 1.75) / 40);
        assertThat(learned.ratios().get(15)).isEqualTo(1.75);
        assertThat(learned.hours()).containsExactly(8);
    }

    @Test
    void tellsTheHoursApart() {
        List<Trip> trips = new ArrayList<>(Collections.nCopies(90, new Trip(8, 900, 600)));
        trips.addAll(Collections.nCopies(90, new Trip(11, 600, 600)));
        LearnedTravel learned = LearnedTravel.of(trips);
        assertThat(learned.ratios().get(8)).isCloseTo(1.47, within(0.02));
        assertThat(learned.ratios().get(11)).isCloseTo(1.02, within(0.02));
    }

    @Test
    void leavesOutBreaksWrongPositionsAndTripsAroundTheCorner() {
        List<Trip> trips = List.of(new Trip(12, 3600, 600), new Trip(12, 100, 600), new Trip(12, 300, 60));
        assertThat(LearnedTravel.of(trips)).isEqualTo(LearnedTravel.nothing());
    }
}
