package app.tankround.rounds;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.Crews;
import app.tankround.accounts.Fleet;
import app.tankround.accounts.Roster;
import app.tankround.accounts.VanId;
import app.tankround.accounts.VanView;
import app.tankround.accounts.WorkingHours;
import app.tankround.clients.SiteId;
import app.tankround.clients.SiteNeedsService;
import app.tankround.clients.SiteNeedsView;
import app.tankround.clients.SiteService;
import app.tankround.clients.SiteView;
import app.tankround.rounds.ArrivalPromises.ToldTimes;
import app.tankround.rounds.DayRepairs.Happening;
import app.tankround.rounds.DayRepairs.Kind;
import app.tankround.rounds.StoredRound.HeldVisit;
import app.tankround.rounds.StoredRound.StoredStop;
import app.tankround.rounds.solver.Cargo;
import app.tankround.rounds.solver.FleetProblem;
import app.tankround.rounds.solver.FleetStop;
import app.tankround.rounds.solver.RoundProblem;
import app.tankround.rounds.solver.StopWishes;
import app.tankround.rounds.solver.TimeWindow;
import app.tankround.rounds.solver.TravelLeg;
import app.tankround.rounds.solver.TravelTimes;
import app.tankround.rounds.solver.VanShift;
import java.time.Duration;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** The rest of a day as the planner takes it: what each van has done by then, what is open, and where the van is. */
@Component
class RestOfDay {

    private static final int LAST_SECOND = 86_399;
    private static final int SECONDS_PER_MINUTE = 60;

    private final RoundTables tables;
    private final TravelTable travelTable;
    private final RoundService rounds;
    private final PlanningSettings settings;
    private final StopLoads loads;
    private final ArrivalPromises promises;
    private final SiteService sites;
    private final SiteNeedsService needs;
    private final Fleet fleet;
    private final Crews crews;
    private final BusinessProfile business;

    RestOfDay(
            RoundTables tables,
            TravelTable travelTable,
            RoundService rounds,
            PlanningSettings settings,
            StopLoads loads,
            ArrivalPromises promises,
            SiteService sites,
            SiteNeedsService needs,
            Fleet fleet,
            Crews crews,
            BusinessProfile business) {
        this.tables = tables;
        this.travelTable = travelTable;
        this.rounds = rounds;
        this.settings = settings;
        this.loads = loads;
        this.promises = promises;
        this.sites = sites;
        this.needs = needs;
        this.fleet = fleet;
        this.crews = crews;
        this.business = business;
    }

    /**
     * One round of a van for the rest of the day, or a van without one.
     *
     * @param told what clients at its open stops were told
     * @param from where it is
     * @param free from when on it can drive on
     * @param back when it has to be back to load for the next round of the van; null for the last one
     * @param dayBegins when the van leaves for its first round
     * @param fromSick whether that was left sick, or may be by the round before
     */
    record Rest(
            VanView van,
            Roster.Day crew,
            StoredRound round,
            boolean stored,
            List<StoredStop> settled,
            List<StoredStop> open,
            Map<StopId, ToldTimes> told,
            SiteView from,
            SiteView depot,
            LocalTime free,
            @Nullable LocalTime back,
            LocalTime dayBegins,
            boolean fromSick) {

        Rest within(LocalTime newFree, @Nullable LocalTime newBack, LocalTime newDayBegins, boolean newFromSick) {
            return new Rest(
                    van,
                    crew,
                    round,
                    stored,
                    settled,
                    open,
                    told,
                    from,
                    depot,
                    newFree,
                    newBack,
                    newDayBegins,
                    newFromSick);
        }
    }

