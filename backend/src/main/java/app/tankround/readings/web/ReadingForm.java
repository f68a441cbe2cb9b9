package app.tankround.readings.web;

import app.tankround.accounts.PersonId;
import app.tankround.accounts.Temperatures;
import app.tankround.instruments.InstrumentId;
import app.tankround.readings.Answer;
import app.tankround.readings.NewReading;
import app.tankround.readings.ReadingId;
import app.tankround.readings.ReadingView;
import app.tankround.tanks.SamplePointId;
import app.tankround.tanks.WaterSystemId;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/** A reading by hand, or the corrected version of one; its id is made before the form is shown, so twice is once. */
record ReadingForm(
        @Nullable ReadingId id,
        @Nullable Quantity quantity,
        @Nullable Answer answer,
        @Nullable BigDecimal value,
        @Nullable BigDecimal upperValue,
        @Nullable MeasurementUnit unit,
        @Nullable String gravityReference,
        @Nullable BigDecimal sampleTemperature,
        @Nullable InstrumentId instrumentId,
        @Nullable String kitLot,
        @Nullable String notMeasuredBecause,
        @Nullable SamplePointId samplePointId,
        @Nullable LocalDate takenOn,
        @Nullable LocalTime at,
        @Nullable String reason) {

    static ReadingForm empty(ReadingId id, LocalDateTime now) {
        return new ReadingForm(
                id,
                null,
                Answer.VALUE,
                null,
                null,
                null,
                null,
                null,
                null,
                null,
                null,
                null,
                now.toLocalDate(),
                now.toLocalTime().truncatedTo(ChronoUnit.MINUTES),
                null);
    }

    /** @param temperatures as the business reads what is stored */
    static ReadingForm correcting(ReadingView stored, ReadingId id, ZoneId zone, Temperatures temperatures) {
        LocalDateTime taken = LocalDateTime.ofInstant(stored.takenAt(), zone);
        return new ReadingForm(
                id,
                stored.quantity(),
                stored.answer(),
                stored.value().orElse(null),
                stored.upperValue().orElse(null),
                stored.unit(),
                stored.gravityReference().orElse(null),
                stored.sampleTemperature().map(temperatures::shown).orElse(null),
                stored.instrumentId().orElse(null),
                stored.kitLot().orElse(null),
                stored.notMeasuredBecause().orElse(null),
                stored.samplePointId().orElse(null),
                taken.toLocalDate(),
                taken.toLocalTime().truncatedTo(ChronoUnit.MINUTES),
                null);
    }

    /**
     * What was stated.
     *
     * @param temperatures how the business reads what was typed
     * @param stored the temperature that the form was opened with, in °C
     */
    NewReading toCommand(
            WaterSystemId system,
            PersonId person,
            Optional<UUID> visit,
            ZoneId zone,
            Temperatures temperatures,
            Optional<BigDecimal> stored) {
        return new NewReading(
                given("id", id, "readings.choice-missing"),
                system,
                Optional.ofNullable(samplePointId),
                given("quantity", quantity, "readings.choice-missing"),
                given("answer", answer, "readings.choice-missing"),
                Optional.ofNullable(value),
                Optional.ofNullable(upperValue),
                given("unit", unit, "readings.choice-missing"),
                Optional.ofNullable(gravityReference),
                Optional.ofNullable(temperatures.celsius(sampleTemperature, stored)),
                Optional.ofNullable(instrumentId),
                Optional.ofNullable(kitLot),
                Optional.ofNullable(notMeasuredBecause),
                given("takenOn", takenOn, "readings.date-missing")
                        .atTime(given("at", at, "readings.date-missing"))
                        .atZone(zone)
                        .toInstant(),
                person,
                visit);
    }

    private static <T> T given(String field, @Nullable T stated, String code) {
        if (stated == null) {
            throw new FieldRefusal(field, code);
        }
        return stated;
    }
}
