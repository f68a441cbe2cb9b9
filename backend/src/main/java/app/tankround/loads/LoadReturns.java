package app.tankround.loads;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.ChangeLog;
import app.tankround.accounts.CurrentPerson;
import app.tankround.clients.SiteId;
import app.tankround.persistence.RecordLock;
import app.tankround.rounds.RoundId;
import app.tankround.rounds.RoundService;
import app.tankround.rounds.RoundView;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.PlannedVisitState;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.schedule.TaskKind;
import app.tankround.schedule.TaskUses;
import app.tankround.tanks.WaterSystemId;
import app.tankround.web.FieldRefusal;
import app.tankround.web.StaleVersion;
import app.tankround.web.TextInput;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Timestamp;
import java.sql.Types;
import java.time.Clock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import org.springframework.context.MessageSource;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * What comes back from a round: out of the van and fit for use, left in it, poured away or broken. What went out is what the
 * closed sheet says, what was used is what visits say; where the rest is not what comes back, somebody is asked, and nothing
 * is assumed. What turns up later is told as another return.
 */
@Service
public class LoadReturns {

    /** The most of a thing that is told at once. */
    public static final BigDecimal MOST = new BigDecimal("100000");

    static final int LONGEST_REASON = 300;

    /** Nobody measures what is left in a drum or a bottle finer than that; own choice, no source. */
    private static final BigDecimal PART_NOT_ASKED = new BigDecimal("0.05");

    private static final BigDecimal LITRES_NOT_ASKED = BigDecimal.ONE;
    private static final BigDecimal KILOGRAMS_NOT_ASKED = new BigDecimal("0.1");
    private static final int DECIMALS = 6;

    private final LoadSheets sheets;
    private final LoadClosings closings;
    private final RoundService rounds;
    private final DueVisits dueVisits;
    private final TaskUses uses;
    private final LoadedStock stock;
    private final ReturnedWater returnedWater;
    private final CurrentPerson currentPerson;
    private final BusinessProfile business;
    private final ChangeLog changes;
    private final RecordLock lock;
    private final MessageSource messages;
    private final JdbcClient jdbc;
    private final Clock clock;

    LoadReturns(
            LoadSheets sheets,
            LoadClosings closings,
            RoundService rounds,
            DueVisits dueVisits,
            TaskUses uses,
            LoadedStock stock,
            ReturnedWater returnedWater,
            CurrentPerson currentPerson,
            BusinessProfile business,
            ChangeLog changes,
            RecordLock lock,
            MessageSource messages,
            JdbcClient jdbc,
            Clock clock) {
        this.sheets = sheets;
        this.closings = closings;
        this.rounds = rounds;
        this.dueVisits = dueVisits;
        this.uses = uses;
        this.stock = stock;
        this.returnedWater = returnedWater;
        this.currentPerson = currentPerson;
        this.business = business;
        this.changes = changes;
        this.lock = lock;
        this.messages = messages;
        this.jdbc = jdbc;
        this.clock = clock;
    }

    /**
     * What can come back from a round, and what did.
     *
     * @throws app.tankround.web.NotFound if there is no such round
     */
    @Transactional(readOnly = true)
    public ReturnSheet of(RoundId id) {
        return of(rounds.require(id));
    }

    private ReturnSheet of(RoundView round) {
        List<ReturnSheet.Told> told = told(round.id());
        Optional<LoadClosing> closing = closings.of(round.id());
        if (closing.isEmpty()) {
            return new ReturnSheet(round, false, List.of(), List.of(), told);
        }
        List<PlannedUse> planned = sheets.planned(round);
        List<PlannedVisitView> visits = visits(round);
        Set<WaterSystemId> open = open(visits);
        Map<TaskUses.Thing, Double> parts = uses.partsUsed(
                round.date(), planned.stream().map(use -> use.system().id()).collect(Collectors.toSet()));
        Set<SiteId> finishedAt = finishedAt(visits);
        Map<String, Loaded> loaded = new LinkedHashMap<>();
        for (LoadClosing.Line line : closing.get().lines()) {
            (Refill.siteOf(line.key()).isPresent() ? refilled(line, finishedAt) : loaded(line))
                    .filter(some -> some.amount().signum() > 0)
                    .ifPresent(some -> loaded.merge(pile(line.key(), planned), some, Loaded::and));
        }
        List<ReturnSheet.Thing> things = loaded.entrySet().stream()
                .map(each -> thing(each.getKey(), each.getValue(), planned, open, parts, told))
                .toList();
        List<String> unknown = planned.stream()
                .filter(use -> open.contains(use.system().id()))
                .map(PlannedUse::siteName)
                .distinct()
                .toList();
        return new ReturnSheet(round, true, unknown, things, told);
    }

