package app.tankround.chemistry;

import app.tankround.chemistry.UncertaintyDefaults.Method;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.units.UnitConversions;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/**
 * Says what a reading of any kind is worth, from the checks of its instrument and its target: picks the formula that fits
 * the kind of answer and of instrument, and calculates little itself. The server and the tablet ask it alike.
 *
 * <p>A test kit that was never held against a standard is taken with the error its register states, or the usual one of the
 * method; a kit past its shelf life is not trusted. An instrument that nobody named is not trusted either.
 */
public final class ReadingVerdictRule {

    private final ShownReading reading;
    private final @Nullable ReadInstrument instrument;
    private final ReadingTarget held;
    private final DecisionRule chosen;

    private ReadingVerdictRule(
            ShownReading reading, @Nullable ReadInstrument instrument, ReadingTarget held, DecisionRule chosen) {
        this.reading = reading;
        this.instrument = instrument;
        this.held = held;
        this.chosen = chosen;
    }

    /**
     * Judges a reading.
     *
     * @param instrument that it was read on; absent if none was named
     * @param target in the unit of the reading
     * @param chosen the decision rule of the business
     */
    public static ReadingVerdict judge(
            ShownReading reading, @Nullable ReadInstrument instrument, ReadingTarget target, DecisionRule chosen) {
        return new ReadingVerdictRule(reading, instrument, target, chosen).verdict();
    }

    /** Judges a reading against a target as it was set; the rest as {@link ReadingTarget#of} has it. */
    public static ReadingVerdict judge(
            ShownReading reading,
            @Nullable ReadInstrument instrument,
            @Nullable StatedTarget stated,
            @Nullable Target danger,
            DecisionRule chosen) {
        SalinityScale scale = instrument == null
                ? reading.scale()
                : instrument.history().facts().scale();
        ReadingTarget target =
                ReadingTarget.of(stated, reading.quantity(), reading.unit(), reading.reference(), scale, danger);
        return judge(reading, instrument, target, chosen);
    }

    private ReadingVerdict verdict() {
        ReadingVerdict found = inDate(onScale(believed(held(answered()))));
        boolean repeat = reading.isMeasured()
                && found.verdict() == VerdictCode.UNDECIDED
                && RangeVerdict.kills(reading.quantity());
        return repeat ? found.with(ReasonCode.REPEAT_BEFORE_LEAVING) : found;
    }

    /** What is not in danger by the general limit alone need not be where it should be. */
    private ReadingVerdict held(ReadingVerdict found) {
        if (!held.general()) {
            return found;
        }
        boolean harmless = !reading.isMeasured() || RangeVerdict.isHarmless(reading.quantity(), found.verdict());
        return harmless ? found.withoutTarget() : found.with(ReasonCode.NO_OWN_TARGET);
    }

    /** What only another instrument says, as on the same water, no formula of the checks can know. */
    private ReadingVerdict believed(ReadingVerdict found) {
        boolean known = found.status() != null && found.status().isOutOfUse();
        boolean suspect = !known && reading.isMeasured() && isSuspect(found);
        return suspect ? found.suspect(ReasonCode.INSTRUMENT_SUSPECT) : found;
    }

    /** What its checks say stands in the verdict already, where they were asked. */
    private boolean isSuspect(ReadingVerdict found) {
        if (instrument == null) {
            return false;
        }
        @Nullable InstrumentStatus suspected = instrument.suspectedAt(reading.atEpochMilli());
        if (found.status() != null || suspected == InstrumentStatus.CONDEMNED) {
            return suspected == InstrumentStatus.SUSPECT;
        }
        InstrumentStatus checked = InstrumentCorrection.correct(instrument.history(), 0, reading.atEpochSecond())
                .status();
        return suspected == InstrumentStatus.SUSPECT
                ? checked != InstrumentStatus.CONDEMNED
                : checked == InstrumentStatus.SUSPECT;
    }

    /** Beyond either end of its scale an instrument shows anything. */
    private ReadingVerdict onScale(ReadingVerdict found) {
        boolean beyond = reading.isNumber()
                && instrument != null
                && instrument.isBeyondScale(Objects.requireNonNull(reading.lower()));
        return beyond ? found.distrusted(ReasonCode.BEYOND_SCALE) : found;
    }

