package app.tankround.readings;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import app.tankround.accounts.PersonId;
import app.tankround.chemistry.VerdictCode;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.StandardId;
import app.tankround.instruments.StandardKind;
import app.tankround.instruments.StandardRegister;
import app.tankround.persistence.Uuids;
import app.tankround.tanks.WaterSystemId;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestClock;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.web.FieldRefusal;
import app.tankround.web.StaleVersion;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.context.annotation.Import;

@SpringBootTest
@IntegrationTest
@Import(Bench.class)
class ReadingServiceTests {

    @Autowired
    Bench bench;

    @Autowired
    StandardRegister standards;

    @Autowired
    ReadingService readings;

    @Autowired
    TestClock clock;

    WaterSystemId system = WaterSystemId.of(new UUID(0, 0));
    PersonId person = PersonId.of(new UUID(0, 0));

    @BeforeEach
    void setUp() {
        system = bench.marineSystem();
        person = bench.person();
    }

    @Test
    void keepsTheDigitsAsTheyWereWritten() {
        NewReading reading = nitrate("5.00").withKitLot("N-7");

        readings.record(reading);

        assertThat(readings.require(reading.id()).value().orElseThrow()).hasToString("5.00");
    }

    @Test
    void takesTheSameReadingTwiceAsOne() {
        NewReading reading = nitrate("5").withKitLot("N-7");

        RecordedReading first = readings.record(reading);
        RecordedReading second = readings.record(reading);

        assertThat(second).isEqualTo(first);
        assertThat(readings.bySystem(system, 10)).hasSize(1);
    }