    private List<PlannedVisitView> visits(RoundView round) {
        return dueVisits.find(round.stops().stream()
                .flatMap(stop -> stop.plannedVisits().stream())
                .toList());
    }

    /** Systems of whose visits not all are finished. */
    private static Set<WaterSystemId> open(List<PlannedVisitView> visits) {
        return visits.stream()
                .filter(visit -> visit.state() != PlannedVisitState.DONE)
                .map(PlannedVisitView::waterSystemId)
                .collect(Collectors.toSet());
    }

    /** Sites where a visit is finished. */
    private static Set<SiteId> finishedAt(List<PlannedVisitView> visits) {
        return visits.stream()
                .filter(visit -> visit.state() == PlannedVisitState.DONE)
                .map(PlannedVisitView::siteId)
                .collect(Collectors.toSet());
    }

    /** What went along empty has its water where somebody was at the site at which it is filled. */
    private static Optional<Loaded> refilled(LoadClosing.Line closed, Set<SiteId> finishedAt) {
        return Refill.siteOf(closed.key())
                .filter(finishedAt::contains)
                .flatMap(site -> closed.litres())
                .map(litres -> new Loaded(LoadText.of("loads.item.ro-di"), LoadUnit.LITRE, litres));
    }

    /** What went out of a thing, or was filled on the way. */
    private record Loaded(LoadText item, LoadUnit unit, BigDecimal amount) {

        Loaded and(Loaded more) {
            return new Loaded(item, unit, amount.add(more.amount));
        }
    }

    /**
     * By its key alone, since a line may be on no sheet any more. Instruments, kits, tools and empty drums are not used up, and
     * have pages of their own.
     */
    private Optional<Loaded> loaded(LoadClosing.Line closed) {
        LineKey key = LineKey.of(closed.key());
        return switch (key.kind()) {
            case LoadRules.SALT_WATER_KEY ->
                closed.litres()
                        .map(litres -> new Loaded(
                                LoadText.of("loads.return.salt-water", new BigDecimal(key.name())),
                                LoadUnit.LITRE,
                                litres));
            case LoadRules.RO_DI_KEY ->
                closed.litres().map(litres -> new Loaded(LoadText.of("loads.item.ro-di"), LoadUnit.LITRE, litres));
            case LoadRules.DRY_SALT_KEY ->
                Optional.of(new Loaded(LoadText.of("loads.return.salt-mix"), LoadUnit.KILOGRAM, closed.loaded()));
            case LoadRules.CONDITIONER_KEY ->
                Optional.of(new Loaded(LoadText.of("loads.return.conditioner"), LoadUnit.MILLILITRE, closed.loaded()));
            case LineKey.SOCK ->
                Optional.of(new Loaded(
                        LoadText.of(
                                "loads.return.socks",
                                key.sockSize().orElseThrow().text()),
                        LoadUnit.PIECE,
                        closed.loaded()));
            case LineKey.MEDIA, LineKey.DOSE ->
                Optional.of(new Loaded(
                        LoadText.of(
                                "loads.item.product", stock.name(closed.key()).orElse(closed.item())),
                        LoadUnit.ofCode(key.unit()),
                        closed.loaded()));
            default -> Optional.empty();
        };
    }

    private ReturnSheet.Thing thing(
            String key,
            Loaded loaded,
            List<PlannedUse> planned,
            Set<WaterSystemId> open,
            Map<TaskUses.Thing, Double> parts,
            List<ReturnSheet.Told> told) {
        List<ReturnSheet.Use> used = planned.stream()
                .filter(use -> use.key().equals(key))
                .flatMap(use -> used(use, parts, open).stream())
                .toList();
        BigDecimal settled = told.stream()
                .flatMap(back -> back.lines().stream())
                .filter(line -> line.key().equals(key))
                .map(line -> line.loaded().subtract(line.used()).subtract(line.settled()))
                .reduce(BigDecimal.ZERO, BigDecimal::add);
        return new ReturnSheet.Thing(
                key,
                loaded.item(),
                loaded.unit(),
                loaded.amount(),
                used.stream().map(ReturnSheet.Use::amount).reduce(BigDecimal.ZERO, BigDecimal::add),
                settled,
                used);
    }

    /** The key of what a line is part of. */
    private static String pile(String line, List<PlannedUse> planned) {
        if (Refill.siteOf(line).isPresent()) {
            return LoadRules.RO_DI_KEY;
        }
        return planned.stream()
                .map(PlannedUse::key)
                .filter(key -> line.equals(key) || line.startsWith(key + ":"))
                .max(Comparator.comparingInt(String::length))
                .orElse(line);
    }

