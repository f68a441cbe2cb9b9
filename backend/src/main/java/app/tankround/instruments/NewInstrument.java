package app.tankround.instruments;

import app.tankround.accounts.PersonId;
import app.tankround.chemistry.Graduation;
import app.tankround.chemistry.TemperatureCompensation;
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
        Optional<TemperatureCompensation> compensation,
        BigDecimal resolution,
        Optional<BigDecimal> rangeLow,
        Optional<BigDecimal> rangeHigh,
        BigDecimal permittedError,
        int checkIntervalDays,
        KitTimes times,
        Optional<String> lot,
        Optional<LocalDate> expiresOn,
        Optional<LocalDate> purchasedOn,
        Optional<LocalDate> retiredOn,
        Optional<PersonId> holder) {

    /** One of which nobody said where its scale begins and ends, whether it makes up for temperature, or how long a sample takes. */
    public NewInstrument(
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
            Optional<PersonId> holder) {
        this(
                code,
                name,
                kind,
                quantity,
                unit,
                gravityReference,
                graduation,
                Optional.empty(),
                resolution,
                Optional.empty(),
                Optional.empty(),
                permittedError,
                checkIntervalDays,
                KitTimes.UNSTATED,
                lot,
                expiresOn,
                purchasedOn,
                retiredOn,
                holder);
    }
}
