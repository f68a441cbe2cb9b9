package app.tankround.stock;

import app.tankround.accounts.ChangeLog;
import app.tankround.persistence.RecordLock;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import app.tankround.web.StaleVersion;
import app.tankround.web.TextInput;
import java.math.BigDecimal;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Types;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Who things are bought from, and how each is bought. */
@Service
@Transactional
public class Suppliers {

    static final int LONGEST_NAME = 120;
    static final int LONGEST_CODE = 60;
    static final int MOST_DAYS = 365;
    static final double LEAST_SERVICE = 0.5;
    static final double MOST_SERVICE = 0.9999;
    static final BigDecimal MOST_IN_A_PACK = new BigDecimal("100000");

    private final JdbcClient jdbc;
    private final StockLedger ledger;
    private final RecordLock lock;
    private final ChangeLog changes;

    Suppliers(JdbcClient jdbc, StockLedger ledger, RecordLock lock, ChangeLog changes) {
        this.jdbc = jdbc;
        this.ledger = ledger;
        this.lock = lock;
        this.changes = changes;
    }

    @Transactional(readOnly = true)
    public List<SupplierView> all() {
        return jdbc.sql("select * from supplier order by lower(name)")
                .query((row, number) -> view(row))
                .list();
    }

    @Transactional(readOnly = true)
    public Optional<SupplierView> find(SupplierId id) {
        return jdbc.sql("select * from supplier where id = :id")
                .param("id", id.value())
                .query((row, number) -> view(row))
                .optional();
    }

    /** @throws NotFound if there is none */
    @Transactional(readOnly = true)
    public SupplierView require(SupplierId id) {
        return find(id).orElseThrow(() -> new NotFound("supplier", id));
    }

    /**
     * Adds or changes a supplier; the same again changes nothing.
     *
     * @param stated with the version that it was shown in, 0 for a new one
     * @throws FieldRefusal for a name that is missing or taken, and for days outside their range
     * @throws StaleVersion if somebody else changed it since
     */
    public void save(SupplierView stated) {
        SupplierView accepted = accepted(stated);
        lock.hold("supplier name");
        Optional<SupplierView> stored = find(stated.id());
        if (stored.filter(known -> says(known, accepted)).isPresent()) {
            return;
        }
        int version = stored.map(SupplierView::version).orElse(0);
        if (version != stated.version()) {
            throw new StaleVersion("/stock/suppliers/" + stated.id(), stored.orElse(null), stated);
        }
        all().stream()
                .filter(other -> !other.id().equals(stated.id()) && other.name().equalsIgnoreCase(accepted.name()))
                .findFirst()
                .ifPresent(other -> {
                    throw new FieldRefusal("name", "stock.name-taken", accepted.name());
                });
        jdbc.sql("""
                        insert into supplier (
                            id, name, email, phone, customer_number, lead_days, lead_sd_days, order_every_days, version)
                        values (:id, :name, :email, :phone, :customer, :lead, :sd, :every, 1)
                        on conflict (id) do update set name = excluded.name, email = excluded.email, phone = excluded.phone,
                            customer_number = excluded.customer_number, lead_days = excluded.lead_days,
                            lead_sd_days = excluded.lead_sd_days, order_every_days = excluded.order_every_days,
                            version = supplier.version + 1
                        """)
                .param("id", accepted.id().value())
                .param("name", accepted.name())
                .param("email", accepted.email().orElse(null), Types.VARCHAR)
                .param("phone", accepted.phone().orElse(null), Types.VARCHAR)
                .param("customer", accepted.customerNumber().orElse(null), Types.VARCHAR)
                .param("lead", accepted.leadDays())
                .param("sd", accepted.leadSdDays())
                .param("every", accepted.orderEveryDays())
                .update();
        changes.record(
                "supplier", accepted.id(), stored.isPresent() ? "changed" : "added", Map.of("name", accepted.name()));
    }

    /** How every item is bought of which that is known. */
    @Transactional(readOnly = true)
    public List<StockSupply> supplies() {
        return jdbc.sql("select * from stock_supply order by item_id")
                .query((row, number) -> supply(row))
                .list();
    }

    @Transactional(readOnly = true)
    public Optional<StockSupply> supply(StockItemId item) {
        return jdbc.sql("select * from stock_supply where item_id = :item")
                .param("item", item.value())
                .query((row, number) -> supply(row))
                .optional();
    }

    /**
     * States how an item is bought; the same again changes nothing.
     *
     * @throws FieldRefusal for a value outside its range
     * @throws NotFound if there is no such item or supplier
     * @throws StaleVersion if somebody else changed it since
     */
    public void save(StockSupply stated) {
        ledger.holdItems(List.of(stated.item()));
        require(stated.supplier());
        StockSupply accepted = accepted(stated);
        Optional<StockSupply> stored = supply(stated.item());
        if (stored.filter(known -> says(known, accepted)).isPresent()) {
            return;
        }
        if (stored.map(StockSupply::version).orElse(0) != stated.version()) {
            throw new StaleVersion("/stock/" + stated.item() + "/supply", stored.orElse(null), stated);
        }
        jdbc.sql("""
                        insert into stock_supply (
                            item_id, supplier_id, supplier_code, pack_name, pack_amount, pack_price, service_level,
                            weekly_use, version)
                        values (:item, :supplier, :code, :pack, :amount, :price, :level, :weekly, 1)
                        on conflict (item_id) do update set supplier_id = excluded.supplier_id,
                            supplier_code = excluded.supplier_code, pack_name = excluded.pack_name,
                            pack_amount = excluded.pack_amount, pack_price = excluded.pack_price,
                            service_level = excluded.service_level, weekly_use = excluded.weekly_use,
                            version = stock_supply.version + 1
                        """)
                .param("item", accepted.item().value())
                .param("supplier", accepted.supplier().value())
                .param("code", accepted.supplierCode().orElse(null), Types.VARCHAR)
                .param("pack", accepted.packName())
                .param("amount", accepted.packAmount())
                .param("price", accepted.packPrice().orElse(null), Types.NUMERIC)
                .param("level", accepted.serviceLevel())
                .param("weekly", accepted.weeklyUse().orElse(null), Types.NUMERIC)
                .update();
        changes.record("stock-item", accepted.item(), "supply", Map.of("pack", accepted.packName()));
    }

