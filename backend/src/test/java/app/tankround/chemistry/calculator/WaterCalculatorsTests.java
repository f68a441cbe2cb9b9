package app.tankround.chemistry.calculator;

import static app.tankround.chemistry.calculator.Calculated.by;
import static app.tankround.chemistry.calculator.Calculated.error;
import static app.tankround.chemistry.calculator.Calculated.number;
import static app.tankround.chemistry.calculator.Calculated.refusal;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

/** Ammonia, gases, conversions and doses as calculators: what they answer, refuse and warn of. */
class WaterCalculatorsTests {

    /** Emerson table cell of Fundamentals of Aquatic Veterinary Medicine, 1.4: pH 8.2, 26 °C 0.0880. */
    @Test
    void ammoniaTellsTheShareAndTheToxicForm() {
        Map<String, Object> fresh = Map.of("ph", 8.2, "temperature_c", 26, "salinity", 0, "total_ammonia_mg_l_n", 1);
        Calculation calculation = by("ammonia-unionised", fresh);

        assertThat(number("ammonia-unionised", "unionised_fraction", fresh)).isCloseTo(0.0880, within(0.00006));
        assertThat(number("ammonia-unionised", "unionised_ammonia_mg_l_nh3", fresh))
                .isCloseTo(0.0880 * 1.2159, within(0.0001));
        assertThat(calculation.results()).containsEntry("caution", "AMMONIA_HARMFUL");
        assertThat(calculation.working()).anyMatch(line -> line.startsWith("caution: harm to fish"));
    }

    /** Expressed three ways it is the same water: N, NH3 and NH4 weigh 14.007, 17.031 and 18.039 g/mol. */
    @ParameterizedTest
    @CsvSource({"total_ammonia_mg_l_n, 0.14007", "total_ammonia_mg_l_nh3, 0.17031", "total_ammonia_mg_l_nh4, 0.18039"})
    void ammoniaTakesTheTotalAsAnyKitReportsIt(String input, double total) {
        assertThat(number(
                        "ammonia-unionised",
                        "unionised_ammonia_mg_l_n",
                        Map.of("ph", 8.0, "temperature_c", 20, "salinity", 0, input, total)))
                .isCloseTo(0.0381 * 0.14007, within(0.00001));
    }

    @ParameterizedTest
    @CsvSource({"clegg-whitfield, NBS", "clegg-whitfield, total", "bell, free", "emerson, total", "blend, free"})
    void ammoniaRefusesAModelWithAnotherPhScale(String model, String scale) {
        CalculationRefused refused = refusal(
                "ammonia-unionised",
                Map.of("ph", 8, "temperature_c", 25, "salinity", 34, "model", model, "ph_scale", scale));

        assertThat(refused.code()).isEqualTo("PH_SCALE_MISMATCH");
        assertThat(refused.range().input()).isEqualTo("ph_scale");
        assertThat(refused.range().unit()).contains(model.equals("clegg-whitfield") ? "free" : "NBS");
    }

    @Test
    void ammoniaTakesCleggAndWhitfieldOnTheFreeScale() {
        assertThat(number(
                        "ammonia-unionised",
                        "unionised_fraction",
                        Map.of(
                                "ph",
                                8.2,
                                "temperature_c",
                                25,
                                "salinity",
                                34,
                                "model",
                                "clegg-whitfield",
                                "ph_scale",
                                "free")))
                .isCloseTo(0.0684, within(0.00005));
    }

    @Test
    void ammoniaRefusesAFreshWaterModelInTheSea() {
        CalculationRefused refused =
                refusal("ammonia-unionised", Map.of("ph", 8, "temperature_c", 25, "salinity", 34, "model", "emerson"));

        assertThat(refused.code()).isEqualTo("MODEL_NOT_FOR_SALINITY");
        assertThat(refused.range()).isEqualTo(new CalculationRefused.Range("salinity", 0, 1, "1", ""));
        assertThat(refusal("ammonia-unionised", Map.of("ph", 8, "temperature_c", 35.1, "salinity", 34))
                        .range())
                .isEqualTo(new CalculationRefused.Range("temperature_c", 0, 35, "°C", "Emerson, Bell"));
    }

    @Test
    void ammoniaTakesOneTotalOnly() {
        assertThat(error(
                                "ammonia-unionised",
                                Map.of(
                                        "ph",
                                        8,
                                        "temperature_c",
                                        25,
                                        "salinity",
                                        0,
                                        "total_ammonia_mg_l_n",
                                        1,
                                        "total_ammonia_mg_l_nh4",
                                        1))
                        .code())
                .isEqualTo(InputErrors.Code.NOT_TOGETHER);
    }

