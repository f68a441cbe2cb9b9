package app.tankround.chemistry;

import app.tankround.units.InputKind;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.RefusalCode;
import java.util.List;

/**
 * One check of an instrument against one or more standards at one instant.
 *
 * @param id opaque; a verdict names the checks it rests on by it
 * @param atEpochSecond when, in seconds since 1970-01-01T00:00Z
 * @param points at least one
 */
public record CalibrationCheck(String id, long atEpochSecond, List<CheckPoint> points) {

    public CalibrationCheck {
        points = List.copyOf(points);
        if (points.isEmpty()) {
            throw new OutOfRangeException(RefusalCode.OUT_OF_RANGE, InputKind.COUNT, 0, 1, Double.POSITIVE_INFINITY);
        }
    }

    boolean checksWorkingRange() {
        for (CheckPoint point : points) {
            if (point.role() == StandardRole.WORKING_RANGE) {
                return true;
            }
        }
        return false;
    }

    CalibrationLine asFound(double resolution) {
        return CalibrationLine.through(points, CheckPoint::asFound, resolution);
    }

    CalibrationLine asLeft(double resolution) {
        return CalibrationLine.through(points, CheckPoint::asLeft, resolution);
    }

    /** Whether the instrument was within its permitted error, and plausible, before anything was adjusted. */
    public boolean passedAsFound(double permittedError) {
        return asFound(0).plausible() && largestError(true) <= allowed(permittedError);
    }

    /** The same after adjustment. */
    public boolean passedAsLeft(double permittedError) {
        return asLeft(0).plausible() && largestError(false) <= allowed(permittedError);
    }

    private double largestError(boolean found) {
        double largest = 0;
        for (CheckPoint point : points) {
            double error = found ? point.errorAsFound() : point.errorAsLeft();
            largest = Math.max(largest, Math.abs(error));
        }
        return largest;
    }

    /** 1.0266 - 1.0256 is not quite 0.001 in binary; an error equal to the permitted one passes. */
    private static double allowed(double permittedError) {
        return permittedError * (1 + 1e-9);
    }
}