    /** No check makes good what is past its use-by date. */
    private ReadingVerdict inDate(ReadingVerdict found) {
        boolean expired = reading.isMeasured() && instrument != null && instrument.isExpired(reading.atEpochMilli());
        return expired ? found.distrusted(ReasonCode.KIT_EXPIRED) : found;
    }

    private ReadingVerdict answered() {
        Double lower = reading.lower();
        Double upper = reading.upper();
        if (lower == null && upper == null) {
            return notMeasured();
        }
        if (lower == null) {
            return belowDetection(Objects.requireNonNull(upper));
        }
        if (upper == null) {
            return aboveRange(lower);
        }
        return reading.isNumber() ? judge(lower) : between(judge(lower), judge(upper));
    }

    private ReadingVerdict judge(double value) {
        if (reading.quantity() == Quantity.SALINITY) {
            return salinity(value);
        }
        return instrument == null || instrument.isUncheckedKit() ? byMethod(value) : byChecks(instrument, value);
    }

    private ReadingVerdict salinity(double value) {
        InstrumentHistory history = instrument == null
                ? InstrumentHistory.of(UncertaintyDefaults.instrument(InstrumentKind.OTHER, reading.scale()), List.of())
                : instrument.history();
        SalinityScale scale = history.facts().scale();
        SalinityVerdict found = SalinityVerdictRule.judge(
                history,
                new SalinityReading(value, reading.atEpochSecond(), reading.sampleCelsius()),
                new Target(salinity(scale, limits().low()), salinity(scale, limits().high())),
                chosen);
        List<Reason> reasons = new ArrayList<>(found.reasons());
        if (instrument == null) {
            reasons.add(new Reason(ReasonCode.INSTRUMENT_NOT_STATED, 0));
        }
        return new ReadingVerdict(
                found.verdict(),
                found.verdictAsRead(),
                found.status(),
                found.trusted(),
                found.doubtful(),
                found.correctedValue(),
                found.correctedUncertainty(),
                found.salinity(),
                found.salinityUncertainty(),
                reasons,
                found.checkIds(),
                limits(),
                found.judgement(),
                found.budget(),
                found.ruleVersion());
    }

    private static @Nullable Double salinity(SalinityScale scale, @Nullable Double limit) {
        return limit == null ? null : (Double) ReadingTarget.salinity(scale, limit);
    }

    private ReadingVerdict byChecks(ReadInstrument checked, double value) {
        CorrectedReading corrected = InstrumentCorrection.correct(checked.history(), value, reading.atEpochSecond());
        RangeVerdict decided = decide(corrected.value(), corrected.standardUncertainty());
        VerdictCode verdict = decided.verdict();
        boolean decidable = corrected.correctable() || verdict == VerdictCode.NO_TARGET;
        return number(
                decidable ? verdict : VerdictCode.UNDECIDED,
                value,
                corrected.status(),
                corrected.trusted(),
                corrected.doubtful(),
                corrected.value(),
                corrected.expandedUncertainty(),
                corrected.reasons(),
                corrected.checkIds(),
                decided.judgement(),
                corrected.budget());
    }

    private ReadingVerdict byMethod(double value) {
        List<Reason> reasons = new ArrayList<>();
        boolean named = instrument != null || reading.lotStated();
        if (!named) {
            reasons.add(new Reason(ReasonCode.INSTRUMENT_NOT_STATED, 0));
        }
        double uncertainty = instrument == null
                ? usualUncertainty(reading.quantity(), reading.unit(), value)
                : instrument.history().facts().permittedError();
        RangeVerdict decided = decide(value, uncertainty / Uncertainty.COVERAGE);
        return number(
                decided.verdict(),
                value,
                null,
                named,
                false,
                value,
                uncertainty,
                reasons,
                List.of(),
                decided.judgement(),
                ofMethod(uncertainty / Uncertainty.COVERAGE));
    }

    private RangeVerdict decide(double value, double standardUncertainty) {
        return RangeVerdict.judge(reading.quantity(), value, standardUncertainty, limits(), chosen);
    }

    /** What a method is usually off by is all that is known of it. */
    private static UncertaintyBudget ofMethod(double standardUncertainty) {
        return new UncertaintyBudget(
                List.of(new UncertaintyBudget.Line(UncertaintySource.UNCHECKED, standardUncertainty, 1)));
    }

