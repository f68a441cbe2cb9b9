package app.tankround.rounds.solver;

import app.tankround.rounds.solver.SubsetProgramme.Outcome;
import java.util.Arrays;

/**
 * Exact best order of a day on which the van may go back to the depot and load again, by dynamic programming over (set of
 * visited stops, last stop), label setting.
 *
 * <p>Unlike in {@link SubsetProgramme} what is on board does not follow from the state: a label also keeps, of the trip that
 * it is on, what was collected and the heaviest leg so far, for mass and room each. Every further delivery of the trip was on
 * board from its start, so it makes that leg heavier; every further collection weighs from then on. A label makes another one
 * of its state needless if it leaves no later, costs no more and is no heavier in all four. Where the stops still to come fit
 * on any trip of a label, these count as nothing.
 */
final class ReloadProgramme {

    /**
     * The legs to the depot and from it in the middle of a day, by stop.
     *
     * @param wayThere seconds, {@link DayArrays#NO_WAY} where there is no road
     * @param costThere of the leg, the disinfection before it and the reload
     * @param service seconds at the depot
     */
    record Reloading(int[] wayThere, long[] costThere, int[] wayFrom, long[] costFrom, int service) {}

    private static final int NONE = -1;
    private static final int[] UNREACHED = {};
    /** Collected and heaviest leg, for mass and room each. */
    private static final int LOADS = 4;

    private final DayArrays day;
    private final Reloading reloading;
    private final int n;
    private final int maxLabels;
    private final int[][] quickest;
    private final long[] leastCost;
    private final int[] leastWay;

    // One entry per label.
    private int[] leaves = new int[1024];
    private long[] costs = new long[1024];
    private int[] loads = new int[1024 * LOADS];
    private int[] parent = new int[1024];
    private int[] next = new int[1024];
    private byte[] lastStop = new byte[1024];
    private boolean[] loadedBefore = new boolean[1024];
    private int used;
    private int free = NONE;
    private boolean outOfLabels;

    private long bound;
    private int bestLabel = NONE;
    private final int[] trial = new int[LOADS];
    private final long[] toDeliver = new long[2];
    private final long[] atMost = new long[2];

    private ReloadProgramme(DayArrays day, Reloading reloading, long bound, int maxLabels) {
        this.day = day;
        this.reloading = reloading;
        n = day.n;
        this.bound = bound;
        this.maxLabels = maxLabels;
        quickest = quickestWays();
        leastCost = new long[n + 1];
        leastWay = new int[n + 1];
        for (int to = 0; to <= n; to++) {
            leastCost[to] = to < n ? reloading.costFrom()[to] : Long.MAX_VALUE;
            leastWay[to] = to < n ? reloading.wayFrom()[to] : DayArrays.NO_WAY;
            for (int from = 0; from <= n; from++) {
                if (from != to) {
                    leastCost[to] = Math.min(leastCost[to], day.first[from][to]);
                    leastWay[to] = Math.min(leastWay[to], day.way[from][to]);
                }
            }
        }
    }

    /**
     * Searches for the best order that costs less than the bound, holding about so many labels at most; the order has
     * {@link VanRound#RELOAD} where the van loads again. Work never starts late.
     */
    static Outcome solve(DayArrays day, Reloading reloading, long bound, int maxLabels) {
        ReloadProgramme programme = new ReloadProgramme(day, reloading, bound, maxLabels);
        programme.run();
        int[] order = programme.bestLabel == NONE ? null : programme.orderOf(programme.bestLabel);
        return new Outcome(order, !programme.outOfLabels);
    }

