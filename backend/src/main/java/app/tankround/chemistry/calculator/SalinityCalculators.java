package app.tankround.chemistry.calculator;

import app.tankround.chemistry.Computed;
import app.tankround.chemistry.GlassHydrometer;
import app.tankround.chemistry.PracticalSalinity;
import app.tankround.chemistry.RefractiveIndex;
import app.tankround.chemistry.SeawaterDensity;
import app.tankround.chemistry.SeawaterGravity;
import app.tankround.chemistry.SodiumChlorideScale;
import app.tankround.chemistry.TemperatureScale;
import app.tankround.chemistry.TwoPointCalibration;
import app.tankround.units.Conductivity;
import app.tankround.units.GravityReference;
import app.tankround.units.Salinity;
import app.tankround.units.SpecificGravity;
import app.tankround.units.Temperature;
import java.util.List;

/** Salinity of seawater and what instruments show of it: density, gravity, conductivity, refraction. */
final class SalinityCalculators {

    /** Named with limits that lie beyond what was published: from 42 to 50 results are marked. */
    static final String EOS_80_EXTENDED = "EOS-80, carried on from S = 42 to 50";

    private static final String EOS_80 = "EOS-80";
    private static final String PSS_78 = "PSS-78";
    private static final String GRAVITY_SCALES = "reference temperatures of gravity scales";

    private static final String EOS_80_SOURCE =
            "International Equation of State of Seawater, EOS-80, at one atmosphere: Fofonoff and Millard 1983, UNESCO "
                    + "Technical Papers in Marine Science 44, equations 13 and 14; t68 = 1.00024 t90 by Saunders 1990";
    private static final String PSS_78_SOURCE =
            "Practical Salinity Scale 1978: Fofonoff and Millard 1983, UNESCO Technical Papers in Marine Science 44, "
                    + "equations 1 to 4, with C(35, 15, 0) = 42.9140 mS/cm; below S = 2 Hill, Dauphinee and Woods 1986, "
                    + "joined at 2 as in the TEOS-10 library";
    private static final String INDEX_SOURCE = "Quan and Fry 1995, Applied Optics 34, 3477; Millard and Seaver 1990, "
            + "Deep-Sea Research 37, 1909, at the surface; index relative to air";
    private static final String BRINE_SOURCE =
            "index of seawater by Quan and Fry 1995, Applied Optics 34, 3477, of sodium chloride by a fit through CRC "
                    + "Handbook, 102nd edition, Concentrative Properties of Aqueous Solutions; both at 20 °C, 589.3 nm";

    private SalinityCalculators() {}

    static List<Calculator> all() {
        return List.of(
                seawaterDensity(),
                salinityFromDensity(),
                salinityFromConductivity(),
                conductivityFromSalinity(),
                specificGravity(),
                salinityFromSpecificGravity(),
                hydrometerCorrection(),
                refractiveIndex(),
                refractometerNaclScale(),
                twoPointCorrection());
    }

    /** A practical salinity that a formula on densities takes. */
    static Input salinity(String name) {
        return Input.number(name, "1", 0, SeawaterDensity.HIGHEST_SALINITY).from(EOS_80_EXTENDED);
    }

    /** A temperature of seawater on the whole range of EOS-80. */
    static Input temperature(String name) {
        return Input.number(name, "°C", SeawaterDensity.LOWEST_CELSIUS, SeawaterDensity.HIGHEST_CELSIUS)
                .from(EOS_80);
    }

    /** Whether a formula on densities is carried on beyond what was published. */
    static boolean extrapolated(Salinity salinity) {
        return salinity.practical() > SeawaterDensity.HIGHEST_PUBLISHED_SALINITY;
    }

    private static Calculator seawaterDensity() {
        return Calculator.named("seawater-density")
                .source(EOS_80_SOURCE)
                .input(salinity("salinity"), temperature("temperature_c"), Input.temperatureScale())
                .output("density_kg_m3", "kg/m3")
                .output("expanded_uncertainty_kg_m3", "kg/m3")
                .output("extrapolated", "")
                .by(given -> {
                    Salinity salinity = new Salinity(given.number("salinity"));
                    Temperature temperature = given.temperature("temperature_c");
                    Computed density = SeawaterDensity.ofSeawater(salinity, temperature);
                    return Calculation.Results.of("density_kg_m3", density.value())
                            .and("expanded_uncertainty_kg_m3", density.expandedUncertainty())
                            .and("extrapolated", density.extrapolated())
                            .working(densityLine(salinity, temperature, density.value()));
                });
    }

