package app.tankround.chemistry.calculator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Mixing, changing and dripping, asked by name. Numbers are rows of the reference tables, or their source is named. */
class MixingCalculatorsTests {

    private final Bench saltMass = new Bench("salt-mass");
    private final Bench blend = new Bench("blend");
    private final Bench raise = new Bench("raise-salinity");
    private final Bench lower = new Bench("lower-salinity");
    private final Bench kinds = new Bench("salinity-kinds");
    private final Bench dilution = new Bench("dilution");
    private final Bench drip = new Bench("drip-acclimation");

    /** Rows MIX-M-100, MIX-S-100 and MIX-W-100 of the reference table. */
    @Test
    void weighsSaltAndWaterForABatch() {
        Object[] batch = {"salinity", 35, "volume_l", 100};

        assertThat(saltMass.number("mass_kg", batch)).isCloseTo(102.3341, within(0.02));
        assertThat(saltMass.number("salt_kg", batch)).isCloseTo(3.5986, within(0.0018));
        assertThat(saltMass.number("product_kg", batch)).isEqualTo(saltMass.number("salt_kg", batch));
        assertThat(saltMass.number("water_l", batch)).isCloseTo(98.9131, within(0.03));
        double byMass = saltMass.number("volume_l", "salinity", 35, "mass_kg", saltMass.number("mass_kg", batch));
        assertThat(byMass).isCloseTo(100, within(1e-9));
    }

    /** A product that is 15 % water: more is weighed, and its water need not be poured. Balance by hand. */
    @Test
    void countsTheWaterInTheProduct() {
        Object[] batch = {"salinity", 35, "volume_l", 100, "yield", 0.85};

        double product = saltMass.number("product_kg", batch);
        assertThat(product).isCloseTo(saltMass.number("salt_kg", batch) / 0.85, within(1e-12));
        assertThat(product + saltMass.number("water_kg", batch))
                .isCloseTo(saltMass.number("mass_kg", batch), within(1e-12));
        saltMass.notTaken("volume_l", InputErrors.Code.MISSING, "salinity", 35);
        saltMass.notTaken("mass_kg", InputErrors.Code.NOT_TOGETHER, "salinity", 35, "volume_l", 1, "mass_kg", 1);
    }

    @Test
    void saysThatDrySaltIsDissolvedOutside() {
        Calculation dry = raise.calculate("salinity", 33, "target_salinity", 35, "volume_l", 400);

        assertThat(dry.results()).containsEntry("caution", "DISSOLVE_OUTSIDE_NEVER_INTO_STOCKED_TANK");
        assertThat(dry.working()).anyMatch(line -> line.contains("dry salt never goes into a stocked tank"));
        assertThat(saltMass.calculate("salinity", 35, "volume_l", 100).results())
                .containsEntry("caution", "DISSOLVE_OUTSIDE_NEVER_INTO_STOCKED_TANK");
        assertThat(raise.calculate("salinity", 33, "target_salinity", 35, "volume_l", 400, "replacement_salinity", 50)
                        .results())
                .doesNotContainKeys("caution", "product_kg");
    }

    /** 100 L of 35 and 50 L of 20 at 25 °C, worked out in Python: S = 30.036919893 in 152.936545138 kg. */
    @Test
    void blendsByVolumeAndByMass() {
        Calculation byVolume = blend.calculate("salinities", List.of(35, 20), "volumes_l", List.of(100, 50));

        assertThat((Double) byVolume.results().get("salinity")).isCloseTo(30.036919893, within(1e-8));
        assertThat((Double) byVolume.results().get("mass_kg")).isCloseTo(152.936545138, within(1e-8));
        assertThat(blend.number("salinity", "salinities", List.of(30, 40, 0), "masses_kg", List.of(10, 10, 20)))
                .isCloseTo(17.5, within(1e-12));
    }

