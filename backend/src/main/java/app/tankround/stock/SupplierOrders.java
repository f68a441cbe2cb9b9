package app.tankround.stock;

import app.tankround.accounts.ChangeLog;
import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.Days;
import app.tankround.accounts.PersonId;
import app.tankround.persistence.RecordLock;
import app.tankround.persistence.Uuids;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import app.tankround.web.TextInput;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.nio.charset.StandardCharsets;
import java.sql.Types;
import java.time.Clock;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.UUID;
import java.util.stream.DoubleStream;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** What is to be ordered, what was, and what came of it. */
@Service
@Transactional
public class SupplierOrders {

    private static final String[] OURS = Arrays.stream(StockAccountKind.values())
            .filter(StockAccountKind::isOurs)
            .map(StockAccountKind::name)
            .toArray(String[]::new);

    static final int MOST_PACKS = 10_000;

    /** Whole weeks that are looked back at, and the fewest that tell a mean and its variation. Common practice, no source. */
    private static final int WEEKS = 13;

    private static final int FEWEST_WEEKS = 4;
    private static final int DAYS = 7;

    private final JdbcClient jdbc;
    private final Catalogue catalogue;
    private final Suppliers suppliers;
    private final StockLedger ledger;
    private final Receiving receiving;
    private final RecordLock lock;
    private final ChangeLog changes;
    private final CurrentPerson currentPerson;
    private final Days days;
    private final Clock clock;

    SupplierOrders(
            JdbcClient jdbc,
            Catalogue catalogue,
            Suppliers suppliers,
            StockLedger ledger,
            Receiving receiving,
            RecordLock lock,
            ChangeLog changes,
            CurrentPerson currentPerson,
            Days days,
            Clock clock) {
        this.jdbc = jdbc;
        this.catalogue = catalogue;
        this.suppliers = suppliers;
        this.ledger = ledger;
        this.receiving = receiving;
        this.lock = lock;
        this.changes = changes;
        this.currentPerson = currentPerson;
        this.days = days;
        this.clock = clock;
    }

    /** For every item that somebody sells: what is available, when to order, and how much now. */
    @Transactional(readOnly = true)
    public List<Reorder> reorders() {
        return suppliers.supplies().stream().map(this::reorder).toList();
    }

    private Reorder reorder(StockSupply supply) {
        StockItemView item = catalogue.require(supply.item());
        SupplierView supplier = suppliers.require(supply.supplier());
        BigDecimal available = ledger.balances(item.id()).stream()
                .filter(balance -> balance.account().kind().isOurs())
                .map(StockBalance::amount)
                .reduce(BigDecimal.ZERO, BigDecimal::add)
                .add(onItsWay(item.id()));
        List<Double> weeks = weeksOfUse(item.id());
        // Of what nobody ever booked a use, the ledger knows nothing: it is not that none goes.
        boolean counted = weeks.size() >= FEWEST_WEEKS && mean(weeks) > 0;
        Optional<Double> weekly =
                counted ? Optional.of(mean(weeks)) : supply.weeklyUse().map(BigDecimal::doubleValue);
        if (weekly.isEmpty()) {
            return new Reorder(item, supply, available, Optional.empty(), false, OptionalInt.empty(), 0);
        }
        double perDay = weekly.get() / DAYS;
        double sdPerDay = (counted ? deviation(weeks) : Math.sqrt(weekly.get())) / Math.sqrt(DAYS);
        double level = supply.serviceLevel();
        double point = ReorderPoint.of(perDay, sdPerDay, supplier.leadDays(), supplier.leadSdDays())
                .units(level);
        double upTo = ReorderPoint.of(
                        perDay, sdPerDay, supplier.leadDays() + supplier.orderEveryDays(), supplier.leadSdDays())
                .units(level);
        double missing = upTo - available.doubleValue();
        boolean due = available.doubleValue() <= point && missing > 0;
        return new Reorder(
                item,
                supply,
                available,
                weekly.map(use -> new BigDecimal(use).round(new MathContext(3, RoundingMode.HALF_EVEN))),
                counted,
                OptionalInt.of((int) Math.ceil(point)),
                due
                        ? (int) Math.min(
                                MOST_PACKS,
                                Math.ceil(missing / supply.packAmount().doubleValue()))
                        : 0);
    }

