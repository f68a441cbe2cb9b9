package app.tankround.rounds.solver;

import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/**
 * Exact best order by dynamic programming over (set of visited stops, last stop), label setting.
 *
 * <p>A label is a partial round: when it leaves the last stop, and its lateness, driving and distance so far. Of two
 * labels of one state, the one that leaves no later and costs no more, in the order of {@link RoundCost}, makes the
 * other needless: whatever follows adds the same driving and distance to both, and lateness can only grow with a later
 * departure. So it is enough to keep, per state, labels with later departure and lower cost. Labels that cannot beat the
 * best known order are dropped by a lower bound: every stop still to come is late at least by what remains after the
 * quickest way there, and is reached over at least its shortest allowed arc.
 */
final class SubsetProgramme {

    /** Sets are bits of an int, and one reference per set must fit the memory. */
    static final int MAX_STOPS = 22;

    private static final int NONE = -1;
    private static final int[] UNREACHED = {};

    private final RoundArrays round;
    private final int n;
    private final int maxLabels;
    private final int[][] quickest;
    private final int[] leastDriving;
    private final int[] leastMetres;
    private final int cleanStops;

    // One entry per label. Lateness and driving share a long, lateness above, since they are compared in that order.
    private int[] leaves = new int[1024];
    private long[] lateAndDriving = new long[1024];
    private int[] distance = new int[1024];
    private int[] parent = new int[1024];
    private int[] next = new int[1024];
    private byte[] lastStop = new byte[1024];
    private int used;
    private int free = NONE;
    private boolean outOfLabels;

    private RoundCost bound;
    private int bestLabel = NONE;

    private SubsetProgramme(RoundArrays round, RoundCost bound, int maxLabels) {
        this.round = round;
        this.n = round.n;
        this.maxLabels = maxLabels;
        this.bound = bound;
        int clean = 0;
        for (int stop = 0; stop < n; stop++) {
            clean |= round.sick[stop] ? 0 : 1 << stop;
        }
        this.cleanStops = clean;
        this.quickest = quickestWays(round);
        this.leastDriving = shortestArcInto(round.driving);
        this.leastMetres = shortestArcInto(round.metres);
    }

    /**
     * What a search came to.
     *
     * @param order the order that costs less than the bound and no more than any other; null if none was found
     * @param complete false if the search was given up at the allowed number of labels
     */
    record Outcome(int @Nullable [] order, boolean complete) {}

    /** Searches for the best order that costs less than the bound, holding about so many labels at most. */
    static Outcome solve(RoundArrays round, RoundCost bound, int maxLabels) {
        SubsetProgramme programme = new SubsetProgramme(round, bound, maxLabels);
        programme.run();
        int[] order = programme.bestLabel == NONE ? null : programme.orderOf(programme.bestLabel);
        return new Outcome(order, !programme.outOfLabels);
    }

