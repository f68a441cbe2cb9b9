package app.tankround.chemistry.statistics;

import app.tankround.chemistry.NormalDistribution;
import app.tankround.units.OutOfRangeException;
import java.util.Arrays;
import java.util.Collections;
import java.util.Optional;

/**
 * The median of the slopes between all pairs of points, which bears that up to 29 % of the points are outliers. Theil,
 * Proceedings of the Royal Netherlands Academy of Sciences 53 (1950); Sen, Journal of the American Statistical Association
 * 63 (1968) 1379.
 */
public final class TheilSen {

    private final double[] x;
    private final double[] y;
    private final double[] slopes;

    private TheilSen(double[] x, double[] y, double[] slopes) {
        this.x = x;
        this.y = y;
        this.slopes = slopes;
    }

    /**
     * Limits of the slope.
     *
     * @param low lower limit
     * @param high upper limit
     * @param coverage probability that the interval holds the true slope
     */
    public record Limits(double low, double high, double coverage) {}

    /**
     * Through points in any order; pairs with the same x are left out.
     *
     * @throws OutOfRangeException if there are fewer than three points; {@code NO_SPAN} if all have the same x
     */
    public static TheilSen through(double[] x, double[] y) {
        Series.require(x, 3);
        Series.requireSameLength(x, y);
        Series.require(y, 3);
        double[] found = new double[x.length * (x.length - 1) / 2];
        int count = 0;
        for (int i = 0; i < x.length; i++) {
            for (int j = i + 1; j < x.length; j++) {
                if (x[i] != x[j]) {
                    found[count++] = (y[j] - y[i]) / (x[j] - x[i]);
                }
            }
        }
        if (count == 0) {
            throw Series.noSpan(x[0]);
        }
        return new TheilSen(x.clone(), y.clone(), Series.sorted(Arrays.copyOf(found, count)));
    }

    /** Median of the slopes, in y per x. */
    public double slope() {
        return Series.medianOfSorted(slopes);
    }

    /** How many slopes there are. */
    public int slopes() {
        return slopes.length;
    }

    /** Median of y less slope times median of x (Conover, Practical Nonparametric Statistics, 1980). */
    public double intercept() {
        return Series.median(y) - slope() * Series.median(x);
    }

    /** Median of the residuals without intercept; another convention. */
    public double interceptOfResiduals() {
        double slope = slope();
        double[] residuals = new double[x.length];
        for (int i = 0; i < x.length; i++) {
            residuals[i] = y[i] - slope * x[i];
        }
        return Series.median(residuals);
    }

    /**
     * Limits by the normal approximation, between the slopes where a rank falls between two. Gilbert, Statistical Methods
     * for Environmental Pollution Monitoring (1987), 16.5.
     *
     * @param share that they are to hold, such as 0.95
     * @return empty if there are too few slopes for that share
     */
    public Optional<Limits> gilbertLimits(double share) {
        double z = NormalDistribution.quantile(0.5 + 0.5 * Series.requireShare(share));
        double variance = MannKendall.variance(x.length, MannKendall.ties(y), MannKendall.ties(x));
        double c = z * Math.sqrt(variance);
        double lower = 0.5 * (slopes.length - c);
        double upper = 0.5 * (slopes.length + c) + 1;
        return lower < 1 || upper > slopes.length
                ? Optional.empty()
                : Optional.of(new Limits(ranked(lower), ranked(upper), share));
    }

    /**
     * Exact limits by Sen: the narrowest two slopes of equal rank from either end that hold at least the share. Only up to
     * {@value MannKendall#MOST_COUNTED} points without ties.
     *
     * @return empty if there are ties, too many points, or too few for that share
     */
    public Optional<Limits> senLimits(double share) {
        Series.requireShare(share);
        int n = x.length;
        if (n > MannKendall.MOST_COUNTED
                || MannKendall.ties(x).size() < n
                || MannKendall.ties(y).size() < n) {
            return Optional.empty();
        }
        double[] falling = orders(n);
        int rank = 0;
        double coverage = 1;
        double beyond = falling[0];
        while (2 * (rank + 1) <= slopes.length && 1 - 2 * beyond >= share) {
            coverage = 1 - 2 * beyond;
            rank++;
            beyond += falling[rank];
        }
        return rank == 0
                ? Optional.empty()
                : Optional.of(new Limits(slopes[rank - 1], slopes[slopes.length - rank], coverage));
    }

    /** Exact probability that the slopes of a rank from either end hold the true slope, without ties. */
    public static double coverageOfRank(int points, int rank) {
        double[] falling = orders(points);
        double beyond = 0;
        for (int i = 0; i < rank; i++) {
            beyond += falling[i];
        }
        return 1 - 2 * beyond;
    }

    /** Probability of each number of falling pairs among all orders of different values. */
    private static double[] orders(int points) {
        return MannKendall.fallingPairs(Collections.nCopies(points, 1));
    }

    /** The slope of a rank from 1, between two slopes if the rank is broken. */
    private double ranked(double rank) {
        int below = (int) Math.floor(rank);
        double share = rank - below;
        double low = slopes[below - 1];
        return share > 0 ? low + share * (slopes[below] - low) : low;
    }
}
