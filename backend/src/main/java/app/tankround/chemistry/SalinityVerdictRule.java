package app.tankround.chemistry;

import app.tankround.units.GravityReference;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Says what a salinity reading is worth: corrected by the checks on either side of it ({@link InstrumentCorrection}), on
 * the instrument's own scale and as practical salinity, with an expanded uncertainty (k = 2), and whether it lies in its
 * target.
 *
 * <p>The decision ({@link Judgement}) is taken on the instrument's own scale, to which the target is converted. A reading
 * that cannot be corrected, or taken with an instrument left with an implausible gain, stays undecided.
 *
 * <p>Uncertainty combines, by root sum of squares, what {@link InstrumentCorrection} says of reading and checks with the
 * unknown temperature of a glass hydrometer's sample, the handbook figures behind a brine scale that was not checked in
 * its working range, and the formula for density.
 */
public final class SalinityVerdictRule {

    /** Kept with every verdict; counts up whenever the same inputs would give another answer. */
    public static final int RULE_VERSION = 5;

    private SalinityVerdictRule() {}

    /**
     * Judges one reading.
     *
     * @param history the instrument with all its checks; its scale must show salinity
     * @param reading the reading
     * @param target wanted practical salinity; ends are cut to what the scale can show
     * @param decisionRule the rule the business chose
     * @throws IllegalArgumentException if the instrument's scale shows no salinity
     */
    public static SalinityVerdict judge(
            InstrumentHistory history, SalinityReading reading, Target target, DecisionRule decisionRule) {
        InstrumentFacts instrument = history.facts();
        SalinityScale scale = instrument.scale();
        if (!scale.showsSalinity()) {
            throw new IllegalArgumentException("The scale of this instrument shows no salinity");
        }
        CorrectedReading corrected = InstrumentCorrection.correct(history, reading.value(), reading.atEpochSecond());
        List<Reason> reasons = new ArrayList<>(corrected.reasons());

        double onScale = atReferenceTemperature(instrument, corrected.value(), reading.sampleCelsius());
        UncertaintyBudget budget = corrected.budget();
        if (needsTemperature(instrument) && reading.sampleCelsius() == null) {
            double halfWidth = instrument.unknownTemperatureError();
            reasons.add(new Reason(ReasonCode.SAMPLE_TEMPERATURE_UNKNOWN, halfWidth));
            budget = budget.with(UncertaintySource.TEMPERATURE, Uncertainty.rectangular(halfWidth));
        }
        if (isUncompensated(instrument)) {
            double halfWidth = instrument.unknownTemperatureError();
            reasons.add(new Reason(ReasonCode.NOT_COMPENSATED, halfWidth));
            budget = budget.with(UncertaintySource.TEMPERATURE, Uncertainty.rectangular(halfWidth));
        }

        double limit = scale.highestSalinity();
        double shown = Math.max(scale.reading(0), Math.min(scale.reading(limit), onScale));
        double nearest = scale.salinity(shown);
        double slope = scale.slopeAt(nearest);
        if (scale.graduation() == Graduation.NACL) {
            reasons.add(new Reason(ReasonCode.NACL_GRADUATION, scale.reading(nearest)));
            if (!checkedInWorkingRange(history.checks())) {
                double handbook = SodiumChlorideScale.HANDBOOK_LIMIT * slope;
                budget = budget.with(UncertaintySource.FORMULA, Uncertainty.rectangular(handbook));
            }
        }
        double model = scale.modelUncertainty(nearest) * slope;
        budget = budget.with(UncertaintySource.FORMULA, model / Uncertainty.COVERAGE);
        double standard = budget.combined();
        double expanded = Uncertainty.COVERAGE * standard;

        boolean above = onScale > scale.reading(limit) + rounding(onScale);
        boolean below = onScale < scale.reading(0) - expanded;
        boolean extrapolated = above || SeawaterDensity.isExtrapolated(nearest);
        if (above || below) {
            reasons.add(new Reason(ReasonCode.BEYOND_MODEL, above ? limit : 0));
        } else if (extrapolated) {
            reasons.add(new Reason(ReasonCode.EXTRAPOLATED, nearest));
        }

        @Nullable Double low = onScale(scale, target.low());
        @Nullable Double high = onScale(scale, target.high());
        Judgement judgement = Judgement.of(onScale, standard, low, high, decisionRule);
        if (!corrected.correctable()) {
            judgement = judgement.undecided();
        }
        double asRead = atReferenceTemperature(instrument, reading.value(), reading.sampleCelsius());
        boolean answered = !above && !below;
        return new SalinityVerdict(
                RULE_VERSION,
                reading,
                target,
                onScale,
                expanded,
                budget,
                corrected.movement(),
                answered ? (Double) nearest : null,
                answered ? (Double) (expanded / slope) : null,
                salinityAsRead(scale, asRead),
                extrapolated,
                judgement,
                Judgement.of(asRead, 0, low, high, decisionRule).verdict(),
                corrected.status(),
                corrected.doubtful(),
                corrected.trusted(),
                corrected.checkIds(),
                reasons);
    }

    /** A target of salinity 0 or less is no limit: no water can be below it, whatever the uncertainty. */
    private static @Nullable Double onScale(SalinityScale scale, @Nullable Double salinity) {
        if (salinity == null) {
            return null;
        }
        if (salinity <= 0) {
            return Double.NEGATIVE_INFINITY;
        }
        return scale.reading(Math.min(salinity, scale.highestSalinity()));
    }

    private static boolean needsTemperature(InstrumentFacts instrument) {
        return instrument.kind() == InstrumentKind.GLASS_HYDROMETER
                && instrument.scale().unit() == ScaleUnit.SPECIFIC_GRAVITY;
    }

    /** Nobody writes down how warm its prism or cell was, and the sample takes that temperature. */
    private static boolean isUncompensated(InstrumentFacts instrument) {
        return instrument.kind().mayBeCompensated() && instrument.unknownTemperatureError() > 0;
    }

    /** What a glass hydrometer would show in the same water at the reference temperature of its scale. */
    private static double atReferenceTemperature(
            InstrumentFacts instrument, double value, @Nullable Double sampleCelsius) {
        if (!needsTemperature(instrument) || sampleCelsius == null) {
            return value;
        }
        GravityReference reference = instrument.scale().requiredReference();
        double density = GlassHydrometer.density(value, reference, sampleCelsius);
        double lowest = SeawaterDensity.kilogramsPerCubicMetre(0, sampleCelsius);
        double highest = SeawaterDensity.kilogramsPerCubicMetre(SeawaterDensity.HIGHEST_SALINITY, sampleCelsius);
        double within = Math.max(lowest, Math.min(highest, density));
        double beyond = density - within;
        double s = SeawaterDensity.salinity(within, sampleCelsius);
        return SeawaterGravity.gravity(s, reference) + beyond / SeawaterGravity.pureWater(reference);
    }

    private static @Nullable Double salinityAsRead(SalinityScale scale, double asRead) {
        double highest = scale.reading(scale.highestSalinity());
        if (asRead < scale.reading(0) || asRead > highest + rounding(highest)) {
            return null;
        }
        return scale.salinity(Math.min(asRead, highest));
    }

    private static boolean checkedInWorkingRange(List<CalibrationCheck> checks) {
        for (CalibrationCheck check : checks) {
            if (check.isBelieved() && check.checksWorkingRange()) {
                return true;
            }
        }
        return false;
    }

    private static double rounding(double value) {
        return 1e-12 * Math.abs(value);
    }
}
