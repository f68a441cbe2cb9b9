package app.tankround.instruments;

import app.tankround.accounts.PersonId;
import app.tankround.chemistry.StandardState;
import app.tankround.units.MeasurementUnit;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Instant;
import java.util.List;
import java.util.Optional;

/**
 * One standard held against one instrument. Views of the same instant are one check.
 *
 * @param asFound what the instrument showed before anybody touched it, on its own scale; 1 to 10 readings
 * @param asLeft what it showed when it was put away, up to 10 readings; none if nothing was adjusted
 * @param standardValue the standard's value as it was then, in {@code standardUnit}
 * @param standardUncertainty expanded uncertainty (k = 2) of that value, in {@code standardUnit}
 * @param standardState whether the standard could be believed on that day
 * @param temperature of the standard during the check, in °C
 * @param millivolts what a pH electrode gave in it, before anything was adjusted
 * @param instrumentTemperature of the instrument, in °C
 * @param adjusted what was adjusted
 * @param person who did it; empty for checks brought over from older records
 */
public record CalibrationView(
        CalibrationId id,
        String code,
        InstrumentId instrumentId,
        StandardId standardId,
        String standardCode,
        Instant performedAt,
        Optional<PersonId> person,
        List<BigDecimal> asFound,
        List<BigDecimal> asLeft,
        BigDecimal standardValue,
        MeasurementUnit standardUnit,
        BigDecimal standardUncertainty,
        Optional<String> standardLot,
        StandardState standardState,
        Optional<BigDecimal> temperature,
        Optional<BigDecimal> millivolts,
        Optional<BigDecimal> instrumentTemperature,
        Optional<String> adjusted,
        Optional<String> note) {

    public CalibrationView {
        asFound = List.copyOf(asFound);
        asLeft = List.copyOf(asLeft);
    }

    /** The same at another instant, by the code that it has then. */
    CalibrationView performedAt(Instant other, String codeThen) {
        return new CalibrationView(
                id,
                codeThen,
                instrumentId,
                standardId,
                standardCode,
                other,
                person,
                asFound,
                asLeft,
                standardValue,
                standardUnit,
                standardUncertainty,
                standardLot,
                standardState,
                temperature,
                millivolts,
                instrumentTemperature,
                adjusted,
                note);
    }

    /** Mean of the readings before adjusting, with one decimal more than they have if there are several. */
    public BigDecimal meanAsFound() {
        return mean(asFound);
    }

    /** The same after adjusting; before it if nothing was adjusted. */
    public BigDecimal meanAsLeft() {
        return mean(asLeft.isEmpty() ? asFound : asLeft);
    }

    private static BigDecimal mean(List<BigDecimal> readings) {
        if (readings.size() == 1) {
            return readings.getFirst();
        }
        int scale = readings.stream().mapToInt(BigDecimal::scale).max().orElse(0);
        return readings.stream()
                .reduce(BigDecimal.ZERO, BigDecimal::add)
                .divide(BigDecimal.valueOf(readings.size()), Math.max(0, scale) + 1, RoundingMode.HALF_EVEN);
    }
}
