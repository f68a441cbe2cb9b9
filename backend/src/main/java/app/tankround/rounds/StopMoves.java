package app.tankround.rounds;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.ChangeLog;
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
import app.tankround.persistence.Uuids;
import app.tankround.rounds.ArrivalPromises.ToldTimes;
import app.tankround.rounds.DayRepairs.Appointment;
import app.tankround.rounds.StoredRound.StoredStop;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Clock;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** What comes of moving stops of a round to another one, of whichever van and day, and doing it. */
@Service
public class StopMoves {

    private static final int SECONDS_PER_HOUR = 3600;
    private static final int MINUTES_PER_HOUR = 60;
    private static final int METRES_PER_KILOMETRE = 1000;

    private final RoundTables tables;
    private final RoundService rounds;
    private final ArrivalPromises promises;
    private final ToldChanges toldChanges;
    private final PlanningSettings settings;
    private final DueVisits dueVisits;
    private final SiteService sites;
    private final SiteNeedsService needs;
    private final Fleet fleet;
    private final Crews crews;
    private final BusinessProfile business;
    private final ChangeLog changes;
    private final Clock clock;

    StopMoves(
            RoundTables tables,
            RoundService rounds,
            ArrivalPromises promises,
            ToldChanges toldChanges,
            PlanningSettings settings,
            DueVisits dueVisits,
            SiteService sites,
            SiteNeedsService needs,
            Fleet fleet,
            Crews crews,
            BusinessProfile business,
            ChangeLog changes,
            Clock clock) {
        this.tables = tables;
        this.rounds = rounds;
        this.promises = promises;
        this.toldChanges = toldChanges;
        this.settings = settings;
        this.dueVisits = dueVisits;
        this.sites = sites;
        this.needs = needs;
        this.fleet = fleet;
        this.crews = crews;
        this.business = business;
        this.changes = changes;
        this.clock = clock;
    }

    /**
     * A round that stops may go to.
     *
     * @param trip which of the van's rounds of that day; one more than it has for a new one
     */
    public record Target(LocalDate date, VanId van, int trip) {}

    /**
     * What comes of a move.
     *
     * @param left the round without the stops, in its best order
     * @param gained the other round with them, in its best order
     * @param price what both cost more than they do now, by the terms of planning, in the business's currency: the road, a van
     *     that leaves or loads again, overtime, days beyond what was agreed, and promises that are broken; below 0 where they
     *     cost less
     * @param tell whoever has to be told another time
     */
    public record Outcome(
            List<StopId> stops,
            Target target,
            RoundView left,
            RoundView gained,
            BigDecimal price,
            List<SiteView> tell) {

        public Outcome {
            stops = List.copyOf(stops);
            tell = List.copyOf(tell);
        }
    }

    /** The move as it would be stored. */
    private record Move(
            StoredRound from,
            StoredRound left,
            Optional<StoredRound> to,
            StoredRound gained,
            BigDecimal price,
            List<Told> tell) {}

    /** Whoever has to be told another time. */
    private record Told(SiteView site, LocalDate day, Appointment before, LocalDate instead, Appointment now) {}

    /**
     * Where stops of a round may go: to the other rounds of its van and a further one, and to those of every van that drives on
     * one of these days, has the people for them and has not left.
     */
    @Transactional(readOnly = true)
    public List<Target> targets(RoundId id, Collection<LocalDate> days) {
        StoredRound from = tables.find(id).orElseThrow(() -> new NotFound("round", id));
        LocalDate today = dueVisits.today();
        List<Target> targets = new ArrayList<>();
        for (LocalDate day : days) {
            Roster roster = crews.roster(day);
            Map<VanId, List<StoredRound>> ofDay =
                    tables.on(day).stream().collect(Collectors.groupingBy(StoredRound::vanId));
            for (VanView van : fleet.vans()) {
                if (day.isBefore(today)
                        || !roster.on(van, day).drives()
                        || sites.ofDepot(van.depotId()).isEmpty()) {
                    continue;
                }
                List<StoredRound> its = Optional.ofNullable(ofDay.get(van.id())).orElse(List.of());
                its.stream()
                        .filter(round -> !round.id().equals(id) && !round.settled() && !isGone(day, round.leavesAt()))
                        .forEach(round -> targets.add(new Target(day, van.id(), round.trip())));
                boolean idle = its.isEmpty()
                        && roster.on(van, day)
                                .hours()
                                .filter(hours -> !isGone(day, hours.from()))
                                .isPresent();
                if (idle || !its.isEmpty() && its.getLast().id().equals(id)) {
                    targets.add(new Target(day, van.id(), its.size() + 1));
                }
            }
        }
        return targets.stream()
                .filter(target -> target.trip() <= RoundService.MOST_TRIPS)
                .filter(target -> !from.date().isAfter(target.date()))
                .toList();
    }

