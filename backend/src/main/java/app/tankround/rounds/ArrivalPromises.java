package app.tankround.rounds;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.ChangeLog;
import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.Fleet;
import app.tankround.accounts.PersonId;
import app.tankround.chemistry.statistics.BinomialShare;
import app.tankround.clients.SiteId;
import app.tankround.clients.SiteService;
import app.tankround.clients.SiteView;
import app.tankround.rounds.StoredRound.HeldVisit;
import app.tankround.rounds.StoredRound.StoredStop;
import app.tankround.rounds.solver.RoundProblem;
import app.tankround.rounds.solver.StopWishes;
import app.tankround.schedule.AgreementId;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.LearnedMinutes;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.OffsetDateTime;
import java.time.YearMonth;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * Times that clients can be told, and whether they were kept. A time is the one at which work starts: on arrival, or when
 * the site opens.
 */
@Service
public class ArrivalPromises {

    private static final int SECONDS_PER_MINUTE = 60;
    /** Nobody is told a time to the minute. */
    private static final int STEP_SECONDS = 300;

    /** Nor a shorter while than that, however sure it is. */
    private static final int SHORTEST_MINUTES = 15;

    private static final int LAST_STEP = 86_400 / STEP_SECONDS - 1;
    private static final double PERCENT = 100;

    private final RoundTables tables;
    private final RoundService rounds;
    private final RoundTimes times;
    private final PlanningSettings settings;
    private final TravelTable travelTable;
    private final DueVisits dueVisits;
    private final SiteService sites;
    private final Fleet fleet;
    private final BusinessProfile business;
    private final CurrentPerson currentPerson;
    private final ChangeLog changes;
    private final JdbcClient jdbc;
    private final Clock clock;

    ArrivalPromises(
            RoundTables tables,
            RoundService rounds,
            RoundTimes times,
            PlanningSettings settings,
            TravelTable travelTable,
            DueVisits dueVisits,
            SiteService sites,
            Fleet fleet,
            BusinessProfile business,
            CurrentPerson currentPerson,
            ChangeLog changes,
            JdbcClient jdbc,
            Clock clock) {
        this.tables = tables;
        this.rounds = rounds;
        this.times = times;
        this.settings = settings;
        this.travelTable = travelTable;
        this.dueVisits = dueVisits;
        this.sites = sites;
        this.fleet = fleet;
        this.business = business;
        this.currentPerson = currentPerson;
        this.changes = changes;
        this.jdbc = jdbc;
        this.clock = clock;
    }

    /** What a client was told last for a visit. */
    record Kept(PlannedVisitId visit, LocalDate day, ToldTimes times, int confidence, Instant at) {

        /** What was said last of any of these visits. */
        static Optional<Kept> last(Stream<PlannedVisitId> visits, Map<PlannedVisitId, Kept> told) {
            return visits.flatMap(visit -> Optional.ofNullable(told.get(visit)).stream())
                    .max(Comparator.comparing(Kept::at));
        }
    }

    /** Between which times a client was told that somebody comes. */
    public record ToldTimes(LocalTime from, LocalTime until) {

        /** Whether work that starts then keeps them; both ends do, to the minute. */
        public boolean keeps(LocalTime starts) {
            return !starts.isBefore(from) && starts.isBefore(until.plusMinutes(1));
        }

        /** The same for the planner, and what it costs not to keep them. */
        StopWishes.Promise promise(PlanningTerms terms) {
            return new StopWishes.Promise(
                    from.toSecondOfDay(),
                    until.toSecondOfDay() + SECONDS_PER_MINUTE - 1,
                    PlanningTerms.cost(terms.promise()),
                    terms.perSecondLate());
        }
    }

    /** What the clients at the stops of a round were told last for its day, where they were told anything. */
    @Transactional(readOnly = true)
    public Map<StopId, ToldTimes> told(RoundId id) {
        StoredRound round = tables.find(id).orElseThrow(() -> new NotFound("round", id));
        return told(round.stops(), round.date());
    }

