package app.tankround.chemistry.calculator;

import static app.tankround.chemistry.calculator.Working.number;

import app.tankround.chemistry.FreeCarbonDioxide;
import app.tankround.chemistry.Nutrient;
import app.tankround.chemistry.OxygenSaturation;
import app.tankround.chemistry.ReferenceSeawater;
import app.tankround.chemistry.SeawaterDensity;
import app.tankround.chemistry.SupplementDose;
import app.tankround.chemistry.UnionisedAmmonia;
import app.tankround.units.Alkalinity;
import app.tankround.units.Hardness;
import app.tankround.units.MassConcentration;
import app.tankround.units.Salinity;
import app.tankround.units.Temperature;
import java.util.List;

/** What is dissolved in the water: ammonia, oxygen, carbon dioxide, hardness, alkalinity, nutrients. */
final class WaterCalculators {

    private static final String NBS = "NBS";
    private static final String FREE = "free";

    /** mg/L of un-ionised ammonia where harm to fish starts: University of Florida IFAS FA16. */
    private static final double HARMFUL_AMMONIA = 0.05;

    private static final String[] TOTAL_AMMONIA = {
        "total_ammonia_mg_l_n", "total_ammonia_mg_l_nh3", "total_ammonia_mg_l_nh4"
    };
    private static final String[] ALKALINITY = {
        "alkalinity_dkh", "alkalinity_meq_l", "alkalinity_mg_l_caco3", "bicarbonate_mg_l"
    };
    private static final String[] HARDNESS = {
        "hardness_dgh",
        "hardness_mmol_l",
        "hardness_meq_l",
        "hardness_mg_l_caco3",
        "hardness_french_degrees",
        "hardness_english_degrees",
        "hardness_grains_us_gal",
        "calcium_mg_l"
    };

    private WaterCalculators() {}

    static List<Calculator> all() {
        return List.of(
                ammonia(),
                oxygen(),
                carbonDioxide(),
                convertHardness(),
                convertAlkalinity(),
                convertNutrients(),
                referenceSeawater());
    }

    private static Calculator ammonia() {
        return Calculator.named("ammonia-unionised")
                .source(
                        "Fresh water: Emerson et al. 1975, J. Fish. Res. Board Canada 32, 2379. Seawater: Bell et al. 2008, "
                                + "Environ. Chem. 5, 258, equation 3; Clegg and Whitfield 1995, Geochim. Cosmochim. Acta 59, 2403, "
                                + "on the free scale. Blend between salinity 1 and 5: own choice. Harm from 0.05 mg/L: University "
                                + "of Florida IFAS FA16")
                .input(
                        Input.number("salinity", "1", 0, 42),
                        Input.number("ph", "1", 4, 11),
                        Input.number("temperature_c", "°C", 0, 35).from("Emerson, Bell"),
                        Input.temperatureScale(),
                        Input.number(TOTAL_AMMONIA[0], "mg/L", 0, 100).optional(),
                        Input.number(TOTAL_AMMONIA[1], "mg/L", 0, 120).optional(),
                        Input.number(TOTAL_AMMONIA[2], "mg/L", 0, 130).optional(),
                        Choices.choice("model", UnionisedAmmonia.Model.values())
                                .orElse(Choices.written(UnionisedAmmonia.Model.BLEND)),
                        Input.choice("ph_scale", NBS, FREE, "total").orElse(NBS))
                .output("unionised_fraction", "1")
                .output("pka", "1")
                .output("unionised_ammonia_mg_l_n", "mg/L")
                .output("unionised_ammonia_mg_l_nh3", "mg/L")
                .output("caution", "")
                .by(WaterCalculators::ammonia);
    }