    /** Whether that time of a day is over. */
    private boolean isGone(LocalDate day, LocalTime leavesAt) {
        return !LocalDateTime.of(day, leavesAt)
                .isAfter(LocalDateTime.now(clock.withZone(business.current().zone())));
    }

    /**
     * What would come of a move; empty where the stops cannot go there: their work has begun, the site keeps closed or has a stop
     * there already, nobody in that van may do the work, it would be back too late, or come later than anybody is at the site.
     */
    @Transactional(readOnly = true)
    public Optional<Outcome> tried(RoundId id, List<StopId> stops, Target target) {
        StoredRound from = tables.find(id).orElseThrow(() -> new NotFound("round", id));
        try {
            Move move = move(from, stops, target);
            return fits(move)
                    ? Optional.of(new Outcome(
                            stops,
                            target,
                            rounds.view(move.left()),
                            rounds.view(move.gained()),
                            move.price(),
                            move.tell().stream().map(Told::site).toList()))
                    : Optional.empty();
        } catch (FieldRefusal cannot) {
            return Optional.empty();
        }
    }

    /**
     * Moves stops to another round and opens a matter for each site whose client has to be told.
     *
     * @return the round that they are on now
     * @throws app.tankround.web.StaleVersion if the round was changed since that version
     * @throws FieldRefusal if work at a stop has begun, the other round skips a number or has the site already, or either would
     *     end after midnight
     */
    @Transactional
    public RoundId move(RoundId id, int version, List<StopId> stops, Target target) {
        StoredRound seen = rounds.stored(id, version);
        Stream.of(seen.vanId(), target.van())
                .distinct()
                .sorted((one, other) -> one.value().compareTo(other.value()))
                .forEach(tables::lockVan);
        Move move = move(rounds.stored(id, version), stops, target);
        // A visit is on one round at a time, so it leaves before it arrives.
        rounds.update(move.left());
        String code;
        if (move.to().isPresent()) {
            // Where it is a later one of the same van, its times followed.
            StoredRound now = tables.find(move.to().get().id()).orElseThrow();
            code = now.code();
            rounds.update(rounds.ordered(now, move.gained().stops())
                    .as(now.trip(), move.gained().notBefore()));
        } else {
            code = tables.nextCode();
            tables.insert(move.gained().numbered(code));
        }
        move.tell().forEach(this::tell);
        seen.stops().stream()
                .filter(stop -> stops.contains(stop.id()))
                .forEach(stop -> changes.record(
                        "round",
                        id,
                        "stop-moved",
                        Map.of("code", seen.code(), "site", stop.siteId().toString(), "to", code)));
        changes.record(
                "round",
                move.gained().id(),
                move.to().isPresent() ? "stops-added" : "planned",
                Map.of("code", code, "stops", move.gained().stops().size()));
        return move.gained().id();
    }

    private void tell(Told told) {
        if (told.day().equals(told.instead())) {
            toldChanges.tell(told.day(), told.site(), Optional.of(told.before()), Optional.of(told.now()));
        } else {
            toldChanges.tellOtherDay(told.day(), told.site(), told.before(), told.instead(), told.now());
        }
    }

