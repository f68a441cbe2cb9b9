package app.tankround.loads;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.byLessThan;

import app.tankround.accounts.DepotId;
import app.tankround.accounts.Role;
import app.tankround.accounts.VanId;
import app.tankround.loads.WaterAccount.Figure;
import app.tankround.persistence.Uuids;
import app.tankround.stock.KeptWater;
import app.tankround.stock.KeptWaterEnd;
import app.tankround.stock.NewVatLevel;
import app.tankround.stock.NewWaterBatch;
import app.tankround.stock.NewWaterMovement;
import app.tankround.stock.UnmeasuredBatches;
import app.tankround.stock.VatRole;
import app.tankround.stock.WaterBack;
import app.tankround.stock.WaterBatchId;
import app.tankround.stock.WaterBatchView;
import app.tankround.stock.WaterBatches;
import app.tankround.stock.WaterVats;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.web.PageTester;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBusiness;
import app.tankround.testing.TestClock;
import app.tankround.units.Salinity;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.Map;
import java.util.NoSuchElementException;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.UUID;
import org.assertj.core.api.ThrowableAssert.ThrowingCallable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.transaction.support.TransactionTemplate;

/** A depot with a tank of 500 L for purified water and a mixing vat of 300 L. */
@SpringBootTest
@AutoConfigureMockMvc
@IntegrationTest
@Import({PageTester.class, Maud.class})
class WaterAccountTests {

    private static final int OPERATIONS = 10_000;
    private static final LocalDate MONDAY = LocalDate.of(2026, 11, 23);
    private static final Optional<Salinity> SEA = Optional.of(Salinity.ofPractical(35));

    @Autowired
    private WaterAccounts accounts;

    @Autowired
    private WaterVats vats;

    @Autowired
    private WaterBack back;

    @Autowired
    private WaterBatches batches;

    @Autowired
    private UnmeasuredBatches unmeasured;

    @Autowired
    private PageTester pages;

    @Autowired
    private Maud maud;

    @Autowired
    private TransactionTemplate transaction;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private TestClock clock;

    private DepotId depot = DepotId.of(new UUID(0, 0));
    private WaterSystemId tank = WaterSystemId.of(new UUID(0, 0));
    private WaterSystemId vat = WaterSystemId.of(new UUID(0, 0));

    @BeforeEach
    void hasADepot() {
        clock.set(Instant.parse("2026-11-23T05:00:00Z"));
        TestBusiness business = new TestBusiness(jdbc);
        VanId van = VanId.of(business.van("Van", 52, 5));
        depot = DepotId.of(jdbc.sql("select depot_id from van where id = :id")
                .param("id", van.value())
                .query(UUID.class)
                .single());
        UUID site = jdbc.sql("select id from site where depot_id = :id")
                .param("id", depot.value())
                .query(UUID.class)
                .single();
        tank = supply(business, site, "Tank", 500);
        vat = supply(business, site, "Vat", 300);
        vats.assign(tank, 0, Optional.of(VatRole.PURIFIED));
        vats.assign(vat, 0, Optional.of(VatRole.MIXING));
    }

    private WaterSystemId supply(TestBusiness business, UUID site, String name, int litres) {
        UUID id = business.system(site, name, "HEALTHY");
        jdbc.sql("update water_system set kind = 'SUPPLY', net_volume_l = :litres where id = :id")
                .param("litres", litres)
                .param("id", id)
                .update();
        return WaterSystemId.of(id);
    }

    private void level(WaterSystemId of, String litres, Optional<WaterBatchId> batch) {
        vats.read(new NewVatLevel(UUID.randomUUID(), of, new BigDecimal(litres), batch));
    }

    private void move(Optional<WaterSystemId> from, Optional<WaterSystemId> to, String litres) {
        vats.move(new NewWaterMovement(UUID.randomUUID(), from, to, new BigDecimal(litres)));
    }

    private WaterBatchView batch(String litres) throws Exception {
        WaterBatchView made = batches.make(new NewWaterBatch(
                WaterBatchId.of(Uuids.next(clock.instant())),
                vat,
                "vat",
                new BigDecimal(litres),
                Optional.of(new BigDecimal("10")),
                Optional.of(new BigDecimal("34.5")),
                new BigDecimal("35.5")));
        return maud.does(() -> unmeasured.release(made.id(), made.version(), "No instrument in this test"));
    }

    private WaterAccount.OfKind kind(boolean salted, int days) {
        return accounts.of(depot, MONDAY, MONDAY.plusDays(days)).kinds().stream()
                .filter(kind -> kind.salted() == salted)
                .findFirst()
                .orElseThrow();
    }

    private static void assertRefused(String field, String code, ThrowingCallable act) {
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(act)
                .returns(field, FieldRefusal::field)
                .returns(code, FieldRefusal::code);
    }

