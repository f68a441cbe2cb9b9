package app.tankround.chemistry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import app.tankround.chemistry.UnionisedAmmonia.Model;
import app.tankround.units.Alkalinity;
import app.tankround.units.Hardness;
import app.tankround.units.InputKind;
import app.tankround.units.MassConcentration;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.RefusalCode;
import app.tankround.units.Salinity;
import app.tankround.units.Temperature;
import app.tankround.units.Volume;
import java.util.Random;
import org.assertj.core.api.ThrowableAssert.ThrowingCallable;
import org.assertj.core.data.Percentage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Ammonia, oxygen, carbon dioxide, supplements, limewater, evaporation and conductivity beyond the reference tables. */
class WaterTests {

    private static final Temperature WARM = new Temperature(25);
    private static final Salinity FRESH = new Salinity(0);
    private static final double ATMOSPHERE = OxygenSaturation.ATMOSPHERE_KILOPASCALS;

    private static void refuses(RefusalCode code, InputKind quantity, ThrowingCallable call) {
        assertThatExceptionOfType(OutOfRangeException.class).isThrownBy(call).satisfies(e -> {
            assertThat(e.refusal().code()).isEqualTo(code);
            assertThat(e.refusal().quantity()).isEqualTo(quantity);
        });
    }

    /**
     * Worked out in Python for the comparison of models at S = 34, 25 °C, pH 8.2: Clegg and Whitfield on the free scale
     * 6.84 %, Bell 6.50 %; fresh water by Emerson 8.25 %.
     */
    @Test
    void givesEachAmmoniaModelItsOwnShare() {
        Salinity sea = new Salinity(34);

        assertThat(UnionisedAmmonia.fraction(Model.CLEGG_WHITFIELD, 8.2, WARM, sea))
                .isCloseTo(0.0684, within(0.00005));
        assertThat(UnionisedAmmonia.fraction(Model.BELL, 8.2, WARM, sea)).isCloseTo(0.0650, within(0.00005));
        assertThat(UnionisedAmmonia.fraction(Model.EMERSON, 8.2, WARM, FRESH)).isCloseTo(0.0825, within(0.00005));
        assertThat(UnionisedAmmonia.fraction(Model.BLEND, 8.2, WARM, sea))
                .isEqualTo(UnionisedAmmonia.fraction(Model.BELL, 8.2, WARM, sea));
    }

    @ParameterizedTest
    @CsvSource({"EMERSON, 1.01", "EMERSON, 34", "BELL, 4.99", "BELL, 42.1", "CLEGG_WHITFIELD, 40.1"})
    void refusesAnAmmoniaModelAtSalinitiesItDoesNotHoldFor(Model model, double salinity) {
        refuses(
                RefusalCode.MODEL_NOT_FOR_SALINITY,
                InputKind.PRACTICAL_SALINITY,
                () -> UnionisedAmmonia.fraction(model, 8.2, WARM, new Salinity(salinity)));
    }

    @ParameterizedTest
    @EnumSource(Model.class)
    void findsMoreAmmoniaTheWarmerAndTheHigherThePh(Model model) {
        Random random = new Random(1);
        Salinity salinity = new Salinity(model == Model.EMERSON ? 0.2 : 30);
        for (int i = 0; i < 500; i++) {
            double t = 34 * random.nextDouble();
            double ph = 4 + 6.5 * random.nextDouble();
            double share = UnionisedAmmonia.fraction(model, ph, new Temperature(t), salinity);

            assertThat(share).isBetween(0.0, 1.0);
            assertThat(UnionisedAmmonia.fraction(model, ph + 0.5, new Temperature(t), salinity))
                    .isGreaterThan(share);
            assertThat(UnionisedAmmonia.fraction(model, ph, new Temperature(t + 1), salinity))
                    .isGreaterThan(share);
        }
    }

    /** Benson and Krause beside Garcia and Gordon (their fit to the same data): within 0.002 mg/L (reference.md 14). */
    @Test
    void findsTheSameOxygenByTwoFits() {
        for (double t = 0; t <= 40; t += 2) {
            for (double s = 0; s <= 40; s += 5) {
                Temperature temperature = new Temperature(t);
                Salinity salinity = new Salinity(s);
                assertThat(OxygenSaturation.garciaGordon(temperature, salinity).milligramsPerLitre())
                        .as("S " + s + " at " + t)
                        .isCloseTo(
                                OxygenSaturation.bensonKrause(temperature, salinity, ATMOSPHERE)
                                        .milligramsPerLitre(),
                                within(t <= 30 ? 0.003 : 0.02));
            }
        }
    }

