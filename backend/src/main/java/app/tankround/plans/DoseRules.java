package app.tankround.plans;

import app.tankround.accounts.ChangeLog;
import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.PersonId;
import app.tankround.persistence.RecordLock;
import app.tankround.persistence.TransactionMemory;
import app.tankround.tanks.WaterSystemId;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import app.tankround.web.StaleVersion;
import app.tankround.web.TextInput;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Types;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** What the business knows about the products it gives, and what veterinarians ordered. */
@Service
@Transactional
public class DoseRules {

    private static final int LONGEST_NAME = 200;
    private static final int LONGEST_REASON = 500;
    private static final double LARGEST_DOSE = 100_000;

    private static final String SELECT =
            "select id, product, kind, least_hours, most_per_day, unit, why, version from dose_rule ";

    private final JdbcClient jdbc;
    private final CurrentPerson currentPerson;
    private final RecordLock lock;
    private final ChangeLog changes;

    DoseRules(JdbcClient jdbc, CurrentPerson currentPerson, RecordLock lock, ChangeLog changes) {
        this.jdbc = jdbc;
        this.currentPerson = currentPerson;
        this.lock = lock;
        this.changes = changes;
    }

    /** All of them by product. */
    @Transactional(readOnly = true)
    public List<DoseRuleView> all() {
        return TransactionMemory.askedOnce(
                this,
                "all",
                "",
                () -> jdbc.sql(SELECT + "order by lower(product)")
                        .query(DoseRules::view)
                        .list());
    }

    /** @throws NotFound if there is none */
    @Transactional(readOnly = true)
    public DoseRuleView require(UUID id) {
        return find(id).orElseThrow(() -> new NotFound("dose-rule", id));
    }

    private Optional<DoseRuleView> find(UUID id) {
        return jdbc.sql(SELECT + "where id = :id")
                .param("id", id)
                .query(DoseRules::view)
                .optional();
    }

    /** The one of a product, however its name is typed. */
    @Transactional(readOnly = true)
    public Optional<DoseRuleView> of(String product) {
        return all().stream()
                .filter(rule -> ProductName.same(rule.product(), product))
                .findFirst();
    }

    /** What a product is, by its rule and by what its name gives away. */
    @Transactional(readOnly = true)
    public Optional<DoseKind> kind(String product) {
        return DoseKind.of(product, of(product).map(DoseRuleView::kind));
    }

    /**
     * Adds a rule, or changes the one of that id; the same again changes nothing.
     *
     * @throws FieldRefusal for a missing or taken product, a missing reason, or a number out of range
     * @throws StaleVersion if somebody else changed it meanwhile
     */
    public void save(DoseRuleView rule) {
        String product = product(rule.product());
        String why = text("why", rule.why(), LONGEST_REASON);
        rule.leastHours().filter(hours -> hours < 1 || hours > 8760).ifPresent(hours -> {
            throw new FieldRefusal("leastHours", "web.number-out-of-range", hours, 1, 8760);
        });
        rule.mostPerDay().filter(most -> !(most > 0 && most <= LARGEST_DOSE)).ifPresent(most -> {
            throw new FieldRefusal("mostPerDay", "plans.dose.above-zero", most, LARGEST_DOSE);
        });
        lock.hold("dose-rule " + ProductName.key(product));
        of(product).filter(other -> !other.id().equals(rule.id())).ifPresent(other -> {
            throw new FieldRefusal("product", "plans.dose.product-taken", product);
        });
        Optional<DoseRuleView> stored = find(rule.id());
        if (stored.isPresent()) {
            DoseRuleView same = new DoseRuleView(
                    rule.id(),
                    product,
                    rule.kind(),
                    rule.leastHours(),
                    rule.mostPerDay(),
                    rule.unit(),
                    why,
                    stored.get().version());
            if (stored.get().equals(same)) {
                return;
            }
            if (stored.get().version() != rule.version()) {
                throw new StaleVersion("/dose-rules/" + rule.id(), stored.get(), rule);
            }
        }
        jdbc.sql("""
                        insert into dose_rule (id, product, kind, least_hours, most_per_day, unit, why, person_id, version)
                        values (:id, :product, :kind, :hours, :most, :unit, :why, :person, 1)
                        on conflict (id) do update
                        set product = excluded.product, kind = excluded.kind, least_hours = excluded.least_hours,
                            most_per_day = excluded.most_per_day, unit = excluded.unit, why = excluded.why,
                            person_id = excluded.person_id, version = dose_rule.version + 1
                        """)
                .param("id", rule.id())
                .param("product", product)
                .param("kind", rule.kind().name())
                .param("hours", rule.leastHours().orElse(null), Types.INTEGER)
                .param("most", rule.mostPerDay().orElse(null), Types.DOUBLE)
                .param("unit", rule.unit())
                .param("why", why)
                .param("person", currentPerson.id().map(PersonId::value).orElse(null), Types.OTHER)
                .update();
        changes.record("dose-rule", rule.id(), stored.isPresent() ? "changed" : "added", Map.of("product", product));
    }

