package app.tankround.chemistry.calculator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.fail;
import static org.assertj.core.api.Assertions.within;

import app.tankround.units.InputKind;
import app.tankround.units.Ranges;
import java.util.Arrays;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.assertj.core.groups.Tuple;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

/** How calculators take inputs and refuse them, and what each of the list has to show. */
class CalculatorTests {

    private static final Calculator SUM = Calculator.named("sum")
            .source("arithmetic")
            .input(
                    Input.number("first_l", "L", 0, 100).from("a model"),
                    Input.number("second_l", "L", 0, 100).orElse(1),
                    Input.series("more_l", "L", 0, 10).withAtLeast(2).optional(),
                    Input.choice("sign", "plus", "minus").orElse("plus"),
                    Input.number("third_l", "L", -50, 50).optional())
            .output("sum_l", "L")
            .output("parts", "1")
            .by(given -> {
                double sum = given.number("first_l")
                        + (given.choice("sign").equals("minus") ? -1 : 1) * given.number("second_l")
                        + given.optional("third_l").orElse(0);
                if (given.has("more_l")) {
                    sum += Arrays.stream(given.series("more_l")).sum();
                }
                Ranges.require(InputKind.VOLUME, given.number("first_l"), 0, 90);
                return Calculation.Results.of("sum_l", sum).working("sum = " + Working.number(sum) + " L");
            });

    @Test
    void fillsInWhatHasADefaultAndLeavesOutWhatMayBeLeftOut() {
        Calculation calculation = SUM.calculate(Map.of("first_l", 2));

        assertThat(calculation.results()).isEqualTo(Map.of("sum_l", 3.0));
        assertThat(calculation.units()).isEqualTo(Map.of("sum_l", "L"));
        assertThat(calculation.working()).containsExactly("sum = 3 L");
        assertThat(calculation.source()).isEqualTo("arithmetic");
    }

    @Test
    void takesNumbersSeriesAndChoices() {
        assertThat(SUM.calculate(Map.of(
                                "first_l",
                                20,
                                "second_l",
                                2.5,
                                "more_l",
                                List.of(1, 2.25),
                                "sign",
                                "minus",
                                "third_l",
                                -3))
                        .results())
                .containsEntry("sum_l", 17.75);
    }

    @Test
    void namesEveryInputThatItDoesNotTakeAtOnce() {
        Map<String, @Nullable Object> given = new HashMap<>();
        given.put("first", 3);
        given.put("second_l", "3");
        given.put("more_l", Arrays.asList(1, null));
        given.put("sign", "times");
        given.put("third_l", null);

        assertThatExceptionOfType(InputErrors.class)
                .isThrownBy(() -> SUM.calculate(given))
                .satisfies(refused -> assertThat(refused.errors())
                        .extracting(InputErrors.InputError::input, InputErrors.InputError::code)
                        .containsExactly(
                                Tuple.tuple("first", InputErrors.Code.UNKNOWN),
                                Tuple.tuple("first_l", InputErrors.Code.MISSING),
                                Tuple.tuple("second_l", InputErrors.Code.NOT_A_NUMBER),
                                Tuple.tuple("more_l", InputErrors.Code.NOT_A_NUMBER),
                                Tuple.tuple("sign", InputErrors.Code.NOT_A_CHOICE),
                                Tuple.tuple("third_l", InputErrors.Code.NOT_A_NUMBER)));
    }

    @Test
    void takesNoNumberThatIsNotFiniteAndNoSingleNumberForASeries() {
        assertThatExceptionOfType(InputErrors.class)
                .isThrownBy(() ->
                        SUM.calculate(Map.of("first_l", Double.NaN, "second_l", Double.POSITIVE_INFINITY, "more_l", 3)))
                .satisfies(refused -> assertThat(refused.errors())
                        .extracting(InputErrors.InputError::code)
                        .containsExactly(
                                InputErrors.Code.NOT_A_NUMBER,
                                InputErrors.Code.NOT_A_NUMBER,
                                InputErrors.Code.NOT_A_SERIES));
    }

    @Test
    void refusesOutsideTheRangeOfAnInputNamingTheModel() {
        assertThat(refusal(SUM, Map.of("first_l", -0.1)))
                .satisfies(refused -> assertThat(refused.code()).isEqualTo("OUT_OF_RANGE"))
                .satisfies(refused -> assertThat(refused.range())
                        .isEqualTo(new CalculationRefused.Range("first_l", 0, 100, "L", "a model")));
        assertThat(refusal(SUM, Map.of("first_l", 1, "more_l", List.of(1, 11))).range())
                .isEqualTo(new CalculationRefused.Range("more_l", 0, 10, "L", ""));
    }

    @Test
    void refusesASeriesThatIsTooShortOrTooLong() {
        CalculationRefused tooShort = refusal(SUM, Map.of("first_l", 1, "more_l", List.of(1)));

        assertThat(tooShort.code()).isEqualTo("TOO_FEW");
        assertThat(tooShort.range()).isEqualTo(new CalculationRefused.Range("more_l", 2, 1000, "values", ""));
        assertThat(refusal(SUM, Map.of("first_l", 1, "more_l", Collections.nCopies(1001, 1)))
                        .code())
                .isEqualTo("TOO_MANY");
    }

    @Test
    void passesOnWhatAFormulaRefusesUnderTheNameOfItsInput() {
        assertThat(refusal(SUM, Map.of("first_l", 95)).range())
                .isEqualTo(new CalculationRefused.Range("first_l", 0, 90, "L", "a model"));
    }