    private VerdictCode judged(MeasuredInterval measured) {
        return RangeVerdict.judge(reading.quantity(), measured, limits()).verdict();
    }

    private Target limits() {
        return held.limits();
    }

    private ReadingVerdict number(
            VerdictCode verdict,
            double asRead,
            @Nullable InstrumentStatus status,
            boolean trusted,
            boolean doubtful,
            double corrected,
            double uncertainty,
            List<Reason> reasons,
            List<String> checkIds,
            @Nullable Judgement judgement,
            UncertaintyBudget budget) {
        return new ReadingVerdict(
                verdict,
                decide(asRead, 0).verdict(),
                status,
                trusted,
                doubtful,
                corrected,
                uncertainty,
                null,
                null,
                reasons,
                checkIds,
                limits(),
                judgement,
                budget,
                SalinityVerdictRule.RULE_VERSION);
    }

    /** Somewhere from nothing to the amount that the method can just see. */
    private ReadingVerdict belowDetection(double seen) {
        ReadingVerdict limit = judge(seen);
        double corrected = Objects.requireNonNull(limit.correctedValue());
        double uncertainty = Objects.requireNonNull(limit.uncertainty());
        return withoutNumber(limit, judged(unseen(corrected + uncertainty)), judged(unseen(seen)));
    }

    /** An instrument that reads too high may see less than nothing; and a thermometer's scale goes on below zero. */
    private static MeasuredInterval unseen(double limit) {
        return limit < 0 ? new MeasuredInterval(limit, limit, false) : MeasuredInterval.belowDetection(limit);
    }

    private ReadingVerdict aboveRange(double end) {
        ReadingVerdict limit = judge(end);
        double corrected = Objects.requireNonNull(limit.correctedValue());
        double uncertainty = Objects.requireNonNull(limit.uncertainty());
        return withoutNumber(
                limit,
                judged(MeasuredInterval.aboveRange(corrected - uncertainty)),
                judged(MeasuredInterval.aboveRange(end)));
    }

    private ReadingVerdict between(ReadingVerdict lower, ReadingVerdict upper) {
        double low = Objects.requireNonNull(lower.correctedValue());
        double high = Objects.requireNonNull(upper.correctedValue());
        double half = (high - low) / 2;
        double further =
                Math.max(Objects.requireNonNull(lower.uncertainty()), Objects.requireNonNull(upper.uncertainty()));
        Double from = lower.salinity();
        Double to = upper.salinity();
        Double ofUpper = upper.salinityUncertainty();
        Double middle = null;
        Double reach = null;
        if (from != null && to != null) {
            double halfSalinity = (to - from) / 2;
            middle = from + halfSalinity;
            reach = halfSalinity + (ofUpper == null ? 0 : ofUpper);
        }
        return new ReadingVerdict(
                RangeVerdict.between(lower.verdict(), upper.verdict()),
                RangeVerdict.between(lower.verdictAsRead(), upper.verdictAsRead()),
                lower.status(),
                lower.trusted() && upper.trusted(),
                lower.doubtful() || upper.doubtful(),
                low + half,
                half + further,
                middle,
                reach,
                lower.reasons(),
                lower.checkIds(),
                limits(),
                null,
                null,
                lower.ruleVersion());
    }

    private static ReadingVerdict withoutNumber(ReadingVerdict limit, VerdictCode verdict, VerdictCode asRead) {
        return new ReadingVerdict(
                verdict,
                asRead,
                limit.status(),
                limit.trusted(),
                limit.doubtful(),
                null,
                null,
                null,
                null,
                limit.reasons(),
                limit.checkIds(),
                limit.target(),
                null,
                null,
                limit.ruleVersion());
    }

    private ReadingVerdict notMeasured() {
        boolean targeted = limits().low() != null || limits().high() != null;
        VerdictCode verdict = targeted ? VerdictCode.UNDECIDED : VerdictCode.NO_TARGET;
        return new ReadingVerdict(
                verdict,
                verdict,
                null,
                true,
                false,
                null,
                null,
                null,
                null,
                List.of(),
                List.of(),
                limits(),
                null,
                null,
                SalinityVerdictRule.RULE_VERSION);
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
            case SALINITY, MASS -> throw new IllegalArgumentException(quantity.name() + " is not assessed by method");
        };
    }
}
