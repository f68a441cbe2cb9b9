package app.tankround.chemistry;

import static java.util.Map.entry;

import app.tankround.chemistry.ReferenceSeawater.Ion;
import app.tankround.units.Alkalinity;
import app.tankround.units.Conductivity;
import app.tankround.units.MassConcentration;
import app.tankround.units.Salinity;
import app.tankround.units.Temperature;
import app.tankround.units.Volume;
import java.util.Map;

/** Rows of the reference tables about oxygen, carbon dioxide, supplements, limewater, evaporation and conductivity. */
final class WaterRows {

    private static final Salinity FRESH = new Salinity(0);
    private static final Salinity SEA = new Salinity(35);
    private static final Volume HUNDRED = new Volume(100);

    static final Map<String, Cells> BOUND = Map.ofEntries(
            entry("GSW-O20", Cells.one(WaterRows::oxygenOfTheCheckCast)),
            entry("O2F-20", Cells.one(() -> oxygen(20, FRESH))),
            entry("O2F-25", Cells.one(() -> oxygen(25, FRESH))),
            entry("O2S-35-25", Cells.one(() -> oxygen(25, SEA))),
            entry("O2S-35-20", Cells.one(() -> oxygen(20, SEA))),
            entry(
                    "CO2-USGS",
                    Cells.one(() -> FreeCarbonDioxide.usgs(7, new MassConcentration(100), FRESH)
                            .milligramsPerLitre())),
            entry(
                    "CO2-TUCKER",
                    Cells.one(() -> FreeCarbonDioxide.tucker(
                                    7, Alkalinity.ofMilligramsPerLitreCalciumCarbonate(50), new Temperature(25), FRESH)
                            .milligramsPerLitre())),
            entry("MM-CaCl2_2H2O", Cells.one(() -> MolarMass.of("CaCl2·2H2O"))),
            entry("MM-MgCl2_6H2O", Cells.one(() -> MolarMass.of("MgCl2·6H2O"))),
            entry("D-NAHCO3", Cells.one(() -> forOneDegree(Salt.SODIUM_BICARBONATE))),
            entry("D-NA2CO3", Cells.one(() -> forOneDegree(Salt.SODIUM_CARBONATE))),
            entry("D-CACL2", Cells.one(() -> forTenMilligrams(Salt.CALCIUM_CHLORIDE_DIHYDRATE))),
            entry("D-MGCL2", Cells.one(() -> forTenMilligrams(Salt.MAGNESIUM_CHLORIDE_HEXAHYDRATE))),
            entry("D-MGSO4", Cells.one(() -> forTenMilligrams(Salt.MAGNESIUM_SULFATE_HEPTAHYDRATE))),
            entry(
                    "STOICH-CA-ALK",
                    Cells.one(() ->
                            SupplementDose.calciumTakenWith(Alkalinity.ofDkh(1)).milligramsPerLitre())),
            entry(
                    "KALK-25",
                    Cells.one(() -> Limewater.saturated(new Temperature(25)).value())),
            entry("SHAH-28-28", Cells.one(() -> evaporation(28, 28))),
            entry("SHAH-28-30", Cells.one(() -> evaporation(28, 30))),
            entry("COMP-Ca", Cells.one(() -> ReferenceSeawater.milligramsPerKilogram(Ion.CALCIUM, SEA))),
            entry("COMP-Mg", Cells.one(() -> ReferenceSeawater.milligramsPerKilogram(Ion.MAGNESIUM, SEA))),
            entry("COMP-ALK", Cells.one(() -> ReferenceSeawater.alkalinityMillimolesPerKilogram(SEA))),
            entry(
                    "COMP-ALK-DKH",
                    Cells.one(() -> new Alkalinity(ReferenceSeawater.alkalinityMillimolesPerKilogram(SEA)
                                    * SeawaterDensity.ofSeawater(SEA, new Temperature(25))
                                            .value()
                                    / 1000)
                            .inDkh())),
            entry("KCL-0.1-25", Cells.one(() -> standard(PotassiumChlorideStandard.MOL_PER_KG_0_1, 25))),
            entry("KCL-0.01-25", Cells.one(() -> standard(PotassiumChlorideStandard.MOL_PER_KG_0_01, 25))),
            entry("KCL-PSS", Cells.one(() -> PotassiumChlorideStandard.GRAMS_PER_KILOGRAM_OF_SALINITY_35)),
            entry(
                    "EC-ALPHA",
                    Cells.one(() -> ConductivityCompensation.linearCoefficient(
                            Conductivity.ofMicrosiemensPerCentimetre(1273.03),
                            new Temperature(20),
                            Conductivity.ofMicrosiemensPerCentimetre(1408.23),
                            new Temperature(25)))),
            entry(
                    "EC-LIN",
                    Cells.one(() -> 896
                            * ConductivityCompensation.linearFactor(new Temperature(15), new Temperature(25), 0.0191))),
            entry("NLF25-0", natural(0)),
            entry("NLF25-5", natural(5)),
            entry("NLF25-10", natural(10)),
            entry("NLF25-15", natural(15)),
            entry("NLF25-20", natural(20)),
            entry("NLF25-25", natural(25)),
            entry("NLF25-30", natural(30)),
            entry("NLF20-10", Cells.one(() -> ConductivityCompensation.naturalWaterFactorTo20(new Temperature(10)))));

    private WaterRows() {}

    /** The library's check cast gives a potential temperature, at the surface the temperature itself. */
    private static double oxygenOfTheCheckCast() {
        return OxygenSaturation.garciaGordonMicromolesPerKilogram(
                new Temperature(27.962), new Salinity(34.306287392599714));
    }

    private static double oxygen(double celsius, Salinity salinity) {
        return OxygenSaturation.bensonKrause(
                        new Temperature(celsius), salinity, OxygenSaturation.ATMOSPHERE_KILOPASCALS)
                .milligramsPerLitre();
    }

    private static double forOneDegree(Salt salt) {
        return SupplementDose.forAlkalinity(salt, HUNDRED, Alkalinity.ofDkh(7), Alkalinity.ofDkh(8), 1)
                        .kilograms()
                * 1000;
    }

    private static double forTenMilligrams(Salt salt) {
        return SupplementDose.forMetal(salt, HUNDRED, new MassConcentration(400), new MassConcentration(410), 1)
                        .kilograms()
                * 1000;
    }

    private static double evaporation(double water, double air) {
        return SurfaceEvaporation.kilogramsPerSquareMetreHour(
                new Temperature(water), new Temperature(air), 0.5, OxygenSaturation.ATMOSPHERE_KILOPASCALS);
    }

    private static double standard(PotassiumChlorideStandard solution, double celsius) {
        return solution.at(new Temperature(celsius)).inMicrosiemensPerCentimetre();
    }

    private static Cells natural(double celsius) {
        return Cells.one(() -> ConductivityCompensation.naturalWaterFactorTo25(new Temperature(celsius)));
    }
}
