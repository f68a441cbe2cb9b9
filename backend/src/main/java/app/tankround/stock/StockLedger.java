package app.tankround.stock;

import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.Days;
import app.tankround.accounts.PersonId;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import app.tankround.web.TextInput;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Types;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.namedparam.MapSqlParameterSource;
import org.springframework.jdbc.core.namedparam.NamedParameterJdbcTemplate;
import org.springframework.jdbc.core.namedparam.SqlParameterSource;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * Where everything is, and where it went. Each movement gives to one account what it takes from another, so that the sum
 * over all accounts of an item is always 0. A booked movement never changes; it is taken back by another one.
 *
 * <p>Whoever moves several items in one transaction hands them over in one call: their rows are held in the order of
 * their ids, so that two people at once wait for each other and never for ever.
 */
@Service
@Transactional
public class StockLedger {

    static final BigDecimal MOST_AT_ONCE = new BigDecimal("1000000");
    static final int MOST_DECIMALS = 6;
    static final int LONGEST_NOTE = 500;

    private static final UUID NONE = new UUID(0, 0);
    private static final String VIEWS = """
            select m.*, p.name as person_name
            from stock_movement m
            left join person p on p.id = m.person_id
            """;

    private final JdbcClient jdbc;
    private final NamedParameterJdbcTemplate template;
    private final CurrentPerson currentPerson;
    private final Days days;
    private final Clock clock;

    StockLedger(
            JdbcClient jdbc, NamedParameterJdbcTemplate template, CurrentPerson currentPerson, Days days, Clock clock) {
        this.jdbc = jdbc;
        this.template = template;
        this.currentPerson = currentPerson;
        this.days = days;
        this.clock = clock;
    }

    /** Books one movement; see {@link #post(List)}. */
    public void post(NewStockMovement movement) {
        post(List.of(movement));
    }

    /**
     * Books movements in their order, all of them or none. What is booked already under its id is left out.
     *
     * @throws FieldRefusal at {@code amount} for an amount that is not above 0 or too large, for parts of a piece, and
     *     where less is on an account than is taken and the movement may not run ahead; at {@code lot} for a lot of
     *     something else; at {@code id} where another movement has that id
     * @throws NotFound for an item that there is none of
     */
    public void post(List<NewStockMovement> movements) {
        Map<StockItemId, Held> items =
                hold(movements.stream().map(NewStockMovement::item).toList());
        Map<StockMovementId, StockMovementView> booked = booked(movements);
        Map<StockMovementId, NewStockMovement> fresh = new LinkedHashMap<>();
        for (NewStockMovement movement : movements) {
            requireSound(movement, items);
            boolean known = Optional.ofNullable(booked.get(movement.id()))
                    .map(stored -> says(stored, movement))
                    .orElseGet(() -> movement.equals(fresh.get(movement.id())));
            if (!known && (booked.containsKey(movement.id()) || fresh.containsKey(movement.id()))) {
                throw new FieldRefusal("id", "stock.ledger.id-reused", movement.id());
            }
            if (!known) {
                fresh.put(movement.id(), movement);
            }
        }
        if (!fresh.isEmpty()) {
            write(List.copyOf(fresh.values()), items);
        }
    }

    /** Takes an amount from a place; see {@link #take(List)}. */
    public List<NewStockMovement> take(NewStockMovement taken) {
        return take(List.of(taken));
    }

    /**
     * Takes amounts from places one after the other, all of them or none: each from the lot that expires first; what has no
     * expiry comes after what has one, and what has no lot comes last. What has expired is never taken so: whoever wants it
     * names its lot.
     *
     * @param taken of each the id becomes that of its first movement, its others follow from it; where it names a lot, that is
     *     taken
     * @return the movements, one for each lot; none for what was taken already
     * @throws FieldRefusal as when posting; at {@code amount} with what is there that has not expired
     */
    public List<NewStockMovement> take(List<NewStockMovement> taken) {
        return take(taken, movement -> days.of(movement.at().orElseGet(clock::instant)));
    }

