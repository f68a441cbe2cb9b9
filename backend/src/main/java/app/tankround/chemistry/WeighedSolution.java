package app.tankround.chemistry;

import app.tankround.units.InputKind;
import app.tankround.units.Ranges;

/**
 * A salinity standard made up on a balance: what it is worth and how far that is known, by the law of propagation of
 * uncertainty (JCGM 100:2008, equation 10) through the mass fraction p m / (m + w). Air buoyancy is neglected: it makes the
 * mass fraction of table salt 0.06 % too small at most (common practice, no source).
 *
 * @param gramsPerKilogram of solute in the solution
 * @param salinity practical salinity of the seawater that it stands for
 * @param expandedUncertainty of the salinity (k = 2)
 */
public record WeighedSolution(double gramsPerKilogram, double salinity, double expandedUncertainty) {

    /** A standard weaker or stronger than that is of no use to anybody (own choice), g/kg. */
    private static final double WEAKEST = 1;

    private static final double STRONGEST = 50;
    private static final double STEP = 1e-3;

    /** What is dissolved. */
    public enum Solute {
        /** Stands for the seawater that bends light as the brine does; checks refractometers only. */
        SODIUM_CHLORIDE(SodiumChlorideScale.HANDBOOK_LIMIT) {
            @Override
            double salinity(double gramsPerKilogram) {
                return SodiumChlorideScale.toSalinity(gramsPerKilogram).practical();
            }
        },
        /** A mix of sea salts, taken to be of reference composition; its purity is the yield of the mix. */
        SEA_SALT(0) {
            @Override
            double salinity(double gramsPerKilogram) {
                return gramsPerKilogram / SaltWater.GRAMS_PER_KILOGRAM;
            }
        };

        /** Half-width of what the formula itself leaves open, g/kg. */
        private final double formula;

        Solute(double formula) {
            this.formula = formula;
        }

        abstract double salinity(double gramsPerKilogram);
    }

    /**
     * What a balance showed, corrected by its checks.
     *
     * @param grams above 0
     * @param standardUncertainty k = 1, g
     */
    public record Weighing(double grams, double standardUncertainty) {

        public Weighing {
            Ranges.require(InputKind.MASS, grams, Double.MIN_NORMAL, Double.MAX_VALUE);
            Ranges.requireNotNegative(InputKind.UNCERTAINTY, standardUncertainty);
        }
    }

    /**
     * Works it out.
     *
     * @param purity share of the solute in what was weighed, 0.5 to 1
     * @param purityGiveOrTake half-width of what is known of it, 0 to 0.2
     * @throws app.tankround.units.OutOfRangeException if something is not as said, or the solution holds less than 1 or more than 50 g/kg
     */
    public static WeighedSolution of(
            Solute solute, Weighing weighed, double purity, double purityGiveOrTake, Weighing water) {
        double p = Ranges.require(InputKind.FRACTION, purity, 0.5, 1);
        Ranges.require(InputKind.FRACTION, purityGiveOrTake, 0, 0.2);
        double whole = weighed.grams() + water.grams();
        double fraction = p * weighed.grams() / whole;
        double ofSolute = p * water.grams() / (whole * whole) * weighed.standardUncertainty();
        double ofWater = fraction / whole * water.standardUncertainty();
        double ofPurity = weighed.grams() / whole * Uncertainty.rectangular(purityGiveOrTake);
        double ofFormula = Uncertainty.rectangular(solute.formula) / 1000;
        double variance = ofSolute * ofSolute + ofWater * ofWater + ofPurity * ofPurity + ofFormula * ofFormula;
        double gramsPerKilogram = 1000 * fraction;
        Ranges.require(InputKind.MASS, gramsPerKilogram, WEAKEST, STRONGEST);
        double salinity = solute.salinity(gramsPerKilogram);
        double perGram = (salinity - solute.salinity(gramsPerKilogram - STEP)) / STEP;
        return new WeighedSolution(
                gramsPerKilogram, salinity, Uncertainty.COVERAGE * 1000 * Math.sqrt(variance) * perGram);
    }
}