    private static Calculator salinityFromDensity() {
        return Calculator.named("salinity-from-density")
                .source(EOS_80_SOURCE)
                .input(
                        Input.number("density_kg_m3", "kg/m3", 900, 1100),
                        temperature("temperature_c"),
                        Input.temperatureScale())
                .output("salinity", "1")
                .output("expanded_uncertainty", "1")
                .output("extrapolated", "")
                .by(given -> {
                    Temperature temperature = given.temperature("temperature_c");
                    double density = given.numberWithin(
                            "density_kg_m3",
                            SeawaterDensity.ofPureWater(temperature),
                            saltiest(temperature),
                            EOS_80_EXTENDED);
                    Computed salinity = SeawaterDensity.toSalinity(density, temperature);
                    return ofSalinity(salinity)
                            .working("the S for which rho(S, t68) = " + n(density) + " kg/m3")
                            .working(densityLine(new Salinity(salinity.value()), temperature, density));
                });
    }

    private static Calculator salinityFromConductivity() {
        return Calculator.named("salinity-from-conductivity")
                .source(PSS_78_SOURCE)
                .input(
                        Input.number("conductivity_ms_cm", "mS/cm", 0, 120),
                        conductivityTemperature(),
                        Input.temperatureScale())
                .output("salinity", "1")
                .output("conductivity_ratio", "1")
                .output("below_2", "")
                .by(given -> {
                    Temperature temperature = given.temperature("temperature_c");
                    double highest = PracticalSalinity.toConductivity(
                                    new Salinity(PracticalSalinity.HIGHEST_SALINITY), temperature)
                            .millisiemensPerCentimetre();
                    double measured = given.numberWithin("conductivity_ms_cm", 0, highest, PSS_78);
                    Salinity salinity = PracticalSalinity.fromConductivity(new Conductivity(measured), temperature);
                    return onPracticalScale(
                            Calculation.Results.of("salinity", salinity.practical()), salinity, measured, temperature);
                });
    }

    private static Calculator conductivityFromSalinity() {
        return Calculator.named("conductivity-from-salinity")
                .source(PSS_78_SOURCE)
                .input(
                        Input.number("salinity", "1", 0, PracticalSalinity.HIGHEST_SALINITY)
                                .from(PSS_78),
                        conductivityTemperature(),
                        Input.temperatureScale())
                .output("conductivity_ms_cm", "mS/cm")
                .output("conductivity_ratio", "1")
                .output("below_2", "")
                .by(given -> {
                    Temperature temperature = given.temperature("temperature_c");
                    Salinity salinity = new Salinity(given.number("salinity"));
                    double conductivity = PracticalSalinity.toConductivity(salinity, temperature)
                            .millisiemensPerCentimetre();
                    return onPracticalScale(
                            Calculation.Results.of("conductivity_ms_cm", conductivity),
                            salinity,
                            conductivity,
                            temperature);
                });
    }

    private static Calculation.Results onPracticalScale(
            Calculation.Results results, Salinity salinity, double conductivity, Temperature temperature) {
        double ratio = conductivity / PracticalSalinity.CONDUCTIVITY_35_15;
        double of35 =
                PracticalSalinity.toConductivity(new Salinity(35), temperature).millisiemensPerCentimetre()
                        / PracticalSalinity.CONDUCTIVITY_35_15;
        boolean below = salinity.practical() < 2;
        return results.and("conductivity_ratio", ratio)
                .and("below_2", below)
                .working("R = " + n(conductivity) + " / " + n(PracticalSalinity.CONDUCTIVITY_35_15) + " = " + n(ratio))
                .working("Rt = R / rt(t68 = " + n(TemperatureScale.t68(temperature.celsius())) + " °C) = " + n(ratio)
                        + " / " + n(of35) + " = " + n(ratio / of35))
                .working("S(Rt, t68)" + (below ? ", with the extension below 2," : "") + " = "
                        + n(salinity.practical()));
    }

    private static Input conductivityTemperature() {
        return Input.number("temperature_c", "°C", PracticalSalinity.LOWEST_CELSIUS, PracticalSalinity.HIGHEST_CELSIUS)
                .from(PSS_78);
    }

