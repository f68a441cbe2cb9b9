package app.tankround.rounds.solver;

import java.util.ArrayList;
import java.util.List;

/**
 * What one van does in one shift.
 *
 * @param shift index of the shift
 * @param stops in the order of the visits, at least one; none is late
 * @param reloads between stops, in their order
 * @param returnSecond when the van is back at the depot, in seconds of day
 */
public record VanRound(int shift, List<PlannedStop> stops, List<PlannedReload> reloads, int returnSecond) {

    /** Stands in an order of stops where the van goes back to the depot and on from there. */
    public static final int RELOAD = -1;

    public VanRound {
        stops = List.copyOf(stops);
        reloads = List.copyOf(reloads);
    }

    /** The stops in their order, with {@link #RELOAD} where the van goes back in between. */
    public List<Integer> order() {
        List<Integer> order =
                new ArrayList<>(stops.stream().map(PlannedStop::stop).toList());
        reloads.reversed().forEach(reload -> order.add(reload.before(), RELOAD));
        return order;
    }
}