    private void run() {
        int[][] states = new int[1 << n][];
        Arrays.fill(states, UNREACHED);
        int all = (1 << n) - 1;
        for (int stop = 0; stop < n; stop++) {
            extend(states, 0, NONE, stop, false);
        }
        // A set is a larger number than any of its subsets, so each state is complete when its turn comes.
        for (int set = 1; set < all && !outOfLabels; set++) {
            int[] heads = states[set];
            for (int last = 0; last < heads.length; last++) {
                for (int label = heads[last]; label != NONE; label = next[label]) {
                    for (int stop = 0; stop < n; stop++) {
                        if ((set & 1 << stop) == 0) {
                            extend(states, set, label, stop, false);
                            extend(states, set, label, stop, true);
                        }
                    }
                }
            }
            states[set] = UNREACHED;
        }
        if (outOfLabels) {
            return;
        }
        int[] heads = states[all];
        for (int last = 0; last < heads.length; last++) {
            for (int label = heads[last]; label != NONE; label = next[label]) {
                close(label, last);
            }
        }
    }

    private void extend(int[][] states, int set, int label, int stop, boolean loading) {
        int last = label == NONE ? n : lastStop[label];
        int way = loading ? wayOverDepot(last, stop) : day.way[last][stop];
        if (way >= DayArrays.NO_WAY || !carries(label, stop, loading)) {
            return;
        }
        int time = label == NONE ? day.start : leaves[label];
        int begin = Math.max(time + way, day.open[stop]);
        if (day.rest.begins(begin) > day.close[stop]) {
            return;
        }
        int departure = begin + day.service[stop];
        long cost = (label == NONE ? 0 : costs[label])
                + (loading ? reloading.costThere()[last] + reloading.costFrom()[stop] : day.first[last][stop]);
        int extended = set | 1 << stop;
        if (!canBeatBound(extended, stop, departure, cost)) {
            return;
        }
        forgetLoadsThatFit(extended);
        int[] heads = states[extended];
        if (heads.length == 0) {
            heads = new int[n];
            Arrays.fill(heads, NONE);
            states[extended] = heads;
        }
        insert(heads, stop, departure, cost, label, loading);
    }

    private int wayOverDepot(int last, int stop) {
        int there = reloading.wayThere()[last];
        int from = reloading.wayFrom()[stop];
        return Math.max(there, from) >= DayArrays.NO_WAY ? DayArrays.NO_WAY : there + reloading.service() + from;
    }

    /** Puts the loads of the trip with the stop into {@link #trial}; false if the van cannot carry them. */
    private boolean carries(int label, int stop, boolean loading) {
        boolean begins = loading || label == NONE;
        for (int measure = 0; measure < 2; measure++) {
            int collected = begins ? 0 : loads[label * LOADS + 2 * measure];
            int heaviest = begins ? 0 : loads[label * LOADS + 2 * measure + 1];
            collected += day.collected[measure][stop];
            heaviest = Math.max(heaviest + day.delivered[measure][stop], collected);
            if (heaviest > day.capacity[measure]) {
                return false;
            }
            trial[2 * measure] = collected;
            trial[2 * measure + 1] = heaviest;
        }
        return true;
    }

    private void forgetLoadsThatFit(int set) {
        for (int measure = 0; measure < 2; measure++) {
            toDeliver[measure] = 0;
            atMost[measure] = 0;
            for (int stop = 0; stop < n; stop++) {
                if ((set & 1 << stop) == 0) {
                    toDeliver[measure] += day.delivered[measure][stop];
                    atMost[measure] += Math.max(day.delivered[measure][stop], day.collected[measure][stop]);
                }
            }
            if (trial[2 * measure + 1] + toDeliver[measure] <= day.capacity[measure]
                    && trial[2 * measure] + atMost[measure] <= day.capacity[measure]) {
                trial[2 * measure] = 0;
                trial[2 * measure + 1] = 0;
            }
        }
    }

    private boolean canBeatBound(int set, int last, int departure, long cost) {
        int[] ways = quickest[last];
        long atLeast = cost + leastCost[n];
        long back = (long) departure + leastWay[n];
        for (int stop = 0; stop < n; stop++) {
            if ((set & 1 << stop) == 0) {
                if (day.rest.begins(departure + ways[stop]) > day.close[stop]) {
                    return false;
                }
                atLeast += leastCost[stop];
                back += leastWay[stop] + day.service[stop];
            }
        }
        long end = day.rest.ends((int) Math.min(back, DayArrays.NO_WAY));
        return end <= day.latestEnd && atLeast + Math.max(0, end - day.regularEnd) * day.perOvertimeSecond < bound;
    }

