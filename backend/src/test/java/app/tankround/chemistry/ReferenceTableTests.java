package app.tankround.chemistry;

import static java.util.Map.entry;
import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.feeds.ClockChangeRows;
import app.tankround.schedule.CalendarRows;
import app.tankround.units.Alkalinity;
import app.tankround.units.Conductivity;
import app.tankround.units.GravityReference;
import app.tankround.units.Mass;
import app.tankround.units.Salinity;
import app.tankround.units.SpecificGravity;
import app.tankround.units.Temperature;
import app.tankround.units.Volume;
import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import java.util.function.DoubleSupplier;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import tools.jackson.core.type.TypeReference;
import tools.jackson.dataformat.csv.CsvMapper;
import tools.jackson.dataformat.csv.CsvSchema;

/**
 * The tables of published and independently computed values, row by row. Every row that units and chemistry compute is
 * bound to a call; every other one must be named among those that other parts compute, or this fails.
 */
class ReferenceTableTests {

    private static final double T68 = 1 / 1.00024;
    private static final GravityReference SIXTY = GravityReference.AT_60F_60F;

    /** Rows of other parts of the program, by the beginning of their id. */
    private static final List<String> COMPUTED_ELSEWHERE = List.of(
            "EN-EX",
            "NIST-EWMA",
            "NIST-CUSUM",
            "NIST-IMR-",
            "SS-",
            "FISHER-",
            "BH-",
            "POIS-",
            "BIS-",
            "RF-",
            "IBAN-",
            "MOD97-",
            "EPC-",
            "QUANT-");

