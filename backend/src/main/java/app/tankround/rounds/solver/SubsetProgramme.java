package app.tankround.rounds.solver;

import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/**
 * Exact best order by dynamic programming over (set of visited stops, last stop), label setting.
 *
 * <p>A label is a partial round: when it leaves the last stop, and what it has cost so far. Of two labels of one state, the
 * one that leaves no later and costs no more makes the other needless: whatever follows adds the same costs of legs to
 * both, and lateness and overtime can only grow with a later departure. So it is enough to keep, per state, labels with
 * later departure and lower cost. What the van carries, and whether the crew is clean, follows from the state alone. Labels
 * that cannot beat the best known order are dropped by a lower bound: every stop still to come is late at least by what
 * remains after the quickest way there, and is reached over at least its cheapest leg; each stop still to come with clean
 * and sick systems asks for a disinfection, but for the first where the crew is clean. Where labels are many, the legs to come
 * and their disinfections are those of the cheapest order whatever the hour ({@link CheapestRemainder}).
 */
final class SubsetProgramme {

    /** Sets are bits of an int, and one reference per set must fit the memory. */
    static final int MAX_STOPS = 22;

    private static final int NONE = -1;
    private static final int[] UNREACHED = {};

    private final DayArrays day;
    private final int n;
    private final int all;
    private final int maxLabels;
    private final int[][] quickest;
    private final long[] leastFirst;
    private final int[] leastSecond;
    private final int[] leastWay;
    private final int mixed;
    /** Whether the best order is clean stops, then at most one mixed stop, then sick ones. */
    private final boolean inBlocks;

    // One entry per label.
    private int[] leaves = new int[1024];
    private long[] costs = new long[1024];
    private int[] seconds = new int[1024];
    private int[] parent = new int[1024];
    private int[] next = new int[1024];
    private byte[] lastStop = new byte[1024];
    private int used;
    private int free = NONE;
    private boolean outOfLabels;
    /** Drops more labels than the sum of the cheapest legs, once there are enough of them. */
    private @Nullable CheapestRemainder remainder;

    private long boundFirst;
    private long boundSecond;
    private int bestLabel = NONE;

    private SubsetProgramme(DayArrays day, long boundFirst, long boundSecond, int maxLabels) {
        this.day = day;
        this.n = day.n;
        all = (1 << n) - 1;
        this.maxLabels = maxLabels;
        this.boundFirst = boundFirst;
        this.boundSecond = boundSecond;
        mixed = day.clean & day.sick;
        boolean neverDisinfects = day.perDisinfection > 0 && !day.someLegCannotBeDriven || everyDisinfectionBlocked();
        inBlocks = neverDisinfects && Integer.bitCount(mixed) <= 1 && !day.startsSick;
        quickest = quickestWays(day);
        leastFirst = new long[n + 1];
        leastSecond = new int[n + 1];
        leastWay = new int[n + 1];
        readCheapestLegs();
    }

    /**
     * What a search came to.
     *
     * @param order the order that costs less than the bound and no more than any other; null if none was found
     * @param complete false if the search was given up at the allowed number of labels
     */
    record Outcome(int @Nullable [] order, boolean complete) {}

    /** Searches for the best order that costs less than the bound, holding about so many labels at most. */
    static Outcome solve(DayArrays day, long boundFirst, long boundSecond, int maxLabels) {
        SubsetProgramme programme = new SubsetProgramme(day, boundFirst, boundSecond, maxLabels);
        programme.run();
        int[] order = programme.bestLabel == NONE ? null : programme.orderOf(programme.bestLabel);
        return new Outcome(order, !programme.outOfLabels);
    }

    private void run() {
        int[][] states = new int[1 << n][];
        Arrays.fill(states, UNREACHED);
        if (!carries(0)) {
            return;
        }
        for (int stop = 0; stop < n; stop++) {
            if (allowed(0, n, stop)) {
                extend(states, 0, n, NONE, stop);
            }
        }
        // A set is a larger number than any of its subsets, so each state is complete when its turn comes.
        for (int set = 1; set < all && !outOfLabels; set++) {
            if (remainder == null && CheapestRemainder.isWorthIt(n, used)) {
                remainder = CheapestRemainder.of(day.first, n);
            }
            int[] heads = states[set];
            if (heads.length > 0 && carries(set)) {
                extendAll(states, set, heads);
            }
            states[set] = UNREACHED;
        }
        if (outOfLabels || !carries(all)) {
            return;
        }
        int[] heads = states[all];
        for (int last = 0; last < heads.length; last++) {
            for (int label = heads[last]; label != NONE; label = next[label]) {
                close(label, last);
            }
        }
    }

