package app.tankround.stock;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.byLessThan;

import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.PersonId;
import app.tankround.chemistry.BatchCorrection;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.StandardId;
import app.tankround.persistence.Uuids;
import app.tankround.readings.Bench;
import app.tankround.readings.DecisionRegister;
import app.tankround.readings.DecisionView;
import app.tankround.readings.ReadingId;
import app.tankround.readings.ReadingService;
import app.tankround.tanks.WaterSystemId;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBusiness;
import app.tankround.web.FieldRefusal;
import app.tankround.web.StaleVersion;
import java.math.BigDecimal;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.assertj.core.api.ThrowableAssert.ThrowingCallable;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.context.annotation.Import;
import org.springframework.jdbc.core.simple.JdbcClient;

/** Salinity 35 is 1.0266 and salinity 27.1 is 1.0206 at 20/20 (EOS-80). */
@SpringBootTest
@IntegrationTest
@Import(Bench.class)
class WaterBatchTests {

    @Autowired
    Bench bench;

    @Autowired
    WaterBatches batches;

    @Autowired
    BatchCorrections corrections;

    @Autowired
    UnmeasuredBatches unmeasured;

    @Autowired
    ReadingService readings;

    @Autowired
    DecisionRegister decisions;

    @Autowired
    CurrentPerson currentPerson;

    @Autowired
    JdbcClient jdbc;

    WaterSystemId vat = WaterSystemId.of(new UUID(0, 0));
    PersonId person = PersonId.of(new UUID(0, 0));
    InstrumentId instrument = InstrumentId.of(new UUID(0, 0));
    StandardId standard = StandardId.of(new UUID(0, 0));

    @BeforeEach
    void hasAVatAndAnInstrument() {
        new TestBusiness(jdbc);
        vat = bench.vat();
        person = bench.person();
        instrument = bench.refractometer();
        standard = bench.salinityStandard("35");
        bench.check(instrument, standard, bench.daysAgo(20), "1.0266", "1.0266");
    }

    private NewWaterBatch stated() {
        return new NewWaterBatch(
                WaterBatchId.of(UUID.randomUUID()),
                vat,
                "drum 4",
                new BigDecimal("180"),
                Optional.of(new BigDecimal("6.9")),
                Optional.of(new BigDecimal("34")),
                new BigDecimal("36"));
    }

    private BatchMeasurement measured(InstrumentId with, String value) {
        return new BatchMeasurement(
                ReadingId.of(Uuids.next(bench.daysAgo(0))), with, new BigDecimal(value), Optional.empty());
    }

    private WaterBatchView release(WaterBatchView batch, BatchMeasurement measured) throws Exception {
        return currentPerson.actingAs(person, () -> batches.release(batch.id(), batch.version(), measured));
    }

    @Test
    void isReleasedByWhatWasMeasuredInItAndByWhom() throws Exception {
        WaterBatchView batch = batches.make(stated());
        BatchMeasurement measured = measured(instrument, "1.0266");

        WaterBatchView released = release(batch, measured);

        assertThat(released.release().orElseThrow().by()).contains(person);
        assertThat(readings.require(measured.id()).systemId()).isEqualTo(vat);
        assertThat(decisions.restingOn(List.of(measured.id())).get(measured.id()))
                .singleElement()
                .extracting(DecisionView::kind, DecisionView::page)
                .containsExactly("batch-released", "/stock/batches/" + batch.id());
        assertThat(release(batch, measured)).isEqualTo(released);
        assertThatExceptionOfType(StaleVersion.class).isThrownBy(() -> release(batch, measured(instrument, "1.0267")));
    }

