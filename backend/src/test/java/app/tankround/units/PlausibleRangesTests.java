package app.tankround.units;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What is asked back; the ranges are common practice, no source. */
class PlausibleRangesTests {

    @ParameterizedTest
    @CsvSource({
        // a gravity in a salinity field, and a salinity in a gravity field
        "SALINITY, S, 1.0250, 1.0250, SG",
        "SALINITY, SG, 35, 35, S",
        "SALINITY, mS/cm, 1.025, 1.025, SG",
        "SALINITY, mS/cm, 53000, 53, mS/cm",
        "SALINITY, SG, 1025, 1.025, SG",
        "PH, pH, 82, 8.2, pH",
        "ALKALINITY, dKH, 140, 140, mg/L CaCO3",
        "TEMPERATURE, degC, 78, 78, degF",
        "TEMPERATURE, degF, 25, 25, degC"
    })
    void offersWhatWasLikelyMeant(
            Quantity quantity, String unit, BigDecimal value, BigDecimal likely, String likelyUnit) {
        Implausible refused = PlausibleRanges.check(quantity, unit(unit), value).orElseThrow();

        assertThat(refused.likely()).contains(new Implausible.Likely(likely, unit(likelyUnit)));
        assertThat(refused.args()[0]).isEqualTo(value.toPlainString());
    }

    @ParameterizedTest
    @CsvSource({"NITRATE, mg/L, 1000000000", "NITRATE, mg/L, -1", "PH, pH, -8.2", "SALINITY, S, -0.1"})
    void refusesWithoutAGuess(Quantity quantity, String unit, BigDecimal value) {
        Implausible refused = PlausibleRanges.check(quantity, unit(unit), value).orElseThrow();

        assertThat(refused.likely()).isEmpty();
        assertThat(refused.args()).hasSize(4);
    }

    @ParameterizedTest
    @CsvSource({
        "SALINITY, SG, 1.025",
        "SALINITY, S, 35",
        "SALINITY, S, 1",
        // seawater is 53 mS/cm at 25 °C; 35 is water of S 22, and 1.02 is hardly salty
        "SALINITY, mS/cm, 53.06",
        "SALINITY, mS/cm, 35",
        "SALINITY, mS/cm, 1.02",
        "PH, pH, 8.2",
        "ALKALINITY, dKH, 8.5",
        "TEMPERATURE, degF, 78.5",
        "AMMONIA, mg/L, 0",
        "HARDNESS, dGH, 352"
    })
    void acceptsWhatAFirmMeets(Quantity quantity, String unit, BigDecimal value) {
        assertThat(PlausibleRanges.check(quantity, unit(unit), value)).isEmpty();
    }

    @Test
    void knowsARangeForEveryUnitOfEveryQuantity() {
        assertThat(Arrays.stream(Quantity.values()))
                .allSatisfy(quantity -> assertThat(quantity.units())
                        .allSatisfy(unit -> assertThat(
                                        PlausibleRanges.of(quantity, unit).high())
                                .isPositive()));
    }

    private static MeasurementUnit unit(String code) {
        return MeasurementUnit.ofCode(code).orElseThrow();
    }
}
