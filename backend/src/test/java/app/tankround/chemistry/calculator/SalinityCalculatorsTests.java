package app.tankround.chemistry.calculator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import app.tankround.chemistry.RefractiveIndex;
import app.tankround.chemistry.SodiumChlorideScale;
import app.tankround.units.Salinity;
import app.tankround.units.Temperature;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What seawater shows on instruments, asked by name. Numbers are rows of the reference tables, or their source is named. */
class SalinityCalculatorsTests {

    private static final double SIXTY_FAHRENHEIT = 28 / 1.8;

    private final Bench salinity = new Bench("salinity-from-conductivity");
    private final Bench conductivity = new Bench("conductivity-from-salinity");
    private final Bench gravity = new Bench("specific-gravity");
    private final Bench salinityOfGravity = new Bench("salinity-from-specific-gravity");
    private final Bench hydrometer = new Bench("hydrometer-correction");
    private final Bench index = new Bench("refractive-index");
    private final Bench brine = new Bench("refractometer-nacl-scale");
    private final Bench correction = new Bench("two-point-correction");

    /** COND53, COND-BRACK and GSW-SP0 of the reference table; 1 mS/cm by gsw_SP_from_C of GSW-C 3.06.16. */
    @ParameterizedTest
    @CsvSource({
        "53, 25, 34.9473, 0.0005, false",
        "10, 25, 5.6266, 0.0005, false",
        "55.19754712635529, 27.962, 34.306287393, 1e-7, false",
        "1, 25, 0.49245077105363216, 1e-9, true"
    })
    void findsSalinityOfAConductivity(double measured, double celsius, double s, double tolerance, boolean below) {
        Calculation answer = salinity.calculate("conductivity_ms_cm", measured, "temperature_c", celsius);

        assertThat((Double) answer.results().get("salinity")).isCloseTo(s, within(tolerance));
        assertThat(answer.results()).containsEntry("below_2", below);
        assertThat(answer.working().getLast()).contains(below ? "extension below 2" : "S(Rt, t68) = ");
    }

    /** UNESCO 44, page 14: R(35, 20 °C) = 1.116493, on IPTS-68. */
    /** S 35 is 1.0266 at 20/20: EOS-80 gives 1024.76 kg/m3 at 20 °C over 998.20 of pure water. */
    @Test
    void asksASalinityBackThatWasGivenForAGravity() {
        CalculationRefused refused =
                salinityOfGravity.refusal("specific_gravity", 35, "temperature_c", 20, "reference_temperature_c", 20);

        assertThat(refused.code()).isEqualTo("LOOKS_LIKE_SALINITY");
        assertThat(refused.range().input()).isEqualTo("specific_gravity");
        assertThat(refused.likely().orElseThrow()).isCloseTo(1.0266, within(0.00005));
    }

    @Test
    void findsConductivityOfASalinity() {
        Object[] given = {"salinity", 35, "temperature_c", 20, "temperature_scale", "IPTS-68"};

        assertThat(conductivity.number("conductivity_ratio", given)).isCloseTo(1.116493, within(0.000002));
        assertThat(conductivity.number("conductivity_ms_cm", "salinity", 35, "temperature_c", 15))
                .isCloseTo(42.9175, within(0.0005));
    }

    @Test
    void refusesConductivityWhereThePracticalScaleEnds() {
        assertThat(conductivity.refusal("salinity", 42.01, "temperature_c", 25).range())
                .isEqualTo(new CalculationRefused.Range("salinity", 0, 42, "1", "PSS-78"));
        assertThat(salinity.refusal("conductivity_ms_cm", 50, "temperature_c", 35.1)
                        .range())
                .isEqualTo(new CalculationRefused.Range("temperature_c", -2, 35, "°C", "PSS-78"));
        double highest = conductivity.number("conductivity_ms_cm", "salinity", 42, "temperature_c", 25);
        CalculationRefused beyond = salinity.refusal("conductivity_ms_cm", highest + 0.001, "temperature_c", 25);
        assertThat(beyond.code()).isEqualTo("OUT_OF_RANGE");
        assertThat(beyond.range())
                .isEqualTo(new CalculationRefused.Range("conductivity_ms_cm", 0, highest, "mS/cm", "PSS-78"));
        assertThat(salinity.number("salinity", "conductivity_ms_cm", highest, "temperature_c", 25))
                .isCloseTo(42, within(1e-9));
    }

    /** Rows SG-35 of the reference table. */
    @ParameterizedTest
    @CsvSource({"20, 20, 1.02660, 20/20", "25, 25, 1.02637, 25/25", "25, 4, 1.02337, 25/4"})
    void findsGravityForAnyPairOfTemperatures(double sample, double water, double expected, String scale) {
        Calculation answer =
                gravity.calculate("salinity", 35, "temperature_c", sample, "reference_temperature_c", water);

        assertThat((Double) answer.results().get("specific_gravity")).isCloseTo(expected, within(0.00003));
        assertThat(answer.results()).containsEntry("scale", scale).containsEntry("extrapolated", false);
    }

