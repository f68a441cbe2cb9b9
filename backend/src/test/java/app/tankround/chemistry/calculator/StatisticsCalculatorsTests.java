package app.tankround.chemistry.calculator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.tuple;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The statistics as calculators: that inputs reach the right formula, what is left out, and what is refused. */
class StatisticsCalculatorsTests {

    private static Calculation calculate(String name, Map<String, Object> given) {
        return Calculators.named(name).orElseThrow().calculate(given);
    }

    private static double result(Calculation calculation, String output) {
        return (Double) calculation.results().getOrDefault(output, Double.NaN);
    }

    private static List<Double> numbers(String text) {
        return Arrays.stream(text.split(" ")).map(Double::valueOf).toList();
    }

    private static void assertRefused(String code, String input, String name, Map<String, Object> given) {
        assertThatExceptionOfType(CalculationRefused.class)
                .isThrownBy(() -> calculate(name, given))
                .satisfies(refused -> {
                    assertThat(refused.code()).isEqualTo(code);
                    assertThat(refused.range().input()).isEqualTo(input);
                });
    }

    private static void assertMissing(String input, String name, Map<String, Object> given) {
        assertThatExceptionOfType(InputErrors.class)
                .isThrownBy(() -> calculate(name, given))
                .satisfies(refused -> assertThat(refused.errors())
                        .extracting(InputErrors.InputError::input, InputErrors.InputError::code)
                        .containsExactly(tuple(input, InputErrors.Code.MISSING)));
    }

    /** JCGM 100:2008, H.1: u_c 32 nm, nu_eff 16.7, k = t99(16) = 2.92, U = 93 nm (components read, the rest from memory). */
    @Test
    void theEndGaugeOfTheGuideHasItsExpandedUncertainty() {
        Calculation gauge = calculate(
                "combine-uncertainty",
                Map.of(
                        "uncertainties", List.of(25, 5.8, 3.9, 6.7, 2.88679, 16.599),
                        "degrees_of_freedom", List.of(18, 24, 5, 8, 50, 2),
                        "values", List.of(50000623, 215, 0, 0, 0, 0),
                        "coverage_probability", 0.99));

        assertThat(result(gauge, "combined_standard_uncertainty")).isCloseTo(32, within(0.5));
        assertThat(result(gauge, "effective_degrees_of_freedom")).isCloseTo(16.7, within(0.1));
        assertThat(result(gauge, "coverage_factor")).isCloseTo(2.92, within(0.005));
        assertThat(result(gauge, "expanded_uncertainty")).isCloseTo(93, within(0.6));
        assertThat(result(gauge, "result")).isEqualTo(50000838);
        assertThat(gauge.working()).contains("y = sum(c x) = 50000838");
    }

    /** JCGM 100:2008, 4.3.7 and H.1.3.4: half-width over root 3 and root 2. */
    @Test
    void halfWidthsCountByTheirDistributionAndBearNoDoubt() {
        Calculation budget = calculate(
                "combine-uncertainty",
                Map.of(
                        "rectangular_half_widths", List.of(0.3),
                        "arcsine_half_widths", List.of(0.5),
                        "sensitivities", List.of(-2, 1)));

        assertThat(result(budget, "combined_standard_uncertainty"))
                .isCloseTo(Math.sqrt(4 * 0.09 / 3 + 0.25 / 2), within(1e-12));
        assertThat(result(budget, "coverage_factor")).isCloseTo(1.959964, within(1e-6));
        assertThat(budget.results()).doesNotContainKeys("effective_degrees_of_freedom", "result");
    }

    @Test
    void seriesThatGoTogetherMustBeEquallyLong() {
        List<Integer> two = List.of(1, 2);
        List<Integer> three = List.of(1, 2, 3);
        List<Integer> four = List.of(1, 2, 3, 4);
        assertRefused(
                "LENGTHS_DIFFER",
                "sensitivities",
                "combine-uncertainty",
                Map.of("uncertainties", two, "sensitivities", three));
        assertRefused(
                "LENGTHS_DIFFER",
                "degrees_of_freedom",
                "combine-uncertainty",
                Map.of("uncertainties", two, "degrees_of_freedom", three));
        assertRefused(
                "LENGTHS_DIFFER", "uncertainties", "weighted-mean", Map.of("values", three, "uncertainties", two));
        assertRefused("LENGTHS_DIFFER", "y", "line-fit", Map.of("x", three, "y", four));
        assertRefused("LENGTHS_DIFFER", "weights", "line-fit", Map.of("x", three, "y", three, "weights", two));
        assertRefused("LENGTHS_DIFFER", "y", "theil-sen", Map.of("x", three, "y", four));
    }