    private static final Map<String, DoubleSupplier> NUMBERS = Map.ofEntries(
            entry("EOS80-0-5", () -> density(0, 5 * T68)),
            entry("EOS80-0-25", () -> density(0, 25 * T68)),
            entry("EOS80-35-5", () -> density(35, 5 * T68)),
            entry("EOS80-35-25", () -> density(35, 25 * T68)),
            entry("EOS80-35-0", () -> density(35, 0)),
            entry("EOS80-SVA-35-20", () -> 1e8 * (1 / density(35, 20 * T68) - 1 / density(35, 0))),
            entry("EOS80-T90", () -> density(35, 25)),
            entry("GSW-C0", () -> conductivity(34.306287392599714, 27.962)),
            entry("GSW-SP0", () -> salinity(55.19754712635529, 27.962)),
            entry("GSW-SR0", () -> SaltWater.gramsPerKilogram(new Salinity(34.306287392599714))),
            entry("GSW-RHO0", () -> density(34.468236430490606 / SaltWater.GRAMS_PER_KILOGRAM, 27.962)),
            entry("FEI-21", () -> density(35, 0)),
            entry("TEOS-35-25", () -> density(35, 25)),
            entry("TEOS-35-20", () -> density(35, 20)),
            entry("PSS-1-15", () -> PracticalSalinity.salinityOfRatio(1, 15)),
            entry("PSS-1.2-20", () -> salinityUnderPressure(1.2, 20, 2000)),
            entry("PSS-0.65-5", () -> salinityUnderPressure(0.65, 5, 1500)),
            entry("PSS-T-0.6990725-0", () -> PracticalSalinity.salinityOfRatio(0.6990725, 0)),
            entry("PSS-T-0.6990725-30", () -> PracticalSalinity.salinityOfRatio(0.6990725, 30)),
            entry("PSS-T-1.1651206-20", () -> PracticalSalinity.salinityOfRatio(1.1651206, 20)),
            entry("PSS-R-25-0", () -> PracticalSalinity.ratioOfSalinity(25, 0)),
            entry("PSS-R-25-20", () -> PracticalSalinity.ratioOfSalinity(25, 20)),
            entry("PSS-R-35-20", () -> PracticalSalinity.ratioOfSalinity(35, 20)),
            entry("PSS-R-35-30", () -> PracticalSalinity.ratioOfSalinity(35, 30)),
            entry("COND35-15", () -> conductivity(35, 15)),
            entry("COND35-20", () -> conductivity(35, 20)),
            entry("COND35-25", () -> conductivity(35, 25)),
            entry("COND53", () -> salinity(53, 25)),
            entry("COND-BRACK", () -> salinity(10, 25)),
            entry("SG-35-20/20", () -> gravity(35, GravityReference.AT_20_20)),
            entry("SG-35-25/25", () -> gravity(35, GravityReference.AT_25_25)),
            entry("SG-35-60F/60F", () -> gravity(35, SIXTY)),
            entry("SG-33-20/20", () -> gravity(33, GravityReference.AT_20_20)),
            entry("SG-33-25/25", () -> gravity(33, GravityReference.AT_25_25)),
            entry("SG-33-60F/60F", () -> gravity(33, SIXTY)),
            entry("SG-35-25/4", () -> gravity(35, GravityReference.AT_25_4)),
            entry("SGINV-1.0264-25/25", () -> gravitySalinity(1.0264, GravityReference.AT_25_25)),
            entry("SGINV-1.026-60F/60F", () -> gravitySalinity(1.026, SIXTY)),
            entry("HYD-15/4-1.0230-22", () -> density(hydrometer(1.0230, GravityReference.AT_15_4, 22), 15) / 1000),
            entry("HYDS-1.024-60F/60F-25", () -> hydrometer(1.024, SIXTY, 25)),
            entry("HYDS-1.025-60F/60F-25", () -> hydrometer(1.025, SIXTY, 25)),
            entry("HYDS-1.023-15/4-22", () -> hydrometer(1.023, GravityReference.AT_15_4, 22)),
            entry("QF-0-20", () -> quanFry(0, 20)),
            entry("QF-35-20", () -> quanFry(35, 20)),
            entry("QF-35-25", () -> quanFry(35, 25)),
            entry("MS-0-20", () -> millardSeaver(0, 20)),
            entry("MS-35-20", () -> millardSeaver(35, 20)),
            entry("MS-35-25", () -> millardSeaver(35, 25)),
            entry("NACL-N-3.5", () -> SodiumChlorideScale.brineIndex(3.5)),
            entry("NACL-N-4.0", () -> SodiumChlorideScale.brineIndex(4)),
            entry("NACL-RHO-3.5", () -> SodiumChlorideScale.brineDensity(3.5)),
            entry("BRINE-35", () -> SodiumChlorideScale.readingIn(new Salinity(35))),
            entry("BRINE-INV", () -> SodiumChlorideScale.toSalinity(35).practical()),
            entry("NH3F-7.0-10", () -> ammonia(7.0, 10, 0)),
            entry("NH3F-8.0-20", () -> ammonia(8.0, 20, 0)),
            entry("NH3F-8.0-24", () -> ammonia(8.0, 24, 0)),
            entry("NH3F-8.2-26", () -> ammonia(8.2, 26, 0)),
            entry("NH3F-8.6-20", () -> ammonia(8.6, 20, 0)),
            entry("NH3F-PKA25", () -> UnionisedAmmonia.freshWaterPka(new Temperature(25))),
            entry("NH3S-8.0-20", () -> 100 * ammonia(8.0, 20, 34)),
            entry("NH3S-8.0-25", () -> 100 * ammonia(8.0, 25, 34)),
            entry("NH3S-8.2-25", () -> 100 * ammonia(8.2, 25, 34)),
            entry("NH3S-8.5-20", () -> 100 * ammonia(8.5, 20, 34)),
            entry("NH3S-BELL", () -> UnionisedAmmonia.seawaterPka(new Temperature(25), new Salinity(35))),
            entry("U-USGAL", () -> Volume.ofUsGallons(1).litres()),
            entry("U-IMPGAL", () -> Volume.ofImperialGallons(1).litres()),
            entry("U-DKH-MEQ", () -> Alkalinity.ofDkh(1).milliequivalentsPerLitre()),
            entry("U-DKH-CACO3", () -> Alkalinity.ofDkh(1).inMilligramsPerLitreCalciumCarbonate()),
            entry("U-MEQ-DKH", () -> Alkalinity.ofMilliequivalentsPerLitre(1).inDkh()),
            entry("MIX-M-100", () -> batch().seawater().kilograms()),
            entry("MIX-S-100", () -> batch().anhydrousSalt().kilograms()),
            entry("MIX-W-100", () -> batch().water().litres()),
            entry(
                    "MASS-5GAL",
                    () -> SaltWater.mass(Volume.ofUsGallons(5), new Salinity(35), new Temperature(25))
                            .kilograms()),
            entry(
                    "RAISE-SALT",
                    () -> SaltWater.productToRaise(
                                    new Volume(400), new Salinity(33), new Salinity(35), new Temperature(25), 1)
                            .kilograms()),
            entry(
                    "LOWER-RO",
                    () -> SaltWater.volumeToSwap(
                                    new Volume(400),
                                    new Salinity(37),
                                    new Salinity(35),
                                    new Salinity(0),
                                    new Temperature(25))
                            .litres()),
            entry("WC-1", () -> Dilution.afterChanges(40, 0, 0.25, 1)),
            entry("WC-4", () -> Dilution.afterChanges(40, 5, 0.2, 4)),
            entry("WC-N", () -> Dilution.changesNeeded(80, 0, 0.25, 20)),
            entry("WC-CONT", () -> Dilution.afterFlowThrough(40, 0, new Volume(50), new Volume(100))),
            entry("DRIP-GROW", () -> Dilution.afterAdding(30, 35, new Volume(0.020 * 60), new Volume(2))),
            entry("DRIP-CONST", () -> Dilution.afterFlowThrough(30, 35, new Volume(0.020 * 60), new Volume(2))),
            entry("DRIP-TIME", () -> Dilution.toPassThrough(0.9, new Volume(2)).litres() / 0.020),
            entry(
                    "EVAP-S",
                    () -> SaltWater.afterEvaporation(new Mass(200), new Salinity(35), new Mass(4))
                            .practical()),
            entry("CAL-2PT", () -> TwoPointCalibration.of(0, 0.5, 35, 36.5).correct(34)),
            entry("CAL-DRIFT", ReferenceTableTests::driftedReading));

