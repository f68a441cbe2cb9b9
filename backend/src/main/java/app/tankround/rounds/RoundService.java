package app.tankround.rounds;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.ChangeLog;
import app.tankround.accounts.Crews;
import app.tankround.accounts.Fleet;
import app.tankround.accounts.People;
import app.tankround.accounts.PersonId;
import app.tankround.accounts.PersonView;
import app.tankround.accounts.Roster;
import app.tankround.accounts.VanId;
import app.tankround.accounts.VanView;
import app.tankround.accounts.WorkingHours;
import app.tankround.clients.SiteId;
import app.tankround.clients.SiteNeedsService;
import app.tankround.clients.SiteService;
import app.tankround.clients.SiteView;
import app.tankround.persistence.Uuids;
import app.tankround.rounds.StoredRound.HeldVisit;
import app.tankround.rounds.StoredRound.StoredStop;
import app.tankround.rounds.StoredRound.Timing;
import app.tankround.rounds.solver.PlanningMethod;
import app.tankround.rounds.solver.Rest;
import app.tankround.rounds.solver.TimeWindow;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.DueVisitsRemoved;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.schedule.WorkMoved;
import app.tankround.tanks.InfectionClass;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import app.tankround.web.StaleVersion;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.function.ToIntFunction;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.context.event.EventListener;
import org.springframework.dao.DataIntegrityViolationException;
import org.springframework.dao.DuplicateKeyException;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * Rounds: which van visits which sites on which day, and in what order. A stop is one site with all its due visits that
 * no other round holds.
 */
@Service
public class RoundService {

    /** So many rounds a van has on a day at most. */
    public static final int MOST_TRIPS = 9;

    private static final LocalTime MIDNIGHT = LocalTime.MIN;
    private static final int SECONDS_PER_MINUTE = 60;
    private static final int MINUTES_PER_HOUR = 60;
    private static final int MINUTES_PER_DAY = 1440;

    private final RoundTables tables;
    private final TravelTable travelTable;
    private final RoundTimes times;
    private final AnimalDeliveries deliveries;
    private final DueVisits dueVisits;
    private final WaterSystems systems;
    private final SiteService sites;
    private final SiteNeedsService needs;
    private final Fleet fleet;
    private final Crews crews;
    private final PlanningSettings terms;
    private final People people;
    private final BusinessProfile business;
    private final ChangeLog changes;
    private final Clock clock;

    RoundService(
            RoundTables tables,
            TravelTable travelTable,
            RoundTimes times,
            AnimalDeliveries deliveries,
            DueVisits dueVisits,
            WaterSystems systems,
            SiteService sites,
            SiteNeedsService needs,
            Fleet fleet,
            Crews crews,
            PlanningSettings terms,
            People people,
            BusinessProfile business,
            ChangeLog changes,
            Clock clock) {
        this.tables = tables;
        this.travelTable = travelTable;
        this.times = times;
        this.deliveries = deliveries;
        this.dueVisits = dueVisits;
        this.systems = systems;
        this.sites = sites;
        this.needs = needs;
        this.fleet = fleet;
        this.crews = crews;
        this.terms = terms;
        this.people = people;
        this.business = business;
        this.changes = changes;
        this.clock = clock;
    }

    /** Sites with visits due on that day or earlier that no round of today or later holds, oldest first. */
    @Transactional
    public List<DueStop> dueStops(LocalDate date) {
        List<PlannedVisitView> due = dueVisits.dueOn(date);
        Set<PlannedVisitId> held = tables.held(ids(due), dueVisits.today(), null);
        Map<WaterSystemId, WaterSystemView> known = systemsOf(due);
        Map<SiteId, List<PlannedVisitView>> bySite = due.stream()
                .filter(visit -> !held.contains(visit.id()))
                .collect(Collectors.groupingBy(PlannedVisitView::siteId, LinkedHashMap::new, Collectors.toList()));
        Map<SiteId, SiteView> at = sites.find(bySite.keySet());
        return bySite.entrySet().stream()
                .map(entry -> new DueStop(
                        siteOf(at, entry.getKey()),
                        entry.getValue().stream().anyMatch(visit -> sick(known, visit)),
                        entry.getValue()))
                .toList();
    }

    /** The same on the first round of that van and day. */
    @Transactional
    public RoundId plan(LocalDate date, VanId vanId, List<SiteId> siteIds) {
        return plan(date, vanId, 1, null, siteIds);
    }