    @Test
    void whatIsNeededInOneOfTwoWaysIsAskedFor() {
        assertMissing("uncertainties", "combine-uncertainty", Map.of());
        assertMissing("standard_uncertainty", "conformity", Map.of("value", 35, "lower_limit", 33));
        assertMissing(
                "standard_uncertainty",
                "conformity",
                Map.of("value", 35, "lower_limit", 33, "standard_uncertainty", 1, "expanded_uncertainty", 2));
        assertMissing("lower_limit", "conformity", Map.of("value", 35, "standard_uncertainty", 1));
        assertMissing(
                "reading_weight",
                "inverse-prediction",
                Map.of("x", List.of(1, 2, 3), "y", List.of(1, 2, 3.1), "weights", List.of(1, 1, 1), "reading", 2));
    }

    /** JCGM 106:2012, 7.4 example, printed 0.66 (from memory). */
    @ParameterizedTest
    @ValueSource(strings = {"standard_uncertainty", "expanded_uncertainty"})
    void conformityIsTheProbabilityBetweenTheLimits(String uncertainty) {
        Calculation oil = calculate(
                "conformity",
                Map.of(
                        "value",
                        13.6,
                        uncertainty,
                        uncertainty.startsWith("s") ? 1.8 : 3.6,
                        "lower_limit",
                        12.5,
                        "upper_limit",
                        16.3));

        assertThat(result(oil, "conformity_probability")).isCloseTo(0.66, within(0.005));
        assertThat(oil.results()).containsEntry("decision", "undecided");
    }

    /** The readings of the published example GB-DECISION, and the other rules beside it. */
    @ParameterizedTest
    @CsvSource({
        "guarded-acceptance, 100.4, inside", "guarded-acceptance, 100.9, undecided",
                "guarded-acceptance, 101.2, outside",
        "guard-band, 100.8, inside", "guard-band, 100.9, undecided", "guard-band, 101.2, undecided",
        "guard-band, 101.21, outside", "simple-acceptance, 101, inside", "simple-acceptance, 101.01, outside",
        "probability, 100.8, inside", "probability, 100.9, undecided", "probability, 101.2, outside"
    })
    void theDecisionFollowsTheRule(String rule, double value, String decision) {
        Calculation calculation = calculate(
                "conformity",
                Map.of(
                        "value",
                        value,
                        "standard_uncertainty",
                        0.1,
                        "lower_limit",
                        99,
                        "upper_limit",
                        101,
                        "decision_rule",
                        rule));

        assertThat(calculation.results()).containsEntry("decision", decision);
        if (rule.startsWith("guard")) {
            assertThat(result(calculation, "acceptance_lower_limit")).isCloseTo(99.2, within(1e-12));
            assertThat(result(calculation, "acceptance_upper_limit")).isCloseTo(100.8, within(1e-12));
            assertThat(result(calculation, "largest_false_acceptance_probability"))
                    .isCloseTo(0.02275, within(1e-5));
        }
    }

    @Test
    void anUncertaintyWiderThanTheRangeLeavesNothingToAccept() {
        Calculation calculation = calculate(
                "conformity", Map.of("value", 34.5, "standard_uncertainty", 1, "lower_limit", 34, "upper_limit", 35));

        assertThat(calculation.results())
                .containsEntry("decision", "undecided")
                .doesNotContainKeys("acceptance_lower_limit", "acceptance_upper_limit");
        assertRefused(
                "OUT_OF_RANGE",
                "upper_limit",
                "conformity",
                Map.of("value", 34.5, "standard_uncertainty", 1, "lower_limit", 36, "upper_limit", 35));
    }

    /** CCQM-K30, laboratory LNE; see EN-LNE of the reference table. */
    @Test
    void twoResultsAreComparedByEn() {
        Calculation calculation = calculate(
                "en-number",
                Map.of(
                        "value",
                        3.13,
                        "expanded_uncertainty",
                        0.12,
                        "reference_value",
                        2.99,
                        "reference_expanded_uncertainty",
                        0.06));

        assertThat(result(calculation, "en_number")).isCloseTo(1.043, within(0.001));
        assertThat(calculation.results()).containsEntry("satisfactory", false);
        assertRefused(
                "OUT_OF_RANGE",
                "expanded_uncertainty",
                "en-number",
                Map.of(
                        "value",
                        3.13,
                        "expanded_uncertainty",
                        0,
                        "reference_value",
                        2.99,
                        "reference_expanded_uncertainty",
                        0));
    }