    private static final Map<String, Cells> BOUND = bound();

    private static Map<String, Cells> bound() {
        Map<String, Cells> all = new TreeMap<>();
        NUMBERS.forEach((id, number) -> all.put(id, Cells.one(number)));
        ClockChangeRows.BOUND.forEach((id, texts) -> all.put(id, Cells.texts(texts)));
        CalendarRows.BOUND.forEach((id, texts) -> all.put(id, Cells.texts(texts)));
        Stream.of(WaterRows.BOUND, PlantRows.BOUND, StatisticsRows.BOUND)
                .flatMap(rows -> rows.entrySet().stream())
                .forEach(row -> assertThat(all.put(row.getKey(), row.getValue()))
                        .as("bound twice: " + row.getKey())
                        .isNull());
        return all;
    }

    private record Row(
            String id,
            String quantity,
            String inputs,
            String expected,
            String tolerance,
            String unit,
            String source,
            String provenance) {

        List<String> cells() {
            return Arrays.stream(expected.split(";")).map(String::trim).toList();
        }

        boolean isText() {
            return tolerance.equals("exact");
        }

        double allowed(double value) {
            return tolerance.endsWith("%")
                    ? Math.abs(value) * Double.parseDouble(tolerance.substring(0, tolerance.length() - 1)) / 100
                    : Double.parseDouble(tolerance);
        }
    }

    @TestFactory
    Stream<DynamicTest> agreesWithEveryRowItComputes() {
        return boundRows()
                .map(row -> DynamicTest.dynamicTest(
                        row.id() + ": " + row.quantity() + " within " + row.tolerance() + " [" + row.source() + "]",
                        () -> assertThat(computed(row)).satisfies(cells -> agree(row, cells))));
    }

    @TestFactory
    Stream<DynamicTest> disagreesOnceARowIsMovedByTenTolerances() {
        return boundRows()
                .filter(row -> !row.isText())
                .map(row -> DynamicTest.dynamicTest(row.id(), () -> {
                    List<?> cells = computed(row);
                    for (int i = 0; i < cells.size(); i++) {
                        double value = Double.parseDouble(row.cells().get(i));
                        double allowed = row.allowed(value);
                        double move = allowed == 0 ? 1 : 10 * allowed;
                        double computed = (Double) cells.get(i);
                        assertThat(Math.abs(computed - (value + move))).isGreaterThan(allowed);
                        assertThat(Math.abs(computed - (value - move))).isGreaterThan(allowed);
                    }
                }));
    }

    @Test
    void leavesNoRowUnaccountedFor() {
        List<String> ids = rows().map(Row::id).toList();

        assertThat(ids).doesNotHaveDuplicates().containsAll(BOUND.keySet());
        assertThat(ids)
                .filteredOn(id -> !BOUND.containsKey(id))
                .allMatch(id -> COMPUTED_ELSEWHERE.stream().anyMatch(id::startsWith));
        assertThat(COMPUTED_ELSEWHERE)
                .allMatch(prefix -> ids.stream().anyMatch(id -> id.startsWith(prefix) && !BOUND.containsKey(id)));
    }

    private static List<?> computed(Row row) {
        return Objects.requireNonNull(BOUND.get(row.id())).compute();
    }