    /**
     * Puts sites on one of a van's rounds of that day, in the best order found. The round is made if the van has none of
     * that number; sites that are on it already stay as they are, so sending the same form twice changes nothing.
     *
     * @param trip which of the van's rounds of that day, from 1 to one more than it has, {@value #MOST_TRIPS} at most; a
     *     further one leaves when the van is back from the one before and has loaded
     * @param notBefore before which a further round does not leave; null where it leaves as soon as it can
     * @throws FieldRefusal for an unknown van, a van whose depot has no site, a site with nothing due, a visit another
     *     round took at the same moment, a round that would end after midnight, or one that skips a number
     */
    @Transactional
    public RoundId plan(LocalDate date, VanId vanId, int trip, @Nullable LocalTime notBefore, List<SiteId> siteIds) {
        VanView van =
                fleet.find(vanId).orElseThrow(() -> new FieldRefusal("van", "rounds.no-such-van", vanId.toString()));
        if (siteIds.isEmpty()) {
            throw new FieldRefusal("sites", "rounds.no-stop-chosen");
        }
        tables.lockVan(vanId);
        List<StoredRound> ofDay = tables.of(vanId, date);
        requireTrip(van, ofDay, trip);
        if (trip == 1 && notBefore != null) {
            throw new FieldRefusal("notBefore", "rounds.not-before-first");
        }
        Optional<StoredRound> existing =
                ofDay.stream().filter(each -> each.trip() == trip).findFirst();
        Optional<StoredRound> before =
                ofDay.stream().filter(each -> each.trip() == trip - 1).findFirst();
        LocalTime earliest =
                notBefore == null ? existing.map(StoredRound::notBefore).orElse(null) : notBefore;
        StoredRound round = inTurn(
                existing.orElseGet(() -> empty(date, van, crews.roster(date))).as(trip, earliest), before);
        List<StoredStop> stops = withSites(round, siteIds);
        if (existing.isPresent() && existing.get().equals(round) && stops.equals(round.stops())) {
            return round.id();
        }
        StoredRound planned = afterBreak(van, ordered(round, stops), before);
        try {
            if (existing.isPresent()) {
                update(planned);
            } else {
                tables.insert(planned);
            }
        } catch (DuplicateKeyException takenMeanwhile) {
            throw new FieldRefusal("sites", "rounds.visit-taken");
        }
        changes.record(
                "round",
                round.id(),
                existing.isPresent() ? "stops-added" : "planned",
                Map.of("code", round.code(), "stops", stops.size()));
        return round.id();
    }

    /** From 1 to one more than the van has on that day, {@value #MOST_TRIPS} at most. */
    static void requireTrip(VanView van, List<StoredRound> ofDay, int trip) {
        int most = Math.min(MOST_TRIPS, ofDay.size() + 1);
        if (trip < 1 || trip > most) {
            throw new FieldRefusal("trip", "rounds.trip-range", trip, 1, most, van.name());
        }
    }

    /**
     * A further round as it is, or in the later half of its day where its van would be out while the crew is off and nobody said
     * when it leaves.
     */
    StoredRound afterBreak(VanView van, StoredRound round, Optional<StoredRound> before) {
        if (before.isEmpty() || round.notBefore() != null) {
            return round;
        }
        return crews.roster(round.date())
                .on(van, round.date())
                .hours()
                .flatMap(WorkingHours::off)
                .filter(off -> round.leavesAt().isBefore(off.until())
                        && round.timing().returnsAt().isAfter(off.from()))
                .map(off -> ordered(
                        inTurn(round.as(round.trip(), off.until()), before), round.stops(), earlier(round, before)))
                .orElse(round);
    }

    /** A round of that day with nothing on it, not stored yet; by whoever is in the van that day and at its hours. */
    StoredRound empty(LocalDate date, VanView van, Roster roster) {
        return empty(date, van, roster, tables.nextCode());
    }

    StoredRound empty(LocalDate date, VanView van, Roster roster, String code) {
        Roster.Day crew = roster.on(van, date);
        LocalTime leavesAt = crew.hours().map(WorkingHours::from).orElse(van.leavesAt());
        return new StoredRound(
                new RoundId(Uuids.next(clock.instant())),
                code,
                date,
                van.id(),
                1,
                crew.people().stream().findFirst().or(van::technician).orElse(null),
                leavesAt,
                null,
                List.of(),
                new Timing(PlanningMethod.EXACT, true, 0, 0, leavesAt),
                false,
                1);
    }

