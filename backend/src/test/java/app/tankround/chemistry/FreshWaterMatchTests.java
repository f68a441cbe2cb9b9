package app.tankround.chemistry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import app.tankround.units.Hardness;
import app.tankround.units.MassConcentration;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.Temperature;
import app.tankround.units.Volume;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Hardness: 1 dGH is 7.147 mg/L of calcium or 4.334 mg/L of magnesium (10 mg/L CaO, CIAAW 2021 masses). Salts: 3.668 g of
 * CaCl2·2H2O raise 100 L by 10 mg/L of calcium, 10.141 g of MgSO4·7H2O by 10 mg/L of magnesium (stoichiometry, computed with
 * periodictable 1.6.0). Three parts of calcium to one of magnesium: common practice, no source. Half a degree a day:
 * fish-veterinary practice.
 */
class FreshWaterMatchTests {

    @Test
    void weighsTheSaltsForTenDegrees() {
        FreshWaterMatch.Salts salts =
                FreshWaterMatch.salts(Volume.ofLitres(100), Hardness.ofDgh(2), Hardness.ofDgh(12));
        assertThat(salts.calciumChloride().inGrams()).isCloseTo(0.75 * 71.47 / 10 * 3.668, within(0.03));
        assertThat(salts.magnesiumSulfate().inGrams()).isCloseTo(0.25 * 43.34 / 10 * 10.141, within(0.03));
        assertThat(salts.together().inGrams()).isCloseTo(19.66 + 10.99, within(0.05));
    }

    /** What a water analysis of the salted water would find; the share of metal in each salt by molar masses of CIAAW 2021. */
    @ParameterizedTest
    @CsvSource({"0, 8, 40", "3.5, 14, 250", "6, 6, 10"})
    void saltedWaterHasTheHardnessThatWasWanted(double from, double to, double litres) {
        FreshWaterMatch.Salts salts =
                FreshWaterMatch.salts(Volume.ofLitres(litres), Hardness.ofDgh(from), Hardness.ofDgh(to));
        double calcium = salts.calciumChloride().inGrams() * 1000 * 40.078 / 147.015 / litres;
        double magnesium = salts.magnesiumSulfate().inGrams() * 1000 * 24.305 / 246.475 / litres;
        double found = from
                + Hardness.ofCalciumAndMagnesium(new MassConcentration(calcium), new MassConcentration(magnesium))
                        .inDgh();
        assertThat(found).isCloseTo(to, within(1e-3));
    }

    /** 12 dGH for which 5 of 8 parts are tap water of 19.2: hardness is in what is dissolved, and adds up. */
    @Test
    void blendsTapWaterWithWaterWithoutHardness() {
        double share = FreshWaterMatch.tapShare(Hardness.ofDgh(19.2), Hardness.ofDgh(12));
        assertThat(share).isCloseTo(5.0 / 8, within(1e-12));
        assertThat(Dilution.afterChanges(0, 19.2, share, 1)).isCloseTo(12, within(1e-9));
        assertThatThrownBy(() -> FreshWaterMatch.tapShare(Hardness.ofDgh(8), Hardness.ofDgh(12)))
                .isInstanceOf(OutOfRangeException.class);
    }

    /** A fifth of the water 2.5 K colder takes half a degree; of a tenth it would be 5 K, which is too far at the inlet. */
    @ParameterizedTest
    @CsvSource({"25, 0.2, 22.5, 27.5", "25, 0.1, 21, 29", "26, 0.5, 25, 27", "24, 1, 23.5, 24.5"})
    void keepsTheTankWithinHalfADegree(double tank, double share, double low, double high) {
        FreshWaterMatch.Span span = FreshWaterMatch.warmth(Temperature.ofCelsius(tank), share);
        assertThat(span.low().celsius()).isCloseTo(low, within(1e-9));
        assertThat(span.high().celsius()).isCloseTo(high, within(1e-9));
        assertThat(Dilution.afterChanges(tank, span.low().celsius(), share, 1))
                .isGreaterThanOrEqualTo(tank - FreshWaterMatch.TANK_MAY_MOVE_K - 1e-9);
    }
}
