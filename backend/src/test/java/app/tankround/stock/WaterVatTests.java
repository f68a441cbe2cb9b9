package app.tankround.stock;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.byLessThan;

import app.tankround.persistence.Uuids;
import app.tankround.readings.Bench;
import app.tankround.tanks.WaterSystemId;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestClock;
import app.tankround.web.FieldRefusal;
import app.tankround.web.StaleVersion;
import java.math.BigDecimal;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.UUID;
import org.assertj.core.api.ThrowableAssert.ThrowingCallable;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.context.annotation.Import;

/** Vats of 640 L. */
@SpringBootTest
@IntegrationTest
@Import(Bench.class)
class WaterVatTests {

    private static final int MOVES = 10_000;

    @Autowired
    Bench bench;

    @Autowired
    WaterVats vats;

    @Autowired
    WaterBatches batches;

    @Autowired
    TestClock clock;

    private WaterSystemId vat(VatRole role) {
        WaterSystemId vat = bench.vat();
        vats.assign(vat, 0, Optional.of(role));
        return vat;
    }

    private void read(WaterSystemId vat, String litres) {
        vats.read(new NewVatLevel(UUID.randomUUID(), vat, new BigDecimal(litres), Optional.empty()));
    }

    private static NewWaterMovement move(@Nullable WaterSystemId from, @Nullable WaterSystemId to, String litres) {
        return new NewWaterMovement(
                UUID.randomUUID(), Optional.ofNullable(from), Optional.ofNullable(to), new BigDecimal(litres));
    }

    private double level(WaterSystemId vat) {
        return vats.require(vat).level().litres();
    }

    @Test
    void holdsWhatWasSeenAndWhatWasMovedSince() {
        WaterSystemId tank = vat(VatRole.PURIFIED);
        WaterSystemId mixing = vat(VatRole.MIXING);
        assertThat(vats.require(tank).content()).isEmpty();
        assertRefused("from", "stock.vat.never-looked", () -> vats.move(move(tank, null, "10")));
        read(tank, "400");
        read(mixing, "0");
        NewWaterMovement filling = move(tank, mixing, "150.5");
        vats.move(filling);
        vats.move(filling);
        vats.move(move(null, tank, "20"));

        assertThat(level(tank)).isCloseTo(269.5, byLessThan(1e-9));
        assertThat(level(mixing)).isCloseTo(150.5, byLessThan(1e-9));
        assertThat(vats.require(tank).content().orElseThrow().workedOut()).isTrue();
        clock.advance(Duration.ofMinutes(1));
        read(tank, "260");
        assertThat(level(tank)).isEqualTo(260);
        assertThat(vats.require(tank).content().orElseThrow().workedOut()).isFalse();
    }

    @Test
    void holdsTheBatchThatWasMadeInItUntilItIsEmpty() {
        WaterSystemId mixing = vat(VatRole.MIXING);
        WaterBatchView batch = batches.make(new NewWaterBatch(
                WaterBatchId.of(Uuids.next(clock.instant())),
                mixing,
                "vat",
                new BigDecimal("300"),
                Optional.of(new BigDecimal("11.5")),
                Optional.of(new BigDecimal("34")),
                new BigDecimal("36")));
        assertThat(vats.require(mixing).content().flatMap(VatView.Content::batch))
                .contains(batch.id());
        assertThat(level(mixing)).isEqualTo(300);
        clock.advance(Duration.ofMinutes(1));
        vats.move(move(mixing, null, "300"));
        assertThat(level(mixing)).isZero();
        assertThat(vats.require(mixing).content().flatMap(VatView.Content::batch))
                .isEmpty();
        WaterSystemId other = vat(VatRole.MIXING);
        assertRefused(
                "batch",
                "stock.vat.batch-of-other",
                () -> vats.read(new NewVatLevel(UUID.randomUUID(), other, BigDecimal.ONE, Optional.of(batch.id()))));
    }

