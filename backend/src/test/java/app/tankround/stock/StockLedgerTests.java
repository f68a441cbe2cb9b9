package app.tankround.stock;

import static app.tankround.stock.MovementReason.LOSS;
import static app.tankround.stock.MovementReason.PURCHASE;
import static app.tankround.stock.MovementReason.TRANSFER;
import static app.tankround.stock.MovementReason.USE;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import app.tankround.accounts.VanId;
import app.tankround.tanks.WaterSystemId;
import app.tankround.testing.IntegrationTest;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.assertj.core.api.ThrowableAssert.ThrowingCallable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;

@SpringBootTest
@IntegrationTest
class StockLedgerTests {

    private static final StockAccount DEPOT = StockAccount.depot();
    private static final StockAccount VAN = StockAccount.van(VanId.of(new UUID(7, 1)));
    private static final StockAccount OTHER_VAN = StockAccount.van(VanId.of(new UUID(7, 2)));
    private static final StockAccount REEF = StockAccount.used(WaterSystemId.of(new UUID(7, 3)));
    private static final StockAccount BOUGHT = StockAccount.of(StockAccountKind.BOUGHT);
    private static final int MOVEMENTS = 10_000;

    @Autowired
    StockLedger ledger;

    @Autowired
    Catalogue catalogue;

    @Autowired
    JdbcClient jdbc;

    @Autowired
    PlatformTransactionManager transactions;

    @Test
    void takesFromOneAccountWhatItGivesToAnother() {
        StockItemId salt = item("kg", "40");

        move(salt, "12.5", DEPOT, VAN, TRANSFER);
        move(salt, "2.5", VAN, REEF, USE);

        assertThat(ledger.balance(salt, DEPOT)).isEqualByComparingTo("27.5");
        assertThat(ledger.balance(salt, VAN)).isEqualByComparingTo("10");
        assertThat(ledger.balance(salt, REEF)).isEqualByComparingTo("2.5");
        assertThat(ledger.balance(salt, StockAccount.of(StockAccountKind.OPENING)))
                .isEqualByComparingTo("-40");
        assertThat(ledger.balances(salt).stream().map(StockBalance::amount).reduce(BigDecimal.ZERO, BigDecimal::add))
                .isEqualByComparingTo("0");
        assertThat(catalogue.require(salt).onHand()).isEqualByComparingTo("27.5");
    }

    @Test
    void neverTakesSilentlyWhatIsNotThere() {
        StockItemId socks = item("count", "3");

        refused("amount", "stock.ledger.not-enough", () -> move(socks, "4", DEPOT, VAN, TRANSFER));
        refused("amount", "stock.ledger.not-enough", () -> move(socks, "1", REEF, DEPOT, TRANSFER));

        assertThat(ledger.balance(socks, DEPOT)).isEqualByComparingTo("3");
        assertThat(ledger.movements(socks, 9)).hasSize(1);
    }

    @Test
    void marksWhatRunsAheadOfADeliveryUntilThatIsBooked() {
        StockItemId carbon = item("kg", "1");

        ledger.post(movement(carbon, "3", DEPOT, VAN, TRANSFER).runningAhead());

        assertThat(ledger.movements(carbon, 1)).singleElement().matches(StockMovementView::runsAhead);
        assertThat(ledger.runningAhead())
                .filteredOn(ahead -> ahead.item().equals(carbon))
                .singleElement()
                .satisfies(ahead -> assertThat(ahead.amount()).isEqualByComparingTo("-2"));
        move(carbon, "5", BOUGHT, DEPOT, PURCHASE);
        assertThat(ledger.runningAhead()).noneMatch(ahead -> ahead.item().equals(carbon));
        assertThat(ledger.balance(carbon, DEPOT)).isEqualByComparingTo("3");
    }

    @ParameterizedTest
    @ValueSource(strings = {"0", "-1", "1000001"})
    void refusesAnAmountThatNobodyCanMove(String amount) {
        StockItemId salt = item("kg", "40");

        refused("amount", "stock.batch.above-zero", () -> move(salt, amount, DEPOT, VAN, TRANSFER));
    }

    @Test
    void refusesPartsOfAPieceAndAMoveToWhereItIs() {
        StockItemId socks = item("count", "40");

        refused("amount", "web.number-not-whole", () -> move(socks, "1.5", DEPOT, VAN, TRANSFER));
        refused("to", "stock.ledger.nowhere", () -> move(socks, "1", DEPOT, DEPOT, TRANSFER));
        refused("amount", "stock.ledger.too-fine", () -> move(item("kg", "1"), "0.0000001", DEPOT, VAN, TRANSFER));
    }