    @Test
    void conservesTheMassOfSaltInEveryBlend() {
        Random random = new Random(55);
        for (int i = 0; i < 200; i++) {
            List<Object> salinities = new ArrayList<>();
            List<Object> volumes = new ArrayList<>();
            double salt = 0;
            for (int k = 2 + random.nextInt(4); k > 0; k--) {
                double s = 50 * random.nextDouble();
                double litres = 1 + 400 * random.nextDouble();
                salinities.add(s);
                volumes.add(litres);
                salt += saltMass.number("salt_kg", "salinity", s, "volume_l", litres, "temperature_c", 25);
            }
            Object[] waters = {"salinities", salinities, "volumes_l", volumes};
            Object[] poured = {"salinity", blend.number("salinity", waters), "mass_kg", blend.number("mass_kg", waters)
            };
            assertThat(saltMass.number("salt_kg", poured)).isCloseTo(salt, within(1e-9 * salt));
            assertThat(blend.number("salt_kg", waters)).isCloseTo(salt, within(1e-9 * salt));
        }
    }

    @Test
    void refusesABlendThatDoesNotAddUp() {
        CalculationRefused lengths = blend.refusal("salinities", List.of(35, 20), "volumes_l", List.of(100, 50, 1));

        assertThat(lengths.code()).isEqualTo("LENGTHS_DIFFER");
        assertThat(lengths.range()).isEqualTo(new CalculationRefused.Range("volumes_l", 2, 2, "values", ""));
        assertThat(blend.refusal("salinities", List.of(35, 20), "volumes_l", List.of(0, 0))
                        .code())
                .isEqualTo("OUT_OF_RANGE");
        assertThat(blend.refusal("salinities", List.of(35), "volumes_l", List.of(1))
                        .code())
                .isEqualTo("TOO_FEW");
        assertThat(blend.refusal("salinities", List.of(35, 50.1), "volumes_l", List.of(1, 1))
                        .range()
                        .input())
                .isEqualTo("salinities");
    }

    /** 1.0266 at 20/20 is S 35: EOS-80 gives 1024.76 kg/m3 at 20 °C over 998.20 of pure water. */
    @ParameterizedTest
    @ValueSource(strings = {"salinity", "target_salinity", "replacement_salinity"})
    void asksAGravityBackThatWasGivenForASalinity(String input) {
        for (Bench change : List.of(raise, lower)) {
            Map<String, Object> given = new HashMap<>(
                    Map.of("salinity", change == raise ? 33 : 36, "target_salinity", 35, "volume_l", 400));
            given.put(input, 1.0266);
            Object[] inputs = given.entrySet().stream()
                    .flatMap(each -> Stream.of(each.getKey(), each.getValue()))
                    .toArray();

            CalculationRefused refused = change.refusal(inputs);

            assertThat(refused.code()).isEqualTo("LOOKS_LIKE_GRAVITY");
            assertThat(refused.range().input()).isEqualTo(input);
            assertThat(refused.likely().orElseThrow()).isCloseTo(35, within(0.05));
        }
    }

    /** Row RAISE-SALT of the reference table; the exchange worked out in Python by the balance of reference.md 8. */
    @Test
    void raisesByDrySaltOrByExchange() {
        assertThat(raise.number("product_kg", "salinity", 33, "target_salinity", 35, "volume_l", 400))
                .isCloseTo(0.8513, within(0.0009));
        Object[] exchange = {"salinity", 33, "target_salinity", 35, "volume_l", 400, "replacement_salinity", 50};
        assertThat(raise.number("exchange_l", exchange)).isCloseTo(46.54041885910508, within(1e-9));
        assertThat(raise.number("days_at_least", exchange)).isEqualTo(2);
    }

    /** Row LOWER-RO of the reference table. */
    @Test
    void lowersByDensityAndNotByTheStraightLine() {
        Object[] given = {"salinity", 37, "target_salinity", 35, "volume_l", 400};

        assertThat(lower.number("exchange_l", given))
                .isCloseTo(22.191, within(0.11))
                .isNotCloseTo(400 * (1 - 35.0 / 37), within(0.1));
        assertThat(lower.number("days_at_least", given)).isEqualTo(2);
        assertThat(lower.number("days_at_least", "salinity", 37, "target_salinity", 35, "volume_l", 400, "per_day", 2))
                .isEqualTo(1);
    }

