package app.tankround.stock;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.tuple;

import app.tankround.accounts.Role;
import app.tankround.accounts.VanId;
import app.tankround.readings.Bench;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.web.PageTester;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBusiness;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.time.Clock;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.assertj.core.api.ThrowableAssert.ThrowingCallable;
import org.assertj.core.data.Offset;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;
import org.springframework.jdbc.core.simple.JdbcClient;

@SpringBootTest
@IntegrationTest
@AutoConfigureMockMvc
@Import({Bench.class, PageTester.class})
class LotTests {

    private static final StockAccount DEPOT = StockAccount.depot();
    private static final StockAccount VAN = StockAccount.van(VanId.of(new UUID(8, 1)));

    @Autowired
    Bench bench;

    @Autowired
    PageTester pages;

    @Autowired
    Catalogue catalogue;

    @Autowired
    StockLedger ledger;

    @Autowired
    Receiving receiving;

    @Autowired
    Lots lots;

    @Autowired
    JdbcClient jdbc;

    @Autowired
    Clock clock;

    @Test
    void takesFirstWhatExpiresFirstAndNeverWhatHasExpired() {
        StockItemId kit = item("count");
        receive(kit, "3", "OLD", Optional.of(today().minusDays(1)), today().minusDays(90));
        receive(kit, "2", "LATE", Optional.of(today().plusDays(200)), today());
        receive(kit, "2", "SOON", Optional.of(today()), today());
        receive(kit, "2", null, Optional.empty(), today());

        List<NewStockMovement> taken = ledger.take(move(kit, "5", DEPOT, VAN));

        assertThat(taken)
                .extracting(part ->
                        part.lot().map(lot -> lots.require(lot).number()).orElse("none") + " "
                                + part.amount().toPlainString())
                .containsExactly("SOON 2", "LATE 2", "none 1");
        refused("amount", "stock.ledger.not-enough", () -> ledger.take(move(kit, "2", DEPOT, VAN)));
        assertThat(lots.expiringUntil(today().minusDays(1)))
                .filteredOn(lot -> lot.lot().item().equals(kit))
                .singleElement()
                .satisfies(lot -> assertThat(lot.amount()).isEqualByComparingTo("3"));
    }

    /** A round of the day after tomorrow is loaded today. */
    @Test
    void tellsWhatItWouldTakeForALaterDayAndBooksJustThat() {
        StockItemId kit = item("count");
        receive(kit, "2", "TODAY", Optional.of(today()), today());
        receive(kit, "2", "CLOSED", Optional.empty(), today().minusDays(9));
        receive(kit, "2", "OPENED", Optional.empty(), today());
        StockLotId opened = lots.of(kit).stream()
                .filter(lot -> lot.number().equals("OPENED"))
                .findFirst()
                .orElseThrow()
                .id();
        ledger.post(move(kit, "1", DEPOT, StockAccount.used(WaterSystemId.of(UUID.randomUUID())))
                .ofLot(opened));
        List<NewStockMovement> asked = List.of(move(kit, "1", DEPOT, VAN), move(kit, "2", DEPOT, VAN));

        List<List<NewStockMovement>> would = ledger.wouldTake(asked, today().plusDays(2));

        assertThat(ledger.balance(kit, DEPOT)).isEqualByComparingTo("5");
        assertThat(ledger.take(asked, today().plusDays(2)))
                .isEqualTo(would.stream().flatMap(List::stream).toList())
                .extracting(part ->
                        part.lot().map(lot -> lots.require(lot).number()).orElse("none") + " "
                                + part.amount().toPlainString())
                .containsExactly("OPENED 1", "CLOSED 2");
        refused(
                "amount",
                "stock.ledger.not-enough",
                () -> ledger.take(List.of(move(kit, "1", DEPOT, VAN)), today().plusDays(2)));
    }

    @Test
    void takesTheSameOnceThoughItWasOfSeveralLots() {
        StockItemId kit = item("count");
        receive(kit, "1", "A", Optional.of(today().plusDays(5)), today());
        receive(kit, "3", "B", Optional.of(today().plusDays(9)), today());
        NewStockMovement both = move(kit, "2", DEPOT, VAN);

        ledger.take(both);
        ledger.take(both);

        assertThat(ledger.balance(kit, VAN)).isEqualByComparingTo("2");
    }

