package app.tankround.instruments;

import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.Optional;

/**
 * A standard that instruments are checked against.
 *
 * @param value its stated value, in {@code unit}; salinity standards as practical salinity, pure water as 0
 * @param uncertainty expanded uncertainty (k = 2) of the value, in {@code unit}
 * @param valueTemperature the temperature in °C at which the value holds, where it matters
 */
public record StandardView(
        StandardId id,
        String code,
        String name,
        Quantity quantity,
        BigDecimal value,
        MeasurementUnit unit,
        BigDecimal uncertainty,
        Optional<BigDecimal> valueTemperature,
        Optional<String> lot,
        Optional<LocalDate> openedOn,
        Optional<LocalDate> expiresOn,
        int version) {

    /** Whether it checks only the zero of a scale. */
    public boolean isZero() {
        return value.signum() == 0;
    }

    public boolean expiredOn(LocalDate day) {
        return expiresOn.filter(day::isAfter).isPresent();
    }
}
