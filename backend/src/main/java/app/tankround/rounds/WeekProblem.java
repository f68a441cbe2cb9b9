package app.tankround.rounds;

import static java.time.temporal.ChronoUnit.DAYS;

import app.tankround.accounts.PersonId;
import app.tankround.accounts.Roster;
import app.tankround.accounts.VanView;
import app.tankround.accounts.WorkingHours;
import app.tankround.clients.Closure;
import app.tankround.clients.SiteId;
import app.tankround.clients.SiteNeedsView;
import app.tankround.clients.SiteView;
import app.tankround.rounds.solver.Cargo;
import app.tankround.rounds.solver.Evenness;
import app.tankround.rounds.solver.FleetProblem;
import app.tankround.rounds.solver.FleetStop;
import app.tankround.rounds.solver.RoundProblem;
import app.tankround.rounds.solver.StopWishes;
import app.tankround.rounds.solver.VanShift;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.schedule.VisitRhythm;
import app.tankround.tanks.InfectionClass;
import app.tankround.tanks.WaterSystemId;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.function.ToIntFunction;
import java.util.stream.Collectors;
import java.util.stream.LongStream;
import java.util.stream.Stream;

/**
 * Weeks of due visits and vans as the planner takes them. A stop is one site with the visits that are due there about the
 * same day; a shift is a van on a day, or in
 * one half of it, on which it drives and no round is settled.
 *
 * @param from the first day
 * @param sites per stop of the problem
 * @param halves per shift of the problem
 */
record WeekProblem(LocalDate from, List<SiteVisits> sites, List<VanHalf> halves, FleetProblem problem) {

    /** Visits to a site that are due so near each other are done together. */
    private static final int TOGETHER_DAYS = 2;

    private static final int LAST_SECOND = 86_399;
    private static final int SECONDS_PER_MINUTE = 60;
    private static final int DAYS_PER_WEEK = 7;

    /** A van on a day. */
    record VanDay(VanView van, LocalDate day) {}

    /** A piece of a van's day, for which the problem has a shift; the whole day where it is not cut. */
    record VanHalf(VanView van, LocalDate day, WorkingHours hours) {

        VanDay whole() {
            return new VanDay(van, day);
        }
    }

    /**
     * The visits of one site that are done together.
     *
     * @param agreedFirst the first day within what all of them tolerate
     * @param agreedLast the last one
     * @param first the first day on which they may be done at all
     * @param last the last one
     * @param minutes from the arrival of the van to the end of the work, as planning reckons
     */
    record SiteVisits(
            SiteView site,
            List<PlannedVisitView> visits,
            LocalDate due,
            LocalDate agreedFirst,
            LocalDate agreedLast,
            LocalDate first,
            LocalDate last,
            int minutes,
            InfectionClass cleanest,
            InfectionClass sickest) {

        List<PlannedVisitId> ids() {
            return visits.stream().map(PlannedVisitView::id).toList();
        }

        /** The second of a day at which work may begin. */
        int opens() {
            return site.attendedFrom().orElse(LocalTime.MIN).toSecondOfDay();
        }

        /** By how many days a day leaves what is tolerated. */
        private long daysBeyond(LocalDate day) {
            return Math.max(0, Math.max(DAYS.between(day, agreedFirst), DAYS.between(agreedLast, day)));
        }
    }