    /**
     * As {@link #take(List)}, but only of what is still good on a day, such as that of the round for which a van is loaded the
     * evening before.
     */
    public List<NewStockMovement> take(List<NewStockMovement> taken, LocalDate goodOn) {
        return take(taken, movement -> goodOn);
    }

    /** What {@link #take(List, LocalDate)} would book, for each of those that are asked for; nothing is booked or held. */
    @Transactional(readOnly = true)
    public List<List<NewStockMovement>> wouldTake(List<NewStockMovement> taken, LocalDate goodOn) {
        return split(taken, Map.of(), movement -> goodOn);
    }

    /** As {@link #take(NewStockMovement)}, but also of lots that have expired: what a count does not find may be of any. */
    void takeOfAny(NewStockMovement taken) {
        take(List.of(taken), movement -> LocalDate.EPOCH);
    }

    private List<NewStockMovement> take(List<NewStockMovement> taken, Function<NewStockMovement, LocalDate> day) {
        Map<StockItemId, Held> items =
                hold(taken.stream().map(NewStockMovement::item).toList());
        taken.forEach(movement -> requireSound(movement, items));
        Set<StockMovementId> booked = booked(taken).keySet();
        List<NewStockMovement> fresh = taken.stream()
                .filter(movement -> !booked.contains(movement.id()))
                .toList();
        List<NewStockMovement> parts =
                split(fresh, items, day).stream().flatMap(List::stream).toList();
        if (!parts.isEmpty()) {
            post(parts);
        }
        return parts;
    }

    /** Each movement by lots, knowing what those before it left. */
    private List<List<NewStockMovement>> split(
            List<NewStockMovement> taken, Map<StockItemId, Held> items, Function<NewStockMovement, LocalDate> day) {
        Map<StockLotId, KnownLot> lots =
                lots(taken.stream().map(NewStockMovement::item).distinct().toList());
        Map<Shelf, Map<Optional<StockLotId>, BigDecimal>> shelves = shelves(taken);
        List<List<NewStockMovement>> split = new ArrayList<>();
        for (NewStockMovement movement : taken) {
            Map<Optional<StockLotId>, BigDecimal> from =
                    shelves.computeIfAbsent(Shelf.from(movement), none -> new HashMap<>());
            Map<Optional<StockLotId>, BigDecimal> to =
                    shelves.computeIfAbsent(Shelf.to(movement), none -> new HashMap<>());
            List<NewStockMovement> parts = parts(movement, items, from, lots, day.apply(movement));
            for (NewStockMovement part : parts) {
                from.merge(part.lot(), part.amount().negate(), BigDecimal::add);
                to.merge(part.lot(), part.amount(), BigDecimal::add);
            }
            split.add(parts);
        }
        return split;
    }

    /** @param opened whether some of it was used already */
    private record KnownLot(StockLotView lot, boolean opened) {}

    /** What is taken, one part for each lot; {@code there} is what is at its place. */
    private List<NewStockMovement> parts(
            NewStockMovement taken,
            Map<StockItemId, Held> items,
            Map<Optional<StockLotId>, BigDecimal> there,
            Map<StockLotId, KnownLot> lots,
            LocalDate day) {
        if (taken.lot().isPresent()) {
            return List.of(taken);
        }
        List<NewStockMovement> parts = new ArrayList<>();
        BigDecimal open = taken.amount();
        for (Optional<StockLotId> lot : firstToExpireFirst(there, lots, day)) {
            if (open.signum() > 0) {
                BigDecimal part = open.min(Objects.requireNonNull(there.get(lot)));
                parts.add(part(taken, parts.size(), part, lot));
                open = open.subtract(part);
            }
        }
        if (open.signum() > 0) {
            if (!taken.mayRunAhead()) {
                throw notEnough(taken, items, taken.amount().subtract(open));
            }
            parts.add(part(taken, parts.size(), open, Optional.empty()));
        }
        return parts;
    }

    /** One item at one place. */
    private record Shelf(StockItemId item, StockAccount account) {

        static Shelf from(NewStockMovement movement) {
            return new Shelf(movement.item(), movement.from());
        }