    /** Paule and Mandel 1982; see CD-WM and CD-MP of the reference table. */
    @Test
    void aWeightedMeanSaysWhetherItsResultsAgree() {
        Calculation mean = calculate(
                "weighted-mean",
                Map.of(
                        "values", numbers("27.044 26.022 26.340 26.787 26.796"),
                        "uncertainties",
                                numbers("0.003 0.076 0.464 0.003 0.014").stream()
                                        .map(Math::sqrt)
                                        .toList()));

        assertThat(result(mean, "weighted_mean")).isCloseTo(26.886920, within(1e-6));
        assertThat(result(mean, "birge_ratio")).isCloseTo(2.378606, within(1e-6));
        assertThat(result(mean, "mandel_paule_mean")).isCloseTo(26.712129, within(1e-6));
        assertThat(result(mean, "between_variance")).isCloseTo(0.105219, within(1e-6));
        assertThat(mean.results()).containsEntry("consistent", false);
    }

    /** JCGM 100:2008, H.3; see the rows GUM-H3 of the reference table. */
    @Test
    void aLineIsFittedAndReadAtAnX() {
        List<Double> t = numbers("1.521 2.012 2.512 3.003 3.507 3.999 4.513 5.002 5.503 6.010 6.511");
        List<Double> b = numbers("-.171 -.169 -.166 -.159 -.164 -.165 -.156 -.157 -.159 -.161 -.160");
        Calculation line = calculate("line-fit", Map.of("x", t, "y", b, "at_x", 10));

        assertThat(result(line, "slope")).isCloseTo(0.00218, within(5e-6));
        assertThat(result(line, "correlation")).isCloseTo(-0.930, within(5e-4));
        assertThat(result(line, "y_at_x")).isCloseTo(-0.1494, within(5e-5));
        assertThat(result(line, "standard_uncertainty_at_x")).isCloseTo(0.0041, within(5e-5));
        assertThat(line.results()).containsEntry("extrapolated", true);
        assertThat(calculate("line-fit", Map.of("x", t, "y", b)).results()).doesNotContainKey("y_at_x");
        assertRefused("NO_SPAN", "x", "line-fit", Map.of("x", List.of(35, 35, 35), "y", List.of(34, 35, 36)));
        assertRefused("TOO_FEW", "x", "line-fit", Map.of("x", List.of(0, 35), "y", List.of(0, 35)));
    }

    /** Massart and others 1997, chapter 8, examples 7 and 8; see the rows MASSART of the reference table. */
    @Test
    void aLineIsReadBackwards() {
        Map<String, Object> standards =
                Map.of("x", numbers("0 10 20 30 40 50"), "y", numbers("4 21.2 44.6 61.8 78 105.2"));
        Calculation plain = calculate("inverse-prediction", with(standards, "reading", 15));
        Calculation weighted = calculate(
                "inverse-prediction",
                with(
                        with(with(standards, "reading", 90), "reading_weight", 0.145),
                        "weights",
                        numbers("1.984 1.417 1.262 .372 .199 .109")));

        assertThat(result(plain, "x")).isCloseTo(6.09381, within(1e-5));
        assertThat(result(plain, "half_width")).isCloseTo(4.906751, within(1e-5));
        assertThat(result(plain, "fieller_lower_limit")).isCloseTo(0.966872, within(1e-6));
        assertThat(result(plain, "fieller_upper_limit")).isCloseTo(10.837436, within(1e-6));
        assertThat(result(weighted, "x")).isCloseTo(44.06025, within(1e-5));
        assertThat(result(weighted, "half_width")).isCloseTo(7.855012, within(1e-5));
        assertThat(plain.results()).containsEntry("extrapolated", false);
        assertRefused(
                "SLOPE_UNCERTAIN",
                "g",
                "inverse-prediction",
                Map.of("x", List.of(0, 1, 2, 3), "y", List.of(1, -1, 1.2, -0.8), "reading", 0.5));
    }

    private static Map<String, Object> with(Map<String, Object> given, String input, Object value) {
        Map<String, Object> more = new HashMap<>(given);
        more.put(input, value);
        return more;
    }

