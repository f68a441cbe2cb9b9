package app.tankround.rounds.solver;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** A problem as plain arrays for the inner loops: stops are 0 to n - 1, the depot is n, times are in seconds of day. */
final class RoundArrays {

    final RoundProblem problem;
    final int n;
    final int start;
    final int[] service;
    final int[] open;
    /** Second by which work must start; without a window the largest int. */
    final int[] close;

    final boolean[] sick;
    final int[][] driving;
    final int[][] metres;

    RoundArrays(RoundProblem problem) {
        this.problem = problem;
        n = problem.stops().size();
        start = problem.startMinute() * 60;
        service = new int[n];
        open = new int[n];
        close = new int[n];
        sick = new boolean[n];
        driving = new int[n + 1][n + 1];
        metres = new int[n + 1][n + 1];
        for (int i = 0; i < n; i++) {
            Stop stop = problem.stops().get(i);
            TimeWindow window = stop.window();
            service[i] = stop.serviceMinutes() * 60;
            open[i] = window == null ? 0 : window.fromMinute() * 60;
            close[i] = window == null ? Integer.MAX_VALUE : window.untilMinute() * 60;
            sick[i] = stop.sick();
        }
        for (int from = 0; from <= n; from++) {
            for (int to = 0; to <= n; to++) {
                if (from != to) {
                    TravelLeg leg = problem.travel().leg(place(from, n), place(to, n));
                    driving[from][to] = leg.seconds();
                    metres[from][to] = leg.metres();
                }
            }
        }
    }

    private static int place(int index, int n) {
        return index == n ? TravelTimes.DEPOT : index;
    }

    /** Cost of visiting these stops, which may be only some of all, in this order. */
    RoundCost cost(int[] order, int length) {
        int time = start;
        long lateness = 0;
        long drive = 0;
        long distance = 0;
        int at = n;
        for (int k = 0; k < length; k++) {
            int stop = order[k];
            drive += driving[at][stop];
            distance += metres[at][stop];
            time = Math.max(time + driving[at][stop], open[stop]);
            lateness += Math.max(0, time - close[stop]);
            time += service[stop];
            at = stop;
        }
        return new RoundCost(lateness, drive + driving[at][n], distance + metres[at][n]);
    }

    RoundPlan plan(int[] order, boolean proven, PlanningMethod method) {
        List<PlannedStop> stops = new ArrayList<>(n);
        int time = start;
        int at = n;
        for (int stop : order) {
            int arrival = time + driving[at][stop];
            int begin = Math.max(arrival, open[stop]);
            time = begin + service[stop];
            stops.add(new PlannedStop(stop, arrival, begin, time, begin - arrival, Math.max(0, begin - close[stop])));
            at = stop;
        }
        return new RoundPlan(problem, stops, time + driving[at][n], cost(order, n), proven, method);
    }

    int[] checkedOrder(List<Integer> order) {
        int[] stops = order.stream().mapToInt(Integer::intValue).toArray();
        int[] sorted = stops.clone();
        Arrays.sort(sorted);
        boolean everyStopOnce = sorted.length == n;
        for (int i = 0; everyStopOnce && i < n; i++) {
            everyStopOnce = sorted[i] == i;
        }
        if (!everyStopOnce) {
            throw new IllegalArgumentException(
                    "An order must name each of the " + n + " stops exactly once, not " + order);
        }
        return stops;
    }
}