    /**
     * What is due at a site on that day or earlier and no round before it is going to do: of rounds on that day and later,
     * an emergency may take what they hold.
     */
    List<HeldVisit> urgentAt(SiteId site, LocalDate date) {
        List<PlannedVisitId> due = dueVisits.dueOn(date).stream()
                .filter(visit -> visit.siteId().equals(site))
                .map(PlannedVisitView::id)
                .toList();
        Set<PlannedVisitId> sooner = tables.heldBetween(due, dueVisits.today(), date);
        return held(due.stream().filter(visit -> !sooner.contains(visit)).toList());
    }

    private List<StoredStop> withSites(StoredRound round, List<SiteId> siteIds) {
        List<PlannedVisitView> due = dueVisits.dueOn(round.date());
        Set<PlannedVisitId> heldElsewhere = tables.held(ids(due), dueVisits.today(), round.id());
        Map<SiteId, List<PlannedVisitId>> free = due.stream()
                .filter(visit -> !heldElsewhere.contains(visit.id()))
                .collect(Collectors.groupingBy(
                        PlannedVisitView::siteId, Collectors.mapping(PlannedVisitView::id, Collectors.toList())));
        List<StoredStop> stops = new ArrayList<>(round.stops());
        List<PlannedVisitId> taken = new ArrayList<>();
        for (SiteId site : new LinkedHashSet<>(siteIds)) {
            List<PlannedVisitId> visits = free.getOrDefault(site, List.of());
            int at = indexOf(stops, site);
            if (visits.isEmpty() && at < 0) {
                SiteView known = sites.find(site).orElseThrow(() -> new FieldRefusal("sites", "rounds.no-such-site"));
                throw new FieldRefusal("sites", "rounds.nothing-due", known.name(), round.date());
            }
            if (at < 0) {
                stops.add(new StoredStop(
                        new StopId(Uuids.next(clock.instant())),
                        site,
                        MIDNIGHT,
                        MIDNIGHT,
                        MIDNIGHT,
                        0,
                        null,
                        null,
                        held(visits)));
            } else {
                stops.set(at, withMore(stops.get(at), visits));
            }
            taken.addAll(visits);
        }
        tables.release(taken, dueVisits.today());
        return stops;
    }

    private static List<HeldVisit> held(List<PlannedVisitId> visits) {
        return visits.stream().map(visit -> new HeldVisit(visit, true)).toList();
    }

    private static StoredStop withMore(StoredStop stop, List<PlannedVisitId> visits) {
        List<HeldVisit> all = new ArrayList<>(stop.visits());
        Set<PlannedVisitId> known = stop.visits().stream().map(HeldVisit::id).collect(Collectors.toSet());
        visits.stream()
                .filter(visit -> !known.contains(visit))
                .map(visit -> new HeldVisit(visit, true))
                .forEach(all::add);
        return stop.withVisits(all);
    }

    static int indexOf(List<StoredStop> stops, SiteId site) {
        for (int i = 0; i < stops.size(); i++) {
            if (stops.get(i).siteId().equals(site)) {
                return i;
            }
        }
        return -1;
    }

    /**
     * Takes a stop off a round; its visits are due again. The others are put in the best order found.
     *
     * @throws StaleVersion if the round was changed since that version
     * @throws FieldRefusal if work at the stop has begun
     */
    @Transactional
    public void removeStop(RoundId id, int version, StopId stopId) {
        StoredRound round = stored(id, version);
        StoredStop stop = round.stops().stream()
                .filter(each -> each.id().equals(stopId))
                .findFirst()
                .orElseThrow(() -> new NotFound("stop", stopId));
        if (stop.startedAt() != null) {
            throw new FieldRefusal(
                    "stop", "rounds.stop-begun", sites.require(stop.siteId()).name());
        }
        List<StoredStop> others =
                round.stops().stream().filter(each -> each != stop).toList();
        update(ordered(round, others));
        changes.record(
                "round",
                id,
                "stop-removed",
                Map.of("code", round.code(), "site", stop.siteId().toString()));
    }

    /**
     * Puts the stops whose work has not begun in the best order found.
     *
     * @throws StaleVersion if the round was changed since that version
     */
    @Transactional
    public void replan(RoundId id, int version) {
        StoredRound round = stored(id, version);
        update(ordered(round, round.stops()));
        changes.record("round", id, "ordered-best", Map.of("code", round.code()));
    }

