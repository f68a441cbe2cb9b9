package app.tankround.rounds.solver;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;

/**
 * Puts stops back one after the other, each where it costs least under the days that it may have, overlooking a place
 * now and then. The order of the stops is drawn anew each time: by chance, by load, by distance or by window, as often
 * as in the paper of {@link StringRemoval}.
 */
final class GreedyInsertion {

    /** Stops that stayed out before, of which so many are tried again each time. */
    private static final int OUT_TRIED_AGAIN = 10;
    /** Share of the places that are overlooked, and how often it is far larger, to get at what greed never finds. */
    private static final double OVERLOOKED = 0.01;

    private static final double OFTEN_OVERLOOKED = 0.3;
    private static final double BOLD_RATE = 0.02;
    /** How often a stop is placed although leaving it out is cheaper; others may follow it to where it lies. */
    private static final double DEARER_THAN_PENALTY_RATE = 0.05;
    /** How often a stop is left out although placing it is cheaper, where much is overlooked; others take its place. */
    private static final double LEFT_OUT_RATE = 0.1;

    /** How often reloads are tried where nothing asks for them; they may spare a leg that is dear. */
    private static final double RELOADING_RATE = 0.05;

    /** Share of each order of stops: chance, load, far, near, tight window, early opening, late closing. */
    private static final int[] SHARES = {4, 4, 2, 1, 2, 2, 2};

    private final FleetState state;
    private final FleetArrays fleet;
    private final SplittableRandom random;
    private final Cheapest[] onDay;
    private final int[] emptyKindSeen;
    private int searches;
    private boolean bold;
    private boolean reloading;
    /** Where two stops are tried together. */
    private final Cheapest together;

    /** Per order but the first, what the stops are sorted by. */
    private final long[][] keys;

    private final int[] queue;
    private final long[] queueKeys;

    GreedyInsertion(FleetState state, SplittableRandom random) {
        this.state = state;
        fleet = state.fleet;
        this.random = random;
        onDay = new Cheapest[fleet.days];
        Arrays.setAll(onDay, day -> new Cheapest(random));
        together = new Cheapest(random);
        emptyKindSeen = new int[fleet.kinds];
        queue = new int[fleet.n];
        queueKeys = new long[fleet.n];
        keys = new long[SHARES.length][fleet.n];
        for (int stop = 0; stop < fleet.n; stop++) {
            long there = fleet.cost[fleet.n * fleet.places + stop];
            keys[1][stop] = -(long) fleet.choices[stop][0].length
                    * Math.max(
                            fleet.gramsDelivered[stop] + fleet.gramsCollected[stop],
                            fleet.millilitresDelivered[stop] + fleet.millilitresCollected[stop]);
            keys[2][stop] = -there;
            keys[3][stop] = there;
            keys[4][stop] = fleet.close[stop] - fleet.open[stop];
            keys[5][stop] = fleet.open[stop];
            keys[6][stop] = -fleet.close[stop];
        }
    }

    /** Places what was just taken out and some of what was out before. */
    void run(int[] removed, int count) {
        System.arraycopy(removed, 0, queue, 0, count);
        int queued = count;
        int before = state.outs - count;
        for (int k = 0; k < Math.min(before, OUT_TRIED_AGAIN); k++) {
            // Those out before stand in front of those just removed.
            int stop = state.out[before <= OUT_TRIED_AGAIN ? k : random.nextInt(before)];
            if (!queuedAlready(stop, count, queued)) {
                queue[queued++] = stop;
            }
        }
        placeQueue(queued);
    }

    /** Places stops as they were before, as far as that keeps the rules. */
    void takeOver(Map<Integer, List<Integer>> orders) {
        orders.entrySet().stream().sorted(Map.Entry.comparingByKey()).forEach(entry -> {
            Tour tour = state.tours[entry.getKey()];
            int day = fleet.problem.shifts().get(entry.getKey()).day();
            for (int stop : entry.getValue()) {
                int kept = fleet.problem.stops().get(stop).dayChoices().indexOf(List.of(day));
                if (kept >= 0 && !state.placed(stop) && fleet.skilled[tour.kind][stop]) {
                    int reloads = tour.takesAtEnd(stop);
                    if (reloads >= 0) {
                        state.append(stop, kept, tour, reloads);
                    }
                }
            }
        });
    }

    /** Places all stops that are out, to begin with. */
    void placeAll() {
        int queued = state.outs;
        System.arraycopy(state.out, 0, queue, 0, queued);
        placeQueue(queued);
    }

    private boolean queuedAlready(int stop, int from, int until) {
        for (int k = from; k < until; k++) {
            if (queue[k] == stop) {
                return true;
            }
        }
        return false;
    }

    private void placeQueue(int queued) {
        sort(queued);
        bold = random.nextDouble() < BOLD_RATE;
        reloading = fleet.reloads < fleet.places && random.nextDouble() < RELOADING_RATE;
        for (int k = 0; k < queued; k++) {
            placeCheapest(queue[k]);
        }
    }

