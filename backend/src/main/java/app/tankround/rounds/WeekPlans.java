package app.tankround.rounds;

import app.tankround.accounts.ChangeLog;
import app.tankround.accounts.Crews;
import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.Fleet;
import app.tankround.accounts.Roster;
import app.tankround.accounts.VanId;
import app.tankround.accounts.VanView;
import app.tankround.accounts.WorkingHours;
import app.tankround.clients.SiteId;
import app.tankround.clients.SiteService;
import app.tankround.clients.SiteView;
import app.tankround.persistence.Uuids;
import app.tankround.rounds.StoredRound.HeldVisit;
import app.tankround.rounds.StoredRound.StoredStop;
import app.tankround.rounds.WeekPlanTables.Head;
import app.tankround.rounds.WeekPlanTables.PlanStop;
import app.tankround.rounds.WeekProblem.SiteVisits;
import app.tankround.rounds.WeekProblem.VanDay;
import app.tankround.rounds.WeekProblem.VanHalf;
import app.tankround.rounds.solver.FleetPlan;
import app.tankround.rounds.solver.FleetPlanner;
import app.tankround.rounds.solver.FleetReasons;
import app.tankround.rounds.solver.SearchBudget;
import app.tankround.rounds.solver.VanRound;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.schedule.PlannedVisitState;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import com.github.kagkarlsson.scheduler.SchedulerClient;
import com.github.kagkarlsson.scheduler.task.TaskInstance;
import java.time.Clock;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.springframework.transaction.support.TransactionTemplate;

/**
 * Plans weeks of rounds: which visit on which day by which van. A plan is searched for in the background and changes no
 * round until somebody accepts it; then it makes the rounds of all its days. Rounds that are settled (locked, or begun) and
 * those of today stay as they are. Where a round was changed after a plan began, that plan can no longer be accepted, so
 * that of two people who plan at once nobody overwrites the other.
 */
@Service
public class WeekPlans {

    /** How far ahead can be planned, in weeks. */
    public static final int MOST_WEEKS = 8;

    static final String TASK = "plan-weeks";

    private static final long MOST_TRIES = 10_000_000;
    private static final int LATEST_PLANS = 10;

    private final WeekPlanTables tables;
    private final WeekFacts facts;
    private final RoundTables roundTables;
    private final RoundService rounds;
    private final DueVisits dueVisits;
    private final SiteService sites;
    private final Fleet fleet;
    private final Crews crews;
    private final CurrentPerson currentPerson;
    private final ChangeLog changes;
    private final Clock clock;
    private final TransactionTemplate transactions;
    private final ObjectProvider<SchedulerClient> scheduler;

    WeekPlans(
            WeekPlanTables tables,
            WeekFacts facts,
            RoundTables roundTables,
            RoundService rounds,
            DueVisits dueVisits,
            SiteService sites,
            Fleet fleet,
            Crews crews,
            CurrentPerson currentPerson,
            ChangeLog changes,
            Clock clock,
            TransactionTemplate transactions,
            ObjectProvider<SchedulerClient> scheduler) {
        this.tables = tables;
        this.facts = facts;
        this.roundTables = roundTables;
        this.rounds = rounds;
        this.dueVisits = dueVisits;
        this.sites = sites;
        this.fleet = fleet;
        this.crews = crews;
        this.currentPerson = currentPerson;
        this.changes = changes;
        this.clock = clock;
        this.transactions = transactions;
        this.scheduler = scheduler;
    }

