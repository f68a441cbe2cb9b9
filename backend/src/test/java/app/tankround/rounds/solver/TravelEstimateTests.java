package app.tankround.rounds.solver;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class TravelEstimateTests {

    @ParameterizedTest
    // The first two: widely quoted programming-task example for the haversine formula (airports of Nashville and Los
    // Angeles) with the radius named there, recomputed with Python 3. The others: pi R / 180, zero and pi R.
    @CsvSource({
        "36.12, -86.67, 33.94, -118.40, 6372.8, 2887.25995, 0.00001",
        "36.12, -86.67, 33.94, -118.40, 6371, 2886.444443, 0.000001",
        "0, 0, 1, 0, 6371, 111.194927, 0.000001",
        "0, 0, 0, 0, 6371, 0, 0",
        "0, 0, 0, 180, 6371, 20015.086796, 0.000001",
    })
    void agreesWithPublishedDistances(
            double lat1, double lon1, double lat2, double lon2, double radius, double kilometres, double tolerance) {
        Position from = new Position(lat1, lon1);
        Position to = new Position(lat2, lon2);
        assertThat(from.centralAngleTo(to) * radius).isCloseTo(kilometres, within(tolerance));
        assertThat(to.centralAngleTo(from) * radius).isCloseTo(kilometres, within(tolerance));
    }

    @Test
    void measuresOneDegreeAlongMeridianOnMeanEarthRadius() {
        // pi x 6371.0088 km / 180, the mean radius R1 of WGS 84 (Moritz, Geodetic Reference System 1980).
        assertThat(new Position(0, 0).greatCircleMetresTo(new Position(1, 0))).isCloseTo(111_195.0802, within(0.001));
    }

    @Test
    void crossesDateLineTheShortWay() {
        double across = new Position(0, 179.5).greatCircleMetresTo(new Position(0, -179.5));
        assertThat(across).isCloseTo(111_195.0802, within(0.001));
    }

    @Test
    void staysANumberForAntipodes() {
        for (double lat = -89; lat <= 89; lat += 0.37) {
            double angle = new Position(lat, 12.34).centralAngleTo(new Position(-lat, 12.34 - 180));
            assertThat(angle).isCloseTo(Math.PI, within(1e-6));
        }
    }

    @Test
    void turnsStraightLineIntoRoadTravel() {
        // 1 degree of longitude on the equator is 111.195 km: x 1.3 = 144.5536 km, at 35 km/h 4.130103 h.
        TravelEstimate estimate = TravelEstimate.withDefaults();
        TravelTimes travel = estimate.between(new Position(0, 0), List.of(new Position(0, 1), new Position(0, 2)));
        assertThat(travel.leg(TravelTimes.DEPOT, 0)).isEqualTo(new TravelLeg(14_868, 144_554));
        assertThat(travel.leg(1, 0)).isEqualTo(new TravelLeg(14_868, 144_554));
        assertThat(travel.leg(1, TravelTimes.DEPOT)).isEqualTo(new TravelLeg(29_737, 289_107));
    }

    @Test
    void takesHalfTheTimeAtTwiceTheSpeed() {
        TravelEstimate estimate = TravelEstimate.withDefaults().withCircuity(1).withAverageKilometresPerHour(70);
        TravelLeg leg = estimate.leg(new Position(0, 0), new Position(0, 1));
        assertThat(leg).isEqualTo(new TravelLeg(5_719, 111_195));
    }

    @ParameterizedTest
    @ValueSource(doubles = {Double.NaN, Double.POSITIVE_INFINITY, 90.0001, -90.0001})
    void refusesImpossibleLatitude(double latitude) {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> new Position(latitude, 0))
                .withMessage("Latitude must be -90 to 90 degrees, not " + latitude);
    }

    @ParameterizedTest
    @ValueSource(doubles = {Double.NaN, Double.NEGATIVE_INFINITY, 180.0001, -180.0001})
    void refusesImpossibleLongitude(double longitude) {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> new Position(0, longitude))
                .withMessage("Longitude must be -180 to 180 degrees, not " + longitude);
    }

    @Test
    void acceptsPolesAndDateLine() {
        assertThat(new Position(90, 180).greatCircleMetresTo(new Position(90, -180)))
                .isCloseTo(0, within(1e-3));
    }

    @ParameterizedTest
    @ValueSource(doubles = {Double.NaN, 0, 0.9, 151, -35})
    void refusesImpossibleSpeed(double speed) {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> TravelEstimate.withDefaults().withAverageKilometresPerHour(speed))
                .withMessage("Average speed must be 1 to 150 km/h, not " + speed);
    }

    @ParameterizedTest
    @ValueSource(doubles = {Double.NaN, 0.99, 3.01})
    void refusesImpossibleCircuity(double circuity) {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> TravelEstimate.withDefaults().withCircuity(circuity))
                .withMessage("Circuity must be 1 to 3, not " + circuity);
    }

    @Test
    void refusesLegOfMoreThanADay() {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> TravelEstimate.withDefaults().leg(new Position(52, 13), new Position(13, 52)))
                .withMessageStartingWith("Travel must take 0 to 86400 seconds, not ");
    }
}