    /** Every round of the day, and every van that could have one; those of one van follow each other. */
    List<Rest> rests(Happening happening) {
        Map<VanId, List<StoredRound>> stored =
                tables.on(happening.date()).stream().collect(Collectors.groupingBy(StoredRound::vanId));
        ZoneId zone = business.current().zone();
        Roster roster = crews.roster(happening.date());
        List<Rest> all = new ArrayList<>();
        for (VanView van : fleet.vans()) {
            List<StoredRound> ofVan = stored.getOrDefault(van.id(), List.of());
            Optional<SiteView> depot = sites.ofDepot(van.depotId());
            Roster.Day crew = roster.on(van, happening.date());
            boolean spare = crew.hours().isPresent() && !crew.people().isEmpty();
            if (depot.isEmpty() || ofVan.isEmpty() && !spare) {
                continue;
            }
            List<StoredRound> inTurn = ofVan.isEmpty() ? List.of(rounds.empty(happening.date(), van, roster)) : ofVan;
            all.addAll(inTurn(
                    happening,
                    inTurn.stream()
                            .map(round -> rest(happening, van, crew, round, !ofVan.isEmpty(), depot.get(), zone))
                            .toList()));
        }
        return all;
    }

    /**
     * The rounds of one van after each other. Each but the last is back in time for the next, or as late as it will be
     * because work overruns; the next leaves once the van has loaded then. What is sick may be moved to the end of any round,
     * so a further round leaves as if it had been.
     */
    private List<Rest> inTurn(Happening happening, List<Rest> ofVan) {
        Duration loading = Duration.ofMinutes(settings.current().reloadMinutes());
        boolean sick = ofVan.size() > 1
                && rounds
                        .work(
                                happening.date(),
                                ofVan.stream()
                                        .flatMap(rest -> rest.round().stops().stream())
                                        .toList())
                        .stream()
                        .anyMatch(work -> work.sickest().isSick());
        List<Rest> inTurn = new ArrayList<>();
        boolean underWay = false;
        LocalTime ready = LocalTime.MIN;
        List<StoredRound> stored = ofVan.stream().map(Rest::round).toList();
        for (int trip = 0; trip < ofVan.size(); trip++) {
            Rest rest = ofVan.get(trip);
            boolean last = trip == ofVan.size() - 1;
            LocalTime returns = rest.round().timing().returnsAt();
            LocalTime free = later(rest.free(), ready);
            boolean now = !underWay && (last || happening.at().isBefore(returns));
            underWay |= now;
            if (now && overruns(happening, rest)) {
                free = later(free, happening.minutes());
                returns = later(returns, happening.minutes());
            }
            LocalTime back = null;
            if (!last) {
                back = later(returns, earlier(ofVan.get(trip + 1).round().leavesAt(), loading));
            }
            LocalTime began = rounds.began(stored.subList(0, trip), rest.round());
            inTurn.add(rest.within(free, back, began, rest.fromSick() || trip > 0 && sick));
            ready = back == null ? ready : later(back, Math.toIntExact(loading.toMinutes()));
        }
        return inTurn;
    }

    private static boolean overruns(Happening happening, Rest rest) {
        return happening.kind() == Kind.OVERRUN && rest.van().id().equals(happening.van());
    }

    private static LocalTime later(LocalTime one, LocalTime other) {
        return one.isAfter(other) ? one : other;
    }

    /** No later than the end of the day. */
    private static LocalTime later(LocalTime time, int minutes) {
        return LocalTime.ofSecondOfDay(Math.min(LAST_SECOND, time.toSecondOfDay() + minutes * SECONDS_PER_MINUTE));
    }

    /** No earlier than its begin. */
    private static LocalTime earlier(LocalTime time, Duration by) {
        return LocalTime.ofSecondOfDay(Math.max(0, time.toSecondOfDay() - by.toSeconds()));
    }

    private Rest rest(
            Happening happening,
            VanView van,
            Roster.Day crew,
            StoredRound round,
            boolean stored,
            SiteView depot,
            ZoneId zone) {
        boolean dropsOut = happening.kind() == Kind.DROPS_OUT && van.id().equals(happening.van());
        List<StoredStop> settled = new ArrayList<>();
        List<StoredStop> open = new ArrayList<>();
        for (StoredStop stop : round.stops()) {
            boolean stays =
                    stop.startedAt() != null || stop.startsAt().isBefore(happening.at()) || round.locked() && !dropsOut;
            (stays ? settled : open).add(stop);
        }
        LocalTime free = happening.at().isAfter(round.leavesAt()) ? happening.at() : round.leavesAt();
        SiteView from = depot;
        boolean fromSick = false;
        if (!settled.isEmpty()) {
            StoredStop last = settled.getLast();
            RoundTiming.Work there =
                    rounds.work(happening.date(), List.of(last)).getFirst();
            LocalTime left = last.leftAt(zone);
            free = left.isAfter(happening.at()) ? left : happening.at();
            from = there.site();
            fromSick = there.sickest().isSick();
        }
        return new Rest(
                van,
                crew,
                round,
                stored,
                settled,
                open,
                promises.told(open, happening.date()),
                from,
                depot,
                free,
                null,
                round.leavesAt(),
                fromSick);
    }

