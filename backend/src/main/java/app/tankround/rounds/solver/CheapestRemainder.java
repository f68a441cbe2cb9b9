package app.tankround.rounds.solver;

/**
 * What the legs cost at least from a stop over all that were not visited yet to the end, whatever the hour: dynamic
 * programming over (set of visited stops, last stop), one number for each (Held and Karp, Journal of SIAM 10(1), 1962).
 */
final class CheapestRemainder {

    /** About 8 MB; each further stop doubles that. */
    private static final int MOST_STOPS = 16;
    /** Larger than any sum of legs, and so small that another leg can be added. */
    private static final long NO_WAY = Long.MAX_VALUE / 4;

    private final int n;
    private final long[] least;

    private CheapestRemainder(int n) {
        this.n = n;
        least = new long[(1 << n) * n];
    }

    /** Whether the table is worth its time and room: once a search has a good part of the labels that it has sets. */
    static boolean isWorthIt(int n, int labels) {
        return n <= MOST_STOPS && labels > 1 << n >> 2;
    }

    /** @param legs cost of each leg, stops 0 to n - 1, the end n */
    static CheapestRemainder of(long[][] legs, int n) {
        CheapestRemainder remainder = new CheapestRemainder(n);
        int all = (1 << n) - 1;
        for (int set = all; set > 0; set--) {
            for (int last = 0; last < n; last++) {
                if ((set & 1 << last) != 0) {
                    remainder.least[set * n + last] = set == all ? legs[last][n] : remainder.next(set, legs[last]);
                }
            }
        }
        return remainder;
    }

    private long next(int set, long[] legs) {
        long cheapest = NO_WAY;
        for (int toCome = ~set & (1 << n) - 1; toCome != 0; toCome &= toCome - 1) {
            int stop = Integer.numberOfTrailingZeros(toCome);
            cheapest = Math.min(cheapest, legs[stop] + least[(set | 1 << stop) * n + stop]);
        }
        return cheapest;
    }

    long from(int set, int last) {
        return least[set * n + last];
    }
}
