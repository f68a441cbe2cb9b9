package app.tankround.units;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Factors by NIST Special Publication 811, B.8, from memory, and hand-made arithmetic. */
class UnitConversionsTests {

    @ParameterizedTest
    @CsvSource({
        "1, psi, kPa, 6.894757",
        "1, bar, kPa, 100",
        "60, psi, bar, 4.136854",
        "1, gal, L, 3.785412",
        "2.5, m3, L, 2500",
        "1000, L, gal, 264.1721",
        // 75 gal/d * 3.785412 = 283.9059 L/d; * 1000 / 1440 = 197.1569 mL/min
        "75, gal/d, L/d, 283.9059",
        "75, gal/d, mL/min, 197.1569",
        "100, mL/min, L/d, 144",
        "3, m3, m3, 3"
    })
    void convertsWhatAPlantShows(double value, String from, String to, double expected) {
        assertThat(UnitConversions.convert(value, unit(from), unit(to))).isCloseTo(expected, within(expected * 1e-6));
    }

    @Test
    void convertsNoPressureToAFlow() {
        assertThatThrownBy(() -> UnitConversions.convert(1, MeasurementUnit.BAR, MeasurementUnit.LITRES_PER_DAY))
                .isInstanceOf(IllegalArgumentException.class);
    }

    private static MeasurementUnit unit(String code) {
        return MeasurementUnit.ofCode(code).orElseThrow();
    }
}
