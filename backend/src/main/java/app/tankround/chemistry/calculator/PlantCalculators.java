package app.tankround.chemistry.calculator;

import static app.tankround.chemistry.calculator.Working.number;

import app.tankround.chemistry.ConductivityCompensation;
import app.tankround.chemistry.LiftingEquation;
import app.tankround.chemistry.LiftingEquation.Coupling;
import app.tankround.chemistry.LiftingEquation.Duration;
import app.tankround.chemistry.LiftingEquation.Measures;
import app.tankround.chemistry.LiftingEquation.Multipliers;
import app.tankround.chemistry.PotassiumChlorideStandard;
import app.tankround.chemistry.PracticalSalinity;
import app.tankround.chemistry.ReverseOsmosis;
import app.tankround.chemistry.StandingWave;
import app.tankround.units.Mass;
import app.tankround.units.Salinity;
import app.tankround.units.Temperature;
import java.util.List;
import java.util.OptionalDouble;

/** Purified water and its conductivity, waves in basins, lifting. */
final class PlantCalculators {

    private static final String ISO_7888 = "ISO 7888";
    private static final String NATURAL_WATER = "natural-water";
    private static final String LINEAR = "linear";

    private static final String WEAKER = "0.01-mol-kg";
    private static final String STRONGER = "0.1-mol-kg";
    private static final String SALINITY_35 = "salinity-35";

    /** µS/cm at 25 °C between which ISO 7888 is meant for natural water. */
    private static final double LEAST_NATURAL = 60;

    private static final double MOST_NATURAL = 1000;

    /** Share by which Merian's period may be short before the working warns. */
    private static final double MERIAN_ALLOWED = 0.01;

    private PlantCalculators() {}

    static List<Calculator> all() {
        return List.of(
                conductivityCompensation(),
                conductivityStandard(),
                reverseOsmosis(),
                basinPeriod(),
                wavelength(),
                liftingLimit(),
                liftingCompositeIndex());
    }

    private static Calculator conductivityCompensation() {
        return Calculator.named("conductivity-compensation")
                .source(
                        "ISO 7888:1985 (EN 27888), non-linear factors for natural water, as reprinted; linear: 1 / (1 + alpha "
                                + "(t - reference)), default alpha from 0.01 mol/kg KCl between 20 and 25 °C (Pratt et al. 2001); "
                                + "dissolved solids by the factor given (0.5 on the NaCl scale, up to about 0.7: from memory)")
                .input(
                        Input.number("conductivity_us_cm", "µS/cm", 0, 200_000),
                        Input.number("temperature_c", "°C", 0, ConductivityCompensation.HIGHEST_CELSIUS)
                                .from(ISO_7888),
                        Input.choice("method", NATURAL_WATER, LINEAR).orElse(NATURAL_WATER),
                        Input.number("alpha_per_c", "1/°C", 0, 0.05).orElse(0.0192),
                        Input.number("reference_temperature_c", "°C", 15, 30).orElse(25),
                        Input.number("tds_factor", "mg/L per µS/cm", 0.4, 1).orElse(0.5))
                .output("conductivity_us_cm", "µS/cm")
                .output("factor", "1")
                .output("reference_temperature_c", "°C")
                .output("dissolved_solids_mg_l", "mg/L")
                .output("tds_factor", "mg/L per µS/cm")
                .output("caution", "")
                .by(PlantCalculators::compensated);
    }

    private static Calculation.Results compensated(Given given) {
        Temperature temperature = new Temperature(given.number("temperature_c"));
        double measured = given.number("conductivity_us_cm");
        double highest = ConductivityCompensation.highest(temperature).inMicrosiemensPerCentimetre();
        if (measured > highest) {
            throw new CalculationRefused(
                    "NOT_FRESH_WATER",
                    new CalculationRefused.Range(
                            "conductivity_us_cm", 0, highest, "µS/cm", "salinity 2; use salinity-from-conductivity"));
        }
        double reference = given.number("reference_temperature_c");
        boolean natural = given.choice("method").equals(NATURAL_WATER);
        double factor = natural ? naturalFactor(temperature, reference) : linearFactor(given, temperature, reference);
        double to25 = natural ? naturalFactor(temperature, 25) : linearFactor(given, temperature, 25);
        double compensated = factor * measured;
        double at25 = to25 * measured;
        double solids = given.number("tds_factor") * at25;
        Calculation.Results results = Calculation.Results.of("conductivity_us_cm", compensated)
                .and("factor", factor)
                .and("reference_temperature_c", reference)
                .and("dissolved_solids_mg_l", solids)
                .and("tds_factor", given.number("tds_factor"))
                .working("k(" + number(reference) + " °C) = " + number(factor) + " * " + number(measured) + " = "
                        + number(compensated) + " µS/cm, " + given.choice("method"))
                .working("dissolved solids = " + number(given.number("tds_factor")) + " * " + number(at25)
                        + " µS/cm at 25 °C = " + number(solids) + " mg/L");
        if (natural && (at25 < LEAST_NATURAL || at25 > MOST_NATURAL)) {
            results.and("caution", "OUTSIDE_NATURAL_WATER")
                    .working("caution: the table is meant for natural water of about 60 to 1000 µS/cm");
        }
        return results;
    }

