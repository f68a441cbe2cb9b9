package app.tankround.loads;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.authentication;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.csrf;

import app.tankround.accounts.DepotId;
import app.tankround.accounts.VanId;
import app.tankround.clients.SiteId;
import app.tankround.rounds.RoundId;
import app.tankround.rounds.RoundService;
import app.tankround.schedule.Agreements;
import app.tankround.schedule.NewAgreement;
import app.tankround.schedule.TaskKind;
import app.tankround.schedule.TaskUse;
import app.tankround.schedule.TaskUses;
import app.tankround.schedule.TaskView;
import app.tankround.stock.Catalogue;
import app.tankround.stock.NewStockItem;
import app.tankround.stock.StockAccount;
import app.tankround.stock.StockAccountKind;
import app.tankround.stock.StockItemDetails;
import app.tankround.stock.StockItemId;
import app.tankround.stock.StockKind;
import app.tankround.stock.StockLedger;
import app.tankround.stock.WaterBack;
import app.tankround.tanks.WaterSystemId;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBusiness;
import app.tankround.testing.TestClock;
import app.tankround.units.SockSize;
import app.tankround.web.FieldRefusal;
import app.tankround.web.StaleVersion;
import java.math.BigDecimal;
import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.test.web.servlet.assertj.MockMvcTester;
import org.springframework.test.web.servlet.assertj.MvcTestResult;

/** One stop at a salt-water system of 400 L, of which 60 L are changed, and two socks of 160 mm. */
@SpringBootTest
@AutoConfigureMockMvc
@IntegrationTest
@Import(Maud.class)
class LoadReturnTests {

    private static final LocalDate TODAY = LocalDate.of(2026, 11, 25);
    private static final int SIZE = 160;
    private static final String SOCKS = "sock:" + SIZE;
    private static final String WATER = "salt-water";
    private static final BigDecimal ZERO = BigDecimal.ZERO;

    @Autowired
    private MockMvcTester pages;

    @Autowired
    private LoadSheets sheets;

    @Autowired
    private LoadTicks ticks;

    @Autowired
    private LoadClosings closings;

    @Autowired
    private LoadReturns returns;

    @Autowired
    private WaterBack back;

    @Autowired
    private WaterAccounts accounts;

    @Autowired
    private RoundService rounds;

    @Autowired
    private Agreements agreements;

    @Autowired
    private TaskUses uses;

    @Autowired
    private Catalogue catalogue;

    @Autowired
    private StockLedger ledger;

    @Autowired
    private Maud maud;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private TestClock clock;

    private @Nullable TestBusiness business;
    private @Nullable WaterSystemId system;
    private @Nullable VanId van;

    @BeforeEach
    void prepare() {
        clock.set(Instant.parse("2026-11-25T05:00:00Z"));
        business = new TestBusiness(jdbc);
    }

    @Test
    void knowsNothingOfAnOpenSheet() throws Exception {
        RoundId id = round();
        assertThat(returns.of(id).closed()).isFalse();
        assertThat(Maud.text(maud.opens("/rounds/" + id + "/load/return"))).contains("was not closed");
        assertThatThrownBy(() -> maud.does(() -> bringBack(id, UUID.randomUUID(), 0, Map.of())))
                .isInstanceOf(FieldRefusal.class);
    }

