package app.tankround.instruments.web;

import static app.tankround.instruments.web.InstrumentForm.given;

import app.tankround.accounts.Temperatures;
import app.tankround.chemistry.PhBuffer;
import app.tankround.instruments.NewStandard;
import app.tankround.instruments.StandardKind;
import app.tankround.instruments.StandardView;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.web.VersionedForm;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

record StandardForm(
        @Nullable String code,
        @Nullable String name,
        @Nullable StandardKind kind,
        @Nullable Quantity quantity,
        @Nullable BigDecimal value,
        @Nullable MeasurementUnit unit,
        @Nullable BigDecimal uncertainty,
        @Nullable BigDecimal valueTemperature,
        @Nullable PhBuffer buffer,
        @Nullable String lot,
        @Nullable LocalDate openedOn,
        @Nullable LocalDate expiresOn,
        @Nullable Integer openDays,
        @Nullable LocalDate suspiciousSince,
        @Nullable String suspiciousBecause,
        int version)
        implements VersionedForm<StandardForm> {

    static StandardForm empty() {
        return new StandardForm(
                null,
                null,
                StandardKind.SEAWATER,
                Quantity.SALINITY,
                null,
                MeasurementUnit.PRACTICAL_SALINITY,
                null,
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
    public StandardForm withVersion(int newest) {
        return new StandardForm(
                code,
                name,
                kind,
                quantity,
                value,
                unit,
                uncertainty,
                valueTemperature,
                buffer,
                lot,
                openedOn,
                expiresOn,
                openDays,
                suspiciousSince,
                suspiciousBecause,
                newest);
    }

    /** @param temperatures as the business reads what is stored */
    static StandardForm of(StandardView stored, Temperatures temperatures) {
        return new StandardForm(
                stored.code(),
                stored.name(),
                stored.kind(),
                stored.quantity(),
                stored.value(),
                stored.unit(),
                stored.uncertainty(),
                stored.valueTemperature().map(temperatures::shown).orElse(null),
                stored.buffer().orElse(null),
                stored.lot().orElse(null),
                stored.openedOn().orElse(null),
                stored.expiresOn().orElse(null),
                stored.openDays().orElse(null),
                stored.suspiciousSince().orElse(null),
                stored.suspiciousBecause().orElse(null),
                stored.version());
    }

    /**
     * What was stated.
     *
     * @param temperatures how the business reads what was typed
     * @param stored the temperature that the form was opened with, in °C
     */
    NewStandard toCommand(Temperatures temperatures, Optional<BigDecimal> stored) {
        return new NewStandard(
                given("code", code, "instruments.text-missing"),
                given("name", name, "instruments.text-missing"),
                given("kind", kind, "instruments.choice-missing"),
                given("quantity", quantity, "instruments.choice-missing"),
                given("value", value, "instruments.number-missing"),
                given("unit", unit, "instruments.choice-missing"),
                given("uncertainty", uncertainty, "instruments.number-missing"),
                Optional.ofNullable(temperatures.celsius(valueTemperature, stored)),
                Optional.ofNullable(buffer),
                Optional.ofNullable(lot),
                Optional.ofNullable(openedOn),
                Optional.ofNullable(expiresOn),
                Optional.ofNullable(openDays),
                Optional.ofNullable(suspiciousSince),
                Optional.ofNullable(suspiciousBecause));
    }
}
