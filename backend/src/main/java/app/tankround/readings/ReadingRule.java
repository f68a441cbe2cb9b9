package app.tankround.readings;

import app.tankround.chemistry.CorrectedReading;
import app.tankround.chemistry.DecisionRule;
import app.tankround.chemistry.InstrumentCorrection;
import app.tankround.chemistry.InstrumentHistory;
import app.tankround.chemistry.InstrumentKind;
import app.tankround.chemistry.InstrumentStatus;
import app.tankround.chemistry.MeasuredInterval;
import app.tankround.chemistry.RangeVerdict;
import app.tankround.chemistry.SalinityReading;
import app.tankround.chemistry.SalinityScale;
import app.tankround.chemistry.SalinityVerdict;
import app.tankround.chemistry.SalinityVerdictRule;
import app.tankround.chemistry.Target;
import app.tankround.chemistry.UncertaintyBudget;
import app.tankround.chemistry.UncertaintyDefaults;
import app.tankround.chemistry.UncertaintyDefaults.Method;
import app.tankround.chemistry.UncertaintySource;
import app.tankround.chemistry.VerdictCode;
import app.tankround.instruments.CalibrationHistory;
import app.tankround.instruments.CalibrationId;
import app.tankround.instruments.InstrumentView;
import app.tankround.instruments.SalinityScales;
import app.tankround.instruments.Standing;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.units.UnitConversions;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * Makes an assessment of a reading from the checks of its instrument and the target: picks the formula of
 * {@code chemistry} that fits the kind of answer and of instrument, and calculates nothing itself.
 *
 * <p>A test kit that was never held against a standard is taken with the error its register states, or the usual one of the
 * method; a kit past its shelf life is not trusted. An instrument that nobody named is not trusted either.
 */
final class ReadingRule {

    static final String KIT_EXPIRED = "KIT_EXPIRED";
    /** Undecided, of something that kills. */
    static final String REPEAT_BEFORE_LEAVING = "REPEAT_BEFORE_LEAVING";

    /** Held against the limit beyond which animals of any kind are in danger, since no target says more. */
    static final String NO_OWN_TARGET = "NO_OWN_TARGET";

    static final String INSTRUMENT_NOT_STATED = "INSTRUMENT_NOT_STATED";

    /** Something other than a check made the instrument suspect, such as another instrument on the same water. */
    static final String INSTRUMENT_SUSPECT = "INSTRUMENT_SUSPECT";

    /** The instrument's scale does not reach as far as what was read. */
    static final String BEYOND_SCALE = "BEYOND_SCALE";

    /** A condemned instrument that another one on the same water vouches for, up to some later instant. */
    static final String ANOTHER_AGREED = "ANOTHER_AGREED";

    private static final MathContext ARGUMENT_DIGITS = new MathContext(6, RoundingMode.HALF_EVEN);

    private final NewReading reading;
    private final Optional<CalibrationHistory> history;
    private final TargetOnScale onScale;
    private final DecisionRule chosen;
    private final LocalDate takenOn;
    private final Instant now;

    private ReadingRule(
            NewReading reading,
            Optional<CalibrationHistory> history,
            TargetOnScale onScale,
            DecisionRule chosen,
            LocalDate takenOn,
            Instant now) {
        this.reading = reading;
        this.history = history;
        this.onScale = onScale;
        this.chosen = chosen;
        this.takenOn = takenOn;
        this.now = now;
    }

    /**
     * Assesses a reading.
     *
     * @param history of the instrument it was read on; empty if none was named
     * @param target in the unit of the reading
     * @param chosen the decision rule of the business
     * @param takenOn the business's day on which it was taken
     * @param now recorded as the time of the assessment
     */
    static AssessmentView assess(
            NewReading reading,
            Optional<CalibrationHistory> history,
            TargetOnScale target,
            DecisionRule chosen,
            LocalDate takenOn,
            Instant now) {
        return new ReadingRule(reading, history, target, chosen, takenOn, now).assess();
    }

