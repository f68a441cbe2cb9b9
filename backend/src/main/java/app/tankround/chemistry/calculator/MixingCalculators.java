package app.tankround.chemistry.calculator;

import app.tankround.chemistry.Dilution;
import app.tankround.chemistry.SalinityRamp;
import app.tankround.chemistry.SaltWater;
import app.tankround.chemistry.SeawaterDensity;
import app.tankround.units.Mass;
import app.tankround.units.Salinity;
import app.tankround.units.Temperature;
import app.tankround.units.Volume;
import java.util.ArrayList;
import java.util.List;

/** Making salt water, changing what a system holds, and getting animals used to it. */
final class MixingCalculators {

    /** Dry salt burns what it lands on and leaves a layer of brine. */
    static final String DISSOLVE_OUTSIDE = "DISSOLVE_OUTSIDE_NEVER_INTO_STOCKED_TANK";

    /** In a bag from a journey, pH rises once it is open, and ammonium turns to ammonia. */
    static final String NOT_LONG_AFTER_SHIPPING = "NO_LONG_DRIP_AFTER_SHIPPING";

    private static final double LARGEST_LITRES = 1e6;

    /** What is divided by is more than nothing. */
    private static final double SMALLEST_LITRES = 0.001;

    /** Lists of what is left after each change end here. */
    private static final int LONGEST_LIST = 100;

    private static final String BALANCE = "balance of masses with EOS-80 densities (Fofonoff and Millard 1983, UNESCO "
            + "Technical Papers in Marine Science 44); g of salt per kg = 35.16504/35 S (Millero et al. 2008, Deep-Sea "
            + "Research 55, 50)";
    private static final String DILUTION = "balance of what is dissolved, exact algebra";
    private static final String RATE = "rate of change per day: common practice, no source";
    private static final String NEVER_DRY = "dry salt never goes into a stocked tank";

    private MixingCalculators() {}

    static List<Calculator> all() {
        return List.of(
                saltMass(), blend(), raiseSalinity(), lowerSalinity(), salinityKinds(), dilution(), dripAcclimation());
    }

    private static Calculator saltMass() {
        return Calculator.named("salt-mass")
                .source(BALANCE)
                .input(
                        SalinityCalculators.salinity("salinity"),
                        litres("volume_l").optional(),
                        Input.number("mass_kg", "kg", 0, LARGEST_LITRES).optional(),
                        SalinityCalculators.temperature("temperature_c").orElse(25),
                        SalinityCalculators.temperature("water_temperature_c").orElse(20),
                        saltYield(),
                        Input.temperatureScale())
                .output("product_kg", "kg")
                .output("salt_kg", "kg")
                .output("water_l", "L")
                .output("water_kg", "kg")
                .output("mass_kg", "kg")
                .output("volume_l", "L")
                .output("extrapolated", "")
                .output("caution", "")
                .by(MixingCalculators::mix);
    }

    private static Calculation.Results mix(Given given) {
        Salinity salinity = new Salinity(given.number("salinity"));
        Temperature temperature = given.temperature("temperature_c");
        Temperature waterTemperature = given.temperature("water_temperature_c");
        double yield = given.number("yield");
        Volume volume = given.oneOf("volume_l", "mass_kg").equals("volume_l")
                ? new Volume(given.number("volume_l"))
                : SaltWater.volume(new Mass(given.number("mass_kg")), salinity, temperature);
        SaltWater.Batch batch = SaltWater.mix(volume, salinity, temperature, waterTemperature, yield);
        double seawater = batch.seawater().kilograms();
        double product = batch.product().kilograms();
        double water = seawater - product;
        return Calculation.Results.of("product_kg", product)
                .and("salt_kg", batch.anhydrousSalt().kilograms())
                .and("water_l", batch.water().litres())
                .and("water_kg", water)
                .and("mass_kg", seawater)
                .and("volume_l", volume.litres())
                .and("extrapolated", SalinityCalculators.extrapolated(salinity))
                .and("caution", DISSOLVE_OUTSIDE)
                .working("seawater = " + n(volume.litres()) + " L x "
                        + n(SeawaterDensity.ofSeawater(salinity, temperature).value()) + " kg/m3 / 1000 = "
                        + n(seawater)
                        + " kg")
                .working("salt = " + n(seawater) + " kg x " + n(SaltWater.gramsPerKilogram(salinity))
                        + " g/kg / 1000 = " + n(batch.anhydrousSalt().kilograms()) + " kg without water")
                .working("product = " + n(batch.anhydrousSalt().kilograms()) + " kg / yield " + n(yield) + " = "
                        + n(product) + " kg")
                .working("RO/DI water = " + n(seawater) + " kg - " + n(product) + " kg = " + n(water) + " kg = "
                        + n(batch.water().litres()) + " L at " + n(waterTemperature.celsius()) + " °C")
                .working("dissolve and mix it in a vat of its own; " + NEVER_DRY);
    }