    /**
     * What a problem is made from, read once.
     *
     * @param today from which a key is asked for
     * @param visits due up to the last day, those of settled rounds left out
     * @param minutes of work on a visit, as planning reckons
     * @param needs per site, as far as anything was said
     * @param rhythms of each visit's agreement
     * @param holidays by day, their names
     * @param settled van-days with a round that stays as it is
     * @param loads of the vans and the stops
     * @param known per site, who came last
     * @param animals that come along to a visit
     * @param told what clients were told of visits
     * @param planned which visits the stops of a plan have, where there is one; without one, what no van carries at once is
     *     parted by its weight
     * @param zone in whose days bags are good or not
     */
    record Facts(
            LocalDate today,
            LocalDate from,
            int weeks,
            List<PlannedVisitView> visits,
            Function<PlannedVisitView, InfectionClass> infection,
            Map<SiteId, SiteView> sites,
            ToIntFunction<PlannedVisitView> minutes,
            Map<SiteId, SiteNeedsView> needs,
            Function<PlannedVisitView, VisitRhythm> rhythms,
            Map<LocalDate, String> holidays,
            List<VanView> vans,
            Roster roster,
            Function<VanView, SiteView> depots,
            Set<VanDay> settled,
            Function<List<SiteVisits>, StopLoads.Loads> loads,
            Map<SiteId, PersonId> known,
            Map<PlannedVisitId, List<AnimalDelivery>> animals,
            Map<PlannedVisitId, ArrivalPromises.Kept> told,
            Optional<List<Set<PlannedVisitId>>> planned,
            ZoneId zone,
            SiteTravel travel) {

        LocalDate last() {
            return from.plusWeeks(weeks).minusDays(1);
        }

        List<AnimalDelivery> animals(List<PlannedVisitView> group) {
            return group.stream()
                    .flatMap(visit -> animals.getOrDefault(visit.id(), List.of()).stream())
                    .toList();
        }

        /** Whether every bag that comes along is good for a while after the site opens. */
        private boolean isGood(SiteVisits here, LocalDate day) {
            return animals(here.visits()).stream()
                    .allMatch(each -> each.canArriveOn(day, zone)
                            && each.lastMinute(day, zone) * SECONDS_PER_MINUTE > here.opens());
        }

        /** By how many days a day leaves what was agreed: a weekday that was not is one. */
        long daysBeyond(SiteVisits here, LocalDate day) {
            boolean weekday = here.visits().stream()
                    .allMatch(visit -> rhythms.apply(visit).weekdays().contains(day.getDayOfWeek()));
            return Math.max(here.daysBeyond(day), weekday ? 0 : 1);
        }

        /** Why a site's visits may not be done on a day; empty where they may. */
        Optional<DayAgainst> against(SiteVisits here, LocalDate day) {
            Optional<SiteNeedsView> there =
                    Optional.ofNullable(needs.get(here.site().id()));
            Optional<Closure> closed = there.flatMap(known -> known.closedOn(day));
            if (closed.isPresent()) {
                return Optional.of(
                        new DayAgainst(DayAgainst.Kind.CLOSED, closed.get().reason()));
            }
            Optional<String> holiday = Optional.ofNullable(holidays.get(day));
            if (holiday.isPresent()) {
                return Optional.of(new DayAgainst(DayAgainst.Kind.HOLIDAY, holiday));
            }
            if (here.visits().stream()
                    .flatMap(visit -> rhythms.apply(visit).pauses().stream())
                    .anyMatch(pause -> pause.contains(day))) {
                return Optional.of(new DayAgainst(DayAgainst.Kind.PAUSED, Optional.empty()));
            }
            if (!there.map(known -> known.opensOn(day.getDayOfWeek())).orElse(true)) {
                return Optional.of(new DayAgainst(DayAgainst.Kind.WEEKDAY, Optional.empty()));
            }
            Optional<Integer> lead =
                    there.flatMap(known -> Optional.ofNullable(known.details().keyLeadDays()));
            if (lead.filter(days -> today.plusDays(days).isAfter(day)).isPresent()) {
                return Optional.of(new DayAgainst(DayAgainst.Kind.KEY, lead.map(Object::toString)));
            }
            if (!isGood(here, day)) {
                return Optional.of(new DayAgainst(DayAgainst.Kind.ANIMALS, Optional.empty()));
            }
            return day.isBefore(here.first()) || day.isAfter(here.last())
                    ? Optional.of(new DayAgainst(DayAgainst.Kind.TOLERANCE, Optional.empty()))
                    : Optional.empty();
        }
    }

