package app.tankround.rounds;

import app.tankround.accounts.ChangeLog;
import app.tankround.accounts.Fleet;
import app.tankround.accounts.PersonId;
import app.tankround.accounts.VanId;
import app.tankround.accounts.VanView;
import app.tankround.clients.SiteId;
import app.tankround.clients.SiteService;
import app.tankround.clients.SiteView;
import app.tankround.persistence.Uuids;
import app.tankround.rounds.ArrivalPromises.ToldTimes;
import app.tankround.rounds.RestOfDay.Rest;
import app.tankround.rounds.StoredRound.HeldVisit;
import app.tankround.rounds.StoredRound.StoredStop;
import app.tankround.rounds.StoredRound.Timing;
import app.tankround.rounds.solver.FleetPlan;
import app.tankround.rounds.solver.FleetPlanner;
import app.tankround.rounds.solver.FleetProblem;
import app.tankround.rounds.solver.FleetReasons;
import app.tankround.rounds.solver.PlannedStop;
import app.tankround.rounds.solver.PlanningMethod;
import app.tankround.rounds.solver.SearchBudget;
import app.tankround.rounds.solver.VanRound;
import app.tankround.schedule.DueVisits;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.time.Clock;
import java.time.Duration;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * Plans the rest of a day anew when something happens, and changes as little that was promised as it can. What has begun, or
 * should have by then, stays as it is, and so does every locked round but for the van or person that drops out. Nothing is
 * changed until it is accepted; whoever was promised another time is then a matter for somebody to tell.
 */
@Service
public class DayRepairs {

    /** What can happen. */
    public enum Kind {
        /** The technician of a van, or the van itself, drops out. */
        DROPS_OUT,
        /** A client cancels. */
        CANCELS,
        /** A site needs somebody today: what is due there is done, or a call is agreed where nothing is. */
        EMERGENCY,
        /** The work of a van takes longer than planned. */
        OVERRUN,
        /** Two sites cannot be reached from one another. */
        ROAD_CLOSED
    }

    /**
     * What happened.
     *
     * @param at by the clock of the business
     * @param van which van, of one that drops out or takes longer
     * @param site which site, of a client who cancels, an emergency or the one end of a closed road
     * @param other the other end of a closed road
     * @param minutes by how much it takes longer, or how long the work of an emergency takes, 1 to 600
     * @param by when work of an emergency must have started; null where it may wait until it disturbs least
     * @param price of a call that nothing is due for; null for what a visit there costs
     */
    public record Happening(
            Kind kind,
            LocalDate date,
            LocalTime at,
            @Nullable VanId van,
            @Nullable SiteId site,
            @Nullable SiteId other,
            int minutes,
            @Nullable LocalTime by,
            @Nullable BigDecimal price) {}

    /**
     * What changes for a site.
     *
     * @param before when work was to start, and by which van; empty where it was on no round
     * @param now the same from now on; empty where it is on no round any more
     * @param told what its client was told for that day
     * @param tell whether that breaks what was promised: the times told, or about the time planned where nobody was told any
     * @param against of a site that is on no round any more, the van that it asks least of, and what that is
     */
    public record Change(
            SiteView site,
            Optional<Appointment> before,
            Optional<Appointment> now,
            Optional<ToldTimes> told,
            boolean tell,
            Optional<WeekReasons.Answer> against) {}

    /** A time and a van. */
    public record Appointment(LocalTime starts, VanView van) {}

    /**
     * The rest of the day as it would be.
     *
     * @param based the rounds that it rests on, as they were
     * @param changes whoever is to be told first
     * @param days per van, its sites with their times, those that stay included
     * @param nobodyDrives whether there is no van that could
     */
    public record Proposal(String based, List<Change> changes, List<VanDay> days, boolean nobodyDrives) {}

    /** A van's day. */
    public record VanDay(VanView van, List<Line> lines) {}

    /** A site on it. */
    public record Line(SiteView site, LocalTime starts, boolean settled) {}

    /** Work may start so much earlier or later than promised; common practice, no source. */
    static final Duration PROMISE = Duration.ofMinutes(15);

    private static final int TRIES = 3000;
    private static final int MOST_MINUTES = 600;

    private final RoundTables tables;
    private final RestOfDay restOfDay;
    private final EmergencyCalls calls;
    private final RoundService rounds;
    private final DueVisits dueVisits;
    private final SiteService sites;
    private final Fleet fleet;
    private final ToldChanges toldChanges;
    private final ChangeLog changes;
    private final Clock clock;