    /**
     * Puts the stops in an order given by hand, whatever it costs and breaks; {@link #cost} says what that is.
     *
     * @param order every stop of the round once; stops whose work has begun stay first, in their order
     * @throws StaleVersion if the round was changed since that version; it carries both orders
     * @throws FieldRefusal if a stop is missing, twice or moved although its work has begun
     */
    @Transactional
    public void reorder(RoundId id, int version, List<StopId> order) {
        StoredRound round = tables.find(id).orElseThrow(() -> new NotFound("round", id));
        if (round.version() != version) {
            throw new StaleOrder(view(round), order);
        }
        List<StoredStop> given = inOrder(round, order);
        Facts facts = new Facts(round);
        RoundTiming.Result result = facts.timing().given(facts.work(given), PlanningMethod.GIVEN, false);
        StoredRound reordered = round.with(result.stops(), result.timing());
        if (!tables.update(reordered)) {
            throw new StaleOrder(require(id), order);
        }
        follow(reordered);
        changes.record("round", id, "ordered-by-hand", Map.of("code", round.code()));
    }

    /**
     * What an order costs against the best one found, and which promises it breaks. Nothing is saved.
     *
     * @throws FieldRefusal as {@link #reorder}
     */
    @Transactional(readOnly = true)
    public OrderCost cost(RoundId id, List<StopId> order) {
        StoredRound round = tables.find(id).orElseThrow(() -> new NotFound("round", id));
        Facts facts = new Facts(round);
        return facts.timing().cost(facts.work(inOrder(round, order)));
    }

    /** Which promises the round breaks as it stands now, such as when a system fell ill after it was planned. */
    @Transactional(readOnly = true)
    public List<OrderCost.BrokenPromise> broken(RoundId id) {
        StoredRound round = tables.find(id).orElseThrow(() -> new NotFound("round", id));
        Facts facts = new Facts(round);
        return facts.timing().broken(facts.work(round.stops()));
    }

    /** How many of its legs the travel table says nothing of. */
    @Transactional(readOnly = true)
    public GuessedLegs guessedLegs(RoundId id) {
        StoredRound round = tables.find(id).orElseThrow(() -> new NotFound("round", id));
        Facts facts = new Facts(round);
        return facts.timing().guessed(facts.work(round.stops()));
    }

    /** What its times follow from. */
    @Transactional(readOnly = true)
    public RoundPace pace(RoundId id) {
        StoredRound round = tables.find(id).orElseThrow(() -> new NotFound("round", id));
        Facts facts = new Facts(round);
        return facts.timing().pace(facts.work(round.stops()));
    }

    private static List<StoredStop> inOrder(StoredRound round, List<StopId> order) {
        Map<StopId, StoredStop> known = new HashMap<>();
        round.stops().forEach(stop -> known.put(stop.id(), stop));
        if (order.size() != known.size() || !Set.copyOf(order).equals(known.keySet())) {
            throw new FieldRefusal("order", "rounds.order-incomplete");
        }
        List<StoredStop> given = order.stream().map(known::get).toList();
        List<StoredStop> begun =
                round.stops().stream().filter(stop -> stop.startedAt() != null).toList();
        if (!given.subList(0, begun.size()).equals(begun)) {
            throw new FieldRefusal("order", "rounds.begun-moved");
        }
        return given;
    }

    /**
     * Deletes a round on which no work has begun; its visits are due again.
     *
     * @throws StaleVersion if the round was changed since that version
     * @throws FieldRefusal if work has begun, or things were ticked off on its load sheet
     */
    @Transactional
    public void delete(RoundId id, int version) {
        StoredRound round = stored(id, version);
        if (round.started()) {
            throw new FieldRefusal("", "rounds.delete-begun", round.code());
        }
        try {
            if (!tables.delete(id, version)) {
                throw stale(id);
            }
        } catch (DataIntegrityViolationException used) {
            throw new FieldRefusal("", "rounds.delete-used", round.code());
        }
        closeRanks(round);
        changes.record("round", id, "deleted", Map.of("code", round.code()));
    }

    /**
     * Says whether a round was promised as it is, so that no planning moves it.
     *
     * @throws StaleVersion if the round was changed since that version
     */
    @Transactional
    public void lock(RoundId id, int version, boolean locked) {
        StoredRound round = stored(id, version);
        if (!tables.lock(id, version, locked)) {
            throw stale(id);
        }
        changes.record("round", id, locked ? "locked" : "unlocked", Map.of("code", round.code()));
    }

    /** What is to be done at these stops on a day, as it stands now. */
    List<RoundTiming.Work> work(LocalDate day, List<StoredStop> stops) {
        var agreed = new Agreed(stops);
        Map<PlannedVisitId, List<AnimalDelivery>> animals = deliveries.of(ids(agreed.all()));
        ZoneId zone = business.current().zone();
        Map<SiteId, Integer> arrivals =
                needs.arrivalMinutes(stops.stream().map(StoredStop::siteId).collect(Collectors.toSet()));
        ToIntFunction<PlannedVisitView> minutes = times.minutes(agreed.all());
        return stops.stream()
                .map(stop -> Facts.work(stop, agreed, minutes, arrivals.getOrDefault(stop.siteId(), 0)))
                .map(each -> each.with(
                        each.stop().visits().stream()
                                .flatMap(visit -> animals.getOrDefault(visit.id(), List.of()).stream())
                                .toList(),
                        day,
                        zone))
                .toList();
    }