        static Shelf to(NewStockMovement movement) {
            return new Shelf(movement.item(), movement.to());
        }
    }

    /** What lies by its lot where something is taken. */
    private Map<Shelf, Map<Optional<StockLotId>, BigDecimal>> shelves(List<NewStockMovement> taken) {
        Map<Shelf, Map<Optional<StockLotId>, BigDecimal>> shelves = new HashMap<>();
        List<Shelf> from = taken.stream().map(Shelf::from).distinct().toList();
        jdbc.sql("""
                        select b.*
                        from stock_balance b
                        join unnest(cast(:items as uuid[]), cast(:accounts as text[]), cast(:places as uuid[]))
                            as k (item_id, account, place)
                            on b.item_id = k.item_id and b.account = k.account
                            and coalesce(b.place, '00000000-0000-0000-0000-000000000000'::uuid) = k.place
                        where b.amount <> 0
                        """)
                .param("items", from.stream().map(shelf -> shelf.item().value()).toArray(UUID[]::new))
                .param(
                        "accounts",
                        from.stream()
                                .map(shelf -> shelf.account().kind().name())
                                .toArray(String[]::new))
                .param(
                        "places",
                        from.stream()
                                .map(shelf -> shelf.account().place().orElse(NONE))
                                .toArray(UUID[]::new))
                .query(row -> {
                    StockBalance balance = balance(row);
                    shelves.computeIfAbsent(new Shelf(balance.item(), balance.account()), none -> new HashMap<>())
                            .put(balance.lot(), balance.amount());
                });
        return shelves;
    }

    private Map<StockLotId, KnownLot> lots(Collection<StockItemId> items) {
        return jdbc
                .sql("""
                        select l.*, exists (
                            select 1 from stock_movement m where m.lot_id = l.id and m.to_account = 'USED') as opened
                        from stock_lot l
                        where l.item_id = any(cast(:items as uuid[]))
                        """)
                .param("items", items.stream().map(StockItemId::value).toArray(UUID[]::new))
                .query((row, number) -> new KnownLot(Lots.view(row), row.getBoolean("opened")))
                .stream()
                .collect(Collectors.toMap(known -> known.lot().id(), Function.identity()));
    }

    /**
     * The lots of which there is something that has not expired on a day, in the order in which they are to be used: first to
     * expire first, and of those that are good equally long the opened one.
     */
    private static List<Optional<StockLotId>> firstToExpireFirst(
            Map<Optional<StockLotId>, BigDecimal> there, Map<StockLotId, KnownLot> lots, LocalDate day) {
        return there.entrySet().stream()
                .filter(each -> each.getValue().signum() > 0)
                .map(Map.Entry::getKey)
                .filter(lot -> lot.map(lots::get)
                        .filter(known -> known.lot().expiredOn(day))
                        .isEmpty())
                .sorted(Comparator.comparing((Optional<StockLotId> lot) -> lot.isEmpty())
                        .thenComparing(lot -> lot.map(lots::get)
                                .flatMap(known -> known.lot().expiresOn())
                                .orElse(LocalDate.MAX))
                        .thenComparing(lot ->
                                lot.map(lots::get).filter(KnownLot::opened).isEmpty())
                        .thenComparing(lot -> lot.map(lots::get)
                                .map(known -> known.lot().receivedOn())
                                .orElse(LocalDate.MAX))
                        .thenComparing(Optional::toString))
                .toList();
    }

    /**
     * Takes a booked movement back by one the other way round, from where its things are now said to be.
     *
     * @param under the id of the new movement
     * @throws NotFound if there is none
     * @throws FieldRefusal if what was moved is no longer there, or it was taken back already
     */
    public void takeBack(StockMovementId id, StockMovementId under, String why) {
        StockMovementView stored = jdbc.sql(VIEWS + " where m.id = :id")
                .param("id", id.value())
                .query((row, number) -> view(row))
                .optional()
                .orElseThrow(() -> new NotFound("stock-movement", id));
        hold(List.of(stored.item()));
        MovementSource source = new MovementSource("movement", id.toString());
        Optional<StockMovementView> earlier = ofSource(source).stream().findFirst();
        if (earlier.isPresent()) {
            if (!earlier.get().id().equals(under)) {
                throw new FieldRefusal("id", "stock.ledger.taken-back-already", id);
            }
            return;
        }
        post(new NewStockMovement(
                under,
                stored.item(),
                stored.lot(),
                stored.amount(),
                stored.to(),
                stored.from(),
                MovementReason.CORRECTION,
                Optional.of(why),
                Optional.of(source),
                Optional.empty(),
                false));
    }