    DayRepairs(
            RoundTables tables,
            RestOfDay restOfDay,
            EmergencyCalls calls,
            RoundService rounds,
            DueVisits dueVisits,
            SiteService sites,
            Fleet fleet,
            ToldChanges toldChanges,
            ChangeLog changes,
            Clock clock) {
        this.tables = tables;
        this.restOfDay = restOfDay;
        this.calls = calls;
        this.rounds = rounds;
        this.dueVisits = dueVisits;
        this.sites = sites;
        this.fleet = fleet;
        this.toldChanges = toldChanges;
        this.changes = changes;
        this.clock = clock;
    }

    /** The whole rest of a day with what was found for it. */
    private record Found(
            List<Rest> all, List<Rest> driving, List<RoundTiming.Work> work, FleetPlan plan, String based) {

        /** With the last stop in place of what stood for it. */
        Found with(RoundTiming.Work last) {
            List<RoundTiming.Work> others = new ArrayList<>(work);
            others.set(others.size() - 1, last);
            return new Found(all, driving, others, plan, based);
        }
    }

    /**
     * What would be done. Nothing is saved.
     *
     * @throws FieldRefusal where what happened is not told in full, or a site has nothing that could be brought forward
     */
    @Transactional
    public Proposal propose(Happening happening) {
        return proposal(happening, find(happening));
    }

    /**
     * Does what was proposed, and opens a matter for each site that has to be told.
     *
     * @param based as the proposal had it
     * @throws FieldRefusal if a round of that day was changed since, or as {@link #propose}
     */
    @Transactional
    public void accept(Happening happening, String based) {
        fleet.vans().stream()
                .map(VanView::id)
                .sorted(Comparator.comparing(VanId::value))
                .forEach(tables::lockVan);
        Found found = find(happening);
        if (!found.based().equals(based)) {
            throw new FieldRefusal("", "rounds.repair.changed");
        }
        Proposal proposal = proposal(happening, found);
        if (happening.kind() == Kind.EMERGENCY) {
            found = found.with(calls.agreed(found.work().getLast(), happening));
            // A round of a day gone by may still hold what was not done on it.
            tables.release(
                    found.work().getLast().stop().visits().stream()
                            .map(HeldVisit::id)
                            .toList(),
                    dueVisits.today());
        }
        List<RoundTiming.Work> work = found.work();
        takeFromLaterRounds(work.stream().map(RoundTiming.Work::stop).toList(), happening.date());
        Map<Integer, VanRound> byShift =
                found.plan().rounds().stream().collect(Collectors.toMap(VanRound::shift, round -> round));
        // A visit is on one round at a time, so all leave before any arrives.
        Map<Rest, StoredRound> emptied = new HashMap<>();
        for (Rest rest : found.all()) {
            if (rest.stored()) {
                StoredRound without = rounds.timed(rest.round(), rest.settled());
                save(keepingTimes(without, rest.settled(), rest.round().timing().returnsAt()));
                emptied.put(rest, rest.round().saved());
            }
        }
        for (int shift = 0; shift < found.driving().size(); shift++) {
            Rest rest = found.driving().get(shift);
            Optional<VanRound> planned = Optional.ofNullable(byShift.get(shift));
            if (planned.isPresent()) {
                write(rest, planned.get(), found, Optional.ofNullable(emptied.get(rest)));
            }
        }
        for (Change change : proposal.changes()) {
            if (change.tell()) {
                toldChanges.tell(happening.date(), change.site(), change.before(), change.now());
            }
        }
        changes.record(
                "round-day",
                happening.date(),
                "repaired",
                Map.of("kind", happening.kind().name(), "at", happening.at().toString()));
    }

    private void write(Rest rest, VanRound planned, Found found, Optional<StoredRound> stored) {
        List<StoredStop> stops = new ArrayList<>(rest.settled());
        for (PlannedStop visit : planned.stops()) {
            stops.add(found.work()
                    .get(visit.stop())
                    .stop()
                    .at(
                            LocalTime.ofSecondOfDay(visit.arrivalSecond()),
                            LocalTime.ofSecondOfDay(visit.startSecond()),
                            LocalTime.ofSecondOfDay(visit.departureSecond()),
                            0));
        }
        StoredRound round = stored.orElse(rest.round());
        if (rest.round().trip() > 1 && rest.settled().isEmpty() && rest.free().isAfter(round.leavesAt())) {
            round = round.leaving(rest.free());
        }
        StoredRound timed =
                keepingTimes(rounds.timed(round, stops), stops, LocalTime.ofSecondOfDay(planned.returnSecond()));
        if (stored.isPresent()) {
            save(timed);
        } else {
            tables.insert(timed);
        }
    }

    private void save(StoredRound round) {
        if (!tables.update(round)) {
            throw new FieldRefusal("", "rounds.repair.changed");
        }
    }