    /** The round with these stops in their order, and their times; it is the best one where no other is cheaper. */
    StoredRound timed(StoredRound round, List<StoredStop> stops) {
        Facts facts = new Facts(round);
        List<RoundTiming.Work> work = facts.work(stops);
        RoundTiming.Result best = facts.timing().best(work);
        RoundTiming.Result given = facts.timing().given(work, PlanningMethod.GIVEN, false);
        boolean asGood = late(given) == late(best)
                && given.timing().drivingSeconds() <= best.timing().drivingSeconds()
                && given.timing().returnsAt().equals(best.timing().returnsAt());
        RoundTiming.Result chosen = asGood ? best : given;
        return round.with(chosen.stops(), chosen.timing());
    }

    private static int late(RoundTiming.Result result) {
        return result.stops().stream().mapToInt(StoredStop::lateMinutes).sum();
    }

    /**
     * Says that work at a stop has begun. Said again, the first time stays.
     *
     * @throws NotFound if there is no such stop
     */
    @Transactional
    public void recordStarted(StopId stop, Instant at) {
        if (!tables.recordStarted(stop, at)) {
            throw new NotFound("stop", stop);
        }
    }

    /**
     * Says that work at a stop is finished.
     *
     * @throws NotFound if there is no such stop
     */
    @Transactional
    public void recordFinished(StopId stop, Instant at) {
        if (!tables.recordFinished(stop, at)) {
            throw new NotFound("stop", stop);
        }
    }

    @Transactional(readOnly = true)
    public Optional<RoundView> find(RoundId id) {
        return tables.find(id).map(this::view);
    }

    /** @throws NotFound if there is no such round */
    @Transactional(readOnly = true)
    public RoundView require(RoundId id) {
        return find(id).orElseThrow(() -> new NotFound("round", id));
    }

    /** The round a stop belongs to. */
    @Transactional(readOnly = true)
    public Optional<RoundView> byStop(StopId stop) {
        return tables.roundOf(stop).flatMap(this::find);
    }

    /** The rounds of a day, by code. */
    @Transactional(readOnly = true)
    public List<RoundView> on(LocalDate date) {
        return views(tables.on(date));
    }

    /** Who leaves with a round, and when. */
    record Departure(RoundId round, String code, Optional<PersonId> technician, LocalTime leavesAt) {

        static Departure of(RoundView round) {
            return new Departure(round.id(), round.code(), round.technician().map(PersonView::id), round.leavesAt());
        }
    }

    /** Another round of the same van on the same day. */
    public record Trip(RoundId round, int trip) {}

    /** The other rounds of its van on that day, the first to leave first. */
    @Transactional(readOnly = true)
    public List<Trip> othersOfVan(RoundView round) {
        return tables.trips(round.van().id(), round.date()).stream()
                .filter(other -> !other.round().equals(round.id()))
                .toList();
    }

    /** Those of a day, by code, without their stops. */
    @Transactional(readOnly = true)
    List<Departure> departures(LocalDate date) {
        return tables.departures(date);
    }

    /** The rounds from the first day up to but not including the second, by day and code. */
    @Transactional(readOnly = true)
    public List<RoundView> between(LocalDate from, LocalDate until) {
        return views(tables.between(from, until));
    }

    /** A technician's rounds of a day, by code. */
    @Transactional(readOnly = true)
    public List<RoundView> forTechnician(PersonId technician, LocalDate date) {
        return views(tables.forTechnician(technician, date));
    }

    /** Dropped visits leave the rounds that hold them, in the transaction that drops them; the order stays. */
    @EventListener
    void letGo(DueVisitsRemoved removed) {
        Set<PlannedVisitId> gone = Set.copyOf(removed.visits());
        for (StoredRound round : tables.holding(gone)) {
            List<StoredStop> stops = round.stops().stream()
                    .map(stop -> stop.startedAt() == null ? without(stop, gone) : stop)
                    .filter(stop -> !stop.visits().isEmpty())
                    .toList();
            Facts facts = new Facts(round);
            RoundTiming.Result result =
                    facts.timing().given(facts.work(stops), round.timing().method(), false);
            update(round.with(result.stops(), result.timing()));
        }
    }

