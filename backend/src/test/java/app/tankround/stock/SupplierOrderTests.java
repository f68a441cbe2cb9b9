package app.tankround.stock;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import app.tankround.accounts.Role;
import app.tankround.clients.SiteId;
import app.tankround.tanks.web.PageTester;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBusiness;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;
import org.springframework.jdbc.core.simple.JdbcClient;

@SpringBootTest
@IntegrationTest
@AutoConfigureMockMvc
@Import(PageTester.class)
class SupplierOrderTests {

    private static final StockAccount DEPOT = StockAccount.depot();

    @Autowired
    PageTester pages;

    @Autowired
    Catalogue catalogue;

    @Autowired
    StockLedger ledger;

    @Autowired
    Suppliers suppliers;

    @Autowired
    SupplierOrders orders;

    @Autowired
    Receiving receiving;

    @Autowired
    JdbcClient jdbc;

    @Autowired
    Clock clock;

    private final SupplierId supplier = SupplierId.of(UUID.randomUUID());
    private StockItemId salt = StockItemId.of(new UUID(0, 0));

    @BeforeEach
    void sellsSaltInBuckets() {
        suppliers.save(new SupplierView(
                supplier,
                "Brine and Bucket " + supplier,
                Optional.empty(),
                Optional.empty(),
                Optional.of("C-9"),
                7,
                0,
                14,
                0));
        salt = catalogue.add(new NewStockItem(
                StockKind.SALT, "Salt " + supplier, Optional.empty(), "kg", BigDecimal.ONE, BigDecimal.ZERO));
        suppliers.save(supply("25", 0.95, Optional.of(new BigDecimal("20")), 0));
    }

