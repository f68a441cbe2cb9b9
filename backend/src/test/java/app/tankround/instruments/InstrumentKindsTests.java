package app.tankround.instruments;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.within;

import app.tankround.accounts.PersonId;
import app.tankround.accounts.Role;
import app.tankround.chemistry.PhBuffer;
import app.tankround.chemistry.TemperatureCompensation;
import app.tankround.persistence.Uuids;
import app.tankround.readings.Bench;
import app.tankround.readings.NewReading;
import app.tankround.readings.ReadingId;
import app.tankround.readings.ReadingService;
import app.tankround.readings.ReadingView;
import app.tankround.testing.IntegrationTest;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.util.List;
import java.util.Optional;
import org.assertj.core.api.ThrowableAssert.ThrowingCallable;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.context.annotation.Import;

/** Each kind of instrument with what is its own: what it may be checked with, and what can be stated of it. */
@SpringBootTest
@IntegrationTest
@Import(Bench.class)
class InstrumentKindsTests {

    @Autowired
    Bench bench;

    @Autowired
    InstrumentRegister instruments;

    @Autowired
    StandardRegister standards;

    @Autowired
    CalibrationService calibrations;

    @Autowired
    InstrumentStandings standings;

    @Autowired
    ReadingService readings;

    /** Common practice, no source: a kitchen balance that is off by 0.5 g at 200 g where 1 g is permitted. */
    @Test
    void checksABalanceWithATestMassAndNothingElse() {
        InstrumentId balance = instruments.add(balance());
        StandardId mass = standards.add(standard(StandardKind.TEST_MASS, Quantity.MASS, "200", MeasurementUnit.GRAM));

        bench.check(balance, mass, bench.daysAgo(1), "200.5", "200.5");

        CalibrationHistory history = calibrations.history(balance);
        assertThat(history.isGood(history.checks().getFirst())).isTrue();
        assertThat(standings.standing(balance)).isEqualTo(Standing.IN_USE);
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(
                        () -> bench.check(balance, bench.salinityStandard("35"), bench.daysAgo(0), "200.5", "200.5"))
                .returns("points[0].standardId", FieldRefusal::field);
    }

    /** 0.5 lb is 226.796185 g exactly (NIST Handbook 44, Appendix C). */
    @Test
    void bringsATestMassInPoundsToABalanceInGrams() {
        InstrumentId balance = instruments.add(balance());
        StandardId half = standards.add(standard(StandardKind.TEST_MASS, Quantity.MASS, "0.5", MeasurementUnit.POUND));

        bench.check(balance, half, bench.daysAgo(1), "226.8", "226.8");

        // Its empty pan comes first.
        assertThat(calibrations
                        .history(balance)
                        .checks()
                        .getFirst()
                        .points()
                        .getLast()
                        .trueValue())
                .isCloseTo(226.796185, within(1e-9));
    }

    @Test
    void letsOnlyABalanceMeasureMassAndABalanceNothingElse() {
        refused(
                "quantity",
                () -> instruments.add(bench.instrument(
                        InstrumentKind.BALANCE, Quantity.PH, MeasurementUnit.PH_UNIT, null, "0.1", "0.1")));
        refused(
                "quantity",
                () -> instruments.add(bench.instrument(
                        InstrumentKind.PHOTOMETER, Quantity.MASS, MeasurementUnit.GRAM, null, "0.1", "0.1")));
    }