    private static Calculator blend() {
        return Calculator.named("blend")
                .source(BALANCE)
                .input(
                        Input.series("salinities", "1", 0, SeawaterDensity.HIGHEST_SALINITY)
                                .from(SalinityCalculators.EOS_80_EXTENDED)
                                .withAtLeast(2),
                        Input.series("volumes_l", "L", 0, LARGEST_LITRES)
                                .withAtLeast(2)
                                .optional(),
                        Input.series("masses_kg", "kg", 0, LARGEST_LITRES)
                                .withAtLeast(2)
                                .optional(),
                        SalinityCalculators.temperature("temperature_c").orElse(25),
                        Input.temperatureScale())
                .output("salinity", "1")
                .output("mass_kg", "kg")
                .output("salt_kg", "kg")
                .output("volume_l", "L")
                .output("extrapolated", "")
                .by(MixingCalculators::poured);
    }

    private static Calculation.Results poured(Given given) {
        Temperature temperature = given.temperature("temperature_c");
        double[] salinities = given.series("salinities");
        String amountsName = given.oneOf("volumes_l", "masses_kg");
        double[] amounts = given.series(amountsName);
        if (amounts.length != salinities.length) {
            throw new CalculationRefused(
                    "LENGTHS_DIFFER",
                    new CalculationRefused.Range(amountsName, salinities.length, salinities.length, "values", ""));
        }
        boolean byVolume = amountsName.equals("volumes_l");
        List<SaltWater.Water> waters = new ArrayList<>();
        List<String> lines = new ArrayList<>();
        double together = 0;
        double salt = 0;
        for (int i = 0; i < amounts.length; i++) {
            Salinity salinity = new Salinity(salinities[i]);
            Mass mass = byVolume ? SaltWater.mass(new Volume(amounts[i]), salinity, temperature) : new Mass(amounts[i]);
            waters.add(new SaltWater.Water(mass, salinity));
            double kilograms = mass.kilograms();
            double dissolved = kilograms * SaltWater.gramsPerKilogram(salinity) / 1000;
            together += kilograms;
            salt += dissolved;
            lines.add(n(kilograms) + " kg of S = " + n(salinities[i]) + " holds " + n(dissolved) + " kg of salt");
        }
        Salinity blended = SaltWater.blend(waters);
        Mass mass = new Mass(together);
        Calculation.Results results = Calculation.Results.of("salinity", blended.practical())
                .and("mass_kg", together)
                .and("salt_kg", salt)
                .and("volume_l", SaltWater.volume(mass, blended, temperature).litres())
                .and("extrapolated", SalinityCalculators.extrapolated(blended));
        lines.forEach(results::working);
        return results.working(
                "S = " + n(salt) + " kg / " + n(together) + " kg x 1000 / (35.16504/35) = " + n(blended.practical()));
    }