    private static Calculation.Results ammonia(Given given) {
        UnionisedAmmonia.Model model = Choices.chosen(given, "model", UnionisedAmmonia.Model.values());
        requireScale(model, given.choice("ph_scale"));
        double ph = given.number("ph");
        Temperature temperature = given.temperature("temperature_c");
        Salinity salinity = new Salinity(given.number("salinity"));
        double fraction = UnionisedAmmonia.fraction(model, ph, temperature, salinity);
        Calculation.Results results = Calculation.Results.of("unionised_fraction", fraction);
        UnionisedAmmonia.Model inEffect = UnionisedAmmonia.inEffect(model, salinity);
        if (inEffect == UnionisedAmmonia.Model.BLEND) {
            results.working("S = " + number(salinity.practical())
                    + ": a straight line from the share by Emerson at 1 to the share by Bell at 5");
            results.working("fraction = " + number(fraction) + " at pH " + number(ph));
        } else {
            double pka = UnionisedAmmonia.pka(inEffect, temperature, salinity);
            results.and("pka", pka);
            results.working("pKa = " + number(pka) + " by " + Choices.written(inEffect) + " at "
                    + number(temperature.celsius()) + " °C, S = " + number(salinity.practical()));
            results.working("fraction = 1 / (1 + 10^(" + number(pka) + " - " + number(ph) + ")) = " + number(fraction));
        }
        for (String input : Choices.present(given, TOTAL_AMMONIA)) {
            double total = given.number(input);
            double perNitrogen = switch (input) {
                case "total_ammonia_mg_l_nh3" -> Nutrient.AMMONIA.wholePerElement();
                case "total_ammonia_mg_l_nh4" -> Nutrient.AMMONIUM.wholePerElement();
                default -> 1;
            };
            MassConcentration nitrogen =
                    UnionisedAmmonia.of(new MassConcentration(total / perNitrogen), model, ph, temperature, salinity);
            double asNitrogen = nitrogen.milligramsPerLitre();
            double asAmmonia = asNitrogen * Nutrient.AMMONIA.wholePerElement();
            results.and("unionised_ammonia_mg_l_n", asNitrogen)
                    .and("unionised_ammonia_mg_l_nh3", asAmmonia)
                    .working("total as N = " + number(total) + " / " + number(perNitrogen) + " = "
                            + number(total / perNitrogen) + " mg/L")
                    .working("NH3-N = " + number(fraction) + " * " + number(total / perNitrogen) + " = "
                            + number(asNitrogen) + " mg/L")
                    .working("NH3 = " + number(asNitrogen) + " * " + number(Nutrient.AMMONIA.wholePerElement()) + " = "
                            + number(asAmmonia) + " mg/L");
            if (asAmmonia >= HARMFUL_AMMONIA) {
                results.and("caution", "AMMONIA_HARMFUL")
                        .working("caution: harm to fish starts near 0.05 mg/L NH3; raising pH now raises it further");
            }
        }
        return results;
    }

    private static void requireScale(UnionisedAmmonia.Model model, String scale) {
        String own = model == UnionisedAmmonia.Model.CLEGG_WHITFIELD ? FREE : NBS;
        if (!scale.equals(own)) {
            throw new CalculationRefused(
                    "PH_SCALE_MISMATCH",
                    new CalculationRefused.Range("ph_scale", 4, 11, "pH, " + own + " scale", Choices.written(model)));
        }
    }

    private static Calculator oxygen() {
        String model = "Benson and Krause 1984";
        return Calculator.named("oxygen-saturation")
                .source(
                        "Benson and Krause 1984, Limnol. Oceanogr. 29, 620, in the form of Standard Methods 4500-O, vapour "
                                + "pressure by Green and Carritt 1967; check by Garcia and Gordon 1992, Limnol. Oceanogr. 37, 1307")
                .input(
                        Input.number("temperature_c", "°C", 0, 40).from(model),
                        Input.temperatureScale(),
                        Input.number("salinity", "1", 0, 40).from(model),
                        Input.number(
                                        "pressure_kpa",
                                        "kPa",
                                        OxygenSaturation.LOWEST_KILOPASCALS,
                                        OxygenSaturation.HIGHEST_KILOPASCALS)
                                .from(model)
                                .orElse(OxygenSaturation.ATMOSPHERE_KILOPASCALS),
                        Input.number("oxygen_mg_l", "mg/L", 0, 60).optional())
                .output("saturation_mg_l", "mg/L")
                .output("saturation_percent", "%")
                .output("garcia_gordon_mg_l", "mg/L")
                .output("garcia_gordon_umol_kg", "µmol/kg")
                .by(WaterCalculators::oxygen);
    }

