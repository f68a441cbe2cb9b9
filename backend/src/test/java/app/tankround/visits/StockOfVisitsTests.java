package app.tankround.visits;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.accounts.VanId;
import app.tankround.followups.FollowupView;
import app.tankround.followups.Followups;
import app.tankround.loads.UnwrittenUse;
import app.tankround.persistence.Uuids;
import app.tankround.readings.Bench;
import app.tankround.rounds.RoundId;
import app.tankround.rounds.RoundService;
import app.tankround.schedule.Agreements;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.NewAgreement;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.schedule.TaskView;
import app.tankround.stock.Catalogue;
import app.tankround.stock.LotUse;
import app.tankround.stock.Lots;
import app.tankround.stock.MovementReason;
import app.tankround.stock.MovementSource;
import app.tankround.stock.NewReceipt;
import app.tankround.stock.NewStockItem;
import app.tankround.stock.NewStockMovement;
import app.tankround.stock.Receiving;
import app.tankround.stock.StockAccount;
import app.tankround.stock.StockAccountKind;
import app.tankround.stock.StockBalance;
import app.tankround.stock.StockItemDetails;
import app.tankround.stock.StockItemId;
import app.tankround.stock.StockItemView;
import app.tankround.stock.StockKind;
import app.tankround.stock.StockLedger;
import app.tankround.tanks.WaterSystems;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBusiness;
import app.tankround.testing.TestClock;
import app.tankround.units.SockSize;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.context.annotation.Import;
import org.springframework.jdbc.core.simple.JdbcClient;

/** What finished visits take out of the van, put to work and bring back. */
@SpringBootTest
@IntegrationTest
@Import({Bench.class, TestVisits.class})
class StockOfVisitsTests {

    /** A Wednesday. */
    private static final LocalDate TODAY = LocalDate.of(2026, 11, 25);

    private static final StockAccount DEPOT = StockAccount.depot();
    private static final StockAccount DIRTY = StockAccount.of(StockAccountKind.DIRTY);
    private static final StockAccount APART = StockAccount.of(StockAccountKind.DIRTY_APART);
    private static final StockAccount OPENING = StockAccount.of(StockAccountKind.OPENING);

    @Autowired
    private StockOfVisits stock;

    @Autowired
    private VisitRows rows;

    @Autowired
    private StockLedger ledger;

    @Autowired
    private Catalogue catalogue;

    @Autowired
    private Receiving receiving;

    @Autowired
    private Lots lots;

    @Autowired
    private TestVisits visits;

    @Autowired
    private Agreements agreements;

    @Autowired
    private DueVisits dueVisits;

    @Autowired
    private RoundService rounds;

    @Autowired
    private WaterSystems systems;

    @Autowired
    private UnwrittenUse unwritten;

    @Autowired
    private Followups followups;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private TestClock clock;

    private int size;

    @BeforeEach
    void prepare() {
        clock.set(Instant.parse("2026-11-25T15:00:00Z"));
        new TestBusiness(jdbc);
        jdbc.sql("update visit set uses_booked = true").update();
        size = 10
                + jdbc.sql("select count(*) from stock_item where kind = 'SOCK'")
                        .query(Integer.class)
                        .single();
    }

    @Test
    void putsSocksToWorkAndBringsAsManyBackDirtyOfWhichNobodyHadBookedAny() {
        StockItemId socks = socks("10");
        TestVisits.Case visit = visit(TaskView.sockSwap(2, SockSize.ofDiameter(size), 7));
        visit.entry("visit.socks", "socks/" + visit.system + "/" + size, socksJson(3));

        book();

        assertThat(at(socks, DEPOT)).isEqualTo(7);
        assertThat(at(socks, StockAccount.inUse(visit.system))).isEqualTo(3);
        assertThat(at(socks, DIRTY)).isEqualTo(3);
        assertThat(at(socks, OPENING)).isEqualTo(-13);
        assertThat(sum(socks)).isZero();
    }