    /** What the clients at these stops were told last for that day, where they were told anything. */
    Map<StopId, ToldTimes> told(List<StoredStop> stops, LocalDate date) {
        Map<PlannedVisitId, Kept> told = toldAt(stops);
        Map<StopId, ToldTimes> ofDay = new HashMap<>();
        for (StoredStop stop : stops) {
            Kept.last(stop.visits().stream().map(HeldVisit::id), told)
                    .filter(kept -> kept.day().equals(date))
                    .ifPresent(kept -> ofDay.put(stop.id(), kept.times()));
        }
        return ofDay;
    }

    /** When work starts at the stops of a round that are still to come, and what their clients were told. */
    @Transactional(readOnly = true)
    public Map<StopId, ArrivalWindow> windows(RoundId id) {
        return windows(tables.find(id).orElseThrow(() -> new NotFound("round", id)));
    }

    private Map<StopId, ArrivalWindow> windows(StoredRound round) {
        List<RoundTiming.Work> work = rounds.work(round.date(), round.stops());
        List<RoundTiming.Work> open =
                work.stream().filter(each -> each.stop().startedAt() == null).toList();
        Optional<SiteView> depot = fleet.find(round.vanId()).flatMap(van -> sites.ofDepot(van.depotId()));
        if (open.isEmpty() || depot.isEmpty()) {
            return Map.of();
        }
        ArrivalSimulation simulation = simulate(round, depot.get(), work, open);
        int confidence = times.rules().confidence();
        double beside = (1 - confidence / PERCENT) / 2;
        Map<PlannedVisitId, Kept> told = toldAt(round.stops());
        Map<StopId, ArrivalWindow> windows = new HashMap<>();
        for (int k = 0; k < open.size(); k++) {
            int stop = k;
            StoredStop stored = open.get(k).stop();
            LocalTime from = earlier(simulation.quantile(k, beside));
            LocalTime until = later(simulation.quantile(k, 1 - beside));
            LocalTime soonest = from.plusMinutes(SHORTEST_MINUTES);
            windows.put(
                    stored.id(),
                    new ArrivalWindow(
                            from,
                            until.isBefore(soonest) && soonest.isAfter(from) ? soonest : until,
                            confidence,
                            Kept.last(stored.visits().stream().map(HeldVisit::id), told)
                                    .map(kept -> told(kept, round.date(), simulation, stop))));
        }
        return windows;
    }

    private static ArrivalWindow.Told told(Kept kept, LocalDate day, ArrivalSimulation simulation, int stop) {
        double likely = kept.day().equals(day)
                ? simulation.within(
                        stop,
                        kept.times().from().toSecondOfDay(),
                        kept.times().until().toSecondOfDay() + SECONDS_PER_MINUTE)
                : 0;
        return new ArrivalWindow.Told(
                kept.day(), kept.times().from(), kept.times().until(), kept.confidence(), kept.at(), (int)
                        Math.round(likely * PERCENT));
    }

    private static LocalTime earlier(double second) {
        return step(Math.floor(second / STEP_SECONDS));
    }

    private static LocalTime later(double second) {
        return step(Math.ceil(second / STEP_SECONDS));
    }

    private static LocalTime step(double number) {
        return LocalTime.ofSecondOfDay((long) Math.clamp(number, 0, LAST_STEP) * STEP_SECONDS);
    }

