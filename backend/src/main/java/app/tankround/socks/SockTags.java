package app.tankround.socks;

import app.tankround.persistence.RecordLock;
import app.tankround.stock.Catalogue;
import app.tankround.stock.StockBalance;
import app.tankround.stock.StockItemId;
import app.tankround.stock.StockLedger;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import app.tankround.web.TextInput;
import java.math.BigDecimal;
import java.time.Clock;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;

/** Socks that carry tags, whose washes are counted exactly. Tags are told apart without regard to capitals. */
@Service
public class SockTags {

    static final int LONGEST_TAG = 60;

    private final Catalogue catalogue;
    private final StockLedger ledger;
    private final RecordLock lock;
    private final JdbcClient jdbc;
    private final Clock clock;

    SockTags(Catalogue catalogue, StockLedger ledger, RecordLock lock, JdbcClient jdbc, Clock clock) {
        this.catalogue = catalogue;
        this.ledger = ledger;
        this.lock = lock;
        this.jdbc = jdbc;
        this.clock = clock;
    }

    /** All that are in use, those washed most often first. */
    @Transactional(readOnly = true)
    public List<SockTag> all() {
        return jdbc.sql("select tag, item_id, washes from sock_tag where out_at is null order by washes desc, tag")
                .query((row, number) -> new SockTag(
                        row.getString("tag"),
                        StockItemId.of(row.getObject("item_id", UUID.class)),
                        row.getInt("washes")))
                .list();
    }

    /**
     * Gives tags to socks of an item. The same ones again change nothing.
     *
     * @param washes how often they were washed until now, 0 to 1000
     * @throws FieldRefusal at {@code tags} for none, one that is too long or on another sock, and for more than there are socks
     *     without; at {@code washes} outside its range
     * @throws NotFound for an item that there is none of
     */
    @Transactional
    public void register(StockItemId item, Collection<String> tags, int washes) {
        lock.hold("sock-tag any");
        catalogue.require(item);
        if (washes < 0 || washes > SockWashing.MOST_WASHES) {
            throw new FieldRefusal("washes", "web.number-out-of-range", washes, 0, SockWashing.MOST_WASHES);
        }
        List<SockTag> known = all();
        List<String> fresh = new ArrayList<>();
        for (String tag : accepted(tags)) {
            boolean here = known.stream()
                    .anyMatch(each -> each.item().equals(item) && each.tag().equalsIgnoreCase(tag));
            if (!here) {
                if (isTaken(tag)) {
                    throw new FieldRefusal("tags", "socks.tag.taken", tag);
                }
                fresh.add(tag);
            }
        }
        long tagged = known.stream().filter(each -> each.item().equals(item)).count();
        int without = (int) Math.max(0, together(item) - tagged);
        if (fresh.size() > without) {
            throw new FieldRefusal("tags", "socks.tag.too-many", fresh.size(), without);
        }
        fresh.forEach(tag -> jdbc.sql("""
                        insert into sock_tag (tag, item_id, washes, registered_at) values (:tag, :item, :washes, :now)
                        """)
                .param("tag", tag)
                .param("item", item.value())
                .param("washes", washes)
                .param("now", clock.instant().atOffset(ZoneOffset.UTC))
                .update());
    }

    /**
     * The socks in use that carry these tags.
     *
     * @throws FieldRefusal at {@code tags} for one that nobody knows, or that is used no more
     */
    List<SockTag> require(Collection<String> tags) {
        Map<String, SockTag> known = all().stream().collect(Collectors.toMap(each -> key(each.tag()), each -> each));
        List<SockTag> found = new ArrayList<>();
        for (String tag : tags.isEmpty() ? List.<String>of() : accepted(tags)) {
            if (!known.containsKey(key(tag))) {
                throw new FieldRefusal("tags", "socks.tag.unknown", tag);
            }
            found.add(known.get(key(tag)));
        }
        return found;
    }

    /**
     * These are in a load.
     *
     * @throws FieldRefusal at {@code tags} for one that is in another load
     */
    @Transactional(propagation = Propagation.MANDATORY)
    public void putInto(UUID wash, List<SockTag> tags) {
        for (SockTag tag : tags) {
            boolean elsewhere =
                    jdbc.sql("""
                            select exists (
                                select 1 from sock_wash_tag t join sock_wash w on w.id = t.wash_id
                                where t.tag = :tag and w.dry_at is null)
                            """).param("tag", tag.tag()).query(Boolean.class).single();
            if (elsewhere) {
                throw new FieldRefusal("tags", "socks.tag.in-load", tag.tag());
            }
            jdbc.sql("insert into sock_wash_tag (wash_id, tag) values (:wash, :tag)")
                    .param("wash", wash)
                    .param("tag", tag.tag())
                    .update();
        }
    }

    /** Those of a load were washed once more; how many of each item. */
    @Transactional(propagation = Propagation.MANDATORY)
    public Map<StockItemId, Integer> washed(UUID wash) {
        return jdbc
                .sql("""
                        update sock_tag set washes = washes + 1
                        where out_at is null and tag in (select tag from sock_wash_tag where wash_id = :wash)
                        returning item_id
                        """)
                .param("wash", wash)
                .query((row, number) -> StockItemId.of(row.getObject("item_id", UUID.class)))
                .list()
                .stream()
                .collect(Collectors.toMap(item -> item, item -> 1, Integer::sum));
    }

    /** These are used no more. */
    @Transactional(propagation = Propagation.MANDATORY)
    public void takeOut(List<SockTag> tags) {
        jdbc.sql("update sock_tag set out_at = :now where tag = any(cast(:tags as text[]))")
                .param("now", clock.instant().atOffset(ZoneOffset.UTC))
                .param("tags", tags.stream().map(SockTag::tag).toArray(String[]::new))
                .update();
    }

    private boolean isTaken(String tag) {
        return jdbc.sql("select exists (select 1 from sock_tag where lower(tag) = lower(:tag))")
                .param("tag", tag)
                .query(Boolean.class)
                .single();
    }

    private int together(StockItemId item) {
        return ledger.balances(item).stream()
                .filter(balance -> balance.account().kind().isPlace())
                .map(StockBalance::amount)
                .reduce(BigDecimal.ZERO, BigDecimal::add)
                .intValueExact();
    }

    private static List<String> accepted(Collection<String> tags) {
        Set<String> seen = new HashSet<>();
        List<String> accepted = tags.stream()
                .filter(tag -> !tag.isBlank())
                .map(tag -> TextInput.required("tags", tag, LONGEST_TAG))
                .filter(tag -> seen.add(key(tag)))
                .toList();
        if (accepted.isEmpty()) {
            throw new FieldRefusal("tags", "socks.tag.none");
        }
        return accepted;
    }

    private static String key(String tag) {
        return tag.strip().toLowerCase(Locale.ROOT);
    }
}
