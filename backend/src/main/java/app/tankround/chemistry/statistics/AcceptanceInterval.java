package app.tankround.chemistry.statistics;

import app.tankround.chemistry.NormalDistribution;
import app.tankround.units.InputKind;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.Ranges;

/**
 * Tolerance limits drawn in by a guard band, and what is decided by them (JCGM 106:2012, 8.3; ILAC-G8:09/2019, 4.2). A
 * value on a limit belongs to what the limit encloses.
 *
 * @param lowest lower tolerance limit, negative infinity if there is none
 * @param highest upper tolerance limit, infinity if there is none
 * @param guardBand width of the band between tolerance and acceptance limit, from 0; 0 is simple acceptance
 */
public record AcceptanceInterval(double lowest, double highest, double guardBand) {

    /** Binary fractions of decimal limits differ in the last place. */
    private static final double ROUNDING = 1e-12;

    /** What is decided. */
    public enum Decision {
        /** Within the acceptance limits. */
        INSIDE,
        /** The rule cannot tell. */
        UNDECIDED,
        /** Beyond a limit. */
        OUTSIDE
    }

    /** @throws OutOfRangeException if the guard band is negative or the upper limit lies below the lower one */
    public AcceptanceInterval {
        Ranges.require(InputKind.UNCERTAINTY, guardBand, 0, Double.MAX_VALUE);
        if (Double.isNaN(lowest) || Double.isNaN(highest) || lowest > highest) {
            throw Series.noSpan(lowest);
        }
    }

    /** Whether the guard band leaves any value to accept. */
    public boolean accepts() {
        return acceptedFrom() <= raised(acceptedTo());
    }

    /** Lower acceptance limit. */
    public double acceptedFrom() {
        return lowest + guardBand;
    }

    /** Upper acceptance limit. */
    public double acceptedTo() {
        return highest - guardBand;
    }

    /** Guarded acceptance: inside within the acceptance limits, outside beyond the tolerance limits, undecided between. */
    public Decision guardedAcceptance(double value) {
        return decide(value, 0);
    }

    /** With a guard band on either side of the tolerance limits: outside only beyond the outer one. */
    public Decision guardedBothWays(double value) {
        return decide(value, guardBand);
    }

    /**
     * Greatest probability that a value that is accepted lies beyond a limit in truth: the one for a value on the
     * acceptance limit, with the other limit far away.
     *
     * @param standardUncertainty of a normally distributed value, above 0
     */
    public double largestFalseAcceptance(double standardUncertainty) {
        Series.requireAboveZero(InputKind.UNCERTAINTY, standardUncertainty);
        return NormalDistribution.survival(guardBand / standardUncertainty);
    }

    /**
     * How many standard uncertainties wide the guard band must be for a false acceptance to stay below a probability.
     *
     * @param risk above 0, up to one half
     */
    public static double guardBandFactor(double risk) {
        return -NormalDistribution.quantile(Ranges.require(InputKind.FRACTION, risk, 1e-12, 0.5));
    }

    private Decision decide(double value, double beyond) {
        Ranges.require(InputKind.READING, value, -Double.MAX_VALUE, Double.MAX_VALUE);
        if (value >= lowered(acceptedFrom()) && value <= raised(acceptedTo())) {
            return Decision.INSIDE;
        }
        return value < lowered(lowest - beyond) || value > raised(highest + beyond)
                ? Decision.OUTSIDE
                : Decision.UNDECIDED;
    }

    private static double lowered(double limit) {
        return Double.isInfinite(limit) ? limit : limit - ROUNDING * Math.max(1, Math.abs(limit));
    }

    private static double raised(double limit) {
        return -lowered(-limit);
    }
}