    /** Animals that go along, or no longer do, change by when their stop must begin and how long it takes. */
    @EventListener
    void on(AnimalDeliveries.Changed changed) {
        timeAgain(List.of(changed.visit()));
    }

    /** Work that goes along makes a stop longer. */
    @EventListener
    void on(WorkMoved moved) {
        timeAgain(moved.visits());
    }

    private void timeAgain(List<PlannedVisitId> visits) {
        for (StoredRound round : tables.holding(Set.copyOf(visits))) {
            if (round.timing().method() == PlanningMethod.GIVEN || round.settled()) {
                Facts facts = new Facts(round);
                RoundTiming.Result result = facts.timing()
                        .given(facts.work(round.stops()), round.timing().method(), false);
                update(round.with(result.stops(), result.timing()));
            } else {
                update(ordered(round, round.stops()));
            }
        }
    }

    /** The round that holds a visit whose work has not begun. */
    @Transactional(readOnly = true)
    public Optional<RoundView> holding(PlannedVisitId visit) {
        return tables.holding(List.of(visit)).stream().findFirst().map(this::view);
    }

    private static StoredStop without(StoredStop stop, Set<PlannedVisitId> gone) {
        return stop.withVisits(stop.visits().stream()
                .filter(visit -> !gone.contains(visit.id()))
                .toList());
    }

    StoredRound stored(RoundId id, int version) {
        StoredRound round = tables.find(id).orElseThrow(() -> new NotFound("round", id));
        if (round.version() != version) {
            throw stale(id);
        }
        return round;
    }

    StoredRound ordered(StoredRound round, List<StoredStop> stops) {
        return ordered(round, stops, earlier(round));
    }

    /** @param earlier the rounds of its van on that day before it, which may not be stored as they are here */
    StoredRound ordered(StoredRound round, List<StoredStop> stops, List<StoredRound> earlier) {
        Facts facts = new Facts(round, earlier);
        RoundTiming.Result best = facts.timing().best(facts.work(stops));
        return round.with(best.stops(), best.timing());
    }

    void update(StoredRound round) {
        if (!tables.update(round)) {
            throw stale(round.id());
        }
        follow(round);
    }

    /** The rounds of a van after one that is gone move up; the first of a day leaves when the day begins. */
    private void closeRanks(StoredRound gone) {
        for (StoredRound later : tables.of(gone.vanId(), gone.date())) {
            if (later.trip() > gone.trip()) {
                StoredRound moved = later.as(later.trip() - 1, later.trip() == 2 ? null : later.notBefore());
                boolean first = moved.trip() == 1 && !later.started();
                if (!tables.update(first ? timedAgain(moved.leaving(gone.leavesAt())) : moved)) {
                    throw stale(later.id());
                }
            }
        }
        tables.of(gone.vanId(), gone.date()).stream()
                .filter(each -> each.trip() == Math.max(1, gone.trip() - 1))
                .findFirst()
                .ifPresent(this::follow);
    }

    /**
     * Once a round was saved: those of its van after it leave when the van is back and has loaded, and nothing in them
     * changes but their times. Work that has begun stays.
     */
    void follow(StoredRound changed) {
        Optional<StoredRound> before = Optional.of(changed);
        for (StoredRound later : tables.of(changed.vanId(), changed.date())) {
            if (later.trip() > changed.trip()) {
                StoredRound moved = later.started() ? later : timedAgain(inTurn(later, before));
                if (!moved.equals(later) && !tables.update(moved)) {
                    throw stale(later.id());
                }
                before = Optional.of(moved);
            }
        }
    }

    private StoredRound timedAgain(StoredRound round) {
        Facts facts = new Facts(round);
        RoundTiming.Result result =
                facts.timing().given(facts.work(round.stops()), round.timing().method(), false);
        return result.stops().equals(round.stops())
                        && result.timing().returnsAt().equals(round.timing().returnsAt())
                ? round
                : round.with(result.stops(), result.timing());
    }

    /** The round leaving when its van is back from the one before and has loaded; the first of a day as it is. */
    StoredRound inTurn(StoredRound round, Optional<StoredRound> before) {
        return before.map(last -> round.leaving(later(ready(last), round.notBefore())))
                .orElse(round);
    }

    private static LocalTime later(LocalTime time, @Nullable LocalTime other) {
        return other != null && other.isAfter(time) ? other : time;
    }

