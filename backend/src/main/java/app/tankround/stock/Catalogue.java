package app.tankround.stock;

import app.tankround.accounts.ChangeLog;
import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.PersonId;
import app.tankround.persistence.RecordLock;
import app.tankround.persistence.Uuids;
import app.tankround.units.Quantity;
import app.tankround.units.SockSize;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import app.tankround.web.StaleVersion;
import app.tankround.web.TextInput;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.sql.Types;
import java.time.Clock;
import java.time.ZoneOffset;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** What is on the shelf: what things weigh, and how many the ledger has of them at the depot. */
@Service
public class Catalogue {

    static final int LONGEST_NAME = 120;
    static final int SMALLEST_SIZE_MM = 10;
    static final int LARGEST_SIZE_MM = 1000;
    static final int SHORTEST_MM = 10;
    static final int LONGEST_MM = 3000;
    static final int FINEST_UM = 1;
    static final int COARSEST_UM = 2000;
    static final int MOST_TESTS = 1000;
    static final BigDecimal HEAVIEST_UNIT_KG = new BigDecimal("1000");
    static final BigDecimal MOST_ON_HAND = new BigDecimal("1000000");

    private final StockItems items;
    private final StockLedger ledger;
    private final JdbcClient jdbc;
    private final RecordLock lock;
    private final ChangeLog changes;
    private final CurrentPerson currentPerson;
    private final Clock clock;

    Catalogue(
            StockItems items,
            StockLedger ledger,
            JdbcClient jdbc,
            RecordLock lock,
            ChangeLog changes,
            CurrentPerson currentPerson,
            Clock clock) {
        this.items = items;
        this.ledger = ledger;
        this.jdbc = jdbc;
        this.lock = lock;
        this.changes = changes;
        this.currentPerson = currentPerson;
        this.clock = clock;
    }

    /** Everything, by kind, name and size. */
    @Transactional(readOnly = true)
    public List<StockItemView> all() {
        return views(items.all());
    }

    @Transactional(readOnly = true)
    public Optional<StockItemView> find(StockItemId id) {
        return items.findById(id).map(this::view);
    }

    /** @throws NotFound if there is none */
    @Transactional(readOnly = true)
    public StockItemView require(StockItemId id) {
        return find(id).orElseThrow(() -> new NotFound("stock-item", id));
    }

    /** The item of that name, whether written with capitals or not. */
    @Transactional(readOnly = true)
    public Optional<StockItemView> find(StockKind kind, String name, Optional<Integer> sizeMm) {
        return items.findByKey(kind.name(), name.strip(), sizeMm.orElse(null)).map(this::view);
    }

    /**
     * What an amount of a product is in the unit that the catalogue counts it in; of pieces a part is a whole one. Empty where
     * it knows no such product, or counts it in a unit of another sort.
     *
     * @param amount 0 or more
     * @param unit {@code g}, {@code kg}, {@code mL}, {@code L} or {@code count}
     */
    @Transactional(readOnly = true)
    public Optional<StockAmount> amountOf(StockKind kind, String name, BigDecimal amount, String unit) {
        return find(kind, name, Optional.empty())
                .flatMap(item -> AmountUnits.convert(amount, unit, item.unit())
                        .map(units -> new StockAmount(
                                item,
                                item.unit().equals("count")
                                        ? units.setScale(0, RoundingMode.CEILING)
                                        : units.setScale(StockLedger.MOST_DECIMALS, RoundingMode.HALF_EVEN))));
    }

    /** Socks that serve where a size is asked for, whatever their names, by {@link StockItemView#title}. */
    @Transactional(readOnly = true)
    public List<StockItemView> socks(SockSize asked) {
        return views(items.socks(asked.diameterMm())).stream()
                .filter(item -> item.serves(asked))
                .sorted(Comparator.comparing(StockItemView::title))
                .toList();
    }

    /** The salt mix, where there is just one: of several nobody says which is meant. */
    @Transactional(readOnly = true)
    public Optional<StockItemView> onlySalt() {
        List<StockItemView> mixes =
                all().stream().filter(item -> item.kind() == StockKind.SALT).toList();
        return mixes.size() == 1 ? Optional.of(mixes.getFirst()) : Optional.empty();
    }

