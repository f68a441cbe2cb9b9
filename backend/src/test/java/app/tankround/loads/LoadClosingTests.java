package app.tankround.loads;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.authentication;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.csrf;

import app.tankround.accounts.VanId;
import app.tankround.clients.SiteId;
import app.tankround.rounds.RoundId;
import app.tankround.rounds.RoundService;
import app.tankround.schedule.Agreements;
import app.tankround.schedule.NewAgreement;
import app.tankround.schedule.TaskView;
import app.tankround.stock.Catalogue;
import app.tankround.stock.NewStockItem;
import app.tankround.stock.StockAccount;
import app.tankround.stock.StockItemDetails;
import app.tankround.stock.StockItemId;
import app.tankround.stock.StockKind;
import app.tankround.stock.StockLedger;
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
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
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

/** Two stops of a fresh-water system each, with tap water that takes conditioner, and three socks of 150 mm. */
@SpringBootTest
@AutoConfigureMockMvc
@IntegrationTest
@Import(Maud.class)
class LoadClosingTests {

    private static final LocalDate TODAY = LocalDate.of(2026, 11, 25);
    private static final int SIZE = 150;

    @Autowired
    private MockMvcTester pages;

    @Autowired
    private LoadSheets sheets;

    @Autowired
    private LoadTicks ticks;

    @Autowired
    private LoadClosings closings;

    @Autowired
    private RoundService rounds;

    @Autowired
    private Agreements agreements;

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

    @BeforeEach
    void prepare() {
        clock.set(Instant.parse("2026-11-25T05:00:00Z"));
        business = new TestBusiness(jdbc);
    }

    @Test
    void aShortageNamesWhatGoesInsteadAndWhoGoesWithout() throws Exception {
        VanId van = van();
        RoundId id = round(van, site("First", 2), site("Second", 1));
        LoadLine socks = line(id, "sock:" + SIZE);
        List<StopShare> stops = socks.stops();
        assertThat(socks.endangered(new BigDecimal("1"))).containsExactly(stops.getLast());
        assertThat(socks.endangered(new BigDecimal("3"))).isEqualTo(stops);
        assertThat(tick(id, socks, "1", "two of 100 mm, sewn")).hasStatus(302);
        LoadTick said = Objects.requireNonNull(ticks.of(id).get(socks.key()));
        assertThat(said.loaded()).isEqualByComparingTo("2");
        assertThat(said.covers(socks)).isTrue();
        assertThat(Maud.text(maud.opens("/rounds/" + id + "/load")))
                .contains(
                        "1 sock missing.",
                        "Instead: two of 100 mm, sewn.",
                        "Goes without: " + stops.getLast().position() + " "
                                + stops.getLast().siteName());
        for (String missing : List.of("4", "-1", "x")) {
            assertThat(tick(id, socks, missing, "")).hasStatus(422).bodyText().contains("Nothing was kept");
        }
        assertThat(ticks.of(id).get(socks.key())).isEqualTo(said);
    }

    @Test
    void whatSomethingCouldDieWithoutIsOnlyLeftWithAReason() throws Exception {
        RoundId id = round(van(), site("First", 2), site("Second", 1));
        LoadLine conditioner = line(id, LoadRules.CONDITIONER_KEY);
        assertThat(conditioner.isSafety()).isTrue();
        LoadLine socks = line(id, "sock:" + SIZE);
        assertThat(tick(id, conditioner, conditioner.amount().toPlainString(), "none"))
                .hasStatus(422)
                .bodyText()
                .contains("Something could die without it");
        int version = rounds.require(id).version();
        assertRefused(() -> maud.does(() -> closings.close(id, version, reasonsFor(id, conditioner))));
        assertThat(tick(id, socks, "", "")).hasStatus(302);
        assertThatThrownBy(() -> maud.does(() -> closings.close(id, version, reasonsFor(id, conditioner))))
                .isInstanceOfSatisfying(
                        FieldRefusal.class,
                        refusal -> assertThat(refusal.code()).isEqualTo("loads.close.safety"));
        assertThat(closings.of(id)).isEmpty();
        MvcTestResult open = close(id, version, conditioner.key(), "");
        assertThat(open).hasStatus(422).bodyText().contains("Something could die without this");
        assertThatThrownBy(() -> maud.does(() -> closings.close(id, version + 1, Map.of())))
                .isInstanceOf(StaleVersion.class);

        LoadClosing closed =
                maud.does(() -> closings.close(id, version, reasonsFor(id, null, "the shop has it, on the way there")));
        assertThat(closed.lines())
                .filteredOn(LoadClosing.Line::safety)
                .allSatisfy(line -> assertThat(line.reason()).contains("the shop has it, on the way there"));
        assertThat(closed.lines())
                .filteredOn(line -> line.key().equals(socks.key()))
                .singleElement()
                .satisfies(line -> {
                    assertThat(line.loaded()).isEqualByComparingTo("3");
                    assertThat(line.person()).contains("Maud");
                    assertThat(line.reason()).isEmpty();
                });
        assertThat(Maud.text(maud.opens("/rounds/" + id + "/load")))
                .contains("Closed by Maud", "Loaded by Maud.", "Because: the shop has it, on the way there.");
    }