    @Test
    void findsLessOxygenTheWarmerTheSaltierAndTheHigherTheSite() {
        Random random = new Random(2);
        for (int i = 0; i < 500; i++) {
            Temperature t = new Temperature(39 * random.nextDouble());
            Salinity s = new Salinity(38 * random.nextDouble());
            double p = 55 + 50 * random.nextDouble();
            double c = OxygenSaturation.bensonKrause(t, s, p).milligramsPerLitre();

            assertThat(OxygenSaturation.bensonKrause(new Temperature(t.celsius() + 1), s, p)
                            .milligramsPerLitre())
                    .isLessThan(c);
            assertThat(OxygenSaturation.bensonKrause(t, new Salinity(s.practical() + 1), p)
                            .milligramsPerLitre())
                    .isLessThan(c);
            assertThat(OxygenSaturation.bensonKrause(t, s, p - 3).milligramsPerLitre())
                    .isLessThan(c);
        }
        refuses(
                RefusalCode.OUT_OF_RANGE,
                InputKind.PRESSURE,
                () -> OxygenSaturation.bensonKrause(WARM, FRESH, 0.49 * ATMOSPHERE));
        refuses(
                RefusalCode.OUT_OF_RANGE,
                InputKind.PRACTICAL_SALINITY,
                () -> OxygenSaturation.garciaGordon(WARM, new Salinity(40.1)));
    }

    /** Dry air pressure alone scales the saturation, nearly: at 85 kPa 8.26 becomes 6.90 mg/L (own arithmetic). */
    @Test
    void takesVapourOffThePressureFirst() {
        double here = OxygenSaturation.bensonKrause(WARM, FRESH, ATMOSPHERE).milligramsPerLitre();
        double vapour = SurfaceEvaporation.saturationPressurePascals(WARM) / 1000;

        assertThat(OxygenSaturation.bensonKrause(WARM, FRESH, 85).milligramsPerLitre())
                .isCloseTo(here * (85 - vapour) / (ATMOSPHERE - vapour), Percentage.withPercentage(0.05));
    }

    /** ASHRAE Handbook of Fundamentals, table of water at saturation (from memory): 2.3392 kPa at 20, 3.7831 at 28 °C. */
    @ParameterizedTest
    @CsvSource({"20, 2339.2", "28, 3783.1"})
    void knowsThePressureOfWaterVapour(double celsius, double pascals) {
        assertThat(SurfaceEvaporation.saturationPressurePascals(new Temperature(celsius)))
                .isCloseTo(pascals, Percentage.withPercentage(0.03));
    }

    /** Tucker 1984, table read at pH 7.0 in a reprint: 0.211 at 20, 0.197 at 25 °C. */
    @Test
    void findsCarbonDioxideByTuckersFactors() {
        Alkalinity hundred = Alkalinity.ofMilligramsPerLitreCalciumCarbonate(100);

        assertThat(FreeCarbonDioxide.tucker(7, hundred, new Temperature(20), FRESH)
                        .milligramsPerLitre())
                .isCloseTo(21.1, within(0.05));
        assertThat(FreeCarbonDioxide.tucker(7, hundred, WARM, FRESH).milligramsPerLitre())
                .isCloseTo(19.7, within(0.05));
        // The two forms side by side: 61.017 mg/L of bicarbonate for each milliequivalent.
        assertThat(FreeCarbonDioxide.usgs(7, FreeCarbonDioxide.bicarbonate(hundred), FRESH)
                        .milligramsPerLitre())
                .isCloseTo(19.7, within(0.4));
        assertThat(FreeCarbonDioxide.alkalinity(FreeCarbonDioxide.bicarbonate(hundred))
                        .milliequivalentsPerLitre())
                .isCloseTo(hundred.milliequivalentsPerLitre(), within(1e-12));
    }

    @Test
    void findsNoCarbonDioxideWhereAlkalinityIsNotBicarbonate() {
        MassConcentration bicarbonate = new MassConcentration(100);

        refuses(
                RefusalCode.NOT_FRESH_WATER,
                InputKind.PRACTICAL_SALINITY,
                () -> FreeCarbonDioxide.usgs(7, bicarbonate, new Salinity(0.51)));
        refuses(RefusalCode.OUT_OF_RANGE, InputKind.PH, () -> FreeCarbonDioxide.usgs(8.31, bicarbonate, FRESH));
        refuses(
                RefusalCode.OUT_OF_RANGE,
                InputKind.TEMPERATURE,
                () -> FreeCarbonDioxide.tucker(7, new Alkalinity(1), new Temperature(4), FRESH));
    }