    /** Units that were ordered and have not come. */
    private BigDecimal onItsWay(StockItemId item) {
        return jdbc.sql("""
                        select coalesce(sum(greatest(0, l.packs - coalesce(d.packs, 0)) * l.pack_amount), 0)
                        from supplier_order_line l
                        left join (
                            select order_line_id, sum(packs) as packs from delivery_line group by order_line_id
                        ) d on d.order_line_id = l.id
                        where l.item_id = :item
                        """).param("item", item.value()).query(BigDecimal.class).single();
    }

    /** What went in each of the last whole weeks, as far back as there is anything in the ledger. */
    private List<Double> weeksOfUse(StockItemId item) {
        return jdbc.sql("""
                        select coalesce(sum(case
                            when m.from_account = any(cast(:ours as text[])) and m.to_account = any(cast(:gone as text[]))
                                then m.amount
                            when m.from_account = any(cast(:gone as text[])) and m.to_account = any(cast(:ours as text[]))
                                then -m.amount
                            end), 0)
                        from generate_series(1, :weeks) as w
                        left join stock_movement m on m.item_id = :item
                            and m.moved_at > :now - w * interval '7 days' and m.moved_at <= :now - (w - 1) * interval '7 days'
                        where :now - w * interval '7 days' >= (
                            select min(moved_at) from stock_movement where item_id = :item)
                        group by w
                        order by w
                        """)
                // What a client keeps is gone when it gets there, and is not ours when it is used.
                .param("ours", OURS)
                .param("gone", new String[] {"USED", "WASTED", "BROKEN", "LOST", "RETIRED", "CLIENT_OWNED"})
                .param("weeks", WEEKS)
                .param("item", item.value())
                .param("now", clock.instant().atOffset(ZoneOffset.UTC))
                .query((row, number) -> row.getDouble(1))
                .list();
    }

    private static double mean(List<Double> weeks) {
        return Math.max(0, values(weeks).average().orElse(0));
    }

    private static double deviation(List<Double> weeks) {
        double mean = mean(weeks);
        double squares =
                values(weeks).map(week -> (week - mean) * (week - mean)).sum();
        return Math.sqrt(squares / (weeks.size() - 1));
    }

    private static DoubleStream values(List<Double> weeks) {
        return weeks.stream().mapToDouble(Double::doubleValue);
    }

    /** Newest first. */
    @Transactional(readOnly = true)
    public List<SupplierOrderView> all(int limit) {
        return jdbc
                .sql("select id from supplier_order order by number desc limit :limit")
                .param("limit", limit)
                .query((row, number) -> SupplierOrderId.of(row.getObject("id", UUID.class)))
                .list()
                .stream()
                .map(this::require)
                .toList();
    }

    /** @throws NotFound if there is none */
    @Transactional(readOnly = true)
    public SupplierOrderView require(SupplierOrderId id) {
        List<SupplierOrderView.Line> lines = jdbc.sql("""
                        select l.*, coalesce((select sum(packs) from delivery_line d where d.order_line_id = l.id), 0) as came
                        from supplier_order_line l
                        where l.order_id = :id
                        order by l.id
                        """)
                .param("id", id.value())
                .query((row, number) -> new SupplierOrderView.Line(
                        row.getObject("id", UUID.class),
                        catalogue.require(StockItemId.of(row.getObject("item_id", UUID.class))),
                        row.getInt("packs"),
                        row.getInt("came"),
                        Optional.ofNullable(row.getString("supplier_code")),
                        row.getString("pack_name"),
                        row.getBigDecimal("pack_amount"),
                        Optional.ofNullable(row.getBigDecimal("pack_price"))))
                .list();
        List<SupplierOrderView.Delivery> deliveries = jdbc.sql(
                        "select note_number, received_on from delivery where order_id = :id order by recorded_at")
                .param("id", id.value())
                .query((row, number) -> new SupplierOrderView.Delivery(
                        row.getString("note_number"), row.getObject("received_on", LocalDate.class)))
                .list();
        return jdbc.sql("select * from supplier_order where id = :id")
                .param("id", id.value())
                .query((row, number) -> new SupplierOrderView(
                        id,
                        row.getInt("number"),
                        suppliers.require(SupplierId.of(row.getObject("supplier_id", UUID.class))),
                        row.getObject("ordered_on", LocalDate.class),
                        Optional.ofNullable(row.getString("note")),
                        lines,
                        deliveries))
                .optional()
                .orElseThrow(() -> new NotFound("supplier-order", id));
    }

