package app.tankround.readings;

import app.tankround.chemistry.DecisionRule;
import app.tankround.chemistry.ReadInstrument;
import app.tankround.chemistry.ReadingVerdict;
import app.tankround.chemistry.ReadingVerdictRule;
import app.tankround.chemistry.ReasonCode;
import app.tankround.chemistry.ShownReading;
import app.tankround.chemistry.Target;
import app.tankround.instruments.CalibrationHistory;
import app.tankround.instruments.CalibrationId;
import app.tankround.instruments.InstrumentView;
import app.tankround.units.GravityReference;
import app.tankround.units.MeasurementUnit;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** Asks {@link ReadingVerdictRule} what a reading is worth, and writes its answer down as an assessment. */
final class ReadingRule {

    static final String KIT_EXPIRED = ReasonCode.KIT_EXPIRED.name();
    static final String REPEAT_BEFORE_LEAVING = ReasonCode.REPEAT_BEFORE_LEAVING.name();
    static final String NO_OWN_TARGET = ReasonCode.NO_OWN_TARGET.name();
    static final String INSTRUMENT_NOT_STATED = ReasonCode.INSTRUMENT_NOT_STATED.name();
    static final String INSTRUMENT_SUSPECT = ReasonCode.INSTRUMENT_SUSPECT.name();
    static final String BEYOND_SCALE = ReasonCode.BEYOND_SCALE.name();

    /** A condemned instrument that another one on the same water vouches for, up to some later instant. */
    static final String ANOTHER_AGREED = "ANOTHER_AGREED";

    private ReadingRule() {}

    /**
     * Assesses a reading.
     *
     * @param history of the instrument it was read on; empty if none was named
     * @param target in the unit of the reading
     * @param chosen the decision rule of the business
     * @param zone of the business
     * @param now recorded as the time of the assessment
     */
    static AssessmentView assess(
            NewReading reading,
            Optional<CalibrationHistory> history,
            TargetOnScale target,
            DecisionRule chosen,
            ZoneId zone,
            Instant now) {
        @Nullable ReadInstrument instrument = history.map(each -> each.asRead(zone)).orElse(null);
        ReadingVerdict found = ReadingVerdictRule.judge(shown(reading), instrument, target.asFormula(), chosen);
        Target held = found.target();
        return new AssessmentView(
                found.verdict(),
                found.verdictAsRead(),
                Optional.ofNullable(found.status()),
                found.trusted(),
                found.doubtful(),
                Optional.ofNullable(found.correctedValue()),
                Optional.ofNullable(found.uncertainty()),
                Optional.ofNullable(found.salinity()),
                Optional.ofNullable(found.salinityUncertainty()),
                reasons(found, history.map(CalibrationHistory::instrument)),
                calibrations(found.checkIds()),
                target.low().filter(limit -> held.low() != null),
                target.high().filter(limit -> held.high() != null),
                found.ruleVersion(),
                now,
                Optional.ofNullable(found.judgement())
                        .flatMap(judgement -> Optional.ofNullable(found.budget())
                                .map(budget -> VerdictGrounds.of(judgement, budget))));
    }

    /** What was shown, as the formulas take it. */
    static ShownReading shown(NewReading reading) {
        @Nullable Double value = reading.value().map(BigDecimal::doubleValue).orElse(null);
        @Nullable Double upper = reading.upperValue().map(BigDecimal::doubleValue).orElse(null);
        boolean gravity = reading.unit() == MeasurementUnit.SPECIFIC_GRAVITY;
        return new ShownReading(
                reading.quantity(),
                reading.unit(),
                reading.gravityReference()
                        .filter(text -> gravity)
                        .flatMap(GravityReference::parse)
                        .orElse(null),
                reading.answer() == Answer.BELOW_DETECTION ? null : value,
                switch (reading.answer()) {
                    case ABOVE_RANGE -> null;
                    case BETWEEN -> upper;
                    case VALUE, BELOW_DETECTION, NOT_MEASURED -> value;
                },
                reading.takenAt().toEpochMilli(),
                reading.sampleTemperature().map(BigDecimal::doubleValue).orElse(null),
                reading.kitLot().isPresent());
    }

    private static List<Reason> reasons(ReadingVerdict found, Optional<InstrumentView> instrument) {
        return found.reasons().stream()
                .map(reason -> new Reason(reason.code().name(), arguments(reason, instrument)))
                .toList();
    }

    private static List<String> arguments(app.tankround.chemistry.Reason reason, Optional<InstrumentView> instrument) {
        return switch (reason.code()) {
            case BEYOND_SCALE ->
                List.of(
                        end(instrument.flatMap(InstrumentView::rangeLow)),
                        end(instrument.flatMap(InstrumentView::rangeHigh)));
            case KIT_EXPIRED ->
                instrument.flatMap(InstrumentView::expiresOn).map(LocalDate::toString).stream()
                        .toList();
            default -> reason.code().hasArgument() ? List.of(number(reason.shownArgument())) : List.of();
        };
    }

    private static String end(Optional<BigDecimal> ofScale) {
        return ofScale.map(BigDecimal::toPlainString).orElse("–");
    }

    private static String number(double argument) {
        return BigDecimal.valueOf(argument).stripTrailingZeros().toPlainString();
    }

    private static List<CalibrationId> calibrations(List<String> checkIds) {
        return checkIds.stream()
                .flatMap(ids -> Arrays.stream(ids.split(",")))
                .map(CalibrationId::parse)
                .toList();
    }
}
