package app.tankround.socks;

import app.tankround.accounts.ChangeLog;
import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.PersonId;
import app.tankround.persistence.RecordLock;
import app.tankround.stock.Catalogue;
import app.tankround.stock.MovementReason;
import app.tankround.stock.MovementSource;
import app.tankround.stock.NewStockMovement;
import app.tankround.stock.StockAccount;
import app.tankround.stock.StockAccountKind;
import app.tankround.stock.StockBalance;
import app.tankround.stock.StockItemId;
import app.tankround.stock.StockItemView;
import app.tankround.stock.StockKind;
import app.tankround.stock.StockLedger;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import app.tankround.web.TextInput;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Timestamp;
import java.sql.Types;
import java.time.Clock;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * Loads of socks: dirty ones into the machine, out of it, dry, and back on the shelf. What came out of sick systems goes
 * into a load of its own and is never mixed. What was done already is not done again.
 */
@Service
public class SockWashes {

    static final int LONGEST_REASON = 500;

    private final StockLedger ledger;
    private final Catalogue catalogue;
    private final SockWashingSettings settings;
    private final SockCycles cycles;
    private final SockTags tags;
    private final CurrentPerson currentPerson;
    private final ChangeLog changes;
    private final RecordLock lock;
    private final JdbcClient jdbc;
    private final Clock clock;

    SockWashes(
            StockLedger ledger,
            Catalogue catalogue,
            SockWashingSettings settings,
            SockCycles cycles,
            SockTags tags,
            CurrentPerson currentPerson,
            ChangeLog changes,
            RecordLock lock,
            JdbcClient jdbc,
            Clock clock) {
        this.ledger = ledger;
        this.catalogue = catalogue;
        this.settings = settings;
        this.cycles = cycles;
        this.tags = tags;
        this.currentPerson = currentPerson;
        this.changes = changes;
        this.lock = lock;
        this.jdbc = jdbc;
        this.clock = clock;
    }

    /** Loads that are in the machine or drying, the oldest first. */
    @Transactional(readOnly = true)
    public List<SockWash> open() {
        return jdbc
                .sql(
                        "select id, apart, started_at, washed_at from sock_wash where dry_at is null order by started_at, id")
                .query((row, number) -> wash(row))
                .list()
                .stream()
                .map(wash ->
                        new SockWash(wash.id(), wash.apart(), wash.startedAt(), wash.washedAt(), lines(account(wash))))
                .toList();
    }

    /** How many of each item wait for the machine, at the depot and in vans; items by size. */
    @Transactional(readOnly = true)
    public List<SockWash.Line> waiting(boolean apart) {
        Map<StockItemId, Integer> dirty =
                ledger.balancesOf(apart ? StockAccountKind.DIRTY_APART : StockAccountKind.DIRTY).stream()
                        .filter(balance -> balance.amount().signum() > 0)
                        .collect(Collectors.toMap(
                                StockBalance::item, balance -> balance.amount().intValueExact(), Integer::sum));
        return dirty.isEmpty()
                ? List.of()
                : catalogue.all().stream()
                        .filter(item -> item.kind() == StockKind.SOCK && dirty.containsKey(item.id()))
                        .sorted(SockCycles.BY_SIZE)
                        .map(item -> new SockWash.Line(item, dirty.getOrDefault(item.id(), 0)))
                        .toList();
    }

