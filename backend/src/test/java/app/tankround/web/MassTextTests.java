package app.tankround.web;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.units.Mass;
import app.tankround.units.UnitSystem;
import java.util.Locale;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class MassTextTests {

    /** 1 lb is 0.45359237 kg exactly (international yard and pound agreement of 1959). */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "0.12   | METRIC       | 0.12 kg",
                "0.04   | METRIC       | 0.04 kg",
                "0      | METRIC       | 0 kg",
                "1.25   | METRIC       | 1.2 kg",
                "1040.3 | METRIC       | 1,040.3 kg",
                "1028   | METRIC       | 1,028 kg",
                "1028   | US_CUSTOMARY | 2,266.4 lb"
            })
    void writesAMassWithOneDecimalAndASmallOneWithTwo(double kilograms, UnitSystem units, String written) {
        assertThat(new MassText(Locale.UK, units).of(Mass.ofKilograms(kilograms)))
                .isEqualTo(written);
    }
}