    private static double naturalFactor(Temperature temperature, double reference) {
        if (reference == 25) {
            return ConductivityCompensation.naturalWaterFactorTo25(temperature);
        }
        if (reference == 20) {
            return ConductivityCompensation.naturalWaterFactorTo20(temperature);
        }
        throw new CalculationRefused(
                "NO_TABLE_FOR_REFERENCE",
                new CalculationRefused.Range("reference_temperature_c", 20, 25, "°C, one of both", ISO_7888));
    }

    private static double linearFactor(Given given, Temperature temperature, double reference) {
        return ConductivityCompensation.linearFactor(
                temperature, new Temperature(reference), given.number("alpha_per_c"));
    }

    private static Calculator conductivityStandard() {
        return Calculator.named("conductivity-standard")
                .source(
                        "Pratt, Koch, Wu and Berezansky 2001, Pure Appl. Chem. 73, 1783, as in the CRC Handbook (20, 25 and "
                                + "30 °C read, others from memory); carbon dioxide of the air comes on top. Salinity 35: UNESCO Technical "
                                + "Papers in Marine Science 44, p. 6")
                .input(
                        Input.choice("solution", WEAKER, STRONGER, SALINITY_35),
                        Input.number("temperature_c", "°C", 0, 50).orElse(25))
                .output("conductivity_us_cm", "µS/cm")
                .output("potassium_chloride_g_kg_water", "g/kg")
                .output("potassium_chloride_g_kg_solution", "g/kg")
                .by(PlantCalculators::conductivityStandard);
    }

    private static Calculation.Results conductivityStandard(Given given) {
        if (given.choice("solution").equals(SALINITY_35)) {
            return salinityStandard(given);
        }
        PotassiumChlorideStandard solution = given.choice("solution").equals(WEAKER)
                ? PotassiumChlorideStandard.MOL_PER_KG_0_01
                : PotassiumChlorideStandard.MOL_PER_KG_0_1;
        Temperature temperature = new Temperature(given.number("temperature_c"));
        double conductivity = solution.at(temperature).inMicrosiemensPerCentimetre();
        return Calculation.Results.of("conductivity_us_cm", conductivity)
                .and("potassium_chloride_g_kg_water", solution.gramsPerKilogramOfWater())
                .working("k(" + number(solution.molality()) + " mol/kg KCl, " + number(temperature.celsius())
                        + " °C) = " + number(conductivity) + " µS/cm")
                .working("KCl = " + number(solution.molality()) + " mol/kg * 74.548 g/mol = "
                        + number(solution.gramsPerKilogramOfWater()) + " g for each kg of water");
    }

    /** The scale is tied to this solution at one temperature; at others it is no seawater. */
    private static Calculation.Results salinityStandard(Given given) {
        Temperature temperature = new Temperature(given.numberWithin("temperature_c", 14.99, 15.01, "PSS-78"));
        double conductivity =
                PracticalSalinity.toConductivity(new Salinity(35), temperature).inMicrosiemensPerCentimetre();
        double grams = PotassiumChlorideStandard.GRAMS_PER_KILOGRAM_OF_SALINITY_35;
        return Calculation.Results.of("conductivity_us_cm", conductivity)
                .and("potassium_chloride_g_kg_solution", grams)
                .working(number(grams) + " g of KCl in 1 kg of solution conducts at 15 °C as seawater of salinity 35: "
                        + number(conductivity) + " µS/cm");
    }