    /** 75 L went out in three drums and 60 L were planned; the visit says 52 L, so that 23 L are left. */
    @Test
    void tellsWhereEveryLitreAndSockWent() throws Exception {
        StockItemId item = socks(10);
        RoundId id = loaded();
        BigDecimal loaded = thing(id, WATER).loaded();
        assertThat(returns.of(id).open()).hasSize(1);
        assertThat(thing(id, WATER).used()).isEqualByComparingTo(ZERO);

        visit(new TaskUse(system(), TaskKind.WATER_CHANGE, "", 60, 52));

        assertThat(returns.of(id).open()).isEmpty();
        ReturnSheet.Thing water = thing(id, WATER);
        assertThat(water.used()).isEqualByComparingTo("52");
        assertThat(water.left()).isEqualByComparingTo(loaded.subtract(new BigDecimal("52")));
        ReturnSheet.Thing socks = thing(id, SOCKS);
        assertThat(socks.uses())
                .singleElement()
                .satisfies(use -> assertThat(use.asPlanned()).isTrue());
        assertThat(socks.left()).isEqualByComparingTo(socks.loaded().subtract(new BigDecimal("2")));

        UUID first = UUID.randomUUID();
        Map<String, Returned> said = asExpected(id);
        said.put(water.key(), new Returned(water.left().subtract(BigDecimal.TWO), ZERO, BigDecimal.TWO, ZERO, ""));
        maud.does(() -> bringBack(id, first, 0, said));
        maud.does(() -> bringBack(id, first, 0, said));

        assertThat(returns.of(id).told())
                .singleElement()
                .satisfies(told -> assertThat(told.lines())
                        .allSatisfy(line -> assertThat(line.missing()).isEqualByComparingTo(ZERO)));
        assertThat(returns.of(id).things())
                .allSatisfy(thing -> assertThat(thing.left()).isEqualByComparingTo(ZERO));
        // Of the socks that went out only what the visit used is still in the van's account: the visit books that.
        assertThat(ledger.balance(item, StockAccount.van(van()))).isEqualByComparingTo("2");
        assertThat(Maud.text(maud.opens("/rounds/" + id + "/load/return")))
                .contains("Told by Maud", "2 L poured or thrown away", "52 L");
        assertConserved(item);
    }

    @Test
    void asksWhereWhatComesBackIsNotWhatIsLeft() throws Exception {
        StockItemId item = socks(10);
        RoundId id = loaded();
        visit(new TaskUse(system(), TaskKind.WATER_CHANGE, "", 60, 60));
        Map<String, Returned> said = asExpected(id);
        BigDecimal loaded = thing(id, SOCKS).loaded();
        // All that went out is back, although the visit says that two were used.
        said.put(SOCKS, new Returned(loaded, ZERO, ZERO, ZERO, ""));
        assertThatThrownBy(() -> maud.does(() -> bringBack(id, UUID.randomUUID(), 0, said)))
                .isInstanceOfSatisfying(FieldRefusal.class, refusal -> {
                    assertThat(refusal.field()).isEqualTo(SOCKS + ".reason");
                    assertThat(refusal.code()).isEqualTo("loads.return.why");
                });
        assertThat(ledger.balance(item, StockAccount.van(van()))).isEqualByComparingTo(loaded);

        said.put(SOCKS, new Returned(loaded, ZERO, ZERO, ZERO, "The sump was locked"));
        maud.does(() -> bringBack(id, UUID.randomUUID(), 0, said));

        assertThat(ledger.balance(item, StockAccount.depot())).isEqualByComparingTo("10");
        assertThat(ledger.balance(item, StockAccount.van(van()))).isEqualByComparingTo("2");
        assertConserved(item);
        ReturnSheet.Line line = returns.of(id).told().getFirst().lines().stream()
                .filter(told -> told.key().equals(SOCKS))
                .findFirst()
                .orElseThrow();
        assertThat(line.missing()).isEqualByComparingTo("-2");
        assertThat(line.reason()).contains("The sump was locked");
    }

