package app.tankround.socks;

import java.util.Arrays;
import java.util.BitSet;
import java.util.Comparator;
import java.util.stream.IntStream;

/**
 * Clean and dirty socks of all sorts at the depot, day by day. In the morning what has dried is on the shelf and the vans take
 * what the day's visits need, as far as there are any; in the evening as many come back dirty as went out, and on a wash day
 * the machine takes what it can. Where it cannot take all, the sort goes in first that would run short first.
 *
 * <p>What is needed is asked for by size, and a size may be served by several sorts. Sizes come in the order in which they get
 * theirs.
 *
 * @param clean by sort, on the shelf before the first morning
 * @param dirty by sort, at the depot then
 * @param arriving by sort and day, clean on the morning, from loads that are drying and from what was bought
 * @param needed by size and day, by the visits
 * @param serving by size the sorts that serve it, at least one, in the order in which they are taken
 * @param washes whether the machine runs on the evening of a day
 * @param daysUntilLoaded from a wash day to the first morning on which its load is clean, at least 1
 * @param capacity how many socks the machine takes on one day
 */
record SockSimulation(
        int[] clean,
        int[] dirty,
        int[][] arriving,
        int[][] needed,
        int[][] serving,
        boolean[] washes,
        int daysUntilLoaded,
        int capacity) {

    /**
     * What became of them, by size and day.
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
        return new SockSimulation(clean, dirty, arriving, needed, serving, more, daysUntilLoaded, capacity);
    }

    /** With more of the sort that a size takes first. */
    SockSimulation withMore(int size, int count, int day) {
        int sort = serving[size][0];
        int[][] more = arriving.clone();
        more[sort] = arriving[sort].clone();
        more[sort][day] += count;
        return new SockSimulation(clean, dirty, more, needed, serving, washes, daysUntilLoaded, capacity);
    }

    SockSimulation needing(int size, int[] other) {
        int[][] changed = needed.clone();
        changed[size] = other;
        return new SockSimulation(clean, dirty, arriving, changed, serving, washes, daysUntilLoaded, capacity);
    }

    /** A size among those with which it shares sorts. */
    record Alone(SockSimulation simulation, int size) {}

    /** One size, and those with which it shares sorts, as if they had the machine for themselves. */
    Alone alone(int size) {
        BitSet sizes = new BitSet();
        BitSet sorts = new BitSet();
        sizes.set(size);
        for (int known = 0; known < sizes.cardinality(); ) {
            known = sizes.cardinality();
            sizes.stream().forEach(each -> IntStream.of(serving[each]).forEach(sorts::set));
            IntStream.range(0, serving.length)
                    .filter(each -> IntStream.of(serving[each]).anyMatch(sorts::get))
                    .forEach(sizes::set);
        }
        int[] kept = sorts.stream().toArray();
        SockSimulation among = new SockSimulation(
                IntStream.of(kept).map(sort -> clean[sort]).toArray(),
                IntStream.of(kept).map(sort -> dirty[sort]).toArray(),
                IntStream.of(kept).mapToObj(sort -> arriving[sort]).toArray(int[][]::new),
                sizes.stream().mapToObj(each -> needed[each]).toArray(int[][]::new),
                sizes.stream()
                        .mapToObj(each -> IntStream.of(serving[each])
                                .map(sort -> Arrays.binarySearch(kept, sort))
                                .toArray())
                        .toArray(int[][]::new),
                washes,
                daysUntilLoaded,
                capacity);
        return new Alone(among, sizes.get(0, size).cardinality());
    }

    Outcome run() {
        int sizes = needed.length;
        int days = washes.length;
        int[] shelf = clean.clone();
        int[] soiled = dirty.clone();
        int[][] ready = new int[clean.length][];
        for (int sort = 0; sort < clean.length; sort++) {
            ready[sort] = arriving[sort].clone();
        }
        int[][] asking = asking();
        int[][] washed = new int[clean.length][days];
        Outcome outcome = new Outcome(new int[sizes][days], new int[sizes][days], new int[sizes][days]);
        for (int day = 0; day < days; day++) {
            for (int sort = 0; sort < shelf.length; sort++) {
                shelf[sort] += ready[sort][day];
            }
            for (int size = 0; size < sizes; size++) {
                outcome.atLoading[size][day] = together(size, shelf);
            }
            for (int size = 0; size < sizes; size++) {
                outcome.missing[size][day] = needed[size][day] - take(size, needed[size][day], shelf, soiled);
            }
            if (washes[day]) {
                wash(day, shelf, soiled, ready, asking, washed);
            }
            for (int size = 0; size < sizes; size++) {
                for (int sort : serving[size]) {
                    outcome.washed[size][day] += washed[sort][day];
                }
            }
        }
        return outcome;
    }

    private int together(int size, int[] shelf) {
        int together = 0;
        for (int sort : serving[size]) {
            together += shelf[sort];
        }
        return together;
    }

    private int take(int size, int count, int[] shelf, int[] soiled) {
        int taken = 0;
        for (int sort : serving[size]) {
            int ofSort = Math.min(shelf[sort], count - taken);
            shelf[sort] -= ofSort;
            soiled[sort] += ofSort;
            taken += ofSort;
        }
        return taken;
    }

    /** By sort the sizes that it serves. */
    private int[][] asking() {
        int[] counts = new int[clean.length];
        for (int[] sorts : serving) {
            for (int sort : sorts) {
                counts[sort]++;
            }
        }
        int[][] asking = new int[clean.length][];
        for (int sort = 0; sort < asking.length; sort++) {
            asking[sort] = new int[counts[sort]];
        }
        for (int size = 0; size < serving.length; size++) {
            for (int sort : serving[size]) {
                counts[sort]--;
                asking[sort][counts[sort]] = size;
            }
        }
        return asking;
    }

    private void wash(int day, int[] shelf, int[] soiled, int[][] ready, int[][] asking, int[][] washed) {
        int left = capacity;
        boolean all = Arrays.stream(soiled).sum() <= capacity;
        int[] order = all
                ? IntStream.range(0, soiled.length).toArray()
                : IntStream.range(0, soiled.length)
                        .filter(sort -> soiled[sort] > 0)
                        .boxed()
                        .sorted(Comparator.comparingInt(
                                (Integer sort) -> lastsUntil(asking[sort], day, shelf[sort], ready[sort])))
                        .mapToInt(Integer::intValue)
                        .toArray();
        for (int sort : order) {
            int put = Math.min(soiled[sort], left);
            washed[sort][day] = put;
            soiled[sort] -= put;
            left -= put;
            if (day + daysUntilLoaded < washes.length) {
                ready[sort][day + daysUntilLoaded] += put;
            }
        }
    }

    /** The first day after one on which all that a sort serves need more than there is of it, if nothing more is washed. */
    private int lastsUntil(int[] asking, int day, int shelf, int[] ready) {
        int there = shelf;
        for (int next = day + 1; next < washes.length; next++) {
            there += ready[next];
            for (int size : asking) {
                there -= needed[size][next];
            }
            if (there < 0) {
                return next;
            }
        }
        return washes.length;
    }
}
