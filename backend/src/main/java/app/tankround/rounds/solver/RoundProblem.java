package app.tankround.rounds.solver;

import java.util.List;

/**
 * What a round has to do: leave the depot, visit every stop once, come back.
 *
 * @param stops at most 100, more than any van does in a day
 * @param travel travel between depot and stops
 * @param startMinute when the van leaves the depot, 0 to 1439 minutes of day
 */
public record RoundProblem(List<Stop> stops, TravelTimes travel, int startMinute) {

    private static final int MAX_STOPS = 100;

    /** Refuses, with {@link IllegalArgumentException}, too many stops and a start outside the day. */
    public RoundProblem {
        stops = List.copyOf(stops);
        if (stops.size() > MAX_STOPS) {
            throw new IllegalArgumentException("A round has at most 100 stops, not " + stops.size());
        }
        if (startMinute < 0 || startMinute > 1439) {
            throw new IllegalArgumentException("Start must be 0 to 1439 minutes of day, not " + startMinute);
        }
    }
}
