package app.tankround.rounds.solver;

/**
 * Cheapest insertion, then 2-opt (turn a stretch) and or-opt (move up to three stops on) until neither helps. Sick stops
 * and all others are two blocks and every move stays inside one, so the rule of clean before sick cannot be broken.
 */
final class LocalSearch {

    private static final int LONGEST_MOVED_STRETCH = 3;

    private final RoundArrays round;
    private final int[] order;
    private final int[] trial;
    /** Stops placed so far that are not sick; they come first. */
    private int clean;

    private int length;
    private RoundCost best = new RoundCost(0, 0, 0);

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
        while (search.improveBlock(0, search.clean) || search.improveBlock(search.clean, search.length)) {
            // Each pass has already applied its improvement.
        }
        return search.order;
    }

    private void insertCheapest() {
        boolean[] placed = new boolean[round.n];
        for (int k = 0; k < length; k++) {
            placed[order[k]] = true;
        }
        RoundCost cheapest = new RoundCost(Long.MAX_VALUE, 0, 0);
        int bestStop = -1;
        int bestAt = -1;
        for (int stop = 0; stop < round.n; stop++) {
            if (placed[stop]) {
                continue;
            }
            int first = round.sick[stop] ? clean : 0;
            int last = round.sick[stop] ? length : clean;
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
        if (!round.sick[bestStop]) {
            clean++;
        }
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
