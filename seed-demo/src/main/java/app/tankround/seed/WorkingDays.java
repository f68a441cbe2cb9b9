package app.tankround.seed;

import app.tankround.clients.SiteId;
import app.tankround.clients.SiteService;
import app.tankround.clients.SiteView;
import app.tankround.instruments.InstrumentId;
import app.tankround.readings.NewReading;
import app.tankround.readings.ReadingService;
import app.tankround.rounds.ArrivalPromises;
import app.tankround.rounds.RoundService;
import app.tankround.rounds.RoundView;
import app.tankround.rounds.StopView;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.Quantity;
import app.tankround.visits.StockOfVisits;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** Works through the days of the history: checks of instruments, readings at the depot and the visits of both vans. */
@Component
class WorkingDays {

    private static final LocalTime EVENING = LocalTime.of(20, 30);
    private static final LocalTime DEPOT_TIME = LocalTime.of(7, 20);
    private static final LocalTime FIRST_STOP = LocalTime.of(8, 20);
    private static final int MINUTES_PER_SYSTEM = 12;
    private static final int SHORTEST_VISIT = 15;
    /** On one day of so many a van leaves late, by that many minutes. */
    private static final int LATE_DAYS = 12;

    private static final int LATE_MINUTES = 35;
    /** Of a straight line, on the roads around the harbour. */
    private static final double SECONDS_PER_KM = 145;

    private static final double LOW_SUMP_SHARE = 0.05;

    /** How far back clients were told when somebody comes. */
    private static final int DAYS_WITH_TIMES_TOLD = 40;

    /** How far back photos were taken and reports handed over. */
    private static final int DAYS_WITH_REPORTS = 24;

    /** Systems that are photographed at each visit; the reports of their sites are handed over. */
    private static final Set<Story> PHOTOGRAPHED = Set.of(Story.BROWN_FILM, Story.LATE_AMMONIA, Story.LOW_SUMP);

    private final Toolbox toolbox;
    private final Staff staff;
    private final SiteService sites;
    private final WaterSystems systems;
    private final DueVisits dueVisits;
    private final ReadingService readings;
    private final RoundService rounds;
    private final ArrivalPromises promises;
    private final VisitBook visits;
    private final Paperwork paperwork;
    private final WaterPlant waterPlant;
    private final Shelf shelf;
    private final StockOfVisits stock;
    private final DemoClock clock;

    WorkingDays(
            Toolbox toolbox,
            Staff staff,
            SiteService sites,
            WaterSystems systems,
            DueVisits dueVisits,
            ReadingService readings,
            RoundService rounds,
            ArrivalPromises promises,
            VisitBook visits,
            Paperwork paperwork,
            WaterPlant waterPlant,
            Shelf shelf,
            StockOfVisits stock,
            DemoClock clock) {
        this.toolbox = toolbox;
        this.staff = staff;
        this.sites = sites;
        this.systems = systems;
        this.dueVisits = dueVisits;
        this.readings = readings;
        this.rounds = rounds;
        this.promises = promises;
        this.visits = visits;
        this.paperwork = paperwork;
        this.waterPlant = waterPlant;
        this.shelf = shelf;
        this.stock = stock;
        this.clock = clock;
    }

    /** What a month's work needs to know again and again. */
    private record Known(
            DemoDays days,
            Technicians technicians,
            Map<SiteId, PlannedSite> sites,
            Map<WaterSystemId, PlannedSystem> systems,
            Map<String, WaterSystemId> ids,
            Measuring measuring) {

        PlannedSystem system(WaterSystemId id) {
            return Optional.ofNullable(systems.get(id)).orElseThrow();
        }
    }

    /** Works through a month of the history. */
    void work(int month, DemoDays days) {
        clock.standAt(DemoDays.at(days.month(month), FIRST_STOP));
        dueVisits.planUntil(days.month(month + 1));
        Known known = known(days);
        for (LocalDate day : days.daysOf(month)) {
            List<Tool> due = DemoDays.isClosed(day) ? List.of() : Toolbox.dueOn(day, days);
            staff.asOffice(() -> toolbox.check(due, day, known.technicians()));
            save(atDepot(known, day), day);
            clock.standAt(DemoDays.at(day, FIRST_STOP.minusHours(1)));
            List<PlannedVisitView> planned = DemoDays.isWorkingDay(day) ? dueVisits.dueOn(day) : List.of();
            if (DemoDays.isClosed(day)) {
                planned.forEach(visit -> dueVisits.drop(visit.id(), "Closed over the holidays"));
            } else {
                visit(known, day, planned);
            }
        }
    }