    /** The problem whose stops are the work, and whose shifts are the vans that drive. */
    FleetProblem problem(Happening happening, List<Rest> all, List<Rest> driving, List<RoundTiming.Work> work) {
        PlanningTerms terms = settings.current();
        Map<SiteId, SiteNeedsView> asked =
                needs.known(work.stream().map(each -> each.stop().siteId()).collect(Collectors.toSet()));
        StopLoads.Loads carried = loads(happening, driving, work);
        List<SiteView> depots = new ArrayList<>();
        List<VanShift> shifts = new ArrayList<>();
        for (Rest rest : driving) {
            shifts.add(shift(rest, depots.size(), work, carried, terms));
            depots.add(rest.from());
            depots.add(rest.depot());
        }
        List<FleetStop> stops = new ArrayList<>();
        for (int k = 0; k < work.size(); k++) {
            RoundTiming.Work each = work.get(k);
            Optional<Rest> by = holder(all, each.stop());
            stops.add(stop(
                    happening,
                    each,
                    by,
                    carried.added().get(k),
                    required(asked.get(each.stop().siteId()), each, by.map(Rest::crew)),
                    terms));
        }
        return new FleetProblem(
                stops,
                shifts,
                travel(happening, work, depots),
                terms.weights(),
                terms.disinfection(RoundProblem.DISINFECTION_MINUTES));
    }

    private static Optional<Rest> holder(List<Rest> all, StoredStop stop) {
        return all.stream().filter(rest -> rest.open().contains(stop)).findFirst();
    }

    /** What the stop needs; what was planned without it stays possible as it was planned. */
    private static Set<String> required(
            @Nullable SiteNeedsView site, RoundTiming.Work work, Optional<Roster.Day> planned) {
        Set<String> needed = CrewNeeds.of(site, work.minutes());
        planned.map(CrewNeeds::of).ifPresent(needed::retainAll);
        return needed;
    }

    private StopLoads.Loads loads(Happening happening, List<Rest> driving, List<RoundTiming.Work> work) {
        return loads.of(
                driving.stream().map(Rest::van).toList(),
                happening.date(),
                work.stream()
                        .map(each -> new StopLoads.Asked(
                                each.site(),
                                happening.date(),
                                each.stop().visits().stream().map(HeldVisit::id).toList(),
                                each.sickest().isSick()))
                        .toList());
    }

    /** What was planned too long or too heavy stays possible as it was planned. */
    private VanShift shift(
            Rest rest, int depot, List<RoundTiming.Work> work, StopLoads.Loads carried, PlanningTerms terms) {
        Optional<WorkingHours> half = rest.crew().hours().map(hours -> hours.at(rest.free()));
        LocalTime free = rest.free();
        if (rest.round().stops().isEmpty()) {
            // Whoever has no round yet sets out in working hours.
            free = half.map(WorkingHours::from)
                    .map(from -> later(rest.free(), from))
                    .orElse(free);
        }
        int start = free.toSecondOfDay();
        LocalTime until =
                half.map(WorkingHours::until).orElse(rest.round().timing().returnsAt());
        LocalTime back = rest.back();
        int latestEnd = back != null
                ? Math.max(start, back.toSecondOfDay())
                : Math.max(
                        terms.latestEnd(until),
                        rest.round().timing().returnsAt().toSecondOfDay());
        int regularEnd = Math.max(start, until.toSecondOfDay());
        if (back != null) {
            regularEnd = Math.min(regularEnd, latestEnd);
        }
        Cargo room = carried.room().getOrDefault(rest.van().id(), Cargo.NONE);
        // What is on the road already is not too heavy or too full for it.
        Cargo planned = StopLoads.most(IntStream.range(0, work.size())
                .filter(k -> rest.open().contains(work.get(k).stop()))
                .mapToObj(k -> carried.added().get(k))
                .toList());
        return new VanShift(
                0,
                depot,
                depot + 1,
                start,
                regularEnd,
                Math.max(regularEnd, latestEnd),
                planned.largerOf(room),
                CrewNeeds.of(rest.crew()),
                rest.van().id().toString(),
                rest.fromSick(),
                // What was planned already is no reason to send anybody home.
                !rest.round().stops().isEmpty(),
                terms.rest(rest.dayBegins(), rest.free()));
    }

