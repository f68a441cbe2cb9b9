package app.tankround.loads;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.DepotId;
import app.tankround.accounts.Fleet;
import app.tankround.accounts.VanView;
import app.tankround.clients.SiteId;
import app.tankround.rounds.RoundId;
import app.tankround.rounds.RoundService;
import app.tankround.rounds.RoundView;
import app.tankround.rounds.StopId;
import app.tankround.rounds.StopView;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.schedule.PlannedVisitView;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.UUID;
import java.util.stream.Collectors;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;

/**
 * How much water of a depot the days ahead take: what the load sheets of its rounds say, and of visits that are in no round
 * yet what a sheet of one round a day would say. Those count for the first depot, since nobody knows which van will come.
 */
@Component
class WaterNeeds {

    private final RoundService rounds;
    private final LoadSheets sheets;
    private final DueVisits dueVisits;
    private final Fleet fleet;
    private final BusinessProfile business;
    private final Clock clock;

    WaterNeeds(
            RoundService rounds,
            LoadSheets sheets,
            DueVisits dueVisits,
            Fleet fleet,
            BusinessProfile business,
            Clock clock) {
        this.rounds = rounds;
        this.sheets = sheets;
        this.dueVisits = dueVisits;
        this.fleet = fleet;
        this.business = business;
        this.clock = clock;
    }

    /**
     * Of today and the days after it, the first to leave first. What has left already is left out.
     *
     * @param leavesAt when a van leaves with visits that are in no round yet
     */
    @Transactional
    public List<WaterNeed> ahead(DepotId depot, int days, LocalTime leavesAt) {
        LocalDate today = dueVisits.today();
        LocalDate end = today.plusDays(days);
        List<RoundView> planned = rounds.between(today, end);
        List<RoundView> leaving = new ArrayList<>(planned.stream()
                .filter(round -> round.van().depotId().equals(depot) && !round.started())
                .toList());
        boolean first = fleet.depots().stream()
                .findFirst()
                .filter(one -> one.id().equals(depot))
                .isPresent();
        if (first) {
            leaving.addAll(estimated(depot, planned, today, end, leavesAt));
        }
        return leaving.stream()
                .filter(round -> leaves(round).isAfter(clock.instant()))
                .flatMap(round -> needs(round).stream())
                .sorted(Comparator.comparing(WaterNeed::leavesAt).thenComparing(WaterNeed::code))
                .toList();
    }

    private Instant leaves(RoundView round) {
        return round.date().atTime(round.leavesAt()).atZone(business.zone()).toInstant();
    }

    private List<WaterNeed> needs(RoundView round) {
        LoadSheet sheet = sheets.loadSheet(round);
        boolean kept = !round.code().isEmpty();
        List<WaterNeed> needs = new ArrayList<>(sheet.depotMixes().stream()
                .map(mix -> new WaterNeed(
                        round.date(),
                        leaves(round),
                        Optional.of(mix.salinity()),
                        mix.volume(),
                        kept ? Optional.of(round.id()) : Optional.empty(),
                        round.code()))
                .toList());
        if (sheet.purifiedWater().litres() > 0) {
            needs.add(new WaterNeed(
                    round.date(),
                    leaves(round),
                    Optional.empty(),
                    sheet.purifiedWater(),
                    kept ? Optional.of(round.id()) : Optional.empty(),
                    round.code()));
        }
        return needs;
    }

    /** One round a day of what is due and in no round; what is overdue counts for the next time that a van leaves. */
    private List<RoundView> estimated(
            DepotId depot, List<RoundView> planned, LocalDate today, LocalDate end, LocalTime leavesAt) {
        Optional<VanView> van = fleet.vans().stream()
                .filter(each -> each.depotId().equals(depot))
                .findFirst();
        Set<PlannedVisitId> held = planned.stream()
                .flatMap(round -> round.stops().stream())
                .flatMap(stop -> stop.plannedVisits().stream())
                .collect(Collectors.toSet());
        ZoneId zone = business.zone();
        LocalDate next =
                today.atTime(leavesAt).atZone(zone).toInstant().isAfter(clock.instant()) ? today : today.plusDays(1);
        Map<LocalDate, List<PlannedVisitView>> byDay = new TreeMap<>();
        dueVisits.dueOn(end.minusDays(1)).stream()
                .filter(visit -> !held.contains(visit.id()))
                .forEach(visit -> byDay.computeIfAbsent(
                                visit.dueOn().isBefore(next) ? next : visit.dueOn(), none -> new ArrayList<>())
                        .add(visit));
        return van.stream()
                .flatMap(each ->
                        byDay.entrySet().stream().map(day -> round(each, day.getKey(), leavesAt, day.getValue())))
                .toList();
    }

    private static RoundView round(VanView van, LocalDate day, LocalTime leavesAt, List<PlannedVisitView> visits) {
        Map<SiteId, List<PlannedVisitId>> bySite = new LinkedHashMap<>();
        visits.forEach(visit -> bySite.computeIfAbsent(visit.siteId(), none -> new ArrayList<>())
                .add(visit.id()));
        List<StopView> stops = new ArrayList<>();
        bySite.forEach((site, here) ->
                stops.add(StopView.invented(StopId.of(site.value()), stops.size() + 1, site, "", false, here)));
        return RoundView.invented(
                RoundId.of(UUID.nameUUIDFromBytes(day.toString().getBytes(StandardCharsets.UTF_8))),
                van,
                day,
                leavesAt,
                stops);
    }
}