    /** Agreed is a fine one; the coarse one that was put in before comes out, and what is said by diameter alone means the fine one. */
    @Test
    void takesTheSortThatIsAgreedAndBringsBackTheOneThatWasInUse() {
        SockSize asked = new SockSize(size, Optional.of(400), Optional.of(100));
        StockItemId coarse = socks("10");
        StockItemId fine = catalogue.add(new NewStockItem(
                new StockItemDetails(
                        StockKind.SOCK,
                        "Zephyr",
                        Optional.of(size),
                        asked.lengthMm(),
                        asked.finenessUm(),
                        "count",
                        new BigDecimal("0.1"),
                        Optional.empty()),
                BigDecimal.TEN));
        TestVisits.Case visit = visit(TaskView.sockSwap(2, asked, 7), TaskView.socksLeft(1, asked));
        ledger.post(NewStockMovement.of(
                UUID.randomUUID(),
                coarse,
                new BigDecimal("2"),
                DEPOT,
                StockAccount.inUse(visit.system),
                MovementReason.TRANSFER));
        tick(visit, 0, "DONE");
        visit.entry("visit.socks", "socks/" + visit.system + "/" + size, socksJson(3));
        tick(visit, 1, "DONE");
        visit.entry(
                "visit.handed-over",
                "handed-over/" + UUID.randomUUID(),
                "{\"what\": \"SOCKS\", \"count\": \"4\", \"sizeMm\": " + size + "}");

        book();

        assertThat(List.of(at(coarse, DEPOT), at(coarse, StockAccount.inUse(visit.system)), at(coarse, DIRTY)))
                .containsExactly(8, 0, 2);
        assertThat(List.of(at(fine, DEPOT), at(fine, StockAccount.inUse(visit.system)), at(fine, DIRTY)))
                .containsExactly(3, 3, 1);
        assertThat(List.of(sum(coarse), sum(fine))).containsOnly(0);
    }

    @Test
    void takesOutWhatTheVisitBeforePutIn() {
        StockItemId socks = socks("10");
        TestVisits.Case visit = visit(TaskView.sockSwap(2, SockSize.ofDiameter(size), 7));
        ledger.post(NewStockMovement.of(
                UUID.randomUUID(),
                socks,
                new BigDecimal("3"),
                DEPOT,
                StockAccount.inUse(visit.system),
                MovementReason.TRANSFER));
        tick(visit, 0, "DONE");

        book();

        assertThat(at(socks, DEPOT)).isEqualTo(5);
        assertThat(at(socks, StockAccount.inUse(visit.system))).isEqualTo(3);
        assertThat(at(socks, DIRTY)).isEqualTo(2);
        assertThat(at(socks, OPENING)).isEqualTo(-10);
    }

    @Test
    void booksOnceAndOfACorrectedEntryTheDifference() {
        StockItemId socks = socks("10");
        TestVisits.Case visit = visit(TaskView.sockSwap(2, SockSize.ofDiameter(size), 7));
        tick(visit, 0, "DONE");
        book();
        again(visit);
        book();
        assertThat(movements(visit)).isEqualTo(3);

        visit.entry("visit.socks", "socks/" + visit.system + "/" + size, socksJson(4));
        again(visit);
        book();
        assertThat(List.of(
                        at(socks, DEPOT),
                        at(socks, StockAccount.inUse(visit.system)),
                        at(socks, DIRTY),
                        at(socks, OPENING)))
                .containsExactly(6, 4, 4, -14);

        visit.entry("visit.socks", "socks/" + visit.system + "/" + size, socksJson(1));
        again(visit);
        book();
        assertThat(List.of(
                        at(socks, DEPOT),
                        at(socks, StockAccount.inUse(visit.system)),
                        at(socks, DIRTY),
                        at(socks, OPENING)))
                .containsExactly(9, 1, 1, -11);
        assertThat(sum(socks)).isZero();
        assertThat(ledger.ofSource(MovementSource.ofVisit(visit.id.value())))
                .filteredOn(movement -> movement.reason() == MovementReason.CORRECTION)
                .hasSize(3);
    }

