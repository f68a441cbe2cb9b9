package app.tankround.rounds.solver;

/**
 * Cheapest insertion, then 2-opt (turn a stretch) and or-opt (move up to three stops on) until neither helps. Clean
 * stops, stops that hold clean and sick systems, and sick ones are put in as three blocks, so that only from one mixed stop to
 * the next does the crew have to disinfect, which no order avoids. Moves stay inside a block as long as that helps, and only
 * then cross the blocks: between two disinfections that have to be, a sick stop may come early, which spares much lateness.
 */
final class LocalSearch {

    private static final int LONGEST_MOVED_STRETCH = 3;
    /** Beyond so many stops, moves across the blocks take seconds. */
    private static final int MOST_CROSSED = 40;

    private final RoundArrays round;
    private final int[] order;
    private final int[] trial;
    /** Where each block ends, in the order in which they stand: clean, mixed, sick. */
    private final int[] ends = new int[3];

    private int length;
    private RoundCost best = new RoundCost(0, 0, 0, 0, 0);

    private LocalSearch(RoundArrays round) {
        this.round = round;
        this.order = new int[round.n];
        this.trial = new int[round.n];
    }

    static int[] solve(RoundArrays round) {
        LocalSearch search = new LocalSearch(round);
        while (search.length < round.n) {
            search.insertCheapest();
        }
        search.best = round.cost(search.order, search.length);
        while (search.improveBlock(0, search.ends[0])
                || search.improveBlock(search.ends[0], search.ends[1])
                || search.improveBlock(search.ends[1], search.ends[2])
                || round.n <= MOST_CROSSED && search.improveBlock(0, round.n)) {
            // Each pass has already applied its improvement.
        }
        return search.order;
    }

    private void insertCheapest() {
        boolean[] placed = new boolean[round.n];
        for (int k = 0; k < length; k++) {
            placed[order[k]] = true;
        }
        RoundCost cheapest = new RoundCost(Integer.MAX_VALUE, 0, 0, 0, 0);
        int bestStop = -1;
        int bestAt = -1;
        for (int stop = 0; stop < round.n; stop++) {
            if (placed[stop]) {
                continue;
            }
            int block = block(stop);
            int first = block == 0 ? 0 : ends[block - 1];
            int last = ends[block];
            for (int at = first; at <= last; at++) {
                System.arraycopy(order, 0, trial, 0, at);
                trial[at] = stop;
                System.arraycopy(order, at, trial, at + 1, length - at);
                RoundCost cost = round.cost(trial, length + 1);
                if (cost.compareTo(cheapest) < 0) {
                    cheapest = cost;
                    bestStop = stop;
                    bestAt = at;
                }
            }
        }
        System.arraycopy(order, bestAt, order, bestAt + 1, length - bestAt);
        order[bestAt] = bestStop;
        length++;
        for (int block = block(bestStop); block < ends.length; block++) {
            ends[block]++;
        }
    }

    private int block(int stop) {
        if (!round.leavesSick[stop]) {
            return 0;
        }
        return round.arrivesClean[stop] ? 1 : 2;
    }

    private boolean improveBlock(int from, int to) {
        for (int first = from; first < to; first++) {
            for (int last = first; last < to; last++) {
                if (reversalHelps(first, last) || moveHelps(first, last, from, to)) {
                    return true;
                }
            }
        }
        return false;
    }

    private boolean reversalHelps(int first, int last) {
        if (first == last) {
            return false;
        }
        System.arraycopy(order, 0, trial, 0, length);
        for (int k = first; k <= last; k++) {
            trial[k] = order[last - (k - first)];
        }
        return keepTrialIfBetter();
    }

    private boolean moveHelps(int first, int last, int from, int to) {
        int stretch = last - first + 1;
        if (stretch > LONGEST_MOVED_STRETCH) {
            return false;
        }
        for (int target = from; target + stretch <= to; target++) {
            if (target == first) {
                continue;
            }
            System.arraycopy(order, 0, trial, 0, length);
            if (target < first) {
                System.arraycopy(order, target, trial, target + stretch, first - target);
            } else {
                System.arraycopy(order, last + 1, trial, first, target - first);
            }
            System.arraycopy(order, first, trial, target, stretch);
            if (keepTrialIfBetter()) {
                return true;
            }
        }
        return false;
    }

    private boolean keepTrialIfBetter() {
        RoundCost cost = round.cost(trial, length);
        if (cost.compareTo(best) >= 0) {
            return false;
        }
        best = cost;
        System.arraycopy(trial, 0, order, 0, length);
        return true;
    }
}
