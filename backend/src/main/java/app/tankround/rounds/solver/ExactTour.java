package app.tankround.rounds.solver;

import java.util.Arrays;

/** Puts one shift's stops in the best order exactly, all of them, under every rule. */
final class ExactTour {

    private static final int MOST_STOPS = 15;
    private static final int MAX_LABELS = 2_000_000;

    private ExactTour() {}

    /** Puts a tour of at most {@value #MOST_STOPS} stops in the order that costs least, but for the promises it keeps. */
    static void improve(Tour tour) {
        if (tour.stops() < 2 || tour.stops() > MOST_STOPS) {
            return;
        }
        SubsetProgramme.Outcome best = search(tour, tour.orderCost());
        if (best.order() != null) {
            int[] stops = tour.stopsInOrder();
            tour.reorderIfCheaper(Arrays.stream(best.order())
                    .map(k -> k == VanRound.RELOAD ? k : stops[k])
                    .toArray());
        }
    }

    /**
     * The order of the tour's stops, by their present order from 0, with {@link VanRound#RELOAD} where the van goes back to
     * load again, whose legs, disinfections, reloads and overtime cost less than the bound and least of all that keep the
     * rules.
     */
    static SubsetProgramme.Outcome search(Tour tour, long bound) {
        DayArrays day = day(tour);
        return tour.reload() < 0
                ? SubsetProgramme.solve(day, bound, 0, MAX_LABELS)
                : ReloadProgramme.solve(day, reloading(tour, day), bound, MAX_LABELS);
    }

    private static ReloadProgramme.Reloading reloading(Tour tour, DayArrays day) {
        FleetArrays fleet = tour.fleet();
        int[] stops = tour.stopsInOrder();
        int reload = tour.reload();
        ReloadProgramme.Reloading reloading = new ReloadProgramme.Reloading(
                new int[day.n], new long[day.n], new int[day.n], new long[day.n], fleet.service[reload]);
        for (int k = 0; k < day.n; k++) {
            reloading.wayThere()[k] = fleet.seconds[stops[k] * fleet.places + reload];
            reloading.costThere()[k] = fleet.cost[stops[k] * fleet.places + reload];
            reloading.wayFrom()[k] = fleet.seconds[reload * fleet.places + stops[k]];
            reloading.costFrom()[k] = fleet.cost[reload * fleet.places + stops[k]];
        }
        return reloading;
    }

    private static DayArrays day(Tour tour) {
        FleetArrays fleet = tour.fleet();
        VanShift terms = tour.terms();
        int[] stops = tour.stopsInOrder();
        int n = stops.length;
        DayArrays day = new DayArrays(n);
        day.start = terms.startSecond();
        day.regularEnd = terms.regularEndSecond();
        day.latestEnd = terms.latestEndSecond();
        day.rest = terms.rest();
        FleetWeights weights = fleet.problem.weights();
        day.perOvertimeSecond = weights.perOvertimeSecond();
        day.capacity[0] = terms.capacity().grams();
        day.capacity[1] = terms.capacity().millilitres();
        boolean[] clean = new boolean[n];
        boolean[] sick = new boolean[n];
        for (int k = 0; k < n; k++) {
            int stop = stops[k];
            day.service[k] = fleet.service[stop];
            day.open[k] = terms.rest().open(fleet.open[stop]);
            day.close[k] = fleet.close[stop];
            day.delivered[0][k] = fleet.gramsDelivered[stop];
            day.collected[0][k] = fleet.gramsCollected[stop];
            day.delivered[1][k] = fleet.millilitresDelivered[stop];
            day.collected[1][k] = fleet.millilitresCollected[stop];
            clean[k] = fleet.arrivesClean[stop];
            sick[k] = fleet.leavesSick[stop];
        }
        for (int from = 0; from <= n; from++) {
            for (int to = 0; to <= n; to++) {
                if (from != to) {
                    int at = (from == n ? tour.place[0] : stops[from]) * fleet.places
                            + (to == n ? tour.place[tour.length + 1] : stops[to]);
                    day.way[from][to] = fleet.seconds[at];
                    day.first[from][to] = fleet.cost[at];
                }
            }
        }
        day.read(clean, sick, terms.startsSick());
        return day;
    }
}
