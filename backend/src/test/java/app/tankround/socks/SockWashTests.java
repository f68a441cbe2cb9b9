package app.tankround.socks;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import app.tankround.accounts.Role;
import app.tankround.accounts.VanId;
import app.tankround.stock.Catalogue;
import app.tankround.stock.MovementReason;
import app.tankround.stock.NewStockItem;
import app.tankround.stock.NewStockMovement;
import app.tankround.stock.StockAccount;
import app.tankround.stock.StockAccountKind;
import app.tankround.stock.StockBalance;
import app.tankround.stock.StockItemId;
import app.tankround.stock.StockKind;
import app.tankround.stock.StockLedger;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.web.PageTester;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBusiness;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.UUID;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.IntStream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;

/** The machine takes 20 socks, as usual. */
@SpringBootTest
@IntegrationTest
@AutoConfigureMockMvc
@Import(PageTester.class)
class SockWashTests {

    private static final AtomicInteger SIZES = new AtomicInteger(700);
    private static final StockAccount DEPOT = StockAccount.depot();
    private static final StockAccount DIRTY = StockAccount.of(StockAccountKind.DIRTY);
    private static final StockAccount APART = StockAccount.of(StockAccountKind.DIRTY_APART);
    private static final StockAccount IN_VAN = StockAccount.of(StockAccountKind.DIRTY, new UUID(7, 7));

    @Autowired
    SockWashes washes;

    @Autowired
    SockPools pools;

    @Autowired
    SockTags tags;

    @Autowired
    StockLedger ledger;

    @Autowired
    Catalogue catalogue;

    @Autowired
    PageTester pages;

    @Autowired
    JdbcClient jdbc;

    @Autowired
    PlatformTransactionManager transactions;

    private StockItemId socks;

    @BeforeEach
    void sixtySocks() {
        new TestBusiness(jdbc);
        socks = catalogue.add(new NewStockItem(
                StockKind.SOCK,
                "Felt",
                Optional.of(SIZES.incrementAndGet()),
                "count",
                new BigDecimal("0.1"),
                new BigDecimal("60")));
    }

    @Test
    void goesThroughTheMachineAndDriesAndIsCleanAgain() {
        move(12, DEPOT, DIRTY);
        move(5, DEPOT, IN_VAN);
        UUID load = start(false, 15);
        assertThat(List.of(pool().dirty(), pool().inWash(), pool().clean())).containsExactly(2, 15, 43);
        assertThat(at(IN_VAN)).isEqualTo(2);

        washes.washed(load, false);
        washes.washed(load, false);
        assertThat(List.of(pool().inWash(), pool().drying())).containsExactly(0, 15);
        assertThat(pool().ages().counts()).containsExactlyInAnyOrderEntriesOf(Map.of(0, 45, 1, 15));

        washes.dry(load);
        washes.dry(load);
        assertThat(List.of(pool().drying(), pool().clean(), pool().together())).containsExactly(0, 58, 60);
        assertThat(washes.open()).noneMatch(open -> open.id().equals(load));
    }

    @Test
    void startsTheSameLoadOnce() {
        move(12, DEPOT, DIRTY);
        UUID load = start(false, 5);
        washes.start(new NewWash(load, false, Map.of(socks, 5), List.of()));
        assertThat(pool().inWash()).isEqualTo(5);
    }

    @Test
    void takesNeitherMoreThanIsDirtyNorMoreThanTheMachineHoldsNorNothing() {
        move(25, DEPOT, DIRTY);
        String field = "counts[" + socks + "]";

        refused(field, "web.number-out-of-range", () -> start(false, 26));
        refused(field, "web.number-out-of-range", () -> start(false, -1));
        refused("counts", "socks.wash.too-many", () -> start(false, 21));
        refused("counts", "socks.wash.none", () -> start(false, 0));
        assertThat(pool().dirty()).isEqualTo(25);
    }