    private AssessmentView assess() {
        AssessmentView assessment = inDate(onScale(believed(held(answered()))));
        boolean measured =
                reading.answer() != Answer.NOT_MEASURED && reading.value().isPresent();
        boolean repeat =
                measured && assessment.verdict() == VerdictCode.UNDECIDED && RangeVerdict.kills(reading.quantity());
        return repeat ? assessment.with(new Reason(REPEAT_BEFORE_LEAVING, List.of())) : assessment;
    }

    /** What is not in danger by the general limit alone need not be where it should be. */
    private AssessmentView held(AssessmentView assessment) {
        if (!onScale.general()) {
            return assessment;
        }
        boolean harmless = reading.answer() == Answer.NOT_MEASURED
                || RangeVerdict.isHarmless(reading.quantity(), assessment.verdict());
        return harmless ? assessment.withoutTarget() : assessment.with(new Reason(NO_OWN_TARGET, List.of()));
    }

    /** What only another instrument says, as on the same water, no formula of the checks can know. */
    private AssessmentView believed(AssessmentView assessment) {
        boolean known = assessment
                .instrumentStatus()
                .filter(InstrumentStatus::isOutOfUse)
                .isPresent();
        boolean suspect = !known
                && reading.value().isPresent()
                && history.map(each -> standing(each, assessment))
                        .filter(standing -> standing == Standing.SUSPECT)
                        .isPresent();
        return suspect ? assessment.suspect(new Reason(INSTRUMENT_SUSPECT, List.of())) : assessment;
    }

    /** What its checks say stands in the assessment already, where they were asked. */
    private Standing standing(CalibrationHistory history, AssessmentView assessment) {
        return assessment.instrumentStatus().isPresent()
                ? history.suspectedAt(reading.takenAt())
                : history.standingAt(reading.takenAt());
    }

    /** Beyond either end of its scale an instrument shows anything. */
    private AssessmentView onScale(AssessmentView assessment) {
        Optional<InstrumentView> instrument = history.map(CalibrationHistory::instrument);
        boolean beyond = reading.answer() == Answer.VALUE
                && reading.value()
                        .filter(value ->
                                instrument.filter(known -> !known.shows(value)).isPresent())
                        .isPresent();
        return beyond
                ? assessment.distrusted(new Reason(
                        BEYOND_SCALE,
                        List.of(
                                end(instrument.flatMap(InstrumentView::rangeLow)),
                                end(instrument.flatMap(InstrumentView::rangeHigh)))))
                : assessment;
    }

    /** No check makes good what is past its use-by date. */
    private AssessmentView inDate(AssessmentView assessment) {
        boolean measured =
                reading.answer() != Answer.NOT_MEASURED && reading.value().isPresent();
        return history.flatMap(known -> known.instrument().expiresOn())
                .filter(day -> measured && takenOn.isAfter(day))
                .map(day -> assessment.distrusted(new Reason(KIT_EXPIRED, List.of(day.toString()))))
                .orElse(assessment);
    }

    private static String end(Optional<BigDecimal> ofScale) {
        return ofScale.map(BigDecimal::toPlainString).orElse("–");
    }

    private AssessmentView answered() {
        Optional<Double> value = reading.value().map(BigDecimal::doubleValue);
        if (value.isEmpty()) {
            return notMeasured();
        }
        return switch (reading.answer()) {
            case BELOW_DETECTION -> belowDetection(judge(value.get()));
            case ABOVE_RANGE -> aboveRange(judge(value.get()));
            case BETWEEN ->
                between(
                        judge(value.get()),
                        judge(reading.upperValue().orElseThrow().doubleValue()));
            case VALUE, NOT_MEASURED -> judge(value.get());
        };
    }

    private AssessmentView judge(double value) {
        if (reading.quantity() == Quantity.SALINITY) {
            return salinity(value);
        }
        if (history.isEmpty() || isUncheckedKit(history.get())) {
            return byMethod(value);
        }
        return byChecks(history.get(), value);
    }

