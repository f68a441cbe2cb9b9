package app.tankround.socks;

import java.util.Collections;
import java.util.Comparator;
import java.util.Map;
import java.util.NavigableMap;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * How often the socks of a pool were washed. Nobody can tell one sock from another, so those of each age go into the machine,
 * and get lost, in proportion to how many there are; the parts are made whole by the method of largest remainders
 * (Hamilton's), so that not one sock is made or lost by rounding. What is retired is what was washed most often. Pure
 * arithmetic.
 *
 * @param counts how many were washed so often, each above 0
 */
public record SockAges(SortedMap<Integer, Integer> counts) {

    public static final SockAges NONE = new SockAges(new TreeMap<>());

    public SockAges {
        counts = Collections.unmodifiableSortedMap(new TreeMap<>(counts));
        if (counts.keySet().stream().anyMatch(washes -> washes < 0)
                || counts.values().stream().anyMatch(count -> count <= 0)) {
            throw new IllegalArgumentException("ages of socks: " + counts);
        }
    }

    /** How many there are. */
    public int total() {
        return counts.values().stream().mapToInt(Integer::intValue).sum();
    }

    /** How many were washed at least so often. */
    public int washedAtLeast(int washes) {
        return counts.tailMap(washes).values().stream()
                .mapToInt(Integer::intValue)
                .sum();
    }

    /** How often they were washed, all together. */
    public int washes() {
        return counts.entrySet().stream()
                .mapToInt(age -> age.getKey() * age.getValue())
                .sum();
    }

    /** These and others together. */
    public SockAges and(SockAges others) {
        TreeMap<Integer, Integer> both = new TreeMap<>(counts);
        others.counts.forEach((washes, count) -> put(both, washes, count));
        return new SockAges(both);
    }

    /** Socks come in that were never washed. */
    public SockAges withNew(int count) {
        TreeMap<Integer, Integer> after = new TreeMap<>(counts);
        put(after, 0, count);
        return new SockAges(after);
    }

    /**
     * Some went through the machine once more.
     *
     * @param count 0 to {@link #total()}
     */
    public SockAges washed(int count) {
        TreeMap<Integer, Integer> after = new TreeMap<>(counts);
        share(count).forEach((washes, share) -> {
            put(after, washes, -share);
            put(after, washes + 1, share);
        });
        return new SockAges(after);
    }

    /**
     * Some are gone, of whatever age.
     *
     * @param count 0 to {@link #total()}
     */
    public SockAges without(int count) {
        TreeMap<Integer, Integer> after = new TreeMap<>(counts);
        share(count).forEach((washes, share) -> put(after, washes, -share));
        return new SockAges(after);
    }

    /**
     * Those that were washed most often are gone.
     *
     * @param count 0 to {@link #total()}
     */
    public SockAges withoutOldest(int count) {
        require(count);
        TreeMap<Integer, Integer> after = new TreeMap<>(counts);
        int open = count;
        while (open > 0) {
            int oldest = after.lastKey();
            int gone = Math.min(open, counts.getOrDefault(oldest, 0));
            put(after, oldest, -gone);
            open -= gone;
        }
        return new SockAges(after);
    }

    /** How many of each age are among so many of them; those of the largest remainder first, of equal ones the younger. */
    SortedMap<Integer, Integer> share(int count) {
        require(count);
        long total = total();
        NavigableMap<Integer, Integer> shares = new TreeMap<>();
        int open = count;
        for (Map.Entry<Integer, Integer> age : counts.entrySet()) {
            int whole = (int) ((long) count * age.getValue() / total);
            shares.put(age.getKey(), whole);
            open -= whole;
        }
        counts.keySet().stream()
                .sorted(Comparator.comparingLong(
                                (Integer washes) -> -((long) count * counts.getOrDefault(washes, 0) % total))
                        .thenComparing(Comparator.naturalOrder()))
                .limit(open)
                .forEach(washes -> shares.merge(washes, 1, Integer::sum));
        return shares;
    }

    private void require(int count) {
        if (count < 0 || count > total()) {
            throw new IllegalArgumentException(count + " of " + total() + " socks");
        }
    }

    private static void put(TreeMap<Integer, Integer> ages, int washes, int more) {
        int after = ages.getOrDefault(washes, 0) + more;
        if (after == 0) {
            ages.remove(washes);
        } else {
            ages.put(washes, after);
        }
    }
}