    /** How much of an item is on an account, of whatever lot. */
    @Transactional(readOnly = true)
    public BigDecimal balance(StockItemId item, StockAccount account) {
        return jdbc.sql("""
                        select coalesce(sum(amount), 0) from stock_balance
                        where item_id = :item and account = :account and place is not distinct from :place
                        """)
                .param("item", item.value())
                .param("account", account.kind().name())
                .param("place", account.place().orElse(null), Types.OTHER)
                .query(BigDecimal.class)
                .single();
    }

    /** All accounts of an item on which there is or was something, those at zero left out. */
    @Transactional(readOnly = true)
    public List<StockBalance> balances(StockItemId item) {
        return jdbc.sql("""
                        select * from stock_balance
                        where item_id = :item and amount <> 0
                        order by account, place, lot_id
                        """)
                .param("item", item.value())
                .query((row, number) -> balance(row))
                .list();
    }

    /** What is on an account, of every item; those at zero left out. */
    @Transactional(readOnly = true)
    public List<StockBalance> balancesAt(StockAccount account) {
        return jdbc.sql("""
                        select * from stock_balance
                        where account = :account and place is not distinct from :place and amount <> 0
                        order by item_id, lot_id
                        """)
                .param("account", account.kind().name())
                .param("place", account.place().orElse(null), Types.OTHER)
                .query((row, number) -> balance(row))
                .list();
    }

    /** All accounts of a kind, such as everything in any van; those at zero left out. */
    @Transactional(readOnly = true)
    public List<StockBalance> balancesOf(StockAccountKind kind) {
        return jdbc.sql("""
                        select * from stock_balance where account = :account and amount <> 0 order by item_id, place, lot_id
                        """)
                .param("account", kind.name())
                .query((row, number) -> balance(row))
                .list();
    }

    /** Places at which less than nothing is booked: something was taken there before it was booked in. */
    @Transactional(readOnly = true)
    public List<StockBalance> runningAhead() {
        return jdbc
                .sql("select * from stock_balance where amount < 0 order by item_id, account, place, lot_id")
                .query((row, number) -> balance(row))
                .list()
                .stream()
                .filter(balance -> !balance.account().kind().mayBeBelowZero())
                .toList();
    }

    /** The newest movements of an item, newest first. */
    @Transactional(readOnly = true)
    public List<StockMovementView> movements(StockItemId item, int limit) {
        return jdbc.sql(VIEWS + " where m.item_id = :item order by m.sequence desc limit :limit")
                .param("item", item.value())
                .param("limit", limit)
                .query((row, number) -> view(row))
                .list();
    }

    /** What came out of an item's places since {@code since}, into systems, to sites and elsewhere, newest first. */
    @Transactional(readOnly = true)
    List<StockMovementView> into(StockItemId item, Instant since) {
        return jdbc.sql(VIEWS + """
                         where m.item_id = :item and m.moved_at >= :since and m.to_place is not null
                        order by m.moved_at desc, m.sequence desc
                        """)
                .param("item", item.value())
                .param("since", since.atOffset(ZoneOffset.UTC))
                .query((row, number) -> view(row))
                .list();
    }

    @Transactional(readOnly = true)
    boolean isBooked(StockMovementId id) {
        return jdbc.sql("select exists (select 1 from stock_movement where id = :id)")
                .param("id", id.value())
                .query(Boolean.class)
                .single();
    }