    static WeekProblem of(Facts facts, PlanningTerms terms) {
        List<SiteVisits> sites = parted(facts, together(facts, terms.daysBeyond()));
        List<VanHalf> halves = facts.from()
                .datesUntil(facts.last().plusDays(1))
                .flatMap(day -> facts.vans().stream().map(van -> new VanDay(van, day)))
                .filter(day -> !facts.settled().contains(day))
                .flatMap(day -> halves(facts.roster().on(day.van(), day.day()), day))
                .toList();
        List<SiteView> depots =
                facts.vans().stream().map(facts.depots()).distinct().toList();
        StopLoads.Loads loads = facts.loads().apply(sites);
        List<FleetStop> stops = new ArrayList<>();
        for (int k = 0; k < sites.size(); k++) {
            stops.add(stop(facts, sites.get(k), loads.added().get(k), terms));
        }
        List<VanShift> shifts = halves.stream()
                .map(half -> shift(
                        facts,
                        half,
                        depots.indexOf(facts.depots().apply(half.van())),
                        loads.room().getOrDefault(half.van().id(), Cargo.NONE),
                        comesFromSick(facts, sites, half),
                        terms))
                .toList();
        FleetProblem problem = new FleetProblem(
                stops,
                shifts,
                facts.travel()
                        .between(
                                sites.stream().map(SiteVisits::site).toList(),
                                // Without a van there is no depot, and nothing that would be driven.
                                depots.isEmpty()
                                        ? sites.stream()
                                                .map(SiteVisits::site)
                                                .limit(1)
                                                .toList()
                                        : depots),
                terms.weights(),
                terms.disinfection(RoundProblem.DISINFECTION_MINUTES),
                new Evenness(shares(facts.weeks(), stops, shifts), terms.perSecondUneven()),
                terms.reloading());
        return new WeekProblem(facts.from(), sites, halves, problem);
    }

    /**
     * What no van carries at once is brought in parts, system by system, each a stop of its own with an arrival of its own,
     * on the same day by another van or on another day. As a plan has parted it, where there is one.
     */
    private static List<SiteVisits> parted(Facts facts, List<SiteVisits> sites) {
        if (facts.planned().isPresent()) {
            Map<PlannedVisitId, Integer> stopOf = new HashMap<>();
            List<Set<PlannedVisitId>> planned = facts.planned().get();
            for (int stop = 0; stop < planned.size(); stop++) {
                for (PlannedVisitId visit : planned.get(stop)) {
                    stopOf.put(visit, stop);
                }
            }
            return sites.stream()
                    .flatMap(here -> here.visits().stream()
                            .collect(Collectors.groupingBy(
                                    visit -> stopOf.getOrDefault(visit.id(), -1),
                                    LinkedHashMap::new,
                                    Collectors.toList()))
                            .values()
                            .stream()
                            .map(part -> part(facts, here, part)))
                    .toList();
        }
        StopLoads.Loads loads = facts.loads().apply(sites);
        Cargo most = loads.room().values().stream().reduce(Cargo.NONE, Cargo::largerOf);
        List<SiteVisits> all = new ArrayList<>();
        for (int k = 0; k < sites.size(); k++) {
            SiteVisits here = sites.get(k);
            if (fits(loads.added().get(k).alone(), most) || here.visits().size() == 1) {
                all.add(here);
            } else {
                all.addAll(parts(facts, here, most));
            }
        }
        return all;
    }

    private static boolean fits(Cargo load, Cargo room) {
        return load.grams() <= room.grams() && load.millilitres() <= room.millilitres();
    }