    @Test
    void receivesInPartsAndBooksTheSameNoteOnce() {
        SupplierOrderId order = order(4);
        SupplierOrderView placed = orders.require(order);
        NewDelivery first = delivery(placed, "LS-1", 3);

        orders.receive(first);
        orders.receive(first);

        assertThat(ledger.balance(salt, DEPOT)).isEqualByComparingTo("75");
        assertThat(orders.require(order).lines().getFirst().open()).isEqualTo(1);
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> orders.receive(delivery(placed, "ls-1", 3)))
                .satisfies(refusal -> {
                    assertThat(refusal.field()).isEqualTo("noteNumber");
                    assertThat(refusal.code()).isEqualTo("stock.delivery.booked");
                });
        assertThat(ledger.balance(salt, DEPOT)).isEqualByComparingTo("75");
        orders.receive(delivery(placed, "LS-2", 1));
        assertThat(orders.require(order).open()).isFalse();
        assertThat(ledger.balance(salt, DEPOT)).isEqualByComparingTo("100");
        assertThat(receiving.unitValue(salt).orElseThrow()).isEqualByComparingTo("2.5");
    }

    @Test
    void refusesADeliveryWithALotThatHadExpiredAndBooksNothingOfIt() {
        SupplierOrderView placed = orders.require(order(2));
        NewDelivery.Line line = new NewDelivery.Line(
                placed.lines().getFirst().id(), 1, Optional.of("A"), Optional.of(today().minusDays(1)));

        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() ->
                        orders.receive(new NewDelivery(UUID.randomUUID(), placed.id(), "LS-9", today(), List.of(line))))
                .satisfies(refusal -> assertThat(refusal.field()).isEqualTo("lines[0].expiresOn"));

        assertThat(ledger.balance(salt, DEPOT)).isEqualByComparingTo("0");
        assertThat(orders.require(placed.id()).deliveries()).isEmpty();
    }

    /** 20 kg a week with a variation as of independent pieces; 7 days to wait, 14 between orders. */
    @Test
    void proposesWholePacksOnceTooLittleIsThereAndOnItsWay() {
        Reorder none = reorder();
        assertThat(none.counted()).isFalse();
        // 20 + 1.645 sqrt(20) = 27.4 kg; up to three weeks: 60 + 1.645 sqrt(60) = 72.7 kg, three buckets of 25 kg
        assertThat(none.point()).hasValue(28);
        assertThat(none.packs()).isEqualTo(3);

        order(3);

        assertThat(reorder().available()).isEqualByComparingTo("75");
        assertThat(reorder().packs()).isZero();
    }

    /** Eight weeks with 10 and 30 kg in turns: mean 20, sample standard deviation sqrt(8 * 100 / 7) = 10.69 a week. */
    @Test
    void learnsFromTheLedgerWhatGoesInAWeek() {
        catalogue.count(salt, new BigDecimal("400"));
        jdbc.sql("update stock_movement set moved_at = :first where item_id = :item")
                .param("first", clock.instant().minus(Duration.ofDays(56)).atOffset(ZoneOffset.UTC))
                .param("item", salt.value())
                .update();
        for (int week = 0; week < 8; week++) {
            ledger.post(NewStockMovement.of(
                            UUID.randomUUID(),
                            salt,
                            new BigDecimal(week % 2 == 0 ? "10" : "30"),
                            DEPOT,
                            StockAccount.of(StockAccountKind.USED),
                            MovementReason.USE)
                    .happenedAt(clock.instant().minus(Duration.ofDays(7L * week + 3))));
            // What a client brings and uses is not ours.
            StockAccount owned = StockAccount.clientOwned(SiteId.of(UUID.randomUUID()));
            BigDecimal bucket = new BigDecimal("25");
            Instant then = clock.instant().minus(Duration.ofDays(7L * week + 2));
            ledger.post(List.of(
                    NewStockMovement.of(
                                    UUID.randomUUID(),
                                    salt,
                                    bucket,
                                    StockAccount.of(StockAccountKind.GIVEN),
                                    owned,
                                    MovementReason.COUNT)
                            .happenedAt(then),
                    NewStockMovement.of(
                                    UUID.randomUUID(),
                                    salt,
                                    bucket,
                                    owned,
                                    StockAccount.of(StockAccountKind.USED),
                                    MovementReason.USE)
                            .happenedAt(then)));
        }

        Reorder learned = reorder();

        assertThat(learned.counted()).isTrue();
        assertThat(learned.weekly().orElseThrow()).isEqualByComparingTo("20");
        // 20 + 1.645 * 10.69 = 37.6 kg
        assertThat(learned.point()).hasValue(38);
        assertThat(learned.packs()).isZero();
    }

    @Test
    void ordersReceivesAndWritesAsPdfAndCsvFromThePages() throws Exception {
        new TestBusiness(jdbc);
        String list = pages.page(Role.OFFICE, "/stock/orders");
        assertThat(list).contains("order now", "Brine and Bucket " + supplier);
        SupplierOrderId id = SupplierOrderId.of(UUID.randomUUID());
        Map<String, String> form = new HashMap<>(Map.of(
                "id", id.toString(),
                "supplier", supplier.toString(),
                "lines[0].item", salt.toString(),
                "lines[0].packs", "0"));
        assertThat(PageTester.body(pages.post(Role.OFFICE, "/stock/orders", form)))
                .contains("Nothing is ordered");
        form.put("lines[0].packs", "2");
        assertThat(pages.post(Role.OFFICE, "/stock/orders", form)).hasStatus3xxRedirection();
        assertThat(pages.post(Role.OFFICE, "/stock/orders", form)).hasStatus3xxRedirection();
        SupplierOrderView order = orders.require(id);
        String path = "/stock/orders/" + id;
        String page = pages.page(Role.OFFICE, path);
        Map<String, String> came = new HashMap<>(Map.of(
                "id", PageTester.value(page, "id"),
                "noteNumber", "",
                "receivedOn", today().toString(),
                "lines[0].orderLine", order.lines().getFirst().id().toString(),
                "lines[0].packs", "1",
                "lines[0].lotNumber", "B-1",
                "lines[0].expiresOn", today().plusDays(400).toString()));
        assertThat(PageTester.refusal(PageTester.body(pages.post(Role.OFFICE, path, came)), "noteNumber"))
                .isNotEmpty();
        came.put("noteNumber", "N-" + supplier);
        assertThat(pages.post(Role.OFFICE, path, came)).hasStatus3xxRedirection();
        came.put("id", UUID.randomUUID().toString());
        assertThat(PageTester.refusal(PageTester.body(pages.post(Role.OFFICE, path, came)), "noteNumber"))
                .contains("booked in already");
        assertThat(ledger.balance(salt, DEPOT)).isEqualByComparingTo("25");
        assertThat(pages.page(Role.OFFICE, path + "/order.csv"))
                .startsWith("order,ordered_on,supplier_code,item,packs,pack,units_in_pack,unit,pack_price")
                .contains("," + catalogue.require(salt).name() + ",2,bucket,25,kg,62.50");
        assertThat(pages.page(Role.OFFICE, path + "/order.pdf").getBytes(StandardCharsets.ISO_8859_1))
                .startsWith("%PDF".getBytes(StandardCharsets.US_ASCII));
    }

    @Test
    void refusesWhatCannotBe() {
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> suppliers.save(supply("0", 0.95, Optional.empty(), 1)))
                .satisfies(refusal -> assertThat(refusal.field()).isEqualTo("packAmount"));
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> suppliers.save(supply("25", 1, Optional.empty(), 1)))
                .satisfies(refusal -> assertThat(refusal.field()).isEqualTo("serviceLevel"));
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> order(-1))
                .satisfies(refusal -> assertThat(refusal.field()).isEqualTo("packs"));
    }

    private Reorder reorder() {
        return orders.reorders().stream()
                .filter(reorder -> reorder.item().id().equals(salt))
                .findFirst()
                .orElseThrow();
    }

    private SupplierOrderId order(int packs) {
        SupplierOrderId id = SupplierOrderId.of(UUID.randomUUID());
        orders.order(id, supplier, Map.of(salt, packs), Optional.empty());
        return id;
    }

    private NewDelivery delivery(SupplierOrderView order, String note, int packs) {
        return new NewDelivery(
                UUID.randomUUID(),
                order.id(),
                note,
                today(),
                List.of(new NewDelivery.Line(
                        order.lines().getFirst().id(), packs, Optional.empty(), Optional.empty())));
    }

    private StockSupply supply(String pack, double level, Optional<BigDecimal> weekly, int version) {
        return new StockSupply(
                salt,
                supplier,
                Optional.empty(),
                "bucket",
                new BigDecimal(pack),
                Optional.of(new BigDecimal("62.50")),
                level,
                weekly,
                version);
    }

    private LocalDate today() {
        return LocalDate.ofInstant(clock.instant(), ZoneOffset.UTC);
    }
}