    /** What was booked for one thing, such as a load sheet, in the order of booking. */
    @Transactional(readOnly = true)
    public List<StockMovementView> ofSource(MovementSource source) {
        return jdbc.sql(VIEWS + " where m.source_kind = :kind and m.source_id = :id order by m.sequence")
                .param("kind", source.kind())
                .param("id", source.id())
                .query((row, number) -> view(row))
                .list();
    }

    /**
     * Holds items until the running transaction ends, so that nobody else moves any of them meanwhile.
     *
     * @throws NotFound for one that there is none of
     */
    void holdItems(Collection<StockItemId> items) {
        hold(items);
    }

    private static NewStockMovement part(
            NewStockMovement whole, int number, BigDecimal amount, Optional<StockLotId> lot) {
        StockMovementId id = number == 0
                ? whole.id()
                : StockMovementId.of(
                        UUID.nameUUIDFromBytes((whole.id() + " part " + number).getBytes(StandardCharsets.UTF_8)));
        return new NewStockMovement(
                id,
                whole.item(),
                lot,
                amount,
                whole.from(),
                whole.to(),
                whole.reason(),
                whole.note(),
                whole.source(),
                whole.at(),
                whole.mayRunAhead());
    }

    /** What the ledger needs to know of an item. */
    private record Held(String name, String unit) {}

    private Map<StockItemId, Held> hold(Collection<StockItemId> items) {
        Map<StockItemId, Held> held = new HashMap<>();
        jdbc.sql("""
                        select id, name, unit from stock_item
                        where id = any(cast(:ids as uuid[]))
                        order by id
                        for no key update
                        """)
                .param("ids", items.stream().map(StockItemId::value).distinct().toArray(UUID[]::new))
                .query(row -> {
                    held.put(
                            StockItemId.of(row.getObject("id", UUID.class)),
                            new Held(row.getString("name"), row.getString("unit")));
                });
        items.stream().filter(item -> !held.containsKey(item)).findFirst().ifPresent(item -> {
            throw new NotFound("stock-item", item);
        });
        return held;
    }

    private Map<StockMovementId, StockMovementView> booked(List<NewStockMovement> movements) {
        Map<StockMovementId, StockMovementView> booked = new HashMap<>();
        jdbc.sql(VIEWS + " where m.id = any(cast(:ids as uuid[]))")
                .param(
                        "ids",
                        movements.stream()
                                .map(movement -> movement.id().value())
                                .toArray(UUID[]::new))
                .query(row -> {
                    StockMovementView view = view(row);
                    booked.put(view.id(), view);
                });
        return booked;
    }

    private static boolean says(StockMovementView stored, NewStockMovement movement) {
        return stored.item().equals(movement.item())
                && stored.lot().equals(movement.lot())
                && stored.amount().compareTo(movement.amount()) == 0
                && stored.from().equals(movement.from())
                && stored.to().equals(movement.to())
                && stored.reason() == movement.reason();
    }

    private static void requireSound(NewStockMovement movement, Map<StockItemId, Held> items) {
        BigDecimal amount = movement.amount();
        if (amount.signum() <= 0 || amount.compareTo(MOST_AT_ONCE) > 0) {
            throw new FieldRefusal("amount", "stock.batch.above-zero", amount.toPlainString(), MOST_AT_ONCE);
        }
        int decimals = amount.stripTrailingZeros().scale();
        boolean pieces = heldOf(items, movement).unit().equals("count");
        if (pieces && decimals > 0) {
            throw new FieldRefusal("amount", "web.number-not-whole", amount.toPlainString());
        }
        if (decimals > MOST_DECIMALS) {
            throw new FieldRefusal("amount", "stock.ledger.too-fine", amount.toPlainString(), MOST_DECIMALS);
        }
        if (movement.from().equals(movement.to())) {
            throw new FieldRefusal("to", "stock.ledger.nowhere");
        }
        movement.note().ifPresent(note -> TextInput.lines("note", note, LONGEST_NOTE));
    }

    private static Held heldOf(Map<StockItemId, Held> items, NewStockMovement movement) {
        return Optional.ofNullable(items.get(movement.item())).orElseThrow();
    }

