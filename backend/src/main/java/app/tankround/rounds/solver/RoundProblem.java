package app.tankround.rounds.solver;

import java.util.List;

/**
 * What a round has to do: leave the depot, visit every stop once, come back.
 *
 * @param stops at most 100, more than any van does in a day
 * @param travel travel between depot and stops
 * @param startMinute when the van leaves the depot, 0 to 1439 minutes of day
 * @param disinfectionMinutes what it takes after a stop that was left sick before a clean one may follow, 0 to 240 minutes
 * @param startsSick whether the crew comes from a stop that was left sick
 * @param rest its break; {@link Rest#NONE} for none
 */
public record RoundProblem(
        List<Stop> stops, TravelTimes travel, int startMinute, int disinfectionMinutes, boolean startsSick, Rest rest) {

    /** Hands, boots and whatever goes into the water; common practice, no source. */
    public static final int DISINFECTION_MINUTES = 30;

    private static final int MAX_STOPS = 100;
    private static final int MAX_DISINFECTION_MINUTES = 240;

    /** Refuses, with {@link IllegalArgumentException}, too many stops and minutes outside their ranges. */
    public RoundProblem {
        stops = List.copyOf(stops);
        if (stops.size() > MAX_STOPS) {
            throw new IllegalArgumentException("A round has at most 100 stops, not " + stops.size());
        }
        if (startMinute < 0 || startMinute > 1439) {
            throw new IllegalArgumentException("Start must be 0 to 1439 minutes of day, not " + startMinute);
        }
        if (disinfectionMinutes < 0 || disinfectionMinutes > MAX_DISINFECTION_MINUTES) {
            throw new IllegalArgumentException("Disinfection must be 0 to 240 minutes, not " + disinfectionMinutes);
        }
    }

    /** A round that starts clean and disinfects in the usual time. */
    public RoundProblem(List<Stop> stops, TravelTimes travel, int startMinute) {
        this(stops, travel, startMinute, DISINFECTION_MINUTES, false, Rest.NONE);
    }
}