    private static Calculator reverseOsmosis() {
        return Calculator.named("ro-performance")
                .source(
                        "Recovery, rejection and concentrate by the balance of water and salt; mean feed-side content ASTM "
                                + "D4516; temperature exp(K (1/(273 + t) - 1/298)), K = 3020 below 25 °C, 2640 from there, thin-film "
                                + "membranes (an industrial membrane manual); others by their own table")
                .input(
                        Input.number("permeate_l_day", "L/d", 0, 1e9).optional(),
                        Input.number("concentrate_l_day", "L/d", 0, 1e9).optional(),
                        Input.number("feed_conductivity_us_cm", "µS/cm", 0.01, 100_000)
                                .optional(),
                        Input.number("permeate_conductivity_us_cm", "µS/cm", 0, 100_000)
                                .optional(),
                        Input.number(
                                        "temperature_c",
                                        "°C",
                                        ReverseOsmosis.LOWEST_CELSIUS,
                                        ReverseOsmosis.HIGHEST_CELSIUS)
                                .from("thin-film membranes")
                                .optional(),
                        Input.number("temperature_correction", "1", 0.3, 4).optional(),
                        Input.number("rated_l_day", "L/d", 0.001, 1e9).optional())
                .output("recovery", "1")
                .output("rejection", "1")
                .output("concentrate_factor", "1")
                .output("concentrate_factor_full_rejection", "1")
                .output("feed_side_factor", "1")
                .output("temperature_correction", "1")
                .output("permeate_at_25_c_l_day", "L/d")
                .output("expected_permeate_l_day", "L/d")
                .output("flow_ratio", "1")
                .output("caution", "")
                .by(PlantCalculators::reverseOsmosis);
    }

    private static Calculation.Results reverseOsmosis(Given given) {
        boolean flows = given.has("permeate_l_day") && given.has("concentrate_l_day");
        boolean contents = given.has("feed_conductivity_us_cm") && given.has("permeate_conductivity_us_cm");
        OptionalDouble correction = correction(given);
        if (!flows && !contents && correction.isEmpty()) {
            throw Choices.missing(
                    "permeate_l_day", "with concentrate_l_day, or both conductivities, or a temperature must be given");
        }
        Calculation.Results results = Calculation.Results.empty();
        double rejection = 1;
        if (contents) {
            double feed = given.number("feed_conductivity_us_cm");
            double permeate = given.number("permeate_conductivity_us_cm");
            rejection = ReverseOsmosis.rejection(feed, permeate);
            results.and("rejection", rejection)
                    .working("rejection = 1 - " + number(permeate) + " / " + number(feed) + " = " + number(rejection));
            if (rejection < 0) {
                results.and("caution", "PERMEATE_WORSE_THAN_FEED")
                        .working(
                                "caution: the permeate carries more than the feed: probes exchanged, or a torn membrane");
            }
        }
        if (flows) {
            recovery(given, contents, rejection, results);
        }
        if (correction.isPresent()) {
            flow(given, correction.getAsDouble(), results);
        }
        return results;
    }

    private static OptionalDouble correction(Given given) {
        if (given.has("temperature_correction")) {
            return given.optional("temperature_correction");
        }
        return given.has("temperature_c")
                ? OptionalDouble.of(
                        ReverseOsmosis.temperatureCorrection(new Temperature(given.number("temperature_c"))))
                : OptionalDouble.empty();
    }

    private static void recovery(Given given, boolean contents, double rejection, Calculation.Results results) {
        double permeate = given.number("permeate_l_day");
        double concentrate = given.number("concentrate_l_day");
        double recovery = ReverseOsmosis.recovery(permeate, concentrate);
        if (recovery > ReverseOsmosis.HIGHEST_RECOVERY) {
            throw new CalculationRefused(
                    CalculationRefused.OUT_OF_RANGE,
                    new CalculationRefused.Range("recovery", 0, ReverseOsmosis.HIGHEST_RECOVERY, "1", ""));
        }
        double full = ReverseOsmosis.concentrateFactor(recovery, 1);
        results.and("recovery", recovery)
                .and("concentrate_factor_full_rejection", full)
                .working("recovery = " + number(permeate) + " / (" + number(permeate) + " + " + number(concentrate)
                        + ") = " + number(recovery))
                .working("concentrate at full rejection = 1 / (1 - " + number(recovery) + ") = " + number(full));
        if (contents && rejection >= 0) {
            results.and("concentrate_factor", ReverseOsmosis.concentrateFactor(recovery, rejection));
        }
        if (recovery > 0) {
            results.and("feed_side_factor", ReverseOsmosis.feedSideFactor(recovery));
        }
    }