    private static Calculator raiseSalinity() {
        return Calculator.named("raise-salinity")
                .source(BALANCE + "; " + RATE)
                .input(
                        SalinityCalculators.salinity("salinity"),
                        SalinityCalculators.salinity("target_salinity"),
                        litres("volume_l"),
                        SalinityCalculators.temperature("temperature_c").orElse(25),
                        saltYield(),
                        SalinityCalculators.salinity("replacement_salinity").optional(),
                        perDay(SalinityRamp.RAISING_PER_DAY),
                        Input.temperatureScale())
                .output("product_kg", "kg")
                .output("salt_kg", "kg")
                .output("exchange_l", "L")
                .output("exchange_fraction", "1")
                .output("days_at_least", "d")
                .output("extrapolated", "")
                .output("caution", "")
                .by(MixingCalculators::raise);
    }

    private static Calculation.Results raise(Given given) {
        Salinity from = given.salinity("salinity");
        given.salinity("target_salinity");
        Salinity to = new Salinity(given.numberWithin(
                "target_salinity", from.practical(), SeawaterDensity.HIGHEST_SALINITY, "the present salinity"));
        Temperature temperature = given.temperature("temperature_c");
        Volume volume = new Volume(given.number("volume_l"));
        if (given.has("replacement_salinity")) {
            return exchanged(given, from, to, volume, temperature);
        }
        double yield = given.number("yield");
        double product =
                SaltWater.productToRaise(volume, from, to, temperature, yield).kilograms();
        double present = SaltWater.mass(volume, from, temperature).kilograms();
        String wanted = n(SaltWater.gramsPerKilogram(to));
        Calculation.Results results = Calculation.Results.of("product_kg", product)
                .and("salt_kg", product * yield)
                .and("caution", DISSOLVE_OUTSIDE)
                .working("present = " + n(volume.litres()) + " L = " + n(present) + " kg of "
                        + n(SaltWater.gramsPerKilogram(from)) + " g/kg")
                .working("product = " + n(present) + " kg x (" + wanted + " - " + n(SaltWater.gramsPerKilogram(from))
                        + ") / (1000 x " + n(yield) + " - " + wanted + ") = " + n(product) + " kg")
                .working("dissolve and mix it outside, in water taken from the system and given back slowly; "
                        + NEVER_DRY);
        return withDays(results, given, from, to);
    }

    private static Calculator lowerSalinity() {
        return Calculator.named("lower-salinity")
                .source(BALANCE + "; " + RATE)
                .input(
                        SalinityCalculators.salinity("salinity"),
                        SalinityCalculators.salinity("target_salinity"),
                        litres("volume_l"),
                        SalinityCalculators.temperature("temperature_c").orElse(25),
                        SalinityCalculators.salinity("replacement_salinity").orElse(0),
                        perDay(SalinityRamp.LOWERING_PER_DAY_AT_MOST).orElse(SalinityRamp.LOWERING_PER_DAY),
                        Input.temperatureScale())
                .output("exchange_l", "L")
                .output("exchange_fraction", "1")
                .output("days_at_least", "d")
                .output("extrapolated", "")
                .by(MixingCalculators::lower);
    }

    private static Calculation.Results lower(Given given) {
        Salinity from = given.salinity("salinity");
        given.salinity("target_salinity");
        Salinity to = new Salinity(given.numberWithin("target_salinity", 0, from.practical(), "the present salinity"));
        return exchanged(given, from, to, new Volume(given.number("volume_l")), given.temperature("temperature_c"));
    }