    /**
     * Begins to search for a plan; the search goes on in the background.
     *
     * @param from its first day, from tomorrow on
     * @param weeks 1 to {@value #MOST_WEEKS}
     * @param tries how many plans to try, 1 to 10 000 000
     * @param seed the same seed on the same visits and vans gives the same plan
     * @throws FieldRefusal for a day gone by or today, or numbers outside their ranges
     */
    @Transactional
    public WeekPlanId begin(LocalDate from, int weeks, long tries, long seed) {
        if (!from.isAfter(dueVisits.today())) {
            throw new FieldRefusal("from", "rounds.plan.from-tomorrow");
        }
        if (from.isAfter(dueVisits.today().plusWeeks(MOST_WEEKS))) {
            throw new FieldRefusal("from", "rounds.plan.too-far", MOST_WEEKS);
        }
        if (weeks < 1 || weeks > MOST_WEEKS) {
            throw new FieldRefusal("weeks", "rounds.plan.weeks-range", weeks, 1, MOST_WEEKS);
        }
        if (tries < 1 || tries > MOST_TRIES) {
            throw new FieldRefusal("tries", "rounds.plan.tries-range", tries, 1, MOST_TRIES);
        }
        WeekPlanId id = WeekPlanId.of(Uuids.next(clock.instant()));
        LocalDate until = from.plusWeeks(weeks);
        tables.insert(
                new Head(
                        id,
                        0,
                        from,
                        weeks,
                        seed,
                        tries,
                        0,
                        WeekPlanView.State.RUNNING,
                        false,
                        0,
                        0,
                        based(from, until)),
                currentPerson.id(),
                clock.instant());
        scheduler.getObject().scheduleIfNotExists(new TaskInstance<>(TASK, id.toString()), clock.instant());
        return id;
    }

    /** Ends a search with the best plan that it has come by. */
    @Transactional
    public void stop(WeekPlanId id) {
        tables.askToStop(id);
    }

    /** Searches; run twice, it comes to the same. */
    void search(WeekPlanId id) {
        Optional<Head> running = tables.find(id).filter(plan -> plan.state() == WeekPlanView.State.RUNNING);
        if (running.isEmpty()) {
            return;
        }
        Head head = running.get();
        WeekProblem weeks = transactions.execute(
                status -> facts.toPlan(head.firstDay(), head.weeks()).problem());
        AtomicBoolean stop = new AtomicBoolean();
        FleetPlan plan = FleetPlanner.withDefaults()
                .withListener(progress -> {
                    tables.told(id, progress.iterations(), progress.unplaced(), cents(progress.cost()));
                    stop.set(tables.stopAsked(id));
                })
                .withStop(stop::get)
                .solve(weeks.problem(), head.seed(), SearchBudget.iterations(head.tries()));
        transactions.executeWithoutResult(status -> {
            if (tables.lock(id)
                    .filter(now -> now.state() == WeekPlanView.State.RUNNING)
                    .isPresent()) {
                tables.told(
                        id,
                        tables.find(id).orElseThrow().tried(),
                        plan.unplaced().size(),
                        cents(plan.cost().total()));
                tables.finish(
                        id,
                        stops(
                                weeks,
                                plan.rounds().stream().collect(Collectors.toMap(VanRound::shift, VanRound::order))));
            }
        });
    }

    private static long cents(long cost) {
        return cost / (PlanningTerms.COSTS_PER_UNIT / 100);
    }

    /** The newest plans, newest first, without their stops. */
    @Transactional(readOnly = true)
    public List<WeekPlanView> newest() {
        return tables.newest(LATEST_PLANS).stream()
                .map(head -> view(head, List.of()))
                .toList();
    }

    /** @throws NotFound if there is no such plan */
    @Transactional(readOnly = true)
    public WeekPlanView require(WeekPlanId id) {
        Head head = tables.find(id).orElseThrow(() -> new NotFound("week-plan", id));
        List<PlanStop> stored = tables.stops(id);
        Map<SiteId, SiteView> at =
                sites.find(stored.stream().map(PlanStop::site).collect(Collectors.toSet()));
        Map<VanId, VanView> vans = vans();
        List<WeekPlanView.Stop> stops = new ArrayList<>();
        for (PlanStop stop : stored) {
            Optional<WeekPlanView.Stop> before = Optional.of(stops)
                    .filter(all -> !all.isEmpty())
                    .map(List::getLast)
                    .filter(last ->
                            last.day().equals(stop.day()) && last.van().id().equals(stop.van()));
            stops.add(new WeekPlanView.Stop(
                    stop.day(),
                    Optional.ofNullable(vans.get(stop.van())).orElseThrow(),
                    stop.trip(),
                    before.map(WeekPlanView.Stop::position).orElse(0) + 1,
                    Optional.ofNullable(at.get(stop.site())).orElseThrow(),
                    stop.starts(),
                    stop.departs(),
                    stop.visits()));
        }
        return view(head, stops);
    }

