package app.tankround.chemistry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.within;

import app.tankround.chemistry.WeighedSolution.Solute;
import app.tankround.chemistry.WeighedSolution.Weighing;
import app.tankround.units.OutOfRangeException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Standards made up on a balance. */
class WeighedSolutionTests {

    /** CRC Handbook with Quan and Fry 1995: S 35 has the index of a brine of 3.64 to 3.65 % sodium chloride. */
    @ParameterizedTest
    @CsvSource({"36.4", "36.5"})
    void standsForSeawaterThatBendsLightAsTheBrineDoes(double grams) {
        WeighedSolution brine =
                WeighedSolution.of(Solute.SODIUM_CHLORIDE, new Weighing(grams, 0), 1, 0, new Weighing(1000 - grams, 0));

        assertThat(brine.gramsPerKilogram()).isCloseTo(grams, within(1e-9));
        assertThat(brine.salinity()).isCloseTo(35, within(0.1));
        // Half a gram in a kilogram is what the handbook's four decimals leave open: 2 * 0.5 / sqrt(3) * 35 / 36.45 =
        // 0.554.
        assertThat(brine.expandedUncertainty()).isCloseTo(0.554, within(0.01));
    }

    /** Rows MIX-S-100 and MIX-M-100 of the check values: 3.5986 kg of sea salt in 102.3341 kg are S 35. */
    @Test
    void isWorthWhatItsSaltMakesOfIt() {
        WeighedSolution sea =
                WeighedSolution.of(Solute.SEA_SALT, new Weighing(3598.6, 0), 1, 0, new Weighing(102_334.1 - 3598.6, 0));

        assertThat(sea.salinity()).isCloseTo(35, within(0.002));
        assertThat(sea.expandedUncertainty()).isZero();
    }

    /**
     * By hand, with equation 10 of JCGM 100:2008: 36 g (u 0.1) of 90 % (give or take 2) in 964 g (u 1). Solute 0.9 * 964 / 1e6
     * * 0.1 = 8.676e-5, water 0.0324 / 1000 = 3.24e-5, purity 0.036 * 0.02 / sqrt 3 = 4.157e-4; together 4.259e-4, twice
     * that 0.8518 g/kg, divided by 1.004715 0.8478.
     */
    @Test
    void combinesWhatIsKnownOfEachWeighing() {
        WeighedSolution sea =
                WeighedSolution.of(Solute.SEA_SALT, new Weighing(36, 0.1), 0.9, 0.02, new Weighing(964, 1));

        assertThat(sea.gramsPerKilogram()).isCloseTo(32.4, within(1e-9));
        assertThat(sea.salinity()).isCloseTo(32.248, within(0.001));
        assertThat(sea.expandedUncertainty()).isCloseTo(0.8478, within(0.0002));
    }

    @ParameterizedTest
    @CsvSource({"0.5, 999.5, 1, 0", "60, 940, 1, 0", "36, 964, 0.4, 0", "36, 964, 1.1, 0", "36, 964, 1, 0.3"})
    void refusesWhatMakesNoStandard(double grams, double water, double purity, double giveOrTake) {
        assertThatExceptionOfType(OutOfRangeException.class)
                .isThrownBy(() -> WeighedSolution.of(
                        Solute.SEA_SALT, new Weighing(grams, 0), purity, giveOrTake, new Weighing(water, 0)));
    }
}
