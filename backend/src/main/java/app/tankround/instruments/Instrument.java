package app.tankround.instruments;

import app.tankround.accounts.PersonId;
import app.tankround.chemistry.Graduation;
import app.tankround.chemistry.TemperatureCompensation;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.data.annotation.Id;
import org.springframework.data.annotation.Version;

/** A row of the register; columns as in {@link InstrumentView}. */
record Instrument(
        @Id InstrumentId id,
        String code,
        String name,
        InstrumentKind kind,
        Quantity quantity,
        MeasurementUnit unit,
        @Nullable String gravityReference,
        @Nullable Graduation graduation,
        @Nullable TemperatureCompensation compensation,
        BigDecimal resolution,
        @Nullable BigDecimal rangeLow,
        @Nullable BigDecimal rangeHigh,
        BigDecimal permittedError,
        int checkIntervalDays,
        @Nullable Integer shakeSeconds,
        @Nullable Integer waitSeconds,
        @Nullable Integer readWithinSeconds,
        @Nullable String lot,
        @Nullable LocalDate expiresOn,
        @Nullable LocalDate purchasedOn,
        @Nullable LocalDate retiredOn,
        @Nullable PersonId holderId,
        @Version int version) {

    static Instrument of(InstrumentId id, NewInstrument stated, int version) {
        return new Instrument(
                id,
                stated.code(),
                stated.name(),
                stated.kind(),
                stated.quantity(),
                stated.unit(),
                stated.gravityReference().orElse(null),
                stated.graduation().orElse(null),
                stated.compensation().orElse(null),
                stated.resolution(),
                stated.rangeLow().orElse(null),
                stated.rangeHigh().orElse(null),
                stated.permittedError(),
                stated.checkIntervalDays(),
                stated.times().shakeSeconds(),
                stated.times().waitSeconds(),
                stated.times().readWithinSeconds(),
                stated.lot().orElse(null),
                stated.expiresOn().orElse(null),
                stated.purchasedOn().orElse(null),
                stated.retiredOn().orElse(null),
                stated.holder().orElse(null),
                version);
    }

    InstrumentView view() {
        return new InstrumentView(
                id,
                code,
                name,
                kind,
                quantity,
                unit,
                Optional.ofNullable(gravityReference),
                Optional.ofNullable(graduation),
                Optional.ofNullable(compensation),
                resolution,
                Optional.ofNullable(rangeLow),
                Optional.ofNullable(rangeHigh),
                permittedError,
                checkIntervalDays,
                new KitTimes(shakeSeconds, waitSeconds, readWithinSeconds),
                Optional.ofNullable(lot),
                Optional.ofNullable(expiresOn),
                Optional.ofNullable(purchasedOn),
                Optional.ofNullable(retiredOn),
                Optional.ofNullable(holderId),
                version);
    }
}