    @Test
    void washesTheSocksOfSickSystemsByThemselvesAndDisinfected() {
        move(4, DEPOT, APART);
        move(4, DEPOT, DIRTY);
        refused("counts[" + socks + "]", "web.number-out-of-range", () -> start(true, 5));
        UUID load = start(true, 4);
        assertThat(List.of(pool().dirty(), pool().dirtyApart())).containsExactly(4, 0);

        refused("disinfected", "socks.wash.not-disinfected", () -> washes.washed(load, false));
        refused("id", "socks.wash.still-in-machine", () -> washes.dry(load));
        washes.washed(load, true);
        washes.dry(load);
        assertThat(pool().clean()).isEqualTo(56);
    }

    @Test
    void takesOutTheOldestAtEachStepForAReason() {
        move(20, DEPOT, DIRTY);
        UUID load = start(false, 20);
        StockAccount machine = StockAccount.of(StockAccountKind.IN_WASH, load);
        out(machine, 1, StockAccountKind.LOST, "gone");
        washes.washed(load, false);
        out(StockAccount.of(StockAccountKind.DRYING, load), 3, StockAccountKind.RETIRED, "frayed");
        washes.dry(load);

        assertThat(List.of(pool().together(), pool().retired(), pool().gone(), pool().clean()))
                .containsExactly(56, 3, 1, 56);
        assertThat(pool().ages().counts()).containsExactlyInAnyOrderEntriesOf(Map.of(0, 40, 1, 16));
        refused("count", "web.number-out-of-range", () -> out(DEPOT, 57, StockAccountKind.RETIRED, "worn"));
        refused("count", "socks.out.none", () -> out(DIRTY, 1, StockAccountKind.RETIRED, "worn"));
        refused("why", "web.text-blank", () -> out(DEPOT, 1, StockAccountKind.RETIRED, " "));
        refused("to", "socks.out.to", () -> out(DEPOT, 1, StockAccountKind.USED, "worn"));
    }

    /** 60 socks, 20 of which go in five times a week: after four weeks some were washed 24 times. */
    @Test
    void tellsHowManyAreWornAndWillBe() {
        for (int i = 0; i < 60; i++) {
            move(20, DEPOT, DIRTY);
            UUID load = start(false, 20);
            washes.washed(load, false);
            washes.dry(load);
        }
        SockPool now = pool();
        assertThat(now.ages().washes()).isEqualTo(1200);
        assertThat(now.worn()).isEqualTo(now.ages().washedAtLeast(24)).isBetween(5, 30);
        assertThat(now.wornInFourWeeks()).isGreaterThan(now.worn());
        out(DEPOT, now.worn(), StockAccountKind.RETIRED, "worn out");
        assertThat(pool().worn()).isZero();
    }

    @Test
    void booksWhatACountFindsAtAnyPlaceOnceWithItsReason() {
        move(12, DEPOT, DIRTY);
        UUID count = UUID.randomUUID();
        catalogue.count(count, socks, DIRTY, BigDecimal.TEN, "two were thrown away");
        move(1, DEPOT, DIRTY);
        catalogue.count(count, socks, DIRTY, BigDecimal.TEN, "two were thrown away");

        assertThat(pool().dirty()).isEqualTo(11);
        assertThat(ledger.movements(socks, 9))
                .filteredOn(movement -> movement.reason() == MovementReason.COUNT)
                .singleElement()
                .satisfies(movement -> assertThat(movement.note()).contains("two were thrown away"));
        refused("why", "web.text-blank", () -> catalogue.count(UUID.randomUUID(), socks, DIRTY, BigDecimal.ONE, ""));
        refused(
                "place",
                "stock.choice-missing",
                () -> catalogue.count(
                        UUID.randomUUID(), socks, StockAccount.of(StockAccountKind.RETIRED), BigDecimal.ONE, "x"));
    }