    /** Of the second sort by name five went out; five are back, and the visit says two were used. */
    @Test
    void whatIsFoundTooMuchComesBackAsTheSortThatWentOut() throws Exception {
        StockItemId first = socks(0);
        StockItemId second = catalogue.socks(SockSize.ofDiameter(SIZE)).stream()
                .filter(item -> !item.id().equals(first))
                .findFirst()
                .map(item -> item.id())
                .orElseGet(() -> catalogue.add(new NewStockItem(
                        StockKind.SOCK,
                        "Zellwool",
                        Optional.of(SIZE),
                        "count",
                        new BigDecimal("0.3"),
                        BigDecimal.ZERO)));
        catalogue.count(second, BigDecimal.TEN);
        RoundId id = loaded();
        BigDecimal loaded = thing(id, SOCKS).loaded();
        assertThat(ledger.balance(second, StockAccount.van(van()))).isEqualByComparingTo(loaded);
        visit(new TaskUse(system(), TaskKind.WATER_CHANGE, "", 60, 60));
        Map<String, Returned> said = asExpected(id);
        said.put(SOCKS, new Returned(loaded, ZERO, ZERO, ZERO, "The sump was locked"));

        maud.does(() -> bringBack(id, UUID.randomUUID(), 0, said));

        assertThat(ledger.balance(second, StockAccount.depot())).isEqualByComparingTo("10");
        assertThat(ledger.balance(first, StockAccount.depot())).isEqualByComparingTo(ZERO);
        assertThat(ledger.balance(first, StockAccount.van(van()))).isEqualByComparingTo(ZERO);
        catalogue.count(second, ZERO);
    }

    /** Named so that the fine sort comes first by name: what takes any brings back the coarse ones that went out for it. */
    @Test
    void eachSizeBringsBackTheSortThatWentOutForIt() throws Exception {
        int size = SIZE + 30;
        StockItemId fine = sort("Alpha", size, Optional.of(100));
        StockItemId coarse = sort("Beta", size, Optional.of(300));
        SockSize asked = new SockSize(size, Optional.empty(), Optional.of(100));
        RoundId id =
                round("HEALTHY", TaskView.sockSwap(2, SockSize.ofDiameter(size), 7), TaskView.sockSwap(3, asked, 7));
        catalogue.count(fine, new BigDecimal("3"));
        load(id);
        assertThat(ledger.balance(fine, StockAccount.van(van()))).isEqualByComparingTo("3");
        Map<String, Returned> said = asExpected(id);
        returns.of(id).things().forEach(thing -> {
            if (thing.key().equals("sock:" + asked.code())) {
                said.put(thing.key(), new Returned(ZERO, ZERO, thing.loaded(), ZERO, "Torn"));
            } else if (thing.key().equals("sock:" + size)) {
                said.put(thing.key(), Returned.allBack(thing.loaded(), "The sump was locked"));
            }
        });

        maud.does(() -> bringBack(id, UUID.randomUUID(), 0, said));

        assertThat(ledger.balance(coarse, StockAccount.of(StockAccountKind.WASTED)))
                .isEqualByComparingTo(ZERO);
        assertThat(ledger.balance(fine, StockAccount.of(StockAccountKind.WASTED)))
                .isEqualByComparingTo("3");
        assertThat(ledger.balance(coarse, StockAccount.depot())).isEqualByComparingTo("10");
        assertConserved(fine);
        assertConserved(coarse);
    }

    private StockItemId sort(String name, int size, Optional<Integer> finenessUm) {
        return catalogue.add(new NewStockItem(
                new StockItemDetails(
                        StockKind.SOCK,
                        name,
                        Optional.of(size),
                        Optional.empty(),
                        finenessUm,
                        "count",
                        new BigDecimal("0.3"),
                        Optional.empty()),
                BigDecimal.TEN));
    }

    @Test
    void whatIsBrokenOrWastedNeverComesBack() throws Exception {
        StockItemId item = socks(10);
        RoundId id = loaded();
        Map<String, Returned> said = asExpected(id);
        BigDecimal loaded = thing(id, SOCKS).loaded();
        said.put(SOCKS, new Returned(ZERO, loaded.subtract(BigDecimal.TWO), BigDecimal.ONE, BigDecimal.ONE, ""));
        maud.does(() -> bringBack(id, UUID.randomUUID(), 0, said));
        assertThat(ledger.balance(item, StockAccount.of(StockAccountKind.WASTED)))
                .isPositive();
        assertThat(ledger.balance(item, StockAccount.of(StockAccountKind.BROKEN)))
                .isPositive();
        assertThat(ledger.balance(item, StockAccount.van(van()))).isEqualByComparingTo(loaded.subtract(BigDecimal.TWO));
        assertConserved(item);
    }