    private void sort(int queued) {
        int drawn = random.nextInt(Arrays.stream(SHARES).sum());
        int order = 0;
        while (drawn >= SHARES[order]) {
            drawn -= SHARES[order++];
        }
        for (int k = 0; k < queued; k++) {
            int stop = queue[k];
            long key = order == 0 ? random.nextLong() : keys[order][stop];
            int at = k;
            while (at > 0 && queueKeys[at - 1] > key) {
                queueKeys[at] = queueKeys[at - 1];
                queue[at] = queue[at - 1];
                at--;
            }
            queueKeys[at] = key;
            queue[at] = stop;
        }
    }

    private void placeCheapest(int stop) {
        if (!state.placed(stop) && !placeWhereCheapest(stop) && fleet.someLegCannotBeDriven) {
            placeWithAnother(stop);
        }
    }

    /** Whether there is a place for the stop at all, even if it is left out all the same. */
    private boolean placeWhereCheapest(int stop) {
        for (int day : fleet.daysOf[stop]) {
            search(stop, day);
        }
        int best = -1;
        long least = Long.MAX_VALUE;
        int[][] choices = fleet.choices[stop];
        for (int kept = 0; kept < choices.length; kept++) {
            long cost = fleet.choiceCost[stop][kept] + state.unevenIfPlaced(stop, kept);
            for (int day : choices[kept]) {
                cost = onDay[day].tour == null ? Long.MAX_VALUE : cost + onDay[day].cost;
                if (cost == Long.MAX_VALUE) {
                    break;
                }
            }
            if (cost < least) {
                least = cost;
                best = kept;
            }
        }
        if (best < 0) {
            return false;
        }
        boolean placed = least <= fleet.penalty[stop]
                ? !bold || random.nextDouble() >= LEFT_OUT_RATE
                : random.nextDouble() < DEARER_THAN_PENALTY_RATE;
        if (placed) {
            state.place(stop, best, onDay);
        }
        return true;
    }

    /** A stop that is reached or left over another one only is placed together with one that is drawn. */
    private void placeWithAnother(int stop) {
        if (fleet.n < 2) {
            return;
        }
        int[] near = fleet.neighbours[stop];
        int other = near[random.nextInt(near.length)];
        boolean moved = state.placed(other);
        if (moved) {
            state.remove(other);
            state.refreshTouched();
        }
        long least = fleet.penalty[stop] + fleet.penalty[other];
        int keptOfStop = -1;
        int keptOfOther = -1;
        boolean stopFirst = true;
        Tour tour = null;
        int behind = 0;
        for (int kept = 0; kept < fleet.choices[stop].length; kept++) {
            int[] days = fleet.choices[stop][kept];
            for (int keptThere = 0; keptThere < fleet.choices[other].length; keptThere++) {
                if (days.length > 1 || !Arrays.equals(days, fleet.choices[other][keptThere])) {
                    continue;
                }
                long wishes = fleet.choiceCost[stop][kept] + fleet.choiceCost[other][keptThere];
                for (boolean first : new boolean[] {true, false}) {
                    searchTogether(first ? stop : other, first ? other : stop, days[0]);
                    if (together.tour != null && together.cost + wishes <= least) {
                        least = together.cost + wishes;
                        keptOfStop = kept;
                        keptOfOther = keptThere;
                        stopFirst = first;
                        tour = together.tour;
                        behind = together.behind;
                    }
                }
            }
        }
        if (tour != null) {
            // The second one first: then the first one's place is still the same.
            state.insert(stopFirst ? other : stop, stopFirst ? keptOfOther : keptOfStop, tour, behind, Tour.NO_RELOAD);
            state.insert(stopFirst ? stop : other, stopFirst ? keptOfStop : keptOfOther, tour, behind, Tour.NO_RELOAD);
        } else if (moved) {
            placeWhereCheapest(other);
        }
    }

    private void searchTogether(int first, int second, int day) {
        together.clear(OVERLOOKED, false);
        for (int shift : fleet.shiftsOf[day]) {
            Tour tour = state.tours[shift];
            if (fleet.skilled[tour.kind][first] && fleet.skilled[tour.kind][second]) {
                tour.findCheapestPair(first, second, together);
            }
        }
    }

    private void search(int stop, int day) {
        Cheapest found = onDay[day];
        found.clear(bold || reloading ? OFTEN_OVERLOOKED : OVERLOOKED, reloading);
        searches++;
        for (int shift : fleet.shiftsOf[day]) {
            Tour tour = state.tours[shift];
            if (!fleet.skilled[tour.kind][stop] || bold && random.nextDouble() < OFTEN_OVERLOOKED) {
                continue;
            }
            if (tour.length == 0) {
                if (emptyKindSeen[tour.kind] == searches) {
                    continue;
                }
                emptyKindSeen[tour.kind] = searches;
            }
            tour.findCheapest(stop, found);
        }
    }
}