    /** The class of a system may have changed since: what came out of the sick one stays apart. */
    @Test
    void keepsApartWhatComesOutOfASickSystem() {
        StockItemId socks = socks("10");
        TestVisits.Case visit = visit(TaskView.sockSwap(2, SockSize.ofDiameter(size), 7));
        infection(visit, "QUARANTINE");
        tick(visit, 0, "DONE");
        book();
        assertThat(at(socks, APART)).isEqualTo(2);

        infection(visit, "HEALTHY");
        visit.entry("visit.socks", "socks/" + visit.system + "/" + size, socksJson(3));
        again(visit);
        book();
        assertThat(at(socks, APART)).isEqualTo(3);
        assertThat(at(socks, DIRTY)).isZero();
    }

    @Test
    void takesOutOfTheVanOfTheRoundAndRunsAheadOfWhatWasLoaded() {
        StockItemId socks = socks("10");
        VanId van = VanId.of(new TestBusiness(jdbc).van("Van " + size, 52, 5));
        TestVisits.Case visit = visit(TaskView.sockSwap(2, SockSize.ofDiameter(size), 7));
        onRound(visit, van);
        ledger.post(NewStockMovement.of(
                UUID.randomUUID(), socks, BigDecimal.ONE, DEPOT, StockAccount.van(van), MovementReason.TRANSFER));
        tick(visit, 0, "DONE");

        book();

        assertThat(at(socks, StockAccount.van(van))).isEqualTo(-1);
        assertThat(at(socks, StockAccount.of(StockAccountKind.DIRTY, van.value())))
                .isEqualTo(2);
        assertThat(at(socks, DEPOT)).isEqualTo(9);
        assertThat(ledger.runningAhead())
                .filteredOn(ahead -> ahead.item().equals(socks))
                .hasSize(1);
    }

    /** Of the four that were left the client has swapped as many as are left anew. */
    @Test
    void leavesSocksWithTheClientAndBringsTheSwappedOnesBack() {
        StockItemId socks = socks("10");
        TestVisits.Case visit = visit(TaskView.socksLeft(3, SockSize.ofDiameter(size)));
        StockAccount site = StockAccount.site(visits(visit).siteId());
        ledger.post(NewStockMovement.of(
                UUID.randomUUID(), socks, new BigDecimal("4"), DEPOT, site, MovementReason.TRANSFER));
        tick(visit, 0, "DONE");

        book();

        assertThat(at(socks, site)).isEqualTo(4);
        assertThat(at(socks, DIRTY)).isEqualTo(3);
        assertThat(at(socks, DEPOT)).isEqualTo(3);
    }

    @Test
    void usesMediaAndDosesInTheUnitOfTheCatalogueTheLotThatExpiresFirst() {
        StockItemId carbon = product(StockKind.MEDIA, "Carbon " + size, "kg", "1");
        StockItemId buffer = product(StockKind.DOSE, "Buffer " + size, "L", "0");
        receive(buffer, "later", TODAY.plusDays(90));
        receive(buffer, "sooner", TODAY.plusDays(9));
        TestVisits.Case visit = visit(
                TaskView.media("carbon " + size, new BigDecimal("250"), "g"),
                TaskView.dose("Buffer " + size, new BigDecimal("20"), "mL"),
                TaskView.dose("Unheard of", new BigDecimal("20"), "mL"));
        tick(visit, 0, "DONE");
        tick(visit, 1, "DONE");
        tick(visit, 2, "DONE");
        visit.entry(
                "visit.dose", "dose/1", "{\"product\": \"buffer " + size + "\", \"amount\": \"25\", \"unit\": \"mL\"}");

        book();

        assertThat(ledger.balance(carbon, DEPOT)).isEqualByComparingTo("0.75");
        assertThat(ledger.balance(carbon, StockAccount.used(visit.system))).isEqualByComparingTo("0.25");
        assertThat(ledger.balances(buffer))
                .filteredOn(balance -> balance.account().equals(StockAccount.used(visit.system)))
                .singleElement()
                .satisfies(balance -> assertThat(balance.amount()).isEqualByComparingTo("0.025"))
                .satisfies(balance -> assertThat(
                                lots.require(balance.lot().orElseThrow()).number())
                        .isEqualTo("sooner"));
        assertThat(movements(visit)).isEqualTo(2);
        guardKnowsTheDose(visit);
        assertThat(recalled(buffer, "sooner"))
                .singleElement()
                .satisfies(use -> assertThat(use.certain()).isTrue());
        assertThat(recalled(buffer, "later")).isEmpty();
    }