    /** Two of 60 carry tags: they were washed twice, whatever the pool says of the others. */
    @Test
    void countsTheWashesOfTaggedSocksExactly() {
        String one = "T-" + socks;
        String other = "U-" + socks;
        tags.register(socks, List.of(one, " " + other + " ", one.toLowerCase(Locale.ROOT)), 0);
        tags.register(socks, List.of(one), 0);
        for (int i = 0; i < 2; i++) {
            move(20, DEPOT, DIRTY);
            UUID load = UUID.randomUUID();
            washes.start(new NewWash(load, false, Map.of(socks, 20), List.of(one, other)));
            washes.washed(load, false);
            washes.dry(load);
        }

        assertThat(tags.all())
                .filteredOn(tag -> tag.item().equals(socks))
                .extracting(SockTag::washes)
                .containsExactly(2, 2);
        assertThat(pool().ages().total()).isEqualTo(60);
        assertThat(pool().ages().washes()).isEqualTo(40);
        washes.takeOut(new SocksTakenOut(
                UUID.randomUUID(), socks, DEPOT, 1, StockAccountKind.RETIRED, List.of(one), "frayed"));
        assertThat(pool().ages().washes()).isEqualTo(38);
        assertThat(tags.all()).extracting(SockTag::tag).contains(other).doesNotContain(one);
    }

    @Test
    void refusesTagsThatNobodyKnowsOrThatAreElsewhere() {
        String tag = "T-" + socks;
        String other = "U-" + socks;
        tags.register(socks, List.of(tag, other), 3);
        move(20, DEPOT, DIRTY);
        refused(
                "tags",
                "socks.tag.unknown",
                () -> washes.start(new NewWash(UUID.randomUUID(), false, Map.of(socks, 1), List.of("unheard of"))));
        refused(
                "tags",
                "socks.tag.more-than-socks",
                () -> washes.takeOut(new SocksTakenOut(
                        UUID.randomUUID(), socks, DEPOT, 1, StockAccountKind.LOST, List.of(tag, other), "gone")));
        washes.start(new NewWash(UUID.randomUUID(), false, Map.of(socks, 1), List.of(tag)));
        refused(
                "tags",
                "socks.tag.in-load",
                () -> washes.start(new NewWash(UUID.randomUUID(), false, Map.of(socks, 1), List.of(tag))));
        StockItemId first = socks;
        sixtySocks();
        refused("tags", "socks.tag.taken", () -> tags.register(socks, List.of(tag), 0));
        refused("tags", "socks.tag.none", () -> tags.register(first, List.of(" "), 0));
        refused("washes", "web.number-out-of-range", () -> tags.register(first, List.of("x"), -1));
        refused(
                "tags",
                "socks.tag.too-many",
                () -> tags.register(
                        socks,
                        IntStream.range(0, 61).mapToObj(i -> socks + "-" + i).toList(),
                        0));
        Map<String, String> form = new HashMap<>(Map.of("item", socks.toString(), "tags", tag, "washes", "0"));
        assertThat(PageTester.refusal(PageTester.body(pages.post(Role.TECHNICIAN, "/socks/wash/tags", form)), "tags"))
                .contains("is on another sock");
        form.put("tags", "A-" + socks + "\n\nB-" + socks);
        assertThat(pages.post(Role.TECHNICIAN, "/socks/wash/tags", form)).hasStatus3xxRedirection();
        assertThat(pages.page(Role.TECHNICIAN, "/socks/wash/tags"))
                .contains("A-" + socks, "B-" + socks)
                .doesNotContain("??");
    }