    /** DIN 32645:1994; see the rows DIN of the reference table. */
    @Test
    void theLimitsOfDetectionFollowFromTheLine() {
        Calculation limits = calculate(
                "detection-limit",
                Map.of(
                        "x", numbers(".05 .1 .15 .2 .25 .3 .35 .4 .45 .5"),
                        "y", numbers("3060 3522 3707 4280 5058 5510 5703 6205 7156 7178"),
                        "alpha", 0.01));

        assertThat(result(limits, "decision_limit")).isCloseTo(0.0698, within(5e-5));
        assertThat(result(limits, "detection_limit")).isCloseTo(0.14, within(5e-3));
        assertThat(result(limits, "quantification_limit")).isCloseTo(0.212, within(5e-4));
    }

    /** USEPA 2009, example 17-7; Gilbert 1987, table A18 (from memory). */
    @Test
    void aTrendIsCountedExactlyWhileTheSeriesIsShort() {
        Calculation sodium = calculate("mann-kendall", Map.of("values", numbers("56 53 51 55 52 60 62 59 61 63")));
        Calculation four = calculate("mann-kendall", Map.of("values", List.of(1, 2, 3, 4)));
        Calculation level = calculate("mann-kendall", Map.of("values", List.of(8, 8, 8)));

        assertThat(result(sodium, "s")).isEqualTo(25);
        assertThat(result(sodium, "z")).isCloseTo(2.146625, within(1e-6));
        assertThat(result(sodium, "p_value")).isCloseTo(2 * 0.014304729, within(1e-8));
        assertThat(sodium.results()).containsEntry("p_method", "exact").containsEntry("trend", "rising");
        assertThat(result(four, "p_upper")).isCloseTo(0.042, within(0.0006));
        assertThat(four.results()).containsEntry("trend", "none");
        assertThat(result(level, "p_value")).isEqualTo(1);
        assertRefused("TOO_FEW", "values", "mann-kendall", Map.of("values", List.of(1, 2)));
    }

    /** Sen 1968; see the rows SEN of the reference table. */
    @Test
    void aSlopeOfMediansHasTheLimitsThatItsPointsAllow() {
        Calculation sen =
                calculate("theil-sen", Map.of("x", numbers("1 2 3 4 10 12 18"), "y", numbers("9 15 19 20 45 55 78")));
        Calculation few = calculate("theil-sen", Map.of("x", List.of(1, 2, 3), "y", List.of(1, 2, 4)));

        assertThat(result(sen, "slope")).isEqualTo(4);
        assertThat(result(sen, "intercept")).isEqualTo(4);
        assertThat(result(sen, "intercept_of_residuals")).isEqualTo(6);
        assertThat(result(sen, "sen_lower_limit")).isCloseTo(26 / 7.0, within(1e-12));
        assertThat(result(sen, "sen_upper_limit")).isCloseTo(35 / 8.0, within(1e-12));
        assertThat(result(sen, "sen_coverage_probability")).isCloseTo(0.969841, within(1e-6));
        assertThat(few.results()).containsOnlyKeys("slope", "intercept", "intercept_of_residuals", "slopes");
        assertThat(few.working()).contains("too few points for limits that hold 0.95");
        assertRefused("NO_SPAN", "x", "theil-sen", Map.of("x", List.of(1, 1, 1), "y", List.of(1, 2, 3)));
    }

    /** NIST/SEMATECH e-Handbook 1.3.5.17.1; see GRUBBS and MODZ of the reference table. */
    @Test
    void anOutlierIsFoundAndMostlyEqualValuesHaveNoSpread() {
        Calculation masses = calculate(
                "outlier-check", Map.of("values", numbers("199.31 199.53 200.19 200.82 201.92 201.95 202.18 245.57")));
        Calculation equal = calculate("robust-location", Map.of("values", List.of(35, 35, 35, 36)));
        Calculation copper = calculate("robust-location", Map.of("values", numbers("2.2 2.4 2.9 3.03 3.4 3.7 28.95")));

        assertThat(result(masses, "grubbs_statistic")).isCloseTo(2.4687, within(5e-4));
        assertThat(result(masses, "grubbs_critical")).isCloseTo(2.032, within(5e-4));
        assertThat(result(masses, "farthest_value")).isEqualTo(245.57);
        assertThat(masses.results()).containsEntry("outlier", true).containsEntry("suspicious", true);
        assertThat(equal.results()).containsOnlyKeys("mean", "median", "scaled_median_absolute_deviation");
        assertThat(result(copper, "huber_location")).isLessThan(result(copper, "mean"));
        assertRefused("NO_SPAN", "values", "outlier-check", Map.of("values", List.of(35, 35, 35)));
        assertThat(calculate("outlier-check", Map.of("values", List.of(35, 35, 35, 36)))
                        .results())
                .doesNotContainKey("modified_z_scores");
    }
}