    @ParameterizedTest
    @CsvSource({
        "REFRACTOMETER, PH, pH",
        "HYDROMETER, NITRATE, mg/L",
        "SWING_ARM, TEMPERATURE, degC",
        "CONDUCTIVITY_METER, AMMONIA, mg/L",
        "TDS_PEN, PH, pH",
        "PH_METER, SALINITY, S",
        "THERMOMETER, OXYGEN, mg/L",
        "OXYGEN_PROBE, CALCIUM, mg/L",
        "TITRATION_KIT, TEMPERATURE, degC",
        "COLOUR_KIT, SALINITY, S",
        "PHOTOMETER, MASS, g",
        "PHOTOMETER, PRESSURE, bar"
    })
    void refusesAKindThatCannotMeasureIt(InstrumentKind kind, Quantity quantity, String unit) {
        NewInstrument stated =
                bench.instrument(kind, quantity, MeasurementUnit.ofCode(unit).orElseThrow(), null, "0.1", "0.1");

        refused("quantity", () -> instruments.add(stated));
        assertThat(instruments.findByCode(stated.code())).isEmpty();
    }

    /** A step that is larger than what counts as wildly off (15 in salinity), or than a quarter of its own scale. */
    @ParameterizedTest
    @CsvSource({"0,,", "-1,,", "15.1,,", "1000000,,", "10.1, 0, 40"})
    void refusesAStepThatNobodyCouldReadAnythingBy(String resolution, @Nullable String low, @Nullable String high) {
        NewInstrument plain = bench.instrument(
                InstrumentKind.REFRACTOMETER,
                Quantity.SALINITY,
                MeasurementUnit.PRACTICAL_SALINITY,
                null,
                resolution,
                "1");

        refused("resolution", () -> instruments.add(with(plain, null, low, high)));
        assertThat(instruments.findByCode(plain.code())).isEmpty();
    }

    @ParameterizedTest
    @CsvSource({
        "PURE_WATER, SALINITY, 35, S, value",
        "PURE_WATER, PH, 7, pH, quantity",
        "PURE_WATER, TEMPERATURE, 0, degC, quantity",
        "SEAWATER, SALINITY, 0, S, value",
        "SEAWATER, PH, 8.2, pH, quantity",
        "SODIUM_CHLORIDE, CALCIUM, 400, mg/L, quantity",
        "CONDUCTIVITY, SALINITY, 0, mS/cm, value",
        "PH_BUFFER, SALINITY, 35, S, quantity",
        "REFERENCE_THERMOMETER, PH, 7, pH, quantity",
        "AIR_SATURATED_WATER, NITRATE, 9, mg/L, quantity",
        "AIR_SATURATED_WATER, OXYGEN, 0, mg/L, value",
        "KNOWN_CONCENTRATION, TEMPERATURE, 25, degC, quantity",
        "TEST_MASS, MASS, 0, g, value",
        "TEST_MASS, SALINITY, 35, S, quantity",
        "OTHER, MASS, 0, g, value",
        "OTHER, PRESSURE, 1, bar, quantity"
    })
    void refusesAStandardThatCannotBe(StandardKind kind, Quantity quantity, String value, String unit, String field) {
        NewStandard stated =
                standard(kind, quantity, value, MeasurementUnit.ofCode(unit).orElseThrow());

        refused(field, () -> standards.add(stated));
        assertThat(standards.findByCode(stated.code())).isEmpty();
    }

    @ParameterizedTest
    @CsvSource({
        "PURE_WATER, SALINITY, 0, S",
        "PURE_WATER, DISSOLVED_SOLIDS, 0, mg/L",
        "CONDUCTIVITY, DISSOLVED_SOLIDS, 84, mg/L",
        "REFERENCE_THERMOMETER, TEMPERATURE, 0, degC",
        "KNOWN_CONCENTRATION, NITRATE, 0, mg/L",
        "OTHER, DISSOLVED_SOLIDS, 0, mg/L"
    })
    void takesAStandardThatMayBeZero(StandardKind kind, Quantity quantity, String value, String unit) {
        NewStandard stated =
                standard(kind, quantity, value, MeasurementUnit.ofCode(unit).orElseThrow());

        assertThat(standards.require(standards.add(stated)).value()).isEqualByComparingTo(value);
    }