    private static boolean isUncheckedKit(CalibrationHistory history) {
        return history.instrument().kind().isKit() && history.checks().isEmpty();
    }

    private AssessmentView salinity(double value) {
        InstrumentHistory known = history.map(CalibrationHistory::history)
                .orElseGet(() -> InstrumentHistory.of(
                        UncertaintyDefaults.instrument(
                                InstrumentKind.OTHER, SalinityScales.of(reading.unit(), reading.gravityReference())),
                        List.of()));
        @Nullable Double celsius =
                reading.sampleTemperature().map(BigDecimal::doubleValue).orElse(null);
        var atInstant = new SalinityReading(value, reading.takenAt().getEpochSecond(), celsius);
        SalinityVerdict verdict = SalinityVerdictRule.judge(
                known, atInstant, salinityTarget(known.facts().scale()), chosen);
        List<Reason> reasons = reasons(verdict.reasons());
        if (history.isEmpty()) {
            reasons.add(new Reason(INSTRUMENT_NOT_STATED, List.of()));
        }
        return new AssessmentView(
                verdict.verdict(),
                verdict.verdictAsRead(),
                Optional.of(verdict.status()),
                verdict.trusted(),
                verdict.doubtful(),
                Optional.of(verdict.correctedValue()),
                Optional.of(verdict.correctedUncertainty()),
                Optional.ofNullable(verdict.salinity()),
                Optional.ofNullable(verdict.salinityUncertainty()),
                reasons,
                calibrations(verdict.checkIds()),
                onScale.low(),
                onScale.high(),
                verdict.ruleVersion(),
                now,
                Optional.of(VerdictGrounds.of(verdict.judgement(), verdict.budget())));
    }

    private Target salinityTarget(SalinityScale scale) {
        return new Target(
                onScale.low().map(limit -> TargetOnScale.salinity(scale, limit)).orElse(null),
                onScale.high()
                        .map(limit -> TargetOnScale.salinity(scale, limit))
                        .orElse(null));
    }

    private AssessmentView byChecks(CalibrationHistory checked, double value) {
        CorrectedReading corrected = InstrumentCorrection.correct(
                checked.history(), value, reading.takenAt().getEpochSecond());
        RangeVerdict decided = decide(corrected.value(), corrected.standardUncertainty());
        VerdictCode verdict = decided.verdict();
        boolean decidable = corrected.correctable() || verdict == VerdictCode.NO_TARGET;
        return number(
                decidable ? verdict : VerdictCode.UNDECIDED,
                decide(value, 0).verdict(),
                Optional.of(corrected.status()),
                corrected.trusted(),
                corrected.doubtful(),
                corrected.value(),
                corrected.expandedUncertainty(),
                reasons(corrected.reasons()),
                calibrations(corrected.checkIds()),
                grounds(decided, corrected.budget()));
    }

    private AssessmentView byMethod(double value) {
        List<Reason> reasons = new ArrayList<>();
        boolean named = history.isPresent() || reading.kitLot().isPresent();
        if (!named) {
            reasons.add(new Reason(INSTRUMENT_NOT_STATED, List.of()));
        }
        double uncertainty = history.map(kit -> kit.facts().permittedError())
                .orElseGet(() -> usualUncertainty(reading.quantity(), reading.unit(), value));
        RangeVerdict decided = decide(value, uncertainty / 2);
        return number(
                decided.verdict(),
                decide(value, 0).verdict(),
                Optional.empty(),
                named,
                false,
                value,
                uncertainty,
                reasons,
                List.of(),
                grounds(decided, ofMethod(uncertainty / 2)));
    }

    private RangeVerdict decide(double value, double standardUncertainty) {
        return RangeVerdict.judge(reading.quantity(), value, standardUncertainty, target(), chosen);
    }

    private static VerdictGrounds grounds(RangeVerdict decided, UncertaintyBudget budget) {
        return VerdictGrounds.of(Objects.requireNonNull(decided.judgement()), budget);
    }

