package app.tankround.visits;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.PersonId;
import app.tankround.clients.SiteId;
import app.tankround.documents.FileId;
import app.tankround.documents.FileStore;
import app.tankround.readings.ReadingService;
import app.tankround.readings.ReadingView;
import app.tankround.rounds.RoundId;
import app.tankround.rounds.StopId;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.web.NotFound;
import java.time.Instant;
import java.time.LocalDate;
import java.time.Period;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import org.joda.money.CurrencyUnit;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import tools.jackson.databind.JsonNode;

/** Visits, as their entries amount to now. Entries come in through the inbox of the tablet, whoever writes them. */
@Service
@Transactional(readOnly = true)
public class VisitService {

    /** What looked otherwise longer ago than this says nothing about last time. */
    private static final Period COMPARED = Period.ofMonths(12);

    private final VisitRows rows;
    private final DueVisits dueVisits;
    private final ReadingService readings;
    private final WaterSystems systems;
    private final FileStore files;
    private final BusinessProfile business;

    VisitService(
            VisitRows rows,
            DueVisits dueVisits,
            ReadingService readings,
            WaterSystems systems,
            FileStore files,
            BusinessProfile business) {
        this.rows = rows;
        this.dueVisits = dueVisits;
        this.readings = readings;
        this.systems = systems;
        this.files = files;
        this.business = business;
    }

    public Optional<VisitView> find(VisitId id) {
        return rows.find(id).map(visit -> views(List.of(visit)).getFirst());
    }

    /** @throws NotFound if there is none */
    public VisitView require(VisitId id) {
        return find(id).orElseThrow(() -> new NotFound("visit", id));
    }

    /** The visit of a stop, once it has been started. */
    public Optional<VisitView> forStop(StopId stop) {
        return find(VisitId.ofStop(stop));
    }

    /** The visits of a round in the order in which they were started. */
    public List<VisitView> byRound(RoundId round) {
        return views(rows.where("where round_id = :round order by started_at", Map.of("round", round.value())));
    }

    /** A technician's visits of one day, in the order in which they were started. */
    public List<VisitView> byTechnician(PersonId technician, LocalDate date) {
        return views(rows.where(
                "where technician_id = :technician and service_date = :date order by started_at",
                Map.of("technician", technician.value(), "date", date)));
    }

    /** The newest visits to a site, newest first. */
    public List<VisitView> bySite(SiteId site, int limit) {
        return views(rows.where(
                "where site_id = :site order by service_date desc, started_at desc limit :limit",
                Map.of("site", site.value(), "limit", limit)));
    }

    /**
     * A visit that nobody has finished.
     *
     * @param technicianId who began it
     * @param systems that something is due for; empty where it is about whatever stands at the site
     */
    public record Open(
            VisitId id, String code, SiteId siteId, PersonId technicianId, Instant since, Set<WaterSystemId> systems) {}

    /** The visits of one day that were begun at these sites and are not finished, oldest first. */
    public List<Open> openAt(Collection<SiteId> sites, LocalDate date) {
        if (sites.isEmpty()) {
            return List.of();
        }
        List<VisitRow> open = rows.where(
                "where site_id in (:sites) and service_date = :date and finished_at is null order by started_at",
                Map.of("sites", sites.stream().map(SiteId::value).toList(), "date", date));
        return open.stream()
                .flatMap(visit -> visit.startedAt().stream()
                        .map(since -> new Open(
                                visit.id(),
                                visit.code(),
                                visit.siteId(),
                                visit.technicianId(),
                                since,
                                dueVisits.find(visit.plannedVisits()).stream()
                                        .map(PlannedVisitView::waterSystemId)
                                        .collect(Collectors.toSet()))))
                .toList();
    }

    /**
     * A photo of an earlier visit.
     *
     * @param caption what it shows, or empty
     * @param systemId empty where it was taken at a visit to several systems
     * @param on day of the visit
     */
    public record EarlierPhoto(
            FileId fileId, String caption, SiteId siteId, Optional<WaterSystemId> systemId, LocalDate on) {}

    /**
     * The last photos of each system, newest first, and those of a site that are of no one system: of what bears the same
     * caption only the newest. Photos that have not arrived are left out.
     *
     * @param date of the visit that is to be compared with those before
     * @param most how many of each system
     */
    public List<EarlierPhoto> photosBefore(Collection<SiteId> sites, LocalDate date, int most) {
        List<EarlierPhoto> taken = rows.photos(sites, date.minus(COMPARED), date);
        Set<UUID> arrived =
                files.stored(taken.stream().map(photo -> photo.fileId().value()).toList());
        Set<List<Object>> shown = new HashSet<>();
        Map<List<Object>, Integer> counts = new HashMap<>();
        return taken.stream()
                .filter(photo -> arrived.contains(photo.fileId().value()))
                .filter(photo -> photo.caption().isEmpty()
                        || shown.add(List.of(
                                photo.siteId(),
                                photo.systemId(),
                                photo.caption().toLowerCase(Locale.ROOT))))
                .filter(photo -> counts.merge(List.of(photo.siteId(), photo.systemId()), 1, Integer::sum) <= most)
                .toList();
    }

    /** Visits with values between which somebody has to decide, newest first. */
    public List<VisitView> inConflict() {
        return views(rows.inConflict());
    }

    /** Visits finished from the first day up to but not including the second, in the business's zone, oldest first. */
    public List<VisitView> finishedBetween(LocalDate from, LocalDate until) {
        ZoneId zone = business.current().zone();
        return views(rows.where(
                "where finished_at >= :from and finished_at < :until order by finished_at",
                Map.of(
                        "from",
                        from.atStartOfDay(zone).toInstant().atOffset(ZoneOffset.UTC),
                        "until",
                        until.atStartOfDay(zone).toInstant().atOffset(ZoneOffset.UTC))));
    }

    List<VisitView> views(List<VisitRow> visits) {
        Map<VisitId, List<VisitEntry>> entries =
                rows.entries(visits.stream().map(VisitRow::id).toList());
        List<PlannedVisitView> planned = dueVisits.find(
                visits.stream().flatMap(visit -> visit.plannedVisits().stream()).collect(Collectors.toSet()));
        Map<WaterSystemId, WaterSystemView> known = new LinkedHashMap<>();
        visits.stream()
                .map(VisitRow::siteId)
                .distinct()
                .flatMap(site -> systems.bySite(site).stream())
                .forEach(system -> known.put(system.id(), system));
        Set<UUID> arrived = files.stored(entries.values().stream()
                .flatMap(List::stream)
                .flatMap(entry -> photo(entry).stream())
                .collect(Collectors.toSet()));
        CurrencyUnit currency = business.current().currency();
        return visits.stream()
                .map(visit -> {
                    List<PlannedVisitView> ofVisit = planned.stream()
                            .filter(due -> visit.plannedVisits().contains(due.id()))
                            .sorted(Comparator.comparingInt(
                                    due -> visit.plannedVisits().indexOf(due.id())))
                            .toList();
                    List<ReadingView> taken = readings.versions(visit.id().value());
                    return new VisitProjection(
                                    visit, entries.getOrDefault(visit.id(), List.of()), ofVisit, taken, known, arrived)
                            .view(currency);
                })
                .toList();
    }

    static Optional<UUID> photo(VisitEntry entry) {
        JsonNode photo = entry.facts().path("photo");
        return photo.isString() ? Optional.of(UUID.fromString(photo.stringValue())) : Optional.empty();
    }
}