    /** In as few parts as filling one after the other takes, clean systems first; one that is too heavy alone stays so. */
    private static List<SiteVisits> parts(Facts facts, SiteVisits here, Cargo most) {
        List<SiteVisits> each = here.visits().stream()
                .sorted(Comparator.comparing(facts.infection()))
                .map(visit -> part(facts, here, List.of(visit)))
                .toList();
        List<StopLoads.Added> loads = facts.loads().apply(each).added();
        List<List<PlannedVisitView>> parts = new ArrayList<>();
        List<List<StopLoads.Added>> filled = new ArrayList<>();
        for (int k = 0; k < each.size(); k++) {
            StopLoads.Added load = loads.get(k);
            int into = 0;
            while (into < parts.size()
                    && !fits(
                            StopLoads.most(Stream.concat(filled.get(into).stream(), Stream.of(load))
                                    .toList()),
                            most)) {
                into++;
            }
            if (into == parts.size()) {
                parts.add(new ArrayList<>());
                filled.add(new ArrayList<>());
            }
            parts.get(into).addAll(each.get(k).visits());
            filled.get(into).add(load);
        }
        return parts.stream().map(part -> part(facts, here, part)).toList();
    }

    private static SiteVisits part(Facts facts, SiteVisits here, List<PlannedVisitView> visits) {
        return visits.size() == here.visits().size()
                ? here
                : visits(
                        facts,
                        here.site(),
                        visits,
                        here.due(),
                        here.agreedFirst(),
                        here.agreedLast(),
                        here.first(),
                        here.last());
    }

    /** Of all the work on site, what falls to each week by the hours that the vans are out in it. */
    private static List<Long> shares(int weeks, List<FleetStop> stops, List<VanShift> shifts) {
        long[] hours = new long[weeks];
        shifts.forEach(shift -> hours[shift.day() / DAYS_PER_WEEK] += shift.regularEndSecond() - shift.startSecond());
        long work = stops.stream().mapToLong(FleetStop::serviceSeconds).sum();
        double all = Math.max(1, LongStream.of(hours).sum());
        return LongStream.of(hours)
                .mapToObj(week -> Math.round(work * (week / all)))
                .toList();
    }

    /** The visits of each site, those due about the same day together; overdue ones as if due on the first day. */
    private static List<SiteVisits> together(Facts facts, int beyond) {
        Map<SiteId, List<PlannedVisitView>> bySite = facts.visits().stream()
                .sorted(Comparator.comparing(PlannedVisitView::dueOn)
                        .thenComparing(visit -> visit.id().value()))
                .collect(Collectors.groupingBy(PlannedVisitView::siteId, LinkedHashMap::new, Collectors.toList()));
        List<SiteVisits> all = new ArrayList<>();
        bySite.forEach((site, visits) -> {
            List<List<PlannedVisitView>> groups = groups(visits, facts.from());
            for (int k = 0; k < groups.size(); k++) {
                LocalDate earliest = k == 0
                        ? LocalDate.MIN
                        : halfWay(due(groups.get(k - 1), facts.from()), due(groups.get(k), facts.from()))
                                .plusDays(1);
                LocalDate latest = k + 1 == groups.size()
                        ? LocalDate.MAX
                        : halfWay(due(groups.get(k), facts.from()), due(groups.get(k + 1), facts.from()));
                all.add(visits(facts, beyond, site, groups.get(k), earliest, latest));
            }
        });
        return all;
    }

    private static List<List<PlannedVisitView>> groups(List<PlannedVisitView> visits, LocalDate from) {
        List<List<PlannedVisitView>> groups = new ArrayList<>();
        for (PlannedVisitView visit : visits) {
            if (groups.isEmpty() || !together(groups.getLast(), visit, from)) {
                groups.add(new ArrayList<>());
            }
            groups.getLast().add(visit);
        }
        return joined(groups, from);
    }

    /** Of one system only what is overdue is done together with the next, since of its other visits each is owed. */
    private static boolean together(List<PlannedVisitView> group, PlannedVisitView visit, LocalDate from) {
        LocalDate day = due(visit, from);
        return !day.isAfter(due(group, from).plusDays(TOGETHER_DAYS))
                && group.stream()
                        .allMatch(other -> !other.waterSystemId().equals(visit.waterSystemId())
                                || other.dueOn().isBefore(from));
    }