    private ArrivalSimulation simulate(
            StoredRound round, SiteView depot, List<RoundTiming.Work> work, List<RoundTiming.Work> open) {
        SiteTravel travel = travelTable.travel();
        Map<PlannedVisitId, PlannedVisitView> visits =
                dueVisits
                        .find(work.stream()
                                .flatMap(each -> each.stop().visits().stream())
                                .map(HeldVisit::id)
                                .toList())
                        .stream()
                        .collect(Collectors.toMap(PlannedVisitView::id, Function.identity()));
        Map<AgreementId, LearnedMinutes> learned = times.learned(visits.values());
        ZoneId zone = business.current().zone();
        int begun = work.size() - open.size();
        List<ArrivalSimulation.Leg> legs = new ArrayList<>();
        SiteView origin = begun == 0 ? depot : work.get(begun - 1).site();
        RoundTiming.Before before = rounds.before(round);
        boolean sick =
                begun == 0 ? before.sick() : work.get(begun - 1).sickest().isSick();
        LocalTime leaves =
                begun == 0 ? round.leavesAt() : work.get(begun - 1).stop().leftAt(zone);
        LocalTime onTheRoad = leaves;
        for (RoundTiming.Work each : open) {
            double seconds =
                    travel.leg(origin, each.site(), onTheRoad.getHour()).seconds();
            boolean known = travel.isKnown(origin, each.site());
            boolean disinfects = sick && !each.cleanest().isSick();
            legs.add(new ArrivalSimulation.Leg(
                    seconds,
                    seconds
                            * (known
                                    ? LearnedTravel.USUAL_SPREAD
                                    : travel.learned().spread()),
                    disinfects ? RoundProblem.DISINFECTION_MINUTES * SECONDS_PER_MINUTE : 0,
                    each.window() == null ? 0 : each.window().fromMinute() * SECONDS_PER_MINUTE,
                    each.minutes() * SECONDS_PER_MINUTE,
                    SECONDS_PER_MINUTE * spread(each.stop(), visits, learned)));
            origin = each.site();
            sick = each.sickest().isSick();
            onTheRoad = each.stop().departsAt();
        }
        return ArrivalSimulation.of(
                leaves.toSecondOfDay(),
                legs,
                settings.current().rest(before.began(), leaves),
                ArrivalSimulation.TRIES,
                round.id().value().getLeastSignificantBits());
    }

    /** Standard deviation of the work at a stop in minutes: its visits are longer or shorter each for itself. */
    private static double spread(
            StoredStop stop, Map<PlannedVisitId, PlannedVisitView> visits, Map<AgreementId, LearnedMinutes> learned) {
        return Math.sqrt(stop.visits().stream()
                .flatMap(held -> Optional.ofNullable(visits.get(held.id())).stream())
                .flatMap(visit -> Optional.ofNullable(learned.get(visit.agreementId())).stream())
                .mapToDouble(known -> known.spread() * known.spread())
                .sum());
    }

    private Map<PlannedVisitId, Kept> toldAt(List<StoredStop> stops) {
        return told(stops.stream()
                .flatMap(stop -> stop.visits().stream())
                .map(HeldVisit::id)
                .collect(Collectors.toSet()));
    }

    /** What the clients of these visits were told last, where they were told anything. */
    Map<PlannedVisitId, Kept> told(Collection<PlannedVisitId> visits) {
        return jdbc
                .sql("""
                        select planned_visit_id, service_date, from_time, until_time, confidence, told_at
                        from arrival_promise
                        where planned_visit_id = any(:visits)
                        """)
                .param("visits", visits.stream().map(PlannedVisitId::value).toArray(UUID[]::new))
                .query((row, number) -> new Kept(
                        new PlannedVisitId(row.getObject("planned_visit_id", UUID.class)),
                        row.getObject("service_date", LocalDate.class),
                        new ToldTimes(
                                row.getObject("from_time", LocalTime.class),
                                row.getObject("until_time", LocalTime.class)),
                        row.getInt("confidence"),
                        row.getObject("told_at", OffsetDateTime.class).toInstant()))
                .list()
                .stream()
                .collect(Collectors.toMap(Kept::visit, Function.identity()));
    }

    /**
     * Says that a client was told the times that stand at a stop now. What was told before no longer stands.
     *
     * @throws NotFound if there is no such stop on the round
     * @throws FieldRefusal if work at the stop has begun
     */
    @Transactional
    public void tell(RoundId id, StopId stopId) {
        StoredRound round = tables.find(id).orElseThrow(() -> new NotFound("round", id));
        StoredStop stop = round.stops().stream()
                .filter(each -> each.id().equals(stopId))
                .findFirst()
                .orElseThrow(() -> new NotFound("stop", stopId));
        tell(round, List.of(stop));
    }

    /** Says that the clients of all stops of a round that have not begun were told their times. */
    @Transactional
    public void tellAll(RoundId id) {
        StoredRound round = tables.find(id).orElseThrow(() -> new NotFound("round", id));
        tell(
                round,
                round.stops().stream().filter(stop -> stop.startedAt() == null).toList());
    }