    /** Nothing of a visit that is not finished: until then nobody knows. */
    private static Optional<ReturnSheet.Use> used(
            PlannedUse use, Map<TaskUses.Thing, Double> parts, Set<WaterSystemId> open) {
        TaskKind task = use.task();
        Optional<Double> part =
                Optional.ofNullable(parts.get(new TaskUses.Thing(use.system().id(), task, use.item())));
        if (part.isEmpty() && open.contains(use.system().id())) {
            return Optional.empty();
        }
        BigDecimal amount = use.amount()
                .multiply(BigDecimal.valueOf(part.orElse(1.0)))
                .setScale(DECIMALS, RoundingMode.HALF_EVEN)
                .stripTrailingZeros();
        return Optional.of(
                new ReturnSheet.Use(use.position(), use.siteName(), use.system().name(), amount, part.isEmpty()));
    }

    /** The returns of a round, the oldest first. */
    private List<ReturnSheet.Told> told(RoundId round) {
        return jdbc.sql("""
                        select r.id, r.returned_at, p.name as person
                        from load_return r
                        join person p on p.id = r.person_id
                        where r.round_id = :round
                        order by r.returned_at, r.id
                        """)
                .param("round", round.value())
                .query((row, number) -> {
                    UUID id = row.getObject("id", UUID.class);
                    return new ReturnSheet.Told(
                            id,
                            row.getString("person"),
                            row.getTimestamp("returned_at").toInstant(),
                            lines(id));
                })
                .list();
    }

    private List<ReturnSheet.Line> lines(UUID id) {
        return jdbc.sql("""
                        select l.*, coalesce(v.name, '') as vat
                        from load_return_line l
                        left join water_system v on v.id = l.vat_id
                        where l.return_id = :id
                        order by l.place
                        """).param("id", id).query((row, number) -> line(row)).list();
    }

    private static ReturnSheet.Line line(ResultSet row) throws SQLException {
        String vat = row.getString("vat");
        return new ReturnSheet.Line(
                row.getString("line"),
                row.getString("item"),
                LoadUnit.valueOf(row.getString("unit")),
                row.getBigDecimal("loaded"),
                row.getBigDecimal("used"),
                row.getBigDecimal("settled"),
                row.getBigDecimal("back"),
                row.getBigDecimal("stays"),
                row.getBigDecimal("wasted"),
                row.getBigDecimal("broken"),
                Optional.ofNullable(row.getString("reason")),
                Optional.ofNullable(row.getString("goes")).map(what -> new ReturnSheet.Goes(what, vat)));
    }

    /**
     * Takes down what came back, and books it out of the van. The same return under the same id is taken down once.
     *
     * @param returnId made before the form was shown
     * @param seen how many returns of the round the person saw
     * @param said of each thing of {@link #of(RoundId)}, by its key
     * @throws FieldRefusal at {@code KEY.back} and the like for less than nothing or a part of a piece, at {@code KEY.goes} where
     *     water cannot go where it is said to, at {@code KEY.reason}
     *     where what was said is not what it should be and nobody says why; at {@code said} where the sheet was not closed, or
     *     nothing went out
     * @throws StaleVersion if somebody else told of a return meanwhile, or what went out or was used changed
     */
    @Transactional
    public void bringBack(RoundId id, UUID returnId, int seen, Map<String, Returned> said) {
        lock.hold("load " + id);
        RoundView round = rounds.require(id);
        ReturnSheet sheet = of(round);
        if (sheet.told().stream().anyMatch(told -> told.id().equals(returnId))) {
            return;
        }
        if (!sheet.closed() || sheet.things().isEmpty()) {
            throw new FieldRefusal("said", "loads.return.not-closed");
        }
        Set<String> keys = sheet.things().stream().map(ReturnSheet.Thing::key).collect(Collectors.toSet());
        if (sheet.told().size() != seen || !keys.equals(new HashSet<>(said.keySet()))) {
            throw new StaleVersion("/rounds/" + id + "/load/return", null, null);
        }
        for (ReturnSheet.Thing thing : sheet.things()) {
            requireSound(thing, Objects.requireNonNull(said.get(thing.key())));
        }
        write(sheet, returnId, said);
    }

