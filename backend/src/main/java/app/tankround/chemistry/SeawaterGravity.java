package app.tankround.chemistry;

import app.tankround.units.GravityReference;
import app.tankround.units.InputKind;
import app.tankround.units.Ranges;
import app.tankround.units.Salinity;
import app.tankround.units.SpecificGravity;

/**
 * Specific gravity of seawater for any pair of reference temperatures, as a ratio of EOS-80 densities
 * ({@link SeawaterDensity}), and its inverse. Same ranges, same mark beyond practical salinity 42, same refusal above 50.
 */
public final class SeawaterGravity {

    private static final double ROUNDING = 1e-12;

    private SeawaterGravity() {}

    /** Specific gravity (ratio) of seawater of a salinity. */
    public static Computed ofSalinity(Salinity salinity, GravityReference reference) {
        double s =
                Ranges.require(InputKind.PRACTICAL_SALINITY, salinity.practical(), 0, SeawaterDensity.HIGHEST_SALINITY);
        return SeawaterDensity.computed(gravity(s, reference), s, pureWater(reference));
    }

    /**
     * Practical salinity of seawater of a specific gravity.
     *
     * @throws app.tankround.units.OutOfRangeException if no salinity from 0 to 50 has that gravity
     */
    public static Computed toSalinity(SpecificGravity gravity) {
        GravityReference reference = gravity.reference();
        double lowest = gravity(0, reference) - ROUNDING;
        double highest = gravity(SeawaterDensity.HIGHEST_SALINITY, reference) + ROUNDING;
        Ranges.require(InputKind.SPECIFIC_GRAVITY, gravity.value(), lowest, highest);
        double s = salinity(gravity.value(), reference);
        return new Computed(s, SeawaterDensity.uncertaintyInSalinity(s), SeawaterDensity.isExtrapolated(s));
    }

    static double gravity(double s, GravityReference reference) {
        double sample = SeawaterDensity.kilogramsPerCubicMetre(s, reference.sampleCelsius());
        return sample / pureWater(reference);
    }

    static double salinity(double gravity, GravityReference reference) {
        double density = gravity * pureWater(reference);
        return SeawaterDensity.salinity(density, reference.sampleCelsius());
    }

    static double pureWater(GravityReference reference) {
        return SeawaterDensity.kilogramsPerCubicMetre(0, reference.waterCelsius());
    }
}