    private static Calculation.Results oxygen(Given given) {
        Temperature temperature = given.temperature("temperature_c");
        Salinity salinity = new Salinity(given.number("salinity"));
        double pressure = given.number("pressure_kpa");
        double saturation =
                OxygenSaturation.bensonKrause(temperature, salinity, pressure).milligramsPerLitre();
        double atOne = OxygenSaturation.bensonKrause(temperature, salinity, OxygenSaturation.ATMOSPHERE_KILOPASCALS)
                .milligramsPerLitre();
        double check = OxygenSaturation.garciaGordon(temperature, salinity).milligramsPerLitre();
        Calculation.Results results = Calculation.Results.of("saturation_mg_l", saturation)
                .and("garcia_gordon_mg_l", check)
                .and("garcia_gordon_umol_kg", OxygenSaturation.garciaGordonMicromolesPerKilogram(temperature, salinity))
                .working("C(t = " + number(temperature.celsius()) + " °C, S = " + number(salinity.practical())
                        + ", 101.325 kPa) = " + number(atOne) + " mg/L")
                .working("C * (P - Pwv)(1 - theta P) / ((1 - Pwv)(1 - theta)) at P = " + number(pressure) + " kPa = "
                        + number(saturation) + " mg/L")
                .working("check at 101.325 kPa by Garcia and Gordon: " + number(check) + " mg/L");
        if (given.has("oxygen_mg_l")) {
            double measured = given.number("oxygen_mg_l");
            double percent = 100 * measured / saturation;
            results.and("saturation_percent", percent)
                    .working("100 * " + number(measured) + " / " + number(saturation) + " = " + number(percent) + " %");
        }
        return results;
    }

    private static Calculator carbonDioxide() {
        return Calculator.named("free-co2")
                .source(
                        "USGS, Skougstad et al. 1979, TWRI 5-A1, p. 280: CO2 = 1.60 * 10^(6 - pH) * HCO3; Tucker 1984, table "
                                + "of factors (0.211 at 20 and 0.197 at 25 °C and pH 7 read, others from memory)")
                .input(
                        Input.number("salinity", "1", 0, 50).orElse(0),
                        Input.number("ph", "1", FreeCarbonDioxide.LOWEST_PH, FreeCarbonDioxide.HIGHEST_PH)
                                .from("alkalinity as bicarbonate"),
                        Input.number("temperature_c", "°C", 5, 35)
                                .from("Tucker 1984")
                                .optional(),
                        Input.number(ALKALINITY[0], "°dKH", 0, 30).optional(),
                        Input.number(ALKALINITY[1], "meq/L", 0, 11).optional(),
                        Input.number(ALKALINITY[2], "mg/L", 0, 540).optional(),
                        Input.number(ALKALINITY[3], "mg/L", 0, 660).optional())
                .output("carbon_dioxide_mg_l", "mg/L")
                .output("carbon_dioxide_usgs_mg_l", "mg/L")
                .output("carbon_dioxide_tucker_mg_l", "mg/L")
                .output("caution", "")
                .by(WaterCalculators::carbonDioxide);
    }