    private List<LotUse> recalled(StockItemId item, String number) {
        return lots.of(item).stream()
                .filter(lot -> lot.number().equals(number))
                .flatMap(lot -> lots.recall(lot.id()).went().stream())
                .toList();
    }

    private void guardKnowsTheDose(TestVisits.Case visit) {
        jdbc.sql("""
                        insert into dose_given (
                            key, visit_id, agreed, water_system_id, product, amount, unit, given_at, received_at, further)
                        values (:key, :visit, false, :system, :product, 25, 'mL', :at, :at, false)
                        """)
                .param("key", visit.id + "/dose/1")
                .param("visit", visit.id.value())
                .param("system", visit.system.value())
                .param("product", "Buffer " + size)
                .param("at", clock.instant().atOffset(ZoneOffset.UTC))
                .update();
    }

    @Test
    void whatWasLeftOutUsesNothingAndTakesBackWhatWasBooked() {
        StockItemId socks = socks("10");
        TestVisits.Case visit = visit(TaskView.sockSwap(2, SockSize.ofDiameter(size), 7));
        tick(visit, 0, "DONE");
        book();
        tick(visit, 0, "SKIPPED");
        again(visit);
        book();
        assertThat(ledger.balances(socks)).extracting(StockBalance::account).containsExactlyInAnyOrder(DEPOT, OPENING);
        assertThat(at(socks, DEPOT)).isEqualTo(10);
    }

    /** What those used is in what was counted since. */
    @Test
    void neverBooksVisitsThatEndedBeforeUsesWereBooked() {
        StockItemId socks = socks("10");
        TestVisits.Case visit = visit(TaskView.sockSwap(2, SockSize.ofDiameter(size), 7));
        tick(visit, 0, "DONE");
        jdbc.sql("update visit set uses_booked = null where id = :id")
                .param("id", visit.id.value())
                .update();
        again(visit);
        book();
        assertThat(at(socks, DEPOT)).isEqualTo(10);
    }

    /** Three were counted, so the tick that says one says less; the four that were there before are swapped as far. */
    @Test
    void booksSocksThatWereGivenToTheClientAsTheyWereCounted() {
        StockItemId socks = socks("10");
        TestVisits.Case visit = visit(TaskView.socksLeft(1, SockSize.ofDiameter(size)));
        StockAccount site = StockAccount.site(visits(visit).siteId());
        tick(visit, 0, "DONE");
        visit.entry(
                "visit.handed-over",
                "handed-over/1",
                "{\"what\": \"SOCKS\", \"count\": \"3\", \"sizeMm\": " + size + "}");
        visit.entry("visit.handed-over", "handed-over/2", "{\"what\": \"FOOD\", \"text\": \"flakes\"}");

        book();

        assertThat(at(socks, site)).isEqualTo(3);
        assertThat(at(socks, DEPOT)).isEqualTo(7);
        visit.entry(
                "visit.handed-over",
                "handed-over/1",
                "{\"what\": \"SOCKS\", \"count\": \"2\", \"sizeMm\": " + size + "}");
        again(visit);
        book();
        assertThat(at(socks, site)).isEqualTo(2);
        assertThat(sum(socks)).isZero();
    }

