package app.tankround.chemistry;

/**
 * Whether a value known to lie in an interval lies in its target, whatever the quantity: the same guard-band rule as for
 * salinity (JCGM 106:2012, 8.3).
 *
 * <p>A target of at most zero is meant as "must not be found". No method can show that nothing is there, so an interval
 * that begins at zero and ends at what the method can just see counts as inside (common practice, no source).
 */
public final class TargetDecision {

    private TargetDecision() {}

    /**
     * Decides for an interval, both ends included.
     *
     * @param from lowest value that the measurement allows; may be negative infinity
     * @param to highest value that it allows, not below {@code from}; may be infinity
     * @param found the value that was read, or 0 where nothing was detected
     * @param target in the same unit
     */
    public static VerdictCode decide(double from, double to, double found, Target target) {
        Double high = target.high();
        boolean mustNotBeFound = high != null && high == 0;
        if (mustNotBeFound && found <= 0 && to < Double.POSITIVE_INFINITY) {
            return GuardBand.decide(0, 0, target.low(), high);
        }
        return GuardBand.decide(from, to, target.low(), high);
    }

    /** The decision for something between two values of which each would be decided as stated. */
    public static VerdictCode between(VerdictCode lower, VerdictCode upper) {
        return lower == upper ? lower : VerdictCode.UNDECIDED;
    }
}