    /** What is closed is booked out of the shelf once, whoever closes it how often, and a change books its difference. */
    @Test
    void closingBooksFromTheShelfIntoTheVan() throws Exception {
        StockItemId item = socks(10);
        VanId van = van();
        RoundId id = round(van, site("First", 2), site("Second", 1));
        LoadLine socks = line(id, "sock:" + SIZE);
        tick(id, socks, "1", "");
        int version = rounds.require(id).version();
        Map<String, String> reasons = reasonsFor(id, null, "known");
        maud.does(() -> closings.close(id, version, reasons));
        maud.does(() -> closings.close(id, version, reasons));
        assertThat(ledger.balance(item, StockAccount.van(van))).isEqualByComparingTo("2");
        assertThat(ledger.balance(item, StockAccount.depot())).isEqualByComparingTo("8");
        assertThat(jdbc.sql("select count(*) from load_closing where round_id = :id")
                        .param("id", id.value())
                        .query(Integer.class)
                        .single())
                .isEqualTo(1);
        clock.set(Instant.parse("2026-11-25T05:01:00Z"));
        tick(id, socks, "0", "");
        maud.does(() -> closings.close(id, version, reasons));
        assertThat(ledger.balance(item, StockAccount.van(van))).isEqualByComparingTo("3");
        rounds.removeStop(id, version, rounds.require(id).stops().getFirst().id());
        clock.set(Instant.parse("2026-11-25T05:02:00Z"));
        LoadLine fewer = line(id, "sock:" + SIZE);
        tick(id, fewer, "", "");
        maud.does(() -> closings.close(id, rounds.require(id).version(), reasons));
        assertThat(ledger.balance(item, StockAccount.van(van))).isEqualByComparingTo(fewer.amount());
        assertThat(ledger.balance(item, StockAccount.depot()))
                .isEqualByComparingTo(new BigDecimal("10").subtract(fewer.amount()));
    }

    /** Of one diameter, but of different length and fineness. */
    @Test
    void takesTheSortThatIsOnTheShelf() throws Exception {
        int size = SIZE + 7;
        StockItemId coarse = sort(size, Optional.of(400), Optional.of(300), 1);
        StockItemId fine = sort(size, Optional.of(400), Optional.of(100), 5);
        VanId van = van();
        RoundId id = round(van, site("First", 3, size));
        tick(id, line(id, "sock:" + size), "", "");

        maud.does(() -> closings.close(id, rounds.require(id).version(), reasonsFor(id, null, "known")));

        assertThat(List.of(
                        ledger.balance(coarse, StockAccount.van(van)).intValueExact(),
                        ledger.balance(fine, StockAccount.van(van)).intValueExact()))
                .containsExactlyInAnyOrder(0, 3);
        assertThat(catalogue.require(coarse).title()).isEqualTo("Mesh, " + size + " × 400 mm, 300 µm");
        assertThatThrownBy(() -> sort(size, Optional.of(400), Optional.of(100), 5))
                .isInstanceOfSatisfying(
                        FieldRefusal.class,
                        refusal -> assertThat(refusal.code()).isEqualTo("stock.name-taken"));
        assertThatThrownBy(() -> sort(size, Optional.of(4000), Optional.empty(), 5))
                .isInstanceOfSatisfying(
                        FieldRefusal.class,
                        refusal -> assertThat(refusal.field()).isEqualTo("lengthMm"));
    }

    /** The only two fine ones go where nothing else may, whatever else takes any of that diameter. */
    @Test
    void takesForACloselyStatedSizeFirst() throws Exception {
        int size = SIZE + 8;
        SockSize asked = new SockSize(size, Optional.empty(), Optional.of(100));
        StockItemId fine = sort(size, Optional.empty(), Optional.of(100), 2);
        StockItemId other = sort(size, Optional.of(500), Optional.of(300), 9);
        VanId van = van();
        RoundId id = round(van, site("Any", 3, size), site("Fine", TaskView.sockSwap(2, asked, 7)));
        tick(id, line(id, "sock:" + size), "", "");
        tick(id, line(id, "sock:" + asked.code()), "", "");

        maud.does(() -> closings.close(id, rounds.require(id).version(), reasonsFor(id, null, "known")));

        assertThat(List.of(
                        ledger.balance(fine, StockAccount.van(van)).intValueExact(),
                        ledger.balance(other, StockAccount.van(van)).intValueExact()))
                .containsExactly(2, 3);
    }

