package app.tankround.rounds.solver;

import java.util.List;

/**
 * Guesses road travel from straight-line distance: metres = great circle x circuity, seconds = metres / average speed.
 *
 * @param circuity road distance over straight-line distance, 1 to 3
 * @param averageKilometresPerHour average speed on the way, stops in traffic included, 1 to 150 km/h
 */
public record TravelEstimate(double circuity, double averageKilometresPerHour) {

    /** Refuses, with {@link IllegalArgumentException}, NaN and values outside the ranges above. */
    public TravelEstimate {
        if (!(circuity >= 1 && circuity <= 3)) {
            throw new IllegalArgumentException("Circuity must be 1 to 3, not " + circuity);
        }
        if (!(averageKilometresPerHour >= 1 && averageKilometresPerHour <= 150)) {
            throw new IllegalArgumentException("Average speed must be 1 to 150 km/h, not " + averageKilometresPerHour);
        }
    }

    /**
     * Circuity 1.3 (published values for road networks run from about 1.2 to 1.5 by region) and 35 km/h for mixed town
     * driving (common practice, no source); both are meant to be edited.
     */
    public static TravelEstimate withDefaults() {
        return new TravelEstimate(1.3, 35);
    }

    /** The same estimate with another average speed, in km/h. */
    public TravelEstimate withAverageKilometresPerHour(double speed) {
        return new TravelEstimate(circuity, speed);
    }

    /** The same estimate with another circuity. */
    public TravelEstimate withCircuity(double factor) {
        return new TravelEstimate(factor, averageKilometresPerHour);
    }

    /**
     * Estimated travel between two positions, rounded to whole seconds and metres.
     *
     * @throws IllegalArgumentException if it would take more than a day, which means a position is wrong
     */
    public TravelLeg leg(Position from, Position to) {
        double metres = from.greatCircleMetresTo(to) * circuity;
        double seconds = metres * 3.6 / averageKilometresPerHour;
        return new TravelLeg(Math.toIntExact(Math.round(seconds)), Math.toIntExact(Math.round(metres)));
    }

    /** Travel times for a round between a depot and stops at these positions, in the order of the stops. */
    public TravelTimes between(Position depot, List<Position> stops) {
        List<Position> places = List.copyOf(stops);
        return (from, to) -> leg(
                from == TravelTimes.DEPOT ? depot : places.get(from), to == TravelTimes.DEPOT ? depot : places.get(to));
    }
}