    /** Times that count from the middle of a day, with the driving of the whole one. */
    private static StoredRound keepingTimes(StoredRound timed, List<StoredStop> stops, LocalTime returns) {
        Timing timing = timed.timing();
        return timed.with(
                stops, new Timing(PlanningMethod.GIVEN, false, timing.drivingSeconds(), timing.distanceM(), returns));
    }

    private void takeFromLaterRounds(List<StoredStop> stops, LocalDate date) {
        Set<HeldVisit> wanted =
                stops.stream().flatMap(stop -> stop.visits().stream()).collect(Collectors.toSet());
        for (StoredRound round :
                tables.holding(wanted.stream().map(HeldVisit::id).toList())) {
            if (round.date().isAfter(date)) {
                List<StoredStop> kept = round.stops().stream()
                        .map(stop -> stop.withVisits(stop.visits().stream()
                                .filter(visit -> !wanted.contains(visit))
                                .toList()))
                        .filter(stop -> !stop.visits().isEmpty())
                        .toList();
                save(rounds.timed(round, kept));
            }
        }
    }

    private Found find(Happening happening) {
        check(happening);
        List<Rest> all = restOfDay.rests(happening);
        List<Rest> driving = all.stream()
                .filter(rest ->
                        happening.kind() != Kind.DROPS_OUT || !rest.van().id().equals(happening.van()))
                .toList();
        List<StoredStop> open = new ArrayList<>();
        all.stream()
                .flatMap(rest -> rest.open().stream())
                .filter(stop ->
                        happening.kind() != Kind.CANCELS || !stop.siteId().equals(happening.site()))
                .forEach(open::add);
        List<RoundTiming.Work> work = new ArrayList<>(rounds.work(happening.date(), open));
        if (happening.kind() == Kind.EMERGENCY) {
            work.add(emergency(happening, all));
        }
        FleetProblem problem = restOfDay.problem(happening, all, driving, work);
        Map<Integer, List<Integer>> start = new HashMap<>();
        for (int shift = 0; shift < driving.size(); shift++) {
            start.put(
                    shift,
                    driving.get(shift).open().stream()
                            .filter(open::contains)
                            .map(open::indexOf)
                            .toList());
        }
        FleetPlan plan = FleetPlanner.withDefaults().withStart(start).solve(problem, 1, SearchBudget.iterations(TRIES));
        String based = tables.on(happening.date()).stream()
                .map(round -> round.id() + ":" + round.version())
                .collect(Collectors.joining(" "));
        return new Found(all, driving, work, plan, based);
    }

    private void check(Happening happening) {
        switch (happening.kind()) {
            case DROPS_OUT -> needed("van", happening.van());
            case OVERRUN -> {
                needed("van", happening.van());
                requireMinutes(happening);
            }
            case CANCELS -> needed("site", happening.site());
            case EMERGENCY -> {
                needed("site", happening.site());
                requireMinutes(happening);
                if (happening.by() != null && happening.by().isBefore(happening.at())) {
                    throw new FieldRefusal("by", "rounds.repair.by-gone");
                }
            }
            case ROAD_CLOSED -> {
                needed("site", happening.site());
                needed("other", happening.other());
            }
        }
        if (happening.date().isBefore(dueVisits.today())) {
            throw new FieldRefusal("date", "rounds.repair.gone-by");
        }
    }

    private static void requireMinutes(Happening happening) {
        if (happening.minutes() < 1 || happening.minutes() > MOST_MINUTES) {
            throw new FieldRefusal("minutes", "rounds.repair.minutes-range", happening.minutes(), 1, MOST_MINUTES);
        }
    }

    private static void needed(String field, @Nullable Object value) {
        if (value == null) {
            throw new FieldRefusal(field, "rounds.repair.needed");
        }
    }

    private static boolean onItsWay(SiteView site, List<Rest> all) {
        return all.stream()
                .flatMap(rest -> rest.round().stops().stream())
                .anyMatch(stop -> stop.siteId().equals(site.id()));
    }

    /** What the site needs today: what is due or overdue there, else a call of so many minutes at one of its systems. */
    private RoundTiming.Work emergency(Happening happening, List<Rest> all) {
        SiteView site = sites.find(Optional.ofNullable(happening.site()).orElseThrow())
                .orElseThrow(() -> new FieldRefusal("site", "rounds.no-such-site"));
        if (onItsWay(site, all)) {
            throw new FieldRefusal("site", "rounds.repair.on-its-way", site.name());
        }
        List<HeldVisit> due = rounds.urgentAt(site.id(), happening.date());
        StoredStop stop = new StoredStop(
                new StopId(Uuids.next(clock.instant())),
                site.id(),
                LocalTime.MIN,
                LocalTime.MIN,
                LocalTime.MIN,
                0,
                null,
                null,
                due);
        return due.isEmpty()
                ? calls.work(stop, site, happening)
                : rounds.work(happening.date(), List.of(stop)).getFirst();
    }