    /**
     * Puts dirty socks into the machine, those at the depot first and then those out of the vans.
     *
     * @throws FieldRefusal at {@code counts[id]} for a number below 0 or more than are dirty; at {@code counts} for none at all, or
     *     for more than the machine takes; at {@code tags} for one that nobody knows, that is of something else, or in another load
     * @throws NotFound for an item that there is none of
     */
    @Transactional
    public void start(NewWash wash) {
        lock.hold("sock-wash any");
        if (find(wash.id()).isPresent()) {
            return;
        }
        int all = 0;
        List<NewStockMovement> movements = new ArrayList<>();
        StockAccount machine = StockAccount.of(StockAccountKind.IN_WASH, wash.id());
        for (Map.Entry<StockItemId, Integer> entry : sorted(wash.counts())) {
            List<StockBalance> dirty = dirty(entry.getKey(), wash.apart());
            int wanted = entry.getValue();
            if (wanted < 0 || wanted > count(dirty)) {
                throw new FieldRefusal(
                        "counts[" + entry.getKey() + "]", "web.number-out-of-range", wanted, 0, count(dirty));
            }
            all += wanted;
            BigDecimal open = BigDecimal.valueOf(wanted);
            for (StockBalance there : dirty) {
                BigDecimal part = open.min(there.amount());
                if (part.signum() > 0) {
                    movements.add(NewStockMovement.of(
                                    id(wash.id() + ":in:" + entry.getKey() + ":"
                                            + there.account().code()),
                                    entry.getKey(),
                                    part,
                                    there.account(),
                                    machine,
                                    MovementReason.WASH)
                            .becauseOf(source(wash.id())));
                    open = open.subtract(part);
                }
            }
        }
        int most = settings.current().socksInLoad();
        if (all == 0) {
            throw new FieldRefusal("counts", "socks.wash.none");
        }
        if (all > most) {
            throw new FieldRefusal("counts", "socks.wash.too-many", all, most);
        }
        List<SockTag> tagged = tags.require(wash.tags());
        wash.counts().forEach((item, count) -> requireAmong(tagged, item, count));
        requireOf(tagged, wash.counts().keySet());
        jdbc.sql("""
                        insert into sock_wash (id, apart, started_at, started_by) values (:id, :apart, :now, :person)
                        """)
                .param("id", wash.id())
                .param("apart", wash.apart())
                .param("now", clock.instant().atOffset(ZoneOffset.UTC))
                .param("person", currentPerson.id().map(PersonId::value).orElse(null), Types.OTHER)
                .update();
        tags.putInto(wash.id(), tagged);
        ledger.take(movements);
        changes.record("sock-wash", wash.id(), "started", Map.of("count", all, "apart", wash.apart()));
    }

    /**
     * The load is out of the machine and hangs to dry.
     *
     * @param disinfected whether somebody says so; of a load that is washed apart somebody has to
     * @throws FieldRefusal at {@code disinfected} where nobody says so
     * @throws NotFound if there is none
     */
    @Transactional
    public void washed(UUID id, boolean disinfected) {
        lock.hold("sock-wash " + id);
        SockWash wash = require(id);
        if (!wash.inMachine()) {
            return;
        }
        if (wash.apart() && !disinfected) {
            throw new FieldRefusal("disinfected", "socks.wash.not-disinfected");
        }
        List<SockWash.Line> lines = lines(account(wash));
        Map<StockItemId, Integer> tagged = tags.washed(id);
        lines.forEach(line -> cycles.washed(
                line.item().id(),
                Math.max(0, line.count() - tagged.getOrDefault(line.item().id(), 0))));
        move(wash, "out", lines, StockAccount.of(StockAccountKind.DRYING, id), MovementReason.WASH);
        step(id, "washed");
    }

    /**
     * The load is dry and on the shelf.
     *
     * @throws FieldRefusal at {@code id} while it is in the machine
     * @throws NotFound if there is none
     */
    @Transactional
    public void dry(UUID id) {
        lock.hold("sock-wash " + id);
        SockWash wash = require(id);
        if (isDry(id)) {
            return;
        }
        if (wash.inMachine()) {
            throw new FieldRefusal("id", "socks.wash.still-in-machine");
        }
        move(wash, "dry", lines(account(wash)), StockAccount.depot(), MovementReason.TRANSFER);
        step(id, "dry");
    }

    /**
     * Takes socks out of use: retired ones are those that carry the tags, and of the others those that were washed most often.
     *
     * @throws FieldRefusal at {@code count} for none, or more than are there; at {@code tags} for one that nobody knows, that is
     *     of something else, or one too many; at {@code why} without a reason; at {@code to} for
     *     anything but retired, broken or lost
     * @throws NotFound for an item that there is none of
     */
    @Transactional
    public void takeOut(SocksTakenOut out) {
        String why = TextInput.required("why", out.why(), LONGEST_REASON);
        MovementReason reason = switch (out.to()) {
            case RETIRED -> MovementReason.RETIREMENT;
            case BROKEN -> MovementReason.BREAKAGE;
            case LOST -> MovementReason.LOSS;
            default -> throw new FieldRefusal("to", "socks.out.to");
        };
        lock.hold("sock-out " + out.id());
        MovementSource source = new MovementSource("socks-out", out.id().toString());
        if (!ledger.ofSource(source).isEmpty()) {
            return;
        }
        if (!out.from().kind().isPlace()) {
            throw new FieldRefusal("from", "stock.choice-missing");
        }
        StockItemView item = catalogue.require(out.item());
        int there = ledger.balance(item.id(), out.from()).max(BigDecimal.ZERO).intValueExact();
        if (out.count() < 1 || out.count() > there) {
            throw new FieldRefusal(
                    "count", there == 0 ? "socks.out.none" : "web.number-out-of-range", out.count(), 1, there);
        }
        List<SockTag> tagged = tags.require(out.tags());
        requireAmong(tagged, item.id(), out.count());
        requireOf(tagged, Set.of(item.id()));
        if (out.to() == StockAccountKind.RETIRED) {
            cycles.retired(item.id(), out.count() - tagged.size());
        }
        tags.takeOut(tagged);
        ledger.take(NewStockMovement.of(
                        out.id(),
                        item.id(),
                        BigDecimal.valueOf(out.count()),
                        out.from(),
                        StockAccount.of(out.to()),
                        reason)
                .saying(why)
                .becauseOf(source));
    }