    private Move move(StoredRound from, List<StopId> ids, Target target) {
        List<StoredStop> moved =
                from.stops().stream().filter(stop -> ids.contains(stop.id())).toList();
        if (moved.isEmpty() || moved.size() != Set.copyOf(ids).size()) {
            throw new NotFound("stop", ids);
        }
        moved.stream().filter(stop -> stop.startedAt() != null).findFirst().ifPresent(begun -> {
            throw new FieldRefusal(
                    "stop", "rounds.stop-begun", sites.require(begun.siteId()).name());
        });
        VanView van = fleet.find(target.van())
                .orElseThrow(() -> new FieldRefusal(
                        "van", "rounds.no-such-van", target.van().toString()));
        List<StoredRound> ofDay = tables.of(van.id(), target.date());
        RoundService.requireTrip(van, ofDay, target.trip());
        Optional<StoredRound> to =
                ofDay.stream().filter(each -> each.trip() == target.trip()).findFirst();
        to.filter(round -> round.id().equals(from.id())
                        || moved.stream().anyMatch(stop -> RoundService.indexOf(round.stops(), stop.siteId()) >= 0))
                .ifPresent(round -> {
                    throw new FieldRefusal(
                            "stop",
                            "rounds.stop-cannot-move",
                            sites.require(moved.getFirst().siteId()).name());
                });
        StoredRound left = rounds.ordered(
                from,
                from.stops().stream().filter(stop -> !moved.contains(stop)).toList());
        Optional<StoredRound> before = ofDay.stream()
                .filter(each -> each.trip() == target.trip() - 1)
                .findFirst()
                .map(each -> each.id().equals(left.id()) ? left : each);
        StoredRound bare = to.orElseGet(() -> rounds.empty(target.date(), van, crews.roster(target.date()), "")
                .as(target.trip(), null));
        List<StoredStop> stops = new ArrayList<>(bare.stops());
        // Their rows belong to the round that they leave.
        moved.forEach(stop -> stops.add(new StoredStop(
                new StopId(Uuids.next(clock.instant())),
                stop.siteId(),
                LocalTime.MIN,
                LocalTime.MIN,
                LocalTime.MIN,
                0,
                null,
                null,
                stop.visits())));
        StoredRound turn = rounds.inTurn(bare, before);
        StoredRound gained = rounds.afterBreak(van, rounds.ordered(turn, stops, rounds.earlier(turn, before)), before);
        List<Told> tell = told(from, left, to, gained);
        return new Move(from, left, to, gained, price(from, left, to, gained, tell), tell);
    }

    // What it comes to

    private boolean fits(Move move) {
        return late(Stream.of(move.left(), move.gained()))
                        <= late(Stream.concat(Stream.of(move.from()), move.to().stream()))
                && inHours(move)
                && open(move)
                && maybeDone(move);
    }

    private static int late(Stream<StoredRound> all) {
        return all.flatMap(round -> round.stops().stream())
                .mapToInt(StoredStop::lateMinutes)
                .sum();
    }

    /** Not out longer than the crew may be, but where it was so already. */
    private boolean inHours(Move move) {
        StoredRound gained = move.gained();
        LocalTime back = gained.timing().returnsAt();
        return !back.isBefore(gained.leavesAt())
                && (move.to()
                                .filter(round -> !round.timing().returnsAt().isBefore(back))
                                .isPresent()
                        || hours(gained)
                                .filter(half -> back.toSecondOfDay()
                                        <= settings.current().latestEnd(half.until()))
                                .isPresent());
    }

    private Optional<WorkingHours> hours(StoredRound round) {
        return crews.roster(round.date())
                .on(fleet.require(round.vanId()), round.date())
                .hours()
                .map(hours -> hours.at(round.leavesAt()));
    }

    /** Whether somebody can come to the sites on that day. */
    private boolean open(Move move) {
        LocalDate day = move.gained().date();
        return day.equals(move.from().date())
                || needs.known(sitesOf(moved(move))).values().stream()
                        .allMatch(site -> site.closedOn(day).isEmpty() && site.opensOn(day.getDayOfWeek()));
    }

    /** Whether whoever is in that van may do the work. */
    private boolean maybeDone(Move move) {
        if (move.gained().vanId().equals(move.from().vanId())
                && move.gained().date().equals(move.from().date())) {
            return true;
        }
        Roster.Day crew = crews.roster(move.gained().date())
                .on(fleet.require(move.gained().vanId()), move.gained().date());
        Set<String> has = CrewNeeds.of(crew);
        List<StoredStop> moved = moved(move);
        Map<SiteId, SiteNeedsView> asked = needs.known(sitesOf(moved));
        return rounds.work(move.gained().date(), moved).stream()
                .allMatch(work ->
                        has.containsAll(CrewNeeds.of(asked.get(work.stop().siteId()), work.minutes())));
    }

    private static List<StoredStop> moved(Move move) {
        Set<SiteId> stay = move.to().stream()
                .flatMap(round -> round.stops().stream())
                .map(StoredStop::siteId)
                .collect(Collectors.toSet());
        return move.gained().stops().stream()
                .filter(stop -> !stay.contains(stop.siteId()))
                .toList();
    }

    private static Set<SiteId> sitesOf(List<StoredStop> stops) {
        return stops.stream().map(StoredStop::siteId).collect(Collectors.toSet());
    }