    /**
     * Keeps a veterinarian's written order; the same again adds nothing.
     *
     * @return false if it was kept already
     * @throws FieldRefusal for a missing text, a last day before the first, waiting days out of range, or another order that
     *     was kept under this id
     */
    public boolean keep(VeterinaryOrder order) {
        String product = product(order.product());
        String veterinarian = text("veterinarian", order.veterinarian(), LONGEST_NAME);
        if (order.validUntil().isBefore(order.writtenOn())) {
            throw new FieldRefusal(
                    "validUntil",
                    "plans.order.ends-before",
                    order.validUntil().toString(),
                    order.writtenOn().toString());
        }
        if (order.waitingDays() < 0 || order.waitingDays() > 3650) {
            throw new FieldRefusal("waitingDays", "web.number-out-of-range", order.waitingDays(), 0, 3650);
        }
        int added = jdbc.sql("""
                        insert into veterinary_order (
                            id, water_system_id, product, veterinarian, written_on, valid_until, waiting_days, person_id)
                        values (:id, :system, :product, :veterinarian, :written, :until, :days, :person)
                        on conflict (id) do nothing
                        """)
                .param("id", order.id())
                .param("system", order.systemId().value())
                .param("product", product)
                .param("veterinarian", veterinarian)
                .param("written", order.writtenOn())
                .param("until", order.validUntil())
                .param("days", order.waitingDays())
                .param("person", currentPerson.id().map(PersonId::value).orElse(null), Types.OTHER)
                .update();
        if (added == 1) {
            changes.record(
                    "water-system",
                    order.systemId(),
                    "veterinary-order",
                    Map.of("product", product, "veterinarian", veterinarian));
        } else {
            VeterinaryOrder stated = new VeterinaryOrder(
                    order.id(),
                    order.systemId(),
                    product,
                    veterinarian,
                    order.writtenOn(),
                    order.validUntil(),
                    order.waitingDays());
            if (!orders(order.systemId()).contains(stated)) {
                throw new FieldRefusal("", "plans.order.other-kept");
            }
        }
        return added == 1;
    }

    /** The orders for a system, the newest first. */
    @Transactional(readOnly = true)
    public List<VeterinaryOrder> orders(WaterSystemId system) {
        return jdbc.sql("""
                        select id, water_system_id, product, veterinarian, written_on, valid_until, waiting_days
                        from veterinary_order
                        where water_system_id = :system
                        order by written_on desc, id
                        """)
                .param("system", system.value())
                .query((row, number) -> new VeterinaryOrder(
                        row.getObject("id", UUID.class),
                        WaterSystemId.of(row.getObject("water_system_id", UUID.class)),
                        row.getString("product"),
                        row.getString("veterinarian"),
                        row.getObject("written_on", LocalDate.class),
                        row.getObject("valid_until", LocalDate.class),
                        row.getInt("waiting_days")))
                .list();
    }

    /** The order under which a product may be given on a day. */
    @Transactional(readOnly = true)
    public Optional<VeterinaryOrder> inForce(WaterSystemId system, String product, LocalDate day) {
        return orders(system).stream()
                .filter(order -> ProductName.same(order.product(), product))
                .filter(order -> !day.isBefore(order.writtenOn()) && !day.isAfter(order.validUntil()))
                .findFirst();
    }

    private static String product(String typed) {
        String product = text("product", typed, LONGEST_NAME);
        ProductName.requireOneAlphabet(product);
        return product;
    }

    private static String text(String field, String typed, int longest) {
        String text = typed.strip();
        if (text.isEmpty() || text.length() > longest) {
            throw new FieldRefusal(field, "plans.text-length", text.length(), 1, longest);
        }
        return TextInput.required(field, text, longest);
    }

    private static DoseRuleView view(ResultSet row, int number) throws SQLException {
        return new DoseRuleView(
                row.getObject("id", UUID.class),
                row.getString("product"),
                DoseKind.valueOf(row.getString("kind")),
                Optional.ofNullable(row.getObject("least_hours", Integer.class)),
                Optional.ofNullable(row.getObject("most_per_day", Double.class)),
                row.getString("unit"),
                row.getString("why"),
                row.getInt("version"));
    }
}