    @Test
    void refusesTheWrongDirectionAndWaterThatCannotDoIt() {
        assertThat(raise.refusal("salinity", 36, "target_salinity", 35, "volume_l", 400)
                        .range())
                .isEqualTo(new CalculationRefused.Range("target_salinity", 36, 50, "1", "the present salinity"));
        assertThat(lower.refusal("salinity", 34, "target_salinity", 35, "volume_l", 400)
                        .range())
                .isEqualTo(new CalculationRefused.Range("target_salinity", 0, 34, "1", "the present salinity"));
        CalculationRefused tooFresh =
                raise.refusal("salinity", 33, "target_salinity", 35, "volume_l", 400, "replacement_salinity", 34);
        assertThat(tooFresh.code()).isEqualTo("UNREACHABLE");
        assertThat(tooFresh.range())
                .satisfies(range -> assertThat(range.input()).isEqualTo("target_salinity"))
                .satisfies(range -> assertThat(range.high()).isEqualTo(34));
        assertThat(raise.refusal("salinity", 33, "target_salinity", 35, "volume_l", 400, "per_day", 1.4)
                        .range()
                        .from())
                .isEqualTo("common practice, no source");
    }

    @ParameterizedTest
    @CsvSource({"30, 41, false", "30, 43, true", "43, 43.5, true"})
    void marksWhatRestsOnDensitiesBeyond42(double from, double to, boolean marked) {
        assertThat(raise.calculate("salinity", from, "target_salinity", to, "volume_l", 400)
                        .results())
                .containsEntry("extrapolated", marked);
    }

    /** 35.16504 g/kg by definition; g/L with 1023.3412 kg/m3, row EOS80-T90. */
    @Test
    void tellsTheKindsOfSalinityApart() {
        assertThat(kinds.number("reference_salinity_g_kg", "salinity", 35)).isCloseTo(35.16504, within(1e-9));
        assertThat(kinds.number("salt_g_l", "salinity", 35)).isCloseTo(35.16504 * 1.0233412, within(1e-5));
        for (double s = 0; s <= 50; s += 5) {
            double perKilogram = kinds.number("reference_salinity_g_kg", "salinity", s);
            double perLitre = kinds.number("salt_g_l", "salinity", s);
            assertThat(kinds.number("salinity", "reference_salinity_g_kg", perKilogram))
                    .isCloseTo(s, within(1e-9));
            assertThat(kinds.number("salinity", "salt_g_l", perLitre)).isCloseTo(s, within(1e-9));
        }
    }

    /** Rows WC-1, WC-4, WC-N and WC-CONT of the reference table. */
    @Test
    void dilutesOnceInSeriesAndContinuously() {
        assertThat(dilution.number("concentration_mg_l", "concentration_mg_l", 40, "fraction", 0.25))
                .isCloseTo(30, within(1e-6));
        Object[] four = {"concentration_mg_l", 40, "replacement_mg_l", 5, "fraction", 0.2, "changes", 4};
        assertThat(dilution.number("concentration_mg_l", four)).isCloseTo(19.336, within(1e-4));
        assertThat(Bench.list(dilution.calculate(four), "after_each_mg_l"))
                .hasSize(4)
                .startsWith(33.0)
                .last()
                .isEqualTo(dilution.number("concentration_mg_l", four));
        assertThat(dilution.number("changes_needed", "concentration_mg_l", 80, "fraction", 0.25, "target_mg_l", 20))
                .isEqualTo(5);
        assertThat(dilution.number(
                        "concentration_mg_l", "concentration_mg_l", 40, "fraction", 0.5, "mode", "continuous"))
                .isCloseTo(24.2612, within(1e-4));
        Object[] litres = {"concentration_mg_l", 40, "changed_l", 50, "volume_l", 200};
        assertThat(dilution.number("concentration_mg_l", litres)).isCloseTo(30, within(1e-9));
    }

    @Test
    void findsTheFlowThatATargetTakes() {
        double needed = dilution.number(
                "fraction_needed",
                "concentration_mg_l",
                40,
                "replacement_mg_l",
                5,
                "fraction",
                0,
                "target_mg_l",
                10,
                "mode",
                "continuous");

        assertThat(needed).isCloseTo(Math.log(7), within(1e-12));
    }