    @Test
    void booksTheSameMovementOnceAndNoOtherUnderItsId() {
        StockItemId salt = item("kg", "40");
        NewStockMovement once = movement(salt, "5", DEPOT, VAN, TRANSFER);

        ledger.post(once);
        ledger.post(once);
        ledger.post(List.of(once, once));

        assertThat(ledger.balance(salt, VAN)).isEqualByComparingTo("5");
        refused(
                "id",
                "stock.ledger.id-reused",
                () -> ledger.post(new NewStockMovement(
                        once.id(),
                        salt,
                        Optional.empty(),
                        new BigDecimal("6"),
                        DEPOT,
                        VAN,
                        TRANSFER,
                        Optional.empty(),
                        Optional.empty(),
                        Optional.empty(),
                        false)));
    }

    @Test
    void takesBackOnce() {
        StockItemId salt = item("kg", "40");
        NewStockMovement wrong = movement(salt, "5", DEPOT, VAN, TRANSFER);
        ledger.post(wrong);
        StockMovementId back = StockMovementId.of(UUID.randomUUID());

        ledger.takeBack(wrong.id(), back, "It stayed at the depot");
        ledger.takeBack(wrong.id(), back, "It stayed at the depot");

        assertThat(ledger.balance(salt, DEPOT)).isEqualByComparingTo("40");
        refused(
                "id",
                "stock.ledger.taken-back-already",
                () -> ledger.takeBack(wrong.id(), StockMovementId.of(UUID.randomUUID()), "Once more"));
    }

    @Test
    void booksTheDifferenceThatACountFinds() {
        StockItemId socks = item("count", "12");
        move(socks, "4", DEPOT, VAN, TRANSFER);

        catalogue.count(socks, new BigDecimal("7"));

        assertThat(ledger.balance(socks, DEPOT)).isEqualByComparingTo("7");
        assertThat(ledger.movements(socks, 1)).singleElement().satisfies(found -> {
            assertThat(found.reason()).isEqualTo(MovementReason.COUNT);
            assertThat(found.to()).isEqualTo(StockAccount.of(StockAccountKind.COUNT_DIFFERENCE));
            assertThat(found.amount()).isEqualByComparingTo("1");
        });
    }

    /** The balances are held against a count of our own that shares nothing with the ledger's. */
    @Test
    void conservesEveryItemUnderTenThousandMovementsWithFailuresInBetween() {
        var random = new Random(20261127);
        List<StockItemId> items = List.of(item("count", "500"), item("kg", "900"), item("mL", "80000"));
        List<StockAccount> accounts = new ArrayList<>(List.of(DEPOT, VAN, OTHER_VAN, REEF, BOUGHT));
        accounts.add(StockAccount.of(StockAccountKind.DIRTY));
        accounts.add(StockAccount.of(StockAccountKind.LOST));
        Map<List<Object>, BigDecimal> counted = new HashMap<>();
        for (StockItemId item : items) {
            counted.put(List.of(item, DEPOT), ledger.balance(item, DEPOT));
            counted.put(
                    List.of(item, StockAccount.of(StockAccountKind.OPENING)),
                    ledger.balance(item, DEPOT).negate());
        }
        var whole = new TransactionTemplate(transactions);
        int done = 0;
        int failed = 0;
        int booked = 0;
        while (done < MOVEMENTS) {
            Map<List<Object>, BigDecimal> next = new HashMap<>(counted);
            List<NewStockMovement> list = new ArrayList<>();
            boolean possible = true;
            int many = 1 + random.nextInt(40);
            for (int i = 0; i < many; i++) {
                StockItemId item = items.get(random.nextInt(items.size()));
                StockAccount from = accounts.get(random.nextInt(accounts.size()));
                StockAccount to = accounts.get(random.nextInt(accounts.size()));
                BigDecimal there = next.getOrDefault(List.of(item, from), BigDecimal.ZERO);
                BigDecimal amount = new BigDecimal(1 + random.nextInt(random.nextInt(30) == 0 ? 900 : 3));
                if (random.nextInt(300) == 0) {
                    amount = amount.negate();
                }
                boolean enough = from.equals(BOUGHT) || there.compareTo(amount) >= 0;
                if ((!enough || from.equals(to)) && random.nextInt(120) != 0) {
                    continue;
                }
                possible &= enough && amount.signum() > 0 && !from.equals(to);
                list.add(movement(item, amount.toPlainString(), from, to, LOSS));
                next.merge(List.of(item, from), amount.negate(), BigDecimal::add);
                next.merge(List.of(item, to), amount, BigDecimal::add);
            }
            done += list.size();
            boolean cutOff = random.nextInt(10) == 0;
            try {
                whole.executeWithoutResult(running -> {
                    ledger.post(list);
                    if (cutOff) {
                        throw new IllegalStateException("the power went");
                    }
                });
                assertThat(possible).isTrue();
                booked += list.size();
                counted.clear();
                counted.putAll(next);
            } catch (FieldRefusal refusal) {
                assertThat(possible).as(refusal.getMessage()).isFalse();
                failed++;
            } catch (IllegalStateException thePowerWent) {
                failed++;
            }
        }

        assertThat(failed).isGreaterThan(50);
        assertThat(booked).isGreaterThan(MOVEMENTS / 2);
        for (StockItemId item : items) {
            Map<StockAccount, BigDecimal> kept = new HashMap<>();
            ledger.balances(item).forEach(balance -> kept.merge(balance.account(), balance.amount(), BigDecimal::add));
            assertThat(kept.values().stream().reduce(BigDecimal.ZERO, BigDecimal::add))
                    .isEqualByComparingTo("0");
            counted.forEach((key, amount) -> {
                if (key.getFirst().equals(item)) {
                    assertThat(kept.getOrDefault((StockAccount) key.getLast(), BigDecimal.ZERO))
                            .isEqualByComparingTo(amount);
                }
            });
            assertThat(fromMovements(item)).isZero();
        }
    }