    @Test
    void refusesAnotherReadingUnderTheSameId() {
        NewReading reading = nitrate("5");
        readings.record(reading);
        NewReading other = NewReading.of(
                reading.id(),
                system,
                Quantity.NITRATE,
                new BigDecimal("50"),
                MeasurementUnit.MILLIGRAMS_PER_LITRE,
                reading.takenAt(),
                person);

        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> readings.record(other))
                .returns("readings.id-reused", FieldRefusal::code);
    }

    @ParameterizedTest
    @CsvSource({
        "SALINITY, S, 1.0250, units.value-implausible-likely",
        "PH, pH, 82, units.value-implausible-likely",
        "ALKALINITY, dKH, 140, units.value-implausible-likely",
        "NITRATE, mg/L, -1, units.value-implausible",
        "NITRATE, mg/L, 1000000000, units.value-implausible",
        "NITRATE, mg/L, 1.0000001, readings.too-many-decimals"
    })
    void asksBackWhatCannotBe(Quantity quantity, String unit, BigDecimal value, String code) {
        NewReading reading = NewReading.of(
                ReadingId.of(Uuids.next(clock.instant())),
                system,
                quantity,
                value,
                MeasurementUnit.ofCode(unit).orElseThrow(),
                clock.instant(),
                person);

        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> readings.record(reading))
                .returns("value", FieldRefusal::field)
                .returns(code, FieldRefusal::code);
        assertThat(readings.bySystem(system, 10)).isEmpty();
    }

    @Test
    void refusesAReadingThatLiesAhead() {
        Instant ahead = clock.instant().plus(Duration.ofDays(1));

        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> readings.record(reading("5", ahead)))
                .returns("takenAt", FieldRefusal::field);
    }

    @Test
    void refusesAGravityOnAnotherScaleThanTheInstruments() {
        InstrumentId instrument = bench.refractometer();
        NewReading onOtherScale = bench.gravity(system, instrument, person, "1.025", clock.instant())
                .withGravityReference("25/25");

        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> readings.record(onOtherScale))
                .returns("unit", FieldRefusal::field)
                .satisfies(refusal -> assertThat(refusal.args()).contains("SG 25/25", "SG 20/20"));
    }

    @Test
    void takesBelowDetectionForInsideWhereNothingMustBeFound() {
        InstrumentId kit = bench.kit(Quantity.AMMONIA, "0.05", null);
        NewReading none = NewReading.of(
                        ReadingId.of(Uuids.next(clock.instant())),
                        system,
                        Quantity.AMMONIA,
                        new BigDecimal("0.05"),
                        MeasurementUnit.MILLIGRAMS_PER_LITRE,
                        clock.instant(),
                        person)
                .withInstrument(kit)
                .withAnswer(Answer.BELOW_DETECTION);

        AssessmentView said = readings.record(none).assessment();

        assertThat(said.verdict()).isEqualTo(VerdictCode.INSIDE);
        assertThat(said.correctedValue()).isEmpty();
        assertThat(said.trusted()).isTrue();
    }

    @Test
    void cannotTellWhereTheKitIsTooCoarse() {
        // 38 plus or minus 5 reaches across the limit of 40.
        InstrumentId kit = bench.kit(Quantity.NITRATE, "5", null);

        assertThat(readings.record(nitrate("38").withInstrument(kit))
                        .assessment()
                        .verdict())
                .isEqualTo(VerdictCode.UNDECIDED);
        assertThat(readings.record(nitrate("34").withInstrument(kit))
                        .assessment()
                        .verdict())
                .isEqualTo(VerdictCode.INSIDE);
        assertThat(readings.record(nitrate("46").withInstrument(kit))
                        .assessment()
                        .verdict())
                .isEqualTo(VerdictCode.ABOVE);
    }

    @Test
    void trustsNoKitPastItsShelfLife() {
        InstrumentId kit = bench.kit(Quantity.NITRATE, "5", LocalDate.parse("2026-03-01"));

        AssessmentView said = readings.record(nitrate("5").withInstrument(kit)).assessment();

        assertThat(said.trusted()).isFalse();
        assertThat(said.reasons()).contains(new Reason("KIT_EXPIRED", List.of("2026-03-01")));
    }

    /** A check that it passed makes its reagents no younger. */
    @Test
    void trustsNoKitPastItsShelfLifeThatPassedACheck() {
        InstrumentId kit = bench.kit(Quantity.NITRATE, "5", LocalDate.parse("2026-03-01"));
        StandardId known = standards.add(bench.standard(
                bench.code("N"),
                "Nitrate 25",
                StandardKind.KNOWN_CONCENTRATION,
                Quantity.NITRATE,
                "25",
                MeasurementUnit.MILLIGRAMS_PER_LITRE,
                "0.5"));
        bench.check(kit, known, bench.daysAgo(5), "25");

        AssessmentView said = readings.record(nitrate("5").withInstrument(kit)).assessment();

        assertThat(said.trusted()).isFalse();
        assertThat(said.reasons()).contains(new Reason("KIT_EXPIRED", List.of("2026-03-01")));
    }

    @Test
    void trustsNoInstrumentThatNobodyNamed() {
        assertThat(readings.record(nitrate("5")).assessment().trusted()).isFalse();
    }

    @Test
    void correctsByAddingAVersionWithItsReason() {
        NewReading wrong = nitrate("50").withKitLot("N-7");
        readings.record(wrong);
        NewReading right = nitrate("5").withKitLot("N-7");

        readings.correct(wrong.id(), right, "wrong column read");

        ReadingView old = readings.require(wrong.id());
        assertThat(old.value().orElseThrow()).hasToString("50");
        assertThat(old.replacedBy()).contains(right.id());
        assertThat(readings.require(right.id()).reason()).contains("wrong column read");
        assertThat(readings.latest(system).get(Quantity.NITRATE))
                .extracting(ReadingView::id)
                .isEqualTo(right.id());
    }

    @Test
    void refusesASecondCorrectionOfTheSameVersion() {
        NewReading wrong = nitrate("50");
        readings.record(wrong);
        readings.correct(wrong.id(), nitrate("5"), "wrong column read");

        assertThatExceptionOfType(StaleVersion.class)
                .isThrownBy(() -> readings.correct(wrong.id(), nitrate("6"), "looked again"));
    }

    @Test
    void keepsFifteenThousandReadingsAndAssessesTwoThousandAgain() {
        InstrumentId instrument = bench.refractometer();
        var standard = bench.salinityStandard("35");
        bench.check(instrument, standard, bench.daysAgo(400), "1.0266", "1.0266");
        List<NewReading> many = new ArrayList<>();
        for (int i = 0; i < 13_000; i++) {
            many.add(reading("5", bench.daysAgo(300).plusSeconds(60L * i)).withKitLot("N-7"));
        }
        for (int i = 0; i < 2_000; i++) {
            many.add(bench.gravity(
                    system, instrument, person, "1.025", bench.daysAgo(300).plusSeconds(60L * i)));
        }
        readings.recordAll(many);
        bench.check(instrument, standard, bench.daysAgo(0), "1.0186", "1.0186");

        assertThat(readings.doubtful(instrument, 10_000)).hasSize(2_000);
    }

    private NewReading nitrate(String value) {
        return reading(value, clock.instant());
    }

    private NewReading reading(String value, Instant at) {
        return NewReading.of(
                ReadingId.of(Uuids.next(at)),
                system,
                Quantity.NITRATE,
                new BigDecimal(value),
                MeasurementUnit.MILLIGRAMS_PER_LITRE,
                at,
                person);
    }
}