    private static Calculation.Results carbonDioxide(Given given) {
        Salinity salinity = new Salinity(given.number("salinity"));
        double ph = given.number("ph");
        Alkalinity alkalinity = alkalinity(given);
        MassConcentration bicarbonate = FreeCarbonDioxide.bicarbonate(alkalinity);
        double usgs = FreeCarbonDioxide.usgs(ph, bicarbonate, salinity).milligramsPerLitre();
        double best = usgs;
        Calculation.Results results = Calculation.Results.of("carbon_dioxide_usgs_mg_l", usgs)
                .working("USGS, about 25 °C: 1.60 * 10^(6 - " + number(ph) + ") * "
                        + number(bicarbonate.milligramsPerLitre()) + " mg/L HCO3 = " + number(usgs) + " mg/L");
        if (given.has("temperature_c")) {
            double celsius = given.number("temperature_c");
            best = FreeCarbonDioxide.tucker(ph, alkalinity, new Temperature(celsius), salinity)
                    .milligramsPerLitre();
            double caco3 = alkalinity.inMilligramsPerLitreCalciumCarbonate();
            double factor = FreeCarbonDioxide.tuckerFactor(ph, new Temperature(celsius));
            results.and("carbon_dioxide_tucker_mg_l", best)
                    .working("Tucker at " + number(celsius) + " °C: " + number(factor) + " * " + number(caco3)
                            + " mg/L CaCO3 = " + number(best) + " mg/L");
        }
        return results.and("carbon_dioxide_mg_l", best)
                .and("caution", "ALKALINITY_TAKEN_AS_BICARBONATE")
                .working(
                        "caution: phosphate, humic acids and borate carry alkalinity too; with them both forms give too much");
    }

    private static Alkalinity alkalinity(Given given) {
        String input = given.oneOf(ALKALINITY);
        double value = given.number(input);
        return switch (input) {
            case "alkalinity_dkh" -> Alkalinity.ofDkh(value);
            case "alkalinity_mg_l_caco3" -> Alkalinity.ofMilligramsPerLitreCalciumCarbonate(value);
            case "bicarbonate_mg_l" -> FreeCarbonDioxide.alkalinity(new MassConcentration(value));
            default -> new Alkalinity(value);
        };
    }

    private static Calculator convertAlkalinity() {
        return Calculator.named("convert-alkalinity")
                .source("1 °dKH = 10 mg/L CaO; molar masses CIAAW 2021; as bicarbonate if nothing else carries it")
                .input(
                        Input.number(ALKALINITY[0], "°dKH", 0, 1000).optional(),
                        Input.number(ALKALINITY[1], "meq/L", 0, 1000).optional(),
                        Input.number(ALKALINITY[2], "mg/L", 0, 50_000).optional(),
                        Input.number(ALKALINITY[3], "mg/L", 0, 50_000).optional())
                .output(ALKALINITY[0], "°dKH")
                .output(ALKALINITY[1], "meq/L")
                .output(ALKALINITY[2], "mg/L")
                .output(ALKALINITY[3], "mg/L")
                .output("calcium_taken_mg_l", "mg/L")
                .by(WaterCalculators::convertAlkalinity);
    }

    private static Calculation.Results convertAlkalinity(Given given) {
        Alkalinity alkalinity = alkalinity(given);
        double milliequivalents = alkalinity.milliequivalentsPerLitre();
        double calcium = SupplementDose.calciumTakenWith(alkalinity).milligramsPerLitre();
        return Calculation.Results.of(ALKALINITY[0], alkalinity.inDkh())
                .and(ALKALINITY[1], milliequivalents)
                .and(ALKALINITY[2], alkalinity.inMilligramsPerLitreCalciumCarbonate())
                .and(ALKALINITY[3], FreeCarbonDioxide.bicarbonate(alkalinity).milligramsPerLitre())
                .and("calcium_taken_mg_l", calcium)
                .working(number(milliequivalents) + " meq/L = " + number(alkalinity.inDkh()) + " °dKH * 20 / 56.077")
                .working("calcification takes " + number(calcium) + " mg/L of calcium with it (Ca + 2 HCO3 -> CaCO3)");
    }