    /** What is taken out and put back, by volume at one temperature. */
    private static Calculation.Results exchanged(
            Given given, Salinity from, Salinity to, Volume volume, Temperature temperature) {
        Salinity replacement = given.salinity("replacement_salinity");
        double exchange = SaltWater.volumeToSwap(volume, from, to, replacement, temperature)
                .litres();
        String present = n(SeawaterDensity.ofSeawater(from, temperature).value());
        String added = n(SeawaterDensity.ofSeawater(replacement, temperature).value());
        String s1 = n(from.practical());
        String s2 = n(to.practical());
        String sn = n(replacement.practical());
        Calculation.Results results = Calculation.Results.of("exchange_l", exchange)
                .and("exchange_fraction", volume.litres() > 0 ? exchange / volume.litres() : 0)
                .working("S1 = " + s1 + " (" + present + " kg/m3), new water Sn = " + sn + " (" + added
                        + " kg/m3), wanted S2 = " + s2)
                .working("x = V r1 (S1 - S2) / (r1 (S1 - S2) + rn (S2 - Sn)) = " + n(exchange) + " L of "
                        + n(volume.litres()) + " L out and as much in");
        return withDays(results, given, from, to);
    }

    private static Calculation.Results withDays(Calculation.Results results, Given given, Salinity from, Salinity to) {
        double perDay = given.number("per_day");
        int days = SalinityRamp.plan(from, to, perDay).visits();
        double replacement = given.optional("replacement_salinity").orElse(0);
        return results.and("days_at_least", days)
                .and(
                        "extrapolated",
                        SalinityCalculators.extrapolated(from)
                                || SalinityCalculators.extrapolated(to)
                                || SalinityCalculators.extrapolated(new Salinity(replacement)))
                .working("with animals in it at most " + n(perDay) + " a day (common practice, no source), a step each "
                        + "day; days at least: " + days);
    }

    private static Calculator salinityKinds() {
        return Calculator.named("salinity-kinds")
                .source(BALANCE)
                .input(
                        SalinityCalculators.salinity("salinity").optional(),
                        Input.number("reference_salinity_g_kg", "g/kg", 0, 50 * SaltWater.GRAMS_PER_KILOGRAM)
                                .from(SalinityCalculators.EOS_80_EXTENDED)
                                .optional(),
                        Input.number("salt_g_l", "g/L", 0, 60)
                                .from(SalinityCalculators.EOS_80_EXTENDED)
                                .optional(),
                        SalinityCalculators.temperature("temperature_c").orElse(25),
                        Input.temperatureScale())
                .output("salinity", "1")
                .output("reference_salinity_g_kg", "g/kg")
                .output("salt_g_l", "g/L")
                .output("extrapolated", "")
                .by(MixingCalculators::kinds);
    }

    private static Calculation.Results kinds(Given given) {
        Temperature temperature = given.temperature("temperature_c");
        String known = given.oneOf("salinity", "reference_salinity_g_kg", "salt_g_l");
        double value = given.number(known);
        Salinity salinity = switch (known) {
            case "salinity" -> new Salinity(value);
            case "reference_salinity_g_kg" -> SaltWater.ofGramsPerKilogram(value);
            default -> SaltWater.ofGramsPerLitre(value, temperature);
        };
        double perKilogram = SaltWater.gramsPerKilogram(salinity);
        double perLitre = SaltWater.gramsPerLitre(salinity, temperature);
        return Calculation.Results.of("salinity", salinity.practical())
                .and("reference_salinity_g_kg", perKilogram)
                .and("salt_g_l", perLitre)
                .and("extrapolated", SalinityCalculators.extrapolated(salinity))
                .working("S = " + n(salinity.practical()) + " (no unit); x 35.16504/35 = " + n(perKilogram)
                        + " g of salt in a kg")
                .working(n(perKilogram) + " g/kg x "
                        + n(SeawaterDensity.ofSeawater(salinity, temperature).value()) + " kg/m3 / 1000 = "
                        + n(perLitre) + " g in a litre measured at " + n(temperature.celsius()) + " °C");
    }

    private static Calculator dilution() {
        return Calculator.named("dilution")
                .source(DILUTION)
                .input(
                        concentration("concentration_mg_l"),
                        concentration("replacement_mg_l").orElse(0),
                        Input.choice("mode", "batch", "continuous").orElse("batch"),
                        Input.number("fraction", "1", 0, 100).optional(),
                        litres("changed_l").optional(),
                        litres("volume_l").optional(),
                        Input.number("changes", "1", 0, Dilution.MOST_CHANGES).orElse(1),
                        concentration("target_mg_l").optional())
                .output("concentration_mg_l", "mg/L")
                .output("after_each_mg_l", "mg/L")
                .output("changes_needed", "1")
                .output("fraction_needed", "1")
                .by(MixingCalculators::dilute);
    }

