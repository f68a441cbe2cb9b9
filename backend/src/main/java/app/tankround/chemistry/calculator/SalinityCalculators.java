package app.tankround.chemistry.calculator;

import app.tankround.chemistry.Computed;
import app.tankround.chemistry.SeawaterDensity;
import app.tankround.chemistry.TemperatureScale;
import app.tankround.units.Salinity;
import app.tankround.units.Temperature;
import java.util.List;

/** Salinity, density and gravity of seawater. */
final class SalinityCalculators {

    private static final String EOS_80 = "EOS-80";
    private static final String EOS_80_SOURCE =
            "International Equation of State of Seawater, EOS-80, at one atmosphere: Fofonoff and Millard 1983, UNESCO "
                    + "Technical Papers in Marine Science 44, equations 13 and 14; t68 = 1.00024 t90 by Saunders 1990";

    private SalinityCalculators() {}

    static List<Calculator> all() {
        return List.of(
                Calculator.named("seawater-density")
                        .source(EOS_80_SOURCE)
                        .input(
                                Input.number("salinity", "1", 0, SeawaterDensity.HIGHEST_PUBLISHED_SALINITY)
                                        .from(EOS_80),
                                seawaterTemperature(),
                                Input.temperatureScale())
                        .output("density_kg_m3", "kg/m3")
                        .output("expanded_uncertainty_kg_m3", "kg/m3")
                        .by(SalinityCalculators::density),
                Calculator.named("salinity-from-density")
                        .source(EOS_80_SOURCE)
                        .input(
                                Input.number("density_kg_m3", "kg/m3", 900, 1100),
                                seawaterTemperature(),
                                Input.temperatureScale())
                        .output("salinity", "1")
                        .output("expanded_uncertainty", "1")
                        .by(SalinityCalculators::salinityFromDensity));
    }

    private static Input seawaterTemperature() {
        return Input.number("temperature_c", "°C", SeawaterDensity.LOWEST_CELSIUS, SeawaterDensity.HIGHEST_CELSIUS)
                .from(EOS_80);
    }

    private static Calculation.Results density(Given given) {
        Salinity salinity = new Salinity(given.number("salinity"));
        Temperature temperature = given.temperature("temperature_c");
        Computed density = SeawaterDensity.ofSeawater(salinity, temperature);
        return Calculation.Results.of("density_kg_m3", density.value())
                .and("expanded_uncertainty_kg_m3", density.expandedUncertainty())
                .working(densityLine(salinity, temperature, density.value()));
    }

    private static Calculation.Results salinityFromDensity(Given given) {
        Temperature temperature = given.temperature("temperature_c");
        double lowest = SeawaterDensity.ofPureWater(temperature);
        double highest = SeawaterDensity.ofSeawater(
                        new Salinity(SeawaterDensity.HIGHEST_PUBLISHED_SALINITY), temperature)
                .value();
        double density = given.numberWithin("density_kg_m3", lowest, highest, EOS_80);
        Computed salinity = SeawaterDensity.toSalinity(density, temperature);
        return Calculation.Results.of("salinity", salinity.value())
                .and("expanded_uncertainty", salinity.expandedUncertainty())
                .working("the S for which rho(S, t68) = " + Working.number(density) + " kg/m3")
                .working(densityLine(new Salinity(salinity.value()), temperature, density));
    }

    private static String densityLine(Salinity salinity, Temperature temperature, double density) {
        double t68 = TemperatureScale.t68(temperature.celsius());
        return "rho(S = " + Working.number(salinity.practical()) + ", t68 = " + Working.number(t68) + " °C) = "
                + Working.number(density) + " kg/m3";
    }
}