    /** What cannot be booked is told with its reason, holds nobody up, and is tried again an hour later. */
    @Test
    void goesOnWhereOneVisitIsRefusedAndTriesItAgainLater() {
        StockItemId socks = socks("10");
        StockItemId buffer = product(StockKind.DOSE, "Buffer " + size, "mL", "10");
        TestVisits.Case refused = visit();
        refused.entry(
                "visit.dose",
                "dose/1",
                "{\"product\": \"Buffer " + size + "\", \"amount\": \"99999999999999\", \"unit\": \"mL\"}");
        TestVisits.Case visit = visit(TaskView.sockSwap(2, SockSize.ofDiameter(size), 7));
        tick(visit, 0, "DONE");

        book();

        assertThat(at(socks, DEPOT)).isEqualTo(8);
        assertThat(movements(refused)).isZero();
        assertThat(matter(refused))
                .hasValueSatisfying(matter -> assertThat(matter.args())
                        .contains(rows.find(refused.id).orElseThrow().code()));
        refused.entry(
                "visit.dose", "dose/1", "{\"product\": \"Buffer " + size + "\", \"amount\": \"4\", \"unit\": \"mL\"}");
        book();
        assertThat(movements(refused)).isZero();
        clock.advance(Duration.ofMinutes(61));
        book();
        assertThat(ledger.balance(buffer, DEPOT)).isEqualByComparingTo("6");
        assertThat(matter(refused)).isEmpty();
        book();
        assertThat(ledger.balance(buffer, DEPOT)).isEqualByComparingTo("6");
    }

    private Optional<FollowupView> matter(TestVisits.Case visit) {
        return followups.open().stream()
                .filter(each -> each.subjectId().equals(visit.id.value()))
                .findFirst();
    }

    /** 60 L of tap water take 6 mL by 0.1 mL for a litre (common practice, no source); half was changed. */
    @Test
    void usesConditionerForTapWaterUnlessItIsWrittenDown() {
        StockItemId conditioner = product(StockKind.DOSE, UnwrittenUse.CONDITIONER, "mL", "100");
        TestVisits.Case visit = visit(TaskView.waterChangeLitres(new BigDecimal("60")));
        kind(visit, "FRESHWATER");
        planned(visit);
        visit.entry("visit.water-change", "water-change/" + visit.system, "{\"out\": \"30\", \"in\": \"30\"}");

        book();

        assertThat(ledger.balance(conditioner, StockAccount.used(visit.system))).isEqualByComparingTo("3");
        visit.entry(
                "visit.dose", "dose/1", "{\"product\": \"Water conditioner\", \"amount\": \"5\", \"unit\": \"mL\"}");
        again(visit);
        book();
        assertThat(ledger.balance(conditioner, StockAccount.used(visit.system))).isEqualByComparingTo("5");
    }

    /** As much salt as the load sheet took along for the change, and none where the water came out of a batch. */
    @Test
    void usesTheDrySaltThatWasMixedAtTheSite() {
        StockItemId salt = salt();
        TestVisits.Case visit = visit(TaskView.waterChangeLitres(new BigDecimal("60")));
        jdbc.sql("update site set own_ro_di = true, mixing_barrel = true where id = :id")
                .param("id", visits(visit).siteId().value())
                .update();
        RoundId round = planned(visit);
        visit.entry("visit.water-change", "water-change/" + visit.system, "{\"out\": \"60\", \"in\": \"60\"}");
        BigDecimal loaded = unwritten.of(round, List.of(systems.require(visit.system))).values().stream()
                .flatMap(List::stream)
                .map(UnwrittenUse.Planned::amount)
                .findFirst()
                .orElseThrow();
        // 60 L of S 32.5 hold some 2 kg of salt.
        assertThat(loaded).isBetween(new BigDecimal("1.9"), new BigDecimal("2.6"));

        book();

        assertThat(ledger.balance(salt, StockAccount.used(visit.system))).isEqualByComparingTo(loaded);
        visit.entry(
                "visit.water-change",
                "water-change/" + visit.system,
                "{\"out\": \"60\", \"batch\": \"" + UUID.randomUUID() + "\"}");
        again(visit);
        book();
        assertThat(ledger.balance(salt, StockAccount.used(visit.system))).isZero();
    }

