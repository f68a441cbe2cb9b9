package app.tankround.chemistry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.within;

import app.tankround.units.OutOfRangeException;
import app.tankround.units.Temperature;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/** Buffers and electrodes against published figures. */
class PhElectrodeTests {

    /** 2.303 RT/F with CODATA's R and F: 54.20 mV at 0 °C, 59.16 at 25 °C as every handbook prints (from memory). */
    @ParameterizedTest
    @CsvSource({"0, 54.20", "20, 58.17", "25, 59.16", "30, 60.15"})
    void knowsTheSlopeOfNernst(double celsius, double millivolts) {
        assertThat(PhElectrode.nernstMillivolts(Temperature.ofCelsius(celsius))).isCloseTo(millivolts, within(0.005));
    }

    /**
     * Hetzer, Durst, Robinson and Bates 1977, J. Res. NBS 81A, 21, abstract (read): the equation through their new values,
     * which differ from the older ones behind the table by 0.003 on average.
     */
    @ParameterizedTest
    @CsvSource({"5", "10", "15", "20", "25", "30", "35", "40", "45", "50"})
    void agreesWithTheEquationOfPhthalate(double celsius) {
        double kelvin = celsius + 273.15;
        double published = 2073.44 / kelvin - 13.3270 + 0.045199 * kelvin - 3.4846e-5 * kelvin * kelvin;

        assertThat(PhBuffer.PHTHALATE.at(Temperature.ofCelsius(celsius))).isCloseTo(published, within(0.007));
    }

    /** Hamer, Pinching and Acree 1946, J. Res. NBS 36, 47, abstract (read): 4.005 at 25 °C. */
    @Test
    void agreesWithTheFirstValueOfPhthalate() {
        assertThat(PhBuffer.PHTHALATE.at(Temperature.ofCelsius(25))).isEqualTo(4.005);
    }

    /** Staples and Bates 1969, J. Res. NBS 73A, 37, abstract (read): carbonate 10.012 and borax 9.180 at 25 °C. */
    @Test
    void agreesWithTheNewStandardsAt25() {
        assertThat(PhBuffer.CARBONATE.at(Temperature.ofCelsius(25))).isEqualTo(10.012);
        assertThat(PhBuffer.BORAX.at(Temperature.ofCelsius(25))).isEqualTo(9.180);
    }

    /** The two-decimal tables in the manual of a maker of meters (read): 7.00 and 10.01 as sold, 6.86 and 9.18. */
    @ParameterizedTest
    @CsvSource({
        "PHOSPHATE_SEVEN, 0, 7.12",
        "PHOSPHATE_SEVEN, 10, 7.06",
        "PHOSPHATE_SEVEN, 15, 7.04",
        "PHOSPHATE_SEVEN, 20, 7.02",
        "PHOSPHATE_SEVEN, 30, 6.99",
        "CARBONATE, 0, 10.32",
        "CARBONATE, 10, 10.18",
        "CARBONATE, 20, 10.06",
        "CARBONATE, 30, 9.97",
        "PHOSPHATE, 0, 6.98",
        "PHOSPHATE, 5, 6.95",
        "PHOSPHATE, 10, 6.92",
        "BORAX, 0, 9.46",
        "BORAX, 5, 9.40",
        "BORAX, 10, 9.33"
    })
    void agreesWithTheTablesOfAMeter(PhBuffer buffer, double celsius, double printed) {
        assertThat(buffer.at(Temperature.ofCelsius(celsius))).isCloseTo(printed, within(0.0055));
    }

    @ParameterizedTest
    @EnumSource
    void refusesABufferBeyondItsTable(PhBuffer buffer) {
        assertThatExceptionOfType(OutOfRangeException.class).isThrownBy(() -> buffer.at(Temperature.ofCelsius(50.1)));
        assertThatExceptionOfType(OutOfRangeException.class).isThrownBy(() -> buffer.at(Temperature.ofCelsius(-0.1)));
    }

    @Test
    void findsAPerfectElectrodePerfect() {
        Temperature warm = Temperature.ofCelsius(25);
        PhElectrode perfect = PhElectrode.through(
                new PhElectrode.InBuffer(6.865, 0.135 * 59.1597, warm),
                new PhElectrode.InBuffer(4.005, 2.995 * 59.1597, warm));

        assertThat(perfect.slope()).isCloseTo(1, within(1e-5));
        assertThat(perfect.offsetMillivolts()).isCloseTo(0, within(1e-3));
        assertThat(perfect.isUsable()).isTrue();
    }

    /** -172.0 mV at pH 10.012 and -4.0 at 7.000, 25 °C: 168.0 mV over 3.012 is 55.777 mV, 94.28 % of 59.160. */
    @Test
    void findsSlopeAndOffsetByHand() {
        Temperature warm = Temperature.ofCelsius(25);
        PhElectrode worn = PhElectrode.through(
                new PhElectrode.InBuffer(7.000, -4.0, warm), new PhElectrode.InBuffer(10.012, -172.0, warm));

        assertThat(100 * worn.slope()).isCloseTo(94.28, within(0.01));
        assertThat(worn.offsetMillivolts()).isCloseTo(-4.0, within(1e-9));
        assertThat(worn.isUsable()).isTrue();
    }

    /** 140 mV over 3.012 is 46.481 mV, 78.57 % of 59.160. */
    @Test
    void findsAWornElectrodeUnusable() {
        Temperature warm = Temperature.ofCelsius(25);
        PhElectrode worn = PhElectrode.through(
                new PhElectrode.InBuffer(7.000, -4.0, warm), new PhElectrode.InBuffer(10.012, -144.0, warm));

        assertThat(100 * worn.slope()).isCloseTo(78.57, within(0.01));
        assertThat(worn.isUsable()).isFalse();
    }

    /** A perfect electrode in a cold and a warm buffer: each counts at its own temperature. */
    @Test
    void allowsForBuffersOfTwoTemperatures() {
        Temperature cold = Temperature.ofCelsius(10);
        Temperature warm = Temperature.ofCelsius(30);
        PhElectrode perfect = PhElectrode.through(
                new PhElectrode.InBuffer(4, 3 * PhElectrode.nernstMillivolts(cold), cold),
                new PhElectrode.InBuffer(9, -2 * PhElectrode.nernstMillivolts(warm), warm));

        assertThat(perfect.slope()).isCloseTo(1, within(1e-12));
        assertThat(perfect.offsetMillivolts()).isCloseTo(0, within(1e-9));
    }

    @Test
    void refusesBuffersThatAreAlike() {
        Temperature warm = Temperature.ofCelsius(25);
        assertThatExceptionOfType(OutOfRangeException.class)
                .isThrownBy(() -> PhElectrode.through(
                        new PhElectrode.InBuffer(7.000, -4.0, warm), new PhElectrode.InBuffer(6.865, 2.0, warm)));
    }
}
