package app.tankround.rounds.solver;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** A problem as plain arrays for the inner loops: stops are 0 to n - 1, the depot is n, times are in seconds of day. */
final class RoundArrays {

    // A RoundCost but for its metres in one long, in the order of its parts. Up to 22 stops are so written, with at
    // most
    // 23 x 86 400 s of driving (21 bits) and 22 x 4 200 000 s of lateness (27 bits).
    private static final long LATE = 1L << 21;
    private static final long DISINFECTION = 1L << 49;
    private static final long BLOCKED = 1L << 55;

    final RoundProblem problem;
    final int n;
    final int start;
    final int[] service;
    /** Seconds here are those without the break, but for the ends of windows. */
    final int[] open;
    /** Second by which work must start; without a window the largest int. */
    final int[] close;

    final boolean[] arrivesClean;
    final boolean[] leavesSick;
    final int[][] driving;
    final int[][] metres;
    final boolean[][] blocked;

    RoundArrays(RoundProblem problem) {
        this.problem = problem;
        n = problem.stops().size();
        start = problem.startMinute() * 60;
        service = new int[n];
        open = new int[n];
        close = new int[n];
        arrivesClean = new boolean[n];
        leavesSick = new boolean[n];
        driving = new int[n + 1][n + 1];
        metres = new int[n + 1][n + 1];
        blocked = new boolean[n + 1][n + 1];
        for (int i = 0; i < n; i++) {
            Stop stop = problem.stops().get(i);
            TimeWindow window = stop.window();
            service[i] = stop.serviceMinutes() * 60;
            open[i] = window == null ? 0 : problem.rest().open(window.fromMinute() * 60);
            close[i] = window == null ? Integer.MAX_VALUE : window.untilMinute() * 60;
            arrivesClean[i] = stop.arrivesClean();
            leavesSick[i] = stop.sick();
        }
        for (int from = 0; from <= n; from++) {
            for (int to = 0; to <= n; to++) {
                if (from != to) {
                    TravelLeg leg = problem.travel().leg(place(from), place(to));
                    driving[from][to] = leg.seconds();
                    metres[from][to] = leg.metres();
                    blocked[from][to] = !problem.travel().drivable(place(from), place(to));
                }
            }
        }
    }

    /** The index of a stop, or the depot, as {@link TravelTimes} names it. */
    int place(int index) {
        return index == n ? TravelTimes.DEPOT : index;
    }

    /**
     * Whether the crew has to disinfect between the two. A stop that arrives sick leaves sick, so whether the crew is clean
     * follows from the stop before alone.
     */
    boolean disinfects(int from, int to) {
        boolean sick = from == n ? problem.startsSick() : leavesSick[from];
        return sick && to < n && arrivesClean[to];
    }

    private int disinfection(int from, int to) {
        return disinfects(from, to) ? problem.disinfectionMinutes() * 60 : 0;
    }

    /** Cost of visiting these stops, which may be only some of all, in this order. */
    RoundCost cost(int[] order, int length) {
        int time = start;
        int cannot = 0;
        int disinfections = 0;
        long lateness = 0;
        long drive = 0;
        long distance = 0;
        int at = n;
        for (int k = 0; k < length; k++) {
            int stop = order[k];
            drive += driving[at][stop];
            distance += metres[at][stop];
            cannot += blocked[at][stop] ? 1 : 0;
            disinfections += disinfects(at, stop) ? 1 : 0;
            time = Math.max(time + disinfection(at, stop) + driving[at][stop], open[stop]);
            lateness += Math.max(0, problem.rest().begins(time) - close[stop]);
            time += service[stop];
            at = stop;
        }
        return new RoundCost(
                cannot + (blocked[at][n] ? 1 : 0),
                disinfections,
                lateness,
                drive + driving[at][n],
                distance + metres[at][n]);
    }

    RoundPlan plan(int[] order, boolean proven, PlanningMethod method) {
        List<PlannedStop> stops = new ArrayList<>(n);
        Rest rest = problem.rest();
        int time = order.length == 0 ? start : start + disinfection(n, order[0]);
        int left = start;
        int at = n;
        for (int k = 0; k < order.length; k++) {
            int stop = order[k];
            int reached = time + driving[at][stop];
            int works = Math.max(reached, open[stop]);
            int disinfection = k + 1 < order.length ? disinfection(stop, order[k + 1]) : 0;
            time = works + service[stop] + disinfection;
            int arrival = Math.max(left, rest.ends(reached));
            int begin = rest.begins(works);
            // Work that takes no time at the moment of the break ends after it all the same.
            left = Math.max(begin, rest.ends(time));
            stops.add(new PlannedStop(
                    stop, arrival, begin, left, begin - arrival, Math.max(0, begin - close[stop]), disinfection));
            at = stop;
        }
        return new RoundPlan(
                problem, stops, Math.max(left, rest.ends(time + driving[at][n])), cost(order, n), proven, method);
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

    /** The best order that costs less than the bound, by trying all of them, with about so many labels at most. */
    SubsetProgramme.Outcome exact(RoundCost bound, int maxLabels) {
        return SubsetProgramme.solve(dayArrays(), written(bound), bound.metres(), maxLabels);
    }

    /** The best order without lateness, if there is one that disinfects no more often than this. */
    SubsetProgramme.Outcome exactOnTime(RoundCost known, int maxLabels) {
        return exact(new RoundCost(known.blockedLegs(), known.disinfections(), 1, 0, 0), maxLabels);
    }

    private static long written(RoundCost cost) {
        return cost.blockedLegs() * BLOCKED
                + cost.disinfections() * DISINFECTION
                + cost.latenessSeconds() * LATE
                + cost.drivingSeconds();
    }

    private DayArrays dayArrays() {
        DayArrays day = new DayArrays(n);
        day.start = start;
        day.perSecondLate = LATE;
        day.rest = problem.rest();
        for (int from = 0; from <= n; from++) {
            if (from < n) {
                day.service[from] = service[from];
                day.open[from] = open[from];
                day.close[from] = close[from];
            }
            for (int to = 0; to <= n; to++) {
                day.way[from][to] = driving[from][to] + disinfection(from, to);
                day.first[from][to] = driving[from][to]
                        + (disinfects(from, to) ? DISINFECTION : 0)
                        + (blocked[from][to] ? BLOCKED : 0);
                day.second[from][to] = metres[from][to];
                day.someLegCannotBeDriven |= blocked[from][to];
            }
        }
        day.read(arrivesClean, leavesSick, problem.startsSick());
        day.perDisinfection = DISINFECTION;
        return day;
    }
}