    private static void requireAmong(List<SockTag> tagged, StockItemId item, int count) {
        long carrying = tagged.stream().filter(tag -> tag.item().equals(item)).count();
        if (carrying > count) {
            throw new FieldRefusal("tags", "socks.tag.more-than-socks", carrying, count);
        }
    }

    private static void requireOf(List<SockTag> tagged, Set<StockItemId> items) {
        tagged.stream().filter(tag -> !items.contains(tag.item())).findFirst().ifPresent(tag -> {
            throw new FieldRefusal("tags", "socks.tag.of-other", tag.tag());
        });
    }

    private void move(SockWash wash, String step, List<SockWash.Line> lines, StockAccount to, MovementReason reason) {
        ledger.take(lines.stream()
                .map(line -> NewStockMovement.of(
                                id(wash.id() + ":" + step + ":" + line.item().id()),
                                line.item().id(),
                                BigDecimal.valueOf(line.count()),
                                account(wash),
                                to,
                                reason)
                        .becauseOf(source(wash.id())))
                .toList());
    }

    private void step(UUID id, String step) {
        jdbc.sql("update sock_wash set " + step + "_at = :now, " + step + "_by = :person where id = :id")
                .param("now", clock.instant().atOffset(ZoneOffset.UTC))
                .param("person", currentPerson.id().map(PersonId::value).orElse(null), Types.OTHER)
                .param("id", id)
                .update();
        changes.record("sock-wash", id, step, Map.of());
    }

    private static MovementSource source(UUID wash) {
        return new MovementSource("wash", wash.toString());
    }

    private static StockAccount account(SockWash wash) {
        return StockAccount.of(wash.inMachine() ? StockAccountKind.IN_WASH : StockAccountKind.DRYING, wash.id());
    }

    private List<SockWash.Line> lines(StockAccount account) {
        return ledger.balancesAt(account).stream()
                .map(balance -> new SockWash.Line(
                        catalogue.require(balance.item()), balance.amount().intValueExact()))
                .sorted(Comparator.comparing(SockWash.Line::item, SockCycles.BY_SIZE))
                .toList();
    }

    /** At the depot first, then in vans and elsewhere. */
    private List<StockBalance> dirty(StockItemId item, boolean apart) {
        StockAccountKind kind = apart ? StockAccountKind.DIRTY_APART : StockAccountKind.DIRTY;
        return ledger.balances(item).stream()
                .filter(balance ->
                        balance.account().kind() == kind && balance.amount().signum() > 0)
                .sorted(Comparator.comparing(
                        balance -> balance.account().place().isPresent()))
                .toList();
    }

    private static int count(List<StockBalance> balances) {
        return balances.stream()
                .map(StockBalance::amount)
                .reduce(BigDecimal.ZERO, BigDecimal::add)
                .intValueExact();
    }

    private static List<Map.Entry<StockItemId, Integer>> sorted(Map<StockItemId, Integer> counts) {
        return counts.entrySet().stream()
                .sorted(Comparator.comparing(entry -> entry.getKey().toString()))
                .toList();
    }

    private SockWash require(UUID id) {
        return find(id).orElseThrow(() -> new NotFound("sock-wash", id));
    }

    private Optional<SockWash> find(UUID id) {
        return jdbc.sql("select id, apart, started_at, washed_at from sock_wash where id = :id")
                .param("id", id)
                .query((row, number) -> wash(row))
                .optional();
    }

    private boolean isDry(UUID id) {
        return jdbc.sql("select dry_at is not null from sock_wash where id = :id")
                .param("id", id)
                .query(Boolean.class)
                .single();
    }

    private static SockWash wash(ResultSet row) throws SQLException {
        return new SockWash(
                row.getObject("id", UUID.class),
                row.getBoolean("apart"),
                row.getTimestamp("started_at").toInstant(),
                Optional.ofNullable(row.getTimestamp("washed_at")).map(Timestamp::toInstant),
                List.of());
    }

    private static UUID id(String text) {
        return UUID.nameUUIDFromBytes(("wash:" + text).getBytes(StandardCharsets.UTF_8));
    }
}
