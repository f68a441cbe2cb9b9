package app.tankround.chemistry;

import app.tankround.units.InputKind;
import app.tankround.units.Quantity;
import app.tankround.units.Ranges;
import app.tankround.units.Salinity;
import java.util.List;

/**
 * Which correction comes before which: salinity first, since calcium, magnesium and alkalinity move with it; then
 * magnesium, without which the other two do not stay in solution; then alkalinity and calcium, never at the same visit,
 * since they precipitate each other; pH last, since it follows from alkalinity and carbon dioxide. Common practice, no
 * source, but for the proportion to salinity (reference-composition seawater).
 */
public final class PlanOrder {

    private PlanOrder() {}

    /** What has to be right before this quantity is corrected, in order; empty if nothing. */
    public static List<Quantity> before(Quantity quantity) {
        return switch (quantity) {
            case MAGNESIUM -> List.of(Quantity.SALINITY);
            case ALKALINITY, CALCIUM -> List.of(Quantity.SALINITY, Quantity.MAGNESIUM);
            case PH -> List.of(Quantity.SALINITY, Quantity.ALKALINITY);
            default -> List.of();
        };
    }

    /** Whether two corrections may be worked on at one visit. */
    public static boolean together(Quantity one, Quantity other) {
        return !before(one).contains(other)
                && !before(other).contains(one)
                && !(one == Quantity.ALKALINITY && other == Quantity.CALCIUM)
                && !(one == Quantity.CALCIUM && other == Quantity.ALKALINITY);
    }

    /**
     * What calcium, magnesium or alkalinity becomes while the salinity is changed with water of the same composition: it
     * moves in proportion.
     *
     * @param from salinity above 0
     */
    public static double withSalinity(double value, Salinity from, Salinity to) {
        Ranges.require(
                InputKind.PRACTICAL_SALINITY, from.practical(), Double.MIN_NORMAL, SeawaterDensity.HIGHEST_SALINITY);
        double proportion = to.practical() / from.practical();
        return value * proportion;
    }
}
