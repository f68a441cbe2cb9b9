package app.tankround.socks;

import java.util.Arrays;
import java.util.Comparator;
import java.util.stream.IntStream;

/**
 * Clean and dirty socks of all sizes at the depot, day by day. In the morning what has dried is on the shelf and the vans take
 * what the day's visits need, as far as there are any; in the evening as many come back dirty as went out, and on a wash day
 * the machine takes what it can. Where it cannot take all, the size goes in first that would run short first.
 *
 * <p>Each array has a row for each size and in it a place for each day.
 *
 * @param clean on the shelf before the first morning
 * @param dirty at the depot then
 * @param needed by the visits of a day
 * @param arriving clean on a morning, from loads that are drying and from what was bought
 * @param washes whether the machine runs on the evening of a day
 * @param daysUntilLoaded from a wash day to the first morning on which its load is clean, at least 1
 * @param capacity how many socks the machine takes on one day
 */
record SockSimulation(
        int[] clean,
        int[] dirty,
        int[][] needed,
        int[][] arriving,
        boolean[] washes,
        int daysUntilLoaded,
        int capacity) {

    /**
     * What became of them.
     *
     * @param atLoading clean on the shelf when the vans load
     * @param missing of what the day's visits need
     * @param washed put into the machine on a day
     */
    record Outcome(int[][] atLoading, int[][] missing, int[][] washed) {

        int missing(int size) {
            return Arrays.stream(missing[size]).sum();
        }

        int missingFrom(int size, int day) {
            return day >= missing[size].length
                    ? 0
                    : Arrays.stream(missing[size], day, missing[size].length).sum();
        }

        /** The first day on which any are missing; the number of days if there is none. */
        int shortOn(int size) {
            int day = 0;
            while (day < missing[size].length && missing[size][day] == 0) {
                day++;
            }
            return day;
        }

        int missingBeside(int size) {
            return IntStream.range(0, missing.length)
                    .filter(other -> other != size)
                    .map(this::missing)
                    .sum();
        }
    }

    SockSimulation washingAlsoOn(int day) {
        boolean[] more = washes.clone();
        more[day] = true;
        return new SockSimulation(clean, dirty, needed, arriving, more, daysUntilLoaded, capacity);
    }

    SockSimulation withMore(int size, int count, int day) {
        int[][] more = arriving.clone();
        more[size] = arriving[size].clone();
        more[size][day] += count;
        return new SockSimulation(clean, dirty, needed, more, washes, daysUntilLoaded, capacity);
    }

    SockSimulation needing(int size, int[] other) {
        int[][] changed = needed.clone();
        changed[size] = other;
        return new SockSimulation(clean, dirty, changed, arriving, washes, daysUntilLoaded, capacity);
    }

    /** One size as if it had the machine for itself. */
    SockSimulation alone(int size) {
        return new SockSimulation(
                new int[] {clean[size]},
                new int[] {dirty[size]},
                new int[][] {needed[size]},
                new int[][] {arriving[size]},
                washes,
                daysUntilLoaded,
                capacity);
    }

    Outcome run() {
        int sizes = clean.length;
        int days = washes.length;
        int[] shelf = clean.clone();
        int[] soiled = dirty.clone();
        int[][] ready = new int[sizes][];
        for (int size = 0; size < sizes; size++) {
            ready[size] = arriving[size].clone();
        }
        Outcome outcome = new Outcome(new int[sizes][days], new int[sizes][days], new int[sizes][days]);
        for (int day = 0; day < days; day++) {
            for (int size = 0; size < sizes; size++) {
                shelf[size] += ready[size][day];
                outcome.atLoading[size][day] = shelf[size];
                int taken = Math.min(shelf[size], needed[size][day]);
                outcome.missing[size][day] = needed[size][day] - taken;
                shelf[size] -= taken;
                soiled[size] += taken;
            }
            if (washes[day]) {
                wash(day, shelf, soiled, ready, outcome);
            }
        }
        return outcome;
    }

    private void wash(int day, int[] shelf, int[] soiled, int[][] ready, Outcome outcome) {
        int left = capacity;
        boolean all = Arrays.stream(soiled).sum() <= capacity;
        int[] order = all
                ? IntStream.range(0, soiled.length).toArray()
                : IntStream.range(0, soiled.length)
                        .filter(size -> soiled[size] > 0)
                        .boxed()
                        .sorted(Comparator.comparingInt(
                                (Integer size) -> lastsUntil(size, day, shelf[size], ready[size])))
                        .mapToInt(Integer::intValue)
                        .toArray();
        for (int size : order) {
            int put = Math.min(soiled[size], left);
            outcome.washed[size][day] = put;
            soiled[size] -= put;
            left -= put;
            if (day + daysUntilLoaded < washes.length) {
                ready[size][day + daysUntilLoaded] += put;
            }
        }
    }

    /** The first day after one on which more will be needed than there are, if nothing more is washed. */
    private int lastsUntil(int size, int day, int shelf, int[] ready) {
        int there = shelf;
        for (int next = day + 1; next < washes.length; next++) {
            there += ready[next] - needed[size][next];
            if (there < 0) {
                return next;
            }
        }
        return washes.length;
    }
}
