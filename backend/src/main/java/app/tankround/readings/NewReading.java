package app.tankround.readings;

import app.tankround.accounts.PersonId;
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
 * A reading as it was written down; what is missing was not written down.
 *
 * @param id made by whoever wrote it down, so that the same reading sent twice stays one
 * @param value the digits as written; empty only if not measured
 * @param upperValue the higher mark of a {@link Answer#BETWEEN}
 * @param gravityReference temperatures of the scale; present if and only if the unit is specific gravity
 * @param sampleTemperature of the water while it was read, in °C
 * @param visitId the visit it was taken at
 */
public record NewReading(
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
        Optional<UUID> visitId) {

    /** A number read on an instrument; add the rest with the {@code with} methods. */
    public static NewReading of(
            ReadingId id,
            WaterSystemId systemId,
            Quantity quantity,
            BigDecimal value,
            MeasurementUnit unit,
            Instant takenAt,
            PersonId person) {
        return new NewReading(
                id,
                systemId,
                Optional.empty(),
                quantity,
                Answer.VALUE,
                Optional.of(value),
                Optional.empty(),
                unit,
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                takenAt,
                person,
                Optional.empty());
    }

    /** What it follows others in. */
    public ReadingPlace place() {
        return new ReadingPlace(systemId, quantity, samplePointId);
    }

    public NewReading withSamplePoint(SamplePointId point) {
        return copy(Optional.of(point), answer, gravityReference, sampleTemperature, instrumentId, kitLot, visitId);
    }

    public NewReading withInstrument(InstrumentId instrument) {
        return copy(
                samplePointId, answer, gravityReference, sampleTemperature, Optional.of(instrument), kitLot, visitId);
    }

    public NewReading withKitLot(String lot) {
        return copy(
                samplePointId, answer, gravityReference, sampleTemperature, instrumentId, Optional.of(lot), visitId);
    }

    public NewReading withGravityReference(String reference) {
        return copy(samplePointId, answer, Optional.of(reference), sampleTemperature, instrumentId, kitLot, visitId);
    }

    /** @param celsius temperature of the water while it was read, in °C */
    public NewReading withSampleTemperature(BigDecimal celsius) {
        return copy(samplePointId, answer, gravityReference, Optional.of(celsius), instrumentId, kitLot, visitId);
    }

    public NewReading withAnswer(Answer changed) {
        return copy(samplePointId, changed, gravityReference, sampleTemperature, instrumentId, kitLot, visitId);
    }

    public NewReading atVisit(UUID visit) {
        return copy(
                samplePointId, answer, gravityReference, sampleTemperature, instrumentId, kitLot, Optional.of(visit));
    }

    private NewReading copy(
            Optional<SamplePointId> newPoint,
            Answer newAnswer,
            Optional<String> newReference,
            Optional<BigDecimal> newTemperature,
            Optional<InstrumentId> newInstrument,
            Optional<String> newLot,
            Optional<UUID> newVisit) {
        return new NewReading(
                id,
                systemId,
                newPoint,
                quantity,
                newAnswer,
                value,
                upperValue,
                unit,
                newReference,
                newTemperature,
                newInstrument,
                newLot,
                notMeasuredBecause,
                takenAt,
                person,
                newVisit);
    }
}
