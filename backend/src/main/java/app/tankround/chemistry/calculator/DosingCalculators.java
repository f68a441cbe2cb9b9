package app.tankround.chemistry.calculator;

import static app.tankround.chemistry.calculator.Working.number;

import app.tankround.chemistry.Computed;
import app.tankround.chemistry.Limewater;
import app.tankround.chemistry.OxygenSaturation;
import app.tankround.chemistry.Salt;
import app.tankround.chemistry.SaltWater;
import app.tankround.chemistry.SeawaterDensity;
import app.tankround.chemistry.SupplementDose;
import app.tankround.chemistry.SurfaceEvaporation;
import app.tankround.units.Alkalinity;
import app.tankround.units.Mass;
import app.tankround.units.MassConcentration;
import app.tankround.units.Salinity;
import app.tankround.units.Temperature;
import app.tankround.units.Volume;
import java.util.List;

/** What is added to a system, and what leaves it by evaporation. */
final class DosingCalculators {

    private static final double LARGEST_SYSTEM_LITRES = 10_000_000;

    private DosingCalculators() {}

    static List<Calculator> all() {
        return List.of(supplementDose(), limewater(), evaporation(), molarMass());
    }

    private static Calculator supplementDose() {
        return Calculator.named("supplement-dose")
                .source(
                        "Stoichiometry, atomic weights CIAAW 2021; 1 °dKH = 20 / 56.077 meq/L. Heat of anhydrous calcium "
                                + "chloride: common safety advice, from memory")
                .input(
                        Choices.choice("salt", Salt.values()),
                        Input.number("volume_l", "L", 0.001, LARGEST_SYSTEM_LITRES),
                        Input.number("alkalinity_dkh", "°dKH", 0, highest(Salt.Raises.ALKALINITY))
                                .optional(),
                        Input.number("target_alkalinity_dkh", "°dKH", 0, highest(Salt.Raises.ALKALINITY))
                                .optional(),
                        Input.number("calcium_mg_l", "mg/L", 0, highest(Salt.Raises.CALCIUM))
                                .optional(),
                        Input.number("target_calcium_mg_l", "mg/L", 0, highest(Salt.Raises.CALCIUM))
                                .optional(),
                        Input.number("magnesium_mg_l", "mg/L", 0, highest(Salt.Raises.MAGNESIUM))
                                .optional(),
                        Input.number("target_magnesium_mg_l", "mg/L", 0, highest(Salt.Raises.MAGNESIUM))
                                .optional(),
                        Input.number("purity", "1", 0.01, 1).orElse(1))
                .output("mass_g", "g")
                .output("molar_mass_g_mol", "g/mol")
                .output("caution", "")
                .by(DosingCalculators::supplementDose);
    }

    private static Calculation.Results supplementDose(Given given) {
        Salt salt = Choices.chosen(given, "salt", Salt.values());
        String now = switch (salt.raises()) {
            case ALKALINITY -> "alkalinity_dkh";
            case CALCIUM -> "calcium_mg_l";
            case MAGNESIUM -> "magnesium_mg_l";
        };
        for (String other : List.of("alkalinity_dkh", "calcium_mg_l", "magnesium_mg_l")) {
            requireGiven(given, salt, other, other.equals(now));
            requireGiven(given, salt, "target_" + other, other.equals(now));
        }
        double from = given.number(now);
        double to = given.numberWithin("target_" + now, from, highest(salt.raises()), "not below " + now);
        double purity = given.number("purity");
        Volume volume = new Volume(given.number("volume_l"));
        Mass product = salt.raises() == Salt.Raises.ALKALINITY
                ? SupplementDose.forAlkalinity(salt, volume, Alkalinity.ofDkh(from), Alkalinity.ofDkh(to), purity)
                : SupplementDose.forMetal(salt, volume, new MassConcentration(from), new MassConcentration(to), purity);
        double grams = 1000 * product.kilograms();
        Calculation.Results results = Calculation.Results.of("mass_g", grams)
                .and("molar_mass_g_mol", salt.molarMass())
                .working(doseLine(salt, volume, from, to, purity, grams))
                .working("dissolve outside the tank and add slowly; alkalinity and calcium never together");
        if (salt.heatsWhenDissolved()) {
            results.and("caution", "HEATS_WHEN_DISSOLVED")
                    .working(
                            "caution: heats strongly; powder into plenty of cold water, in small lots, goggles and gloves");
        }
        return results;
    }

    /** Beyond what a tank may hold; common practice, no source. */
    private static double highest(Salt.Raises raises) {
        return switch (raises) {
            case ALKALINITY -> 30;
            case CALCIUM -> 1000;
            case MAGNESIUM -> 3000;
        };
    }

    private static void requireGiven(Given given, Salt salt, String input, boolean wanted) {
        if (given.has(input) != wanted) {
            throw new InputErrors(List.of(new InputErrors.InputError(
                    input,
                    wanted ? InputErrors.Code.MISSING : InputErrors.Code.UNKNOWN,
                    wanted ? "must be given" : "is not raised by " + Choices.written(salt))));
        }
    }

