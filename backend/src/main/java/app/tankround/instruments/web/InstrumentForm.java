package app.tankround.instruments.web;

import app.tankround.accounts.PersonId;
import app.tankround.chemistry.Graduation;
import app.tankround.chemistry.TemperatureCompensation;
import app.tankround.instruments.InstrumentKind;
import app.tankround.instruments.InstrumentView;
import app.tankround.instruments.KitTimes;
import app.tankround.instruments.NewInstrument;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.web.FieldRefusal;
import app.tankround.web.VersionedForm;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

record InstrumentForm(
        @Nullable String code,
        @Nullable String name,
        @Nullable InstrumentKind kind,
        @Nullable Quantity quantity,
        @Nullable MeasurementUnit unit,
        @Nullable String gravityReference,
        @Nullable Graduation graduation,
        @Nullable TemperatureCompensation compensation,
        @Nullable BigDecimal resolution,
        @Nullable BigDecimal rangeLow,
        @Nullable BigDecimal rangeHigh,
        @Nullable BigDecimal permittedError,
        @Nullable Integer checkIntervalDays,
        @Nullable Integer shakeSeconds,
        @Nullable Integer waitSeconds,
        @Nullable Integer readWithinSeconds,
        @Nullable String lot,
        @Nullable LocalDate expiresOn,
        @Nullable LocalDate purchasedOn,
        @Nullable LocalDate retiredOn,
        @Nullable PersonId holder,
        int version)
        implements VersionedForm<InstrumentForm> {

    private static final int USUAL_INTERVAL_DAYS = 30;

    static InstrumentForm empty() {
        return new InstrumentForm(
                null,
                null,
                null,
                null,
                null,
                null,
                null,
                null,
                null,
                null,
                null,
                null,
                USUAL_INTERVAL_DAYS,
                null,
                null,
                null,
                null,
                null,
                null,
                null,
                null,
                0);
    }

    @Override
    public InstrumentForm withVersion(int newest) {
        return new InstrumentForm(
                code,
                name,
                kind,
                quantity,
                unit,
                gravityReference,
                graduation,
                compensation,
                resolution,
                rangeLow,
                rangeHigh,
                permittedError,
                checkIntervalDays,
                shakeSeconds,
                waitSeconds,
                readWithinSeconds,
                lot,
                expiresOn,
                purchasedOn,
                retiredOn,
                holder,
                newest);
    }

    static InstrumentForm of(InstrumentView stored) {
        return new InstrumentForm(
                stored.code(),
                stored.name(),
                stored.kind(),
                stored.quantity(),
                stored.unit(),
                stored.gravityReference().orElse(null),
                stored.graduation().orElse(null),
                stored.compensation().orElse(null),
                stored.resolution(),
                stored.rangeLow().orElse(null),
                stored.rangeHigh().orElse(null),
                stored.permittedError(),
                stored.checkIntervalDays(),
                stored.times().shakeSeconds(),
                stored.times().waitSeconds(),
                stored.times().readWithinSeconds(),
                stored.lot().orElse(null),
                stored.expiresOn().orElse(null),
                stored.purchasedOn().orElse(null),
                stored.retiredOn().orElse(null),
                stored.holder().orElse(null),
                stored.version());
    }

    NewInstrument toCommand() {
        return new NewInstrument(
                given("code", code, "instruments.text-missing"),
                given("name", name, "instruments.text-missing"),
                given("kind", kind, "instruments.choice-missing"),
                given("quantity", quantity, "instruments.choice-missing"),
                given("unit", unit, "instruments.choice-missing"),
                Optional.ofNullable(gravityReference),
                Optional.ofNullable(graduation),
                Optional.ofNullable(compensation),
                given("resolution", resolution, "instruments.number-missing"),
                Optional.ofNullable(rangeLow),
                Optional.ofNullable(rangeHigh),
                given("permittedError", permittedError, "instruments.number-missing"),
                given("checkIntervalDays", checkIntervalDays, "instruments.number-missing"),
                new KitTimes(shakeSeconds, waitSeconds, readWithinSeconds),
                Optional.ofNullable(lot),
                Optional.ofNullable(expiresOn),
                Optional.ofNullable(purchasedOn),
                Optional.ofNullable(retiredOn),
                Optional.ofNullable(holder));
    }

    static <T> T given(String field, @Nullable T value, String code) {
        if (value == null) {
            throw new FieldRefusal(field, code);
        }
        return value;
    }
}