    @Test
    void invertsGravityForAnyPairOfTemperatures() {
        Random random = new Random(5);
        for (int i = 0; i < 300; i++) {
            double s = 50 * random.nextDouble();
            Object sample = 40 * random.nextDouble();
            Object water = 40 * random.nextDouble();
            double there = gravity.number(
                    "specific_gravity", "salinity", s, "temperature_c", sample, "reference_temperature_c", water);
            Calculation back = salinityOfGravity.calculate(
                    "specific_gravity", there, "temperature_c", sample, "reference_temperature_c", water);

            assertThat((Double) back.results().get("salinity")).isCloseTo(s, within(1e-9));
            assertThat(back.results()).containsEntry("extrapolated", s > 42);
        }
    }

    @Test
    void refusesAGravityThatNoSalinityHas() {
        Object[] salinityForGravity = {
            "specific_gravity", 1.05, "temperature_c", 20, "reference_temperature_c", 20,
        };
        CalculationRefused refused = salinityOfGravity.refusal(salinityForGravity);

        assertThat(refused.code()).isEqualTo("OUT_OF_RANGE");
        assertThat(refused.range().input()).isEqualTo("specific_gravity");
        assertThat(refused.range().low()).isEqualTo(1);
        assertThat(refused.range().high()).isBetween(1.0380, 1.0385);
        assertThat(refused.range().from()).startsWith("EOS-80");
        gravity.notTaken("reference_temperature_c", InputErrors.Code.MISSING, "salinity", 35, "temperature_c", 20);
    }

    /** Rows HYDS-1.024-60F/60F-25, HYDS-1.023-15/4-22 and HYD-15/4-1.0230-22 of the reference table. */
    @Test
    void readsAHydrometerAwayFromItsTemperature() {
        assertThat(hydrometer.number(
                        "salinity",
                        "specific_gravity",
                        1.024,
                        "temperature_c",
                        25,
                        "reference_temperature_c",
                        SIXTY_FAHRENHEIT))
                .isCloseTo(34.22, within(0.05));
        Object[] fifteenOverFour = {
            "specific_gravity",
            1.023,
            "temperature_c",
            22,
            "reference_temperature_c",
            15,
            "water_reference_temperature_c",
            4
        };
        assertThat(hydrometer.number("salinity", fifteenOverFour)).isCloseTo(33.13, within(0.05));
        assertThat(hydrometer.number("density_at_reference_kg_m3", fifteenOverFour))
                .isCloseTo(1024.6, within(0.1));
        assertThat(hydrometer.calculate(fifteenOverFour).results()).containsEntry("scale", "15/4");
    }

    /** At its own temperature a hydrometer needs no correction, and no glass expands. */
    @Test
    void leavesAHydrometerAloneAtItsOwnTemperature() {
        Object[] given = {"specific_gravity", 1.0266, "temperature_c", 20, "reference_temperature_c", 20};

        assertThat(hydrometer.number("specific_gravity", given)).isCloseTo(1.0266, within(1e-12));
        assertThat(hydrometer.number("salinity", given))
                .isCloseTo(salinityOfGravity.number("salinity", given), within(1e-9));
        assertThat(hydrometer
                        .refusal("specific_gravity", 0.99, "temperature_c", 25, "reference_temperature_c", 25)
                        .range()
                        .input())
                .isEqualTo("specific_gravity");
    }

    /** Rows QF-35-20 and MS-35-20 of the reference table; they differ by 0.3 nm of wavelength, far below their tolerance. */
    @Test
    void findsTheRefractiveIndexByBothModels() {
        Object[] quanFry = {"salinity", 35, "temperature_c", 20};
        Object[] millardSeaver = {"salinity", 35, "temperature_c", 20, "model", "millard-seaver"};

        assertThat(index.number("refractive_index", quanFry)).isCloseTo(1.339406, within(0.000005));
        assertThat(index.number("refractive_index_other_model", quanFry)).isCloseTo(1.339386, within(0.000005));
        assertThat(index.number("refractive_index", millardSeaver)).isCloseTo(1.339386, within(0.000005));
        assertThat(index.calculate("salinity", 40, "temperature_c", 20, "model", "millard-seaver")
                        .results())
                .doesNotContainKey("refractive_index_other_model");
    }

    @Test
    void namesTheModelThatARefractiveIndexStopsAt() {
        assertThat(index.refusal("salinity", 36, "temperature_c", 20).range())
                .isEqualTo(new CalculationRefused.Range("salinity", 0, 35, "1", "Quan and Fry 1995"));
        assertThat(index.refusal("salinity", 35, "temperature_c", 20, "model", "millard-seaver", "wavelength_nm", 450)
                        .range())
                .isEqualTo(new CalculationRefused.Range("wavelength_nm", 500, 700, "nm", "Millard and Seaver 1990"));
        assertThat(index.refusal("salinity", 35, "temperature_c", 31).range().high())
                .isEqualTo(30);
    }

