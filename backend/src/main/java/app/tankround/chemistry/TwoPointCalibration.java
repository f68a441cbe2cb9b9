package app.tankround.chemistry;

import app.tankround.units.InputKind;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.RefusalCode;
import java.util.List;

/**
 * A correction by two standards, on the instrument's own scale: a straight line through zero and working range. The same
 * line as the verdict rule draws through the points of a check.
 */
public final class TwoPointCalibration {

    private final CalibrationLine line;

    private TwoPointCalibration(CalibrationLine line) {
        this.line = line;
    }

    /**
     * From the two readings.
     *
     * @param trueZero what a faultless instrument shows in the zero, 0 or 1.0000
     * @param readZero what this one showed in it
     * @param trueHigh what a faultless instrument shows in the standard
     * @param readHigh what this one showed in it
     * @throws OutOfRangeException with code {@code NO_SPAN} if the readings do not rise with the standards, with
     *     {@code GAIN_IMPLAUSIBLE} if the gain, true span over read span, is outside 0.9 to 1.1
     */
    public static TwoPointCalibration of(double trueZero, double readZero, double trueHigh, double readHigh) {
        CheckPoint zero = CheckPoint.of(StandardRole.ZERO, "", trueZero, readZero, readZero, 0);
        CheckPoint high = CheckPoint.of(StandardRole.WORKING_RANGE, "", trueHigh, readHigh, readHigh, 0);
        if (trueHigh <= trueZero || readHigh <= readZero) {
            throw new OutOfRangeException(
                    RefusalCode.NO_SPAN, InputKind.READING, readHigh, readZero, Double.POSITIVE_INFINITY);
        }
        CalibrationLine line = CalibrationLine.through(List.of(zero, high), true);
        requirePlausible(line.gain());
        return new TwoPointCalibration(line);
    }

    /**
     * Refuses a gain, true span over read span, that says that the check was botched.
     *
     * @return the gain
     * @throws OutOfRangeException with code {@code GAIN_IMPLAUSIBLE} outside 0.9 to 1.1
     */
    public static double requirePlausible(double gain) {
        if (!(gain >= CalibrationLine.LOWEST_GAIN && gain <= CalibrationLine.HIGHEST_GAIN)) {
            throw new OutOfRangeException(
                    RefusalCode.GAIN_IMPLAUSIBLE,
                    InputKind.GAIN,
                    gain,
                    CalibrationLine.LOWEST_GAIN,
                    CalibrationLine.HIGHEST_GAIN);
        }
        return gain;
    }

    /** The true value behind a reading. */
    public double correct(double reading) {
        return reading - line.errorAt(reading);
    }

    /** True span over read span. */
    public double gain() {
        return line.gain();
    }
}
