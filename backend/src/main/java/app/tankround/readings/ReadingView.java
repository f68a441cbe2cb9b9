package app.tankround.readings;

import app.tankround.accounts.PersonId;
import app.tankround.chemistry.RangeVerdict;
import app.tankround.instruments.InstrumentId;
import app.tankround.tanks.SamplePointId;
import app.tankround.tanks.WaterSystemId;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import java.math.BigDecimal;
import java.time.Instant;
import java.util.Optional;
import java.util.UUID;

/**
 * A reading as it was written down, with what is now known about it; components as in {@link NewReading}.
 *
 * @param replaces the version this one corrects
 * @param reason why it corrects it
 * @param replacedBy the version that corrects this one; the newest version has none
 */
public record ReadingView(
        ReadingId id,
        WaterSystemId systemId,
        Optional<SamplePointId> samplePointId,
        Quantity quantity,
        Answer answer,
        Optional<BigDecimal> value,
        Optional<BigDecimal> upperValue,
        MeasurementUnit unit,
        Optional<String> gravityReference,
        Optional<BigDecimal> sampleTemperature,
        Optional<InstrumentId> instrumentId,
        Optional<String> kitLot,
        Optional<String> notMeasuredBecause,
        Instant takenAt,
        PersonId person,
        Optional<UUID> visitId,
        Optional<ReadingId> replaces,
        Optional<String> reason,
        Optional<ReadingId> replacedBy,
        Instant recordedAt,
        AssessmentView assessment) {

    /** A reading as it was stated, which neither corrects another one nor is corrected. */
    static ReadingView of(NewReading stated, Instant recordedAt, AssessmentView assessment) {
        return of(stated, Optional.empty(), Optional.empty(), Optional.empty(), recordedAt, assessment);
    }

    static ReadingView of(
            NewReading stated,
            Optional<ReadingId> replaces,
            Optional<String> reason,
            Optional<ReadingId> replacedBy,
            Instant recordedAt,
            AssessmentView assessment) {
        return new ReadingView(
                stated.id(),
                stated.systemId(),
                stated.samplePointId(),
                stated.quantity(),
                stated.answer(),
                stated.value(),
                stated.upperValue(),
                stated.unit(),
                stated.gravityReference(),
                stated.sampleTemperature(),
                stated.instrumentId(),
                stated.kitLot(),
                stated.notMeasuredBecause(),
                stated.takenAt(),
                stated.person(),
                stated.visitId(),
                replaces,
                reason,
                replacedBy,
                recordedAt,
                assessment);
    }

    /** The same reading as it was or is assessed otherwise. */
    public ReadingView assessedAs(AssessmentView other) {
        return new ReadingView(
                id,
                systemId,
                samplePointId,
                quantity,
                answer,
                value,
                upperValue,
                unit,
                gravityReference,
                sampleTemperature,
                instrumentId,
                kitLot,
                notMeasuredBecause,
                takenAt,
                person,
                visitId,
                replaces,
                reason,
                replacedBy,
                recordedAt,
                other);
    }

    /** Whether what was measured, as far as it can be told, kills the animals. */
    public boolean endangers() {
        return answer != Answer.NOT_MEASURED && RangeVerdict.endangers(quantity, assessment.verdict());
    }

    /** Whether nobody should leave before something was done about it, or before it was measured again. */
    public boolean asksBeforeLeaving() {
        return endangers() || assessment.says(ReadingRule.REPEAT_BEFORE_LEAVING);
    }

    /** Whether it can be relied on, and tells that nothing of this kind kills. */
    public boolean tellsOfNoDanger() {
        return answer != Answer.NOT_MEASURED
                && assessment.trusted()
                && RangeVerdict.isHarmless(quantity, assessment.verdict());
    }

    /** The reading as it was stated. */
    public NewReading stated() {
        return new NewReading(
                id,
                systemId,
                samplePointId,
                quantity,
                answer,
                value,
                upperValue,
                unit,
                gravityReference,
                sampleTemperature,
                instrumentId,
                kitLot,
                notMeasuredBecause,
                takenAt,
                person,
                visitId);
    }
}