    private void run() {
        int[][] states = new int[1 << n][];
        Arrays.fill(states, UNREACHED);
        int all = (1 << n) - 1;
        for (int stop = 0; stop < n; stop++) {
            if (allowed(0, stop)) {
                extend(states, 0, n, NONE, stop);
            }
        }
        // A set is a larger number than any of its subsets, so each state is complete when its turn comes.
        for (int set = 1; set < all && !outOfLabels; set++) {
            int[] heads = states[set];
            for (int last = 0; last < heads.length; last++) {
                for (int label = heads[last]; label != NONE; label = next[label]) {
                    for (int stop = 0; stop < n; stop++) {
                        if (allowed(set, stop)) {
                            extend(states, set, last, label, stop);
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

    private boolean allowed(int set, int stop) {
        boolean visited = (set & 1 << stop) != 0;
        return !visited && (!round.sick[stop] || (set & cleanStops) == cleanStops);
    }

    private void extend(int[][] states, int set, int last, int label, int stop) {
        int time = label == NONE ? round.start : leaves[label];
        long cost = label == NONE ? 0 : lateAndDriving[label];
        int metres = (label == NONE ? 0 : distance[label]) + round.metres[last][stop];
        int begin = Math.max(time + round.driving[last][stop], round.open[stop]);
        int late = Math.max(0, begin - round.close[stop]);
        int departure = begin + round.service[stop];
        cost += pack(late, round.driving[last][stop]);
        int extended = set | 1 << stop;
        if (!canBeatBound(extended, stop, departure, cost, metres)) {
            return;
        }
        int[] heads = states[extended];
        if (heads.length == 0) {
            heads = new int[n];
            Arrays.fill(heads, NONE);
            states[extended] = heads;
        }
        insert(heads, stop, departure, cost, metres, label);
    }

    private boolean canBeatBound(int set, int last, int departure, long cost, int metres) {
        int[] ways = quickest[last];
        long late = cost >>> Integer.SIZE;
        long drive = (cost & 0xFFFF_FFFFL) + leastDriving[n];
        long metresAtLeast = (long) metres + leastMetres[n];
        for (int stop = 0; stop < n; stop++) {
            if ((set & 1 << stop) == 0) {
                late += Math.max(0, departure + ways[stop] - round.close[stop]);
                drive += leastDriving[stop];
                metresAtLeast += leastMetres[stop];
            }
        }
        if (late != bound.latenessSeconds()) {
            return late < bound.latenessSeconds();
        }
        if (drive != bound.drivingSeconds()) {
            return drive < bound.drivingSeconds();
        }
        return metresAtLeast < bound.metres();
    }

    /** Keeps the labels of a state sorted by departure, and so by falling cost. */
    private void insert(int[] heads, int stop, int departure, long cost, int metres, int from) {
        int before = NONE;
        int at = heads[stop];
        while (at != NONE && leaves[at] <= departure) {
            if (compare(lateAndDriving[at], distance[at], cost, metres) <= 0) {
                return;
            }
            if (leaves[at] == departure) {
                break;
            }
            before = at;
            at = next[at];
        }
        while (at != NONE && compare(cost, metres, lateAndDriving[at], distance[at]) <= 0) {
            int dominated = at;
            at = next[at];
            next[dominated] = free;
            free = dominated;
        }
        int label = newLabel();
        leaves[label] = departure;
        lateAndDriving[label] = cost;
        distance[label] = metres;
        parent[label] = from;
        lastStop[label] = (byte) stop;
        next[label] = at;
        if (before == NONE) {
            heads[stop] = label;
        } else {
            next[before] = label;
        }
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
            lateAndDriving = Arrays.copyOf(lateAndDriving, size);
            distance = Arrays.copyOf(distance, size);
            parent = Arrays.copyOf(parent, size);
            next = Arrays.copyOf(next, size);
            lastStop = Arrays.copyOf(lastStop, size);
        }
        // Checked between sets only, so the last set may go a little beyond.
        outOfLabels |= used >= maxLabels;
        return used++;
    }

    private void close(int label, int last) {
        long cost = lateAndDriving[label] + round.driving[last][n];
        RoundCost total =
                new RoundCost(cost >>> Integer.SIZE, cost & 0xFFFF_FFFFL, distance[label] + round.metres[last][n]);
        if (total.compareTo(bound) < 0) {
            bound = total;
            bestLabel = label;
        }
    }

    private int[] orderOf(int label) {
        int[] order = new int[n];
        int at = label;
        for (int k = n - 1; k >= 0; k--) {
            order[k] = lastStop[at];
            at = parent[at];
        }
        return order;
    }

    private static long pack(int late, int driving) {
        return ((long) late << Integer.SIZE) + driving;
    }

    private static int compare(long costA, int metresA, long costB, int metresB) {
        int byCost = Long.compare(costA, costB);
        return byCost != 0 ? byCost : Integer.compare(metresA, metresB);
    }

    /** Driving time of the quickest way from place to place, by any detour (Floyd and Warshall). */
    private static int[][] quickestWays(RoundArrays round) {
        int places = round.n + 1;
        int[][] ways = new int[places][];
        for (int from = 0; from < places; from++) {
            ways[from] = round.driving[from].clone();
        }
        for (int via = 0; via < places; via++) {
            for (int from = 0; from < places; from++) {
                for (int to = 0; to < places; to++) {
                    ways[from][to] = Math.min(ways[from][to], ways[from][via] + ways[via][to]);
                }
            }
        }
        return ways;
    }

    /** Per place, the shortest arc that an allowed order can reach it by. */
    private int[] shortestArcInto(int[][] arcs) {
        int[] shortest = new int[n + 1];
        for (int to = 0; to <= n; to++) {
            int least = Integer.MAX_VALUE;
            for (int from = 0; from <= n; from++) {
                if (from != to && arcAllowed(from, to)) {
                    least = Math.min(least, arcs[from][to]);
                }
            }
            shortest[to] = least;
        }
        return shortest;
    }

    private boolean arcAllowed(int from, int to) {
        boolean anySick = cleanStops != (1 << n) - 1;
        if (to == n) {
            return !anySick || round.sick[from];
        }
        if (round.sick[to]) {
            return from != n || cleanStops == 0;
        }
        return from == n || !round.sick[from];
    }
}