    /** Common practice, no source. */
    @Test
    void takesWhatIsUsualForAKitUntilTheOfficeWritesItsOwnTimes() {
        NewInstrument plain = kit(InstrumentKind.COLOUR_KIT, KitTimes.UNSTATED);
        assertThat(plain.times().orUsual(plain.kind(), Quantity.NITRATE)).isEqualTo(new KitTimes(60, 300, 300));
        assertThat(plain.times().orUsual(plain.kind(), Quantity.FREE_CHLORINE)).isEqualTo(new KitTimes(20, 60, 60));
        assertThat(plain.times().orUsual(InstrumentKind.TITRATION_KIT, Quantity.CALCIUM))
                .isEqualTo(new KitTimes(0, 0, 0));

        KitTimes own = new KitTimes(null, 600, 0);
        InstrumentId id = instruments.add(kit(InstrumentKind.PHOTOMETER, own));
        assertThat(instruments.require(id).times()).isEqualTo(own);
        assertThat(own.orUsual(InstrumentKind.PHOTOMETER, Quantity.NITRATE)).isEqualTo(new KitTimes(60, 600, 0));
    }

    @Test
    void refusesTimesThatNoKitHasAndTimesOfWhatIsNoKit() {
        refused("shakeSeconds", () -> instruments.add(kit(InstrumentKind.COLOUR_KIT, new KitTimes(601, 300, 300))));
        refused("waitSeconds", () -> instruments.add(kit(InstrumentKind.COLOUR_KIT, new KitTimes(60, -1, 300))));
        refused("readWithinSeconds", () -> instruments.add(kit(InstrumentKind.COLOUR_KIT, new KitTimes(60, 1, 7201))));
        NewInstrument meter =
                bench.instrument(InstrumentKind.PH_METER, Quantity.PH, MeasurementUnit.PH_UNIT, null, "0.01", "0.1");
        refused("waitSeconds", () -> instruments.add(timed(meter, new KitTimes(null, 300, null))));
    }

    private NewInstrument kit(InstrumentKind kind, KitTimes times) {
        return timed(
                bench.instrument(kind, Quantity.NITRATE, MeasurementUnit.MILLIGRAMS_PER_LITRE, null, "1", "2"), times);
    }

    private static NewInstrument timed(NewInstrument plain, KitTimes times) {
        return new NewInstrument(
                plain.code(),
                plain.name(),
                plain.kind(),
                plain.quantity(),
                plain.unit(),
                plain.gravityReference(),
                plain.graduation(),
                plain.compensation(),
                plain.resolution(),
                plain.rangeLow(),
                plain.rangeHigh(),
                plain.permittedError(),
                plain.checkIntervalDays(),
                times,
                plain.lot(),
                plain.expiresOn(),
                plain.purchasedOn(),
                plain.retiredOn(),
                plain.holder());
    }

    /** The id of something else, as a form that was tampered with may send it. */
    @Test
    void refusesAHolderWhoIsNobody() {
        NewInstrument plain = balance();
        NewInstrument held = new NewInstrument(
                plain.code(),
                plain.name(),
                plain.kind(),
                plain.quantity(),
                plain.unit(),
                plain.gravityReference(),
                plain.graduation(),
                plain.resolution(),
                plain.permittedError(),
                plain.checkIntervalDays(),
                plain.lot(),
                plain.expiresOn(),
                plain.purchasedOn(),
                plain.retiredOn(),
                Optional.of(PersonId.of(bench.marineSystem().value())));

        refused("holder", () -> instruments.add(held));
        assertThat(instruments.findByCode(held.code())).isEmpty();
    }

    @Test
    void readsNoMassAtATank() {
        InstrumentId balance = instruments.add(balance());
        refused(
                "quantity",
                () -> readings.record(NewReading.of(
                                ReadingId.of(Uuids.next(bench.daysAgo(0))),
                                bench.marineSystem(),
                                Quantity.MASS,
                                new BigDecimal("200"),
                                MeasurementUnit.GRAM,
                                bench.daysAgo(0),
                                bench.person(Role.TECHNICIAN))
                        .withInstrument(balance)));
    }