    private Proposal proposal(Happening happening, Found found) {
        Map<SiteId, Appointment> before = new HashMap<>();
        Map<SiteId, ToldTimes> told = new HashMap<>();
        for (Rest rest : found.all()) {
            for (StoredStop stop : rest.open()) {
                before.put(stop.siteId(), new Appointment(stop.startsAt(), rest.van()));
                Optional.ofNullable(rest.told().get(stop.id())).ifPresent(times -> told.put(stop.siteId(), times));
            }
        }
        Map<SiteId, Appointment> now = new HashMap<>();
        List<VanDay> days = new ArrayList<>();
        for (int shift = 0; shift < found.driving().size(); shift++) {
            Rest rest = found.driving().get(shift);
            List<Line> lines = new ArrayList<>();
            rest.settled().forEach(stop -> lines.add(new Line(sites.require(stop.siteId()), stop.startsAt(), true)));
            for (VanRound round : found.plan().rounds()) {
                if (round.shift() == shift) {
                    for (PlannedStop visit : round.stops()) {
                        SiteId site = found.work().get(visit.stop()).stop().siteId();
                        LocalTime starts = LocalTime.ofSecondOfDay(visit.startSecond());
                        now.put(site, new Appointment(starts, rest.van()));
                        lines.add(new Line(sites.require(site), starts, false));
                    }
                }
            }
            if (!lines.isEmpty()) {
                @Nullable VanDay earlier = days.isEmpty() ? null : days.getLast();
                if (earlier != null && earlier.van().id().equals(rest.van().id())) {
                    days.removeLast();
                    lines.addAll(0, earlier.lines());
                }
                days.add(new VanDay(rest.van(), lines));
            }
        }
        Set<SiteId> concerned = new HashSet<>(before.keySet());
        found.work().forEach(each -> concerned.add(each.stop().siteId()));
        List<Change> all = concerned.stream()
                .map(site -> change(
                        happening,
                        sites.require(site),
                        before.get(site),
                        now.get(site),
                        Optional.ofNullable(told.get(site)),
                        against(happening, found, site)))
                // An emergency that no van can take was on no round and is on none.
                .filter(change -> change.now().isEmpty() || !change.before().equals(change.now()))
                .sorted(Comparator.comparing(Change::tell)
                        .reversed()
                        .thenComparing(change -> change.site().title()))
                .toList();
        return new Proposal(found.based(), all, days, found.driving().isEmpty());
    }

    private static Optional<WeekReasons.Answer> against(Happening happening, Found found, SiteId site) {
        List<RoundTiming.Work> work = found.work();
        return found.plan().unplaced().stream()
                .filter(stop -> work.get(stop).stop().siteId().equals(site))
                .findFirst()
                .flatMap(stop -> new FleetReasons(found.plan().problem(), orders(found.plan()))
                        .of(stop).stream()
                                .min(Comparator.comparingDouble(FleetReasons.Reason::severity))
                                .map(reason -> new WeekReasons.Answer(
                                        happening.date(),
                                        found.driving().get(reason.shift()).van(),
                                        1,
                                        0,
                                        false,
                                        reason,
                                        reason.otherStop() < 0
                                                ? Optional.empty()
                                                : Optional.of(work.get(reason.otherStop())
                                                        .site()),
                                        Optional.empty())));
    }

    private static Map<Integer, List<Integer>> orders(FleetPlan plan) {
        return plan.rounds().stream()
                .collect(Collectors.toMap(
                        VanRound::shift,
                        round -> round.stops().stream().map(PlannedStop::stop).toList()));
    }

    private static Change change(
            Happening happening,
            SiteView site,
            @Nullable Appointment before,
            @Nullable Appointment now,
            Optional<ToldTimes> told,
            Optional<WeekReasons.Answer> against) {
        boolean cancelled = happening.kind() == Kind.CANCELS && site.id().equals(happening.site());
        boolean tell;
        if (cancelled) {
            tell = false;
        } else if (before == null || now == null) {
            tell = true;
        } else {
            Optional<PersonId> came = before.van().technician();
            tell = !ToldChanges.keeps(told, before.starts(), now.starts())
                    || !came.equals(now.van().technician());
        }
        return new Change(site, Optional.ofNullable(before), Optional.ofNullable(now), told, tell, against);
    }
}