    /** 52 L were used of what went out; of the rest 3 L were spilt, the others wait in their drums and are counted there. */
    @Test
    void waterThatIsBackWaitsInItsDrumsAndIsAccountedFor() throws Exception {
        socks(10);
        RoundId id = loaded();
        visit(new TaskUse(system(), TaskKind.WATER_CHANGE, "", 60, 52));
        ReturnSheet.Thing water = thing(id, WATER);
        BigDecimal left = water.left();
        Map<String, Returned> said = asExpected(id);
        BigDecimal kept = left.subtract(new BigDecimal("3"));
        said.put(water.key(), new Returned(kept, ZERO, new BigDecimal("3"), ZERO, "", Returned.KEEP));
        UUID form = UUID.randomUUID();
        maud.does(() -> bringBack(id, form, 0, said));
        maud.does(() -> bringBack(id, form, 0, said));

        assertThat(back.keptAt(depot())).singleElement().satisfies(waiting -> {
            assertThat(waiting.left().litres()).isEqualTo(kept.doubleValue());
            assertThat(waiting.goodUntil()).isEqualTo(TODAY.plusDays(13));
        });
        WaterAccount.OfKind salt = accounts.of(depot(), TODAY, TODAY.plusDays(1)).kinds().stream()
                .filter(WaterAccount.OfKind::salted)
                .findFirst()
                .orElseThrow();
        assertThat(salt.of(WaterAccount.Figure.USED)).isEqualTo(52);
        assertThat(salt.of(WaterAccount.Figure.AWAY)).isEqualTo(3);
        assertThat(salt.of(WaterAccount.Figure.KEPT_AFTER)).isEqualTo(kept.doubleValue());
        assertThat(salt.of(WaterAccount.Figure.OUT_AFTER)).isZero();
        // Nobody wrote down what the drums were filled from: all of it came from somewhere else.
        assertThat(salt.difference()).isEqualTo(-water.loaded().doubleValue());
        assertThat(salt.of(WaterAccount.Figure.UNFILLED)).isEqualTo(salt.difference());
        assertThat(Maud.text(maud.opens("/rounds/" + id + "/load/return"))).contains("waits in its drums");
    }

    @Test
    void waterGoesIntoNoVatThatDoesNotHoldTheSame() throws Exception {
        socks(10);
        RoundId id = loaded();
        ReturnSheet.Thing water = thing(id, WATER);
        Map<String, Returned> said = asExpected(id);
        for (String goes : List.of(UUID.randomUUID().toString(), "somewhere", system().toString())) {
            said.put(water.key(), new Returned(water.left(), ZERO, ZERO, ZERO, "", goes));
            assertThatThrownBy(() -> maud.does(() -> bringBack(id, UUID.randomUUID(), 0, said)))
                    .isInstanceOfSatisfying(
                            FieldRefusal.class,
                            refusal -> assertThat(refusal.field()).isEqualTo(water.key() + ".goes"));
        }
        assertThat(returns.of(id).told()).isEmpty();
        assertThat(back.keptAt(depot())).isEmpty();
        said.put(water.key(), new Returned(water.left(), ZERO, ZERO, ZERO, "", Returned.AWAY));
        maud.does(() -> bringBack(id, UUID.randomUUID(), 0, said));
        assertThat(back.keptAt(depot())).isEmpty();
    }