    private StockItemId sort(int sizeMm, Optional<Integer> lengthMm, Optional<Integer> finenessUm, int count) {
        return catalogue.add(new NewStockItem(
                new StockItemDetails(
                        StockKind.SOCK,
                        "Mesh",
                        Optional.of(sizeMm),
                        lengthMm,
                        finenessUm,
                        "count",
                        new BigDecimal("0.3"),
                        Optional.empty()),
                BigDecimal.valueOf(count)));
    }

    @Test
    void twoPhonesClosingAtOnceCloseOnce() throws Exception {
        StockItemId item = socks(10);
        VanId van = van();
        RoundId id = round(van, site("First", 2), site("Second", 1));
        tick(id, line(id, "sock:" + SIZE), "", "");
        int version = rounds.require(id).version();
        Map<String, String> reasons = reasonsFor(id, null, "known");
        try (var both = Executors.newFixedThreadPool(2)) {
            List<Future<LoadClosing>> done = new ArrayList<>();
            for (int k = 0; k < 2; k++) {
                done.add(both.submit(() -> maud.does(() -> closings.close(id, version, reasons))));
            }
            assertThat(done.getFirst().get().id())
                    .isEqualTo(done.getLast().get().id());
        }
        assertThat(ledger.balance(item, StockAccount.van(van))).isEqualByComparingTo("3");
    }

    /** A reason for every line of safety but one. */
    private Map<String, String> reasonsFor(RoundId id, @Nullable LoadLine except, String... reason) {
        Map<String, String> reasons = new HashMap<>();
        sheets.loadSheet(id).lines().stream()
                .filter(LoadLine::isSafety)
                .filter(line -> except == null || !line.key().equals(except.key()))
                .forEach(line -> reasons.put(line.key(), reason.length == 0 ? "known" : reason[0]));
        return reasons;
    }

    private StockItemId socks(int count) {
        UUID id = UUID.randomUUID();
        return catalogue.socks(SockSize.ofDiameter(SIZE)).stream()
                .findFirst()
                .map(item -> {
                    catalogue.count(item.id(), BigDecimal.valueOf(count));
                    return item.id();
                })
                .orElseGet(() -> catalogue.add(
                        StockItemId.of(id),
                        new NewStockItem(
                                StockKind.SOCK,
                                "Felt",
                                Optional.of(SIZE),
                                "count",
                                new BigDecimal("0.3"),
                                BigDecimal.valueOf(count))));
    }

    private LoadLine line(RoundId id, String key) {
        return sheets.loadSheet(id).line(key).orElseThrow();
    }

    private MvcTestResult tick(RoundId id, LoadLine line, String missing, String instead) {
        return pages.post()
                .uri("/rounds/" + id + "/load/ticks")
                .param("line", line.key())
                .param("amount", line.amount().toPlainString())
                .param("version", String.valueOf(rounds.require(id).version()))
                .param("ticked", "true")
                .param("missing", missing)
                .param("instead", instead)
                .with(authentication(maud.signedIn()))
                .with(csrf())
                .exchange();
    }

    private MvcTestResult close(RoundId id, int version, String line, String reason) {
        return pages.post()
                .uri("/rounds/" + id + "/load/close")
                .param("version", String.valueOf(version))
                .param("line", line)
                .param("reason", reason)
                .with(authentication(maud.signedIn()))
                .with(csrf())
                .exchange();
    }

    private static void assertRefused(Callable<?> work) {
        assertThatThrownBy(work::call).isInstanceOf(FieldRefusal.class);
    }

    private VanId van() {
        return VanId.of(business().van("Van", 52, 5));
    }

    private RoundId round(VanId van, SiteId... sites) {
        return rounds.plan(TODAY, van, List.of(sites));
    }

    /** A fresh-water system of 400 L, a tenth of which is changed with conditioned tap water, and so many socks. */
    private SiteId site(String name, int socks) {
        return site(name, socks, SIZE);
    }

    private SiteId site(String name, int socks, int sizeMm) {
        return site(name, TaskView.sockSwap(socks, SockSize.ofDiameter(sizeMm), 7));
    }

    private SiteId site(String name, TaskView socks) {
        UUID site = business().site(name, 52.1, 5, null, null);
        UUID system = business().system(site, name + " system", "HEALTHY");
        jdbc.sql("update water_system set kind = 'PLANTED' where id = :id")
                .param("id", system)
                .update();
        jdbc.sql("update site set own_tap = true where id = :id")
                .param("id", site)
                .update();
        agreements.add(new NewAgreement(
                "A-" + system,
                WaterSystemId.of(system),
                1,
                Set.of(DayOfWeek.WEDNESDAY),
                TODAY.minusDays(2),
                Optional.empty(),
                45,
                new BigDecimal("60"),
                List.of(TaskView.waterChangePercent(BigDecimal.TEN), socks),
                Optional.of(TODAY)));
        return SiteId.of(site);
    }

    private TestBusiness business() {
        return Objects.requireNonNull(business);
    }
}