    private static void flow(Given given, double correction, Calculation.Results results) {
        results.and("temperature_correction", correction).working("temperature correction = " + number(correction));
        OptionalDouble rated = given.optional("rated_l_day");
        if (rated.isPresent()) {
            double expected = ReverseOsmosis.flowAt(correction, rated.getAsDouble());
            results.and("expected_permeate_l_day", expected)
                    .working("expected = " + number(rated.getAsDouble()) + " / " + number(correction) + " = "
                            + number(expected) + " L/d");
        }
        if (given.has("permeate_l_day")) {
            double permeate = given.number("permeate_l_day");
            double at25 = ReverseOsmosis.flowAt25(correction, permeate);
            results.and("permeate_at_25_c_l_day", at25)
                    .working("at 25 °C = " + number(permeate) + " * " + number(correction) + " = " + number(at25)
                            + " L/d");
            if (rated.isPresent()) {
                results.and("flow_ratio", at25 / rated.getAsDouble());
            }
        }
    }

    private static Calculator basinPeriod() {
        return Calculator.named("basin-period")
                .source(
                        "w2 = g k tanh(k h), k = n pi / L: USACE, Coastal Engineering Manual EM 1110-2-1100, II-1; Merian as "
                                + "its long-wave limit, II-5-26")
                .input(
                        Input.number("length_m", "m", 0.05, 100_000),
                        Input.number("depth_m", "m", 0.01, 10_000),
                        Input.number("mode", "1", 1, 100).orElse(1),
                        gravity())
                .output("period_s", "s")
                .output("frequency_hz", "Hz")
                .output("merian_period_s", "s")
                .output("merian_error", "1")
                .output("caution", "")
                .by(PlantCalculators::basinPeriod);
    }

    private static Input gravity() {
        return Input.number("gravity_m_s2", "m/s2", 9.75, 9.85).orElse(StandingWave.GRAVITY);
    }

    private static Calculation.Results basinPeriod(Given given) {
        double length = given.number("length_m");
        double depth = given.number("depth_m");
        double gravity = given.number("gravity_m_s2");
        double mode = given.number("mode");
        if (mode != Math.floor(mode)) {
            throw new CalculationRefused(
                    "NOT_WHOLE", new CalculationRefused.Range("mode", 1, 100, "whole half waves", ""));
        }
        double period = StandingWave.period(length, depth, (int) mode, gravity);
        double merian = StandingWave.merianPeriod(length, depth, (int) mode, gravity);
        double error = merian / period - 1;
        Calculation.Results results = Calculation.Results.of("period_s", period)
                .and("frequency_hz", 1 / period)
                .and("merian_period_s", merian)
                .and("merian_error", error)
                .working("k = " + number(mode) + " * pi / " + number(length) + " = " + number(mode * Math.PI / length)
                        + " 1/m")
                .working("T = 2 pi / sqrt(g k tanh(k * " + number(depth) + ")) = " + number(period) + " s")
                .working("Merian (long waves only) 2 * " + number(length) + " / (" + number(mode) + " * sqrt("
                        + number(gravity) + " * " + number(depth) + ")) = " + number(merian) + " s, "
                        + number(100 * error) + " %");
        if (Math.abs(error) > MERIAN_ALLOWED) {
            results.and("caution", "MERIAN_TOO_SHORT")
                    .working("caution: too deep for its length; Merian's formula must not be used here");
        }
        return results;
    }