    /** 400 run, 280 of them into the vat, 300 L salted, 290 filled: the litres of the day by hand. */
    @Test
    void tellsOfADayWhereItsWaterWent() throws Exception {
        level(tank, "50", Optional.empty());
        level(vat, "0", Optional.empty());
        clock.advance(Duration.ofHours(1));
        move(Optional.empty(), Optional.of(tank), "400");
        move(Optional.of(tank), Optional.of(vat), "280");
        clock.advance(Duration.ofHours(1));
        batch("300");
        move(Optional.of(vat), Optional.empty(), "250");
        vats.move(NewWaterMovement.away(UUID.randomUUID(), vat, new BigDecimal("20")));
        clock.advance(Duration.ofHours(1));
        back.keep(UUID.randomUUID(), depot, SEA, new BigDecimal("8"), MONDAY.plusDays(12), "/rounds/x/load/return");

        WaterAccount.OfKind fresh = kind(false, 1);
        assertThat(fresh.of(Figure.MADE)).isEqualTo(450);
        assertThat(fresh.of(Figure.MIXED)).isEqualTo(280);
        assertThat(fresh.of(Figure.VATS_AFTER)).isEqualTo(170);
        assertThat(fresh.difference()).isCloseTo(0, byLessThan(1e-9));
        WaterAccount.OfKind salt = kind(true, 1);
        assertThat(salt.of(Figure.MADE)).isEqualTo(300);
        assertThat(salt.of(Figure.FILLED)).isEqualTo(250);
        assertThat(salt.of(Figure.DRUMS_AFTER)).isEqualTo(250);
        assertThat(salt.of(Figure.AWAY)).isEqualTo(20);
        assertThat(salt.of(Figure.VATS_AFTER)).isEqualTo(30);
        assertThat(salt.of(Figure.KEPT_AFTER)).isEqualTo(8);
        // Nobody told of a round that these 8 L came from.
        assertThat(salt.difference()).isCloseTo(-8, byLessThan(1e-9));
        assertThat(salt.lines())
                .allSatisfy(line -> assertThat(line.sources())
                        .isNotEmpty()
                        .allSatisfy(source -> assertThat(source.page()).startsWith("/")));
        assertThat(WaterAccounts.asks(fresh)).isFalse();
        assertThat(WaterAccounts.asks(salt)).isTrue();
        // The next day begins with what this one ended with.
        WaterAccount.OfKind next = accounts.of(depot, MONDAY.plusDays(1), MONDAY.plusDays(2)).kinds().stream()
                .filter(WaterAccount.OfKind::salted)
                .findFirst()
                .orElseThrow();
        assertThat(next.of(Figure.VATS_BEFORE)).isEqualTo(30);
        assertThat(next.of(Figure.DRUMS_BEFORE)).isEqualTo(250);
        assertThat(next.of(Figure.KEPT_BEFORE)).isEqualTo(8);
        assertThat(next.difference()).isCloseTo(0, byLessThan(1e-9));
    }

    @Test
    void asksForADifferenceUntilSomebodySaysWhyAndAgainWhereItIsAnother() throws Exception {
        level(tank, "400", Optional.empty());
        clock.advance(Duration.ofHours(1));
        level(tank, "360", Optional.empty());
        assertThat(kind(false, 1).difference()).isCloseTo(40, byLessThan(1e-9));
        assertThat(WaterAccounts.asks(kind(false, 1))).isTrue();
        assertRefused("reason", "web.text-blank", () -> maud.does(() -> say(" ")));
        assertRefused("reason", "web.reason-without-words", () -> maud.does(() -> say("??")));
        maud.does(() -> say("The float valve leaked"));
        assertThat(WaterAccounts.asks(kind(false, 1))).isFalse();

        clock.advance(Duration.ofHours(1));
        level(tank, "350", Optional.empty());
        assertThat(WaterAccounts.asks(kind(false, 1))).isTrue();
        assertRefused("days", "loads.account.days", () -> accounts.of(depot, MONDAY, MONDAY));
        assertRefused("days", "loads.account.days", () -> accounts.of(depot, MONDAY, MONDAY.plusDays(32)));
    }

    private boolean say(String reason) {
        accounts.say(UUID.randomUUID(), depot, MONDAY, MONDAY.plusDays(1), false, reason);
        return true;
    }

