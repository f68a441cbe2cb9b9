package app.tankround.chemistry.statistics;

import app.tankround.units.InputKind;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.Ranges;

/**
 * E_n number: the difference of two results over the expanded uncertainty of the difference (ISO 13528:2015, 9.7; ISO/IEC
 * 17043). The two results must not share a source of error.
 *
 * @param value difference over its expanded uncertainty; above 0 if the result is the higher one
 */
public record EnNumber(double value) {

    /**
     * From a result and a reference, both with their expanded uncertainties for the same coverage (k = 2).
     *
     * @throws OutOfRangeException if an uncertainty is negative or both are 0
     */
    public static EnNumber of(double result, double expanded, double reference, double referenceExpanded) {
        Series.require(new double[] {result, reference}, 2);
        Ranges.requireNotNegative(InputKind.UNCERTAINTY, expanded);
        Ranges.requireNotNegative(InputKind.UNCERTAINTY, referenceExpanded);
        double both = Math.sqrt(expanded * expanded + referenceExpanded * referenceExpanded);
        Series.requireAboveZero(InputKind.UNCERTAINTY, both);
        return new EnNumber((result - reference) / both);
    }

    /** Whether the two agree within their uncertainties. */
    public boolean satisfactory() {
        return Math.abs(value) <= 1;
    }
}