    private static Calculator wavelength() {
        return Calculator.named("wavelength")
                .source(
                        "w2 = g k tanh(k h): USACE, Coastal Engineering Manual EM 1110-2-1100, II-1; check by its equation "
                                + "II-1-11")
                .input(
                        Input.number("period_s", "s", 0.05, 100_000),
                        Input.number("depth_m", "m", 0.01, 10_000),
                        gravity())
                .output("wavelength_m", "m")
                .output("celerity_m_s", "m/s")
                .output("deep_water_wavelength_m", "m")
                .output("approximate_wavelength_m", "m")
                .output("resonant_basin_length_m", "m")
                .by(given -> {
                    double period = given.number("period_s");
                    double depth = given.number("depth_m");
                    double gravity = given.number("gravity_m_s2");
                    double length = StandingWave.wavelength(period, depth, gravity);
                    double deep = StandingWave.deepWaterWavelength(period, gravity);
                    double approximate = StandingWave.approximateWavelength(deep, depth);
                    return Calculation.Results.of("wavelength_m", length)
                            .and("celerity_m_s", length / period)
                            .and("deep_water_wavelength_m", deep)
                            .and("approximate_wavelength_m", approximate)
                            .and("resonant_basin_length_m", length / 2)
                            .working("(2 pi / " + number(period) + ")^2 = g k tanh(k * " + number(depth)
                                    + "), L = 2 pi / k = " + number(length) + " m")
                            .working("check: L0 = g T^2 / (2 pi) = " + number(deep)
                                    + " m, L0 sqrt(tanh(2 pi d / L0)) = " + number(approximate) + " m")
                            .working("stands in a basin of L / 2 = " + number(length / 2)
                                    + " m, and of each multiple of it");
                });
    }

    private static Calculator liftingLimit() {
        return Calculator.named("lifting-limit")
                .source(
                        "Revised NIOSH lifting equation: Waters, Putz-Anderson and Garg, Applications Manual, DHHS (NIOSH) "
                                + "publication 94-110, revised 2021; frequency and coupling tables from memory, examples read")
                .input(
                        Input.number("horizontal_cm", "cm", 0, 200).optional(),
                        Input.number("vertical_cm", "cm", 0, 300).optional(),
                        Input.number("distance_cm", "cm", 0, 300).optional(),
                        Input.number("horizontal_in", "in", 0, 80).optional(),
                        Input.number("vertical_in", "in", 0, 120).optional(),
                        Input.number("distance_in", "in", 0, 120).optional(),
                        Input.number("asymmetry_deg", "°", 0, 180).orElse(0),
                        Input.number("lifts_per_min", "1/min", 0, 60).orElse(0.2),
                        Input.number("minutes_lifting_of_15", "min", 0, 15).orElse(15),
                        Choices.choice("duration", Duration.values()).orElse(Choices.written(Duration.UP_TO_1_HOUR)),
                        Choices.choice("coupling", Coupling.values()).orElse(Choices.written(Coupling.FAIR)),
                        Input.number("load_kg", "kg", 0, 1000).optional(),
                        Input.number("load_lb", "lb", 0, 2200).optional())
                .output("recommended_weight_limit_kg", "kg")
                .output("recommended_weight_limit_lb", "lb")
                .output("lifting_index", "1")
                .output("horizontal_multiplier", "1")
                .output("vertical_multiplier", "1")
                .output("distance_multiplier", "1")
                .output("asymmetry_multiplier", "1")
                .output("frequency_multiplier", "1")
                .output("coupling_multiplier", "1")
                .output("verdict", "")
                .output("caution", "")
                .by(PlantCalculators::liftingLimit);
    }

    private static Calculation.Results liftingLimit(Given given) {
        String horizontal = given.oneOf("horizontal_cm", "horizontal_in");
        Measures measures = horizontal.equals("horizontal_in") ? Measures.US_CUSTOMARY : Measures.METRIC;
        String unit = measures == Measures.US_CUSTOMARY ? "_in" : "_cm";
        for (String length : List.of("vertical", "distance")) {
            String other = length + (measures == Measures.METRIC ? "_in" : "_cm");
            Choices.present(given, horizontal, other);
            if (!given.has(length + unit)) {
                throw Choices.missing(length + unit, "must be given with " + horizontal);
            }
        }
        double vertical = given.number("vertical" + unit);
        double frequency =
                LiftingEquation.adjustedFrequency(given.number("lifts_per_min"), given.number("minutes_lifting_of_15"));
        Multipliers multipliers = new Multipliers(
                measures.horizontalMultiplier(given.number(horizontal)),
                measures.verticalMultiplier(vertical),
                measures.distanceMultiplier(given.number("distance" + unit)),
                LiftingEquation.asymmetryMultiplier(given.number("asymmetry_deg")),
                LiftingEquation.frequencyMultiplier(
                        frequency, Choices.chosen(given, "duration", Duration.values()), measures, vertical),
                Choices.chosen(given, "coupling", Coupling.values()).multiplier(measures, vertical));
        double limit = multipliers.limit(measures.loadConstant());
        Mass mass = measures == Measures.US_CUSTOMARY ? Mass.ofPounds(limit) : new Mass(limit);
        Calculation.Results results = Calculation.Results.of("recommended_weight_limit_kg", mass.kilograms())
                .and("recommended_weight_limit_lb", mass.inPounds())
                .and("horizontal_multiplier", multipliers.horizontal())
                .and("vertical_multiplier", multipliers.vertical())
                .and("distance_multiplier", multipliers.distance())
                .and("asymmetry_multiplier", multipliers.asymmetry())
                .and("frequency_multiplier", multipliers.frequency())
                .and("coupling_multiplier", multipliers.coupling())
                .and("caution", "LOCAL_RULES_FIRST")
                .working("RWL = LC HM VM DM AM FM CM = " + number(measures.loadConstant()) + " * "
                        + number(multipliers.horizontal()) + " * " + number(multipliers.vertical()) + " * "
                        + number(multipliers.distance()) + " * " + number(multipliers.asymmetry()) + " * "
                        + number(multipliers.frequency()) + " * " + number(multipliers.coupling()) + " = "
                        + number(limit) + (measures == Measures.US_CUSTOMARY ? " lb" : " kg"))
                .working(
                        "caution: the local rules for lifting come first; two-handed lifts of a steady load on a dry floor "
                                + "only, no carrying, stairs or one-handed lifts; water sloshes");
        judge(given, mass, results);
        return results;
    }