    private static Calculation.Results dilute(Given given) {
        double start = given.number("concentration_mg_l");
        double fresh = given.number("replacement_mg_l");
        double fraction =
                given.oneOf("fraction", "changed_l").equals("fraction") ? given.number("fraction") : share(given);
        return given.choice("mode").equals("batch")
                ? inBatches(given, start, fresh, fraction)
                : flowingThrough(given, start, fresh, fraction);
    }

    private static double share(Given given) {
        given.oneOf("volume_l");
        return given.number("changed_l") / given.numberWithin("volume_l", SMALLEST_LITRES, LARGEST_LITRES, "");
    }

    private static Calculation.Results inBatches(Given given, double start, double fresh, double fraction) {
        if (fraction > 1) {
            throw new CalculationRefused(
                    CalculationRefused.OUT_OF_RANGE,
                    new CalculationRefused.Range(
                            given.has("fraction") ? "fraction" : "changed_l",
                            0,
                            given.has("fraction") ? 1 : given.number("volume_l"),
                            given.has("fraction") ? "1" : "L",
                            "no change drains more than there is"));
        }
        int changes = whole(given, "changes");
        double[] afterEach = new double[Math.min(changes, LONGEST_LIST)];
        for (int i = 0; i < afterEach.length; i++) {
            afterEach[i] = Dilution.afterChanges(start, fresh, fraction, i + 1);
        }
        double left = Dilution.afterChanges(start, fresh, fraction, changes);
        Calculation.Results results = Calculation.Results.of("concentration_mg_l", left)
                .and("after_each_mg_l", afterEach)
                .working("C = Cn + (C0 - Cn)(1 - f)^k = " + n(fresh) + " + (" + n(start) + " - " + n(fresh)
                        + ") x (1 - " + n(fraction) + ")^" + changes + " = " + n(left) + " mg/L");
        if (given.has("target_mg_l")) {
            double target = given.number("target_mg_l");
            int needed = Dilution.changesNeeded(start, fresh, fraction, target);
            results.and("changes_needed", needed)
                    .working("k = ln((Ct - Cn)/(C0 - Cn)) / ln(1 - f), rounded up: " + needed + " changes to "
                            + n(target) + " mg/L");
        }
        return results;
    }

    private static Calculation.Results flowingThrough(Given given, double start, double fresh, double fraction) {
        Volume one = new Volume(1);
        double left = Dilution.afterFlowThrough(start, fresh, new Volume(fraction), one);
        Calculation.Results results = Calculation.Results.of("concentration_mg_l", left)
                .working("C = Cn + (C0 - Cn) exp(-Vin/V) = " + n(fresh) + " + (" + n(start) + " - " + n(fresh)
                        + ") x exp(-" + n(fraction) + ") = " + n(left) + " mg/L");
        if (given.has("target_mg_l")) {
            double target = given.number("target_mg_l");
            double needed =
                    Dilution.throughFlowNeeded(start, fresh, target, one).litres();
            results.and("fraction_needed", needed)
                    .working("Vin/V = ln((C0 - Cn)/(Ct - Cn)) = " + n(needed) + " of the volume to " + n(target)
                            + " mg/L");
        }
        return results;
    }

    private static Calculator dripAcclimation() {
        return Calculator.named("drip-acclimation")
                .source(DILUTION)
                .input(
                        litres("volume_l"),
                        SalinityCalculators.salinity("salinity"),
                        SalinityCalculators.salinity("tank_salinity"),
                        Input.number("drip_ml_min", "mL/min", 0.01, 10_000),
                        Input.choice("mode", "growing-volume", "constant-volume")
                                .orElse("growing-volume"),
                        Input.number("time_min", "min", 0, 10_000).optional(),
                        Input.number("fraction", "1", 0, Dilution.HIGHEST_PART).optional())
                .output("salinity", "1")
                .output("fraction_reached", "1")
                .output("added_l", "L")
                .output("volume_l", "L")
                .output("time_needed_min", "min")
                .output("volume_needed_l", "L")
                .output("caution", "")
                .by(MixingCalculators::drip);
    }