    /** Rows BRINE-35 and BRINE-INV of the reference table. */
    @Test
    void readsABrineScaleInSeawaterBothWays() {
        assertThat(brine.number("reading_g_kg", "salinity", 35)).isCloseTo(36.5, within(0.5));
        assertThat(brine.number("salinity", "reading_g_kg", 35)).isCloseTo(33.5, within(0.5));
        assertThat(brine.number("reading_g_kg", "salinity", 0)).isZero();
        for (double s = 0; s <= 50; s += 2.5) {
            double reading = brine.number("reading_g_kg", "salinity", s);
            assertThat(brine.number("salinity", "reading_g_kg", reading)).isCloseTo(s, within(1e-9));
        }
        // reference.md 6: the gravity column of such a scale reads about 1.0261 where seawater is 1.0266
        assertThat(brine.number("specific_gravity_column", "salinity", 35)).isCloseTo(1.0261, within(0.0002));
        assertThat(brine.number("specific_gravity", "salinity", 35)).isCloseTo(1.0266, within(0.00003));
    }

    /** Quan and Fry end at 35; Millard and Seaver, published to 43, are no farther away beyond than 0.15 of salinity. */
    @Test
    void carriesTheBrineScaleOnWhereAnotherModelStillHolds() {
        Temperature twenty = new Temperature(20);
        for (double s = 35; s <= 43; s += 0.5) {
            double carriedOn = SodiumChlorideScale.brineIndex(SodiumChlorideScale.readingIn(new Salinity(s)) / 10)
                    - SodiumChlorideScale.brineIndex(0);
            double other = RefractiveIndex.millardSeaver(new Salinity(s), twenty, 589.3)
                    - RefractiveIndex.millardSeaver(new Salinity(0), twenty, 589.3);
            assertThat(carriedOn).isCloseTo(other, within(0.15 * 1.83e-4));
        }
    }

    @Test
    void asksForExactlyOneSideOfABrineScale() {
        brine.notTaken("reading_g_kg", InputErrors.Code.MISSING);
        brine.notTaken("salinity", InputErrors.Code.NOT_TOGETHER, "reading_g_kg", 35, "salinity", 35);
    }

    /** Row CAL-2PT of the reference table: 0.5 in RO/DI, 36.5 in a 35 standard, sample 34.0. */
    @Test
    void correctsByTwoStandardsOrByGainAndOffset() {
        Object[] points = {"reading", 34, "low_reading", 0.5, "high_reading", 36.5};
        double gain = correction.number("gain", points);
        double offset = correction.number("offset", points);

        assertThat(correction.number("corrected", points)).isCloseTo(32.5694, within(1e-4));
        assertThat(gain).isCloseTo(35.0 / 36, within(1e-12));
        assertThat(correction.number("corrected", "reading", 34, "gain", gain, "offset", offset))
                .isCloseTo(32.5694, within(1e-4));
        assertThat(correction.calculate(points).results()).containsEntry("between_standards", true);
        assertThat(correction
                        .calculate("reading", 40, "low_reading", 0.5, "high_reading", 36.5)
                        .results())
                .containsEntry("between_standards", false);
        // standards of 30 and 40 instead of RO/DI and 35: worked by hand, 35 = 30 + 10 x (34 - 29)/(39 - 29)
        assertThat(correction.number(
                        "corrected",
                        "reading",
                        34,
                        "low_standard",
                        30,
                        "low_reading",
                        29,
                        "high_standard",
                        40,
                        "high_reading",
                        39))
                .isCloseTo(35, within(1e-12));
    }

    @Test
    void refusesACorrectionByABotchedCheck() {
        CalculationRefused gain = correction.refusal("reading", 34, "low_reading", 0, "high_reading", 31);

        assertThat(gain.code()).isEqualTo("GAIN_IMPLAUSIBLE");
        assertThat(gain.range()).isEqualTo(new CalculationRefused.Range("gain", 0.9, 1.1, "1", ""));
        assertThat(correction.refusal("reading", 34, "gain", 1.11).code()).isEqualTo("GAIN_IMPLAUSIBLE");
        assertThat(correction
                        .refusal("reading", 34, "low_standard", 35, "low_reading", 35, "high_reading", 36)
                        .code())
                .isEqualTo("NO_SPAN");
        assertThat(correction
                        .refusal("reading", 34, "low_reading", 36, "high_reading", 36)
                        .code())
                .isEqualTo("NO_SPAN");
        correction.notTaken("low_reading", InputErrors.Code.MISSING, "reading", 34, "high_reading", 36);
        correction.notTaken("high_reading", InputErrors.Code.MISSING, "reading", 34);
        correction.notTaken(
                "offset",
                InputErrors.Code.NOT_TOGETHER,
                "reading",
                34,
                "low_reading",
                0,
                "high_reading",
                36,
                "offset",
                1);
        correction.notTaken("low_reading", InputErrors.Code.NOT_TOGETHER, "reading", 34, "gain", 1, "low_reading", 0);
    }
}
