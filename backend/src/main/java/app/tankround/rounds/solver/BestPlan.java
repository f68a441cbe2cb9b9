package app.tankround.rounds.solver;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** The best plan that a search has come by. */
final class BestPlan {

    private final Tour[] tours;
    private int[] out;
    private long cost;

    /** Takes the plan with nothing placed. */
    BestPlan(FleetState state) {
        tours = new Tour[state.tours.length];
        Arrays.setAll(tours, shift -> new Tour(state.fleet, shift));
        out = new int[0];
        take(state);
    }

    void take(FleetState state) {
        for (int shift = 0; shift < tours.length; shift++) {
            tours[shift].copy(state.tours[shift]);
        }
        out = Arrays.copyOf(state.out, state.outs);
        cost = state.cost();
    }

    long cost() {
        return cost;
    }

    int unplaced() {
        return out.length;
    }

    List<Integer> out() {
        return Arrays.stream(out).sorted().boxed().toList();
    }

    /** Puts each tour in the best order of its stops, where that can be found exactly. */
    void polish() {
        for (Tour tour : tours) {
            long before = tour.cost;
            ExactTour.improve(tour);
            cost += tour.cost - before;
        }
    }

    List<VanRound> rounds() {
        List<VanRound> rounds = new ArrayList<>();
        for (Tour tour : tours) {
            if (tour.length > 0) {
                rounds.add(tour.round());
            }
        }
        return rounds;
    }
}
