package app.tankround.chemistry;

/**
 * A measured interval against a target, by the decision rule of {@link SalinityVerdictRule}: inside only if all of the
 * interval is. For what kills (ammonia, nitrite, temperature) an undecided verdict stays undecided; whoever shows it asks
 * for a better measurement, and never reads it as inside.
 *
 * @param measured what was measured
 * @param target the range it should lie in, same unit
 * @param verdict the decision
 */
public record RangeVerdict(MeasuredInterval measured, Target target, VerdictCode verdict) {

    public static RangeVerdict judge(MeasuredInterval measured, Target target) {
        VerdictCode verdict = GuardBand.decide(measured.low(), measured.high(), target.low(), target.high());
        return new RangeVerdict(measured, target, verdict);
    }
}