    @Test
    void isNotReleasedByASuspectInstrumentButAnotherIsOffered() {
        WaterBatchView batch = batches.make(stated());
        InstrumentId other = bench.refractometer();
        bench.check(other, standard, bench.daysAgo(20), "1.0266", "1.0266");
        InstrumentId unchecked = bench.refractometer();
        bench.check(instrument, standard, bench.daysAgo(0).minus(Duration.ofHours(1)), "1.0186", "1.0186");

        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> release(batch, measured(instrument, "1.0266")))
                .satisfies(refusal -> {
                    assertThat(refusal.field()).isEqualTo("instrumentId");
                    assertThat(refusal.code()).isEqualTo("stock.batch.not-usable.SUSPECT");
                });
        assertThat(batches.instruments(batch))
                .extracting(each -> each.id())
                .contains(other)
                .doesNotContain(instrument, unchecked);
        assertRefused(
                "instrumentId",
                "stock.batch.not-usable.NEVER_CHECKED",
                () -> release(batch, measured(unchecked, "1.0266")));
        assertThat(batches.require(batch.id()).release()).isEmpty();
    }

    @Test
    void isNotReleasedOutsideItsTargetButWhatWasMeasuredIsKept() throws Exception {
        WaterBatchView batch = batches.make(stated());
        BatchMeasurement measured = measured(instrument, "1.0206");

        WaterBatchView off = release(batch, measured);

        assertThat(off.release()).isEmpty();
        assertThat(release(batch, measured)).as("sent twice").isEqualTo(off);
        assertThat(readings.require(measured.id()).systemId()).isEqualTo(vat);
        assertThat(corrections.steps(batch.id())).hasSize(1);
        assertThat(corrections.wanted(off).orElseThrow().product().kilograms()).isGreaterThan(1);
        assertThat(unmeasured.mayBeReleased(off)).isFalse();
        assertThatExceptionOfType(StaleVersion.class).isThrownBy(() -> release(batch, measured(instrument, "1.0266")));
        assertThat(release(off, measured(instrument, "1.0266")).release()).isPresent();
    }

    /** The pen shows what it should in a solution of 84 mg/L, the usual one of potassium chloride; common practice, no source. */
    @Test
    void isNotReleasedWithTooMuchDissolvedInItHoweverMuchSomebodyWantsTo() throws Exception {
        InstrumentId pen = bench.pen();
        bench.check(pen, bench.solids("84"), bench.daysAgo(20), "84");
        WaterBatchView batch = batches.make(with(stated(), vat, "drum 5", "180", null, null, "10"));

        WaterBatchView off = release(batch, measured(pen, "40"));

        assertThat(off.release()).isEmpty();
        assertThat(corrections.tooMuchDissolved(off).orElseThrow().args().getFirst())
                .isEqualTo("40");
        assertThat(corrections.wanted(off)).isEmpty();
        assertRefused(
                "why",
                "stock.batch.measured-off",
                () -> currentPerson.actingAs(
                        person, () -> unmeasured.release(off.id(), off.version(), "They wait for it")));
        assertRefused(
                "water",
                "stock.batch.no-salinity-to-correct",
                () -> corrections.correct(
                        off.id(),
                        off.version(),
                        new NewBatchCorrection(
                                UUID.randomUUID(), Optional.empty(), Optional.empty(), Optional.of(BigDecimal.ONE))));
        WaterBatchView let = release(off, measured(pen, "3"));
        assertThat(let.release()).isPresent();
        assertThat(corrections.tooMuchDissolved(let)).isEmpty();
    }

    /** Of S 32.9 the gravity at 20/20 is 1.0250 (EOS-80: 1023.16 over 998.20 kg/m3). */
    @Test
    void asksAGravityBackThatWasTypedForItsSalinity() {
        NewWaterBatch good = stated();
        assertRefused(
                "targetLow",
                "units.gravity-for-salinity",
                () -> batches.make(with(good, vat, "drum", "180", "6.9", "1.024", "1.025")));
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> batches.make(with(good, vat, "drum", "180", "6.9", "1", "1.025")))
                .returns("targetHigh", FieldRefusal::field)
                .satisfies(refusal -> assertThat(refusal.args()).contains("1.025", "20/20", new BigDecimal("32.9")));
    }

    @Test
    void statedTwiceIsOneAndNumbersCountUp() {
        NewWaterBatch stated = stated();
        WaterBatchView first = batches.make(stated);

        assertThat(batches.make(stated)).isEqualTo(first);
        assertThat(batches.make(stated()).number()).isGreaterThan(first.number());
    }

    @Test
    void refusesWhatCannotBe() {
        NewWaterBatch good = stated();
        assertRefused(
                "madeIn",
                "stock.batch.not-a-supply",
                () -> batches.make(with(good, bench.marineSystem(), "drum", "180", "6.9", "34", "36")));
        assertRefused(
                "container", "web.text-blank", () -> batches.make(with(good, vat, " ", "180", "6.9", "34", "36")));
        assertRefused(
                "litres",
                "stock.batch.above-zero",
                () -> batches.make(with(good, vat, "drum", "0", "6.9", "34", "36")));
        assertRefused(
                "litres",
                "stock.batch.above-zero",
                () -> batches.make(with(good, vat, "drum", "100001", "6.9", "34", "36")));
        assertRefused(
                "saltKg",
                "stock.batch.above-zero",
                () -> batches.make(with(good, vat, "drum", "180", "-1", "34", "36")));
        assertRefused(
                "targetLow",
                "web.number-missing",
                () -> batches.make(with(good, vat, "drum", "180", "6.9", null, "36")));
        assertRefused(
                "targetLow",
                "stock.batch.low-without-salt",
                () -> batches.make(with(good, vat, "drum", "180", null, "34", "36")));
        assertRefused(
                "targetHigh",
                "web.number-out-of-range",
                () -> batches.make(with(good, vat, "drum", "180", "6.9", "34", "33")));
        assertRefused(
                "targetHigh",
                "web.number-out-of-range",
                () -> batches.make(with(good, vat, "drum", "180", "6.9", "34", "46")));
    }

    private static NewWaterBatch with(
            NewWaterBatch good,
            WaterSystemId madeIn,
            String container,
            String litres,
            @Nullable String salt,
            @Nullable String low,
            String high) {
        return new NewWaterBatch(
                good.id(),
                madeIn,
                container,
                new BigDecimal(litres),
                Optional.ofNullable(salt).map(BigDecimal::new),
                Optional.ofNullable(low).map(BigDecimal::new),
                new BigDecimal(high));
    }

    private static void assertRefused(String field, String code, ThrowingCallable act) {
        assertThatExceptionOfType(FieldRefusal.class).isThrownBy(act).satisfies(refusal -> {
            assertThat(refusal.field()).isEqualTo(field);
            assertThat(refusal.code()).isEqualTo(code);
        });
    }

    /** 1.0250 at 20/20 is S 32.9 (EOS-80), so 180 L of it want about 400 g of salt mix for 35; once, not twice. */
    @Test
    void isPutRightByWhatIsMissingAndMeasuredAgain() throws Exception {
        WaterBatchView made = batches.make(stated());
        currentPerson.actingAs(person, () -> {
            BatchMeasurement first = measured(instrument, "1.0250");
            corrections.measure(made.id(), made.version(), first);
            corrections.measure(made.id(), made.version(), first);
            return null;
        });
        WaterBatchView off = batches.require(made.id());
        assertThat(off.release()).isEmpty();
        BatchCorrection wanted = corrections.wanted(off).orElseThrow();
        assertThat(wanted.water().litres()).isZero();
        assertThat(wanted.product().kilograms()).isBetween(0.38, 0.48);
        NewBatchCorrection salting = new NewBatchCorrection(
                UUID.randomUUID(), Optional.empty(), Optional.of(new BigDecimal("0.43")), Optional.empty());
        corrections.correct(off.id(), off.version(), salting);
        corrections.correct(off.id(), off.version(), salting);
        WaterBatchView right = batches.require(made.id());
        assertThat(right.salt().orElseThrow().kilograms()).isCloseTo(7.33, byLessThan(1e-9));
        assertThat(right.volume().litres()).isBetween(180.0, 180.5);
        assertRefused(
                "saltKg",
                "stock.batch.measure-first",
                () -> corrections.correct(
                        right.id(),
                        right.version(),
                        new NewBatchCorrection(
                                UUID.randomUUID(), Optional.empty(), Optional.of(BigDecimal.ONE), Optional.empty())));
        assertThat(corrections.wanted(right)).isEmpty();
        assertThat(release(right, measured(instrument, "1.0266")).release()).isPresent();
        assertThat(corrections.steps(made.id())).hasSize(2);
    }

    @Test
    void refusesACorrectionThatCannotBe() throws Exception {
        WaterBatchView made = batches.make(stated());
        currentPerson.actingAs(person, () -> {
            corrections.measure(made.id(), made.version(), measured(instrument, "1.0250"));
            return null;
        });
        WaterBatchView off = batches.require(made.id());
        assertRefused("saltKg", "stock.batch.salt-or-water", () -> correct(off, null, null, null));
        assertRefused("water", "stock.batch.salt-or-water", () -> correct(off, null, "1", "1"));
        assertRefused("takenOut", "web.number-out-of-range", () -> correct(off, "180.5", "1", null));
        assertRefused("saltKg", "web.number-out-of-range", () -> correct(off, null, "-1", null));
        assertRefused("water", "stock.vat.no-room", () -> correct(off, null, null, "600"));
        assertThat(batches.require(made.id())).isEqualTo(off);
    }

    private void correct(WaterBatchView batch, @Nullable String taken, @Nullable String salt, @Nullable String water) {
        corrections.correct(
                batch.id(),
                batch.version(),
                new NewBatchCorrection(UUID.randomUUID(), number(taken), number(salt), number(water)));
    }

    private static Optional<BigDecimal> number(@Nullable String text) {
        return Optional.ofNullable(text).map(BigDecimal::new);
    }

    /** The decision rests on the reading, by which a doubt list of the instrument finds it. */
    @Test
    void isReleasedByNameWithAReasonAndFoundByTheDoubtList() throws Exception {
        WaterBatchView batch = batches.make(stated());
        bench.check(instrument, standard, bench.daysAgo(0).minus(Duration.ofHours(1)), "1.0186", "1.0186");
        BatchMeasurement read = measured(instrument, "1.0186");
        assertRefused("instrumentId", "stock.batch.not-usable.SUSPECT", () -> release(batch, read));
        assertThat(batches.doubtful(batch)).extracting(each -> each.id()).contains(instrument);

        WaterBatchView released = currentPerson.actingAs(
                person,
                () -> batches.release(
                        batch.id(), batch.version(), read, Optional.of("No other here, fish without water")));

        assertThat(released.release().orElseThrow().reason()).contains("No other here, fish without water");
        assertThat(decisions.restingOn(List.of(read.id())).get(read.id()))
                .singleElement()
                .extracting(DecisionView::summaryCode)
                .isEqualTo("stock.decision.batch-released-all-the-same");
    }

    @Test
    void tellsWhatItWasMadeOf() {
        NewWaterBatch plain = stated();
        NewWaterBatch stated = new NewWaterBatch(
                plain.id(),
                vat,
                "drum 4",
                plain.litres(),
                plain.saltKg(),
                plain.targetLow(),
                plain.targetHigh(),
                Optional.of(" L-77 "),
                Optional.of(BigDecimal.ONE));
        WaterBatchView made = batches.make(stated);
        assertThat(made.saltLot()).contains("L-77");
        assertThat(made.waterSolids().orElseThrow()).isEqualByComparingTo("1");
    }
}