    /** Keeps the labels of a state that no other one makes needless. */
    private void insert(int[] heads, int stop, int departure, long cost, int from, boolean loading) {
        int before = NONE;
        int at = heads[stop];
        while (at != NONE) {
            if (leaves[at] <= departure && costs[at] <= cost && noHeavier(at)) {
                return;
            }
            int following = next[at];
            if (departure <= leaves[at] && cost <= costs[at] && heavier(at)) {
                if (before == NONE) {
                    heads[stop] = following;
                } else {
                    next[before] = following;
                }
                next[at] = free;
                free = at;
            } else {
                before = at;
            }
            at = following;
        }
        int label = newLabel();
        leaves[label] = departure;
        costs[label] = cost;
        System.arraycopy(trial, 0, loads, label * LOADS, LOADS);
        parent[label] = from;
        lastStop[label] = (byte) stop;
        loadedBefore[label] = loading;
        next[label] = heads[stop];
        heads[stop] = label;
    }

    private boolean noHeavier(int label) {
        for (int k = 0; k < LOADS; k++) {
            if (loads[label * LOADS + k] > trial[k]) {
                return false;
            }
        }
        return true;
    }

    private boolean heavier(int label) {
        for (int k = 0; k < LOADS; k++) {
            if (loads[label * LOADS + k] < trial[k]) {
                return false;
            }
        }
        return true;
    }

    private int newLabel() {
        if (free != NONE) {
            int label = free;
            free = next[label];
            return label;
        }
        if (used == leaves.length) {
            int size = used * 2;
            leaves = Arrays.copyOf(leaves, size);
            costs = Arrays.copyOf(costs, size);
            loads = Arrays.copyOf(loads, size * LOADS);
            parent = Arrays.copyOf(parent, size);
            next = Arrays.copyOf(next, size);
            lastStop = Arrays.copyOf(lastStop, size);
            loadedBefore = Arrays.copyOf(loadedBefore, size);
        }
        // Checked between sets only, so the last set may go a little beyond.
        outOfLabels |= used >= maxLabels;
        return used++;
    }

    private void close(int label, int last) {
        int back = day.rest.ends(leaves[label] + day.way[last][n]);
        if (back > day.latestEnd) {
            return;
        }
        long cost = costs[label] + day.first[last][n] + Math.max(0, back - day.regularEnd) * day.perOvertimeSecond;
        if (cost < bound) {
            bound = cost;
            bestLabel = label;
        }
    }

    private int[] orderOf(int label) {
        int[] backwards = new int[2 * n];
        int length = 0;
        for (int at = label; at != NONE; at = parent[at]) {
            backwards[length++] = lastStop[at];
            if (loadedBefore[at]) {
                backwards[length++] = VanRound.RELOAD;
            }
        }
        int[] order = new int[length];
        for (int k = 0; k < length; k++) {
            order[k] = backwards[length - 1 - k];
        }
        return order;
    }

    /** Seconds of the quickest way from place to place, by any detour, the depot included. */
    private int[][] quickestWays() {
        int places = n + 2;
        int depot = n + 1;
        int[][] ways = new int[places][places];
        for (int from = 0; from < n; from++) {
            System.arraycopy(day.way[from], 0, ways[from], 0, n + 1);
            ways[from][depot] = reloading.wayThere()[from] + reloading.service();
            ways[depot][from] = reloading.wayFrom()[from];
        }
        System.arraycopy(day.way[n], 0, ways[n], 0, n + 1);
        ways[n][depot] = DayArrays.NO_WAY;
        ways[depot][n] = DayArrays.NO_WAY;
        return SubsetProgramme.withDetours(ways);
    }
}