    private Known known(DemoDays days) {
        Map<String, PlannedSite> planned =
                Clientele.all().stream().collect(Collectors.toMap(PlannedSite::siteCode, Function.identity()));
        Map<SiteId, PlannedSite> bySite = new HashMap<>();
        for (SiteView site : sites.all()) {
            Optional.ofNullable(planned.get(site.code())).ifPresent(found -> bySite.put(site.id(), found));
        }
        Map<String, PlannedSystem> byCode = new HashMap<>();
        Clientele.atDepot().forEach(system -> byCode.put(system.code(), system));
        planned.values().stream()
                .flatMap(site -> site.systems().stream())
                .forEach(system -> byCode.put(system.code(), system));
        Map<WaterSystemId, PlannedSystem> bySystem = new HashMap<>();
        Map<String, WaterSystemId> ids = new HashMap<>();
        for (WaterSystemView system : systems.all()) {
            Optional.ofNullable(byCode.get(system.code())).ifPresent(found -> {
                bySystem.put(system.id(), found);
                ids.put(system.code(), system.id());
            });
        }
        Map<String, InstrumentId> instruments = toolbox.ids();
        return new Known(days, staff.technicians(), bySite, bySystem, ids, new Measuring(days, instruments));
    }

    private void save(List<NewReading> written, LocalDate day) {
        clock.standAt(DemoDays.at(day, EVENING));
        if (!written.isEmpty()) {
            readings.recordAll(written);
        }
    }

    /** The water plant on the first day of the week, and the quarantine every other day. */
    private List<NewReading> atDepot(Known known, LocalDate day) {
        List<NewReading> written = new ArrayList<>();
        Instant at = DemoDays.at(day, DEPOT_TIME);
        for (PlannedSystem system : Clientele.atDepot()) {
            @Nullable WaterSystemId id = known.ids().get(system.code());
            boolean quarantine = system.story() == Story.RESTARTED_QUARANTINE;
            boolean due = quarantine
                    ? ChronoUnit.DAYS.between(day, known.days().today()) % 2 == 1
                    : day.getDayOfWeek() == DayOfWeek.MONDAY;
            if (id == null || !due || day.isBefore(system.enteredOn(known.days().start(), known.days()))) {
                continue;
            }
            boolean last = !day.isBefore(known.days().today().minusDays(7));
            var sampling = new Measuring.Sampling(
                    system, id, day, at, 1, known.technicians().of(1), Optional.empty(), last);
            if (system.code().equals("W-003")) {
                written.add(known.measuring().one(sampling, Quantity.SALINITY, at));
                written.add(known.measuring().one(sampling, Quantity.TEMPERATURE, at));
            } else if (system.code().equals(WaterPlant.CODE)) {
                written.addAll(waterPlant.readOff(
                        sampling, known.days(), known.measuring().instruments()));
            } else {
                written.addAll(known.measuring().at(sampling));
            }
            at = at.plusSeconds(120);
        }
        return written;
    }

    /** Whether no later visit of the rhythm lies before today. */
    private static boolean isLast(Known known, PlannedSite site, LocalDate day) {
        return Stream.iterate(day.plusWeeks(site.everyWeeks()), next -> next.plusWeeks(site.everyWeeks()))
                .dropWhile(DemoDays::isClosed)
                .findFirst()
                .filter(next -> next.isBefore(known.days().today()))
                .isEmpty();
    }

    private void visit(Known known, LocalDate day, List<PlannedVisitView> planned) {
        Map<SiteId, List<PlannedVisitView>> bySite = planned.stream()
                .collect(Collectors.groupingBy(PlannedVisitView::siteId, LinkedHashMap::new, Collectors.toList()));
        Map<PlannedVisitId, PlannedVisitView> byId =
                planned.stream().collect(Collectors.toMap(PlannedVisitView::id, Function.identity()));
        List<StopView> reported = new ArrayList<>();
        staff.asOffice(shelf::takeDownWhatIsDry);
        for (int van : Technicians.VANS) {
            List<SiteId> there = bySite.keySet().stream()
                    .filter(site -> site(known, site).van() == van)
                    .toList();
            if (!there.isEmpty()) {
                RoundView round = rounds.require(rounds.plan(day, staff.van(van).id(), there));
                if (!day.isBefore(known.days().today().minusDays(DAYS_WITH_TIMES_TOLD))) {
                    staff.asOffice(() -> promises.tellAll(round.id()));
                }
                List<PlannedVisitView> due = round.stops().stream()
                        .flatMap(stop -> due(stop, byId).stream())
                        .toList();
                staff.asOffice(() -> shelf.load(round, due));
                workOff(known, day, van, round, byId);
                round.stops().stream()
                        .filter(stop -> isReported(known, site(known, stop.siteId()), day))
                        .forEach(reported::add);
            }
        }
        clock.standAt(DemoDays.at(day, EVENING));
        visits.handIn();
        boolean more = true;
        while (more) {
            more = stock.bookNext();
        }
        staff.asOffice(() -> {
            shelf.wash(day);
            paperwork.handOver(reported);
        });
    }