    @Test
    void refusesDilutionsThatNobodyCanMake() {
        assertThat(dilution.refusal("concentration_mg_l", 40, "fraction", 1.1).range())
                .satisfies(range -> assertThat(range.input()).isEqualTo("fraction"))
                .satisfies(range -> assertThat(range.high()).isEqualTo(1));
        assertThat(dilution.refusal("concentration_mg_l", 40, "fraction", 0.1, "changes", 1.5)
                        .code())
                .isEqualTo("NOT_WHOLE");
        for (String mode : List.of("batch", "continuous")) {
            CalculationRefused refused = dilution.refusal(
                    "concentration_mg_l", 40, "replacement_mg_l", 10, "fraction", 0.5, "target_mg_l", 9, "mode", mode);
            assertThat(refused.code()).isEqualTo("UNREACHABLE");
            assertThat(refused.range().input()).isEqualTo("target_mg_l");
        }
        dilution.notTaken("volume_l", InputErrors.Code.MISSING, "concentration_mg_l", 40, "changed_l", 5);
        dilution.notTaken("fraction", InputErrors.Code.MISSING, "concentration_mg_l", 40);
    }

    /** Rows DRIP-GROW, DRIP-CONST and DRIP-TIME of the reference table. */
    @Test
    void dripsIntoAGrowingAndIntoAConstantVolume() {
        Object[] growing = {"volume_l", 2, "salinity", 30, "tank_salinity", 35, "drip_ml_min", 20, "time_min", 60};
        assertThat(drip.number("salinity", growing)).isCloseTo(31.875, within(1e-4));
        assertThat(drip.number("volume_l", growing)).isCloseTo(3.2, within(1e-12));
        Object[] constant = {
            "volume_l",
            2,
            "salinity",
            30,
            "tank_salinity",
            35,
            "drip_ml_min",
            20,
            "time_min",
            60,
            "mode",
            "constant-volume",
            "fraction",
            0.9
        };
        assertThat(drip.number("salinity", constant)).isCloseTo(32.2559, within(1e-4));
        assertThat(drip.number("time_needed_min", constant)).isCloseTo(230.26, within(0.1));
        // growing, by hand: V0 q/((1 - q) Q) = 2 x 0.5/(0.5 x 0.02)
        assertThat(drip.number(
                        "time_needed_min",
                        "volume_l",
                        2,
                        "salinity",
                        30,
                        "tank_salinity",
                        35,
                        "drip_ml_min",
                        20,
                        "fraction",
                        0.5))
                .isCloseTo(100, within(1e-9));
        assertThat(drip.calculate(growing).results()).containsEntry("caution", "NO_LONG_DRIP_AFTER_SHIPPING");
        drip.notTaken(
                "time_min",
                InputErrors.Code.MISSING,
                "volume_l",
                2,
                "salinity",
                30,
                "tank_salinity",
                35,
                "drip_ml_min",
                20);
    }

    static Stream<Calculator> bothGroups() {
        return Stream.of(SalinityCalculators.all(), MixingCalculators.all()).flatMap(List::stream);
    }

    /** Numbers exactly on limits, or anywhere between, and any of the inputs that may be left out: an answer or a refusal. */
    @ParameterizedTest
    @MethodSource("bothGroups")
    void answersOrRefusesWhateverLiesWithinTheLimits(Calculator calculator) {
        Random random = new Random(calculator.name().hashCode());
        int answers = 0;
        for (int i = 0; i < 2000; i++) {
            Map<String, Object> given = new HashMap<>();
            for (Input input : calculator.inputs()) {
                if (input.required() || random.nextBoolean()) {
                    given.put(input.name(), value(input, random));
                }
            }
            answers += answers(calculator, given) ? 1 : 0;
        }
        assertThat(answers).isPositive();
    }

    private static boolean answers(Calculator calculator, Map<String, Object> given) {
        try {
            calculator.calculate(given);
            return true;
        } catch (CalculationRefused | InputErrors refused) {
            return false;
        } catch (RuntimeException broken) {
            throw new AssertionError(given.toString(), broken);
        }
    }

    private static Object value(Input input, Random random) {
        return switch (input.kind()) {
            case NUMBER -> number(input, random);
            case SERIES -> List.of(number(input, random), number(input, random));
            case CHOICE -> input.choices().get(random.nextInt(input.choices().size()));
        };
    }

    private static double number(Input input, Random random) {
        return switch (random.nextInt(4)) {
            case 0 -> input.low();
            case 1 -> input.high();
            case 2 -> Math.min(input.high(), input.low() + 60 * random.nextDouble());
            default -> input.low() + (input.high() - input.low()) * random.nextDouble();
        };
    }
}