    private static SupplierView accepted(SupplierView stated) {
        String name = TextInput.required("name", stated.name(), LONGEST_NAME);
        days("leadDays", stated.leadDays(), 0);
        days("leadSdDays", stated.leadSdDays(), 0);
        days("orderEveryDays", stated.orderEveryDays(), 1);
        return new SupplierView(
                stated.id(),
                name,
                text("email", stated.email(), LONGEST_NAME),
                text("phone", stated.phone(), LONGEST_CODE),
                text("customerNumber", stated.customerNumber(), LONGEST_CODE),
                stated.leadDays(),
                stated.leadSdDays(),
                stated.orderEveryDays(),
                stated.version());
    }

    private static StockSupply accepted(StockSupply stated) {
        BigDecimal pack = stated.packAmount();
        if (pack.signum() <= 0 || pack.compareTo(MOST_IN_A_PACK) > 0) {
            throw new FieldRefusal("packAmount", "stock.batch.above-zero", pack.toPlainString(), MOST_IN_A_PACK);
        }
        stated.packPrice().ifPresent(price -> range("packPrice", price, Receiving.HIGHEST_PRICE));
        stated.weeklyUse().ifPresent(use -> range("weeklyUse", use, StockLedger.MOST_AT_ONCE));
        double level = stated.serviceLevel();
        if (!(level >= LEAST_SERVICE && level <= MOST_SERVICE)) {
            throw new FieldRefusal(
                    "serviceLevel",
                    "web.number-out-of-range",
                    BigDecimal.valueOf(level)
                            .movePointRight(2)
                            .stripTrailingZeros()
                            .toPlainString(),
                    "50",
                    "99.99");
        }
        return new StockSupply(
                stated.item(),
                stated.supplier(),
                text("supplierCode", stated.supplierCode(), LONGEST_CODE),
                TextInput.required("packName", stated.packName(), LONGEST_CODE),
                pack,
                stated.packPrice(),
                level,
                stated.weeklyUse(),
                stated.version());
    }

    private static void range(String field, BigDecimal number, BigDecimal highest) {
        if (number.signum() < 0 || number.compareTo(highest) > 0) {
            throw new FieldRefusal(field, "web.number-out-of-range", number.toPlainString(), 0, highest);
        }
    }

    private static void days(String field, double days, int least) {
        if (!(days >= least && days <= MOST_DAYS)) {
            throw new FieldRefusal(
                    field,
                    "web.number-out-of-range",
                    BigDecimal.valueOf(days).stripTrailingZeros().toPlainString(),
                    least,
                    MOST_DAYS);
        }
    }

    private static Optional<String> text(String field, Optional<String> text, int longest) {
        return Optional.ofNullable(TextInput.optional(field, text.orElse(null), longest));
    }

    private static boolean says(SupplierView stored, SupplierView stated) {
        return new SupplierView(
                        stored.id(),
                        stated.name(),
                        stated.email(),
                        stated.phone(),
                        stated.customerNumber(),
                        stated.leadDays(),
                        stated.leadSdDays(),
                        stated.orderEveryDays(),
                        stored.version())
                .equals(stored);
    }

    private static boolean says(StockSupply stored, StockSupply stated) {
        return stored.supplier().equals(stated.supplier())
                && stored.supplierCode().equals(stated.supplierCode())
                && stored.packName().equals(stated.packName())
                && stored.packAmount().compareTo(stated.packAmount()) == 0
                && same(stored.packPrice(), stated.packPrice())
                && stored.serviceLevel() == stated.serviceLevel()
                && same(stored.weeklyUse(), stated.weeklyUse());
    }

    private static boolean same(Optional<BigDecimal> one, Optional<BigDecimal> other) {
        return one.isPresent() == other.isPresent()
                && one.flatMap(value -> other.filter(it -> it.compareTo(value) != 0))
                        .isEmpty();
    }

    private static SupplierView view(ResultSet row) throws SQLException {
        return new SupplierView(
                SupplierId.of(row.getObject("id", UUID.class)),
                row.getString("name"),
                Optional.ofNullable(row.getString("email")),
                Optional.ofNullable(row.getString("phone")),
                Optional.ofNullable(row.getString("customer_number")),
                row.getDouble("lead_days"),
                row.getDouble("lead_sd_days"),
                row.getInt("order_every_days"),
                row.getInt("version"));
    }

    private static StockSupply supply(ResultSet row) throws SQLException {
        return new StockSupply(
                StockItemId.of(row.getObject("item_id", UUID.class)),
                SupplierId.of(row.getObject("supplier_id", UUID.class)),
                Optional.ofNullable(row.getString("supplier_code")),
                row.getString("pack_name"),
                row.getBigDecimal("pack_amount"),
                Optional.ofNullable(row.getBigDecimal("pack_price")),
                row.getDouble("service_level"),
                Optional.ofNullable(row.getBigDecimal("weekly_use")),
                row.getInt("version"));
    }
}