    /** Visits that tolerate it are done with those of other systems, so that the van comes once. */
    private static List<List<PlannedVisitView>> joined(List<List<PlannedVisitView>> groups, LocalDate from) {
        List<List<PlannedVisitView>> kept = new ArrayList<>(groups);
        for (List<PlannedVisitView> group : groups) {
            int tolerated = group.stream()
                    .mapToInt(PlannedVisitView::toleranceDays)
                    .min()
                    .orElse(0);
            kept.stream()
                    .filter(other -> other != group && away(group, other, from) <= tolerated && apart(group, other))
                    .min(Comparator.comparingLong(other -> away(group, other, from)))
                    .ifPresent(nearest -> {
                        kept.remove(group);
                        nearest.addAll(group);
                    });
        }
        return kept;
    }

    private static long away(List<PlannedVisitView> one, List<PlannedVisitView> other, LocalDate from) {
        return Math.abs(DAYS.between(due(one, from), due(other, from)));
    }

    /** Whether the two have no system in common. */
    private static boolean apart(List<PlannedVisitView> one, List<PlannedVisitView> other) {
        Set<WaterSystemId> systems =
                one.stream().map(PlannedVisitView::waterSystemId).collect(Collectors.toSet());
        return other.stream().noneMatch(visit -> systems.contains(visit.waterSystemId()));
    }

    /** Of those that are done together; other visits of the site keep their side of half the way to them. */
    private static SiteVisits visits(
            Facts facts, int beyond, SiteId site, List<PlannedVisitView> group, LocalDate earliest, LocalDate latest) {
        LocalDate due = due(group, facts.from());
        LocalDate agreedFirst = group.stream()
                .map(visit -> nominal(visit, facts.from()).minusDays(visit.toleranceDays()))
                .reduce(LocalDate.MIN, WeekProblem::later);
        LocalDate agreedLast = group.stream()
                .map(visit -> nominal(visit, facts.from()).plusDays(visit.toleranceDays()))
                .reduce(LocalDate.MAX, WeekProblem::earlier);
        // Visits of different days that are done together tolerate no day in common: then their own day is agreed.
        LocalDate from = agreedFirst.isAfter(agreedLast) ? due : agreedFirst;
        LocalDate until = agreedFirst.isAfter(agreedLast) ? due : agreedLast;
        return visits(
                facts,
                Optional.ofNullable(facts.sites().get(site)).orElseThrow(),
                group,
                due,
                later(from, facts.from()),
                until,
                later(later(from.minusDays(beyond), earliest), facts.from()),
                earlier(earlier(until.plusDays(beyond), latest), facts.last()));
    }

    private static SiteVisits visits(
            Facts facts,
            SiteView site,
            List<PlannedVisitView> group,
            LocalDate due,
            LocalDate agreedFirst,
            LocalDate agreedLast,
            LocalDate first,
            LocalDate last) {
        List<InfectionClass> classes =
                group.stream().map(facts.infection()).sorted().toList();
        int arrival = Optional.ofNullable(facts.needs().get(site.id()))
                .flatMap(needs -> Optional.ofNullable(needs.details().arrivalMinutes()))
                .orElse(0);
        return new SiteVisits(
                site,
                List.copyOf(group),
                due,
                agreedFirst,
                agreedLast,
                first,
                last,
                arrival
                        + group.stream().mapToInt(facts.minutes()).sum()
                        + facts.animals(group).stream()
                                .mapToInt(AnimalDelivery::acclimationMinutes)
                                .sum(),
                classes.getFirst(),
                classes.getLast());
    }

    private static LocalDate nominal(PlannedVisitView visit, LocalDate from) {
        return later(visit.nominalOn(), from);
    }

    private static LocalDate due(PlannedVisitView visit, LocalDate from) {
        return later(visit.dueOn(), from);
    }

    private static LocalDate due(List<PlannedVisitView> group, LocalDate from) {
        return due(group.getFirst(), from);
    }

    private static LocalDate halfWay(LocalDate before, LocalDate after) {
        return before.plusDays(DAYS.between(before, after) / 2);
    }

    private static LocalDate later(LocalDate one, LocalDate other) {
        return one.isAfter(other) ? one : other;
    }

