package app.tankround.instruments;

import app.tankround.chemistry.PhBuffer;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.Optional;

/** What the office states about a standard; components as in {@link StandardView}. */
public record NewStandard(
        String code,
        String name,
        StandardKind kind,
        Quantity quantity,
        BigDecimal value,
        MeasurementUnit unit,
        BigDecimal uncertainty,
        Optional<BigDecimal> valueTemperature,
        Optional<PhBuffer> buffer,
        Optional<String> lot,
        Optional<LocalDate> openedOn,
        Optional<LocalDate> expiresOn,
        Optional<Integer> openDays,
        Optional<LocalDate> suspiciousSince,
        Optional<String> suspiciousBecause) {

    /** One that is no buffer of the tables. */
    public NewStandard(
            String code,
            String name,
            StandardKind kind,
            Quantity quantity,
            BigDecimal value,
            MeasurementUnit unit,
            BigDecimal uncertainty,
            Optional<BigDecimal> valueTemperature,
            Optional<String> lot,
            Optional<LocalDate> openedOn,
            Optional<LocalDate> expiresOn,
            Optional<Integer> openDays,
            Optional<LocalDate> suspiciousSince,
            Optional<String> suspiciousBecause) {
        this(
                code,
                name,
                kind,
                quantity,
                value,
                unit,
                uncertainty,
                valueTemperature,
                Optional.empty(),
                lot,
                openedOn,
                expiresOn,
                openDays,
                suspiciousSince,
                suspiciousBecause);
    }

    /** The same, opened on a day. */
    NewStandard openedOn(LocalDate day) {
        return new NewStandard(
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
                Optional.of(day),
                expiresOn,
                openDays,
                suspiciousSince,
                suspiciousBecause);
    }
}