    private FieldRefusal notEnough(NewStockMovement movement, Map<StockItemId, Held> items, BigDecimal there) {
        Held item = heldOf(items, movement);
        return new FieldRefusal(
                "amount",
                "stock.ledger.not-enough",
                movement.amount().toPlainString(),
                there.toPlainString(),
                item.name());
    }

    /** One balance: what a movement changes two of. */
    private record Key(StockItemId item, Optional<StockLotId> lot, StockAccount account) {

        static Key from(NewStockMovement movement) {
            return new Key(movement.item(), movement.lot(), movement.from());
        }

        static Key to(NewStockMovement movement) {
            return new Key(movement.item(), movement.lot(), movement.to());
        }
    }

    private void write(List<NewStockMovement> movements, Map<StockItemId, Held> items) {
        requireLots(movements);
        Map<Key, BigDecimal> before = balances(movements);
        Map<Key, BigDecimal> changes = new LinkedHashMap<>();
        List<SqlParameterSource> rows = new ArrayList<>();
        for (NewStockMovement movement : movements) {
            Key from = Key.from(movement);
            BigDecimal there =
                    before.getOrDefault(from, BigDecimal.ZERO).add(changes.getOrDefault(from, BigDecimal.ZERO));
            boolean ahead = there.compareTo(movement.amount()) < 0
                    && !movement.from().kind().mayBeBelowZero();
            boolean placed = movement.from().kind().isPlace();
            if (ahead && !(placed && movement.mayRunAhead())) {
                throw notEnough(movement, items, there.max(BigDecimal.ZERO));
            }
            changes.merge(from, movement.amount().negate(), BigDecimal::add);
            changes.merge(Key.to(movement), movement.amount(), BigDecimal::add);
            rows.add(row(movement, ahead));
        }
        template.batchUpdate("""
                insert into stock_movement (
                    id, item_id, lot_id, amount, from_account, from_place, to_account, to_place, reason, note, source_kind,
                    source_id, runs_ahead, moved_at, recorded_at, person_id)
                values (
                    :id, :item, :lot, :amount, :from, :fromPlace, :to, :toPlace, :reason, :note, :sourceKind, :source, :ahead,
                    :at, :now, :person)
                """, rows.toArray(SqlParameterSource[]::new));
        template.batchUpdate(
                """
                insert into stock_balance (item_id, lot_id, account, place, amount)
                values (:item, :lot, :account, :place, :amount)
                on conflict (
                    item_id,
                    account,
                    coalesce(place, '00000000-0000-0000-0000-000000000000'::uuid),
                    coalesce(lot_id, '00000000-0000-0000-0000-000000000000'::uuid))
                do update set amount = stock_balance.amount + excluded.amount
                """,
                changes.entrySet().stream()
                        .map(change -> balance(change.getKey(), change.getValue()))
                        .toArray(SqlParameterSource[]::new));
    }

    private void requireLots(List<NewStockMovement> movements) {
        for (NewStockMovement movement : movements) {
            movement.lot().ifPresent(lot -> {
                boolean known = jdbc.sql("select exists (select 1 from stock_lot where id = :lot and item_id = :item)")
                        .param("lot", lot.value())
                        .param("item", movement.item().value())
                        .query(Boolean.class)
                        .single();
                if (!known) {
                    throw new FieldRefusal("lot", "stock.lot.of-other", lot);
                }
            });
        }
    }

    private SqlParameterSource row(NewStockMovement movement, boolean ahead) {
        Instant now = clock.instant();
        return new MapSqlParameterSource()
                .addValue("id", movement.id().value())
                .addValue("item", movement.item().value())
                .addValue("lot", movement.lot().map(StockLotId::value).orElse(null), Types.OTHER)
                .addValue("amount", movement.amount())
                .addValue("from", movement.from().kind().name())
                .addValue("fromPlace", movement.from().place().orElse(null), Types.OTHER)
                .addValue("to", movement.to().kind().name())
                .addValue("toPlace", movement.to().place().orElse(null), Types.OTHER)
                .addValue("reason", movement.reason().name())
                .addValue("note", movement.note().orElse(null), Types.VARCHAR)
                .addValue(
                        "sourceKind",
                        movement.source().map(MovementSource::kind).orElse(null),
                        Types.VARCHAR)
                .addValue("source", movement.source().map(MovementSource::id).orElse(null), Types.VARCHAR)
                .addValue("ahead", ahead)
                .addValue("at", movement.at().orElse(now).atOffset(ZoneOffset.UTC))
                .addValue("now", now.atOffset(ZoneOffset.UTC))
                .addValue("person", currentPerson.id().map(PersonId::value).orElse(null), Types.OTHER);
    }