    /** Molar masses of reference.md section 11 (periodictable 1.6.0); CIAAW 2021 differs by less than 0.01. */
    @ParameterizedTest
    @CsvSource({
        "NaHCO3, 84.007",
        "Na2CO3, 105.988",
        "CaCl2, 110.984",
        "MgSO4·7H2O, 246.475",
        "Ca(OH)2, 74.093",
        "CaCO3, 100.087",
        "CaO, 56.077",
        "NaCl, 58.443",
        "KCl, 74.551",
        "NH3, 17.031"
    })
    void weighsMolecules(String formula, double grams) {
        assertThat(MolarMass.of(formula)).isCloseTo(grams, within(0.01));
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "Xx", "CaCl2·", "Ca(OH2", "Ca)OH(2", "nacl", "CaCl2 2H2O"})
    void refusesWhatIsNoFormula(String text) {
        assertThatIllegalArgumentException().isThrownBy(() -> MolarMass.of(text));
    }

    /** reference.md section 11: N to NO3 4.427, P to PO4 3.066 (periodictable), NH3 over N 1.2159. */
    @ParameterizedTest
    @CsvSource({"NITRATE, 4.427", "PHOSPHATE, 3.066", "AMMONIA, 1.2159"})
    void convertsNutrients(Nutrient nutrient, double factor) {
        assertThat(nutrient.wholePerElement()).isCloseTo(factor, within(0.001));
    }

    /** reference.md section 13: 17.848 mg/L CaCO3, 0.35665 meq/L, 7.147 mg/L Ca, 4.334 mg/L Mg; 17.118 in a grain. */
    @Test
    void convertsHardness() {
        Hardness degree = Hardness.ofDgh(1);

        assertThat(degree.inMilligramsPerLitreCalciumCarbonate()).isCloseTo(17.848, within(0.001));
        assertThat(degree.inMilliequivalentsPerLitre()).isCloseTo(0.35665, within(0.00001));
        assertThat(degree.asMilligramsPerLitreCalcium()).isCloseTo(7.147, within(0.001));
        assertThat(degree.asMilligramsPerLitreMagnesium()).isCloseTo(4.334, within(0.001));
        assertThat(Hardness.ofGrainsPerUsGallon(1).inMilligramsPerLitreCalciumCarbonate())
                .isCloseTo(17.118, within(0.001));
        assertThat(Hardness.ofEnglishDegrees(1).inMilligramsPerLitreCalciumCarbonate())
                .isCloseTo(14.254, within(0.001));
        assertThat(Hardness.ofFrenchDegrees(1).inMilligramsPerLitreCalciumCarbonate())
                .isCloseTo(10, within(1e-12));
        assertThat(Hardness.ofCalciumAndMagnesium(new MassConcentration(40.078), new MassConcentration(24.305))
                        .millimolesPerLitre())
                .isCloseTo(2, within(1e-12));
        assertThat(Hardness.ofDgh(Hardness.ofGrainsPerUsGallon(3).inDgh()).inGrainsPerUsGallon())
                .isCloseTo(3, within(1e-12));
    }

    /** reference.md section 11: baking 2 NaHCO3 to Na2CO3 leaves 0.6308 of the mass for the same alkalinity. */
    @Test
    void dosesTheSameAlkalinityWithLessSoda() {
        double bicarbonate = alkalinityDose(Salt.SODIUM_BICARBONATE, 1);

        assertThat(alkalinityDose(Salt.SODIUM_CARBONATE, 1) / bicarbonate).isCloseTo(0.6308, within(0.0001));
        assertThat(alkalinityDose(Salt.SODIUM_BICARBONATE, 0.5)).isCloseTo(2 * bicarbonate, within(1e-12));
        // 2.769 g for each 10 mg/L in 100 L (reference.md section 11).
        assertThat(SupplementDose.forMetal(
                                Salt.CALCIUM_CHLORIDE_ANHYDROUS,
                                new Volume(100),
                                new MassConcentration(400),
                                new MassConcentration(410),
                                1)
                        .kilograms())
                .isCloseTo(0.002769, within(0.000001));
    }

    @Test
    void dosesNothingDownwardsAndNoSaltForWhatItDoesNotRaise() {
        refuses(
                RefusalCode.OUT_OF_RANGE,
                InputKind.MASS_CONCENTRATION,
                () -> SupplementDose.forMetal(
                        Salt.CALCIUM_CHLORIDE_DIHYDRATE,
                        new Volume(100),
                        new MassConcentration(420),
                        new MassConcentration(410),
                        1));
        refuses(RefusalCode.OUT_OF_RANGE, InputKind.FRACTION, () -> alkalinityDose(Salt.SODIUM_CARBONATE, 0));
        refuses(RefusalCode.OUT_OF_RANGE, InputKind.FRACTION, () -> alkalinityDose(Salt.SODIUM_CARBONATE, 1.01));
        assertThatIllegalArgumentException().isThrownBy(() -> alkalinityDose(Salt.CALCIUM_CHLORIDE_DIHYDRATE, 1));
    }

    private static double alkalinityDose(Salt salt, double purity) {
        return SupplementDose.forAlkalinity(salt, new Volume(100), Alkalinity.ofDkh(7), Alkalinity.ofDkh(8), purity)
                .kilograms();
    }

    /**
     * reference.md section 12: saturated at 1.55 g/L it holds 41.8 meq/L and 0.838 g/L of calcium; one litre brings 100 L
     * 0.42 meq/L and 8.4 mg/L. A web calculator's 0.165 g/L is g in 100 mL: ten times off.
     */
    @Test
    void bringsWhatSaturatedLimewaterHolds() {
        assertThat(Limewater.alkalinity(1.55).milliequivalentsPerLitre()).isCloseTo(41.8, within(0.05));
        assertThat(Limewater.calcium(1.55).milligramsPerLitre()).isCloseTo(838, within(0.6));
        assertThat(Limewater.alkalinityAdded(1.55, new Volume(1), new Volume(100))
                        .milliequivalentsPerLitre())
                .isCloseTo(0.42, within(0.005));
        assertThat(Limewater.calciumAdded(1.55, new Volume(1), new Volume(100)).milligramsPerLitre())
                .isCloseTo(8.4, within(0.05));
        Computed at25 = Limewater.saturated(WARM);
        assertThat(at25.expandedUncertainty()).isCloseTo(0.08, within(1e-12));
        double before = Double.POSITIVE_INFINITY;
        for (double t = 0; t <= 40; t += 0.5) {
            double strength = Limewater.saturated(new Temperature(t)).value();
            assertThat(strength).isLessThan(before);
            before = strength;
        }
        refuses(RefusalCode.OUT_OF_RANGE, InputKind.TEMPERATURE, () -> Limewater.saturated(new Temperature(41)));
        refuses(
                RefusalCode.OUT_OF_RANGE,
                InputKind.VOLUME,
                () -> Limewater.calciumAdded(1.55, new Volume(1), new Volume(0)));
    }

    /** trade-facts.md, computed by Shah: a still indoor surface at 25 to 26 °C loses roughly 2.5 to 4 L for each m2 and day. */
    @Test
    void evaporatesLessTheDamperTheAir() {
        assertThat(24 * evaporation(25.5, 24, 0.5)).isBetween(2.5, 4.0);
        Random random = new Random(3);
        for (int i = 0; i < 500; i++) {
            double water = 24 + 5 * random.nextDouble();
            double air = 15 + 10 * random.nextDouble();
            double humidity = 0.3 + 0.4 * random.nextDouble();
            double rate = evaporation(water, air, humidity);

            assertThat(rate).isPositive();
            assertThat(evaporation(water, air, humidity + 0.05)).isLessThan(rate);
            assertThat(evaporation(water + 1, air, humidity)).isGreaterThan(rate);
        }
        refuses(RefusalCode.OUT_OF_RANGE, InputKind.VAPOUR_PRESSURE_DIFFERENCE, () -> evaporation(15, 30, 0.9));
        refuses(RefusalCode.OUT_OF_RANGE, InputKind.FRACTION, () -> evaporation(25, 25, 0.2));
    }

    private static double evaporation(double water, double air, double humidity) {
        return SurfaceEvaporation.kilogramsPerSquareMetreHour(
                new Temperature(water), new Temperature(air), humidity, ATMOSPHERE);
    }

    /** ISO 7888:1985, tenths of degrees as reprinted in the manual of a bench conductivity meter. */
    @ParameterizedTest
    @CsvSource({
        "0.1, 1.912",
        "0.5, 1.887",
        "1.5, 1.829",
        "5.1, 1.638",
        "10.3, 1.416",
        "17.2, 1.191",
        "20.3, 1.108",
        "24.1, 1.019",
        "25.3, 0.994",
        "29.2, 0.918",
        "33.3, 0.848",
        "35.3, 0.817"
    })
    void liesBetweenTheWholeDegreesOfTheTable(double celsius, double factor) {
        assertThat(ConductivityCompensation.naturalWaterFactorTo25(new Temperature(celsius)))
                .isCloseTo(factor, within(0.001));
    }

    @Test
    void compensatesWithinTheTableAndFreshWaterOnly() {
        double before = Double.POSITIVE_INFINITY;
        for (double t = 0; t <= 35.9; t += 0.1) {
            double factor = ConductivityCompensation.naturalWaterFactorTo25(new Temperature(t));
            assertThat(factor).isLessThan(before);
            before = factor;
        }
        refuses(
                RefusalCode.OUT_OF_RANGE,
                InputKind.TEMPERATURE,
                () -> ConductivityCompensation.naturalWaterFactorTo25(new Temperature(35.95)));
        assertThat(ConductivityCompensation.linearFactor(WARM, WARM, 0.02)).isEqualTo(1);
        // By the TEOS-10 library.
        assertThat(Gsw.salinity(ConductivityCompensation.highest(WARM).millisiemensPerCentimetre(), 25))
                .isCloseTo(2, within(1e-4));
    }

    /** Pratt et al. 2001 by the CRC Handbook: 1273.03 at 20, 1546.63 at 30 °C; 14059.2 at 30 °C (read). */
    @Test
    void knowsItsStandards() {
        assertThat(PotassiumChlorideStandard.MOL_PER_KG_0_01
                        .at(new Temperature(20))
                        .inMicrosiemensPerCentimetre())
                .isCloseTo(1273.03, within(0.005));
        assertThat(PotassiumChlorideStandard.MOL_PER_KG_0_01
                        .at(new Temperature(30))
                        .inMicrosiemensPerCentimetre())
                .isCloseTo(1546.63, within(0.005));
        assertThat(PotassiumChlorideStandard.MOL_PER_KG_0_1
                        .at(new Temperature(30))
                        .inMicrosiemensPerCentimetre())
                .isCloseTo(14059.2, within(0.05));
        assertThat(PotassiumChlorideStandard.MOL_PER_KG_0_1.gramsPerKilogramOfWater())
                .isCloseTo(7.455, within(0.001));
    }

    /** A slip in one remembered cell would show as a kink: third differences stay small throughout. */
    @ParameterizedTest
    @EnumSource(PotassiumChlorideStandard.class)
    void runsSmoothlyThroughTheCellsOfAStandard(PotassiumChlorideStandard standard) {
        double scale = standard.at(WARM).millisiemensPerCentimetre();
        for (double t = 0; t <= 35; t += 5) {
            double third = at(standard, t + 15) - 3 * at(standard, t + 10) + 3 * at(standard, t + 5) - at(standard, t);
            assertThat(third / scale).as("from " + t).isBetween(-0.0005, 0.0001);
        }
        refuses(RefusalCode.OUT_OF_RANGE, InputKind.TEMPERATURE, () -> standard.at(new Temperature(50.1)));
    }

    private static double at(PotassiumChlorideStandard standard, double celsius) {
        return standard.at(new Temperature(celsius)).millisiemensPerCentimetre();
    }

    /** reference.md section 11, mg/kg at S = 35 by marelac 2.1.11 data. */
    @ParameterizedTest
    @CsvSource({
        "CHLORIDE, 19352.7", "SODIUM, 10781.5", "SULFATE, 2712.4", "POTASSIUM, 399.1", "BICARBONATE, 104.8",
        "BROMIDE, 67.3", "CARBONATE, 14.3", "BORATE, 7.9", "STRONTIUM, 7.9", "FLUORIDE, 1.3"
    })
    void knowsWhatSeawaterHolds(ReferenceSeawater.Ion ion, double milligrams) {
        double at35 = ReferenceSeawater.milligramsPerKilogram(ion, new Salinity(35));

        assertThat(at35).isCloseTo(milligrams, within(0.06));
        assertThat(ReferenceSeawater.milligramsPerKilogram(ion, new Salinity(17.5)))
                .isCloseTo(at35 / 2, within(1e-9));
    }
}