    /** EN 25814, S = 0, 101.325 kPa: 8.26 mg/L at 25 °C; GSW for S = 35: 6.771. */
    @Test
    void oxygenTellsThePercentOfSaturation() {
        Map<String, Object> given = Map.of("temperature_c", 25, "salinity", 0, "oxygen_mg_l", 4.13);

        assertThat(number("oxygen-saturation", "saturation_mg_l", given)).isCloseTo(8.26, within(0.005));
        assertThat(number("oxygen-saturation", "saturation_percent", given)).isCloseTo(50, within(0.05));
        assertThat(number("oxygen-saturation", "garcia_gordon_mg_l", Map.of("temperature_c", 25, "salinity", 35)))
                .isCloseTo(6.771, within(0.001));
        assertThat(refusal("oxygen-saturation", Map.of("temperature_c", 25, "salinity", 41))
                        .range())
                .isEqualTo(new CalculationRefused.Range("salinity", 0, 40, "1", "Benson and Krause 1984"));
        assertThat(refusal("oxygen-saturation", Map.of("temperature_c", 25, "salinity", 0, "pressure_kpa", 1013))
                        .range()
                        .input())
                .isEqualTo("pressure_kpa");
    }

    /** Skougstad et al. 1979: pH 7 and 100 mg/L HCO3 give 16.0 mg/L. Tucker 1984: 50 mg/L CaCO3 at 25 °C 9.85. */
    @Test
    void carbonDioxideByTemperatureWhereItIsGiven() {
        assertThat(number("free-co2", "carbon_dioxide_mg_l", Map.of("ph", 7, "bicarbonate_mg_l", 100)))
                .isCloseTo(16.0, within(1e-9));
        assertThat(number(
                        "free-co2",
                        "carbon_dioxide_mg_l",
                        Map.of("ph", 7, "alkalinity_mg_l_caco3", 50, "temperature_c", 25)))
                .isCloseTo(9.85, within(0.005));
        assertThat(by("free-co2", Map.of("ph", 7, "alkalinity_dkh", 4)).working())
                .anyMatch(line -> line.contains("phosphate, humic acids and borate"));
    }

    @Test
    void carbonDioxideIsForFreshWater() {
        CalculationRefused refused = refusal("free-co2", Map.of("ph", 8, "alkalinity_dkh", 7, "salinity", 35));

        assertThat(refused.code()).isEqualTo("NOT_FRESH_WATER");
        assertThat(refused.range()).isEqualTo(new CalculationRefused.Range("salinity", 0, 0.5, "1", ""));
        assertThat(refusal("free-co2", Map.of("ph", 8.4, "alkalinity_dkh", 7))
                        .range()
                        .high())
                .isEqualTo(8.3);
        assertThat(error("free-co2", Map.of("ph", 7)))
                .satisfies(missing -> assertThat(missing.code()).isEqualTo(InputErrors.Code.MISSING))
                .satisfies(missing -> assertThat(missing.message()).contains("bicarbonate_mg_l"));
    }

    /** reference.md section 13. */
    @Test
    void convertsHardnessAndAlkalinityEachWay() {
        assertThat(number("convert-hardness", "hardness_mg_l_caco3", Map.of("hardness_dgh", 1)))
                .isCloseTo(17.848, within(0.001));
        assertThat(number("convert-alkalinity", "alkalinity_dkh", Map.of("alkalinity_meq_l", 1)))
                .isCloseTo(2.8039, within(0.0001));
        assertThat(number("convert-alkalinity", "calcium_taken_mg_l", Map.of("alkalinity_dkh", 1)))
                .isCloseTo(7.147, within(0.001));
        assertThat(number("convert-hardness", "hardness_dgh", Map.of("calcium_mg_l", 7.147, "magnesium_mg_l", 4.334)))
                .isCloseTo(2, within(0.001));
        assertThat(error("convert-hardness", Map.of("magnesium_mg_l", 4)).input())
                .isEqualTo("calcium_mg_l");
        for (String calculator : List.of("convert-hardness", "convert-alkalinity")) {
            for (Output output : Calculators.named(calculator).orElseThrow().outputs()) {
                boolean isInput = Calculators.named(calculator)
                        .orElseThrow()
                        .input(output.name())
                        .isPresent();
                if (isInput) {
                    assertThat(number(calculator, output.name(), Map.of(output.name(), 3.25)))
                            .as(output.name())
                            .isCloseTo(3.25, within(1e-12));
                }
            }
        }
    }