    private static Calculator convertHardness() {
        return Calculator.named("convert-hardness")
                .source(
                        "1 °dGH = 10 mg/L CaO, 1 French degree = 10 mg/L CaCO3, 1 English degree = 1 grain in an imperial "
                                + "gallon, 1 grain = 64.79891 mg; molar masses CIAAW 2021")
                .input(
                        Input.number(HARDNESS[0], "°dGH", 0, 1000).optional(),
                        Input.number(HARDNESS[1], "mmol/L", 0, 200).optional(),
                        Input.number(HARDNESS[2], "meq/L", 0, 400).optional(),
                        Input.number(HARDNESS[3], "mg/L", 0, 20_000).optional(),
                        Input.number(HARDNESS[4], "°fH", 0, 2000).optional(),
                        Input.number(HARDNESS[5], "°e", 0, 1500).optional(),
                        Input.number(HARDNESS[6], "gr/US gal", 0, 1200).optional(),
                        Input.number(HARDNESS[7], "mg/L", 0, 5000).optional(),
                        Input.number("magnesium_mg_l", "mg/L", 0, 5000).optional())
                .output(HARDNESS[0], "°dGH")
                .output(HARDNESS[1], "mmol/L")
                .output(HARDNESS[2], "meq/L")
                .output(HARDNESS[3], "mg/L")
                .output(HARDNESS[4], "°fH")
                .output(HARDNESS[5], "°e")
                .output(HARDNESS[6], "gr/US gal")
                .output("as_calcium_mg_l", "mg/L")
                .output("as_magnesium_mg_l", "mg/L")
                .by(WaterCalculators::convertHardness);
    }

    private static Calculation.Results convertHardness(Given given) {
        Hardness hardness = hardness(given);
        return Calculation.Results.of(HARDNESS[0], hardness.inDgh())
                .and(HARDNESS[1], hardness.millimolesPerLitre())
                .and(HARDNESS[2], hardness.inMilliequivalentsPerLitre())
                .and(HARDNESS[3], hardness.inMilligramsPerLitreCalciumCarbonate())
                .and(HARDNESS[4], hardness.inFrenchDegrees())
                .and(HARDNESS[5], hardness.inEnglishDegrees())
                .and(HARDNESS[6], hardness.inGrainsPerUsGallon())
                .and("as_calcium_mg_l", hardness.asMilligramsPerLitreCalcium())
                .and("as_magnesium_mg_l", hardness.asMilligramsPerLitreMagnesium())
                .working(number(hardness.millimolesPerLitre()) + " mmol/L = " + number(hardness.inDgh())
                        + " °dGH * 10 / 56.077 = "
                        + number(hardness.inMilligramsPerLitreCalciumCarbonate()) + " mg/L CaCO3 / 100.087");
    }

    private static Hardness hardness(Given given) {
        if (given.has("magnesium_mg_l") && !given.has("calcium_mg_l")) {
            throw Choices.missing("calcium_mg_l", "must be given with magnesium_mg_l; 0 if there is none");
        }
        String input = given.oneOf(HARDNESS);
        double value = given.number(input);
        return switch (input) {
            case "hardness_dgh" -> Hardness.ofDgh(value);
            case "hardness_meq_l" -> Hardness.ofMilliequivalentsPerLitre(value);
            case "hardness_mg_l_caco3" -> Hardness.ofMilligramsPerLitreCalciumCarbonate(value);
            case "hardness_french_degrees" -> Hardness.ofFrenchDegrees(value);
            case "hardness_english_degrees" -> Hardness.ofEnglishDegrees(value);
            case "hardness_grains_us_gal" -> Hardness.ofGrainsPerUsGallon(value);
            case "calcium_mg_l" ->
                Hardness.ofCalciumAndMagnesium(
                        new MassConcentration(value),
                        new MassConcentration(given.optional("magnesium_mg_l").orElse(0)));
            default -> Hardness.ofMillimolesPerLitre(value);
        };
    }

    private static Calculator convertNutrients() {
        return Calculator.named("convert-nutrients")
                .source("Stoichiometry, atomic weights CIAAW 2021: NO3 / N = 4.427, PO4 / P = 3.066")
                .input(
                        Choices.choice("nutrient", Nutrient.values()),
                        Input.number("whole_mg_l", "mg/L", 0, 10_000).optional(),
                        Input.number("element_mg_l", "mg/L", 0, 10_000).optional())
                .output("whole_mg_l", "mg/L")
                .output("element_mg_l", "mg/L")
                .output("amount_umol_l", "µmol/L")
                .by(WaterCalculators::convertNutrients);
    }

