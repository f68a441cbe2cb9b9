package app.tankround.chemistry;

import app.tankround.units.InputKind;
import app.tankround.units.Ranges;
import org.jspecify.annotations.Nullable;

/**
 * One reading of a salinity instrument, as written down.
 *
 * @param value on the instrument's own scale
 * @param atEpochSecond when, in seconds since 1970-01-01T00:00Z
 * @param sampleCelsius temperature of the sample, -2 to 40 °C, if known
 */
public record SalinityReading(
        double value, long atEpochSecond, @Nullable Double sampleCelsius) {

    public SalinityReading {
        Ranges.require(InputKind.READING, value, Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY);
        if (sampleCelsius != null) {
            Ranges.require(
                    InputKind.TEMPERATURE,
                    sampleCelsius,
                    SeawaterDensity.LOWEST_CELSIUS,
                    SeawaterDensity.HIGHEST_CELSIUS);
        }
    }
}