    /** Steps of all kinds, refused ones among them, and transactions that fail after them: not one sock is made or lost. */
    @Test
    void keepsEverySockOverRandomStepsWithFailuresInBetween() {
        Random random = new Random(3);
        TransactionTemplate transaction = new TransactionTemplate(transactions);
        List<UUID> loads = new ArrayList<>();
        int lost = 0;
        for (int i = 0; i < 250; i++) {
            boolean fails = random.nextInt(4) == 0;
            int many = 1 + random.nextInt(12);
            int step = random.nextInt(7);
            UUID id = UUID.randomUUID();
            try {
                transaction.executeWithoutResult(status -> {
                    step(step, many, id, loads, random);
                    if (fails) {
                        throw new IllegalStateException("power cut");
                    }
                });
                if (step == 3) {
                    loads.add(id);
                }
                lost += step == 6 ? 1 : 0;
            } catch (FieldRefusal | IllegalStateException refused) {
                // As if nothing had happened.
            }
            SockPool now = pool();
            assertThat(now.together() + now.gone()).isEqualTo(60);
            assertThat(now.gone()).isEqualTo(lost);
            assertThat(now.ages().total()).isEqualTo(now.together());
            assertThat(now.balances().stream().map(StockBalance::amount).reduce(BigDecimal.ZERO, BigDecimal::add))
                    .isEqualByComparingTo("0");
            assertThat(now.balances())
                    .filteredOn(balance -> balance.account().kind().isPlace())
                    .allMatch(balance -> balance.amount().signum() > 0);
        }
        assertThat(loads).hasSizeGreaterThan(10);
        assertThat(lost).isPositive();
    }

    private void step(int step, int many, UUID id, List<UUID> loads, Random random) {
        StockAccount inUse = StockAccount.inUse(WaterSystemId.of(new UUID(7, 9)));
        StockAccount van = StockAccount.van(VanId.of(new UUID(7, 7)));
        UUID load = loads.isEmpty() ? id : loads.get(random.nextInt(loads.size()));
        switch (step) {
            case 0 -> post(id, many, DEPOT, van);
            case 1 -> post(id, many, van, inUse);
            case 2 -> post(id, many, inUse, random.nextBoolean() ? DIRTY : APART);
            case 3 -> washes.start(new NewWash(id, random.nextBoolean(), Map.of(socks, many), List.of()));
            case 4 -> {
                if (!loads.isEmpty()) {
                    washes.washed(load, random.nextBoolean());
                }
            }
            case 5 -> {
                if (!loads.isEmpty()) {
                    washes.dry(load);
                }
            }
            default -> washes.takeOut(new SocksTakenOut(id, socks, DEPOT, 1, StockAccountKind.LOST, List.of(), "gone"));
        }
    }

    @Test
    void refusesAtTheFieldOnThePagesAndSaysHowSocksAreWashed() {
        move(12, DEPOT, DIRTY);
        move(2, DEPOT, APART);
        assertThat(pages.page(Role.TECHNICIAN, "/socks/wash"))
                .contains(
                        "no detergent and no softener", "sodium thiosulphate", "Never bring bleach together with acid")
                .doesNotContain("??");
        String page = pages.page(Role.TECHNICIAN, "/socks/wash/start");
        assertThat(page).doesNotContain("??");
        Map<String, String> form = new HashMap<>(
                Map.of("id", PageTester.value(page, "id"), "apart", "false", "lines[0].item", socks.toString()));
        for (String bad : List.of("13", "-1", "1.5", "many")) {
            form.put("lines[0].count", bad);
            assertThat(PageTester.refusal(
                            PageTester.body(pages.post(Role.TECHNICIAN, "/socks/wash/start", form)), "lines[0].count"))
                    .contains(bad);
        }
        form.put("lines[0].count", "0");
        assertThat(PageTester.body(pages.post(Role.TECHNICIAN, "/socks/wash/start", form)))
                .contains("Nothing is in this load");
        form.put("lines[0].count", "12");
        assertThat(pages.post(Role.TECHNICIAN, "/socks/wash/start", form)).hasStatus3xxRedirection();
        assertThat(pages.post(Role.TECHNICIAN, "/socks/wash/start", form)).hasStatus3xxRedirection();
        assertThat(pool().inWash()).isEqualTo(12);

        UUID apart = start(true, 2);
        assertThat(PageTester.body(pages.post(Role.TECHNICIAN, "/socks/wash/" + apart + "/washed", Map.of())))
                .contains("once somebody says that they are disinfected");
        assertThat(pages.post(Role.TECHNICIAN, "/socks/wash/" + apart + "/washed", Map.of("disinfected", "true")))
                .hasStatus3xxRedirection();
        assertThat(pages.post(Role.TECHNICIAN, "/socks/wash/" + apart + "/dry", Map.of()))
                .hasStatus3xxRedirection();
        assertThat(pool().dirtyApart()).isZero();
    }