    private void extendAll(int[][] states, int set, int[] heads) {
        for (int last = 0; last < heads.length; last++) {
            for (int label = heads[last]; label != NONE; label = next[label]) {
                for (int stop = 0; stop < n; stop++) {
                    if (allowed(set, last, stop)) {
                        extend(states, set, last, label, stop);
                    }
                }
            }
        }
    }

    /** Whether the van may leave with what is in it once these stops are done. */
    private boolean carries(int set) {
        for (int measure = 0; measure < 2; measure++) {
            long load = 0;
            for (int stop = 0; stop < n; stop++) {
                load += (set & 1 << stop) == 0 ? day.delivered[measure][stop] : day.collected[measure][stop];
            }
            if (load > day.capacity[measure]) {
                return false;
            }
        }
        return true;
    }

    private boolean allowed(int set, int last, int stop) {
        int bit = 1 << stop;
        if ((set & bit) != 0 || day.way[last][stop] >= DayArrays.NO_WAY) {
            return false;
        }
        if (!inBlocks || (day.sick & bit) == 0) {
            return true;
        }
        int before = day.clean & ~bit;
        return (set & before) == before;
    }

    private void extend(int[][] states, int set, int last, int label, int stop) {
        int time = label == NONE ? day.start : leaves[label];
        long cost = (label == NONE ? 0 : costs[label]) + day.first[last][stop];
        int second = (label == NONE ? 0 : seconds[label]) + day.second[last][stop];
        int begin = Math.max(time + day.way[last][stop], day.open[stop]);
        int late = day.rest.begins(begin) - day.close[stop];
        if (late > 0) {
            if (day.perSecondLate == 0) {
                return;
            }
            cost += late * day.perSecondLate;
        }
        int departure = begin + day.service[stop];
        int extended = set | 1 << stop;
        if (!canBeatBound(extended, stop, departure, cost, second)) {
            return;
        }
        int[] heads = states[extended];
        if (heads.length == 0) {
            heads = new int[n];
            Arrays.fill(heads, NONE);
            states[extended] = heads;
        }
        insert(heads, stop, departure, cost, second, label);
    }

    private boolean canBeatBound(int set, int last, int departure, long cost, int second) {
        CheapestRemainder known = remainder;
        long atLeast = known == null ? cost : cost + known.from(set, last);
        if (atLeast > boundFirst) {
            return false;
        }
        int[] ways = quickest[last];
        long legs = leastFirst[n] + disinfectionsAtLeast(set, last) * day.perDisinfection;
        long late = 0;
        long secondAtLeast = (long) second + leastSecond[n];
        long back = (long) departure + leastWay[n];
        for (int toCome = ~set & all; toCome != 0; toCome &= toCome - 1) {
            int stop = Integer.numberOfTrailingZeros(toCome);
            late += Math.max(0, day.rest.begins(departure + ways[stop]) - day.close[stop]);
            legs += leastFirst[stop];
            secondAtLeast += leastSecond[stop];
            back += leastWay[stop] + day.service[stop];
        }
        if (late > 0 && day.perSecondLate == 0) {
            return false;
        }
        long end = day.rest.ends((int) Math.min(back, DayArrays.NO_WAY));
        if (end > day.latestEnd) {
            return false;
        }
        atLeast += (known == null ? legs : 0)
                + late * day.perSecondLate
                + Math.max(0, end - day.regularEnd) * day.perOvertimeSecond;
        return atLeast != boundFirst ? atLeast < boundFirst : secondAtLeast < boundSecond;
    }

    private int disinfectionsAtLeast(int set, int last) {
        int toCome = Integer.bitCount(mixed & ~set);
        if ((day.sick & 1 << last) == 0) {
            return Math.max(0, toCome - 1);
        }
        return toCome == 0 && (day.clean & ~set) != 0 ? 1 : toCome;
    }

