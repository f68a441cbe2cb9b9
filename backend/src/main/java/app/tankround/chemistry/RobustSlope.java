package app.tankround.chemistry;

import java.util.Arrays;

/**
 * The median of the slopes of all pairs of points: one slip of the pen among many readings does not turn it (Sen 1968,
 * Journal of the American Statistical Association 63, 1379-1389).
 */
final class RobustSlope {

    private RobustSlope() {}

    /**
     * @param x positions of the points; at least two of them differ
     * @param y as many values
     * @return units of y for one unit of x
     * @throws IllegalArgumentException if no two positions differ
     */
    static double of(double[] x, double[] y) {
        double[] slopes = new double[x.length * (x.length - 1) / 2];
        int count = 0;
        for (int i = 0; i < x.length; i++) {
            for (int j = i + 1; j < x.length; j++) {
                if (x[i] != x[j]) {
                    slopes[count++] = (y[j] - y[i]) / (x[j] - x[i]);
                }
            }
        }
        if (count == 0) {
            throw new IllegalArgumentException("A slope needs two points at different positions");
        }
        double[] sorted = Arrays.copyOf(slopes, count);
        Arrays.sort(sorted);
        int middle = count / 2;
        return count % 2 == 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
    }
}