    @Test
    void refusesAnAnswerThatNoNumberCanHold() {
        Calculator division = Calculator.named("division")
                .input(Input.number("by", "1", -1, 1))
                .output("quotient", "1")
                .by(given -> Calculation.Results.of("quotient", 1 / given.number("by")));

        assertThat(refusal(division, Map.of("by", 0)).code()).isEqualTo("NOT_FINITE");
    }

    @ParameterizedTest
    @CsvSource({
        "0, 0",
        "35, 35",
        "1023.3412345678, 1023.3412",
        "-0.00012345, -0.00012345",
        "0.0000012345, 1.2345e-6",
        "123456789, 123456790",
        "6.02214076e23, 6.0221408e23",
        "0.1, 0.1"
    })
    void writesNumbersInTheWorkingWithEightDigitsAndNoLocale(double number, String text) {
        assertThat(Working.number(number)).isEqualTo(text);
    }

    @Test
    void givesEachCalculatorANameOfItsOwn() {
        assertThat(Calculators.all()).extracting(Calculator::name).doesNotHaveDuplicates();
        assertThat(Calculators.named("seawater-density"))
                .contains(Calculators.all().getFirst());
        assertThat(Calculators.named("seawater")).isEmpty();
    }

    static List<Calculator> everyCalculator() {
        return Calculators.all();
    }

    @ParameterizedTest
    @MethodSource("everyCalculator")
    void saysWhatItTakesAndGivesAndWhereItIsFrom(Calculator calculator) {
        assertThat(calculator.name()).matches("[a-z0-9]+(-[a-z0-9]+)*");
        assertThat(calculator.source()).isNotBlank();
        assertThat(calculator.inputs()).isNotEmpty().allSatisfy(input -> {
            assertThat(input.name()).matches("[a-z][a-z0-9]*(_[a-z0-9]+)*");
            assertThat(input.low()).isLessThanOrEqualTo(input.high());
            assertThat(input.choices()).allMatch(choice -> input.kind() == Input.Kind.CHOICE);
            if (input.defaultValue() instanceof Double number) {
                assertThat(number).isBetween(input.low(), input.high());
            } else if (input.defaultValue() != null) {
                assertThat(input.choices()).contains((String) input.defaultValue());
            }
        });
        assertThat(calculator.inputs()).extracting(Input::name).doesNotHaveDuplicates();
        assertThat(calculator.outputs())
                .isNotEmpty()
                .allMatch(output -> output.name().matches("[a-z][a-z0-9]*(_[a-z0-9]+)*"));
        assertThat(calculator.outputs()).extracting(Output::name).doesNotHaveDuplicates();
    }

    /** Fofonoff and Millard 1983, UNESCO Technical Papers in Marine Science 44, page 19: S = 35, t68 = 25 °C. */
    @Test
    void densityTakesTemperaturesOnEitherScale() {
        Calculator density = Calculators.named("seawater-density").orElseThrow();

        Calculation older =
                density.calculate(Map.of("salinity", 35, "temperature_c", 25, "temperature_scale", "IPTS-68"));

        assertThat(number(older, "density_kg_m3")).isCloseTo(1023.34306, within(0.00002));
        assertThat(older.working()).containsExactly("rho(S = 35, t68 = 25 °C) = 1023.3431 kg/m3");
        assertThat(number(density.calculate(Map.of("salinity", 35, "temperature_c", 25 / 1.00024)), "density_kg_m3"))
                .isCloseTo(1023.34306, within(0.00002));
    }

    /** EOS-80 was published to S = 42; a neglected tank gets beyond it, and its keeper has to know. */
    @Test
    void densityAndItsInverseMarkWhatLiesBeyondThePublishedRangeAndStopAt50() {
        Calculator density = Calculators.named("seawater-density").orElseThrow();
        Calculator salinity = Calculators.named("salinity-from-density").orElseThrow();

        assertThat(density.calculate(Map.of("salinity", 42, "temperature_c", 25))
                        .results())
                .containsEntry("extrapolated", false)
                .containsEntry("expanded_uncertainty_kg_m3", 0.02);
        assertThat(density.calculate(Map.of("salinity", 42.1, "temperature_c", 25))
                        .results())
                .containsEntry("extrapolated", true)
                .containsEntry("expanded_uncertainty_kg_m3", 0.05);
        assertThat(refusal(density, Map.of("salinity", 50.1, "temperature_c", 25))
                        .range())
                .isEqualTo(
                        new CalculationRefused.Range("salinity", 0, 50, "1", "EOS-80, carried on from S = 42 to 50"));
        double highest = number(density.calculate(Map.of("salinity", 50, "temperature_c", 25)), "density_kg_m3");
        Calculation saltiest = salinity.calculate(Map.of("density_kg_m3", highest, "temperature_c", 25));
        assertThat(number(saltiest, "salinity")).isCloseTo(50, within(1e-9));
        assertThat(saltiest.results()).containsEntry("extrapolated", true);
        assertThat(refusal(salinity, Map.of("density_kg_m3", highest + 0.001, "temperature_c", 25))
                        .range())
                .satisfies(range -> assertThat(range.high()).isEqualTo(highest))
                .satisfies(range -> assertThat(range.from()).startsWith("EOS-80"));
    }

    private static double number(Calculation calculation, String output) {
        return (Double) Objects.requireNonNull(calculation.results().get(output));
    }

    private static CalculationRefused refusal(Calculator calculator, Map<String, ?> given) {
        try {
            return fail("answers " + calculator.calculate(given).results());
        } catch (CalculationRefused refused) {
            return refused;
        }
    }
}
