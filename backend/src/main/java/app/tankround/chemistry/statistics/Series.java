package app.tankround.chemistry.statistics;

import app.tankround.units.InputKind;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.Ranges;
import app.tankround.units.RefusalCode;
import java.util.Arrays;

/** What all statistics of a series share. */
final class Series {

    private Series() {}

    static double[] require(double[] values, int fewest) {
        Ranges.require(InputKind.COUNT, values.length, fewest, Integer.MAX_VALUE);
        for (double value : values) {
            Ranges.require(InputKind.READING, value, -Double.MAX_VALUE, Double.MAX_VALUE);
        }
        return values;
    }

    static void requireSameLength(double[] first, double[] second) {
        Ranges.require(InputKind.COUNT, second.length, first.length, first.length);
    }

    static void requireAboveZero(InputKind quantity, double... values) {
        for (double value : values) {
            Ranges.require(quantity, value, Double.MIN_NORMAL, Double.MAX_VALUE);
        }
    }

    /** A share of a probability that is neither nothing nor all. */
    static double requireShare(double share) {
        return Ranges.require(InputKind.FRACTION, share, 1e-9, 1 - 1e-9);
    }

    static OutOfRangeException noSpan(double value) {
        return new OutOfRangeException(RefusalCode.NO_SPAN, InputKind.READING, value, value, value);
    }

    static double sum(double[] values) {
        double sum = 0;
        for (double value : values) {
            sum += value;
        }
        return sum;
    }

    static double mean(double[] values) {
        return sum(values) / values.length;
    }

    static double median(double[] values) {
        return medianOfSorted(sorted(values));
    }

    static double medianOfSorted(double[] sorted) {
        int middle = sorted.length / 2;
        return sorted.length % 2 == 1 ? sorted[middle] : 0.5 * sorted[middle - 1] + 0.5 * sorted[middle];
    }

    static double[] sorted(double[] values) {
        double[] copy = values.clone();
        Arrays.sort(copy);
        return copy;
    }

    /** Standard deviation about the mean with n - 1. */
    static double deviation(double[] values) {
        double mean = mean(values);
        double squares = 0;
        for (double value : values) {
            squares += (value - mean) * (value - mean);
        }
        return Math.sqrt(squares / (values.length - 1));
    }
}