    /** Whoever was told a time that is not kept; on the day itself also whoever expects the time planned. */
    private List<Told> told(StoredRound from, StoredRound left, Optional<StoredRound> to, StoredRound gained) {
        Map<SiteId, Planned> now = new HashMap<>();
        Stream.of(left, gained)
                .forEach(round ->
                        planned(round).forEach(each -> now.put(each.stop().siteId(), each)));
        List<Told> tell = new ArrayList<>();
        Stream.concat(Stream.of(from), to.stream()).forEach(round -> {
            Map<StopId, ToldTimes> times = promises.told(round.stops(), round.date());
            for (Planned was : planned(round)) {
                Optional<ToldTimes> said =
                        Optional.ofNullable(times.get(was.stop().id()));
                @Nullable Planned will = now.get(was.stop().siteId());
                boolean expected = said.isPresent() || round.date().equals(dueVisits.today());
                if (will != null && expected && !keeps(said, was, will)) {
                    tell.add(new Told(
                            sites.require(was.stop().siteId()),
                            was.day(),
                            new Appointment(was.stop().startsAt(), was.van()),
                            will.day(),
                            new Appointment(will.stop().startsAt(), will.van())));
                }
            }
        });
        return tell;
    }

    private record Planned(StoredStop stop, LocalDate day, VanView van) {}

    private List<Planned> planned(StoredRound round) {
        VanView van = fleet.require(round.vanId());
        return round.stops().stream()
                .map(stop -> new Planned(stop, round.date(), van))
                .toList();
    }

    private static boolean keeps(Optional<ToldTimes> said, Planned was, Planned will) {
        return was.day().equals(will.day())
                && ToldChanges.keeps(said, was.stop().startsAt(), will.stop().startsAt());
    }

    private BigDecimal price(
            StoredRound from, StoredRound left, Optional<StoredRound> to, StoredRound gained, List<Told> tell) {
        PlanningTerms terms = settings.current();
        BigDecimal now = cost(left, terms).add(cost(gained, terms));
        BigDecimal before =
                cost(from, terms).add(to.map(round -> cost(round, terms)).orElse(BigDecimal.ZERO));
        return now.subtract(before)
                .add(terms.promise().multiply(BigDecimal.valueOf(tell.size())))
                .add(terms.dayBeyond().multiply(BigDecimal.valueOf(daysBeyond(from, gained))))
                .setScale(2, RoundingMode.HALF_EVEN);
    }

    /** By how many days the visits leave what was agreed, more than they do now. */
    private long daysBeyond(StoredRound from, StoredRound gained) {
        if (from.date().equals(gained.date())) {
            return 0;
        }
        Set<PlannedVisitId> held = new HashSet<>();
        from.stops().forEach(stop -> stop.visits().forEach(visit -> held.add(visit.id())));
        return dueVisits
                .find(gained.stops().stream()
                        .flatMap(stop -> stop.visits().stream())
                        .map(StoredRound.HeldVisit::id)
                        .filter(held::contains)
                        .toList())
                .stream()
                .mapToLong(visit -> beyond(visit, gained.date()) - beyond(visit, from.date()))
                .sum();
    }

    private static long beyond(PlannedVisitView visit, LocalDate day) {
        return Math.max(0, ChronoUnit.DAYS.between(visit.nominalOn().plusDays(visit.toleranceDays()), day));
    }

    /** What a round costs by itself; one without stops costs nothing. */
    private BigDecimal cost(StoredRound round, PlanningTerms terms) {
        if (round.stops().isEmpty()) {
            return BigDecimal.ZERO;
        }
        BigDecimal road = terms.drivingHour()
                .multiply(BigDecimal.valueOf(round.timing().drivingSeconds()))
                .divide(BigDecimal.valueOf(SECONDS_PER_HOUR), 6, RoundingMode.HALF_EVEN)
                .add(terms.kilometre()
                        .multiply(BigDecimal.valueOf(round.timing().distanceM()))
                        .divide(BigDecimal.valueOf(METRES_PER_KILOMETRE), 6, RoundingMode.HALF_EVEN));
        long overtime = hours(round)
                .map(half -> Math.max(
                        0L,
                        ChronoUnit.MINUTES.between(half.until(), round.timing().returnsAt())))
                .orElse(0L);
        return road.add(round.trip() == 1 ? terms.round() : terms.reload())
                .add(terms.overtimeHour()
                        .multiply(BigDecimal.valueOf(overtime))
                        .divide(BigDecimal.valueOf(MINUTES_PER_HOUR), 6, RoundingMode.HALF_EVEN));
    }
}