    @Test
    void twoPeopleAtOnceNeverTakeMoreThanThereIsAndNeverWaitForEver() throws Exception {
        StockItemId one = item("count", "60");
        StockItemId other = item("count", "60");
        Callable<Integer> there = () -> takes(one, other, VAN);
        Callable<Integer> back = () -> takes(other, one, OTHER_VAN);
        try (var people = Executors.newFixedThreadPool(2)) {
            List<Future<Integer>> both = people.invokeAll(List.of(there, back));

            assertThat(both.get(0).get() + both.get(1).get()).isEqualTo(60);
        }
        assertThat(ledger.balance(one, DEPOT)).isEqualByComparingTo("0");
        assertThat(ledger.balance(other, DEPOT)).isEqualByComparingTo("0");
        assertThat(ledger.balance(one, VAN).add(ledger.balance(one, OTHER_VAN))).isEqualByComparingTo("60");
    }

    /** How often somebody gets one of each. */
    private int takes(StockItemId first, StockItemId second, StockAccount van) {
        int got = 0;
        for (int i = 0; i < 50; i++) {
            try {
                ledger.post(List.of(
                        movement(first, "1", DEPOT, van, TRANSFER), movement(second, "1", DEPOT, van, TRANSFER)));
                got++;
            } catch (FieldRefusal nothingLeft) {
                assertThat(nothingLeft.code()).isEqualTo("stock.ledger.not-enough");
            }
        }
        return got;
    }

    /** In how many accounts of an item the balance is not what its movements come to. */
    private int fromMovements(StockItemId item) {
        return jdbc.sql("""
                        select count(*)
                        from (
                            select account, place, sum(amount) as amount
                            from (
                                select to_account as account, to_place as place, amount
                                from stock_movement where item_id = :item
                                union all
                                select from_account, from_place, -amount from stock_movement where item_id = :item
                            ) as both_sides
                            group by account, place
                        ) as told
                        full join (select * from stock_balance where item_id = :item) as kept
                            on kept.account = told.account and kept.place is not distinct from told.place
                        where coalesce(kept.amount, 0) <> coalesce(told.amount, 0)
                        """).param("item", item.value()).query(Integer.class).single();
    }

    private StockItemId item(String unit, String onHand) {
        return catalogue.add(new NewStockItem(
                StockKind.MEDIA,
                "Thing " + UUID.randomUUID(),
                Optional.empty(),
                unit,
                BigDecimal.ONE,
                new BigDecimal(onHand)));
    }

    private void move(StockItemId item, String amount, StockAccount from, StockAccount to, MovementReason why) {
        ledger.post(movement(item, amount, from, to, why));
    }

    private static NewStockMovement movement(
            StockItemId item, String amount, StockAccount from, StockAccount to, MovementReason why) {
        return NewStockMovement.of(UUID.randomUUID(), item, new BigDecimal(amount), from, to, why);
    }

    private static void refused(String field, String code, ThrowingCallable action) {
        assertThatExceptionOfType(FieldRefusal.class).isThrownBy(action).satisfies(refusal -> {
            assertThat(refusal.field()).isEqualTo(field);
            assertThat(refusal.code()).isEqualTo(code);
        });
    }
}
