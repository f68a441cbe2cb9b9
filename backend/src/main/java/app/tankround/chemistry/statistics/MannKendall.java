package app.tankround.chemistry.statistics;

import app.tankround.chemistry.NormalDistribution;
import app.tankround.units.OutOfRangeException;
import java.util.ArrayList;
import java.util.List;

/**
 * The Mann-Kendall test for a trend in a series in order of time. Mann, Econometrica 13 (1945) 245; Kendall, Rank
 * Correlation Methods (1970).
 *
 * @param score pairs that rise less pairs that fall, S
 * @param variance of S without a trend, corrected for ties
 * @param count how many values
 * @param upperTail exact probability of S or a higher one without a trend; not a number if there are more than 50 values
 * @param lowerTail exact probability of S or a lower one
 */
public record MannKendall(long score, double variance, int count, double upperTail, double lowerTail) {

    /** Most values for which the orders are counted; beyond it the normal approximation is as good as exact. */
    public static final int MOST_COUNTED = 50;

    /**
     * Of a series. Up to {@value #MOST_COUNTED} values all orders of these values are counted, ties included: equal values
     * stay equal in every order.
     *
     * @throws OutOfRangeException if there are fewer than three values
     */
    public static MannKendall of(double[] series) {
        Series.require(series, 3);
        int n = series.length;
        long score = 0;
        for (int i = 0; i < n; i++) {
            for (int j = i + 1; j < n; j++) {
                score += series[j] > series[i] ? 1 : series[j] < series[i] ? -1 : 0;
            }
        }
        List<Integer> ties = ties(series);
        double variance = variance(n, ties, List.of());
        if (n > MOST_COUNTED) {
            return new MannKendall(score, variance, n, Double.NaN, Double.NaN);
        }
        double[] falling = fallingPairs(ties);
        int comparable = falling.length - 1;
        double upper = 0;
        double lower = 0;
        for (int pairs = 0; pairs <= comparable; pairs++) {
            long possible = comparable - 2L * pairs;
            upper += possible >= score ? falling[pairs] : 0;
            lower += possible <= score ? falling[pairs] : 0;
        }
        return new MannKendall(score, variance, n, Math.min(1, upper), Math.min(1, lower));
    }

    /** Kendall's tau without correction for ties: S over the number of pairs. */
    public double tau() {
        return 2.0 * score / (count * (count - 1.0));
    }

    /** Standard score with continuity correction; 0 if S is 0. */
    public double z() {
        return score == 0 ? 0 : (score - Long.signum(score)) / Math.sqrt(variance);
    }

    /** Two-sided probability by the normal approximation; poor below ten values. */
    public double normalProbability() {
        return Math.min(1, 2 * NormalDistribution.survival(Math.abs(z())));
    }

    /** Whether the probability is counted rather than approximated. */
    public boolean exact() {
        return count <= MOST_COUNTED;
    }

    /** Two-sided probability of an S as far from 0 without a trend: exact where orders are counted, else approximated. */
    public double probability() {
        return exact() ? Math.min(1, 2 * Math.min(upperTail, lowerTail)) : normalProbability();
    }

    /**
     * Variance of S under no trend, with ties in either variable (Kendall 1970, chapter 4).
     *
     * @param ties sizes of the groups of equal values in one variable
     * @param others those in the other
     */
    static double variance(int n, List<Integer> ties, List<Integer> others) {
        double count = n;
        double full = spread(n);
        double pairs = 0;
        double otherPairs = 0;
        double triples = 0;
        double otherTriples = 0;
        for (int t : ties) {
            full -= spread(t);
            pairs += t * (t - 1.0);
            triples += t * (t - 1.0) * (t - 2.0);
        }
        for (int u : others) {
            full -= spread(u);
            otherPairs += u * (u - 1.0);
            otherTriples += u * (u - 1.0) * (u - 2.0);
        }
        double variance = full / 18
                + pairs * otherPairs / (2 * count * (count - 1))
                + triples * otherTriples / (9 * count * (count - 1) * (count - 2));
        // Nothing is left of it where one variable is all ties, but for the rounding.
        return Math.max(0, variance);
    }

    /** Sizes of the groups of equal values, groups of one included, in rising order of value. */
    static List<Integer> ties(double[] series) {
        double[] sorted = Series.sorted(series);
        List<Integer> sizes = new ArrayList<>();
        int size = 0;
        for (int i = 0; i < sorted.length; i++) {
            size++;
            if (i == sorted.length - 1 || sorted[i + 1] > sorted[i]) {
                sizes.add(size);
                size = 0;
            }
        }
        return sizes;
    }

    /**
     * Probability of each number of falling pairs among all orders of groups of equal values. Putting the t values of one
     * more group among the n below it lets each fall before some of these: as many ways as there are partitions that fit
     * into t by n, the Gaussian binomial.
     */
    static double[] fallingPairs(List<Integer> ties) {
        double[] probability = {1};
        int below = 0;
        for (int t : ties) {
            probability = product(probability, partitions(below, t));
            below += t;
        }
        return probability;
    }

    /** Share of the placements of t equal values among n others with each number of falling pairs. */
    private static double[] partitions(int n, int t) {
        double[][] row = new double[t + 1][];
        for (int k = 0; k <= t; k++) {
            row[k] = new double[] {1};
        }
        for (int others = 1; others <= n; others++) {
            for (int k = 1; k <= t; k++) {
                // The last place holds either one more of the equal values, or one of the others with all k before it.
                double whole = others + k;
                double[] next = new double[others * k + 1];
                add(next, row[k - 1], k / whole, 0);
                add(next, row[k], others / whole, k);
                row[k] = next;
            }
        }
        return row[t];
    }

    private static void add(double[] into, double[] shares, double factor, int shift) {
        for (int i = 0; i < shares.length; i++) {
            into[i + shift] += factor * shares[i];
        }
    }

    private static double[] product(double[] first, double[] second) {
        double[] product = new double[first.length + second.length - 1];
        for (int i = 0; i < first.length; i++) {
            add(product, second, first[i], i);
        }
        return product;
    }

    private static double spread(int size) {
        double n = size;
        return n * (n - 1) * (2 * n + 5);
    }
}
