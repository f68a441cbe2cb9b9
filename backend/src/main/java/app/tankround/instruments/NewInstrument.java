package app.tankround.instruments;

import app.tankround.accounts.PersonId;
import app.tankround.chemistry.Graduation;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.Optional;

/** What the office states about an instrument; components as in {@link InstrumentView}. */
public record NewInstrument(
        String code,
        String name,
        InstrumentKind kind,
        Quantity quantity,
        MeasurementUnit unit,
        Optional<String> gravityReference,
        Optional<Graduation> graduation,
        BigDecimal resolution,
        BigDecimal permittedError,
        int checkIntervalDays,
        Optional<String> lot,
        Optional<LocalDate> expiresOn,
        Optional<LocalDate> purchasedOn,
        Optional<LocalDate> retiredOn,
        Optional<PersonId> holder) {}
