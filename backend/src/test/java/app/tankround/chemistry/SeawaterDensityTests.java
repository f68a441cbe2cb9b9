package app.tankround.chemistry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.within;

import app.tankround.units.InputKind;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.Refusal;
import app.tankround.units.RefusalCode;
import app.tankround.units.Salinity;
import app.tankround.units.Temperature;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Density beside TEOS-10, computed by its reference library; the published cells are in the reference table tests. */
class SeawaterDensityTests {

    @Test
    void agreesWithTeos10WithinItsStatedUncertainty() {
        assertThat(largestDifference(0, 42)).isLessThan(SeawaterDensity.UNCERTAINTY_WITHIN);
    }

    @Test
    void agreesWithTeos10WithinItsLargerUncertaintyBeyond42() {
        double difference = largestDifference(42, 50);

        assertThat(difference)
                .isLessThan(SeawaterDensity.UNCERTAINTY_EXTRAPOLATED)
                .isGreaterThan(SeawaterDensity.UNCERTAINTY_WITHIN);
    }

    private static double largestDifference(double from, double to) {
        double largest = 0;
        for (double s = from; s <= to; s += 0.5) {
            for (double t = -2; t <= 40; t += 1) {
                double own = SeawaterDensity.ofSeawater(new Salinity(s), new Temperature(t))
                        .value();
                largest = Math.max(largest, Math.abs(Gsw.density(s, t) - own));
            }
        }
        return largest;
    }

    @ParameterizedTest
    @ValueSource(doubles = {0, 0.1, 2, 20, 35, 41.99, 42, 42.01, 47, 50})
    void invertsItself(double s) {
        Temperature temperature = new Temperature(24.3);
        double density =
                SeawaterDensity.ofSeawater(new Salinity(s), temperature).value();

        Computed back = SeawaterDensity.toSalinity(density, temperature);

        assertThat(back.value()).isCloseTo(s, within(1e-9));
        assertThat(back.extrapolated()).isEqualTo(s > 42);
    }

    @Test
    void refusesSalinityAbove50NamingValueAndRange() {
        assertThatExceptionOfType(OutOfRangeException.class)
                .isThrownBy(() -> SeawaterDensity.ofSeawater(new Salinity(50.1), new Temperature(25)))
                .satisfies(e -> assertThat(e.refusal())
                        .isEqualTo(new Refusal(RefusalCode.OUT_OF_RANGE, InputKind.PRACTICAL_SALINITY, 50.1, 0, 50)));
    }

    @ParameterizedTest
    @ValueSource(doubles = {-2.1, 40.1})
    void refusesTemperaturesOutsideThePublishedRange(double celsius) {
        assertThatExceptionOfType(OutOfRangeException.class)
                .isThrownBy(() -> SeawaterDensity.ofPureWater(new Temperature(celsius)))
                .satisfies(e -> assertThat(e.refusal().quantity()).isEqualTo(InputKind.TEMPERATURE));
    }

    @Test
    void refusesADensityThatNoSalinityHas() {
        assertThatExceptionOfType(OutOfRangeException.class)
                .isThrownBy(() -> SeawaterDensity.toSalinity(996, new Temperature(25)));
        assertThatExceptionOfType(OutOfRangeException.class)
                .isThrownBy(() -> SeawaterDensity.toSalinity(1036, new Temperature(25)));
    }
}