    @Test
    void refusesWhatCannotBeAndChangesNothing() {
        WaterSystemId tank = vat(VatRole.PURIFIED);
        read(tank, "100");
        assertRefused("litres", "stock.vat.not-so-much", () -> vats.move(move(tank, null, "100.1")));
        assertRefused("litres", "stock.vat.no-room", () -> vats.move(move(null, tank, "540.1")));
        assertRefused("litres", "stock.vat.litres-above-zero", () -> vats.move(move(null, tank, "0")));
        assertRefused("to", "stock.vat.nowhere", () -> vats.move(move(tank, tank, "1")));
        assertRefused("litres", "web.number-out-of-range", () -> read(tank, "640.5"));
        assertRefused("litres", "web.number-out-of-range", () -> read(tank, "-1"));
        assertRefused("to", "stock.vat.takes-no-part", () -> vats.move(move(tank, bench.vat(), "1")));
        assertRefused(
                "role", "stock.vat.no-supply", () -> vats.assign(bench.marineSystem(), 0, Optional.of(VatRole.MIXING)));
        assertThatExceptionOfType(StaleVersion.class)
                .isThrownBy(() -> vats.assign(tank, 0, Optional.of(VatRole.MIXING)));
        assertThat(level(tank)).isEqualTo(100);
    }

    /** Held against a recount in whole tenths of a litre that shares no code; one move in a few is refused. */
    @Test
    void conservesEveryLitreOverManyRandomMovements() {
        List<WaterSystemId> all = List.of(vat(VatRole.PURIFIED), vat(VatRole.PURIFIED), vat(VatRole.MIXING));
        Map<WaterSystemId, Long> tenths = new HashMap<>();
        all.forEach(vat -> {
            read(vat, "200");
            tenths.put(vat, 2000L);
        });
        SplittableRandom random = new SplittableRandom(8);
        long came = 0;
        long went = 0;
        int refused = 0;
        for (int move = 0; move < MOVES; move++) {
            List<@Nullable WaterSystemId> places = new ArrayList<>(all);
            places.add(null);
            WaterSystemId from = places.get(random.nextInt(places.size()));
            WaterSystemId to = places.get(random.nextInt(places.size()));
            long amount = random.nextInt(1200);
            boolean possible = amount > 0
                    && from != to
                    && (from == null || tenths.getOrDefault(from, 0L) >= amount)
                    && (to == null || tenths.getOrDefault(to, 0L) + amount <= 6400);
            try {
                vats.move(move(from, to, BigDecimal.valueOf(amount, 1).toPlainString()));
                assertThat(possible).isTrue();
                if (from == null) {
                    came += amount;
                } else {
                    tenths.merge(from, -amount, Long::sum);
                }
                if (to == null) {
                    went += amount;
                } else {
                    tenths.merge(to, amount, Long::sum);
                }
            } catch (FieldRefusal refusal) {
                assertThat(possible).describedAs(refusal.code()).isFalse();
                refused++;
            }
            if (move % 250 == 249) {
                // Looking again and seeing what was worked out changes nothing.
                clock.advance(Duration.ofMinutes(1));
                all.forEach(vat -> {
                    double litres = level(vat);
                    assertThat(litres).isCloseTo(tenths.getOrDefault(vat, 0L) / 10.0, byLessThan(1e-6));
                    read(
                            vat,
                            BigDecimal.valueOf(tenths.getOrDefault(vat, 0L), 1).toPlainString());
                });
                clock.advance(Duration.ofMinutes(1));
            }
        }
        assertThat(refused).isBetween(1000, 9000);
        assertThat(all.stream().mapToLong(vat -> Math.round(10 * level(vat))).sum())
                .isEqualTo(6000 + came - went);
    }

    private static void assertRefused(String field, String code, ThrowingCallable act) {
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(act)
                .returns(field, FieldRefusal::field)
                .returns(code, FieldRefusal::code);
    }
}