    private static Calculator specificGravity() {
        return Calculator.named("specific-gravity")
                .source(EOS_80_SOURCE)
                .input(
                        salinity("salinity"),
                        gravityTemperature("temperature_c"),
                        gravityTemperature("reference_temperature_c"),
                        Input.temperatureScale())
                .output("specific_gravity", "1")
                .output("expanded_uncertainty", "1")
                .output("scale", "")
                .output("extrapolated", "")
                .by(given -> {
                    Salinity salinity = new Salinity(given.number("salinity"));
                    GravityReference reference = reference(given);
                    Computed gravity = SeawaterGravity.ofSalinity(salinity, reference);
                    return Calculation.Results.of("specific_gravity", gravity.value())
                            .and("expanded_uncertainty", gravity.expandedUncertainty())
                            .and("scale", reference.toString())
                            .and("extrapolated", gravity.extrapolated())
                            .working(gravityLine(salinity, reference, gravity.value()));
                });
    }

    private static Calculator salinityFromSpecificGravity() {
        return Calculator.named("salinity-from-specific-gravity")
                .source(EOS_80_SOURCE)
                .input(
                        Input.number("specific_gravity", "1", 0.9, 1.1),
                        gravityTemperature("temperature_c"),
                        gravityTemperature("reference_temperature_c"),
                        Input.temperatureScale())
                .output("salinity", "1")
                .output("expanded_uncertainty", "1")
                .output("scale", "")
                .output("extrapolated", "")
                .by(given -> {
                    GravityReference reference = reference(given);
                    double gravity = given.numberWithin(
                            "specific_gravity",
                            SeawaterGravity.ofSalinity(new Salinity(0), reference)
                                    .value(),
                            SeawaterGravity.ofSalinity(new Salinity(SeawaterDensity.HIGHEST_SALINITY), reference)
                                    .value(),
                            EOS_80_EXTENDED);
                    Computed salinity = SeawaterGravity.toSalinity(SpecificGravity.of(gravity, reference));
                    return ofSalinity(salinity)
                            .and("scale", reference.toString())
                            .working(gravityLine(new Salinity(salinity.value()), reference, gravity));
                });
    }

    private static Calculator hydrometerCorrection() {
        return Calculator.named("hydrometer-correction")
                .source("float of constant mass whose glass expands by 25e-6 per °C (ISO 1768:1975); meniscus and air "
                        + "buoyancy neglected, not for swing-arm instruments of plastic; " + EOS_80_SOURCE)
                .input(
                        Input.number("specific_gravity", "1", 0.9, 1.1),
                        temperature("temperature_c"),
                        gravityTemperature("reference_temperature_c"),
                        gravityTemperature("water_reference_temperature_c").optional(),
                        Input.temperatureScale())
                .output("salinity", "1")
                .output("expanded_uncertainty", "1")
                .output("density_kg_m3", "kg/m3")
                .output("density_at_reference_kg_m3", "kg/m3")
                .output("specific_gravity", "1")
                .output("scale", "")
                .output("extrapolated", "")
                .by(SalinityCalculators::corrected);
    }

    private static Calculation.Results corrected(Given given) {
        Temperature sample = given.temperature("temperature_c");
        double floats = given.temperature("reference_temperature_c").celsius();
        double water = given.has("water_reference_temperature_c")
                ? given.temperature("water_reference_temperature_c").celsius()
                : floats;
        GravityReference scale = new GravityReference(floats, water);
        double densityOfOne = GlassHydrometer.density(SpecificGravity.of(1, scale), sample);
        double reading = given.numberWithin(
                "specific_gravity",
                SeawaterDensity.ofPureWater(sample) / densityOfOne,
                saltiest(sample) / densityOfOne,
                EOS_80_EXTENDED);
        SpecificGravity shown = SpecificGravity.of(reading, scale);
        double density = GlassHydrometer.density(shown, sample);
        Computed computed = GlassHydrometer.toSalinity(shown, sample);
        Salinity salinity = new Salinity(computed.value());
        double atReference =
                SeawaterDensity.ofSeawater(salinity, new Temperature(floats)).value();
        double onScale = SeawaterGravity.ofSalinity(salinity, scale).value();
        return ofSalinity(computed)
                .and("density_kg_m3", density)
                .and("density_at_reference_kg_m3", atReference)
                .and("specific_gravity", onScale)
                .and("scale", scale.toString())
                .working("rho(t) = reading x rho_w(" + n(water) + " °C) x (1 - 25e-6 x (" + n(sample.celsius()) + " - "
                        + n(floats) + ")) = " + n(reading) + " x "
                        + n(SeawaterDensity.ofPureWater(new Temperature(water))) + " x ... = " + n(density) + " kg/m3")
                .working("the S for which " + densityLine(salinity, sample, density))
                .working(gravityLine(salinity, scale, onScale));
    }

