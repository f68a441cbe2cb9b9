package app.tankround.chemistry;

import app.tankround.units.InputKind;
import app.tankround.units.Ranges;

/**
 * One standard in one check of an instrument; every value on the instrument's own scale.
 *
 * @param role which part of the scale the standard checks
 * @param trueValue what a faultless instrument would show in the standard
 * @param asFound what it showed before anything was adjusted
 * @param asLeft what it showed afterwards; equal to {@code asFound} if nothing was adjusted
 * @param standardUncertainty standard uncertainty (k = 1) of the standard, not negative
 */
public record CheckPoint(
        StandardRole role, double trueValue, double asFound, double asLeft, double standardUncertainty) {

    public CheckPoint {
        Ranges.require(InputKind.READING, trueValue, Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY);
        Ranges.require(InputKind.READING, asFound, Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY);
        Ranges.require(InputKind.READING, asLeft, Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY);
        Ranges.requireNotNegative(InputKind.UNCERTAINTY, standardUncertainty);
    }

    /** Reading minus true value before adjustment: negative if the instrument reads low. */
    public double errorAsFound() {
        return asFound - trueValue;
    }

    /** Reading minus true value after adjustment. */
    public double errorAsLeft() {
        return asLeft - trueValue;
    }
}