    private static String doseLine(Salt salt, Volume volume, double from, double to, double purity, double grams) {
        String millimoles = switch (salt.raises()) {
            case ALKALINITY -> "* 20 / 56.077 meq / " + salt.perMole();
            case CALCIUM -> "/ 40.078";
            case MAGNESIUM -> "/ 24.305";
        };
        return "mass = " + number(volume.litres()) + " L * (" + number(to) + " - " + number(from) + ") " + millimoles
                + " * " + number(salt.molarMass()) + " g/mol / 1000 / " + number(purity) + " = " + number(grams) + " g "
                + salt.formula();
    }

    private static Calculator limewater() {
        return Calculator.named("limewater")
                .source(
                        "Calcium hydroxide: PHREEQC-3 with three databases, Seidell and Linke, falling with temperature as "
                                + "a handbook table; expanded uncertainty 5 %. Safety: ICSC 0408")
                .input(
                        Input.number("temperature_c", "°C", 0, 40)
                                .from("handbook table")
                                .orElse(25),
                        Input.number("saturation", "1", 0.01, 1).orElse(1),
                        Input.number("volume_l", "L", 0.001, LARGEST_SYSTEM_LITRES)
                                .optional(),
                        Input.number("evaporation_l_day", "L/d", 0, 1_000_000).optional(),
                        Input.number("alkalinity_use_dkh_day", "°dKH/d", 0, 30).optional())
                .output("saturated_g_l", "g/L")
                .output("saturated_expanded_uncertainty_g_l", "g/L")
                .output("strength_g_l", "g/L")
                .output("alkalinity_meq_l", "meq/L")
                .output("calcium_mg_l", "mg/L")
                .output("ceiling_l_day", "L/d")
                .output("powder_g_day", "g/d")
                .output("alkalinity_rise_dkh_day", "°dKH/d")
                .output("calcium_rise_mg_l_day", "mg/L/d")
                .output("needed_l_day", "L/d")
                .output("covers_use", "")
                .output("caution", "")
                .by(DosingCalculators::limewater);
    }

    private static Calculation.Results limewater(Given given) {
        Computed saturated = Limewater.saturated(new Temperature(given.number("temperature_c")));
        double strength = given.number("saturation") * saturated.value();
        double milliequivalents = Limewater.alkalinity(strength).milliequivalentsPerLitre();
        double calcium = Limewater.calcium(strength).milligramsPerLitre();
        Calculation.Results results = Calculation.Results.of("saturated_g_l", saturated.value())
                .and("saturated_expanded_uncertainty_g_l", saturated.expandedUncertainty())
                .and("strength_g_l", strength)
                .and("alkalinity_meq_l", milliequivalents)
                .and("calcium_mg_l", calcium)
                .and("caution", "CAUSTIC")
                .working("strength = " + number(given.number("saturation")) + " * " + number(saturated.value()) + " = "
                        + number(strength) + " g/L (saturated ± " + number(saturated.expandedUncertainty()) + ")")
                .working("alkalinity = 2 * 1000 * " + number(strength) + " / 74.092 = " + number(milliequivalents)
                        + " meq/L, calcium = " + number(calcium) + " mg/L");
        if (given.has("evaporation_l_day")) {
            double ceiling = given.number("evaporation_l_day");
            results.and("ceiling_l_day", ceiling)
                    .and("powder_g_day", ceiling * strength)
                    .working("no more than evaporates: " + number(ceiling) + " L/d with " + number(ceiling * strength)
                            + " g of calcium hydroxide");
        }
        if (given.has("volume_l")) {
            perDay(given, new Volume(given.number("volume_l")), strength, results);
        }
        return results.working(
                "caution: caustic, burns skin and eyes; gloves and goggles, no dust, drip it in and watch pH");
    }

    private static void perDay(Given given, Volume held, double strength, Calculation.Results results) {
        Alkalinity byOneLitre = Limewater.alkalinityAdded(strength, new Volume(1), held);
        if (given.has("evaporation_l_day")) {
            Volume ceiling = new Volume(given.number("evaporation_l_day"));
            double rise = Limewater.alkalinityAdded(strength, ceiling, held).inDkh();
            double calcium = Limewater.calciumAdded(strength, ceiling, held).milligramsPerLitre();
            results.and("alkalinity_rise_dkh_day", rise)
                    .and("calcium_rise_mg_l_day", calcium)
                    .working("in " + number(held.litres()) + " L: " + number(rise) + " °dKH and " + number(calcium)
                            + " mg/L of calcium a day at most");
        }
        if (given.has("alkalinity_use_dkh_day")) {
            double use = given.number("alkalinity_use_dkh_day");
            double needed = use / byOneLitre.inDkh();
            results.and("needed_l_day", needed)
                    .working("needed = " + number(use) + " / " + number(byOneLitre.inDkh()) + " = " + number(needed)
                            + " L/d");
            if (given.has("evaporation_l_day")) {
                results.and("covers_use", needed <= given.number("evaporation_l_day"));
            }
        }
    }

