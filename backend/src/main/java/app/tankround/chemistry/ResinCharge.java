package app.tankround.chemistry;

import app.tankround.units.InputKind;
import app.tankround.units.Ranges;
import java.util.List;
import java.util.OptionalDouble;

/**
 * What a mixed-bed resin can still take up. Salt that passes the membrane loads it by its charge; dissolved solids are
 * counted as sodium chloride, as the usual pen shows them. Carbon dioxide passes the membrane too, loads the resin and is
 * invisible to a pen: where it is not stated, the true end comes sooner.
 *
 * @param capacity in equivalents: about 0.5 for each litre of mixed bed (from memory, makers' sheets), or as stated
 * @param used the same, by what went through
 * @param litres that went through
 */
public record ResinCharge(double capacity, double used, double litres) {

    /** Equivalents for each litre of mixed bed, where its maker says nothing; from memory. */
    public static final double USUAL_PER_LITRE_OF_RESIN = 0.5;

    private static final double SOLIDS_PER_EQUIVALENT = MolarMass.of("NaCl");
    private static final double CARBON_DIOXIDE_PER_EQUIVALENT = MolarMass.of("CO2");
    private static final double MILLIGRAMS = 1000;

    /**
     * Water that went through.
     *
     * @param litres not negative
     * @param solids after the membrane, before the resin, in mg/L
     * @param carbonDioxide in the same water, in mg/L; 0 where nobody knows
     */
    public record Made(double litres, double solids, double carbonDioxide) {

        public Made {
            Ranges.requireNotNegative(InputKind.VOLUME, litres);
            Ranges.requireNotNegative(InputKind.MASS_CONCENTRATION, solids);
            Ranges.requireNotNegative(InputKind.MASS_CONCENTRATION, carbonDioxide);
        }
    }

    /** @param capacity in equivalents, above 0 */
    public static ResinCharge of(double capacity, List<Made> made) {
        Ranges.require(InputKind.GAIN, capacity, Double.MIN_NORMAL, Double.POSITIVE_INFINITY);
        double used = 0;
        double litres = 0;
        for (Made water : made) {
            used += water.litres() * equivalentsPerLitre(water.solids(), water.carbonDioxide());
            litres += water.litres();
        }
        return new ResinCharge(capacity, used, litres);
    }

    /** Charge that one litre brings, in equivalents. */
    public static double equivalentsPerLitre(double solids, double carbonDioxide) {
        double salt = solids / SOLIDS_PER_EQUIVALENT;
        double gas = carbonDioxide / CARBON_DIOXIDE_PER_EQUIVALENT;
        return (salt + gas) / MILLIGRAMS;
    }

    /** Capacity in equivalents of a resin that is said to purify that many litres of that water. */
    public static double capacityFor(double litres, double solids) {
        return litres * equivalentsPerLitre(solids, 0);
    }

    /** Equivalents left, 0 once it is used up. */
    public double left() {
        return Math.max(0, capacity - used);
    }

    /** Litres that it still purifies of water such as it gets now; empty where that brings nothing. */
    public OptionalDouble litresLeft(double solids, double carbonDioxide) {
        double load = equivalentsPerLitre(solids, carbonDioxide);
        return load > 0 ? OptionalDouble.of(left() / load) : OptionalDouble.empty();
    }
}
