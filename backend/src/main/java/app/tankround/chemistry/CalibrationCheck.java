package app.tankround.chemistry;

import app.tankround.units.InputKind;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.RefusalCode;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * One check of an instrument against one or more standards at one instant.
 *
 * <p>Where a standard that may be believed was read, those that may not are left out of every sum.
 *
 * @param id opaque; a verdict names the checks it rests on by it
 * @param atEpochSecond when, in seconds since 1970-01-01T00:00Z
 * @param points at least one
 * @param electrode how a pH electrode did as found, where millivolts were written down in two buffers
 */
public record CalibrationCheck(
        String id,
        long atEpochSecond,
        List<CheckPoint> points,
        @Nullable PhElectrode electrode) {

    public CalibrationCheck {
        points = List.copyOf(points);
        if (points.isEmpty()) {
            throw new OutOfRangeException(RefusalCode.OUT_OF_RANGE, InputKind.COUNT, 0, 1, Double.POSITIVE_INFINITY);
        }
    }

    /** A check without millivolts. */
    public CalibrationCheck(String id, long atEpochSecond, List<CheckPoint> points) {
        this(id, atEpochSecond, points, null);
    }

    /** Whether any of its standards may be believed. */
    public boolean isBelieved() {
        for (CheckPoint point : points) {
            if (point.believed()) {
                return true;
            }
        }
        return false;
    }

    /** Whether a standard that counts checks the working range. */
    public boolean checksWorkingRange() {
        for (CheckPoint point : counted()) {
            if (point.role() == StandardRole.WORKING_RANGE) {
                return true;
            }
        }
        return false;
    }

    /** The points that count: those in standards that may be believed, or all if there are none. */
    List<CheckPoint> counted() {
        List<CheckPoint> believed = new ArrayList<>();
        for (CheckPoint point : points) {
            if (point.believed()) {
                believed.add(point);
            }
        }
        return believed.isEmpty() || believed.size() == points.size() ? points : believed;
    }

    /** The point that counts at which it was furthest off before anything was adjusted; the first of equals. */
    public CheckPoint worst() {
        List<CheckPoint> counted = counted();
        CheckPoint worst = counted.getFirst();
        for (CheckPoint point : counted) {
            worst = Math.abs(point.errorAsFound()) > Math.abs(worst.errorAsFound()) ? point : worst;
        }
        return worst;
    }

    /** Whether anything was read again after an adjustment. */
    boolean isAdjusted() {
        for (CheckPoint point : points) {
            if (!point.asLeft().isEmpty()) {
                return true;
            }
        }
        return false;
    }

    CalibrationLine line(boolean found) {
        return CalibrationLine.through(counted(), found, electrode);
    }

    /** Whether the instrument was within its permitted error, and plausible, before anything was adjusted. */
    public boolean passedAsFound(double permittedError) {
        return line(true).plausible() && largestError(true) <= allowed(permittedError);
    }

    /** The same after adjustment. */
    public boolean passedAsLeft(double permittedError) {
        return line(false).plausible() && largestError(false) <= allowed(permittedError);
    }

    /** Whether a believed standard in the working range found it within its permitted error and left it so. */
    public boolean isGood(double permittedError) {
        return isBelieved() && checksWorkingRange() && passedAsFound(permittedError) && passedAsLeft(permittedError);
    }

    private double largestError(boolean found) {
        double largest = 0;
        for (CheckPoint point : counted()) {
            largest = Math.max(largest, Math.abs(point.error(found)));
        }
        return largest;
    }

    /** Whether an error passes. */
    public static boolean passes(double error, double permittedError) {
        return Math.abs(error) <= allowed(permittedError);
    }

    /** 1.0266 - 1.0256 is not quite 0.001 in binary; an error equal to the permitted one passes. */
    static double allowed(double permittedError) {
        return permittedError * (1 + 1e-9);
    }
}