    /** Two thirds of what goes in are the client's; a correction finds them as they were before the visit. */
    @Test
    void usesWhatTheClientKeepsThereFirst() {
        StockItemId buffer = product(StockKind.DOSE, "Buffer of theirs " + size, "mL", "1000");
        StockItemId socks = socks("10");
        TestVisits.Case visit = visit(
                TaskView.dose("Buffer of theirs " + size, new BigDecimal("30"), "mL"),
                TaskView.sockSwap(3, SockSize.ofDiameter(size), 7));
        StockAccount owned = StockAccount.clientOwned(visits(visit).siteId());
        catalogue.count(UUID.randomUUID(), buffer, owned, new BigDecimal("20"), "Counted for the first time");
        catalogue.count(UUID.randomUUID(), socks, owned, new BigDecimal("2"), "Counted for the first time");
        tick(visit, 0, "DONE");
        tick(visit, 1, "DONE");

        book();

        assertThat(ledger.balance(buffer, owned)).isZero();
        assertThat(ledger.balance(buffer, DEPOT)).isEqualByComparingTo("990");
        assertThat(ledger.balance(buffer, StockAccount.used(visit.system))).isEqualByComparingTo("30");
        assertThat(at(socks, owned)).isZero();
        assertThat(at(socks, DEPOT)).isEqualTo(9);
        assertThat(at(socks, StockAccount.inUse(visit.system))).isEqualTo(3);
        assertThat(sum(socks)).isZero();

        visit.entry(
                "visit.dose",
                "dose/1",
                "{\"product\": \"Buffer of theirs " + size + "\", \"amount\": \"15\", \"unit\": \"mL\"}");
        again(visit);
        book();
        assertThat(ledger.balance(buffer, owned)).isEqualByComparingTo("5");
        assertThat(ledger.balance(buffer, DEPOT)).isEqualByComparingTo("1000");
    }

    /** 1 kg of the salt for the change is the client's. */
    @Test
    void mixesTheClientsSaltFirst() {
        StockItemId salt = salt();
        TestVisits.Case visit = visit(TaskView.waterChangeLitres(new BigDecimal("60")));
        jdbc.sql("update site set own_ro_di = true, mixing_barrel = true where id = :id")
                .param("id", visits(visit).siteId().value())
                .update();
        StockAccount owned = StockAccount.clientOwned(visits(visit).siteId());
        catalogue.count(UUID.randomUUID(), salt, owned, BigDecimal.ONE, "Bought by the client");
        planned(visit);
        visit.entry("visit.water-change", "water-change/" + visit.system, "{\"out\": \"60\", \"in\": \"60\"}");

        book();

        assertThat(ledger.balance(salt, owned)).isZero();
        assertThat(ledger.balance(salt, StockAccount.used(visit.system)))
                .isBetween(new BigDecimal("1.9"), new BigDecimal("2.6"));
        BigDecimal before = ledger.balance(salt, StockAccount.used(visit.system));
        again(visit);
        book();
        assertThat(ledger.balance(salt, owned)).isZero();
        assertThat(ledger.balance(salt, StockAccount.used(visit.system))).isEqualByComparingTo(before);
    }

    /** One mix for all tests here, since of several nobody says which is meant. */
    private StockItemId salt() {
        return catalogue
                .onlySalt()
                .map(StockItemView::id)
                .orElseGet(() -> product(StockKind.SALT, "Reef salt", "kg", "100"));
    }

    private void kind(TestVisits.Case visit, String kind) {
        jdbc.sql("update water_system set kind = :kind where id = :id")
                .param("kind", kind)
                .param("id", visit.system.value())
                .update();
    }

    private RoundId planned(TestVisits.Case visit) {
        VanId van = VanId.of(new TestBusiness(jdbc).van("Van " + UUID.randomUUID(), 52, 5));
        RoundId round = rounds.plan(TODAY, van, List.of(visits(visit).siteId()));
        jdbc.sql("update visit set round_id = :round where id = :id")
                .param("round", round.value())
                .param("id", visit.id.value())
                .update();
        return round;
    }

