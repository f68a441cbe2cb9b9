package app.tankround.chemistry;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The error of an instrument along its scale as one check shows it: a straight line by least squares through the points of
 * the check, exact for two; an offset if there is only one standard.
 *
 * <p>The error it gives is a weighted sum of the errors at the points, so that the uncertainty of each point goes through
 * with its own weight (JCGM 100:2008, 5.1.2).
 */
final class CalibrationLine {

    /** Accepted range of true span over read span; outside it the check was botched (own choice, no source). */
    static final double LOWEST_GAIN = 0.9;

    static final double HIGHEST_GAIN = 1.1;

    private final List<CheckPoint> points;
    private final boolean found;
    private final double[] readings;
    private final double meanReading;
    private final double meanError;
    private final double errorPerReading;
    private final double squares;
    private final double residual;
    private final boolean onePoint;
    private final boolean standardsEqual;
    private final double gain;
    private final @Nullable PhElectrode electrode;

    private CalibrationLine(List<CheckPoint> points, boolean found, @Nullable PhElectrode electrode) {
        this.points = points;
        this.electrode = electrode;
        this.found = found;
        int n = points.size();
        readings = new double[n];
        double[] errors = new double[n];
        double sumOfReadings = 0;
        double sumOfErrors = 0;
        double lowestTrue = Double.POSITIVE_INFINITY;
        double highestTrue = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < n; i++) {
            CheckPoint point = points.get(i);
            readings[i] = CheckPoint.mean(point.readings(found));
            errors[i] = readings[i] - point.trueValue();
            sumOfReadings += readings[i];
            sumOfErrors += errors[i];
            lowestTrue = Math.min(lowestTrue, point.trueValue());
            highestTrue = Math.max(highestTrue, point.trueValue());
        }
        meanReading = sumOfReadings / n;
        meanError = sumOfErrors / n;
        onePoint = highestTrue <= lowestTrue;
        standardsEqual = onePoint && n > 1 && !differentLots(points);
        double sumOfSquares = 0;
        double products = 0;
        for (int i = 0; i < n; i++) {
            double fromReading = readings[i] - meanReading;
            double fromError = errors[i] - meanError;
            sumOfSquares += fromReading * fromReading;
            products += fromReading * fromError;
        }
        squares = onePoint ? 0 : sumOfSquares;
        errorPerReading = squares > 0 ? products / squares : 0;
        residual = n > 2 && squares > 0 ? residual(errors) : 0;
        if (onePoint) {
            gain = 1;
        } else {
            gain = squares > 0 ? 1 - errorPerReading : 0;
        }
    }

    static CalibrationLine through(List<CheckPoint> points, boolean found) {
        return through(points, found, null);
    }

    /** @param electrode how the electrode did that gave these readings; adjusting its meter leaves it as it is */
    static CalibrationLine through(List<CheckPoint> points, boolean found, @Nullable PhElectrode electrode) {
        return new CalibrationLine(points, found, electrode);
    }

    /** Two bottles of one value say nothing about the slope, but confirm each other. */
    private static boolean differentLots(List<CheckPoint> points) {
        for (int i = 0; i < points.size(); i++) {
            for (int j = 0; j < i; j++) {
                String standard = points.get(i).standard();
                if (standard.isEmpty() || standard.equals(points.get(j).standard())) {
                    return false;
                }
            }
        }
        return true;
    }

    private double residual(double[] errors) {
        double sum = 0;
        for (int i = 0; i < errors.length; i++) {
            double off = errors[i] - errorAt(readings[i]);
            sum += off * off;
        }
        return Math.sqrt(sum / (errors.length - 2));
    }

    /** True span over read span, 1 for a single standard, 0 if the readings do not differ. */
    double gain() {
        return gain;
    }

    boolean plausible() {
        return gain >= LOWEST_GAIN && gain <= HIGHEST_GAIN && !standardsEqual && wornOut() == null;
    }

    /** The electrode if it is not fit for use. */
    @Nullable PhElectrode wornOut() {
        return electrode != null && !electrode.isUsable() ? electrode : null;
    }

    /** Whether it was meant to have a slope and both standards had the same value. */
    boolean standardsEqual() {
        return standardsEqual;
    }

    boolean onePoint() {
        return onePoint;
    }

    double meanReading() {
        return meanReading;
    }

    double errorAt(double reading) {
        double fromMean = reading - meanReading;
        return meanError + errorPerReading * fromMean;
    }

    /**
     * Adds what this line contributes to the uncertainty of a corrected value.
     *
     * @param weight how much of its error the corrected value rests on
     */
    void addTo(BudgetBuilder budget, double reading, double weight) {
        double fromMean = reading - meanReading;
        double lack = residual * residual;
        for (int i = 0; i < readings.length; i++) {
            double lever = readings[i] - meanReading;
            double turn = squares > 0 ? fromMean * lever / squares : 0;
            double share = weight * (1.0 / readings.length + turn);
            // A point that reads higher also lies further along the line.
            double ofReading = share * (standardsEqual ? 1 : gain);
            budget.addPoint(points.get(i), points.get(i).readings(found).size(), share, ofReading);
            budget.add(UncertaintySource.SLOPE, lack * share * share);
        }
        if (onePoint) {
            budget.addUnknownSlope(weight * fromMean);
        }
    }
}
