package app.tankround.rounds.solver;

import java.util.List;

/**
 * What one van does in one shift.
 *
 * @param shift index of the shift
 * @param stops in the order of the visits, at least one; none is late
 * @param returnSecond when the van is back at the depot, in seconds of day
 */
public record VanRound(int shift, List<PlannedStop> stops, int returnSecond) {

    public VanRound {
        stops = List.copyOf(stops);
    }
}