    private void book() {
        while (stock.bookNext()) {
            // Each visit is a transaction of its own.
        }
    }

    private void again(TestVisits.Case visit) {
        rows.tellAgain(visit.id);
    }

    private VisitRow visits(TestVisits.Case visit) {
        return rows.find(visit.id).orElseThrow();
    }

    private int at(StockItemId item, StockAccount account) {
        return ledger.balance(item, account).intValueExact();
    }

    private int sum(StockItemId item) {
        return ledger.balances(item).stream()
                .mapToInt(balance -> balance.amount().intValueExact())
                .sum();
    }

    private int movements(TestVisits.Case visit) {
        return ledger.ofSource(MovementSource.ofVisit(visit.id.value())).size();
    }

    private String socksJson(int count) {
        return "{\"count\": " + count + ", \"sizeMm\": " + size + "}";
    }

    private StockItemId socks(String onHand) {
        return catalogue.add(new NewStockItem(
                StockKind.SOCK, "Felt", Optional.of(size), "count", new BigDecimal("0.1"), new BigDecimal(onHand)));
    }

    private StockItemId product(StockKind kind, String name, String unit, String onHand) {
        return catalogue.add(
                new NewStockItem(kind, name, Optional.empty(), unit, BigDecimal.ONE, new BigDecimal(onHand)));
    }

    private void receive(StockItemId item, String lot, LocalDate expires) {
        receiving.receive(new NewReceipt(
                Uuids.next(clock.instant()),
                item,
                BigDecimal.ONE,
                StockAccountKind.BOUGHT,
                DEPOT,
                Optional.of(lot),
                Optional.of(expires),
                TODAY,
                Optional.empty(),
                Optional.empty()));
    }

    private void infection(TestVisits.Case visit, String infection) {
        jdbc.sql("update water_system set infection_class = :class where id = :id")
                .param("class", infection)
                .param("id", visit.system.value())
                .update();
    }

    private void onRound(TestVisits.Case visit, VanId van) {
        UUID round = UUID.randomUUID();
        jdbc.sql("""
                        insert into round (
                            id, code, van_id, service_date, trip, leaves_at, returns_at, method, proven_best,
                            driving_seconds, distance_m, version)
                        values (:id, :code, :van, :day, 1, time '07:30', time '15:30', 'GIVEN', false, 0, 0, 1)
                        """)
                .param("id", round)
                .param("code", "R-" + round)
                .param("van", van.value())
                .param("day", TODAY)
                .update();
        jdbc.sql("update visit set round_id = :round where id = :id")
                .param("round", round)
                .param("id", visit.id.value())
                .update();
    }

    private void tick(TestVisits.Case visit, int position, String state) {
        UUID due = jdbc.sql("select planned_visits[1] from visit where id = :id")
                .param("id", visit.id.value())
                .query(UUID.class)
                .single();
        String because = state.equals("SKIPPED") ? ", \"because\": \"none left\"" : "";
        visit.entry("visit.task", "task/" + due + "/" + position, "{\"state\": \"" + state + "\"" + because + "}");
    }

    /** A visit of today, finished, with these tasks agreed. */
    private TestVisits.Case visit(TaskView... tasks) {
        TestVisits.Case visit = visits.finished();
        agreements.add(new NewAgreement(
                "A-" + visit.system,
                visit.system,
                1,
                Set.of(TODAY.getDayOfWeek()),
                TODAY,
                Optional.empty(),
                45,
                new BigDecimal("60"),
                List.of(tasks),
                Optional.of(TODAY)));
        dueVisits.planUntil(TODAY.plusWeeks(2));
        PlannedVisitView due = dueVisits.dueFor(visit.system).getFirst();
        jdbc.sql("update visit set planned_visits = array[cast(:due as uuid)] where id = :id")
                .param("due", due.id().value())
                .param("id", visit.id.value())
                .update();
        return visit;
    }
}