    private static Calculator evaporation() {
        String model = "Shah 2014";
        return Calculator.named("evaporation")
                .source(
                        "Shah 2012 and 2014, ASHRAE Transactions, undisturbed indoor surface; scatter 18 % (Shah 2002); "
                                + "vapour pressure by Hyland and Wexler 1983. A measured top-up is better than the estimate")
                .input(
                        Input.number(
                                        "water_temperature_c",
                                        "°C",
                                        SurfaceEvaporation.LOWEST_WATER_CELSIUS,
                                        SurfaceEvaporation.HIGHEST_WATER_CELSIUS)
                                .from(model),
                        Input.number(
                                        "air_temperature_c",
                                        "°C",
                                        SurfaceEvaporation.LOWEST_AIR_CELSIUS,
                                        SurfaceEvaporation.HIGHEST_AIR_CELSIUS)
                                .from(model),
                        Input.number(
                                        "relative_humidity",
                                        "1",
                                        SurfaceEvaporation.LOWEST_HUMIDITY,
                                        SurfaceEvaporation.HIGHEST_HUMIDITY)
                                .from(model),
                        Input.number(
                                        "pressure_kpa",
                                        "kPa",
                                        SurfaceEvaporation.LOWEST_KILOPASCALS,
                                        SurfaceEvaporation.HIGHEST_KILOPASCALS)
                                .orElse(OxygenSaturation.ATMOSPHERE_KILOPASCALS),
                        Input.number("area_m2", "m2", 0.001, 100_000).orElse(1),
                        Input.number("measured_top_up_l_day", "L/d", 0, 1_000_000)
                                .optional(),
                        Input.number("volume_l", "L", 0.001, LARGEST_SYSTEM_LITRES)
                                .optional(),
                        Input.number("salinity", "1", 0, SeawaterDensity.HIGHEST_PUBLISHED_SALINITY)
                                .from("EOS-80")
                                .optional())
                .output("rate_kg_m2_h", "kg/(m2 h)")
                .output("estimate_l_day", "L/d")
                .output("estimate_low_l_day", "L/d")
                .output("estimate_high_l_day", "L/d")
                .output("evaporation_l_day", "L/d")
                .output("basis", "")
                .output("salinity_after_a_day", "1")
                .by(DosingCalculators::evaporation);
    }

    private static Calculation.Results evaporation(Given given) {
        Temperature water = new Temperature(given.number("water_temperature_c"));
        double rate = SurfaceEvaporation.kilogramsPerSquareMetreHour(
                water,
                new Temperature(given.number("air_temperature_c")),
                given.number("relative_humidity"),
                given.number("pressure_kpa"));
        double area = given.number("area_m2");
        double density = SeawaterDensity.ofPureWater(Temperature.ofCelsius(20));
        double estimate = 24 * rate * area * 1000 / density;
        double best = given.optional("measured_top_up_l_day").orElse(estimate);
        Calculation.Results results = Calculation.Results.of("rate_kg_m2_h", rate)
                .and("estimate_l_day", estimate)
                .and("estimate_low_l_day", (1 - SurfaceEvaporation.SCATTER) * estimate)
                .and("estimate_high_l_day", (1 + SurfaceEvaporation.SCATTER) * estimate)
                .and("evaporation_l_day", best)
                .and("basis", given.has("measured_top_up_l_day") ? "MEASURED" : "FIRST_ESTIMATE")
                .working(
                        "24 h * " + number(rate) + " kg/(m2 h) * " + number(area) + " m2 = " + number(estimate)
                                + " L/d of water at 20 °C, ± 18 % for a still surface; fans, overflows and lids change it more");
        if (given.has("volume_l") && given.has("salinity")) {
            Salinity salinity = new Salinity(given.number("salinity"));
            Mass seawater = SaltWater.mass(new Volume(given.number("volume_l")), salinity, water);
            double gone = best * density / 1000;
            Salinity after = SaltWater.afterEvaporation(seawater, salinity, new Mass(gone));
            results.and("salinity_after_a_day", after.practical())
                    .working("without top-up S = " + number(salinity.practical()) + " * "
                            + number(seawater.kilograms()) + " / (" + number(seawater.kilograms()) + " - "
                            + number(gone)
                            + ") = " + number(after.practical()));
        }
        return results;
    }

    private static Calculator molarMass() {
        return Calculator.named("molar-mass")
                .source("Abridged standard atomic weights, CIAAW 2021")
                .input(Choices.choice("salt", Salt.values()))
                .output("molar_mass_g_mol", "g/mol")
                .output("formula", "")
                .by(given -> {
                    Salt salt = Choices.chosen(given, "salt", Salt.values());
                    return Calculation.Results.of("molar_mass_g_mol", salt.molarMass())
                            .and("formula", salt.formula())
                            .working("M(" + salt.formula() + ") = " + number(salt.molarMass()) + " g/mol");
                });
    }
}