    private static boolean isReported(Known known, PlannedSite site, LocalDate day) {
        return !day.isBefore(known.days().today().minusDays(DAYS_WITH_REPORTS))
                && site.systems().stream().anyMatch(system -> PHOTOGRAPHED.contains(system.story()));
    }

    private static PlannedSite site(Known known, SiteId id) {
        return Optional.ofNullable(known.sites().get(id)).orElseThrow();
    }

    private static List<PlannedVisitView> due(StopView stop, Map<PlannedVisitId, PlannedVisitView> byId) {
        return stop.plannedVisits().stream()
                .flatMap(id -> Optional.ofNullable(byId.get(id)).stream())
                .toList();
    }

    /** What was planned is not what happens: the van leaves late, the road is slow, and work takes as long as it takes. */
    private void workOff(
            Known known, LocalDate day, int van, RoundView round, Map<PlannedVisitId, PlannedVisitView> byId) {
        SplittableRandom random = Waters.random("road" + van + day);
        long late = random.nextInt(LATE_DAYS) == 0 ? LATE_MINUTES : random.nextInt(9);
        @Nullable PlannedSite before = null;
        Instant free = DemoDays.at(day, FIRST_STOP);
        for (StopView stop : round.stops()) {
            PlannedSite site = site(known, stop.siteId());
            Instant arrives = before == null
                    ? DemoDays.at(day, stop.starts().plusMinutes(late))
                    : free.plusSeconds(
                            Math.round(SECONDS_PER_KM * before.kmTo(site) * (0.85 + 0.4 * random.nextDouble())));
            Instant opens =
                    site.hours().map(hours -> DemoDays.at(day, hours.from())).orElse(arrives);
            free = enter(known, day, stop, due(stop, byId), arrives.isBefore(opens) ? opens : arrives);
            before = site;
        }
    }

    /**
     * Enters a visit that begins then and takes as long as such visits do.
     *
     * @return when it ends
     */
    private Instant enter(Known known, LocalDate day, StopView stop, List<PlannedVisitView> due, Instant start) {
        PlannedSite site = site(known, stop.siteId());
        SplittableRandom random = Waters.random("pace" + site.siteCode() + day);
        double pace = 0.95 + 0.05 * (site.number() % 6) + 0.1 * random.nextDouble();
        long worked = Math.round(
                pace * due.stream().mapToInt(PlannedVisitView::allMinutes).sum());
        Instant end = start.plus(Math.max(worked, SHORTEST_VISIT), ChronoUnit.MINUTES);
        boolean last = isLast(known, site, day);
        VisitBook.Open open = visits.open(stop.id(), known.technicians().of(site.van()), start);
        Instant at = start.plus(2, ChronoUnit.MINUTES);
        for (PlannedVisitView visit : due) {
            PlannedSystem system = known.system(visit.waterSystemId());
            known.measuring()
                    .at(new Measuring.Sampling(
                            system,
                            visit.waterSystemId(),
                            day,
                            at,
                            site.van(),
                            known.technicians().of(site.van()),
                            Optional.of(stop.id().value()),
                            last))
                    .forEach(open::read);
            at = at.plus(MINUTES_PER_SYSTEM, ChronoUnit.MINUTES);
            boolean low = system.story() == Story.LOW_SUMP && last;
            if (system.kind().isSalt()) {
                Optional<BigDecimal> missing = low
                        ? Optional.of(BigDecimal.valueOf(system.litres() * LOW_SUMP_SHARE)
                                .setScale(0, RoundingMode.HALF_EVEN))
                        : Optional.empty();
                open.waterLevel(visit.waterSystemId(), missing, end);
            }
            open.work(visit, visit.waterSystemId(), system.litres(), end);
            if (PHOTOGRAPHED.contains(system.story()) && isReported(known, site, day)) {
                open.photo(
                        visit.waterSystemId(),
                        system.name() + " when we left",
                        Picture.jpeg(system, system.code() + day),
                        end);
            }
            if (system.story() == Story.BROWN_FILM) {
                open.film(visit.waterSystemId(), true, end);
                open.note(
                        Optional.of(visit.waterSystemId()),
                        "Thin brown film on sand and panes. No animals yet. Left alone.",
                        end);
            }
        }
        open.close(end);
        return end;
    }
}