    private static void judge(Given given, Mass limit, Calculation.Results results) {
        if (limit.kilograms() == 0) {
            results.and("verdict", "NO_LIFT").working("outside the equation: do not lift like this");
            return;
        }
        for (String input : Choices.present(given, "load_kg", "load_lb")) {
            Mass load = input.equals("load_lb") ? Mass.ofPounds(given.number(input)) : new Mass(given.number(input));
            double index = LiftingEquation.liftingIndex(load.kilograms(), limit.kilograms());
            results.and("lifting_index", index)
                    .and("verdict", index > 1 ? "OVER_LIMIT" : "WITHIN_LIMIT")
                    .working("LI = " + number(load.kilograms()) + " kg / " + number(limit.kilograms()) + " kg = "
                            + number(index));
        }
    }

    private static Calculator liftingCompositeIndex() {
        return Calculator.named("lifting-composite-index")
                .source(
                        "Waters, Putz-Anderson and Garg, Applications Manual, DHHS (NIOSH) publication 94-110, revised 2021, "
                                + "2.4.5; frequency table from memory")
                .input(
                        Input.series("loads_kg", "kg", 0, 1000),
                        Input.series("frequency_independent_limits_kg", "kg", 0.1, 23),
                        Input.series("lifts_per_min", "1/min", 0.001, 15),
                        Choices.choice("duration", Duration.values()).orElse(Choices.written(Duration.UP_TO_1_HOUR)),
                        Input.number("vertical_cm", "cm", 0, 175).orElse(0))
                .output("composite_lifting_index", "1")
                .output("single_task_indices", "1")
                .output("caution", "")
                .by(PlantCalculators::compositeIndex);
    }

    private static Calculation.Results compositeIndex(Given given) {
        double[] loads = given.series("loads_kg");
        double[] limits = given.series("frequency_independent_limits_kg");
        double[] frequencies = given.series("lifts_per_min");
        if (limits.length != loads.length || frequencies.length != loads.length) {
            throw new CalculationRefused(
                    "SERIES_DIFFER_IN_LENGTH",
                    new CalculationRefused.Range(
                            limits.length == loads.length ? "lifts_per_min" : "frequency_independent_limits_kg",
                            loads.length,
                            loads.length,
                            "values",
                            "as many as loads_kg"));
        }
        LiftingEquation.Composite composite = LiftingEquation.composite(
                loads,
                limits,
                frequencies,
                f -> LiftingEquation.frequencyMultiplier(
                        f,
                        Choices.chosen(given, "duration", Duration.values()),
                        Measures.METRIC,
                        given.number("vertical_cm")));
        return Calculation.Results.of("composite_lifting_index", composite.index())
                .and("single_task_indices", composite.singleTaskIndices())
                .and("caution", "LOCAL_RULES_FIRST")
                .working("CLI = hardest single-task index + sum of FILI (1 / FM(1..i) - 1 / FM(1..i-1)) = "
                        + number(composite.index()))
                .working("caution: the local rules for lifting come first");
    }
}
