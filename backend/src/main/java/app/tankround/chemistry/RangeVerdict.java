package app.tankround.chemistry;

/**
 * A measured interval against a target, by the decision rule of {@link SalinityVerdictRule}: inside only if all of the
 * interval is. For what kills (ammonia, nitrite, temperature) an undecided verdict stays undecided; whoever shows it asks
 * for a better measurement, and never reads it as inside.
 *
 * <p>A target of at most zero means "must not be found". No method can show that nothing is there, so where nothing was
 * found the interval up to what the method can just see counts as inside (common practice, no source).
 *
 * @param measured what was measured
 * @param target the range it should lie in, same unit
 * @param verdict the decision
 */
public record RangeVerdict(MeasuredInterval measured, Target target, VerdictCode verdict) {

    public static RangeVerdict judge(MeasuredInterval measured, Target target) {
        Double high = target.high();
        boolean mustNotBeFound = high != null && high == 0;
        boolean nothingSeen = !measured.found() && measured.high() < Double.POSITIVE_INFINITY;
        VerdictCode verdict = mustNotBeFound && nothingSeen
                ? GuardBand.decide(0, 0, target.low(), high)
                : GuardBand.decide(measured.low(), measured.high(), target.low(), high);
        return new RangeVerdict(measured, target, verdict);
    }

    /** The verdict on something between two values of which each would be judged as stated. */
    public static VerdictCode between(VerdictCode lower, VerdictCode upper) {
        return lower == upper ? lower : VerdictCode.UNDECIDED;
    }
}
