package app.tankround.stock;

import app.tankround.instruments.InstrumentId;
import app.tankround.readings.ReadingId;
import java.math.BigDecimal;
import java.util.Optional;

/**
 * What was measured in a batch before it is let out.
 *
 * @param id the reading will have, so that releasing twice measures once
 * @param instrument what it was measured with
 * @param value as the instrument showed it, on its own scale
 * @param sampleTemperature of the water, in degrees Celsius
 */
public record BatchMeasurement(
        ReadingId id, InstrumentId instrument, BigDecimal value, Optional<BigDecimal> sampleTemperature) {}