    @Test
    void refusesALotThatExpiredBeforeItCame() {
        StockItemId kit = item("count");

        refused(
                "expiresOn",
                "stock.lot.expired-before-received",
                () -> receive(kit, "1", "A", Optional.of(today().minusDays(2)), today().minusDays(1)));
        refused(
                "lotNumber",
                "stock.lot.number-missing",
                () -> receive(kit, "1", null, Optional.of(today().plusDays(2)), today()));
        refused(
                "receivedOn",
                "stock.received-later",
                () -> receive(kit, "1", "A", Optional.empty(), today().plusDays(1)));
        receive(kit, "1", "A", Optional.of(today().plusDays(20)), today());
        refused(
                "expiresOn",
                "stock.lot.other-expiry",
                () -> receive(kit, "1", "a", Optional.of(today().plusDays(21)), today()));

        assertThat(lots.of(kit)).hasSize(1);
        assertThat(ledger.balance(kit, DEPOT)).isEqualByComparingTo("1");
    }

    @Test
    void knowsTheLotOfWhatWasTakenBeforeItWasBookedIn() {
        StockItemId salt = item("kg");
        ledger.take(move(salt, "20", DEPOT, VAN).runningAhead());

        receive(salt, "50", "S-1", Optional.empty(), today());

        assertThat(ledger.runningAhead()).noneMatch(ahead -> ahead.item().equals(salt));
        assertThat(ledger.balance(salt, DEPOT)).isEqualByComparingTo("30");
        assertThat(ledger.balances(salt).stream().map(StockBalance::amount).reduce(BigDecimal.ZERO, BigDecimal::add))
                .isEqualByComparingTo("0");
    }

    @Test
    void callsALotBackFromEverySystemThatItWentIntoAndNamesWhereItMayHaveGone() {
        WaterSystemId certain = bench.marineSystem();
        WaterSystemId possible = bench.marineSystem();
        WaterSystemId other = bench.marineSystem();
        StockItemId salt = item("kg");
        receive(salt, "50", "S-1", Optional.empty(), today());
        receive(salt, "50", "S-2", Optional.empty(), today());
        receive(salt, "50", null, Optional.empty(), today());
        StockLotId first = lot(salt, "S-1");
        ledger.post(move(salt, "6", DEPOT, VAN).ofLot(first));
        ledger.post(move(salt, "4", VAN, StockAccount.used(certain)).ofLot(first));
        ledger.post(move(salt, "3", DEPOT, StockAccount.used(possible)));
        ledger.post(move(salt, "3", DEPOT, StockAccount.used(other)).ofLot(lot(salt, "S-2")));

        Recall recall = lots.recall(first);

        assertThat(recall.there()).extracting(StockBalance::account).containsExactlyInAnyOrder(DEPOT, VAN);
        assertThat(recall.went())
                .extracting(use -> use.system().orElseThrow(), LotUse::certain)
                .containsExactlyInAnyOrder(tuple(certain, true), tuple(possible, false));
        assertThat(pages.page(Role.TECHNICIAN, "/stock/lots/" + first + "/recall"))
                .contains("Lot S-1", "used in the system", "May have gone to");
    }

    /**
     * The course of a textbook's example of a perpetual average (Principles of Accounting 1, OpenStax, chapter 10; values from
     * memory): 150 at 21, 120 sold, 225 bought at 27, 180 sold, 210 bought at 33; 285 are left, worth 8,902.
     */
    @Test
    void valuesWhatIsThereByTheMovingAverage() {
        StockItemId item = item("count");
        buy(item, "150", "21");
        ledger.post(move(item, "120", DEPOT, StockAccount.of(StockAccountKind.RETIRED)));
        buy(item, "225", "27");
        assertThat(receiving.unitValue(item).orElseThrow()).isCloseTo(new BigDecimal("26.29"), within("0.005"));
        ledger.post(move(item, "180", DEPOT, StockAccount.of(StockAccountKind.RETIRED)));
        buy(item, "210", "33");

        assertThat(ledger.balance(item, DEPOT)).isEqualByComparingTo("285");
        assertThat(receiving.unitValue(item).orElseThrow().multiply(new BigDecimal("285")))
                .isCloseTo(new BigDecimal("8902"), within("0.5"));
    }

    @Test
    void valuesByThePriceAloneWhereMoreWasTakenThanThereWas() {
        assertThat(MovingAverage.after(new BigDecimal("-5"), new BigDecimal("9"), BigDecimal.TEN, new BigDecimal("4")))
                .isEqualByComparingTo("4");
    }