    private static Calculation.Results drip(Given given) {
        Volume held = new Volume(given.numberWithin("volume_l", SMALLEST_LITRES, LARGEST_LITRES, ""));
        double litresPerMinute = given.number("drip_ml_min") / 1000;
        boolean growing = given.choice("mode").equals("growing-volume");
        given.atLeastOneOf("time_min", "fraction");
        Calculation.Results results = Calculation.Results.of("caution", NOT_LONG_AFTER_SHIPPING);
        if (given.has("time_min")) {
            Volume added = new Volume(litresPerMinute * given.number("time_min"));
            dripped(results, given, held, added, growing);
        }
        if (given.has("fraction")) {
            double fraction = given.number("fraction");
            Volume needed = growing ? Dilution.toAdd(fraction, held) : Dilution.toPassThrough(fraction, held);
            double minutes = needed.litres() / litresPerMinute;
            results.and("time_needed_min", minutes)
                    .and("volume_needed_l", needed.litres())
                    .working((growing ? "t = V0 q / ((1 - q) Q)" : "t = V/Q ln(1/(1 - q))") + " = " + n(minutes)
                            + " min, " + n(needed.litres()) + " L, for q = " + n(fraction) + " of the difference");
        }
        return results.working("by this arithmetic neither pH nor temperature can be foretold: match temperature first")
                .working(
                        "after a journey in a bag keep it short: once opened its pH rises, and ammonium turns to ammonia");
    }

    private static void dripped(Calculation.Results results, Given given, Volume held, Volume added, boolean growing) {
        double start = given.number("salinity");
        double tank = given.number("tank_salinity");
        double reached = growing
                ? Dilution.afterAdding(start, tank, added, held)
                : Dilution.afterFlowThrough(start, tank, added, held);
        double part = growing ? Dilution.afterAdding(0, 1, added, held) : Dilution.afterFlowThrough(0, 1, added, held);
        results.and("salinity", reached)
                .and("fraction_reached", part)
                .and("added_l", added.litres())
                .and("volume_l", growing ? held.plus(added).litres() : held.litres())
                .working(
                        growing
                                ? "S = (V0 S0 + Q t St)/(V0 + Q t) = (" + n(held.litres()) + " x " + n(start) + " + "
                                        + n(added.litres()) + " x " + n(tank) + ")/(" + n(held.litres()) + " + "
                                        + n(added.litres()) + ") = " + n(reached)
                                : "S = St + (S0 - St) exp(-Q t/V) = " + n(tank) + " + (" + n(start) + " - " + n(tank)
                                        + ") x exp(-" + n(added.litres()) + "/" + n(held.litres()) + ") = "
                                        + n(reached));
    }

    private static int whole(Given given, String input) {
        double number = given.number(input);
        if (number != Math.floor(number)) {
            throw new CalculationRefused(
                    "NOT_WHOLE", new CalculationRefused.Range(input, 0, Dilution.MOST_CHANGES, "1", ""));
        }
        return (int) number;
    }

    private static Input litres(String name) {
        return Input.number(name, "L", 0, LARGEST_LITRES);
    }

    private static Input concentration(String name) {
        return Input.number(name, "mg/L", 0, 1e6);
    }

    private static Input saltYield() {
        return Input.number("yield", "1", 0.5, 1).orElse(1);
    }

    private static Input perDay(double most) {
        return Input.number("per_day", "1/d", 0.05, most)
                .from("common practice, no source")
                .orElse(most);
    }

    private static String n(double value) {
        return Working.number(value);
    }
}
