package app.tankround.rounds.solver;

/** Puts one shift's stops in the best order exactly, all of them, under every rule. */
final class ExactTour {

    private static final int MOST_STOPS = 15;
    private static final int MAX_LABELS = 2_000_000;

    private ExactTour() {}

    /** Puts a tour of at most {@value #MOST_STOPS} stops in the order that costs least, but for the promises it keeps. */
    static void improve(Tour tour) {
        if (tour.length < 2 || tour.length > MOST_STOPS) {
            return;
        }
        SubsetProgramme.Outcome best = search(tour, tour.orderCost());
        if (best.order() != null) {
            int[] order = new int[tour.length];
            for (int k = 0; k < order.length; k++) {
                order[k] = tour.place[best.order()[k] + 1];
            }
            tour.reorderIfCheaper(order);
        }
    }

    /**
     * The order of the tour's stops, by their present positions from 0, whose legs, disinfections and overtime cost less
     * than the bound and least of all that keep the rules.
     */
    static SubsetProgramme.Outcome search(Tour tour, long bound) {
        return SubsetProgramme.solve(day(tour), bound, 0, MAX_LABELS);
    }

    private static DayArrays day(Tour tour) {
        FleetArrays fleet = tour.fleet();
        VanShift terms = tour.terms();
        int n = tour.length;
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
            int stop = tour.place[k + 1];
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
                    int at = tour.place[from == n ? 0 : from + 1] * fleet.places + tour.place[to + 1];
                    day.way[from][to] = fleet.seconds[at];
                    day.first[from][to] = fleet.cost[at];
                }
            }
        }
        day.read(clean, sick, terms.startsSick());
        return day;
    }
}
