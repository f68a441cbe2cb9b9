package app.tankround.plans;

import app.tankround.accounts.ChangeLog;
import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.PersonId;
import app.tankround.persistence.RecordLock;
import app.tankround.persistence.TransactionMemory;
import app.tankround.persistence.Uuids;
import app.tankround.tanks.WaterSystemId;
import app.tankround.units.Quantity;
import app.tankround.web.FieldRefusal;
import app.tankround.web.StaleVersion;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Types;
import java.time.Clock;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** How fast water may change: rows that the business edits, each with who set it and why. */
@Service
@Transactional
public class SafeRates {

    /** The quantities that a plan can be made for, in the order in which they are put right. */
    public static final Set<Quantity> PLANNED = EnumSet.of(
            Quantity.SALINITY,
            Quantity.MAGNESIUM,
            Quantity.ALKALINITY,
            Quantity.CALCIUM,
            Quantity.PH,
            Quantity.TEMPERATURE,
            Quantity.NITRATE,
            Quantity.PHOSPHATE);

    private static final int LONGEST_REASON = 500;

    private static final String SELECT = """
            select r.quantity, r.water_system_id, r.raising_per_day, r.lowering_per_day, r.why, p.name, r.set_at, r.version
            from safe_rate r
            left join person p on p.id = r.person_id
            """;

    private final JdbcClient jdbc;
    private final CurrentPerson currentPerson;
    private final RecordLock lock;
    private final ChangeLog changes;
    private final Clock clock;

    SafeRates(JdbcClient jdbc, CurrentPerson currentPerson, RecordLock lock, ChangeLog changes, Clock clock) {
        this.jdbc = jdbc;
        this.currentPerson = currentPerson;
        this.lock = lock;
        this.changes = changes;
        this.clock = clock;
    }

    /** Largest accepted rate; a slip of the keyboard lies above. In the unit of the quantity for one day. */
    public static double largest(Quantity quantity) {
        return switch (quantity) {
            case SALINITY -> 5;
            case MAGNESIUM -> 200;
            case ALKALINITY, TEMPERATURE -> 3;
            case CALCIUM -> 100;
            case PH -> 1;
            case NITRATE -> 100;
            case PHOSPHATE -> 5;
            default -> throw new IllegalArgumentException("There is no plan for " + quantity);
        };
    }

    /** What holds for all systems that have none of their own, by quantity. */
    @Transactional(readOnly = true)
    public List<SafeRateView> all() {
        return jdbc.sql(SELECT + "where r.water_system_id is null").query(SafeRates::view).list().stream()
                .sorted((one, other) -> one.quantity().compareTo(other.quantity()))
                .toList();
    }

    /** All rates, read once for whoever asks about many systems. */
    @Transactional(readOnly = true)
    public Everywhere everywhere() {
        return TransactionMemory.askedOnce(
                this,
                "everywhere",
                "",
                () -> new Everywhere(jdbc.sql(SELECT).query(SafeRates::view).list()));
    }

    /** All rates, as they stood when they were read. */
    public record Everywhere(List<SafeRateView> rates) {

        public Everywhere {
            rates = List.copyOf(rates);
        }

        /** What holds for a system: its own, or the one for all. */
        public SafeRateView of(WaterSystemId system, Quantity quantity) {
            return rates.stream()
                    .filter(rate -> rate.quantity() == quantity)
                    .filter(rate -> rate.systemId()
                            .filter(other -> !other.equals(system))
                            .isEmpty())
                    .max((one, other) -> Boolean.compare(
                            one.systemId().isPresent(), other.systemId().isPresent()))
                    .orElseThrow();
        }
    }

    /** What holds for a system: its own, or the one for all. */
    @Transactional(readOnly = true)
    public SafeRateView of(WaterSystemId system, Quantity quantity) {
        return everywhere().of(system, quantity);
    }

