package app.tankround.stock;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.PersonId;
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
    ReadingService readings;

    @Autowired
    DecisionRegister decisions;

    @Autowired
    CurrentPerson currentPerson;

    WaterSystemId vat = WaterSystemId.of(new UUID(0, 0));
    PersonId person = PersonId.of(new UUID(0, 0));
    InstrumentId instrument = InstrumentId.of(new UUID(0, 0));
    StandardId standard = StandardId.of(new UUID(0, 0));

    @BeforeEach
    void hasAVatAndAnInstrument() {
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
    void isNotReleasedOutsideItsTargetAndKeepsNothingThen() {
        WaterBatchView batch = batches.make(stated());
        BatchMeasurement measured = measured(instrument, "1.0206");

        assertRefused("value", "stock.batch.outside", () -> release(batch, measured));
        assertThat(readings.find(measured.id())).isEmpty();
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
}