    private static void agree(Row row, List<?> computed) {
        if (row.isText()) {
            assertThat(computed).isEqualTo(row.cells());
            return;
        }
        assertThat(computed).hasSameSizeAs(row.cells());
        for (int i = 0; i < computed.size(); i++) {
            double value = Double.parseDouble(row.cells().get(i));
            assertThat(Math.abs((Double) computed.get(i) - value)).isLessThanOrEqualTo(row.allowed(value));
        }
    }

    private static Stream<Row> boundRows() {
        return rows().filter(row -> BOUND.containsKey(row.id()));
    }

    private static Stream<Row> rows() {
        List<Row> rows = new ArrayList<>();
        for (String file : List.of("check-values.csv", "more-check-values.csv")) {
            try (InputStream table = ReferenceTableTests.class.getResourceAsStream("/reference/" + file)) {
                CsvMapper.builder()
                        .build()
                        .readerFor(new TypeReference<TreeMap<String, String>>() {})
                        .with(CsvSchema.emptySchema().withHeader())
                        .<Map<String, String>>readValues(table)
                        .forEachRemaining(cells -> rows.add(new Row(
                                cells.getOrDefault("id", ""),
                                cells.getOrDefault("quantity", ""),
                                cells.getOrDefault("inputs", ""),
                                cells.getOrDefault("expected", ""),
                                cells.getOrDefault("tolerance", ""),
                                cells.getOrDefault("unit", ""),
                                cells.getOrDefault("source", ""),
                                cells.getOrDefault("provenance", ""))));
            } catch (IOException e) {
                throw new AssertionError(file, e);
            }
        }
        return rows.stream();
    }

    private static double density(double s, double t90) {
        return SeawaterDensity.ofSeawater(new Salinity(s), new Temperature(t90)).value();
    }

    private static double conductivity(double s, double t90) {
        return PracticalSalinity.toConductivity(new Salinity(s), new Temperature(t90))
                .millisiemensPerCentimetre();
    }

    private static double salinity(double millisiemens, double t90) {
        return PracticalSalinity.fromConductivity(new Conductivity(millisiemens), new Temperature(t90))
                .practical();
    }

    /** Takes the pressure out of a ratio (UNESCO 44, equation 4), since an aquarium has none. */
    private static double salinityUnderPressure(double r, double t, double p) {
        double numerator = p * (2.070e-5 + p * (-6.370e-10 + p * 3.989e-15));
        double denominator = 1 + t * (3.426e-2 + t * 4.464e-4) + (4.215e-1 + t * -3.107e-3) * r;
        return PracticalSalinity.salinityOfRatio(r / (1 + numerator / denominator), t);
    }

    private static double gravity(double s, GravityReference reference) {
        return SeawaterGravity.ofSalinity(new Salinity(s), reference).value();
    }

    private static double gravitySalinity(double gravity, GravityReference reference) {
        return SeawaterGravity.toSalinity(SpecificGravity.of(gravity, reference))
                .value();
    }

    private static double hydrometer(double reading, GravityReference reference, double celsius) {
        return GlassHydrometer.toSalinity(SpecificGravity.of(reading, reference), new Temperature(celsius))
                .value();
    }

    private static double quanFry(double s, double t) {
        return RefractiveIndex.quanFry(new Salinity(s), new Temperature(t), 589.3);
    }

    private static double millardSeaver(double s, double t) {
        return RefractiveIndex.millardSeaver(new Salinity(s), new Temperature(t), 589.26);
    }

    private static double ammonia(double ph, double t, double s) {
        return UnionisedAmmonia.fraction(ph, new Temperature(t), new Salinity(s));
    }

    private static SaltWater.Batch batch() {
        return SaltWater.mix(new Volume(100), new Salinity(35), new Temperature(25), new Temperature(20), 1);
    }

    private static double driftedReading() {
        InstrumentFacts meter =
                UncertaintyDefaults.instrument(InstrumentKind.CONDUCTIVITY_METER, SalinityScale.practicalSalinity());
        long day = 86_400;
        List<CalibrationCheck> checks = List.of(
                new CalibrationCheck(
                        "day 0", 0, List.of(CheckPoint.of(StandardRole.WORKING_RANGE, "35", 35, 35, 35, 0))),
                new CalibrationCheck(
                        "day 30", 30 * day, List.of(CheckPoint.of(StandardRole.WORKING_RANGE, "35", 35, 36, 36, 0))));
        return InstrumentCorrection.correct(InstrumentHistory.of(meter, checks), 35.5, 12 * day)
                .value();
    }
}