    /** reference.md section 11: N to NO3 4.427, P to PO4 3.066. */
    @Test
    void convertsNutrientsBothWays() {
        assertThat(number("convert-nutrients", "whole_mg_l", Map.of("nutrient", "nitrate", "element_mg_l", 10)))
                .isCloseTo(44.27, within(0.01));
        assertThat(number("convert-nutrients", "element_mg_l", Map.of("nutrient", "phosphate", "whole_mg_l", 0.3066)))
                .isCloseTo(0.1, within(0.0001));
        assertThat(error("convert-nutrients", Map.of("nutrient", "phosphate", "whole_mg_l", 1, "element_mg_l", 1))
                        .code())
                .isEqualTo(InputErrors.Code.NOT_TOGETHER);
    }

    /** reference.md section 11, computed from Millero et al. 2008: Ca 421.7, Mg 1313.7, K 408.4 mg/L, 2.36 meq/L, 6.61. */
    @Test
    void knowsTheSeawaterThatTargetsAreMeasuredBy() {
        Map<String, Object> sea = Map.of("salinity", 35);

        assertThat(number("reference-seawater", "calcium_mg_l", sea)).isCloseTo(421.7, within(0.1));
        assertThat(number("reference-seawater", "magnesium_mg_l", sea)).isCloseTo(1313.7, within(0.1));
        assertThat(number("reference-seawater", "potassium_mg_l", sea)).isCloseTo(408.4, within(0.1));
        assertThat(number("reference-seawater", "alkalinity_meq_l", sea)).isCloseTo(2.36, within(0.005));
        assertThat(number("reference-seawater", "alkalinity_dkh", sea)).isCloseTo(6.61, within(0.005));
    }

    /** reference.md section 11, for each 100 L, worked out with periodictable 1.6.0. */
    @ParameterizedTest
    @CsvSource({
        "sodium-bicarbonate, alkalinity_dkh, 7, 8, 2.996",
        "sodium-carbonate, alkalinity_dkh, 7, 8, 1.890",
        "calcium-chloride-dihydrate, calcium_mg_l, 400, 410, 3.668",
        "calcium-chloride-anhydrous, calcium_mg_l, 400, 410, 2.769",
        "magnesium-chloride-hexahydrate, magnesium_mg_l, 1270, 1280, 8.365",
        "magnesium-sulfate-heptahydrate, magnesium_mg_l, 1270, 1280, 10.141"
    })
    void dosesByTheNetVolume(String salt, String quantity, double now, double target, double grams) {
        Map<String, Object> given =
                Map.of("salt", salt, "volume_l", 100, quantity, now, "target_" + quantity, target, "purity", 0.8);

        assertThat(number("supplement-dose", "mass_g", given)).isCloseTo(grams / 0.8, within(0.01));
        assertThat(by("supplement-dose", given).results().get("caution"))
                .isEqualTo(salt.equals("calcium-chloride-anhydrous") ? "HEATS_WHEN_DISSOLVED" : null);
    }

    @Test
    void dosesUpwardsOnlyAndOnlyWhatTheSaltRaises() {
        CalculationRefused downwards = refusal(
                "supplement-dose",
                Map.of("salt", "sodium-carbonate", "volume_l", 100, "alkalinity_dkh", 9, "target_alkalinity_dkh", 8));

        assertThat(downwards.code()).isEqualTo("OUT_OF_RANGE");
        assertThat(downwards.range().input()).isEqualTo("target_alkalinity_dkh");
        assertThat(downwards.range().low()).isEqualTo(9);
        assertThat(error("supplement-dose", Map.of("salt", "sodium-carbonate", "volume_l", 100, "alkalinity_dkh", 9)))
                .satisfies(missing -> assertThat(missing.input()).isEqualTo("target_alkalinity_dkh"))
                .satisfies(missing -> assertThat(missing.code()).isEqualTo(InputErrors.Code.MISSING));
        assertThat(error(
                                "supplement-dose",
                                Map.of(
                                        "salt",
                                        "sodium-carbonate",
                                        "volume_l",
                                        100,
                                        "alkalinity_dkh",
                                        7,
                                        "target_alkalinity_dkh",
                                        8,
                                        "calcium_mg_l",
                                        400))
                        .message())
                .isEqualTo("is not raised by sodium-carbonate");
    }