    private static Calculator refractiveIndex() {
        return Calculator.named("refractive-index")
                .source(INDEX_SOURCE)
                .input(
                        Input.number("salinity", "1", 0, RefractiveIndex.HIGHEST_MILLARD_SEAVER)
                                .from("Millard and Seaver 1990"),
                        Input.number("temperature_c", "°C", 0, RefractiveIndex.HIGHEST_CELSIUS)
                                .from("Quan and Fry 1995, Millard and Seaver 1990"),
                        Input.number("wavelength_nm", "nm", RefractiveIndex.SHORTEST_QUAN_FRY, RefractiveIndex.LONGEST)
                                .from("Quan and Fry 1995")
                                .orElse(RefractiveIndex.SODIUM_D_NANOMETRES),
                        Input.choice("model", "quan-fry", "millard-seaver").orElse("quan-fry"),
                        Input.temperatureScale())
                .output("refractive_index", "1")
                .output("refractive_index_other_model", "1")
                .by(SalinityCalculators::refracted);
    }

    private static Calculation.Results refracted(Given given) {
        boolean quanFry = given.choice("model").equals("quan-fry");
        if (quanFry) {
            given.numberWithin("salinity", 0, RefractiveIndex.HIGHEST_QUAN_FRY, "Quan and Fry 1995");
        } else {
            given.numberWithin(
                    "wavelength_nm",
                    RefractiveIndex.SHORTEST_MILLARD_SEAVER,
                    RefractiveIndex.LONGEST,
                    "Millard and Seaver 1990");
        }
        Salinity salinity = new Salinity(given.number("salinity"));
        Temperature temperature = given.temperature("temperature_c");
        double nanometres = given.number("wavelength_nm");
        boolean both = salinity.practical() <= RefractiveIndex.HIGHEST_QUAN_FRY
                && nanometres >= RefractiveIndex.SHORTEST_MILLARD_SEAVER;
        double index = index(quanFry, salinity, temperature, nanometres);
        String where = "(S = " + n(salinity.practical()) + ", t = " + n(temperature.celsius()) + " °C, " + n(nanometres)
                + " nm) = ";
        Calculation.Results results = Calculation.Results.of("refractive_index", index)
                .working("n" + where + n(index) + " by " + given.choice("model"));
        if (both) {
            double other = index(!quanFry, salinity, temperature, nanometres);
            results.and("refractive_index_other_model", other).working("the other model says " + n(other));
        }
        return results;
    }

    private static double index(boolean quanFry, Salinity salinity, Temperature temperature, double nanometres) {
        return quanFry
                ? RefractiveIndex.quanFry(salinity, temperature, nanometres)
                : RefractiveIndex.millardSeaver(salinity, temperature, nanometres);
    }

    private static Calculator refractometerNaclScale() {
        return Calculator.named("refractometer-nacl-scale")
                .source(BRINE_SOURCE)
                .input(
                        Input.number("reading_g_kg", "g/kg", 0, 100).optional(),
                        salinity("salinity").optional())
                .output("salinity", "1")
                .output("reading_g_kg", "g/kg")
                .output("expanded_uncertainty", "1")
                .output("specific_gravity_column", "1")
                .output("specific_gravity", "1")
                .output("scale", "")
                .output("extrapolated", "")
                .by(SalinityCalculators::onBrineScale);
    }

    private static Calculation.Results onBrineScale(Given given) {
        double highest = SodiumChlorideScale.readingIn(new Salinity(SeawaterDensity.HIGHEST_SALINITY));
        boolean shown = given.oneOf("reading_g_kg", "salinity").equals("reading_g_kg");
        Salinity salinity = shown
                ? SodiumChlorideScale.toSalinity(given.numberWithin("reading_g_kg", 0, highest, EOS_80_EXTENDED))
                : new Salinity(given.number("salinity"));
        double reading = shown ? given.number("reading_g_kg") : SodiumChlorideScale.readingIn(salinity);
        double index = SodiumChlorideScale.brineIndex(reading / 10);
        GravityReference scale = GravityReference.AT_20_20;
        Calculation.Results results = Calculation.Results.of("salinity", salinity.practical())
                .and("reading_g_kg", reading)
                .and("expanded_uncertainty", SodiumChlorideScale.HANDBOOK_LIMIT)
                .and(
                        "specific_gravity_column",
                        SodiumChlorideScale.gravityIn(salinity, scale).value())
                .and(
                        "specific_gravity",
                        SeawaterGravity.ofSalinity(salinity, scale).value())
                .and("scale", scale.toString())
                .and("extrapolated", extrapolated(salinity))
                .working("sodium chloride of " + n(reading) + " g/kg bends light as seawater of S = "
                        + n(salinity.practical()) + " does: n = " + n(index))
                .working("right in RO/DI water, so a check at zero cannot see it; four decimals of the handbook leave "
                        + "about 0.5 open");
        if (salinity.practical() > RefractiveIndex.HIGHEST_QUAN_FRY) {
            results.working("above S = 35 the index is carried on as the straight line that it is up to there");
        }
        return results;
    }