    /** What a method is usually off by is all that is known of it. */
    private static UncertaintyBudget ofMethod(double standardUncertainty) {
        return new UncertaintyBudget(
                List.of(new UncertaintyBudget.Line(UncertaintySource.UNCHECKED, standardUncertainty, 1)));
    }

    private VerdictCode judged(MeasuredInterval measured) {
        return RangeVerdict.judge(reading.quantity(), measured, target()).verdict();
    }

    private Target target() {
        return new Target(
                onScale.low().map(BigDecimal::doubleValue).orElse(null),
                onScale.high().map(BigDecimal::doubleValue).orElse(null));
    }

    private AssessmentView number(
            VerdictCode verdict,
            VerdictCode asRead,
            Optional<InstrumentStatus> status,
            boolean trusted,
            boolean doubtful,
            double corrected,
            double uncertainty,
            List<Reason> reasons,
            List<CalibrationId> calibrations,
            VerdictGrounds grounds) {
        return new AssessmentView(
                verdict,
                asRead,
                status,
                trusted,
                doubtful,
                Optional.of(corrected),
                Optional.of(uncertainty),
                Optional.empty(),
                Optional.empty(),
                reasons,
                calibrations,
                onScale.low(),
                onScale.high(),
                SalinityVerdictRule.RULE_VERSION,
                now,
                Optional.of(grounds));
    }

    /** Somewhere from nothing to the amount that the method can just see. */
    private AssessmentView belowDetection(AssessmentView limit) {
        double corrected = limit.correctedValue().orElseThrow();
        double uncertainty = limit.uncertainty().orElseThrow();
        VerdictCode verdict = judged(MeasuredInterval.belowDetection(corrected + uncertainty));
        VerdictCode asRead = judged(
                MeasuredInterval.belowDetection(reading.value().orElseThrow().doubleValue()));
        return withoutNumber(limit, verdict, asRead);
    }

    private AssessmentView aboveRange(AssessmentView limit) {
        double corrected = limit.correctedValue().orElseThrow();
        double uncertainty = limit.uncertainty().orElseThrow();
        double read = reading.value().orElseThrow().doubleValue();
        VerdictCode verdict = judged(MeasuredInterval.aboveRange(corrected - uncertainty));
        VerdictCode asRead = judged(MeasuredInterval.aboveRange(read));
        return withoutNumber(limit, verdict, asRead);
    }

    private AssessmentView between(AssessmentView lower, AssessmentView upper) {
        double low = lower.correctedValue().orElseThrow();
        double high = upper.correctedValue().orElseThrow();
        double middle = low + (high - low) / 2;
        double reach = (high - low) / 2
                + Math.max(
                        lower.uncertainty().orElseThrow(), upper.uncertainty().orElseThrow());
        Optional<Double> salinity =
                lower.salinity().flatMap(from -> upper.salinity().map(to -> from + (to - from) / 2));
        Optional<Double> salinityReach = lower.salinity()
                .flatMap(from -> upper.salinity()
                        .map(to -> (to - from) / 2 + upper.salinityUncertainty().orElse(0.0)));
        return new AssessmentView(
                RangeVerdict.between(lower.verdict(), upper.verdict()),
                RangeVerdict.between(lower.verdictAsRead(), upper.verdictAsRead()),
                lower.instrumentStatus(),
                lower.trusted() && upper.trusted(),
                lower.doubtful() || upper.doubtful(),
                Optional.of(middle),
                Optional.of(reach),
                salinity,
                salinityReach,
                lower.reasons(),
                lower.calibrationIds(),
                onScale.low(),
                onScale.high(),
                lower.ruleVersion(),
                now,
                Optional.empty());
    }