    @Test
    void booksInMovesAndShowsWhereItIs() {
        new TestBusiness(jdbc);
        StockItemId salt = item("kg");
        String path = "/stock/" + salt;
        String blank = pages.page(Role.OFFICE, path + "/receipts/new");
        Map<String, String> form = new HashMap<>(Map.of(
                "id",
                PageTester.value(blank, "id"),
                "amount",
                "25",
                "lotNumber",
                "L-77",
                "receivedOn",
                today().toString(),
                "expiresOn",
                today().minusDays(3).toString(),
                "unitPrice",
                "2.40"));
        assertThat(PageTester.refusal(
                        PageTester.body(pages.post(Role.OFFICE, path + "/receipts/new", form)), "expiresOn"))
                .contains("would have expired before");
        form.put("expiresOn", today().plusDays(10).toString());
        assertThat(pages.post(Role.OFFICE, path + "/receipts/new", form)).hasStatus3xxRedirection();
        assertThat(pages.post(Role.OFFICE, path + "/receipts/new", form)).hasStatus3xxRedirection();
        assertThat(pages.post(Role.TECHNICIAN, path + "/receipts/new", form)).hasStatus(403);

        String where = pages.page(Role.TECHNICIAN, path + "/where");
        assertThat(where)
                .contains("25 kg", "L-77", "soon")
                .doesNotContain("2.40", "expired</span>", "taken before it was booked in");
        assertThat(pages.page(Role.OFFICE, path + "/where")).contains("2.40 ");
        assertThat(pages.page(Role.OFFICE, "/stock")).contains("lot L-77");
        Map<String, String> move = new HashMap<>(Map.of(
                "id", PageTester.value(where, "id"), "amount", "30", "from", "DEPOT", "to", "WASTED", "note", "Wet"));
        assertThat(PageTester.refusal(PageTester.body(pages.post(Role.TECHNICIAN, path + "/where", move)), "amount"))
                .contains("only 25");
        move.put("amount", "-2");
        assertThat(PageTester.refusal(PageTester.body(pages.post(Role.TECHNICIAN, path + "/where", move)), "amount"))
                .startsWith("-2 is not accepted: above 0");
        move.put("amount", "1.5");
        assertThat(pages.post(Role.TECHNICIAN, path + "/where", move)).hasStatus3xxRedirection();
        assertThat(pages.post(Role.TECHNICIAN, path + "/where", move)).hasStatus3xxRedirection();
        assertThat(pages.page(Role.TECHNICIAN, path + "/where")).contains("23.5 kg", "Wasted: Wet");
    }

    private static Offset<BigDecimal> within(String offset) {
        return Offset.offset(new BigDecimal(offset));
    }

    private LocalDate today() {
        return LocalDate.ofInstant(clock.instant(), ZoneOffset.UTC);
    }

    private StockLotId lot(StockItemId item, String number) {
        return lots.of(item).stream()
                .filter(lot -> lot.number().equals(number))
                .findFirst()
                .orElseThrow()
                .id();
    }

    private StockItemId item(String unit) {
        return catalogue.add(new NewStockItem(
                StockKind.MEDIA, "Lot " + UUID.randomUUID(), Optional.empty(), unit, BigDecimal.ONE, BigDecimal.ZERO));
    }

    private void buy(StockItemId item, String amount, String price) {
        receiving.receive(new NewReceipt(
                UUID.randomUUID(),
                item,
                new BigDecimal(amount),
                StockAccountKind.BOUGHT,
                DEPOT,
                Optional.empty(),
                Optional.empty(),
                today(),
                Optional.of(new BigDecimal(price)),
                Optional.empty()));
    }

    private void receive(
            StockItemId item,
            String amount,
            @Nullable String lot,
            Optional<LocalDate> expiresOn,
            LocalDate receivedOn) {
        receiving.receive(new NewReceipt(
                UUID.randomUUID(),
                item,
                new BigDecimal(amount),
                StockAccountKind.BOUGHT,
                DEPOT,
                Optional.ofNullable(lot),
                expiresOn,
                receivedOn,
                Optional.empty(),
                Optional.empty()));
    }

    private static NewStockMovement move(StockItemId item, String amount, StockAccount from, StockAccount to) {
        return NewStockMovement.of(UUID.randomUUID(), item, new BigDecimal(amount), from, to, MovementReason.TRANSFER);
    }

    private static void refused(String field, String code, ThrowingCallable action) {
        assertThatExceptionOfType(FieldRefusal.class).isThrownBy(action).satisfies(refusal -> {
            assertThat(refusal.field()).isEqualTo(field);
            assertThat(refusal.code()).isEqualTo(code);
        });
    }
}
