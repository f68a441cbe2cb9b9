package app.tankround.instruments;

import app.tankround.accounts.PersonId;
import app.tankround.chemistry.StandardState;
import app.tankround.units.MeasurementUnit;
import java.math.BigDecimal;
import java.time.Instant;
import java.util.Optional;

/**
 * One standard held against one instrument. Views of the same instant are one check.
 *
 * @param asFound what the instrument showed before anybody touched it, on its own scale
 * @param asLeft what it showed when it was put away; equal to {@code asFound} if nothing was adjusted
 * @param standardValue the standard's value as it was then, in {@code standardUnit}
 * @param standardUncertainty expanded uncertainty (k = 2) of that value, in {@code standardUnit}
 * @param standardState whether the standard could be believed on that day
 * @param temperature of the standard during the check, in °C
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
        BigDecimal asFound,
        BigDecimal asLeft,
        BigDecimal standardValue,
        MeasurementUnit standardUnit,
        BigDecimal standardUncertainty,
        Optional<String> standardLot,
        StandardState standardState,
        Optional<BigDecimal> temperature,
        Optional<String> note) {}