    private static WeekPlanView view(Head head, List<WeekPlanView.Stop> stops) {
        return new WeekPlanView(
                head.id(),
                head.number(),
                head.firstDay(),
                head.weeks(),
                head.seed(),
                head.tries(),
                head.tried(),
                head.state(),
                head.unplaced(),
                head.cost(),
                stops);
    }

    /**
     * Makes the rounds of all days of a plan. Visits that were done, dropped or put on a settled round meanwhile are left
     * out.
     *
     * @param seen what the plan was when somebody decided so, by {@link WeekPlanView#stamp}
     * @throws FieldRefusal if it is not ready, it was changed since it was seen, or a round was changed since it began
     */
    @Transactional
    public void accept(WeekPlanId id, String seen) {
        fleet.vans().stream()
                .map(VanView::id)
                .sorted(Comparator.comparing(VanId::value))
                .forEach(roundTables::lockVan);
        Head head = tables.lock(id).orElseThrow(() -> new NotFound("week-plan", id));
        if (head.state() != WeekPlanView.State.READY) {
            throw new FieldRefusal("", "rounds.plan.not-ready");
        }
        if (!require(id).stamp().equals(seen)) {
            throw new FieldRefusal("", "rounds.plan.changed-meanwhile");
        }
        if (!head.basedOn().equals(based(head.firstDay(), head.until()))) {
            throw new FieldRefusal("", "rounds.plan.overtaken");
        }
        List<StoredRound> present = roundTables.between(head.firstDay(), head.until());
        Map<Trip, StoredRound> open = new HashMap<>();
        Map<VanId, VanView> vans = vans();
        Set<StoredRound> settled = Set.copyOf(StoredRound.ofSettledDays(present));
        for (StoredRound round : present) {
            if (!settled.contains(round)) {
                VanView van = Optional.ofNullable(vans.get(round.vanId())).orElseThrow();
                StoredRound emptied = rounds.timed(round, List.of());
                save(emptied);
                open.put(new Trip(new VanDay(van, round.date()), round.trip()), round.saved());
            }
        }
        List<PlanStop> all = tables.stops(id);
        Set<PlannedVisitId> free = free(all);
        Map<VanDay, Map<Integer, List<PlanStop>>> planned = all.stream()
                .filter(stop -> stop.visits().stream().anyMatch(free::contains))
                .collect(Collectors.groupingBy(
                        stop -> new VanDay(
                                Optional.ofNullable(vans.get(stop.van())).orElseThrow(), stop.day()),
                        LinkedHashMap::new,
                        Collectors.groupingBy(PlanStop::trip, TreeMap::new, Collectors.toList())));
        Roster roster = crews.roster(head.firstDay());
        // A round that is left without a stop stays, empty: things may have been ticked off on its load sheet.
        planned.forEach((day, trips) -> {
            Optional<StoredRound> last = Optional.empty();
            for (List<PlanStop> stops : trips.values()) {
                int number = last.map(StoredRound::trip).orElse(0) + 1;
                Optional<StoredRound> before = Optional.ofNullable(open.get(new Trip(day, number)));
                LocalTime begins = begins(roster, day, stops.getFirst());
                StoredRound own = before.orElseGet(() -> rounds.empty(day.day(), day.van(), roster));
                StoredRound round = number == 1
                        ? own.as(1, null).leaving(begins == null ? own.leavesAt() : begins)
                        : rounds.inTurn(own.as(number, begins), last);
                StoredRound timed = rounds.timed(round, storedStops(round, stops, free));
                if (before.isPresent()) {
                    save(timed);
                } else {
                    roundTables.insert(timed);
                }
                last = Optional.of(timed);
            }
        });
        tables.accepted(id, currentPerson.id(), clock.instant());
        changes.record("week-plan", id, "accepted", Map.of("number", head.number()));
    }