    private AssessmentView withoutNumber(AssessmentView limit, VerdictCode verdict, VerdictCode asRead) {
        return new AssessmentView(
                verdict,
                asRead,
                limit.instrumentStatus(),
                limit.trusted(),
                limit.doubtful(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                limit.reasons(),
                limit.calibrationIds(),
                onScale.low(),
                onScale.high(),
                limit.ruleVersion(),
                now,
                Optional.empty());
    }

    private AssessmentView notMeasured() {
        boolean targeted = onScale.low().isPresent() || onScale.high().isPresent();
        VerdictCode verdict = targeted ? VerdictCode.UNDECIDED : VerdictCode.NO_TARGET;
        return new AssessmentView(
                verdict,
                verdict,
                Optional.empty(),
                true,
                false,
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                List.of(),
                List.of(),
                onScale.low(),
                onScale.high(),
                SalinityVerdictRule.RULE_VERSION,
                now,
                Optional.empty());
    }

    /** Expanded uncertainty (k = 2) to assume for a method nobody said anything about, in the unit of the reading. */
    static double usualUncertainty(Quantity quantity, MeasurementUnit unit, double value) {
        return switch (quantity) {
            case TEMPERATURE -> {
                double celsius = Method.TEMPERATURE_THERMOMETER.expandedUncertainty(value);
                double zero = UnitConversions.convert(0, MeasurementUnit.DEGREE_CELSIUS, unit);
                yield UnitConversions.convert(celsius, MeasurementUnit.DEGREE_CELSIUS, unit) - zero;
            }
            case ALKALINITY, HARDNESS -> {
                double milliequivalents =
                        UnitConversions.convert(value, unit, MeasurementUnit.MILLIEQUIVALENTS_PER_LITRE);
                yield UnitConversions.convert(
                        Method.ALKALINITY_TITRATION.expandedUncertainty(milliequivalents),
                        MeasurementUnit.MILLIEQUIVALENTS_PER_LITRE,
                        unit);
            }
            case PH -> Method.PH_COLOUR.expandedUncertainty(value);
            case CALCIUM -> Method.CALCIUM_TITRATION.expandedUncertainty(value);
            case MAGNESIUM -> Method.MAGNESIUM_TITRATION.expandedUncertainty(value);
            case AMMONIA -> Method.AMMONIA_COLOUR.expandedUncertainty(value);
            case NITRITE -> Method.NITRITE_COLOUR.expandedUncertainty(value);
            case NITRATE -> Method.NITRATE_COLOUR.expandedUncertainty(value);
            case PHOSPHATE -> Method.PHOSPHATE_COLOUR.expandedUncertainty(value);
            case COPPER, CHLORINE, FREE_CHLORINE, TOTAL_CHLORINE -> Method.COPPER_COLOUR.expandedUncertainty(value);
            case OXYGEN -> Method.DISSOLVED_OXYGEN_ELECTRODE.expandedUncertainty(value);
            case DISSOLVED_SOLIDS -> Method.CONDUCTIVITY_ELECTRODE.expandedUncertainty(value);
            case VOLUME_MADE -> Method.WATER_METER.expandedUncertainty(value);
            case PERMEATE_FLOW -> Method.FLOW_BY_JUG.expandedUncertainty(value);
            case PRESSURE -> Method.PRESSURE_GAUGE.expandedUncertainty(value);
            case SALINITY, MASS -> throw new IllegalArgumentException(quantity + " is not assessed by method");
        };
    }

    private static List<Reason> reasons(List<app.tankround.chemistry.Reason> found) {
        List<Reason> kept = new ArrayList<>();
        for (var reason : found) {
            String argument = new BigDecimal(reason.argument())
                    .round(ARGUMENT_DIGITS)
                    .stripTrailingZeros()
                    .toPlainString();
            kept.add(new Reason(reason.code().name(), List.of(argument)));
        }
        return kept;
    }

    private static List<CalibrationId> calibrations(List<String> checkIds) {
        return checkIds.stream()
                .flatMap(ids -> Arrays.stream(ids.split(",")))
                .map(CalibrationId::parse)
                .toList();
    }
}