    @Test
    void goesBackOnlyIntoAVatThatHoldsTheSame() throws Exception {
        level(tank, "100", Optional.empty());
        level(vat, "0", Optional.empty());
        assertThat(back.taking(depot, SEA)).isEmpty();
        assertRefused("to", "stock.back.not-the-same", () -> pour(SEA, "5", vat));
        clock.advance(Duration.ofMinutes(1));
        batch("200");
        assertThat(back.taking(depot, SEA)).extracting(each -> each.id()).containsExactly(vat);
        assertThat(back.taking(depot, Optional.empty()))
                .extracting(each -> each.id())
                .containsExactly(tank);
        assertRefused("to", "stock.back.not-the-same", () -> pour(Optional.of(Salinity.ofPractical(34.4)), "5", vat));
        assertRefused("to", "stock.back.not-the-same", () -> pour(SEA, "5", tank));
        assertRefused("to", "stock.back.not-purified", () -> pour(Optional.empty(), "5", vat));
        assertRefused("litres", "stock.vat.no-room", () -> pour(SEA, "100.1", vat));
        pour(SEA, "12", vat);
        pour(Optional.of(Salinity.ofPractical(34.5)), "8", vat);
        assertThat(vats.require(vat).level().litres()).isCloseTo(220, byLessThan(1e-9));
    }

    private void pour(Optional<Salinity> salinity, String litres, WaterSystemId to) {
        back.pour(UUID.randomUUID(), salinity, new BigDecimal(litres), to, "/rounds/x/load/return");
    }

    @Test
    void endsWhatWaitsInDrumsOnceAndNeverMoreThanThereIs() throws Exception {
        UUID id = UUID.randomUUID();
        for (int tap = 0; tap < 2; tap++) {
            back.keep(id, depot, SEA, new BigDecimal("20"), MONDAY.plusDays(12), "/rounds/x/load/return");
        }
        assertThat(back.keptAt(depot))
                .singleElement()
                .satisfies(kept -> assertThat(kept.left().litres()).isEqualTo(20));
        assertRefused("litres", "stock.back.not-so-much", () -> end(id, KeptWaterEnd.AWAY, "20.1"));
        assertRefused("litres", "stock.vat.litres-above-zero", () -> end(id, KeptWaterEnd.AWAY, "0"));
        assertRefused("litres", "stock.vat.litres-above-zero", () -> end(id, KeptWaterEnd.AWAY, "-1"));
        assertRefused("to", "stock.back.choose-vat", () -> end(id, KeptWaterEnd.VAT, "5"));
        UUID tap = UUID.randomUUID();
        back.end(tap, id, KeptWaterEnd.LOADED, new BigDecimal("15"), Optional.empty());
        back.end(tap, id, KeptWaterEnd.LOADED, new BigDecimal("15"), Optional.empty());
        assertThat(back.keptAt(depot))
                .singleElement()
                .satisfies(kept -> assertThat(kept.left().litres()).isEqualTo(5));
        end(id, KeptWaterEnd.AWAY, "5");
        assertThat(back.keptAt(depot)).isEmpty();
    }

    private void end(UUID kept, KeptWaterEnd what, String litres) {
        back.end(UUID.randomUUID(), kept, what, new BigDecimal(litres), Optional.empty());
    }