    private static LocalDate earlier(LocalDate one, LocalDate other) {
        return one.isBefore(other) ? one : other;
    }

    private static FleetStop stop(Facts facts, SiteVisits here, StopLoads.Added load, PlanningTerms terms) {
        Optional<ArrivalPromises.Kept> told = ArrivalPromises.Kept.last(
                        here.visits().stream().map(PlannedVisitView::id), facts.told())
                .filter(kept -> !kept.day().isBefore(facts.from()));
        List<List<Integer>> choices = new ArrayList<>();
        List<Long> choiceCosts = new ArrayList<>();
        // One window holds for all days: where bags are good for a part of the last, no day begins later than that.
        int closes = here.site().attendedUntil().orElse(LocalTime.MAX).toSecondOfDay();
        for (LocalDate day = here.first(); !day.isAfter(here.last()); day = day.plusDays(1)) {
            if (facts.against(here, day).isEmpty()) {
                choices.add(List.of(index(facts.from(), day)));
                LocalDate on = day;
                // As much as another time on the same day costs.
                boolean otherDay = told.filter(kept -> !kept.day().equals(on)).isPresent();
                choiceCosts.add(PlanningTerms.cost(terms.dayBeyond()) * facts.daysBeyond(here, day)
                        + (otherDay ? PlanningTerms.cost(terms.promise()) : 0));
                for (AnimalDelivery each : facts.animals(here.visits())) {
                    closes = Math.min(closes, each.lastMinute(day, facts.zone()) * SECONDS_PER_MINUTE);
                }
            }
        }
        Set<String> skills = CrewNeeds.of(facts.needs().get(here.site().id()), here.minutes());
        if (choices.isEmpty()) {
            choices.add(List.of(index(facts.from(), here.due())));
            choiceCosts.add(0L);
            skills.add(CrewNeeds.OPEN_DAY);
        }
        PersonId known = facts.known().get(here.site().id());
        return new FleetStop(
                Math.min(LAST_SECOND, here.minutes() * SECONDS_PER_MINUTE),
                here.opens(),
                Math.max(here.opens(), closes),
                load.delivered(),
                load.collected(),
                skills,
                here.cleanest(),
                here.sickest(),
                PlanningTerms.cost(terms.leftOut()),
                choices,
                new StopWishes(
                        choiceCosts,
                        null,
                        told.map(kept -> kept.times().promise(terms)).orElse(null),
                        known == null ? "" : known.toString(),
                        PlanningTerms.cost(terms.stranger())));
    }

    static int index(LocalDate from, LocalDate day) {
        return Math.toIntExact(DAYS.between(from, day));
    }

    private static Stream<VanHalf> halves(Roster.Day crew, VanDay day) {
        return crew.drives()
                ? crew.hours().orElseThrow().halves().stream().map(hours -> new VanHalf(day.van(), day.day(), hours))
                : Stream.empty();
    }

    /** Whether the half before may have ended with something sick, so that the later one begins with a disinfection. */
    private static boolean comesFromSick(Facts facts, List<SiteVisits> sites, VanHalf half) {
        Roster.Day crew = facts.roster().on(half.van(), half.day());
        boolean later = half.hours().from().isAfter(crew.hours().orElseThrow().from());
        return later
                && sites.stream()
                        .anyMatch(here -> here.sickest().isSick()
                                && facts.against(here, half.day()).isEmpty());
    }

    private static VanShift shift(
            Facts facts, VanHalf half, int depot, Cargo capacity, boolean fromSick, PlanningTerms terms) {
        Roster.Day crew = facts.roster().on(half.van(), half.day());
        WorkingHours hours = half.hours();
        return new VanShift(
                index(facts.from(), half.day()),
                depot,
                depot,
                hours.from().toSecondOfDay(),
                hours.until().toSecondOfDay(),
                terms.latestEnd(hours.until()),
                capacity,
                CrewNeeds.of(crew),
                crew.people().stream().findFirst().map(PersonId::toString).orElse(""),
                fromSick,
                false,
                terms.rest(hours.from(), hours.from()));
    }
}