    /** Keeps the labels of a state sorted by departure, and so by falling cost. */
    private void insert(int[] heads, int stop, int departure, long cost, int second, int from) {
        int before = NONE;
        int at = heads[stop];
        while (at != NONE && leaves[at] <= departure) {
            if (compare(costs[at], seconds[at], cost, second) <= 0) {
                return;
            }
            if (leaves[at] == departure) {
                break;
            }
            before = at;
            at = next[at];
        }
        while (at != NONE && compare(cost, second, costs[at], seconds[at]) <= 0) {
            int dominated = at;
            at = next[at];
            next[dominated] = free;
            free = dominated;
        }
        int label = newLabel();
        leaves[label] = departure;
        costs[label] = cost;
        seconds[label] = second;
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
            costs = Arrays.copyOf(costs, size);
            seconds = Arrays.copyOf(seconds, size);
            parent = Arrays.copyOf(parent, size);
            next = Arrays.copyOf(next, size);
            lastStop = Arrays.copyOf(lastStop, size);
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
        long second = (long) seconds[label] + day.second[last][n];
        if (cost != boundFirst ? cost < boundFirst : second < boundSecond) {
            boundFirst = cost;
            boundSecond = second;
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

    private static int compare(long costA, int secondA, long costB, int secondB) {
        int byCost = Long.compare(costA, costB);
        return byCost != 0 ? byCost : Integer.compare(secondA, secondB);
    }

    /** Seconds of the quickest way from place to place, by any detour. */
    private static int[][] quickestWays(DayArrays day) {
        int[][] ways = new int[day.n + 1][];
        for (int from = 0; from < ways.length; from++) {
            ways[from] = day.way[from].clone();
        }
        return withDetours(ways);
    }

    /** The direct ways turned into the quickest ones by any detour, in place (Floyd and Warshall). */
    static int[][] withDetours(int[][] ways) {
        int places = ways.length;
        for (int via = 0; via < places; via++) {
            for (int from = 0; from < places; from++) {
                for (int to = 0; to < places; to++) {
                    ways[from][to] = Math.min(ways[from][to], ways[from][via] + ways[via][to]);
                }
            }
        }
        return ways;
    }

    private boolean everyDisinfectionBlocked() {
        for (int from = 0; from < n; from++) {
            for (int to = 0; to < n; to++) {
                if (from != to && disinfects(from, to) && day.way[from][to] < DayArrays.NO_WAY) {
                    return false;
                }
            }
        }
        return true;
    }

    private boolean disinfects(int from, int to) {
        boolean fromSick = from == n ? day.startsSick : (day.sick & 1 << from) != 0;
        return fromSick && to < n && (day.clean & 1 << to) != 0;
    }

    /** Per place, the cheapest of each measure over the legs that a best order can reach it by. */
    private void readCheapestLegs() {
        for (int to = 0; to <= n; to++) {
            long first = Long.MAX_VALUE;
            int second = Integer.MAX_VALUE;
            int way = Integer.MAX_VALUE;
            for (int from = 0; from <= n; from++) {
                if (from != to && (!inBlocks || legInBlocks(from, to))) {
                    first = Math.min(first, day.first[from][to] - (disinfects(from, to) ? day.perDisinfection : 0));
                    second = Math.min(second, day.second[from][to]);
                    way = Math.min(way, day.way[from][to]);
                }
            }
            leastFirst[to] = first;
            leastSecond[to] = second;
            leastWay[to] = way;
        }
    }

    private boolean legInBlocks(int from, int to) {
        int source = from == n ? 0 : 1 << from;
        if (to == n) {
            return day.sick == 0 || (source & day.sick) != 0;
        }
        int target = 1 << to;
        if ((target & day.clean) != 0) {
            return (source & day.sick) == 0 && (from != n || (target & day.sick) == 0 || day.clean == target);
        }
        // Sick only: what comes before is sick too, or the last stop with a clean system.
        return (source & day.sick) != 0 || (mixed == 0 && (from != n || day.clean == 0));
    }
}