    @ParameterizedTest
    @CsvSource({
        "REFRACTOMETER, SALINITY, S, true",
        "CONDUCTIVITY_METER, SALINITY, mS/cm, true",
        "TDS_PEN, DISSOLVED_SOLIDS, mg/L, true",
        "HYDROMETER, SALINITY, S, false",
        "PH_METER, PH, pH, false",
        "COLOUR_KIT, NITRATE, mg/L, false"
    })
    void asksForCompensationOnlyWhereThereIsAny(InstrumentKind kind, Quantity quantity, String unit, boolean taken) {
        NewInstrument stated = with(
                bench.instrument(kind, quantity, MeasurementUnit.ofCode(unit).orElseThrow(), null, "0.1", "0.5"),
                TemperatureCompensation.NONE,
                null,
                null);
        if (taken) {
            assertThat(instruments.require(instruments.add(stated)).compensation())
                    .contains(TemperatureCompensation.NONE);
        } else {
            refused("compensation", () -> instruments.add(stated));
        }
    }

    @ParameterizedTest
    @CsvSource({"50, 1, rangeHigh", "5, 5, rangeHigh", "-1, 5, rangeLow", "0, 100000, rangeHigh"})
    void refusesAScaleThatEndsWhereItBegins(String low, String high, String field) {
        NewInstrument kit = bench.instrument(
                InstrumentKind.COLOUR_KIT, Quantity.NITRATE, MeasurementUnit.MILLIGRAMS_PER_LITRE, null, "1", "2");
        refused(field, () -> instruments.add(with(kit, null, low, high)));
    }

    @Test
    void keepsAReadingBeyondTheScaleButLetsItDecideNothing() {
        InstrumentId kit = instruments.add(with(
                bench.instrument(
                        InstrumentKind.COLOUR_KIT,
                        Quantity.NITRATE,
                        MeasurementUnit.MILLIGRAMS_PER_LITRE,
                        null,
                        "1",
                        "2"),
                null,
                "0",
                "50"));

        assertThat(nitrate(kit, "50").assessment().trusted()).isTrue();
        ReadingView beyond = nitrate(kit, "60");
        assertThat(beyond.value()).contains(new BigDecimal("60"));
        assertThat(beyond.assessment().trusted()).isFalse();
        assertThat(beyond.assessment().says("BEYOND_SCALE")).isTrue();
    }

