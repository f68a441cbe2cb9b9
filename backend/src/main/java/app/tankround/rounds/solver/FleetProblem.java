package app.tankround.rounds.solver;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Which van visits which stop on which day, and in what order.
 *
 * @param stops at most 3000
 * @param shifts at most 3000
 * @param travel travel between depots and stops, the same on every day
 * @param weights what is to be least
 * @param disinfection what lets a clean stop follow a sick one; null where none may
 * @param evenness how the work should be shared among weeks
 * @param reload what it takes to load again at the depot between two stops; null where no van does
 */
public record FleetProblem(
        List<FleetStop> stops,
        List<VanShift> shifts,
        TravelTimes travel,
        FleetWeights weights,
        @Nullable Disinfection disinfection,
        Evenness evenness,
        @Nullable Reload reload) {

    private static final int MOST = 3000;

    /** Refuses, with {@link IllegalArgumentException}, too many stops or shifts. */
    public FleetProblem {
        stops = List.copyOf(stops);
        shifts = List.copyOf(shifts);
        if (stops.size() > MOST) {
            throw new IllegalArgumentException("At most " + MOST + " stops are planned at once, not " + stops.size());
        }
        if (shifts.size() > MOST) {
            throw new IllegalArgumentException("At most " + MOST + " shifts are planned at once, not " + shifts.size());
        }
    }

    /** Where no clean stop may follow a sick one. */
    public FleetProblem(List<FleetStop> stops, List<VanShift> shifts, TravelTimes travel, FleetWeights weights) {
        this(stops, shifts, travel, weights, null);
    }

    /** Where it makes no difference how the work is shared among weeks, and no van loads again. */
    public FleetProblem(
            List<FleetStop> stops,
            List<VanShift> shifts,
            TravelTimes travel,
            FleetWeights weights,
            @Nullable Disinfection disinfection) {
        this(stops, shifts, travel, weights, disinfection, Evenness.NONE, null);
    }

    /** What it costs that a van leaves the depot in a shift at all. */
    long perRound(VanShift shift) {
        return shift.out() ? 0 : weights.perRound();
    }
}