    @Test
    void waterThatWasOpenedForASickSystemIsPouredAway() throws Exception {
        socks(10);
        RoundId id = loaded("QUARANTINE");
        ReturnSheet.Thing water = thing(id, WATER);
        assertThat(water.isApart()).isTrue();
        Map<String, Returned> said = asExpected(id);
        said.put(water.key(), new Returned(water.left(), ZERO, ZERO, ZERO, "", Returned.KEEP));
        assertThatThrownBy(() -> maud.does(() -> bringBack(id, UUID.randomUUID(), 0, said)))
                .isInstanceOfSatisfying(FieldRefusal.class, refusal -> {
                    assertThat(refusal.field()).isEqualTo(water.key() + ".goes");
                    assertThat(refusal.code()).isEqualTo("loads.return.apart-water");
                });
        said.put(water.key(), new Returned(ZERO, water.left(), ZERO, ZERO, ""));
        assertThatThrownBy(() -> maud.does(() -> bringBack(id, UUID.randomUUID(), 0, said)))
                .isInstanceOfSatisfying(
                        FieldRefusal.class,
                        refusal -> assertThat(refusal.field()).isEqualTo(water.key() + ".stays"));
        said.put(water.key(), Returned.allBack(water.left(), ""));
        maud.does(() -> bringBack(id, UUID.randomUUID(), 0, said));
        assertThat(back.keptAt(depot())).isEmpty();
        assertThat(returns.of(id).told().getFirst().lines().stream()
                        .flatMap(line -> line.goes().stream())
                        .map(ReturnSheet.Goes::what))
                .contains("AWAY");
    }

    @Test
    void twoPeopleAtOnceTellOfOneReturn() throws Exception {
        socks(10);
        RoundId id = loaded();
        Map<String, Returned> said = asExpected(id);
        maud.does(() -> bringBack(id, UUID.randomUUID(), 0, said));
        assertThatThrownBy(() -> maud.does(() -> bringBack(id, UUID.randomUUID(), 0, said)))
                .isInstanceOf(StaleVersion.class);
        assertThat(returns.of(id).told()).hasSize(1);
        assertThat(send(id, UUID.randomUUID(), 0, "", true))
                .hasStatus(409)
                .bodyText()
                .contains("Nothing was kept");
    }

    @Test
    void badNumbersAreSaidAtTheirFieldAndChangeNothing() throws Exception {
        socks(10);
        RoundId id = loaded();
        UUID form = UUID.randomUUID();
        assertThat(send(id, form, 0, "-1", false)).hasStatus(422).bodyText().contains("-1");
        assertThat(send(id, form, 0, "1.5", false)).hasStatus(422).bodyText().contains("1.5");
        assertThat(send(id, form, 0, "two", false)).hasStatus(422).bodyText().contains("two");
        assertThat(send(id, form, 0, "", false)).hasStatus(422).bodyText().contains("Say what came back");
        assertThat(send(id, form, 0, "1", true)).hasStatus(422).bodyText().contains("Either tick");
        assertThat(send(id, form, 0, "1", false)).hasStatus(422).bodyText().contains("Say why");
        assertThat(returns.of(id).told()).isEmpty();
        assertThat(send(id, form, 0, "", true)).hasStatus(302);
        assertThat(send(id, form, 0, "", true)).hasStatus(302);
        assertThat(returns.of(id).told()).hasSize(1);
    }

    /** Of everything but the socks just what is left; of these what is typed. */
    private MvcTestResult send(RoundId id, UUID form, int seen, String back, boolean asExpected) {
        var request = pages.post()
                .uri("/rounds/" + id + "/load/return")
                .param("id", form.toString())
                .param("seen", String.valueOf(seen));
        List<ReturnSheet.Thing> things = returns.of(id).things();
        for (int k = 0; k < things.size(); k++) {
            boolean socks = things.get(k).key().equals(SOCKS);
            request.param("lines[" + k + "].key", things.get(k).key());
            if (!socks || asExpected) {
                request.param("lines[" + k + "].asExpected", "true");
            }
            if (socks) {
                request.param("lines[" + k + "].back", back);
            }
        }
        return request.with(authentication(maud.signedIn())).with(csrf()).exchange();
    }