    private static Calculation.Results convertNutrients(Given given) {
        Nutrient nutrient = Choices.chosen(given, "nutrient", Nutrient.values());
        double ratio = nutrient.wholePerElement();
        boolean asWhole = given.oneOf("whole_mg_l", "element_mg_l").equals("whole_mg_l");
        double element = asWhole ? given.number("whole_mg_l") / ratio : given.number("element_mg_l");
        double amount = 1000 * element / nutrient.elementMolarMass();
        return Calculation.Results.of("whole_mg_l", element * ratio)
                .and("element_mg_l", element)
                .and("amount_umol_l", amount)
                .working(number(element) + " mg/L " + nutrient.element() + " * " + number(ratio) + " = "
                        + number(element * ratio) + " mg/L " + nutrient.formula());
    }

    private static Calculator referenceSeawater() {
        return Calculator.named("reference-seawater")
                .source(
                        "Millero, Feistel, Wright and McDougall 2008, Deep-Sea Res. I 55, 50, reference composition; density "
                                + "by EOS-80")
                .input(
                        Input.number("salinity", "1", 0, SeawaterDensity.HIGHEST_PUBLISHED_SALINITY)
                                .from("EOS-80"),
                        Input.number(
                                        "temperature_c",
                                        "°C",
                                        SeawaterDensity.LOWEST_CELSIUS,
                                        SeawaterDensity.HIGHEST_CELSIUS)
                                .from("EOS-80")
                                .orElse(25),
                        Input.temperatureScale())
                .output("calcium_mg_l", "mg/L")
                .output("magnesium_mg_l", "mg/L")
                .output("potassium_mg_l", "mg/L")
                .output("strontium_mg_l", "mg/L")
                .output("alkalinity_meq_l", "meq/L")
                .output("alkalinity_dkh", "°dKH")
                .output("density_kg_m3", "kg/m3")
                .by(WaterCalculators::referenceSeawater);
    }

    private static Calculation.Results referenceSeawater(Given given) {
        Salinity salinity = new Salinity(given.number("salinity"));
        double density = SeawaterDensity.ofSeawater(salinity, given.temperature("temperature_c"))
                .value();
        double perKilogram = ReferenceSeawater.alkalinityMillimolesPerKilogram(salinity);
        double calcium = ReferenceSeawater.milligramsPerKilogram(ReferenceSeawater.Ion.CALCIUM, salinity);
        Alkalinity alkalinity = new Alkalinity(perKilogram * density / 1000);
        return Calculation.Results.of("calcium_mg_l", calcium * density / 1000)
                .and("magnesium_mg_l", perLitre(ReferenceSeawater.Ion.MAGNESIUM, salinity, density))
                .and("potassium_mg_l", perLitre(ReferenceSeawater.Ion.POTASSIUM, salinity, density))
                .and("strontium_mg_l", perLitre(ReferenceSeawater.Ion.STRONTIUM, salinity, density))
                .and("alkalinity_meq_l", alkalinity.milliequivalentsPerLitre())
                .and("alkalinity_dkh", alkalinity.inDkh())
                .and("density_kg_m3", density)
                .working("Ca = " + number(calcium) + " mg/kg * " + number(density) + " / 1000 = "
                        + number(calcium * density / 1000) + " mg/L; the other ions alike")
                .working("alkalinity = (HCO3 + 2 CO3 + B(OH)4 + OH = " + number(perKilogram) + " mmol/kg) * "
                        + number(density) + " / 1000 = " + number(alkalinity.milliequivalentsPerLitre()) + " meq/L");
    }

    private static double perLitre(ReferenceSeawater.Ion ion, Salinity salinity, double density) {
        return ReferenceSeawater.milligramsPerKilogram(ion, salinity) * density / 1000;
    }
}
