package app.tankround.rounds;

import app.tankround.accounts.ChangeLog;
import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.Fleet;
import app.tankround.accounts.VanId;
import app.tankround.accounts.VanView;
import app.tankround.clients.SiteId;
import app.tankround.clients.SiteNeedsService;
import app.tankround.clients.SiteService;
import app.tankround.clients.SiteView;
import app.tankround.persistence.Uuids;
import app.tankround.rounds.StoredRound.HeldVisit;
import app.tankround.rounds.StoredRound.StoredStop;
import app.tankround.rounds.WeekPlanTables.Head;
import app.tankround.rounds.WeekPlanTables.PlanStop;
import app.tankround.rounds.WeekProblem.SiteVisits;
import app.tankround.rounds.WeekProblem.VanDay;
import app.tankround.rounds.solver.FleetPlan;
import app.tankround.rounds.solver.FleetPlanner;
import app.tankround.rounds.solver.FleetReasons;
import app.tankround.rounds.solver.FleetReasons.Reason;
import app.tankround.rounds.solver.PlannedStop;
import app.tankround.rounds.solver.PlanningMethod;
import app.tankround.rounds.solver.SearchBudget;
import app.tankround.rounds.solver.VanRound;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.schedule.PlannedVisitState;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.Mass;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import com.github.kagkarlsson.scheduler.SchedulerClient;
import com.github.kagkarlsson.scheduler.task.TaskInstance;
import java.time.Clock;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.temporal.ChronoUnit;
import java.time.temporal.TemporalAdjusters;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
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
    /** What is due farther from a site's own day than this is on no van that is asked about. */
    private static final int DAYS_WEIGHED = 10;

    private static final int WORKING_DAYS = 5;
    /** Eight hours; half an hour of the van's day is break. */
    private static final int WORKING_MINUTES = 480;
    /** Until there are rounds to learn from; common practice, no source. */
    private static final double DRIVING_MINUTES_PER_STOP = 15;

    private final WeekPlanTables tables;
    private final RoundTables roundTables;
    private final TravelTable travelTable;
    private final RoundTimes times;
    private final SiteNeedsService needs;
    private final RoundService rounds;
    private final DueVisits dueVisits;
    private final WaterSystems systems;
    private final SiteService sites;
    private final Fleet fleet;
    private final CurrentPerson currentPerson;
    private final ChangeLog changes;
    private final Clock clock;
    private final TransactionTemplate transactions;
    private final ObjectProvider<StopDemand> demand;
    private final ObjectProvider<SchedulerClient> scheduler;

    WeekPlans(
            WeekPlanTables tables,
            RoundTables roundTables,
            TravelTable travelTable,
            RoundTimes times,
            SiteNeedsService needs,
            RoundService rounds,
            DueVisits dueVisits,
            WaterSystems systems,
            SiteService sites,
            Fleet fleet,
            CurrentPerson currentPerson,
            ChangeLog changes,
            Clock clock,
            TransactionTemplate transactions,
            ObjectProvider<StopDemand> demand,
            ObjectProvider<SchedulerClient> scheduler) {
        this.tables = tables;
        this.roundTables = roundTables;
        this.travelTable = travelTable;
        this.times = times;
        this.needs = needs;
        this.rounds = rounds;
        this.dueVisits = dueVisits;
        this.systems = systems;
        this.sites = sites;
        this.fleet = fleet;
        this.currentPerson = currentPerson;
        this.changes = changes;
        this.clock = clock;
        this.transactions = transactions;
        this.demand = demand;
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
        WeekProblem weeks = transactions.execute(status -> problem(head.firstDay(), head.weeks(), here -> true));
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
                                plan.rounds().stream()
                                        .collect(Collectors.toMap(
                                                VanRound::shift,
                                                round -> round.stops().stream()
                                                        .map(PlannedStop::stop)
                                                        .toList()))));
            }
        });
    }

    private static long cents(long cost) {
        return cost / PlanningCosts.CENT;
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
     * @throws FieldRefusal if it is not ready, or a round was changed since it began
     */
    @Transactional
    public void accept(WeekPlanId id) {
        fleet.vans().stream()
                .map(VanView::id)
                .sorted(Comparator.comparing(VanId::value))
                .forEach(roundTables::lockVan);
        Head head = tables.lock(id).orElseThrow(() -> new NotFound("week-plan", id));
        if (head.state() != WeekPlanView.State.READY) {
            throw new FieldRefusal("", "rounds.plan.not-ready");
        }
        if (!head.basedOn().equals(based(head.firstDay(), head.until()))) {
            throw new FieldRefusal("", "rounds.plan.overtaken");
        }
        List<StoredRound> present = roundTables.between(head.firstDay(), head.until());
        Map<VanDay, StoredRound> open = new HashMap<>();
        Map<VanId, VanView> vans = vans();
        for (StoredRound round : present) {
            if (!round.settled()) {
                VanView van = Optional.ofNullable(vans.get(round.vanId())).orElseThrow();
                StoredRound emptied = rounds.timed(round, List.of());
                save(emptied);
                open.put(new VanDay(van, round.date()), round.saved());
            }
        }
        Map<VanDay, List<PlanStop>> planned = tables.stops(id).stream()
                .collect(Collectors.groupingBy(
                        stop -> new VanDay(
                                Optional.ofNullable(vans.get(stop.van())).orElseThrow(), stop.day()),
                        LinkedHashMap::new,
                        Collectors.toList()));
        Set<PlannedVisitId> free = free(planned.values());
        planned.forEach((day, stops) -> {
            Optional<StoredRound> before = Optional.ofNullable(open.get(day));
            StoredRound round = before.orElseGet(() -> rounds.empty(day.day(), day.van()));
            List<StoredStop> wanted = storedStops(round, stops, free);
            // A round that is left without a stop stays, empty: things may have been ticked off on its load sheet.
            if (!wanted.isEmpty()) {
                StoredRound timed = rounds.timed(round, wanted);
                if (before.isPresent()) {
                    save(timed);
                } else {
                    roundTables.insert(timed);
                }
            }
        });
        tables.accepted(id, currentPerson.id(), clock.instant());
        changes.record("week-plan", id, "accepted", Map.of("number", head.number()));
    }

    private void save(StoredRound round) {
        if (!roundTables.update(round)) {
            throw new FieldRefusal("", "rounds.plan.overtaken");
        }
    }

    private Set<PlannedVisitId> free(Iterable<List<PlanStop>> planned) {
        Set<PlannedVisitId> all = new HashSet<>();
        planned.forEach(stops -> stops.forEach(stop -> all.addAll(stop.visits())));
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

    /** @param weighed of which sites to work out what they add to a load, which takes long; the others add nothing */
    private WeekProblem problem(LocalDate from, int weeks, Predicate<SiteVisits> weighed) {
        LocalDate until = from.plusWeeks(weeks);
        List<StoredRound> settled = Stream.concat(
                        roundTables.between(dueVisits.today(), from).stream(),
                        roundTables.between(from, until).stream().filter(StoredRound::settled))
                .toList();
        Set<PlannedVisitId> held = settled.stream()
                .flatMap(round -> round.stops().stream())
                .flatMap(stop -> stop.visits().stream())
                .filter(HeldVisit::held)
                .map(HeldVisit::id)
                .collect(Collectors.toSet());
        List<PlannedVisitView> visits = dueVisits.dueOn(until.minusDays(1)).stream()
                .filter(visit -> !held.contains(visit.id()))
                .toList();
        Map<WaterSystemId, WaterSystemView> known = systems.find(
                visits.stream().map(PlannedVisitView::waterSystemId).collect(Collectors.toSet()));
        Set<SiteId> visited = visits.stream().map(PlannedVisitView::siteId).collect(Collectors.toSet());
        List<VanView> vans = fleet.vans().stream()
                .filter(van -> sites.ofDepot(van.depotId()).isPresent())
                .toList();
        Map<VanId, SiteView> depots = vans.stream()
                .collect(Collectors.toMap(
                        VanView::id, van -> sites.ofDepot(van.depotId()).orElseThrow()));
        Map<VanId, VanView> byId = vans();
        Set<VanDay> settledDays = settled.stream()
                .map(round ->
                        new VanDay(Optional.ofNullable(byId.get(round.vanId())).orElseThrow(), round.date()))
                .collect(Collectors.toSet());
        var facts = new WeekProblem.Facts(
                from,
                weeks,
                visits,
                visit -> Optional.ofNullable(known.get(visit.waterSystemId()))
                        .orElseThrow()
                        .infectionClass(),
                times.minutes(visits),
                needs.arrivalMinutes(visited),
                sites.find(visited),
                vans,
                van -> Optional.ofNullable(depots.get(van.id())).orElseThrow(),
                settledDays,
                van -> load(van, from, List.of()),
                all -> loads(vans, from, all, weighed),
                roundTables.lastThere(visited, dueVisits.today().plusDays(1)),
                travelTable.travel());
        return WeekProblem.of(facts, PlanningCosts.usual());
    }

    private List<Mass> loads(List<VanView> vans, LocalDate from, List<SiteVisits> all, Predicate<SiteVisits> weighed) {
        List<SiteVisits> asked =
                vans.isEmpty() ? List.of() : all.stream().filter(weighed).toList();
        Map<SiteVisits, Mass> known = new HashMap<>();
        if (!asked.isEmpty()) {
            VanView van = vans.getFirst();
            double empty = load(van, from, List.of()).kilograms();
            List<Mass> masses = masses(asked.stream()
                    .map(here -> pseudo(van, here.first(), List.of(here)))
                    .toList());
            for (int k = 0; k < asked.size(); k++) {
                known.put(
                        asked.get(k), Mass.ofKilograms(Math.max(0, masses.get(k).kilograms() - empty)));
            }
        }
        Mass nothing = Mass.ofKilograms(0);
        return all.stream().map(here -> known.getOrDefault(here, nothing)).toList();
    }

    private Mass load(VanView van, LocalDate day, List<SiteVisits> here) {
        return masses(List.of(pseudo(van, day, here))).getFirst();
    }

    private List<Mass> masses(List<RoundView> asked) {
        StopDemand known = demand.getIfAvailable();
        return known == null
                ? asked.stream().map(round -> round.van().fixedLoad()).toList()
                : known.departureMasses(asked);
    }

    /** A round that nobody drives, of which is asked what it would carry. */
    private static RoundView pseudo(VanView van, LocalDate day, List<SiteVisits> here) {
        List<StopView> stops = IntStream.range(0, here.size())
                .mapToObj(k -> new StopView(
                        new StopId(here.get(k).ids().getFirst().value()),
                        k + 1,
                        here.get(k).site().id(),
                        here.get(k).site().name(),
                        LocalTime.NOON,
                        LocalTime.NOON,
                        LocalTime.NOON,
                        0,
                        here.get(k).sickest().isSick(),
                        here.get(k).ids(),
                        Optional.empty(),
                        Optional.empty()))
                .toList();
        return new RoundView(
                new RoundId(van.id().value()),
                "",
                day,
                van,
                Optional.empty(),
                van.leavesAt(),
                van.leavesAt(),
                stops,
                PlanningMethod.GIVEN,
                false,
                0,
                0,
                false,
                0);
    }

    /**
     * Why a site is where it is in a plan, or on no round at all: for each van on each day near its own, what stands against
     * it and by how much.
     *
     * @param here the site's visits
     * @param at the day on which it is planned; empty where it is left out
     * @param answers by day and van
     */
    public record Why(SiteVisitsView here, Optional<LocalDate> at, List<Answer> answers) {

        /** The answer that asks for least, if anything stands against every other day and van. */
        public Optional<Answer> cheapestChange() {
            return answers.stream()
                    .filter(answer -> !answer.reason().shortages().isEmpty())
                    .min(Comparator.comparingDouble(answer -> answer.reason().severity()));
        }
    }

    /** A site's visits that are done together. */
    public record SiteVisitsView(SiteView site, LocalDate due, LocalDate first, LocalDate last, int minutes) {}

    /** What stands against one van on one day. */
    public record Answer(LocalDate day, VanView van, boolean planned, Reason reason, Optional<SiteView> because) {}

    /** Per stop, the day by which {@link #why} knows it; none where its visits were done or dropped meanwhile. */
    @Transactional(readOnly = true)
    public Map<WeekPlanView.Stop, LocalDate> dues(List<WeekPlanView.Stop> stops) {
        Map<PlannedVisitId, LocalDate> due =
                dueVisits
                        .find(stops.stream()
                                .flatMap(stop -> stop.visits().stream())
                                .toList())
                        .stream()
                        .filter(visit -> visit.state() == PlannedVisitState.DUE)
                        .collect(Collectors.toMap(PlannedVisitView::id, PlannedVisitView::dueOn));
        Map<WeekPlanView.Stop, LocalDate> first = new HashMap<>();
        for (WeekPlanView.Stop stop : stops) {
            stop.visits().stream()
                    .flatMap(visit -> Optional.ofNullable(due.get(visit)).stream())
                    .min(Comparator.naturalOrder())
                    .ifPresent(day -> first.put(stop, day));
        }
        return first;
    }

    /** What is left out of a plan. */
    @Transactional
    public List<SiteVisitsView> leftOut(WeekPlanId id) {
        WeekPlanView plan = require(id);
        WeekProblem weeks = problem(plan.firstDay(), plan.weeks(), here -> false);
        Set<PlannedVisitId> placed =
                plan.stops().stream().flatMap(stop -> stop.visits().stream()).collect(Collectors.toSet());
        return weeks.sites().stream()
                .filter(here -> here.ids().stream().noneMatch(placed::contains))
                .map(WeekPlans::view)
                .toList();
    }

    private static SiteVisitsView view(SiteVisits here) {
        return new SiteVisitsView(here.site(), here.due(), here.first(), here.last(), here.minutes());
    }

    /**
     * Why a site's visits are on their day and van of a plan and on no other.
     *
     * @param due the day on which they are due
     * @throws NotFound if nothing is due there then
     */
    @Transactional
    public Why why(WeekPlanId id, SiteId site, LocalDate due) {
        WeekPlanView plan = require(id);
        WeekProblem weeks = problem(
                plan.firstDay(),
                plan.weeks(),
                here -> Math.abs(ChronoUnit.DAYS.between(here.due(), due)) <= DAYS_WEIGHED);
        int stop = stopOf(weeks, site, due);
        Map<Integer, List<Integer>> orders = orders(weeks, plan);
        SiteVisits here = weeks.sites().get(stop);
        List<Answer> answers = new FleetReasons(weeks.problem(), orders)
                .of(stop).stream()
                        .map(reason -> {
                            VanDay day = weeks.days().get(reason.shift());
                            return new Answer(
                                    day.day(),
                                    day.van(),
                                    orders.getOrDefault(reason.shift(), List.of())
                                            .contains(stop),
                                    reason,
                                    reason.otherStop() < 0
                                            ? Optional.empty()
                                            : Optional.of(weeks.sites()
                                                    .get(reason.otherStop())
                                                    .site()));
                        })
                        .filter(answer -> near(answer.day(), here))
                        .toList();
        Optional<LocalDate> at =
                answers.stream().filter(Answer::planned).map(Answer::day).findFirst();
        return new Why(view(here), at, answers);
    }

    /**
     * Moves a site's visits to another day and van of a plan, to the place there that costs least.
     *
     * @throws FieldRefusal if they do not fit there, or the plan is not ready
     */
    @Transactional
    public void move(WeekPlanId id, SiteId site, LocalDate due, LocalDate day, VanId van) {
        if (tables.lock(id)
                .filter(head -> head.state() == WeekPlanView.State.READY)
                .isEmpty()) {
            throw new FieldRefusal("", "rounds.plan.not-ready");
        }
        Answer wanted = why(id, site, due).answers().stream()
                .filter(answer -> answer.day().equals(day) && answer.van().id().equals(van))
                .findFirst()
                .orElseThrow(() -> new FieldRefusal("", "rounds.plan.no-such-day"));
        if (!wanted.reason().shortages().isEmpty()) {
            throw new FieldRefusal("", "rounds.plan.does-not-fit");
        }
        WeekPlanView plan = require(id);
        WeekProblem weeks = problem(plan.firstDay(), plan.weeks(), here -> false);
        Map<Integer, List<Integer>> orders = orders(weeks, plan);
        int stop = stopOf(weeks, site, due);
        orders.values().forEach(order -> order.remove(Integer.valueOf(stop)));
        orders.computeIfAbsent(wanted.reason().shift(), each -> new ArrayList<>())
                .add(wanted.reason().position(), stop);
        tables.replace(id, stops(weeks, orders));
        changes.record(
                "week-plan",
                id,
                "moved",
                Map.of("number", plan.number(), "site", site.toString(), "day", day.toString(), "van", van.toString()));
    }

    private static List<PlanStop> stops(WeekProblem weeks, Map<Integer, List<Integer>> orders) {
        FleetReasons clock = new FleetReasons(weeks.problem(), orders);
        List<PlanStop> stops = new ArrayList<>();
        orders.entrySet().stream().sorted(Map.Entry.comparingByKey()).forEach(entry -> {
            VanDay day = weeks.days().get(entry.getKey());
            List<Integer> starts = clock.starts(entry.getKey(), entry.getValue());
            for (int k = 0; k < starts.size(); k++) {
                SiteVisits here = weeks.sites().get(entry.getValue().get(k));
                LocalTime begin = LocalTime.ofSecondOfDay(starts.get(k));
                stops.add(new PlanStop(
                        day.day(),
                        day.van().id(),
                        here.site().id(),
                        begin,
                        begin.plusMinutes(here.minutes()),
                        here.ids()));
            }
        });
        return stops;
    }

    private static int stopOf(WeekProblem weeks, SiteId site, LocalDate due) {
        return IntStream.range(0, weeks.sites().size())
                .filter(k -> weeks.sites().get(k).site().id().equals(site)
                        && (weeks.sites().get(k).due().equals(due)
                                || weeks.sites().get(k).visits().stream()
                                        .anyMatch(visit -> visit.dueOn().equals(due))))
                .findFirst()
                .orElseThrow(() -> new NotFound("site", site));
    }

    /**
     * What a week needs and what there is, in minutes.
     *
     * @param monday its first day
     * @param work agreed minutes of the visits due in it
     * @param driving guessed from the rounds of the last eight weeks
     * @param available of all vans from Monday to Friday, breaks taken off
     */
    public record WeekHours(LocalDate monday, int visits, int work, int driving, int available) {

        public int needed() {
            return work + driving;
        }

        public boolean fits() {
            return needed() <= available;
        }
    }

    /** The next eight weeks, this one first; what is overdue counts in this one. */
    @Transactional
    public List<WeekHours> hours() {
        LocalDate today = dueVisits.today();
        LocalDate monday = today.with(TemporalAdjusters.previousOrSame(DayOfWeek.MONDAY));
        double drive = roundTables
                .drivingMinutesPerStop(today.minusWeeks(MOST_WEEKS), today.plusDays(1))
                .orElse(DRIVING_MINUTES_PER_STOP);
        int perWeek = fleet.vans().size() * WORKING_DAYS * WORKING_MINUTES;
        Map<LocalDate, List<PlannedVisitView>> byWeek =
                dueVisits.dueOn(monday.plusWeeks(MOST_WEEKS).minusDays(1)).stream()
                        .collect(Collectors.groupingBy(visit -> visit.dueOn().isBefore(monday)
                                ? monday
                                : visit.dueOn().with(TemporalAdjusters.previousOrSame(DayOfWeek.MONDAY))));
        return IntStream.range(0, MOST_WEEKS)
                .mapToObj(monday::plusWeeks)
                .map(week -> {
                    List<PlannedVisitView> visits = byWeek.getOrDefault(week, List.of());
                    long stops = visits.stream()
                            .map(visit -> List.of(visit.siteId(), visit.dueOn()))
                            .distinct()
                            .count();
                    return new WeekHours(
                            week,
                            visits.size(),
                            visits.stream().mapToInt(PlannedVisitView::minutes).sum(),
                            (int) Math.round(stops * drive),
                            perWeek);
                })
                .toList();
    }

    private static boolean near(LocalDate day, SiteVisits here) {
        return !day.isBefore(here.first().minusDays(WeekProblem.TOLERANCE_DAYS))
                && !day.isAfter(here.last().plusDays(WeekProblem.TOLERANCE_DAYS));
    }

    private static Map<Integer, List<Integer>> orders(WeekProblem weeks, WeekPlanView plan) {
        Map<PlannedVisitId, Integer> stopOf = new HashMap<>();
        for (int k = 0; k < weeks.sites().size(); k++) {
            for (PlannedVisitId visit : weeks.sites().get(k).ids()) {
                stopOf.put(visit, k);
            }
        }
        Map<Integer, List<Integer>> orders = new HashMap<>();
        for (WeekPlanView.Stop stop : plan.stops()) {
            int shift = weeks.days().indexOf(new VanDay(stop.van(), stop.day()));
            stop.visits().stream()
                    .flatMap(visit -> Optional.ofNullable(stopOf.get(visit)).stream())
                    .findFirst()
                    .filter(known -> shift >= 0)
                    .ifPresent(known -> orders.computeIfAbsent(shift, each -> new ArrayList<>())
                            .add(known));
        }
        return orders;
    }
}