    /** For how many tests a kit of each quantity is enough, where somebody said so. */
    @Transactional(readOnly = true)
    public Map<Quantity, Integer> testsPerKit() {
        Map<Quantity, Integer> tests = new EnumMap<>(Quantity.class);
        items.all().stream()
                .filter(item -> item.kind() == StockKind.TEST_KIT && item.testsPerKit() != null)
                .forEach(item -> tests.put(Quantity.valueOf(item.name()), Objects.requireNonNull(item.testsPerKit())));
        return tests;
    }

    /** What everything weighs, as it is stated now. */
    @Transactional(readOnly = true)
    public StockMasses masses() {
        return new StockMasses(all());
    }

    /** Adds an item under a new id; see {@link #add(StockItemId, NewStockItem)}. */
    @Transactional
    public StockItemId add(NewStockItem stated) {
        return add(StockItemId.of(Uuids.next(clock.instant())), stated);
    }

    /**
     * Adds an item, counted now. Sending the same again adds nothing.
     *
     * @throws FieldRefusal for a name that is missing or taken, or a value outside its range
     * @throws StaleVersion if there is an item of that id that says something else
     */
    @Transactional
    public StockItemId add(StockItemId id, NewStockItem stated) {
        StockItemDetails accepted = accepted(stated.details());
        BigDecimal onHand = counted("onHand", accepted.unit(), stated.onHand());
        lock.hold("stock " + accepted.kind());
        Optional<StockItem> stored = items.findById(id);
        if (stored.isPresent()) {
            if (!says(stored.get(), accepted)) {
                throw new StaleVersion("/stock/" + id, view(stored.get()), stated);
            }
            return id;
        }
        refuseIfTaken(id, accepted);
        items.save(StockItem.of(id, accepted, clock.instant(), 0));
        if (onHand.signum() > 0) {
            ledger.post(NewStockMovement.of(
                    id.value(),
                    id,
                    onHand,
                    StockAccount.of(StockAccountKind.OPENING),
                    StockAccount.depot(),
                    MovementReason.OPENING));
        }
        changes.record("stock-item", id, "added", detail(accepted));
        return id;
    }

    /**
     * Changes what is stated about an item. How many there are is counted, never stated.
     *
     * @throws FieldRefusal as when adding; at {@code unit} once something of it was moved in the unit that it has
     * @throws StaleVersion if somebody else changed it since {@code version}
     */
    @Transactional
    public void change(StockItemId id, int version, StockItemDetails stated) {
        StockItemDetails accepted = accepted(stated);
        lock.hold("stock " + accepted.kind());
        ledger.holdItems(List.of(id));
        StockItem stored = stored(id);
        if (says(stored, accepted)) {
            return;
        }
        if (stored.version() != version) {
            throw new StaleVersion("/stock/" + id, stored.details(), stated);
        }
        refuseIfTaken(id, accepted);
        if (!stored.unit().equals(accepted.unit()) && !ledger.movements(id, 1).isEmpty()) {
            throw new FieldRefusal("unit", "stock.unit-in-use", accepted.unit(), stored.unit());
        }
        items.save(StockItem.of(id, accepted, stored.countedAt(), version));
        changes.record("stock-item", id, "changed", detail(accepted));
    }

    /**
     * Says how many there are at the depot now; the difference is booked.
     *
     * @throws FieldRefusal at {@code onHand} outside 0 to 1,000,000, or where pieces are not whole
     */
    @Transactional
    public void count(StockItemId id, BigDecimal onHand) {
        ledger.holdItems(List.of(id));
        count(stored(id), "onHand", onHand);
    }

    /**
     * Takes down a whole count; all of it or nothing.
     *
     * @throws FieldRefusal at {@code counts[i].onHand}
     * @throws StaleVersion if one of them was counted or moved since, so that the count may have missed it
     */
    @Transactional
    public void count(List<StockCount> counts) {
        ledger.holdItems(counts.stream().map(StockCount::id).toList());
        for (int i = 0; i < counts.size(); i++) {
            StockCount line = counts.get(i);
            StockItem stored = stored(line.id());
            BigDecimal there = ledger.balance(line.id(), StockAccount.depot());
            boolean says = there.compareTo(line.onHand()) == 0;
            count(stored, "counts[" + i + "].onHand", line.onHand());
            if (!says && there.compareTo(line.expected()) != 0) {
                throw new StaleVersion(
                        "/stock", new Counted(stored.name(), there), new Counted(stored.name(), line.onHand()));
            }
        }
    }

