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
import org.junit.jupiter.api.Test;

/** Conductivity, reverse osmosis, waves and lifting as calculators: what they answer, refuse and warn of. */
class PlantCalculatorsTests {

    /** ISO 7888 factor 1.256 at 15 °C; a logger manual's linear form with 1.91 % gives 1107.5 for 896 µS/cm. */
    @Test
    void compensatesNaturalWaterOrByACoefficient() {
        Map<String, Object> natural = Map.of("conductivity_us_cm", 500, "temperature_c", 15);

        assertThat(number("conductivity-compensation", "conductivity_us_cm", natural))
                .isCloseTo(628, within(1e-9));
        assertThat(number("conductivity-compensation", "dissolved_solids_mg_l", natural))
                .isCloseTo(314, within(1e-9));
        assertThat(by("conductivity-compensation", natural).results())
                .containsEntry("tds_factor", 0.5)
                .doesNotContainKey("caution");
        assertThat(number(
                        "conductivity-compensation",
                        "conductivity_us_cm",
                        Map.of(
                                "conductivity_us_cm",
                                896,
                                "temperature_c",
                                15,
                                "method",
                                "linear",
                                "alpha_per_c",
                                0.0191)))
                .isCloseTo(1107.5, within(0.1));
        assertThat(number(
                        "conductivity-compensation",
                        "factor",
                        Map.of("conductivity_us_cm", 500, "temperature_c", 10, "reference_temperature_c", 20)))
                .isCloseTo(1.2796, within(0.0001));
        assertThat(by("conductivity-compensation", Map.of("conductivity_us_cm", 5, "temperature_c", 20))
                        .results())
                .containsEntry("caution", "OUTSIDE_NATURAL_WATER");
    }

    @Test
    void compensatesNeitherSeawaterNorBeyondTheTable() {
        CalculationRefused sea =
                refusal("conductivity-compensation", Map.of("conductivity_us_cm", 53_000, "temperature_c", 25));

        assertThat(sea.code()).isEqualTo("NOT_FRESH_WATER");
        assertThat(sea.range().input()).isEqualTo("conductivity_us_cm");
        assertThat(sea.range().high()).isBetween(3500.0, 4000.0);
        assertThat(refusal("conductivity-compensation", Map.of("conductivity_us_cm", 500, "temperature_c", 36))
                        .range())
                .isEqualTo(new CalculationRefused.Range("temperature_c", 0, 35.9, "°C", "ISO 7888"));
        assertThat(refusal(
                                "conductivity-compensation",
                                Map.of("conductivity_us_cm", 500, "temperature_c", 10, "reference_temperature_c", 22))
                        .code())
                .isEqualTo("NO_TABLE_FOR_REFERENCE");
    }

    /** Pratt et al. 2001: 1408.23 µS/cm; UNESCO 44 p. 6: 32.4356 g/kg, TEOS-10 library 42.9175 mS/cm at 15 °C. */
    @Test
    void knowsCalibrationStandards() {
        assertThat(number("conductivity-standard", "conductivity_us_cm", Map.of("solution", "0.01-mol-kg")))
                .isCloseTo(1408.23, within(0.005));
        Map<String, Object> sea = Map.of("solution", "salinity-35", "temperature_c", 15);
        assertThat(number("conductivity-standard", "conductivity_us_cm", sea)).isCloseTo(42_917.5, within(0.5));
        assertThat(number("conductivity-standard", "potassium_chloride_g_kg_solution", sea))
                .isEqualTo(32.4356);
        assertThat(refusal("conductivity-standard", Map.of("solution", "salinity-35"))
                        .range()
                        .from())
                .isEqualTo("PSS-78");
    }

    /** Worked examples read: recovery 40 %, rejection 97 %, 1266 gal/day at 15 °C of rated 1800. */
    @Test
    void judgesAnOsmosisUnit() {
        Calculation calculation = by(
                "ro-performance",
                Map.of(
                        "permeate_l_day",
                        1000,
                        "concentrate_l_day",
                        1500,
                        "feed_conductivity_us_cm",
                        700,
                        "permeate_conductivity_us_cm",
                        21,
                        "temperature_c",
                        15,
                        "rated_l_day",
                        1800));

        assertThat(number(calculation, "recovery")).isCloseTo(0.4, within(1e-12));
        assertThat(number(calculation, "rejection")).isCloseTo(0.97, within(1e-12));
        assertThat(number(calculation, "concentrate_factor_full_rejection")).isCloseTo(1.666667, within(1e-6));
        // 0.4 * 21 + 0.6 * concentrate = 700 (own arithmetic).
        assertThat(number(calculation, "concentrate_factor")).isCloseTo((700 - 0.4 * 21) / 0.6 / 700, within(1e-12));
        assertThat(number(calculation, "expected_permeate_l_day")).isCloseTo(1266, within(0.5));
        assertThat(number(calculation, "permeate_at_25_c_l_day")).isCloseTo(1422, within(0.6));
        assertThat(number(calculation, "flow_ratio")).isCloseTo(0.79, within(0.001));
    }