    private static SqlParameterSource balance(Key key, BigDecimal change) {
        return new MapSqlParameterSource()
                .addValue("item", key.item().value())
                .addValue("lot", key.lot().map(StockLotId::value).orElse(null), Types.OTHER)
                .addValue("account", key.account().kind().name())
                .addValue("place", key.account().place().orElse(null), Types.OTHER)
                .addValue("amount", change);
    }

    /** What is on the accounts from which something is taken. */
    private Map<Key, BigDecimal> balances(List<NewStockMovement> movements) {
        List<Key> keys = movements.stream().map(Key::from).distinct().toList();
        Map<Key, BigDecimal> balances = new HashMap<>();
        jdbc.sql("""
                        select b.*
                        from stock_balance b
                        join unnest(
                            cast(:items as uuid[]), cast(:lots as uuid[]), cast(:accounts as text[]), cast(:places as uuid[]))
                            as k (item_id, lot_id, account, place)
                            on b.item_id = k.item_id and b.account = k.account
                            and coalesce(b.place, '00000000-0000-0000-0000-000000000000'::uuid) = k.place
                            and coalesce(b.lot_id, '00000000-0000-0000-0000-000000000000'::uuid) = k.lot_id
                        """)
                .param("items", keys.stream().map(key -> key.item().value()).toArray(UUID[]::new))
                .param(
                        "lots",
                        keys.stream()
                                .map(key -> key.lot().map(StockLotId::value).orElse(NONE))
                                .toArray(UUID[]::new))
                .param(
                        "accounts",
                        keys.stream().map(key -> key.account().kind().name()).toArray(String[]::new))
                .param(
                        "places",
                        keys.stream()
                                .map(key -> key.account().place().orElse(NONE))
                                .toArray(UUID[]::new))
                .query(row -> {
                    StockBalance balance = balance(row);
                    balances.put(new Key(balance.item(), balance.lot(), balance.account()), balance.amount());
                });
        return balances;
    }

    private static StockBalance balance(ResultSet row) throws SQLException {
        return new StockBalance(
                StockItemId.of(row.getObject("item_id", UUID.class)),
                lot(row),
                account(row, "account", "place"),
                row.getBigDecimal("amount"));
    }

    private static StockMovementView view(ResultSet row) throws SQLException {
        @Nullable String sourceKind = row.getString("source_kind");
        return new StockMovementView(
                StockMovementId.of(row.getObject("id", UUID.class)),
                StockItemId.of(row.getObject("item_id", UUID.class)),
                lot(row),
                row.getBigDecimal("amount"),
                account(row, "from_account", "from_place"),
                account(row, "to_account", "to_place"),
                MovementReason.valueOf(row.getString("reason")),
                Optional.ofNullable(row.getString("note")),
                sourceKind == null
                        ? Optional.empty()
                        : Optional.of(new MovementSource(sourceKind, row.getString("source_id"))),
                row.getBoolean("runs_ahead"),
                row.getTimestamp("moved_at").toInstant(),
                Optional.ofNullable(row.getString("person_name")));
    }

    private static Optional<StockLotId> lot(ResultSet row) throws SQLException {
        return Optional.ofNullable(row.getObject("lot_id", UUID.class)).map(StockLotId::of);
    }

    private static StockAccount account(ResultSet row, String kind, String place) throws SQLException {
        return new StockAccount(
                StockAccountKind.valueOf(row.getString(kind)), Optional.ofNullable(row.getObject(place, UUID.class)));
    }
}