    /**
     * Orders from one supplier; the same order again orders nothing.
     *
     * @param packs by item, each 0 to 10,000; items with 0 are left out
     * @throws FieldRefusal at {@code packs} where nothing is left, or a number or an item is none of this supplier's
     * @throws NotFound if there is no such supplier
     */
    public void order(SupplierOrderId id, SupplierId supplier, Map<StockItemId, Integer> packs, Optional<String> note) {
        lock.hold("supplier-order " + id);
        boolean known = jdbc.sql("select exists (select 1 from supplier_order where id = :id)")
                .param("id", id.value())
                .query(Boolean.class)
                .single();
        if (known) {
            return;
        }
        suppliers.require(supplier);
        Optional<String> said =
                Optional.ofNullable(TextInput.lines("note", note.orElse(null), StockLedger.LONGEST_NOTE));
        packs.values().stream()
                .filter(number -> number < 0 || number > MOST_PACKS)
                .findFirst()
                .ifPresent(number -> {
                    throw new FieldRefusal("packs", "web.number-out-of-range", number, 0, MOST_PACKS);
                });
        List<StockSupply> lines = suppliers.supplies().stream()
                .filter(supply -> supply.supplier().equals(supplier) && packs.getOrDefault(supply.item(), 0) > 0)
                .toList();
        if (lines.isEmpty()) {
            throw new FieldRefusal("packs", "stock.order.empty");
        }
        int number = jdbc.sql("select nextval('supplier_order_number')")
                .query(Integer.class)
                .single();
        jdbc.sql("""
                        insert into supplier_order (id, number, supplier_id, ordered_on, note, person_id)
                        values (:id, :number, :supplier, :today, :note, :person)
                        """)
                .param("id", id.value())
                .param("number", number)
                .param("supplier", supplier.value())
                .param("today", days.of(clock.instant()))
                .param("note", said.orElse(null), Types.VARCHAR)
                .param("person", currentPerson.id().map(PersonId::value).orElse(null), Types.OTHER)
                .update();
        for (StockSupply line : lines) {
            jdbc.sql("""
                            insert into supplier_order_line (
                                id, order_id, item_id, packs, supplier_code, pack_name, pack_amount, pack_price)
                            values (:id, :order, :item, :packs, :code, :pack, :amount, :price)
                            """)
                    .param("id", Uuids.next(clock.instant()))
                    .param("order", id.value())
                    .param("item", line.item().value())
                    .param("packs", packs.getOrDefault(line.item(), 0))
                    .param("code", line.supplierCode().orElse(null), Types.VARCHAR)
                    .param("pack", line.packName())
                    .param("amount", line.packAmount())
                    .param("price", line.packPrice().orElse(null), Types.NUMERIC)
                    .update();
        }
        changes.record("supplier-order", id, "added", Map.of("number", number));
    }