    private static Calculator twoPointCorrection() {
        return Calculator.named("two-point-correction")
                .source(
                        "straight line through two standards on the instrument's own scale; gain 0.9 to 1.1: own choice, "
                                + "no source")
                .input(
                        reading("reading"),
                        reading("low_reading").optional(),
                        reading("low_standard").orElse(0),
                        reading("high_reading").optional(),
                        reading("high_standard").orElse(35),
                        Input.number("gain", "1", 0, 2).optional(),
                        reading("offset").optional())
                .output("corrected", "1")
                .output("gain", "1")
                .output("offset", "1")
                .output("between_standards", "")
                .by(SalinityCalculators::correctedByTwo);
    }

    private static Calculation.Results correctedByTwo(Given given) {
        double reading = given.number("reading");
        if (given.oneOf("high_reading", "gain").equals("gain")) {
            given.oneOf("gain", "low_reading");
            double gain = TwoPointCalibration.requirePlausible(given.number("gain"));
            double offset = given.optional("offset").orElse(0);
            double corrected = gain * reading + offset;
            return Calculation.Results.of("corrected", corrected)
                    .and("gain", gain)
                    .and("offset", offset)
                    .working("true = gain x reading + offset = " + n(gain) + " x " + n(reading) + " + (" + n(offset)
                            + ") = " + n(corrected));
        }
        given.oneOf("low_reading", "offset");
        given.oneOf("low_reading");
        double low = given.number("low_reading");
        double high = given.number("high_reading");
        double lowStandard = given.number("low_standard");
        double highStandard = given.number("high_standard");
        TwoPointCalibration calibration = TwoPointCalibration.of(lowStandard, low, highStandard, high);
        double gain = calibration.gain();
        return Calculation.Results.of("corrected", calibration.correct(reading))
                .and("gain", gain)
                .and("offset", calibration.correct(0))
                .and("between_standards", reading >= low && reading <= high)
                .working("gain = (" + n(highStandard) + " - " + n(lowStandard) + ") / (" + n(high) + " - " + n(low)
                        + ") = " + n(gain))
                .working("true = " + n(lowStandard) + " + gain x (reading - " + n(low) + ") = " + n(lowStandard) + " + "
                        + n(gain) + " x (" + n(reading) + " - " + n(low) + ") = " + n(calibration.correct(reading)));
    }

    private static Input reading(String name) {
        return Input.number(name, "1", -1e6, 1e6);
    }

    private static Input gravityTemperature(String name) {
        return Input.number(name, "°C", GravityReference.LOWEST_CELSIUS, GravityReference.HIGHEST_CELSIUS)
                .from(GRAVITY_SCALES);
    }

    private static GravityReference reference(Given given) {
        return new GravityReference(
                given.temperature("temperature_c").celsius(),
                given.temperature("reference_temperature_c").celsius());
    }

    private static Calculation.Results ofSalinity(Computed salinity) {
        return Calculation.Results.of("salinity", salinity.value())
                .and("expanded_uncertainty", salinity.expandedUncertainty())
                .and("extrapolated", salinity.extrapolated());
    }

    private static double saltiest(Temperature temperature) {
        return SeawaterDensity.ofSeawater(new Salinity(SeawaterDensity.HIGHEST_SALINITY), temperature)
                .value();
    }

    private static String densityLine(Salinity salinity, Temperature temperature, double density) {
        double t68 = TemperatureScale.t68(temperature.celsius());
        return "rho(S = " + n(salinity.practical()) + ", t68 = " + n(t68) + " °C) = " + n(density) + " kg/m3";
    }

    private static String gravityLine(Salinity salinity, GravityReference reference, double gravity) {
        Temperature sample = new Temperature(reference.sampleCelsius());
        Temperature water = new Temperature(reference.waterCelsius());
        return "SG = rho(S = " + n(salinity.practical()) + ", " + n(sample.celsius()) + " °C) / rho_w("
                + n(water.celsius()) + " °C) = "
                + n(SeawaterDensity.ofSeawater(salinity, sample).value()) + " / "
                + n(SeawaterDensity.ofPureWater(water)) + " = " + n(gravity);
    }

    private static String n(double value) {
        return Working.number(value);
    }
}
