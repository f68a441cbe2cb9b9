package app.tankround.stock;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.Days;
import app.tankround.accounts.PersonId;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.StandardId;
import app.tankround.persistence.Uuids;
import app.tankround.readings.Bench;
import app.tankround.readings.ReadingId;
import app.tankround.tanks.WaterSystemId;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBusiness;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.LocalDate;
import java.util.Optional;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.context.annotation.Import;
import org.springframework.jdbc.core.simple.JdbcClient;

/**
 * Batches of 180 L that read 1.0266 at 20/20: S 35, and by MIX-S-100 of the check values 6.477 kg of anhydrous salt. 7.53 kg of
 * salt mix make that a yield of 0.860, 8.6 kg one of 0.753.
 */
@SpringBootTest
@IntegrationTest
@Import(Bench.class)
class SaltYieldsTests {

    @Autowired
    Bench bench;

    @Autowired
    WaterBatches batches;

    @Autowired
    SaltYields yields;

    @Autowired
    Catalogue catalogue;

    @Autowired
    Receiving receiving;

    @Autowired
    StockLedger ledger;

    @Autowired
    BusinessProfile business;

    @Autowired
    CurrentPerson currentPerson;

    @Autowired
    Days days;

    @Autowired
    JdbcClient jdbc;

    WaterSystemId vat = WaterSystemId.of(new UUID(0, 0));
    PersonId person = PersonId.of(new UUID(0, 0));
    InstrumentId instrument = InstrumentId.of(new UUID(0, 0));
    StandardId standard = StandardId.of(new UUID(0, 0));

    @BeforeEach
    void hasAVatAndAnInstrument() {
        new TestBusiness(jdbc);
        jdbc.sql("update water_batch set salt_lot = null").update();
        vat = bench.vat();
        person = bench.person();
        instrument = bench.refractometer();
        standard = bench.salinityStandard("35");
        bench.check(instrument, standard, bench.daysAgo(20), "1.0266", "1.0266");
    }

    private WaterBatchView batch(String lot, String saltKg) throws Exception {
        WaterBatchView made = batches.make(new NewWaterBatch(
                WaterBatchId.of(UUID.randomUUID()),
                vat,
                "drum 4",
                new BigDecimal("180"),
                Optional.of(new BigDecimal(saltKg)),
                Optional.of(new BigDecimal("34")),
                new BigDecimal("36"),
                Optional.of(lot),
                Optional.empty()));
        return currentPerson.actingAs(
                person,
                () -> batches.release(
                        made.id(),
                        made.version(),
                        new BatchMeasurement(
                                ReadingId.of(Uuids.next(bench.daysAgo(0))),
                                instrument,
                                new BigDecimal("1.0266"),
                                Optional.empty())));
    }

    /** Used last 400 days ago: forgotten, unless some of it is still on the shelf. */
    @Test
    void forgetsLotsThatAreGoneForAYear() throws Exception {
        batch("L-OLD", "8.60");
        batch("L-KEPT", "8.60");
        batch("L-NEW", "7.53");
        jdbc.sql("update water_batch set made_at = made_at - interval '400 days' where salt_lot in ('L-OLD', 'L-KEPT')")
                .update();
        assertThat(yields.lots()).extracting(SaltLotView::lot).containsExactly("L-NEW");

        StockItemId salt = catalogue.add(
                new NewStockItem(StockKind.SALT, "Kept salt", Optional.empty(), "kg", BigDecimal.ONE, BigDecimal.ZERO));
        receiving.receive(new NewReceipt(
                Uuids.next(bench.daysAgo(0)),
                salt,
                BigDecimal.TEN,
                StockAccountKind.BOUGHT,
                StockAccount.depot(),
                Optional.of(" l-kept"),
                Optional.empty(),
                days.of(bench.daysAgo(401)),
                Optional.empty(),
                Optional.empty()));
        assertThat(yields.lots()).extracting(SaltLotView::lot).containsExactlyInAnyOrder("L-NEW", "L-KEPT");
    }

    @Test
    void weighsByTheStatedYieldUntilALotIsKnown() throws Exception {
        LocalDate today = days.of(bench.daysAgo(0));
        assertThat(yields.lots()).isEmpty();
        assertThat(yields.toWeigh(today)).isEqualTo(business.current().saltYield());

        batch("L-1", "7.53");

        assertThat(yields.lots()).singleElement().satisfies(lot -> {
            // Within what one step of the fourth decimal is worth.
            assertThat(lot.own()).isCloseTo(0.860, within(0.006));
            assertThat(lot.batches()).isEqualTo(1);
            assertThat(lot.yield().after(0))
                    .isBetween(
                            Math.min(lot.own(), business.current().saltYield()),
                            Math.max(lot.own(), business.current().saltYield()));
        });
        // This week goes by what was known before its Monday; the next one by today's batch.
        assertThat(yields.toWeigh(today)).isEqualTo(business.current().saltYield());
        assertThat(yields.toWeigh(today.plusDays(7)))
                .isCloseTo(yields.lots().getFirst().yield().after(1), within(1e-9));
        assertThat(yields.toWeigh(Optional.of("l-1 "), today))
                .isCloseTo(yields.lots().getFirst().yield().after(0), within(1e-9));
    }

    @Test
    void pointsOutALotThatIsOutOfFamily() throws Exception {
        for (String lot : new String[] {"A", "B", "C"}) {
            batch(lot, "7.53");
            batch(lot, "7.56");
        }
        batch("D", "8.6");
        batch("D", "8.62");
        assertThat(yields.lots()).hasSize(4);
        assertThat(yields.lots())
                .filteredOn(SaltLotView::outOfFamily)
                .extracting(SaltLotView::lot)
                .containsExactly("D");
    }

    @Test
    void forgetsABatchWhoseInstrumentTurnedOutWrongAndOneThatNoSaltComesTo() throws Exception {
        batch("E", "7.53");
        batch("F", "5");
        assertThat(yields.lots()).extracting(SaltLotView::lot).containsExactly("E");
        bench.check(instrument, standard, bench.daysAgo(0).minus(Duration.ofMinutes(1)), "1.0186", "1.0186");
        assertThat(yields.lots()).isEmpty();
    }

    @Test
    void booksTheSaltOfABatchOnceAndOfItsLot() throws Exception {
        jdbc.sql("update stock_item set kind = 'MEDIA', unit = 'g' where kind = 'SALT'")
                .update();
        StockItemId salt = catalogue.add(new NewStockItem(
                StockKind.SALT, "Mix " + UUID.randomUUID(), Optional.empty(), "kg", BigDecimal.ONE, BigDecimal.ZERO));
        NewWaterBatch stated = new NewWaterBatch(
                WaterBatchId.of(UUID.randomUUID()),
                vat,
                "drum 4",
                new BigDecimal("180"),
                Optional.of(new BigDecimal("7.53")),
                Optional.of(new BigDecimal("34")),
                new BigDecimal("36"));
        batches.make(stated);
        batches.make(stated);
        assertThat(ledger.balance(salt, StockAccount.used(vat))).isEqualByComparingTo("7.53");
        assertThat(ledger.balance(salt, StockAccount.depot())).isEqualByComparingTo("-7.53");
        assertThat(ledger.runningAhead())
                .anySatisfy(balance -> assertThat(balance.item()).isEqualTo(salt));
    }
}
