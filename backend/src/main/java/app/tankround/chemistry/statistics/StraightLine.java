package app.tankround.chemistry.statistics;

import app.tankround.units.InputKind;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.Ranges;
import java.util.Arrays;

/**
 * A straight line through points by least squares, {@code y = intercept + slope x}, the values of {@code x} without error;
 * with weights if the points are not equally sure (JCGM 100:2008, H.3).
 */
public final class StraightLine {

    /** A spread of x below this share of x itself is what is left of rounding, and no slope follows from it (own choice). */
    private static final double ROUNDING = 1e-12;

    private final int points;
    private final double slope;
    private final double intercept;
    private final double meanX;
    private final double meanY;
    private final double squaresX;
    private final double squaresY;
    private final double squaredResiduals;
    private final double weights;

    private StraightLine(double[] x, double[] y, double[] weight) {
        this.points = x.length;
        this.weights = Series.sum(weight);
        this.meanX = weightedMean(x, weight);
        this.meanY = weightedMean(y, weight);
        double squares = 0;
        double products = 0;
        double ySquares = 0;
        for (int i = 0; i < x.length; i++) {
            double dx = x[i] - meanX;
            double dy = y[i] - meanY;
            squares += weight[i] * dx * dx;
            products += weight[i] * dx * dy;
            ySquares += weight[i] * dy * dy;
        }
        if (!(squares > 0) || isLostInRounding(x)) {
            throw Series.noSpan(x[0]);
        }
        this.squaresX = squares;
        this.squaresY = ySquares;
        this.slope = products / squares;
        this.intercept = meanY - slope * meanX;
        double residuals = 0;
        for (int i = 0; i < x.length; i++) {
            double residual = y[i] - meanY - slope * (x[i] - meanX);
            residuals += weight[i] * residual * residual;
        }
        this.squaredResiduals = residuals;
    }

    private static boolean isLostInRounding(double[] x) {
        double lowest = x[0];
        double highest = x[0];
        for (double each : x) {
            lowest = Math.min(lowest, each);
            highest = Math.max(highest, each);
        }
        return highest - lowest <= ROUNDING * Math.max(Math.abs(lowest), Math.abs(highest));
    }

    /**
     * Through points that are equally sure.
     *
     * @throws OutOfRangeException if there are fewer than three; {@code NO_SPAN} if all have the same x but for rounding
     */
    public static StraightLine through(double[] x, double[] y) {
        double[] equal = new double[x.length];
        Arrays.fill(equal, 1);
        return weighted(x, y, equal);
    }

    /**
     * Through points with weights, in proportion to the inverse of their variances.
     *
     * @throws OutOfRangeException also if a weight is not above 0
     */
    public static StraightLine weighted(double[] x, double[] y, double[] weights) {
        Series.require(x, 3);
        Series.requireSameLength(x, y);
        Series.requireSameLength(x, weights);
        Series.require(y, 3);
        Series.requireAboveZero(InputKind.READING, weights);
        return new StraightLine(x, y, weights);
    }

    public int points() {
        return points;
    }

    /** Degrees of freedom of the residual standard deviation, two less than there are points. */
    public int degrees() {
        return points - 2;
    }

    public double slope() {
        return slope;
    }

    public double intercept() {
        return intercept;
    }

    public double meanX() {
        return meanX;
    }

    public double meanY() {
        return meanY;
    }

    /** Weighted sum of the squared distances of x from its mean. */
    double squaresX() {
        return squaresX;
    }

    /** Sum of the weights; the number of points if they are equally sure. */
    double weights() {
        return weights;
    }

    /** Weighted sum of the squared residuals. */
    public double squaredResiduals() {
        return squaredResiduals;
    }

    /** Residual standard deviation; of a point with weight 1 if there are weights. */
    public double residualDeviation() {
        return Math.sqrt(squaredResiduals / degrees());
    }

    /** Standard uncertainty of the slope. */
    public double slopeUncertainty() {
        return residualDeviation() / Math.sqrt(squaresX);
    }

    /** Standard uncertainty of the intercept. */
    public double interceptUncertainty() {
        return uncertaintyAt(0);
    }

    /** Correlation coefficient of the estimates of intercept and slope. */
    public double correlation() {
        return -meanX / Math.sqrt(squaresX / weights + meanX * meanX);
    }

    /** Share of the variance of y that the line explains; 1 if y does not vary. */
    public double determination() {
        return squaresY > 0 ? 1 - squaredResiduals / squaresY : 1;
    }

    /** The line at an x. */
    public double at(double x) {
        return meanY + slope * (require(x) - meanX);
    }

    /** Standard uncertainty of the line at an x. */
    public double uncertaintyAt(double x) {
        return residualDeviation() * Math.sqrt(varianceAt(x));
    }

    /**
     * Standard uncertainty of the mean of readings still to come at an x, that of the line included.
     *
     * @param readings how many, from 1; with a weighted line the weight of their mean
     */
    public double uncertaintyOfReadingAt(double x, double readings) {
        Series.requireAboveZero(InputKind.COUNT, readings);
        return residualDeviation() * Math.sqrt(1 / readings + varianceAt(x));
    }

    private double varianceAt(double x) {
        double off = require(x) - meanX;
        return 1 / weights + off * off / squaresX;
    }

    private static double require(double x) {
        return Ranges.require(InputKind.READING, x, -Double.MAX_VALUE, Double.MAX_VALUE);
    }

    private static double weightedMean(double[] values, double[] weight) {
        double sum = 0;
        double all = 0;
        for (int i = 0; i < values.length; i++) {
            sum += weight[i] * values[i];
            all += weight[i];
        }
        return sum / all;
    }
}
