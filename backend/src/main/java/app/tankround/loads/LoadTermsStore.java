package app.tankround.loads;

import app.tankround.accounts.ChangeLog;
import app.tankround.loads.LoadTerms.Cost;
import app.tankround.loads.LoadTerms.Kind;
import app.tankround.persistence.RecordLock;
import app.tankround.persistence.TransactionMemory;
import app.tankround.persistence.Uuids;
import app.tankround.web.FieldRefusal;
import app.tankround.web.StaleVersion;
import java.math.BigDecimal;
import java.time.Clock;
import java.util.Locale;
import java.util.Map;
import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Keeps how sure loads are. */
@Service
public class LoadTermsStore {

    private final JdbcClient jdbc;
    private final ChangeLog changes;
    private final RecordLock lock;
    private final Clock clock;

    LoadTermsStore(JdbcClient jdbc, ChangeLog changes, RecordLock lock, Clock clock) {
        this.jdbc = jdbc;
        this.changes = changes;
        this.lock = lock;
        this.clock = clock;
    }

    @Transactional(readOnly = true)
    public LoadTerms current() {
        return TransactionMemory.askedOnce(
                this,
                "terms",
                "",
                () -> jdbc.sql("select * from load_terms")
                        .query((row, number) -> new LoadTerms(
                                row.getBoolean("by_use"),
                                Map.of(
                                        Kind.WATER,
                                        new Cost(row.getBigDecimal("water_few"), row.getBigDecimal("water_many")),
                                        Kind.SALT,
                                        new Cost(row.getBigDecimal("salt_few"), row.getBigDecimal("salt_many")),
                                        Kind.SOCKS,
                                        new Cost(row.getBigDecimal("socks_few"), row.getBigDecimal("socks_many")),
                                        Kind.DOSES,
                                        new Cost(row.getBigDecimal("doses_few"), row.getBigDecimal("doses_many"))),
                                row.getBigDecimal("safety_percent"),
                                row.getInt("version")))
                        .optional()
                        .orElseGet(LoadTerms::usual));
    }

    /**
     * Chooses how sure loads are from now on.
     *
     * @param asked with the version that was shown
     * @throws FieldRefusal at {@code waterFew}, {@code waterMany} and so on, or {@code safetyPercent}, out of its range
     * @throws StaleVersion if somebody else chose meanwhile
     */
    @Transactional
    public void choose(LoadTerms asked) {
        lock.hold("load terms");
        asked.costs().forEach((kind, cost) -> {
            String name = kind.name().toLowerCase(Locale.ROOT);
            inRange(name + "Few", cost.few(), LoadTerms.LEAST_COST, LoadTerms.MOST_COST);
            inRange(name + "Many", cost.many(), LoadTerms.LEAST_COST, LoadTerms.MOST_COST);
        });
        inRange("safetyPercent", asked.safetyPercent(), LoadTerms.LEAST_PERCENT, LoadTerms.MOST_PERCENT);
        LoadTerms before = current();
        if (before.version() != asked.version()) {
            throw new StaleVersion("/loads/terms", before, asked);
        }
        if (before.equals(asked)) {
            return;
        }
        UUID id = jdbc.sql("""
                        insert into load_terms (id, only_one, by_use, water_few, water_many, salt_few, salt_many, socks_few,
                            socks_many, doses_few, doses_many, safety_percent, version)
                        values (:id, true, :use, :waterFew, :waterMany, :saltFew, :saltMany, :socksFew, :socksMany, :dosesFew,
                            :dosesMany, :safety, 1)
                        on conflict (only_one) do update
                        set by_use = excluded.by_use, water_few = excluded.water_few, water_many = excluded.water_many,
                            salt_few = excluded.salt_few, salt_many = excluded.salt_many, socks_few = excluded.socks_few,
                            socks_many = excluded.socks_many, doses_few = excluded.doses_few,
                            doses_many = excluded.doses_many, safety_percent = excluded.safety_percent,
                            version = load_terms.version + 1
                        returning id
                        """)
                .param("id", Uuids.next(clock.instant()))
                .param("use", asked.byUse())
                .param("waterFew", asked.cost(Kind.WATER).few())
                .param("waterMany", asked.cost(Kind.WATER).many())
                .param("saltFew", asked.cost(Kind.SALT).few())
                .param("saltMany", asked.cost(Kind.SALT).many())
                .param("socksFew", asked.cost(Kind.SOCKS).few())
                .param("socksMany", asked.cost(Kind.SOCKS).many())
                .param("dosesFew", asked.cost(Kind.DOSES).few())
                .param("dosesMany", asked.cost(Kind.DOSES).many())
                .param("safety", asked.safetyPercent())
                .query(UUID.class)
                .single();
        changes.record("load-terms", id, "changed", Map.of("byUse", asked.byUse()));
    }

    private static void inRange(String field, BigDecimal number, BigDecimal low, BigDecimal high) {
        if (number.compareTo(low) < 0 || number.compareTo(high) > 0) {
            throw new FieldRefusal(field, "web.number-out-of-range", number.toPlainString(), low, high);
        }
    }
}