    /**
     * Books a delivery in, whole or in part. The same delivery again books nothing.
     *
     * @throws FieldRefusal at {@code noteNumber} where it is missing, or where the supplier's note of that number was booked
     *     already; at {@code lines[i].packs} outside 0 to 10,000; at {@code lines[i].lotNumber} and {@code
     *     lines[i].expiresOn} as in {@link Receiving#receive}; at {@code lines} where nothing came
     * @throws NotFound if there is no such order or line
     */
    public void receive(NewDelivery delivery) {
        SupplierOrderView order = require(delivery.order());
        lock.hold("delivery-of " + order.supplier().id());
        String note = TextInput.required("noteNumber", delivery.noteNumber(), Suppliers.LONGEST_CODE);
        Optional<UUID> booked = jdbc.sql(
                        "select id from delivery where supplier_id = :supplier and lower(note_number) = lower(:note)")
                .param("supplier", order.supplier().id().value())
                .param("note", note)
                .query(UUID.class)
                .optional();
        if (booked.isPresent()) {
            if (!booked.get().equals(delivery.id())) {
                throw new FieldRefusal("noteNumber", "stock.delivery.booked", note);
            }
            return;
        }
        if (delivery.lines().stream().allMatch(line -> line.packs() == 0)) {
            throw new FieldRefusal("lines", "stock.delivery.empty");
        }
        ledger.holdItems(order.lines().stream().map(line -> line.item().id()).toList());
        jdbc.sql("""
                        insert into delivery (id, order_id, supplier_id, note_number, received_on, recorded_at, person_id)
                        values (:id, :order, :supplier, :note, :received, :now, :person)
                        """)
                .param("id", delivery.id())
                .param("order", order.id().value())
                .param("supplier", order.supplier().id().value())
                .param("note", note)
                .param("received", delivery.receivedOn())
                .param("now", clock.instant().atOffset(ZoneOffset.UTC))
                .param("person", currentPerson.id().map(PersonId::value).orElse(null), Types.OTHER)
                .update();
        for (int i = 0; i < delivery.lines().size(); i++) {
            NewDelivery.Line line = delivery.lines().get(i);
            if (line.packs() < 0 || line.packs() > MOST_PACKS) {
                throw new FieldRefusal(
                        "lines[" + i + "].packs", "web.number-out-of-range", line.packs(), 0, MOST_PACKS);
            }
            if (line.packs() > 0) {
                receive(delivery, line, i, of(order, line));
            }
        }
        changes.record("supplier-order", order.id(), "received", Map.of("note", note));
    }

    private static SupplierOrderView.Line of(SupplierOrderView order, NewDelivery.Line line) {
        return order.lines().stream()
                .filter(ordered -> ordered.id().equals(line.orderLine()))
                .findFirst()
                .orElseThrow(() -> new NotFound("supplier-order-line", line.orderLine()));
    }

    private void receive(NewDelivery delivery, NewDelivery.Line line, int index, SupplierOrderView.Line ordered) {
        BigDecimal amount = ordered.packAmount().multiply(BigDecimal.valueOf(line.packs()));
        UUID id = UUID.nameUUIDFromBytes((delivery.id() + " " + ordered.id()).getBytes(StandardCharsets.UTF_8));
        try {
            receiving.receive(new NewReceipt(
                    id,
                    ordered.item().id(),
                    amount,
                    StockAccountKind.BOUGHT,
                    StockAccount.depot(),
                    line.lotNumber(),
                    line.expiresOn(),
                    delivery.receivedOn(),
                    ordered.packPrice().map(price -> price.divide(ordered.packAmount(), MathContext.DECIMAL64)),
                    Optional.of(new MovementSource("delivery", delivery.id().toString()))));
        } catch (FieldRefusal refusal) {
            boolean ofLine = !refusal.field().equals("receivedOn");
            throw new FieldRefusal(
                    ofLine ? "lines[" + index + "]." + refusal.field() : refusal.field(),
                    refusal.code(),
                    new ArrayList<>(refusal.args()).toArray());
        }
        jdbc.sql("insert into delivery_line (delivery_id, order_line_id, packs) values (:delivery, :line, :packs)")
                .param("delivery", delivery.id())
                .param("line", ordered.id())
                .param("packs", line.packs())
                .update();
    }
}