    /**
     * As {@link #count(List)}; a count that arrives twice is taken down once.
     *
     * @param id made when the count began
     */
    @Transactional
    public void count(UUID id, List<StockCount> counts) {
        int fresh = jdbc.sql("""
                        insert into stock_count (id, counted_at, person_id) values (:id, :now, :person)
                        on conflict (id) do nothing
                        """)
                .param("id", id)
                .param("now", clock.instant().atOffset(ZoneOffset.UTC))
                .param("person", currentPerson.id().map(PersonId::value).orElse(null), Types.OTHER)
                .update();
        if (fresh > 0) {
            count(counts);
        }
    }

    /**
     * Says how many there are at a place now; the difference is booked with its reason, once.
     *
     * @param id made when the form was shown
     * @param why in words, 1 to 500 characters
     * @throws FieldRefusal at {@code counted} outside 0 to 1,000,000, or where pieces are not whole; at {@code place} for an account
     *     at which nothing lies; at {@code why} without a reason
     */
    @Transactional
    public void count(UUID id, StockItemId item, StockAccount place, BigDecimal counted, String why) {
        String reason = TextInput.required("why", why, StockLedger.LONGEST_NOTE);
        if (!place.kind().isPlace()) {
            throw new FieldRefusal("place", "stock.choice-missing");
        }
        ledger.holdItems(List.of(item));
        if (!ledger.isBooked(StockMovementId.of(id))) {
            count(
                    stored(item),
                    "counted",
                    counted,
                    place,
                    found -> found.under(id).saying(reason));
        }
    }

    /** A count as the page for conflicts shows it. */
    private record Counted(String name, BigDecimal onHand) {}

    private void count(StockItem item, String field, BigDecimal onHand) {
        count(item, field, onHand, StockAccount.depot(), found -> found);
    }

    private void count(
            StockItem item,
            String field,
            BigDecimal there,
            StockAccount place,
            UnaryOperator<NewStockMovement> because) {
        BigDecimal now = counted(field, item.unit(), there);
        BigDecimal before = ledger.balance(item.id(), place);
        BigDecimal more = now.subtract(before);
        StockAccount difference = StockAccount.of(StockAccountKind.COUNT_DIFFERENCE);
        if (more.signum() > 0) {
            ledger.post(because.apply(found(item.id(), more, difference, place)));
        } else if (more.signum() < 0) {
            ledger.takeOfAny(because.apply(found(item.id(), more.negate(), place, difference)));
        }
        if (place.equals(StockAccount.depot())) {
            jdbc.sql("update stock_item set counted_at = :now where id = :id")
                    .param("now", clock.instant().atOffset(ZoneOffset.UTC))
                    .param("id", item.id().value())
                    .update();
        }
        changes.record(
                "stock-item",
                item.id(),
                "counted",
                Map.of(
                        "onHand", List.of(before.toPlainString(), now.toPlainString()),
                        "name", item.name(),
                        "place", place.code()));
    }

    private NewStockMovement found(StockItemId item, BigDecimal amount, StockAccount from, StockAccount to) {
        return NewStockMovement.of(Uuids.next(clock.instant()), item, amount, from, to, MovementReason.COUNT);
    }

    private StockItemView view(StockItem item) {
        return item.view(ledger.balance(item.id(), StockAccount.depot()));
    }

    private List<StockItemView> views(List<StockItem> shown) {
        Map<StockItemId, BigDecimal> atDepot = ledger.balancesAt(StockAccount.depot()).stream()
                .collect(Collectors.toMap(StockBalance::item, StockBalance::amount, BigDecimal::add));
        return shown.stream()
                .map(item -> item.view(atDepot.getOrDefault(item.id(), BigDecimal.ZERO)))
                .toList();
    }

    private StockItem stored(StockItemId id) {
        return items.findById(id).orElseThrow(() -> new NotFound("stock-item", id));
    }

