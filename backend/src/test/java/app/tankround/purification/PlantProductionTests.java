package app.tankround.purification;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.byLessThan;

import app.tankround.purification.PlantProduction.MeasuredFlow;
import app.tankround.purification.PlantProduction.Stated;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A membrane maker's sheet of temperature corrections for thin film (rows RO-TCF and RO-FLOW-15), and powers by hand. */
class PlantProductionTests {

    private static final LocalDate TODAY = LocalDate.of(2026, 11, 27);

    private static PlantProduction rated(double litres, double celsius, double loss, LocalDate since) {
        return PlantProduction.of(Optional.empty(), since, new Stated(celsius, litres, loss), TODAY)
                .orElseThrow();
    }

    @ParameterizedTest
    @CsvSource({"10, 1.711", "15, 1.422", "20, 1.189", "24, 1.035", "26, 0.971", "28, 0.915", "29, 0.889"})
    void givesLessFromColdWaterAsTheSheetSays(double celsius, double factor) {
        PlantProduction production = rated(100, celsius, 5, TODAY);
        assertThat(production.correction()).isCloseTo(factor, byLessThan(0.0006));
        assertThat(production.litresPerHour()).isCloseTo(100 / factor, byLessThan(0.06));
        assertThat(production.ageShare()).isEqualTo(1);
        assertThat(production.feedAssumed()).isFalse();
    }

    /** 1800 gal/d at 25 °C are 1266 gal/d at 59 °F: the worked example of the sheet. */
    @Test
    void comesToTheWorkedExampleOfTheSheet() {
        assertThat(rated(1800, 15, 0, LocalDate.of(2020, 1, 1)).litresPerHour()).isCloseTo(1266, byLessThan(0.5));
    }

    /** 0.93 to the power of 730 days over 365.25 is 0.86499. */
    @Test
    void losesAShareOfWhatWasLeftEachYear() {
        PlantProduction production = rated(100, 25, 7, TODAY.minusDays(730));
        assertThat(production.ageShare()).isCloseTo(0.86499, byLessThan(0.00001));
        assertThat(production.litresPerHour()).isCloseTo(86.499, byLessThan(0.001));
    }

    @Test
    void believesWhatWasMeasuredMoreThanWhatItIsRated() {
        MeasuredFlow flow = new MeasuredFlow(Instant.parse("2026-11-27T08:00:00Z"), TODAY, 20, 15);
        PlantProduction production = PlantProduction.of(
                        Optional.of(flow), TODAY.minusYears(3), new Stated(null, 40.0, 7), TODAY)
                .orElseThrow();
        assertThat(production.measured()).isTrue();
        assertThat(production.feedCelsius()).isEqualTo(15);
        assertThat(production.litresPerHour()).isCloseTo(20 / 1.422, byLessThan(0.01));
        assertThat(PlantProduction.of(Optional.empty(), TODAY, new Stated(15.0, null, 7), TODAY))
                .isEmpty();
    }
}