    /** The minute at which a van can leave again after a round; where it has the break while it loads, after that. */
    private LocalTime ready(StoredRound last) {
        if (last.stops().isEmpty()) {
            return last.leavesAt();
        }
        LocalTime back = last.timing().returnsAt();
        Rest rest = terms.current().rest(before(last).began(), back);
        int loaded = rest.ends(rest.open(back.toSecondOfDay()) + terms.current().reloadMinutes() * SECONDS_PER_MINUTE);
        int minute = Math.ceilDiv(loaded, SECONDS_PER_MINUTE);
        if (minute >= MINUTES_PER_DAY) {
            throw new FieldRefusal("sites", "rounds.past-midnight");
        }
        return LocalTime.of(minute / MINUTES_PER_HOUR, minute % MINUTES_PER_HOUR);
    }

    /** What its van did on that day before a round leaves. */
    RoundTiming.Before before(StoredRound round) {
        return before(round, earlier(round));
    }

    /** The rounds of its van on that day before it. */
    List<StoredRound> earlier(StoredRound round) {
        return round.trip() == 1
                ? List.of()
                : tables.of(round.vanId(), round.date()).stream()
                        .filter(each -> each.trip() < round.trip())
                        .toList();
    }

    /** The same, the last of them as it is given. */
    List<StoredRound> earlier(StoredRound round, Optional<StoredRound> before) {
        return Stream.concat(earlier(round).stream().filter(each -> each.trip() < round.trip() - 1), before.stream())
                .toList();
    }

    private RoundTiming.Before before(StoredRound round, List<StoredRound> earlier) {
        boolean sick = earlier.stream()
                .filter(each -> !each.stops().isEmpty())
                .reduce((one, other) -> other)
                .map(each -> work(each.date(), List.of(each.stops().getLast())))
                .filter(last -> last.getFirst().sickest().isSick())
                .isPresent();
        return new RoundTiming.Before(began(earlier, round), sick);
    }

    /** When the work began that has gone on since: with the day, or with the half of it in which the round leaves. */
    LocalTime began(List<StoredRound> earlier, StoredRound round) {
        List<LocalTime> leaves = Stream.concat(earlier.stream(), Stream.of(round))
                .map(StoredRound::leavesAt)
                .toList();
        // Nothing else makes a round wait for the hours of a crew, which take asking for.
        if (earlier.isEmpty() || round.notBefore() == null) {
            return leaves.getFirst();
        }
        return crews.roster(round.date())
                .on(fleet.require(round.vanId()), round.date())
                .hours()
                .filter(hours -> hours.off().isPresent())
                .map(hours -> hours.at(round.leavesAt()).from())
                .flatMap(
                        half -> leaves.stream().filter(at -> !at.isBefore(half)).findFirst())
                .orElse(leaves.getFirst());
    }

    private static StaleVersion stale(RoundId id) {
        return new StaleVersion("/rounds/" + id, null, null);
    }

    /** What the order of a round depends on, read once. */
    private final class Facts {

        private final RoundTiming timing;
        private final LocalDate day;

        Facts(StoredRound round) {
            this(round, earlier(round));
        }

        Facts(StoredRound round, List<StoredRound> earlier) {
            day = round.date();
            VanView van = fleet.find(round.vanId()).orElseThrow(() -> new NotFound("van", round.vanId()));
            SiteView depot = sites.ofDepot(van.depotId())
                    .orElseThrow(() -> new FieldRefusal("van", "rounds.depot-without-site", van.name()));
            timing = new RoundTiming(
                    depot,
                    round.leavesAt(),
                    before(round, earlier),
                    business.current().zone(),
                    travelTable.travel(),
                    terms.current());
        }

        RoundTiming timing() {
            return timing;
        }

        List<RoundTiming.Work> work(List<StoredStop> stops) {
            return RoundService.this.work(day, stops);
        }

        private static RoundTiming.Work work(
                StoredStop stop, Agreed agreed, ToIntFunction<PlannedVisitView> minutes, int arrivalMinutes) {
            SiteView site = agreed.site(stop);
            List<PlannedVisitView> here = agreed.visits(stop).toList();
            List<InfectionClass> classes =
                    here.stream().map(agreed::infectionClass).sorted().toList();
            return new RoundTiming.Work(
                    stop,
                    site,
                    window(site),
                    arrivalMinutes + here.stream().mapToInt(minutes).sum(),
                    classes.getFirst(),
                    classes.getLast());
        }
    }

    /** What was agreed for stops and where, read once. */
    private final class Agreed {

        private final Map<PlannedVisitId, PlannedVisitView> visits;
        private final Map<WaterSystemId, WaterSystemView> known;
        private final Map<SiteId, SiteView> at;
        private final Map<VanId, VanView> vans = new HashMap<>();
        private final Map<PersonId, Optional<PersonView>> technicians = new HashMap<>();

