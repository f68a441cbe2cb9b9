package app.tankround.socks;

import app.tankround.persistence.RecordLock;
import app.tankround.stock.StockBalance;
import app.tankround.stock.StockItemId;
import app.tankround.stock.StockItemView;
import app.tankround.stock.StockLedger;
import java.math.BigDecimal;
import java.time.Clock;
import java.time.Duration;
import java.time.ZoneOffset;
import java.util.Comparator;
import java.util.TreeMap;
import java.util.function.UnaryOperator;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;

/**
 * How often the socks of each item were washed, kept together with what the ledger says: what has come in since was never
 * washed, what has gone without being retired was of whatever age.
 */
@Component
class SockCycles {

    static final Comparator<StockItemView> BY_SIZE = Comparator.comparing(
                    (StockItemView item) -> item.sockSize().orElseThrow())
            .thenComparing(StockItemView::title);

    /** A quarter of a year tells how many are washed in a week. */
    private static final int WEEKS_BACK = 13;

    private static final int DAYS_PER_WEEK = 7;

    private final JdbcClient jdbc;
    private final JdbcTemplate template;
    private final StockLedger ledger;
    private final RecordLock lock;
    private final Clock clock;

    SockCycles(JdbcClient jdbc, JdbcTemplate template, StockLedger ledger, RecordLock lock, Clock clock) {
        this.jdbc = jdbc;
        this.template = template;
        this.ledger = ledger;
        this.lock = lock;
        this.clock = clock;
    }

    /**
     * As it is now, with all that came and went since something was washed: those that carry a tag exactly, the others as a
     * pool.
     *
     * @param together how many the ledger has at all places
     */
    SockAges now(StockItemId item, int together) {
        SockAges tagged = tagged(item);
        return untagged(item, together - tagged.total()).and(tagged);
    }

    private SockAges untagged(StockItemId item, int count) {
        SockAges ages = stored(item);
        int more = Math.max(0, count) - ages.total();
        return more < 0 ? ages.without(-more) : ages.withNew(more);
    }

    private SockAges tagged(StockItemId item) {
        TreeMap<Integer, Integer> counts = new TreeMap<>();
        jdbc.sql("""
                        select washes, count(*) as count from sock_tag
                        where item_id = :item and out_at is null
                        group by washes
                        """).param("item", item.value()).query(row -> {
            counts.put(row.getInt("washes"), row.getInt("count"));
        });
        return new SockAges(counts);
    }

    /** So many of those without a tag were washed. */
    void washed(StockItemId item, int count) {
        change(item, ages -> ages.washed(Math.min(count, ages.total())));
    }

    /** So many of those without a tag are to be retired now, before that is booked. */
    void retired(StockItemId item, int count) {
        change(item, ages -> ages.withoutOldest(Math.min(count, ages.total())));
    }

    private void change(StockItemId item, UnaryOperator<SockAges> how) {
        lock.hold("sock-age " + item);
        SockAges after = how.apply(untagged(item, together(item) - tagged(item).total()));
        jdbc.sql("delete from sock_age where item_id = :item")
                .param("item", item.value())
                .update();
        template.batchUpdate(
                "insert into sock_age (item_id, washes, count) values (?, ?, ?)",
                after.counts().entrySet().stream()
                        .map(age -> new Object[] {item.value(), age.getKey(), age.getValue()})
                        .toList());
    }

    private SockAges stored(StockItemId item) {
        TreeMap<Integer, Integer> counts = new TreeMap<>();
        jdbc.sql("select washes, count from sock_age where item_id = :item")
                .param("item", item.value())
                .query(row -> {
                    counts.put(row.getInt("washes"), row.getInt("count"));
                });
        return new SockAges(counts);
    }

    private int together(StockItemId item) {
        return ledger.balances(item).stream()
                .filter(balance -> balance.account().kind().isPlace())
                .map(StockBalance::amount)
                .reduce(BigDecimal.ZERO, BigDecimal::add)
                .intValueExact();
    }

    /** How many of an item were washed in a week, on average over the weeks since the first time, rounded up. */
    int washedAWeek(StockItemId item) {
        Duration back = Duration.ofDays((long) WEEKS_BACK * DAYS_PER_WEEK);
        return jdbc.sql("""
                        select ceil(coalesce(sum(amount), 0) * :week / greatest(:week,
                            extract(epoch from :now - min(moved_at)))) as a_week
                        from stock_movement
                        where item_id = :item and to_account = 'DRYING' and from_account = 'IN_WASH' and moved_at >= :since
                        """)
                .param("week", Duration.ofDays(DAYS_PER_WEEK).toSeconds())
                .param("now", clock.instant().atOffset(ZoneOffset.UTC))
                .param("since", clock.instant().minus(back).atOffset(ZoneOffset.UTC))
                .param("item", item.value())
                .query((row, number) -> row.getInt("a_week"))
                .single();
    }
}