    private void requireSound(ReturnSheet.Thing thing, Returned said) {
        requireAmount(thing, "back", said.back());
        requireAmount(thing, "stays", said.stays());
        requireAmount(thing, "wasted", said.wasted());
        requireAmount(thing, "broken", said.broken());
        if (thing.isWater() && thing.isApart()) {
            requireApart(thing, said);
        }
        boolean asked = thing.balance().subtract(said.sum()).abs().compareTo(notAsked(thing)) > 0;
        if (asked && TextInput.optional(thing.key() + ".reason", said.reason(), LONGEST_REASON) == null) {
            LoadWords words = words();
            throw new FieldRefusal(
                    thing.key() + ".reason",
                    "loads.return.why",
                    words.amount(thing.balance(), thing.unit()),
                    words.amount(said.sum(), thing.unit()));
        }
    }

    /** Water that was opened for a sick system goes nowhere but away. */
    private static void requireApart(ReturnSheet.Thing thing, Returned said) {
        if (said.stays().signum() > 0) {
            throw new FieldRefusal(thing.key() + ".stays", "loads.return.apart-water");
        }
        if (!said.goes().isEmpty() && !said.goes().equals(Returned.AWAY)) {
            throw new FieldRefusal(thing.key() + ".goes", "loads.return.apart-water");
        }
    }

    private static void requireAmount(ReturnSheet.Thing thing, String field, BigDecimal amount) {
        if (amount.signum() < 0 || amount.compareTo(MOST) > 0) {
            throw new FieldRefusal(
                    thing.key() + "." + field, "web.number-out-of-range", amount.toPlainString(), 0, MOST);
        }
        if (thing.unit() == LoadUnit.PIECE && amount.stripTrailingZeros().scale() > 0) {
            throw new FieldRefusal(thing.key() + "." + field, "web.number-not-whole", amount.toPlainString());
        }
    }

    /** How far off nobody is asked. */
    private static BigDecimal notAsked(ReturnSheet.Thing thing) {
        BigDecimal part = thing.loaded().multiply(PART_NOT_ASKED);
        return switch (thing.unit()) {
            case LITRE -> part.max(LITRES_NOT_ASKED);
            case KILOGRAM -> part.max(KILOGRAMS_NOT_ASKED);
            case GRAM, MILLILITRE -> part;
            case PIECE, DRUM, SET -> BigDecimal.ZERO;
        };
    }

    private void write(ReturnSheet sheet, UUID returnId, Map<String, Returned> said) {
        Instant now = clock.instant();
        RoundView round = sheet.round();
        jdbc.sql("""
                        insert into load_return (id, round_id, person_id, returned_at) values (:id, :round, :person, :at)
                        """)
                .param("id", returnId)
                .param("round", round.id().value())
                .param("person", currentPerson.require().id().value())
                .param("at", Timestamp.from(now))
                .update();
        LoadWords words = words();
        List<LoadedStock.Back> booked = new ArrayList<>();
        for (int place = 0; place < sheet.things().size(); place++) {
            ReturnSheet.Thing thing = sheet.things().get(place);
            Returned back = Objects.requireNonNull(said.get(thing.key()));
            String reason = TextInput.optional(thing.key() + ".reason", back.reason(), LONGEST_REASON);
            Optional<String> goes =
                    thing.isWater() ? returnedWater.bringBack(returnId, round, thing, back) : Optional.empty();
            jdbc.sql("""
                            insert into load_return_line (return_id, line, place, item, unit, loaded, used, settled, back, stays,
                                wasted, broken, reason, goes, vat_id)
                            values (:id, :line, :place, :item, :unit, :loaded, :used, :settled, :back, :stays, :wasted, :broken,
                                :reason, :goes, :vat)
                            """)
                    .param("goes", goes.orElse(null), Types.VARCHAR)
                    .param(
                            "vat",
                            goes.filter(ReturnedWater.VAT::equals)
                                    .map(into -> UUID.fromString(back.goes()))
                                    .orElse(null),
                            Types.OTHER)
                    .param("id", returnId)
                    .param("line", thing.key())
                    .param("place", place)
                    .param("item", words.say(thing.item()))
                    .param("unit", thing.unit().name())
                    .param("loaded", thing.loaded())
                    .param("used", thing.used())
                    .param("settled", thing.settled())
                    .param("back", back.back())
                    .param("stays", back.stays())
                    .param("wasted", back.wasted())
                    .param("broken", back.broken())
                    .param("reason", reason, Types.VARCHAR)
                    .update();
            booked.add(new LoadedStock.Back(
                    thing.key(), back, thing.balance().subtract(back.sum()), Optional.ofNullable(reason)));
        }
        stock.bringBack(returnId, round, booked);
        changes.record(
                "round",
                round.id(),
                "load-returned",
                Map.of("code", round.code(), "things", sheet.things().size()));
    }

    private LoadWords words() {
        return LoadWords.of(business.current(), messages, business.current().locale());
    }
}