    /**
     * Sets the rates of a quantity, for one system or for all.
     *
     * @param raising per day, above 0 and up to {@link #largest}; empty for none
     * @param lowering likewise
     * @param why 1 to 500 characters
     * @param version of the row that the person saw; 0 if the system had none of its own
     * @throws FieldRefusal for a rate out of range or a missing reason
     * @throws StaleVersion if somebody else set it meanwhile
     */
    public void set(
            Optional<WaterSystemId> system,
            Quantity quantity,
            Optional<Double> raising,
            Optional<Double> lowering,
            String why,
            int version) {
        within("raising", raising, quantity);
        within("lowering", lowering, quantity);
        String reason = why.strip();
        if (reason.isEmpty() || reason.length() > LONGEST_REASON) {
            throw new FieldRefusal("why", "plans.why-length", reason.length(), 1, LONGEST_REASON);
        }
        lock.hold("safe-rate " + quantity);
        Optional<SafeRateView> stored = stored(system, quantity);
        if (stored.map(SafeRateView::version).orElse(0) != version) {
            throw new StaleVersion(
                    "/plans/rates",
                    stored.map(Record.class::cast).orElseGet(() -> of(system.orElseThrow(), quantity)),
                    new Asked(raising, lowering, reason));
        }
        jdbc.sql("""
                        insert into safe_rate (
                            id, water_system_id, quantity, raising_per_day, lowering_per_day, why, person_id, set_at, version)
                        values (:id, :system, :quantity, :raising, :lowering, :why, :person, :at, 1)
                        on conflict (water_system_id, quantity) do update
                        set raising_per_day = excluded.raising_per_day, lowering_per_day = excluded.lowering_per_day,
                            why = excluded.why, person_id = excluded.person_id, set_at = excluded.set_at,
                            version = safe_rate.version + 1
                        """)
                .param("id", Uuids.next(clock.instant()))
                .param("system", system.map(WaterSystemId::value).orElse(null), Types.OTHER)
                .param("quantity", quantity.name())
                .param("raising", raising.orElse(null), Types.DOUBLE)
                .param("lowering", lowering.orElse(null), Types.DOUBLE)
                .param("why", reason)
                .param("person", currentPerson.id().map(PersonId::value).orElse(null), Types.OTHER)
                .param(
                        "at",
                        currentPerson
                                .id()
                                .map(who -> clock.instant().atOffset(ZoneOffset.UTC))
                                .orElse(null),
                        Types.TIMESTAMP_WITH_TIMEZONE)
                .update();
        changes.record(
                "safe-rate",
                system.map(WaterSystemId::toString).orElse("all"),
                "changed",
                Map.of(
                        "quantity",
                        quantity.name(),
                        "raising",
                        raising.map(String::valueOf).orElse(""),
                        "lowering",
                        lowering.map(String::valueOf).orElse(""),
                        "why",
                        reason));
    }

    private record Asked(Optional<Double> raising, Optional<Double> lowering, String why) {}

    private static void within(String field, Optional<Double> rate, Quantity quantity) {
        double most = largest(quantity);
        rate.filter(value -> !(value > 0 && value <= most)).ifPresent(value -> {
            throw new FieldRefusal(field, "plans.rate-range", value, 0, most);
        });
    }

    private Optional<SafeRateView> stored(Optional<WaterSystemId> system, Quantity quantity) {
        return jdbc.sql(SELECT + "where r.quantity = :quantity and r.water_system_id is not distinct from :system")
                .param("quantity", quantity.name())
                .param("system", system.map(WaterSystemId::value).orElse(null), Types.OTHER)
                .query(SafeRates::view)
                .optional();
    }

    private static SafeRateView view(ResultSet row, int number) throws SQLException {
        @Nullable OffsetDateTime setAt = row.getObject("set_at", OffsetDateTime.class);
        return new SafeRateView(
                Quantity.valueOf(row.getString("quantity")),
                Optional.ofNullable(row.getObject("water_system_id", UUID.class))
                        .map(WaterSystemId::of),
                Optional.ofNullable(row.getObject("raising_per_day", Double.class)),
                Optional.ofNullable(row.getObject("lowering_per_day", Double.class)),
                row.getString("why"),
                Optional.ofNullable(row.getString("name")),
                Optional.ofNullable(setAt).map(OffsetDateTime::toInstant),
                row.getInt("version"));
    }
}