    private static boolean says(StockItem stored, StockItemDetails stated) {
        return StockItem.of(stored.id(), stated, stored.countedAt(), stored.version())
                .equals(stored);
    }

    private void refuseIfTaken(StockItemId id, StockItemDetails stated) {
        items.findSame(
                        stated.kind().name(),
                        stated.name(),
                        stated.sizeMm().orElse(null),
                        stated.lengthMm().orElse(null),
                        stated.finenessUm().orElse(null))
                .filter(other -> !other.id().equals(id))
                .ifPresent(other -> {
                    throw new FieldRefusal("name", "stock.name-taken", stated.name());
                });
    }

    private static Map<String, Object> detail(StockItemDetails stated) {
        return Map.of(
                "kind", stated.kind().name(),
                "name", stated.name(),
                "unitMassKg", stated.unitMassKg().toPlainString());
    }

    private static StockItemDetails accepted(StockItemDetails stated) {
        StockKind kind = stated.kind();
        String name = TextInput.required("name", stated.name(), LONGEST_NAME);
        if (kind == StockKind.TEST_KIT
                && Quantity.read().stream()
                        .noneMatch(quantity -> quantity.name().equals(name))) {
            throw new FieldRefusal("name", "stock.kit-without-quantity", name);
        }
        if (!kind.units().contains(stated.unit())) {
            throw new FieldRefusal("unit", "stock.unit-not-of-kind", stated.unit(), String.join(", ", kind.units()));
        }
        Optional<Integer> size = stated.sizeMm();
        if (kind == StockKind.SOCK && size.isEmpty()) {
            throw new FieldRefusal("sizeMm", "stock.size-missing", SMALLEST_SIZE_MM, LARGEST_SIZE_MM);
        }
        size.ifPresent(millimetres -> {
            if (kind != StockKind.SOCK) {
                throw new FieldRefusal("sizeMm", "stock.size-only-for-socks", millimetres);
            }
            if (millimetres < SMALLEST_SIZE_MM || millimetres > LARGEST_SIZE_MM) {
                throw new FieldRefusal(
                        "sizeMm", "web.number-out-of-range", millimetres, SMALLEST_SIZE_MM, LARGEST_SIZE_MM);
            }
        });
        ofSock("lengthMm", stated, stated.lengthMm(), SHORTEST_MM, LONGEST_MM);
        ofSock("finenessUm", stated, stated.finenessUm(), FINEST_UM, COARSEST_UM);
        stated.testsPerKit().ifPresent(tests -> {
            if (kind != StockKind.TEST_KIT) {
                throw new FieldRefusal("testsPerKit", "stock.tests-only-for-kits", tests);
            }
            if (tests < 1 || tests > MOST_TESTS) {
                throw new FieldRefusal("testsPerKit", "web.number-out-of-range", tests, 1, MOST_TESTS);
            }
        });
        return new StockItemDetails(
                kind,
                name,
                size,
                stated.lengthMm(),
                stated.finenessUm(),
                stated.unit(),
                inRange("unitMassKg", stated.unitMassKg(), HEAVIEST_UNIT_KG),
                stated.testsPerKit());
    }

    private static void ofSock(
            String field, StockItemDetails stated, Optional<Integer> measure, int lowest, int highest) {
        measure.ifPresent(number -> {
            if (stated.kind() != StockKind.SOCK) {
                throw new FieldRefusal(field, "stock.measure-only-for-socks", number);
            }
            if (number < lowest || number > highest) {
                throw new FieldRefusal(field, "web.number-out-of-range", number, lowest, highest);
            }
        });
    }

    private static BigDecimal counted(String field, String unit, BigDecimal onHand) {
        BigDecimal plain = inRange(field, onHand, MOST_ON_HAND);
        if (unit.equals("count") && plain.stripTrailingZeros().scale() > 0) {
            throw new FieldRefusal(field, "web.number-not-whole", plain.toPlainString());
        }
        return plain;
    }

    private static BigDecimal inRange(String field, BigDecimal number, BigDecimal highest) {
        if (number.signum() < 0 || number.compareTo(highest) > 0) {
            throw new FieldRefusal(field, "web.number-out-of-range", number.toPlainString(), 0, highest);
        }
        return number;
    }
}
