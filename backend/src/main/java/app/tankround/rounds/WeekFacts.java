package app.tankround.rounds;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.Crews;
import app.tankround.accounts.Fleet;
import app.tankround.accounts.VanId;
import app.tankround.accounts.VanView;
import app.tankround.clients.SiteId;
import app.tankround.clients.SiteNeedsService;
import app.tankround.clients.SiteService;
import app.tankround.clients.SiteView;
import app.tankround.rounds.StoredRound.HeldVisit;
import app.tankround.rounds.WeekProblem.Facts;
import app.tankround.rounds.WeekProblem.SiteVisits;
import app.tankround.rounds.WeekProblem.VanDay;
import app.tankround.schedule.AgreementId;
import app.tankround.schedule.AgreementView;
import app.tankround.schedule.Agreements;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.Holidays;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.schedule.VisitRhythm;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.springframework.stereotype.Component;

/** Reads what weeks are planned from: due visits, vans, crews and what stands already. */
@Component
class WeekFacts {

    private final RoundTables roundTables;
    private final TravelTable travelTable;
    private final RoundTimes times;
    private final PlanningSettings terms;
    private final DueVisits dueVisits;
    private final Agreements agreements;
    private final Holidays holidays;
    private final WaterSystems systems;
    private final SiteService sites;
    private final SiteNeedsService needs;
    private final Fleet fleet;
    private final Crews crews;
    private final StopLoads loads;
    private final AnimalDeliveries animals;
    private final ArrivalPromises promises;
    private final BusinessProfile business;

    WeekFacts(
            RoundTables roundTables,
            TravelTable travelTable,
            RoundTimes times,
            PlanningSettings terms,
            DueVisits dueVisits,
            Agreements agreements,
            Holidays holidays,
            WaterSystems systems,
            SiteService sites,
            SiteNeedsService needs,
            Fleet fleet,
            Crews crews,
            StopLoads loads,
            AnimalDeliveries animals,
            ArrivalPromises promises,
            BusinessProfile business) {
        this.roundTables = roundTables;
        this.travelTable = travelTable;
        this.times = times;
        this.terms = terms;
        this.dueVisits = dueVisits;
        this.agreements = agreements;
        this.holidays = holidays;
        this.systems = systems;
        this.sites = sites;
        this.needs = needs;
        this.fleet = fleet;
        this.crews = crews;
        this.loads = loads;
        this.animals = animals;
        this.promises = promises;
        this.business = business;
    }

    /** The problem with what it was made from. */
    record Read(WeekProblem problem, Facts facts) {}

    /** As a plan is searched for: everything is weighed, and what no van carries at once is parted. */
    Read toPlan(LocalDate from, int weeks) {
        return read(from, weeks, all -> here -> true, Optional.empty());
    }

    /**
     * As a plan has it.
     *
     * @param weighed of which of all sites to work out what they add to a load, which takes long; the others add nothing
     */
    Read of(WeekPlanView plan, Function<List<SiteVisits>, Predicate<SiteVisits>> weighed) {
        return read(
                plan.firstDay(),
                plan.weeks(),
                weighed,
                Optional.of(plan.stops().stream()
                        .map(stop -> Set.copyOf(stop.visits()))
                        .toList()));
    }

    private Read read(
            LocalDate from,
            int weeks,
            Function<List<SiteVisits>, Predicate<SiteVisits>> weighed,
            Optional<List<Set<PlannedVisitId>>> planned) {
        LocalDate until = from.plusWeeks(weeks);
        List<StoredRound> settled = Stream.concat(
                        roundTables.between(dueVisits.today(), from).stream(),
                        StoredRound.ofSettledDays(roundTables.between(from, until)).stream())
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
        Map<VanId, VanView> byId = fleet.vans().stream().collect(Collectors.toMap(VanView::id, Function.identity()));
        Set<VanDay> settledDays = settled.stream()
                .map(round ->
                        new VanDay(Optional.ofNullable(byId.get(round.vanId())).orElseThrow(), round.date()))
                .collect(Collectors.toSet());
        Map<AgreementId, VisitRhythm> rhythms =
                agreements.all().stream().collect(Collectors.toMap(AgreementView::id, AgreementView::rhythm));
        var facts = new Facts(
                dueVisits.today(),
                from,
                weeks,
                visits,
                visit -> Optional.ofNullable(known.get(visit.waterSystemId()))
                        .orElseThrow()
                        .infectionClass(),
                sites.find(visited),
                times.minutes(visits),
                needs.known(visited),
                visit -> Optional.ofNullable(rhythms.get(visit.agreementId())).orElseThrow(),
                holidays.ofTwoYears(from.getYear()).stream()
                        .collect(Collectors.toMap(Holidays.Named::day, Holidays.Named::name, (one, other) -> one)),
                vans,
                crews.roster(from),
                van -> Optional.ofNullable(depots.get(van.id())).orElseThrow(),
                settledDays,
                all -> loads(vans, from, all, weighed.apply(all)),
                roundTables.lastThere(visited, dueVisits.today().plusDays(1)),
                animals.of(visits.stream().map(PlannedVisitView::id).toList()),
                promises.told(visits.stream().map(PlannedVisitView::id).toList()),
                planned,
                business.current().zone(),
                travelTable.travel());
        return new Read(WeekProblem.of(facts, terms.current()), facts);
    }

    private StopLoads.Loads loads(
            List<VanView> vans, LocalDate from, List<SiteVisits> all, Predicate<SiteVisits> weighed) {
        return loads.of(
                vans,
                from,
                all.stream()
                        .map(here -> new StopLoads.Asked(
                                here.site(),
                                // What has evaporated by the last day on which it may be done, so that no van is too
                                // heavy.
                                here.last(),
                                weighed.test(here) ? here.ids() : List.of(),
                                here.sickest().isSick()))
                        .toList());
    }
}