    private static FleetStop stop(
            Happening happening,
            RoundTiming.Work work,
            Optional<Rest> planned,
            StopLoads.Added cargo,
            Set<String> skills,
            PlanningTerms terms) {
        TimeWindow window = work.window();
        int opens = window == null ? 0 : window.fromMinute() * SECONDS_PER_MINUTE;
        return new FleetStop(
                Math.min(LAST_SECOND, work.minutes() * SECONDS_PER_MINUTE),
                opens,
                Math.max(opens, closes(happening, work, planned)),
                cargo.delivered(),
                cargo.collected(),
                skills,
                work.cleanest(),
                work.sickest(),
                PlanningTerms.cost(terms.leftOut()),
                List.of(List.of(0)),
                new StopWishes(
                        List.of(),
                        null,
                        planned.map(rest -> promise(work.stop(), rest, terms)).orElse(null),
                        planned.map(rest -> rest.van().id().toString()).orElse(""),
                        PlanningTerms.cost(terms.stranger())));
    }

    private static int closes(Happening happening, RoundTiming.Work work, Optional<Rest> planned) {
        if (planned.isEmpty()) {
            return Optional.ofNullable(happening.by())
                    .map(LocalTime::toSecondOfDay)
                    .orElse(LAST_SECOND);
        }
        TimeWindow window = work.window();
        int closes = window == null ? LAST_SECOND : Math.min(LAST_SECOND, window.untilMinute() * SECONDS_PER_MINUTE);
        // What was planned too late is still to be done.
        return Math.max(closes, work.stop().startsAt().toSecondOfDay());
    }

    /** What the client was told; where nobody was, about the time at which work was to start. */
    private static StopWishes.Promise promise(StoredStop stop, Rest planned, PlanningTerms terms) {
        int starts = stop.startsAt().toSecondOfDay();
        int slack = Math.toIntExact(DayRepairs.PROMISE.toSeconds());
        return Optional.ofNullable(planned.told().get(stop.id()))
                .map(times -> times.promise(terms))
                .orElseGet(() -> new StopWishes.Promise(
                        starts - slack, starts + slack, PlanningTerms.cost(terms.promise()), terms.perSecondLate()));
    }

    /** As ever, but for a road that is closed. */
    private TravelTimes travel(Happening happening, List<RoundTiming.Work> work, List<SiteView> depots) {
        TravelTimes usual = travelTable
                .travel()
                .between(work.stream().map(RoundTiming.Work::site).toList(), depots);
        Set<SiteId> closed = Stream.of(Optional.ofNullable(happening.site()), Optional.ofNullable(happening.other()))
                .flatMap(Optional::stream)
                .collect(Collectors.toSet());
        return new TravelTimes() {
            @Override
            public TravelLeg leg(int from, int to) {
                return usual.leg(from, to);
            }

            @Override
            public boolean drivable(int from, int to) {
                return usual.drivable(from, to)
                        && !(happening.kind() == Kind.ROAD_CLOSED
                                && closed.equals(Stream.of(site(from).id(), site(to).id())
                                        .collect(Collectors.toSet())));
            }

            private SiteView site(int name) {
                return name >= 0 ? work.get(name).site() : depots.get(TravelTimes.DEPOT - name);
            }
        };
    }
}
