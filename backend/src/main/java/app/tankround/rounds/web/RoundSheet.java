package app.tankround.rounds.web;

import app.tankround.accounts.BusinessProfile;
import app.tankround.clients.SiteService;
import app.tankround.clients.SiteView;
import app.tankround.rounds.AnimalDeliveries;
import app.tankround.rounds.AnimalDelivery;
import app.tankround.rounds.DueStop;
import app.tankround.rounds.RoundView;
import app.tankround.rounds.StopId;
import app.tankround.rounds.StopView;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import java.time.Duration;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.springframework.stereotype.Component;

/** Puts together what the pages say about each stop. */
@Component
class RoundSheet {

    /** A visit with the system it is for. */
    record VisitLine(PlannedVisitView visit, WaterSystemView system) {}

    /**
     * Animals that go along to a stop.
     *
     * @param minutesSincePacking when work at the stop starts as planned
     */
    record AnimalLine(
            AnimalDelivery delivery,
            LocalDate day,
            LocalDateTime packedAt,
            LocalDateTime goodUntil,
            long minutesSincePacking) {}

    /**
     * A stop with all that is shown about it.
     *
     * @param next whether it is the first that is not finished
     * @param finishedAt when it was finished, by the clock of the business
     */
    record StopLine(
            StopView stop,
            SiteView site,
            List<VisitLine> visits,
            boolean next,
            Optional<LocalTime> finishedAt,
            List<AnimalLine> animals) {

        /** Until when the first bag is good, where that is what binds. */
        public Optional<LocalTime> bagUntil() {
            return animals.stream()
                    .map(AnimalLine::goodUntil)
                    .filter(until ->
                            !until.toLocalDate().isAfter(animals.getFirst().day()))
                    .min(Comparator.naturalOrder())
                    .map(LocalDateTime::toLocalTime)
                    .filter(until -> site.attendedUntil().map(until::isBefore).orElse(true));
        }

        /** Work here as it is planned, in minutes. */
        public int minutes() {
            return Math.toIntExact(
                    Duration.between(stop.starts(), stop.departs()).toMinutes());
        }

        /** The systems because of which this stop comes last. */
        public List<WaterSystemView> sickSystems() {
            return visits.stream()
                    .map(VisitLine::system)
                    .filter(system -> system.infectionClass().isSick())
                    .distinct()
                    .toList();
        }
    }

    /** Stops that follow each other and are all sick or all not. */
    record Group(boolean sick, List<StopLine> stops) {}

    /** A site with due visits that are on no round. */
    record DueLine(DueStop stop, List<VisitLine> visits) {}

    private final DueVisits dueVisits;
    private final WaterSystems systems;
    private final SiteService sites;
    private final BusinessProfile business;
    private final AnimalDeliveries deliveries;

    RoundSheet(
            DueVisits dueVisits,
            WaterSystems systems,
            SiteService sites,
            BusinessProfile business,
            AnimalDeliveries deliveries) {
        this.dueVisits = dueVisits;
        this.systems = systems;
        this.sites = sites;
        this.business = business;
        this.deliveries = deliveries;
    }

    List<StopLine> stops(RoundView round) {
        Map<PlannedVisitId, PlannedVisitView> visits =
                dueVisits
                        .find(round.stops().stream()
                                .flatMap(stop -> stop.plannedVisits().stream())
                                .toList())
                        .stream()
                        .collect(Collectors.toMap(PlannedVisitView::id, Function.identity()));
        ZoneId zone = business.current().zone();
        Map<PlannedVisitId, List<AnimalDelivery>> animals = deliveries.of(visits.keySet());
        Optional<StopId> next = round.nextStop().map(StopView::id);
        return round.stops().stream()
                .map(stop -> new StopLine(
                        stop,
                        sites.require(stop.siteId()),
                        stop.plannedVisits().stream()
                                .flatMap(id -> Optional.ofNullable(visits.get(id)).stream())
                                .map(this::line)
                                .sorted(Comparator.comparing(VisitLine::system, WaterSystemView.CLEANEST_FIRST))
                                .toList(),
                        next.filter(stop.id()::equals).isPresent(),
                        stop.finishedAt().map(at -> at.atZone(zone).toLocalTime()),
                        stop.plannedVisits().stream()
                                .flatMap(id -> animals.getOrDefault(id, List.of()).stream())
                                .map(delivery -> animalLine(delivery, round.date(), stop, zone))
                                .toList()))
                .toList();
    }

    private static AnimalLine animalLine(AnimalDelivery delivery, LocalDate day, StopView stop, ZoneId zone) {
        return new AnimalLine(
                delivery,
                day,
                delivery.packedAt().atZone(zone).toLocalDateTime(),
                delivery.goodUntil().atZone(zone).toLocalDateTime(),
                Duration.between(
                                delivery.packedAt(),
                                day.atTime(stop.starts()).atZone(zone).toInstant())
                        .toMinutes());
    }

    List<DueLine> due(List<DueStop> stops) {
        return stops.stream()
                .map(stop ->
                        new DueLine(stop, stop.visits().stream().map(this::line).toList()))
                .toList();
    }

    private VisitLine line(PlannedVisitView visit) {
        return new VisitLine(visit, systems.require(visit.waterSystemId()));
    }

    static List<Group> groups(List<StopLine> lines) {
        List<Group> groups = new ArrayList<>();
        for (StopLine line : lines) {
            boolean sick = line.stop().sick();
            if (groups.isEmpty() || groups.getLast().sick() != sick) {
                groups.add(new Group(sick, new ArrayList<>()));
            }
            groups.getLast().stops().add(line);
        }
        return groups;
    }
}
