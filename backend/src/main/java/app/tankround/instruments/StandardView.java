package app.tankround.instruments;

import app.tankround.chemistry.PhBuffer;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.units.Temperature;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.util.Comparator;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * A standard that instruments are checked against.
 *
 * @param value its stated value, in {@code unit}; salinity standards as practical salinity, pure water as 0
 * @param uncertainty expanded uncertainty (k = 2) of the value, in {@code unit}
 * @param buffer which buffer it is, so that its value is known at any temperature; for pH buffers only
 * @param openDays how many days it may be used once opened, 1 to 3660
 * @param suspiciousSince since when a person does not believe it; present if and only if {@code suspiciousBecause} is
 * @param valueTemperature the temperature in °C at which the value holds, where it matters
 */
public record StandardView(
        StandardId id,
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
        Optional<String> suspiciousBecause,
        int version) {

    private static final int BUFFER_DECIMALS = 3;

    /**
     * Its value at a temperature: a buffer's as its table says, moved by as much as its own value differs from the table's.
     *
     * @param celsius 0 to 50 °C for a buffer; empty if nobody wrote it down
     */
    public BigDecimal valueAt(Optional<BigDecimal> celsius) {
        return buffer.flatMap(kind -> celsius.map(warm -> {
                    double moved = kind.at(Temperature.ofCelsius(warm.doubleValue())) - kind.at(labelled());
                    return value.add(BigDecimal.valueOf(moved).setScale(BUFFER_DECIMALS, RoundingMode.HALF_EVEN));
                }))
                .orElse(value);
    }

    /** As it was stated. */
    NewStandard stated() {
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
                openedOn,
                expiresOn,
                openDays,
                suspiciousSince,
                suspiciousBecause);
    }

    /** The temperature at which a buffer has its value. */
    Temperature labelled() {
        return valueTemperature
                .map(BigDecimal::doubleValue)
                .map(Temperature::ofCelsius)
                .orElse(PhBuffer.USUAL);
    }

    /** Whether it checks only the zero of a scale. */
    public boolean isZero() {
        return value.signum() == 0;
    }

    /** The last day of its shelf life or of its days open, whichever comes first. */
    public Optional<LocalDate> lastDay() {
        Optional<LocalDate> open = openedOn.flatMap(opened -> openDays.map(opened::plusDays));
        return Stream.concat(expiresOn.stream(), open.stream()).min(Comparator.naturalOrder());
    }

    public boolean expiredOn(LocalDate day) {
        return lastDay().filter(day::isAfter).isPresent();
    }

    public boolean suspiciousOn(LocalDate day) {
        return suspiciousSince.filter(since -> !day.isBefore(since)).isPresent();
    }
}