    @Test
    void refusesAStandardBeyondTheScale() {
        InstrumentId kit = instruments.add(with(
                bench.instrument(
                        InstrumentKind.COLOUR_KIT,
                        Quantity.NITRATE,
                        MeasurementUnit.MILLIGRAMS_PER_LITRE,
                        null,
                        "1",
                        "2"),
                null,
                "0",
                "50"));
        StandardId strong = standards.add(standard(
                StandardKind.KNOWN_CONCENTRATION, Quantity.NITRATE, "80", MeasurementUnit.MILLIGRAMS_PER_LITRE));

        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> bench.check(kit, strong, bench.daysAgo(1), "80"))
                .returns("points[0].standardId", FieldRefusal::field)
                .returns("instruments.standard-beyond-scale", FieldRefusal::code);
        assertThat(calibrations.of(kit)).isEmpty();
    }

    /** Brine bends light as seawater does, but neither floats a glass nor conducts as seawater. */
    @ParameterizedTest
    @CsvSource({
        "REFRACTOMETER, SODIUM_CHLORIDE, true",
        "HYDROMETER, SODIUM_CHLORIDE, false",
        "SWING_ARM, SODIUM_CHLORIDE, false",
        "CONDUCTIVITY_METER, SODIUM_CHLORIDE, false",
        "SWING_ARM, SEAWATER, true",
        "TDS_PEN, CONDUCTIVITY, true",
        "REFRACTOMETER, CONDUCTIVITY, false",
        "PH_METER, PH_BUFFER, true",
        "THERMOMETER, REFERENCE_THERMOMETER, true",
        "OXYGEN_PROBE, AIR_SATURATED_WATER, true",
        "TITRATION_KIT, KNOWN_CONCENTRATION, true",
        "COLOUR_KIT, KNOWN_CONCENTRATION, true",
        "PHOTOMETER, KNOWN_CONCENTRATION, true",
        "TITRATION_KIT, PH_BUFFER, false",
        "BALANCE, TEST_MASS, true",
        "BALANCE, KNOWN_CONCENTRATION, false",
        "THERMOMETER, TEST_MASS, false"
    })
    void knowsWhichStandardsMayCheckWhat(InstrumentKind kind, StandardKind standard, boolean may) {
        assertThat(standard.checks(kind)).isEqualTo(may);
    }

    @Test
    void saysZeroCheckedAndNoMoreOfARefractometerHeldInPureWaterOnly() {
        InstrumentId refractometer = bench.refractometer();
        bench.check(refractometer, bench.salinityStandard("0"), bench.daysAgo(1), "1.000", "1.000");

        assertThat(calibrations.history(refractometer).statusAt(bench.daysAgo(0)))
                .hasToString("ZERO_CHECKED_ONLY");
    }

    /** Borax of 9.18 at 25 °C is 9.332 at 10 °C (Covington, Bates and Durst 1985). */
    @Test
    void takesABufferAtItsTemperature() {
        InstrumentId meter = meter();
        StandardId borax = standards.add(buffer(PhBuffer.BORAX, "9.18"));

        calibrations.record(check(meter, point(borax, "9.33", "10", null)));
        assertThat(calibrations.of(meter).getFirst().standardValue()).isEqualByComparingTo("9.332");
    }

    /** A bottle whose label says 9.20 keeps its 0.02 at any temperature; without a temperature its label counts. */
    @Test
    void keepsWhatABottleDiffersFromTheTable() {
        StandardView borax = standards.require(standards.add(buffer(PhBuffer.BORAX, "9.20")));

        assertThat(borax.valueAt(Optional.of(new BigDecimal("10")))).isEqualByComparingTo("9.352");
        assertThat(borax.valueAt(Optional.empty())).isEqualByComparingTo("9.20");
    }

    @Test
    void asksBackABufferThatIsAnother() {
        refused("value", () -> standards.add(buffer(PhBuffer.BORAX, "10.01")));
        refused(
                "buffer",
                () -> standards.add(new NewStandard(
                        bench.code("ST"),
                        "Seawater",
                        StandardKind.SEAWATER,
                        Quantity.SALINITY,
                        new BigDecimal("35"),
                        MeasurementUnit.PRACTICAL_SALINITY,
                        new BigDecimal("0.2"),
                        Optional.empty(),
                        Optional.of(PhBuffer.BORAX),
                        Optional.empty(),
                        Optional.empty(),
                        Optional.empty(),
                        Optional.empty(),
                        Optional.empty(),
                        Optional.empty())));
        InstrumentId meter = meter();
        StandardId borax = standards.add(buffer(PhBuffer.BORAX, "9.18"));
        refused("points[0].temperature", () -> calibrations.record(check(meter, point(borax, "9.18", "55", null))));
    }

    @Test
    void keepsTheMillivoltsOfAnElectrodeAndStillTakesPhAlone() {
        InstrumentId meter = meter();
        StandardId seven = standards.add(buffer(PhBuffer.PHOSPHATE_SEVEN, "7.00"));
        StandardId ten = standards.add(buffer(PhBuffer.CARBONATE, "10.01"));

        calibrations.record(check(meter, point(seven, "7.00", "25", "-4"), point(ten, "9.95", "25", "-172")));

        assertThat(calibrations.of(meter))
                .extracting(row -> row.millivolts().orElseThrow())
                .containsExactlyInAnyOrder(new BigDecimal("-4"), new BigDecimal("-172"));
        assertThat(bench.check(meter, seven, bench.daysAgo(0), "7.00", "7.00").alreadyRecorded())
                .isFalse();
    }

    @Test
    void refusesMillivoltsThatCannotBe() {
        InstrumentId meter = meter();
        StandardId seven = standards.add(buffer(PhBuffer.PHOSPHATE_SEVEN, "7.00"));
        refused("points[0].millivolts", () -> calibrations.record(check(meter, point(seven, "7", "25", "1001"))));
        refused("points[0].temperature", () -> calibrations.record(check(meter, point(seven, "7", null, "-4"))));
        InstrumentId refractometer = bench.refractometer();
        StandardId sea = bench.salinityStandard("35");
        refused(
                "points[0].millivolts",
                () -> calibrations.record(check(refractometer, point(sea, "1.0266", "25", "-4"))));
        assertThat(calibrations.of(meter)).isEmpty();
    }

    private ReadingView nitrate(InstrumentId kit, String value) {
        ReadingId id = ReadingId.of(Uuids.next(bench.daysAgo(0)));
        readings.record(NewReading.of(
                        id,
                        bench.marineSystem(),
                        Quantity.NITRATE,
                        new BigDecimal(value),
                        MeasurementUnit.MILLIGRAMS_PER_LITRE,
                        bench.daysAgo(0),
                        bench.person(Role.TECHNICIAN))
                .withInstrument(kit));
        return readings.require(id);
    }

    private NewInstrument balance() {
        return bench.instrument(InstrumentKind.BALANCE, Quantity.MASS, MeasurementUnit.GRAM, null, "0.1", "1");
    }

    private InstrumentId meter() {
        return instruments.add(
                bench.instrument(InstrumentKind.PH_METER, Quantity.PH, MeasurementUnit.PH_UNIT, null, "0.01", "0.1"));
    }

    private static NewInstrument with(
            NewInstrument plain,
            @Nullable TemperatureCompensation compensation,
            @Nullable String low,
            @Nullable String high) {
        return new NewInstrument(
                plain.code(),
                plain.name(),
                plain.kind(),
                plain.quantity(),
                plain.unit(),
                plain.gravityReference(),
                plain.graduation(),
                Optional.ofNullable(compensation),
                plain.resolution(),
                Optional.ofNullable(low).map(BigDecimal::new),
                Optional.ofNullable(high).map(BigDecimal::new),
                plain.permittedError(),
                plain.checkIntervalDays(),
                plain.times(),
                plain.lot(),
                plain.expiresOn(),
                plain.purchasedOn(),
                plain.retiredOn(),
                plain.holder());
    }

    private NewStandard standard(StandardKind kind, Quantity quantity, String value, MeasurementUnit unit) {
        return bench.standard(bench.code("ST"), "Standard", kind, quantity, value, unit, "0.01");
    }

    private NewStandard buffer(PhBuffer buffer, String value) {
        return new NewStandard(
                bench.code("BU"),
                "Buffer",
                StandardKind.PH_BUFFER,
                Quantity.PH,
                new BigDecimal(value),
                MeasurementUnit.PH_UNIT,
                new BigDecimal("0.02"),
                Optional.of(new BigDecimal("25")),
                Optional.of(buffer),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty());
    }

    private NewCalibration check(InstrumentId instrument, NewCalibration.Point... points) {
        return new NewCalibration(
                instrument,
                bench.daysAgo(1),
                Optional.empty(),
                List.of(points),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                false);
    }

    private static NewCalibration.Point point(
            StandardId standard, String ph, @Nullable String celsius, @Nullable String millivolts) {
        return new NewCalibration.Point(
                standard,
                List.of(new BigDecimal(ph)),
                List.of(),
                Optional.ofNullable(celsius).map(BigDecimal::new),
                Optional.ofNullable(millivolts).map(BigDecimal::new));
    }

    private static void refused(String field, ThrowingCallable call) {
        assertThatExceptionOfType(FieldRefusal.class).isThrownBy(call).returns(field, FieldRefusal::field);
    }
}