    @Test
    void osmosisTakesAMembranesOwnCorrectionAndAnswersWithWhatIsThere() {
        Calculation calculation = by("ro-performance", Map.of("temperature_correction", 1.47, "rated_l_day", 1800));

        assertThat(number(calculation, "expected_permeate_l_day")).isCloseTo(1224, within(0.5));
        assertThat(calculation.results()).doesNotContainKey("recovery");
        assertThat(error("ro-performance", Map.of("permeate_l_day", 100)).code())
                .isEqualTo(InputErrors.Code.MISSING);
        assertThat(by("ro-performance", Map.of("feed_conductivity_us_cm", 100, "permeate_conductivity_us_cm", 110))
                        .results())
                .containsEntry("caution", "PERMEATE_WORSE_THAN_FEED");
        assertThat(refusal("ro-performance", Map.of("permeate_l_day", 100, "concentrate_l_day", 0))
                        .range()
                        .input())
                .isEqualTo("recovery");
    }

    /** SLOSH-1.2-0.5: 1.33382 s where Merian gives 1.08366, 19 % too short. */
    @Test
    void basinsOfTanksAreTooDeepForMerian() {
        Map<String, Object> tank = Map.of("length_m", 1.2, "depth_m", 0.5);
        Calculation calculation = by("basin-period", tank);

        assertThat(number(calculation, "period_s")).isCloseTo(1.33382, within(0.00001));
        assertThat(number(calculation, "merian_period_s")).isCloseTo(1.08366, within(0.00001));
        assertThat(number(calculation, "merian_error")).isCloseTo(-0.19, within(0.005));
        assertThat(calculation.results()).containsEntry("caution", "MERIAN_TOO_SHORT");
        assertThat(by("basin-period", Map.of("length_m", 8192, "depth_m", 18)).results())
                .doesNotContainKey("caution");
        assertThat(refusal("basin-period", Map.of("length_m", 1, "depth_m", 0.5, "mode", 1.5))
                        .code())
                .isEqualTo("NOT_WHOLE");
        // The pulse that matches the first mode has that basin as its resonant length.
        assertThat(number("wavelength", "resonant_basin_length_m", Map.of("period_s", 1.33382, "depth_m", 0.5)))
                .isCloseTo(1.2, within(0.00002));
    }

    /** NIOSH 94-110, example 1 by the formulas: 16.02 lb at the origin, index 44 / 16.02 = 2.7. */
    @Test
    void limitsLiftsInInchesAndCentimetres() {
        Calculation pounds = by(
                "lifting-limit",
                Map.of("horizontal_in", 23, "vertical_in", 15, "distance_in", 49, "load_lb", 44, "coupling", "fair"));

        assertThat(number(pounds, "recommended_weight_limit_lb")).isCloseTo(16.02, within(0.01));
        assertThat(number(pounds, "recommended_weight_limit_kg")).isCloseTo(16.02 * 0.45359237, within(0.01));
        assertThat(number(pounds, "lifting_index")).isCloseTo(2.7, within(0.05));
        assertThat(pounds.results())
                .containsEntry("verdict", "OVER_LIMIT")
                .containsEntry("caution", "LOCAL_RULES_FIRST");

        Map<String, Object> ideal =
                new HashMap<>(Map.of("horizontal_cm", 25, "vertical_cm", 75, "distance_cm", 25, "coupling", "good"));
        assertThat(number("lifting-limit", "recommended_weight_limit_kg", ideal))
                .isCloseTo(23, within(1e-9));
        // 25 L of seawater weigh 25.58 kg without the can: above what is ideal for a single lift (trade-facts.md).
        ideal.put("load_kg", 25.58);
        assertThat(by("lifting-limit", ideal).results()).containsEntry("verdict", "OVER_LIMIT");
        ideal.put("horizontal_cm", 70);
        assertThat(by("lifting-limit", ideal).results())
                .containsEntry("verdict", "NO_LIFT")
                .doesNotContainKey("lifting_index");
    }

    @Test
    void liftsAreGivenInOneSystemOfMeasures() {
        assertThat(error("lifting-limit", Map.of("horizontal_cm", 30, "vertical_in", 10, "distance_cm", 40))
                        .code())
                .isEqualTo(InputErrors.Code.NOT_TOGETHER);
        assertThat(error("lifting-limit", Map.of("horizontal_cm", 30, "vertical_cm", 10)))
                .isEqualTo(new InputErrors.InputError(
                        "distance_cm", InputErrors.Code.MISSING, "must be given with horizontal_cm"));
        assertThat(error("lifting-limit", Map.of("vertical_cm", 10)).input()).isEqualTo("horizontal_cm");
    }

    /** NIOSH 94-110, 2.4.5: three tasks together 1.9, in whatever order they are given. */
    @Test
    void addsTasksUpHardestFirst() {
        assertThat(number(
                        "lifting-composite-index",
                        "composite_lifting_index",
                        Map.of(
                                "loads_kg",
                                List.of(10, 30, 20),
                                "frequency_independent_limits_kg",
                                List.of(15, 20, 20),
                                "lifts_per_min",
                                List.of(4, 1, 2))))
                .isCloseTo(1.9, within(0.05));
        assertThat(refusal(
                                "lifting-composite-index",
                                Map.of(
                                        "loads_kg",
                                        List.of(10, 30),
                                        "frequency_independent_limits_kg",
                                        List.of(15),
                                        "lifts_per_min",
                                        List.of(4, 1)))
                        .code())
                .isEqualTo("SERIES_DIFFER_IN_LENGTH");
        assertThat(refusal(
                                "lifting-composite-index",
                                Map.of(
                                        "loads_kg",
                                        List.of(10, 30),
                                        "frequency_independent_limits_kg",
                                        List.of(15, 20),
                                        "lifts_per_min",
                                        List.of(10, 9),
                                        "duration",
                                        "up-to-2-hours"))
                        .range())
                .isEqualTo(new CalculationRefused.Range("frequency", 0, 10, "1/min", ""));
    }
}