    /** Before which a round does not leave since its van's day is cut in two and it is in the later half; null in any other. */
    private static @Nullable LocalTime begins(Roster roster, VanDay day, PlanStop first) {
        return roster.on(day.van(), day.day())
                .hours()
                .flatMap(WorkingHours::off)
                .map(WorkingHours.Off::until)
                .filter(again -> !first.starts().isBefore(again))
                .orElse(null);
    }

    private void save(StoredRound round) {
        if (!roundTables.update(round)) {
            throw new FieldRefusal("", "rounds.plan.overtaken");
        }
    }

    /** One of the rounds of a van on a day. */
    private record Trip(VanDay day, int number) {}

    private Set<PlannedVisitId> free(List<PlanStop> planned) {
        Set<PlannedVisitId> all =
                planned.stream().flatMap(stop -> stop.visits().stream()).collect(Collectors.toSet());
        Set<PlannedVisitId> held = roundTables.held(all, dueVisits.today(), null);
        Set<PlannedVisitId> free = dueVisits.find(all).stream()
                .filter(visit -> visit.state() == PlannedVisitState.DUE)
                .map(PlannedVisitView::id)
                .filter(visit -> !held.contains(visit))
                .collect(Collectors.toSet());
        roundTables.release(free, dueVisits.today());
        return free;
    }

    /** A stop keeps its id where the site was on that round before; a site has one stop on a round. */
    private List<StoredStop> storedStops(StoredRound round, List<PlanStop> planned, Set<PlannedVisitId> free) {
        Map<SiteId, StopId> known =
                round.stops().stream().collect(Collectors.toMap(StoredStop::siteId, StoredStop::id));
        Map<SiteId, List<HeldVisit>> bySite = new LinkedHashMap<>();
        for (PlanStop stop : planned) {
            List<HeldVisit> visits = stop.visits().stream()
                    .filter(free::contains)
                    .map(visit -> new HeldVisit(visit, true))
                    .toList();
            if (!visits.isEmpty()) {
                bySite.computeIfAbsent(stop.site(), site -> new ArrayList<>()).addAll(visits);
            }
        }
        return bySite.entrySet().stream()
                .map(entry -> new StoredStop(
                        Optional.ofNullable(known.get(entry.getKey()))
                                .orElseGet(() -> new StopId(Uuids.next(clock.instant()))),
                        entry.getKey(),
                        LocalTime.MIN,
                        LocalTime.MIN,
                        LocalTime.MIN,
                        0,
                        null,
                        null,
                        entry.getValue()))
                .toList();
    }

    /** The rounds of these days as they are, so that it can be told whether any of them was changed. */
    private String based(LocalDate from, LocalDate until) {
        return roundTables.between(from, until).stream()
                .map(round -> round.id() + ":" + round.version())
                .collect(Collectors.joining(" "));
    }

    private Map<VanId, VanView> vans() {
        return fleet.vans().stream().collect(Collectors.toMap(VanView::id, Function.identity()));
    }

    /** A plan's stops with their times, by shift and order. */
    static List<PlanStop> stops(WeekProblem weeks, Map<Integer, List<Integer>> orders) {
        FleetReasons clock = new FleetReasons(weeks.problem(), orders);
        Map<VanDay, Integer> trips = new HashMap<>();
        List<PlanStop> stops = new ArrayList<>();
        orders.entrySet().stream().sorted(Map.Entry.comparingByKey()).forEach(entry -> {
            if (entry.getValue().isEmpty()) {
                return;
            }
            VanHalf day = weeks.halves().get(entry.getKey());
            List<Integer> starts = clock.starts(entry.getKey(), entry.getValue());
            // The second half of a day goes on counting.
            int trip = trips.getOrDefault(day.whole(), 0) + 1;
            int visited = 0;
            for (int each : entry.getValue()) {
                if (each == VanRound.RELOAD) {
                    trip++;
                    continue;
                }
                SiteVisits here = weeks.sites().get(each);
                LocalTime begin = LocalTime.ofSecondOfDay(starts.get(visited++));
                stops.add(new PlanStop(
                        day.day(),
                        day.van().id(),
                        trip,
                        here.site().id(),
                        begin,
                        begin.plusMinutes(here.minutes()),
                        here.ids()));
            }
            trips.put(day.whole(), trip);
        });
        return stops;
    }
}