    private void tell(StoredRound round, List<StoredStop> stops) {
        Map<StopId, ArrivalWindow> windows = windows(round);
        @Nullable UUID person = currentPerson.id().map(PersonId::value).orElse(null);
        for (StoredStop stop : stops) {
            ArrivalWindow window = Optional.ofNullable(windows.get(stop.id()))
                    .orElseThrow(() -> new FieldRefusal(
                            "stop",
                            "rounds.stop-begun",
                            sites.require(stop.siteId()).name()));
            jdbc.sql("""
                            insert into arrival_promise (planned_visit_id, service_date, from_time, until_time, confidence, told_at, told_by)
                            select visit, :day, :from, :until, :confidence, :at, :by
                            from unnest(cast(:visits as uuid[])) as visit
                            on conflict (planned_visit_id) do update
                            set service_date = excluded.service_date, from_time = excluded.from_time,
                                until_time = excluded.until_time, confidence = excluded.confidence,
                                told_at = excluded.told_at, told_by = excluded.told_by
                            """)
                    .param(
                            "visits",
                            stop.visits().stream()
                                    .map(visit -> visit.id().value())
                                    .toArray(UUID[]::new))
                    .param("day", round.date())
                    .param("from", window.from())
                    .param("until", window.until())
                    .param("confidence", window.confidence())
                    .param("at", clock.instant().atOffset(ZoneOffset.UTC))
                    .param("by", person)
                    .update();
            changes.record(
                    "round",
                    round.id(),
                    "time-told",
                    Map.of(
                            "code",
                            round.code(),
                            "site",
                            stop.siteId().toString(),
                            "from",
                            window.from().toString(),
                            "until",
                            window.until().toString()));
        }
    }

    /** A promise of a day gone by, with what became of it. */
    private record Outcome(
            SiteId site, LocalDate day, LocalTime from, LocalTime until, int confidence, Optional<Instant> came) {

        boolean isKept(ZoneId zone) {
            return came.map(at -> at.atZone(zone))
                    .filter(at -> at.toLocalDate().equals(day)
                            && !at.toLocalTime().isBefore(from)
                            && at.toLocalTime().isBefore(until.plusMinutes(1)))
                    .isPresent();
        }
    }

    /**
     * How many of the times told were kept, by the month of the day told, newest first. Visits that were dropped do not
     * count. Work starts the minutes from arrival to work later than the van comes.
     */
    @Transactional(readOnly = true)
    public List<PromiseMonth> months() {
        ZoneId zone = business.current().zone();
        List<Outcome> outcomes = jdbc.sql("""
                        select distinct v.site_id, p.service_date, p.from_time, p.until_time, p.confidence, (
                                   select min(s.started_at) - make_interval(mins => coalesce(max(n.arrival_minutes), 0))
                                   from round_stop_visit sv
                                   join round_stop s on s.id = sv.stop_id
                                   left join site_needs n on n.site_id = s.site_id
                                   where sv.planned_visit_id = p.planned_visit_id and s.started_at is not null
                               ) as came
                        from arrival_promise p
                        join planned_visit v on v.id = p.planned_visit_id
                        where v.state in ('DUE', 'DONE') and p.service_date < :today
                        """)
                .param("today", dueVisits.today())
                .query((row, number) -> new Outcome(
                        new SiteId(row.getObject("site_id", UUID.class)),
                        row.getObject("service_date", LocalDate.class),
                        row.getObject("from_time", LocalTime.class),
                        row.getObject("until_time", LocalTime.class),
                        row.getInt("confidence"),
                        Optional.ofNullable(row.getObject("came", OffsetDateTime.class))
                                .map(OffsetDateTime::toInstant)))
                .list();
        return outcomes.stream()
                .collect(Collectors.groupingBy(outcome -> YearMonth.from(outcome.day())))
                .entrySet()
                .stream()
                .sorted(Map.Entry.<YearMonth, List<Outcome>>comparingByKey().reversed())
                .map(month -> month(month.getKey(), month.getValue(), zone))
                .toList();
    }

    private static PromiseMonth month(YearMonth month, List<Outcome> outcomes, ZoneId zone) {
        int kept =
                (int) outcomes.stream().filter(outcome -> outcome.isKept(zone)).count();
        return new PromiseMonth(
                month,
                outcomes.size(),
                kept,
                outcomes.stream().mapToInt(Outcome::confidence).average().orElse(0),
                BinomialShare.of(kept, outcomes.size()));
    }
}