    private Void bringBack(RoundId id, UUID form, int seen, Map<String, Returned> said) {
        returns.bringBack(id, form, seen, said);
        return null;
    }

    private Map<String, Returned> asExpected(RoundId id) {
        Map<String, Returned> said = new HashMap<>();
        returns.of(id).things().forEach(thing -> said.put(thing.key(), Returned.allBack(thing.left(), "")));
        return said;
    }

    private ReturnSheet.Thing thing(RoundId id, String key) {
        return returns.of(id).things().stream()
                .filter(thing -> thing.key().startsWith(key))
                .findFirst()
                .orElseThrow();
    }

    private void assertConserved(StockItemId item) {
        assertThat(ledger.balances(item).stream()
                        .map(balance -> balance.amount())
                        .reduce(ZERO, BigDecimal::add))
                .isEqualByComparingTo(ZERO);
    }

    private void visit(TaskUse... used) {
        uses.record(UUID.randomUUID(), TODAY, List.of(used));
        jdbc.sql("update planned_visit set state = 'DONE', done_on = :today where water_system_id = :system")
                .param("today", TODAY)
                .param("system", system().value())
                .update();
    }

    private DepotId depot() {
        return DepotId.of(jdbc.sql("select depot_id from van where id = :id")
                .param("id", van().value())
                .query(UUID.class)
                .single());
    }

    private RoundId loaded() throws Exception {
        return loaded("HEALTHY");
    }

    private RoundId loaded(String infectionClass) throws Exception {
        RoundId id = round(infectionClass);
        load(id);
        return id;
    }

    private void load(RoundId id) throws Exception {
        int version = rounds.require(id).version();
        Map<String, String> reasons = new HashMap<>();
        for (LoadLine line : sheets.loadSheet(id).lines()) {
            maud.does(() -> ticks.tick(id, version, line.key(), line.amount(), true));
            reasons.put(line.key(), "known");
        }
        maud.does(() -> closings.close(id, version, reasons));
    }

    private RoundId round() {
        return round("HEALTHY");
    }

    private RoundId round(String infectionClass) {
        return round(infectionClass, TaskView.sockSwap(2, SockSize.ofDiameter(SIZE), 7));
    }

    /** One stop for each of these, in their order. */
    private RoundId round(String infectionClass, TaskView... socks) {
        van = VanId.of(business().van("Van", 52, 5));
        return rounds.plan(
                TODAY,
                van,
                Stream.of(socks).map(task -> site(infectionClass, task)).toList());
    }

    private SiteId site(String infectionClass, TaskView socks) {
        UUID site = business().site("Site " + UUID.randomUUID(), 52.1, 5, null, null);
        system = WaterSystemId.of(business().system(site, "Lobby", infectionClass));
        agreements.add(new NewAgreement(
                "A-" + system,
                system,
                1,
                Set.of(DayOfWeek.WEDNESDAY),
                TODAY.minusDays(2),
                Optional.empty(),
                45,
                new BigDecimal("60"),
                List.of(TaskView.waterChangeLitres(new BigDecimal("60")), socks),
                Optional.of(TODAY)));
        return SiteId.of(site);
    }

    private StockItemId socks(int count) {
        return catalogue.socks(SockSize.ofDiameter(SIZE)).stream()
                .findFirst()
                .map(item -> {
                    catalogue.count(item.id(), BigDecimal.valueOf(count));
                    return item.id();
                })
                .orElseGet(() -> catalogue.add(new NewStockItem(
                        StockKind.SOCK,
                        "Felt",
                        Optional.of(SIZE),
                        "count",
                        new BigDecimal("0.3"),
                        BigDecimal.valueOf(count))));
    }

    private TestBusiness business() {
        return Objects.requireNonNull(business);
    }

    private WaterSystemId system() {
        return Objects.requireNonNull(system);
    }

    private VanId van() {
        return Objects.requireNonNull(van);
    }
}