    /** Held against a count in whole tenths of a litre that shares no code; every seventh operation fails at its end. */
    @Test
    void conservesEveryLitreOverManyRandomOperationsWithFailuresInBetween() throws Exception {
        level(tank, "200", Optional.empty());
        level(vat, "0", Optional.empty());
        clock.advance(Duration.ofSeconds(1));
        batch("150");
        clock.advance(Duration.ofSeconds(1));
        SplittableRandom random = new SplittableRandom(8);
        Map<UUID, Long> kept = new HashMap<>();
        long fresh = 2000;
        long salt = 1500;
        // Out of drums that no round is told of, as if found there.
        long found = 0;
        int refused = 0;
        int failed = 0;
        for (int operation = 0; operation < OPERATIONS; operation++) {
            long tenths = 1 + random.nextInt(600);
            BigDecimal litres = BigDecimal.valueOf(tenths, 1);
            int what = random.nextInt(8);
            boolean fails = operation % 7 == 0;
            UUID id = UUID.randomUUID();
            Optional<UUID> waiting = kept.keySet().stream().min(UUID::compareTo);
            Instant before = clock.instant();
            try {
                transaction.executeWithoutResult(status -> {
                    switch (what) {
                        case 0 -> vats.move(new NewWaterMovement(id, Optional.empty(), Optional.of(tank), litres));
                        case 1 -> vats.move(new NewWaterMovement(id, Optional.of(tank), Optional.of(vat), litres));
                        case 2 -> vats.move(new NewWaterMovement(id, Optional.of(vat), Optional.empty(), litres));
                        case 3 -> vats.move(NewWaterMovement.away(id, vat, litres));
                        case 4 -> back.pour(id, SEA, litres, vat, "/rounds/x/load/return");
                        case 5 -> back.keep(id, depot, SEA, litres, MONDAY.plusDays(12), "/rounds/x/load/return");
                        case 6 -> back.end(id, waiting.orElseThrow(), KeptWaterEnd.VAT, litres, Optional.of(vat));
                        default -> back.end(id, waiting.orElseThrow(), KeptWaterEnd.AWAY, litres, Optional.empty());
                    }
                    if (fails) {
                        throw new IllegalStateException("power cut");
                    }
                });
                switch (what) {
                    case 0 -> fresh += tenths;
                    case 1 -> {
                        fresh -= tenths;
                        salt += tenths;
                    }
                    case 2, 3 -> salt -= tenths;
                    case 4 -> {
                        salt += tenths;
                        found += tenths;
                    }
                    case 5 -> {
                        kept.put(id, tenths);
                        found += tenths;
                    }
                    case 6 -> {
                        kept.merge(waiting.orElseThrow(), -tenths, Long::sum);
                        salt += tenths;
                    }
                    default -> kept.merge(waiting.orElseThrow(), -tenths, Long::sum);
                }
                kept.values().removeIf(left -> left == 0);
            } catch (FieldRefusal refusal) {
                refused++;
            } catch (IllegalStateException | NoSuchElementException cut) {
                failed++;
            }
            assertThat(clock.instant()).isEqualTo(before);
            if (operation % 500 == 499) {
                clock.advance(Duration.ofSeconds(1));
                assertThat(vats.require(tank).level().litres()).isCloseTo(fresh / 10.0, byLessThan(1e-6));
                assertThat(vats.require(vat).level().litres()).isCloseTo(salt / 10.0, byLessThan(1e-6));
            }
        }
        assertThat(refused).isBetween(1000, 9000);
        assertThat(failed).isGreaterThan(500);
        assertThat(back.keptAt(depot).stream()
                        .map(KeptWater::left)
                        .mapToLong(left -> Math.round(10 * left.litres()))
                        .sum())
                .isEqualTo(kept.values().stream().mapToLong(left -> left).sum());
        assertThat(kind(false, 1).difference()).isCloseTo(0, byLessThan(1e-6));
        assertThat(kind(true, 1).difference()).isCloseTo(-found / 10.0, byLessThan(1e-6));
        assertThat(kind(true, 1).of(Figure.VATS_AFTER)).isCloseTo(salt / 10.0, byLessThan(1e-6));
    }

    @Test
    void isReadAndExplainedOnItsPage() throws Exception {
        level(tank, "400", Optional.empty());
        clock.advance(Duration.ofHours(1));
        level(tank, "360", Optional.empty());
        String path = "/water-plan/account?depot=" + depot + "&day=2026-11-23";
        String page = pages.page(Role.OWNER, path);
        assertThat(page).contains("Where the water went", "40 L are missing", "Less seen in vats");
        Map<String, String> form = new HashMap<>(Map.of(
                "id", PageTester.value(page, "id"),
                "depot", depot.toString(),
                "day", "2026-11-23",
                "days", "1",
                "salted", "false",
                "reason", ""));
        assertThat(pages.post(Role.TECHNICIAN, "/water-plan/account", form)).hasStatus(422);
        form.put("reason", "The float valve leaked");
        assertThat(pages.post(Role.TECHNICIAN, "/water-plan/account", form)).hasStatus3xxRedirection();
        assertThat(pages.page(Role.OWNER, path)).contains("The float valve leaked");
        assertThat(pages.page(Role.OWNER, path + "&days=7")).contains("That day alone");
    }

    @Test
    void isPouredAwayOrIntoTheVatFromTheWaterPlan() throws Exception {
        level(vat, "0", Optional.empty());
        clock.advance(Duration.ofMinutes(1));
        batch("200");
        back.keep(UUID.randomUUID(), depot, SEA, new BigDecimal("20"), MONDAY.plusDays(12), "/rounds/x/load/return");
        String page = pages.page(Role.TECHNICIAN, "/water-plan?depot=" + depot);
        assertThat(page).contains("Waiting in drums", "It is in Vat");
        Map<String, String> form = Map.of(
                "id", PageTester.value(page, "id"),
                "kept", PageTester.value(page, "kept"),
                "litres", PageTester.value(page, "litres"),
                "depot", depot.toString(),
                "to", vat.toString(),
                "what", "VAT");
        assertThat(pages.post(Role.TECHNICIAN, "/water-plan/kept", form)).hasStatus3xxRedirection();
        assertThat(pages.post(Role.TECHNICIAN, "/water-plan/kept", form)).hasStatus3xxRedirection();
        assertThat(vats.require(vat).level().litres()).isCloseTo(220, byLessThan(1e-9));
        Map<String, String> again = new HashMap<>(form);
        again.put("id", UUID.randomUUID().toString());
        assertThat(pages.post(Role.TECHNICIAN, "/water-plan/kept", again)).hasStatus(422);
    }
}