    /** reference.md section 12: one litre into 100 L brings 1.17 dKH and 8.4 mg/L of calcium. */
    @Test
    void limewaterEndsWhereEvaporationDoes() {
        Calculation calculation = by(
                "limewater",
                Map.of("volume_l", 100, "evaporation_l_day", 1, "alkalinity_use_dkh_day", 1.5, "temperature_c", 25));

        assertThat(number(calculation, "alkalinity_rise_dkh_day")).isCloseTo(1.17, within(0.005));
        assertThat(number(calculation, "calcium_rise_mg_l_day")).isCloseTo(8.4, within(0.05));
        assertThat(calculation.results()).containsEntry("covers_use", false).containsEntry("caution", "CAUSTIC");
        assertThat(number(calculation, "needed_l_day")).isCloseTo(1.28, within(0.01));
        assertThat(calculation.working()).anyMatch(line -> line.contains("gloves and goggles"));
        assertThat(number("limewater", "saturated_g_l", Map.of())).isCloseTo(1.55, within(1e-9));
    }

    /** Shah 2014: 28 °C over 28 °C at half humidity 0.1360 kg/(m2 h). EVAP-S: 4 of 200 kg leave S 35 at 35.7143. */
    @Test
    void evaporationPrefersWhatWasMeasured() {
        Map<String, Object> still =
                Map.of("water_temperature_c", 28, "air_temperature_c", 28, "relative_humidity", 0.5);
        assertThat(number("evaporation", "rate_kg_m2_h", still)).isCloseTo(0.1360, within(0.0005));
        assertThat(by("evaporation", still).results()).containsEntry("basis", "FIRST_ESTIMATE");

        Map<String, Object> measured = new HashMap<>(still);
        measured.put("measured_top_up_l_day", 4 / 0.9982);
        measured.put("volume_l", 200 / 1.02239);
        measured.put("salinity", 35);
        Calculation calculation = by("evaporation", measured);

        assertThat(calculation.results()).containsEntry("basis", "MEASURED");
        assertThat(number(calculation, "salinity_after_a_day")).isCloseTo(35.7143, within(0.0005));
        assertThat(refusal(
                                "evaporation",
                                Map.of("water_temperature_c", 15, "air_temperature_c", 30, "relative_humidity", 0.9))
                        .range())
                .isEqualTo(new CalculationRefused.Range("vapour_pressure_difference", 210, 80_156, "Pa", ""));
    }

    @Test
    void weighsSalts() {
        assertThat(number("molar-mass", "molar_mass_g_mol", Map.of("salt", "calcium-chloride-dihydrate")))
                .isCloseTo(147.015, within(0.01));
    }

    static List<Calculator> ofThisGroup() {
        return Stream.of(WaterCalculators.all(), DosingCalculators.all(), PlantCalculators.all())
                .flatMap(List::stream)
                .toList();
    }

    /** Numbers over the whole declared ranges, ends included: an answer or a refusal, never a slip. */
    @ParameterizedTest
    @MethodSource("ofThisGroup")
    void answersOrRefusesWhateverItIsGiven(Calculator calculator) {
        Random random = new Random(calculator.name().length());
        int answered = 0;
        for (int i = 0; i < 3000; i++) {
            try {
                Calculation calculation = calculator.calculate(anything(calculator, random));
                assertThat(calculation.results()).isNotEmpty();
                assertThat(calculation.units())
                        .containsOnlyKeys(calculation.results().keySet());
                assertThat(calculation.working())
                        .isNotEmpty()
                        .doesNotContain("NaN")
                        .doesNotContain("Infinity");
                answered++;
            } catch (CalculationRefused refused) {
                assertThat(refused.code()).matches("[A-Z0-9_]+").isNotEqualTo("NOT_FINITE");
                assertThat(refused.range().low())
                        .isLessThanOrEqualTo(refused.range().high());
            } catch (InputErrors errors) {
                assertThat(errors.errors()).isNotEmpty();
            }
        }
        assertThat(answered).isPositive();
    }

    private static Map<String, Object> anything(Calculator calculator, Random random) {
        Map<String, Object> given = new HashMap<>();
        int length = 1 + random.nextInt(3);
        for (Input input : calculator.inputs()) {
            if (input.required() || random.nextInt(4) == 0) {
                given.put(input.name(), anything(input, random, length));
            }
        }
        return given;
    }

    private static Object anything(Input input, Random random, int length) {
        return switch (input.kind()) {
            case CHOICE -> input.choices().get(random.nextInt(input.choices().size()));
            case SERIES ->
                random.doubles(length)
                        .map(share -> between(input, share))
                        .boxed()
                        .toList();
            case NUMBER ->
                between(
                        input,
                        switch (random.nextInt(10)) {
                            case 0 -> 0;
                            case 1 -> 1;
                            default -> Math.pow(random.nextDouble(), 3);
                        });
        };
    }

    private static double between(Input input, double share) {
        return input.low() + share * (input.high() - input.low());
    }
}