    @Test
    void takesOutAndCountsOnThePages() {
        String which = socks + "@DEPOT";
        String page = pages.page(Role.TECHNICIAN, "/socks/wash/out?which=" + which);
        Map<String, String> form = new HashMap<>(Map.of(
                "id", PageTester.value(page, "id"), "which", which, "count", "0", "to", "RETIRED", "why", "frayed"));
        assertThat(PageTester.refusal(PageTester.body(pages.post(Role.TECHNICIAN, "/socks/wash/out", form)), "count"))
                .contains("0");
        form.put("count", "2");
        form.put("which", "nonsense");
        assertThat(PageTester.body(pages.post(Role.TECHNICIAN, "/socks/wash/out", form)))
                .contains("f-which");
        form.put("which", which);
        assertThat(pages.post(Role.TECHNICIAN, "/socks/wash/out", form)).hasStatus3xxRedirection();

        String counting = pages.page(Role.TECHNICIAN, "/socks/wash/count?which=" + which);
        Map<String, String> count = new HashMap<>(
                Map.of("id", PageTester.value(counting, "id"), "which", which, "counted", "57", "why", ""));
        assertThat(PageTester.refusal(PageTester.body(pages.post(Role.TECHNICIAN, "/socks/wash/count", count)), "why"))
                .isNotBlank();
        count.put("why", "one is missing");
        assertThat(pages.post(Role.TECHNICIAN, "/socks/wash/count", count)).hasStatus3xxRedirection();
        assertThat(List.of(pool().clean(), pool().retired())).containsExactly(57, 2);
        int size = catalogue.require(socks).sizeMm().orElseThrow();
        assertThat(pages.page(Role.TECHNICIAN, "/socks"))
                .contains("/socks/" + size, "Where they are")
                .doesNotContain("??");
        assertThat(pages.page(Role.TECHNICIAN, "/socks/" + size))
                .contains("How often they were washed")
                .doesNotContain("??");
    }

    private UUID start(boolean apart, int count) {
        UUID id = UUID.randomUUID();
        washes.start(new NewWash(id, apart, Map.of(socks, count), List.of()));
        return id;
    }

    private void out(StockAccount from, int count, StockAccountKind to, String why) {
        washes.takeOut(new SocksTakenOut(UUID.randomUUID(), socks, from, count, to, List.of(), why));
    }

    private void move(int count, StockAccount from, StockAccount to) {
        post(UUID.randomUUID(), count, from, to);
    }

    private void post(UUID id, int count, StockAccount from, StockAccount to) {
        ledger.post(NewStockMovement.of(id, socks, BigDecimal.valueOf(count), from, to, MovementReason.TRANSFER));
    }

    private SockPool pool() {
        return pools.all().stream()
                .filter(pool -> pool.item().id().equals(socks))
                .findFirst()
                .orElseThrow();
    }

    private int at(StockAccount account) {
        return ledger.balance(socks, account).intValueExact();
    }

    private static void refused(String field, String code, Runnable work) {
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(work::run)
                .satisfies(refusal -> assertThat(refusal.field()).isEqualTo(field))
                .satisfies(refusal -> assertThat(refusal.code()).isEqualTo(code));
    }
}