        Agreed(Collection<StoredStop> stops) {
            visits =
                    dueVisits
                            .find(stops.stream()
                                    .flatMap(stop -> stop.visits().stream())
                                    .map(HeldVisit::id)
                                    .toList())
                            .stream()
                            .collect(Collectors.toMap(PlannedVisitView::id, Function.identity()));
            known = systemsOf(visits.values());
            at = sites.find(stops.stream().map(StoredStop::siteId).collect(Collectors.toSet()));
        }

        Collection<PlannedVisitView> all() {
            return visits.values();
        }

        Stream<PlannedVisitView> visits(StoredStop stop) {
            return stop.visits().stream().map(visit -> visits.get(visit.id()));
        }

        VanView van(StoredRound round) {
            return vans.computeIfAbsent(round.vanId(), id -> fleet.find(id).orElseThrow(() -> new NotFound("van", id)));
        }

        Optional<PersonView> technician(StoredRound round) {
            return Optional.ofNullable(round.technicianId())
                    .flatMap(id -> technicians.computeIfAbsent(id, people::find));
        }

        SiteView site(StoredStop stop) {
            return siteOf(at, stop.siteId());
        }

        WaterSystemView system(PlannedVisitView visit) {
            return systemOf(known, visit);
        }

        InfectionClass infectionClass(PlannedVisitView visit) {
            return system(visit).infectionClass();
        }
    }

    private static @Nullable TimeWindow window(SiteView site) {
        if (site.attendedFrom().isEmpty() || site.attendedUntil().isEmpty()) {
            return null;
        }
        return new TimeWindow(
                minuteOfDay(site.attendedFrom().get()),
                minuteOfDay(site.attendedUntil().get()));
    }

    private static int minuteOfDay(LocalTime time) {
        return time.getHour() * 60 + time.getMinute();
    }

    private static boolean sick(Map<WaterSystemId, WaterSystemView> known, PlannedVisitView visit) {
        return systemOf(known, visit).infectionClass().isSick();
    }

    private static SiteView siteOf(Map<SiteId, SiteView> known, SiteId id) {
        return Optional.ofNullable(known.get(id)).orElseThrow(() -> new NotFound("site", id));
    }

    private static WaterSystemView systemOf(Map<WaterSystemId, WaterSystemView> known, PlannedVisitView visit) {
        return Optional.ofNullable(known.get(visit.waterSystemId()))
                .orElseThrow(() -> new NotFound("water-system", visit.waterSystemId()));
    }

    private Map<WaterSystemId, WaterSystemView> systemsOf(Collection<PlannedVisitView> visits) {
        return systems.find(visits.stream().map(PlannedVisitView::waterSystemId).collect(Collectors.toSet()));
    }

    private static List<PlannedVisitId> ids(Collection<PlannedVisitView> visits) {
        return visits.stream().map(PlannedVisitView::id).toList();
    }

    RoundView view(StoredRound round) {
        return views(List.of(round)).getFirst();
    }

    private List<RoundView> views(List<StoredRound> rounds) {
        if (rounds.isEmpty()) {
            return List.of();
        }
        var agreed = new Agreed(
                rounds.stream().flatMap(round -> round.stops().stream()).toList());
        return rounds.stream().map(round -> view(round, agreed)).toList();
    }

    private RoundView view(StoredRound round, Agreed agreed) {
        List<StopView> stops = new ArrayList<>();
        for (StoredStop stop : round.stops()) {
            List<PlannedVisitView> here = agreed.visits(stop)
                    .sorted(Comparator.comparing(agreed::infectionClass)
                            .thenComparing(visit -> agreed.system(visit).code())
                            .thenComparing(PlannedVisitView::dueOn))
                    .toList();
            stops.add(new StopView(
                    stop.id(),
                    stops.size() + 1,
                    stop.siteId(),
                    agreed.site(stop).name(),
                    stop.arrivesAt(),
                    stop.startsAt(),
                    stop.departsAt(),
                    stop.lateMinutes(),
                    here.stream().anyMatch(visit -> agreed.infectionClass(visit).isSick()),
                    ids(here),
                    Optional.ofNullable(stop.startedAt()),
                    Optional.ofNullable(stop.finishedAt())));
        }
        Timing timing = round.timing();
        return new RoundView(
                round.id(),
                round.code(),
                round.date(),
                agreed.van(round),
                round.trip(),
                agreed.technician(round),
                round.leavesAt(),
                timing.returnsAt(),
                stops,
                timing.method(),
                timing.provenBest(),
                timing.drivingSeconds(),
                timing.distanceM(),
                round.locked(),
                round.version());
    }
}
