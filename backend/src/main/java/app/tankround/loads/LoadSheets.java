package app.tankround.loads;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.BusinessSettings;
import app.tankround.accounts.PersonView;
import app.tankround.clients.SiteService;
import app.tankround.instruments.CalibrationHistory;
import app.tankround.instruments.CalibrationService;
import app.tankround.plans.CorrectivePlans;
import app.tankround.rounds.RoundChecks;
import app.tankround.rounds.RoundId;
import app.tankround.rounds.RoundService;
import app.tankround.rounds.RoundView;
import app.tankround.rounds.StopDemand;
import app.tankround.rounds.StopView;
import app.tankround.schedule.AgreementView;
import app.tankround.schedule.Agreements;
import app.tankround.schedule.DueCheck;
import app.tankround.schedule.DueChecks;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.schedule.TaskKind;
import app.tankround.schedule.TaskView;
import app.tankround.stock.Catalogue;
import app.tankround.stock.StockItemView;
import app.tankround.stock.StockKind;
import app.tankround.stock.StockMass;
import app.tankround.tanks.TankMaterial;
import app.tankround.tanks.TargetPresets;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.Mass;
import app.tankround.units.Quantity;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Works out from a round, as it stands now, what goes into the van. Nothing of it is stored. */
@Service
@Transactional(readOnly = true)
public class LoadSheets implements StopDemand {

    private static final int DAYS_PER_WEEK = 7;

    private final RoundService rounds;
    private final DueVisits dueVisits;
    private final CorrectivePlans plans;
    private final Agreements agreements;
    private final WaterSystems systems;
    private final TargetPresets presets;
    private final SiteService sites;
    private final CalibrationService calibrations;
    private final DueChecks dueChecks;
    private final RoundChecks roundChecks;
    private final Catalogue catalogue;
    private final BusinessProfile business;

    LoadSheets(
            RoundService rounds,
            DueVisits dueVisits,
            CorrectivePlans plans,
            Agreements agreements,
            WaterSystems systems,
            TargetPresets presets,
            SiteService sites,
            CalibrationService calibrations,
            DueChecks dueChecks,
            RoundChecks roundChecks,
            Catalogue catalogue,
            BusinessProfile business) {
        this.rounds = rounds;
        this.dueVisits = dueVisits;
        this.plans = plans;
        this.agreements = agreements;
        this.systems = systems;
        this.presets = presets;
        this.sites = sites;
        this.calibrations = calibrations;
        this.dueChecks = dueChecks;
        this.roundChecks = roundChecks;
        this.catalogue = catalogue;
        this.business = business;
    }

    /** @throws app.tankround.web.NotFound if there is no such round */
    public LoadSheet loadSheet(RoundId id) {
        return loadSheet(rounds.require(id));
    }

    /** The sheet of a round as it is given, stored or not. */
    public LoadSheet loadSheet(RoundView round) {
        List<SystemWork> works = works(round);
        LoadRules.Needs needs = needs(round, works, register(round.date()));
        return new LoadSheet(round, needs.lines(), needs.mixes(), needs.notes(), sockChecks(round, works));
    }

    /** The instruments as they stand, and which of them are due on a day. */
    private record Register(List<CalibrationHistory> instruments, List<DueCheck> due) {}

    private Register register(LocalDate day) {
        List<CalibrationHistory> instruments =
                List.copyOf(calibrations.histories().values());
        return new Register(instruments, dueChecks.on(day, instruments));
    }

    private LoadRules.Needs needs(RoundView round, List<SystemWork> works, Register register) {
        BusinessSettings settings = business.current();
        Weights weights = weights();
        Instant leavesAt =
                round.date().atTime(round.leavesAt()).atZone(settings.zone()).toInstant();
        InstrumentKit kit = InstrumentKit.choose(
                register.instruments(),
                new InstrumentKit.Asked(
                        round.technician().map(PersonView::id),
                        round.date(),
                        leavesAt,
                        readsSalinity(works),
                        tested(works),
                        register.due(),
                        roundChecks.among(register.due(), round),
                        round.stops().stream().findFirst().map(this::share)),
                weights);
        LoadRules.Needs needs = LoadRules.of(round.van(), settings.saltYield(), weights, works, kit);
        List<LoadText> notes = new ArrayList<>(kit.notes());
        notes.addAll(needs.notes());
        return new LoadRules.Needs(needs.lines(), needs.mixes(), notes);
    }

    @Override
    public List<Mass> departureMasses(List<RoundView> ofDay) {
        if (ofDay.isEmpty()) {
            return List.of();
        }
        Register register = register(ofDay.getFirst().date());
        return ofDay.stream()
                .map(round -> LoadSheet.departure(
                        round, needs(round, works(round), register).lines()))
                .toList();
    }

    private StopShare share(StopView stop) {
        return new StopShare(stop.position(), sites.require(stop.siteId()).title(), BigDecimal.ONE);
    }

    private static boolean readsSalinity(List<SystemWork> works) {
        return works.stream()
                .anyMatch(work -> work.tasks().stream()
                        .anyMatch(task -> task.quantity()
                                        .filter(Quantity.SALINITY::equals)
                                        .isPresent()
                                || (task.kind() == TaskKind.WATER_CHANGE
                                        && work.system().kind().isSalt())));
    }

    private static Set<Quantity> tested(List<SystemWork> works) {
        Set<Quantity> tested = EnumSet.noneOf(Quantity.class);
        works.stream()
                .flatMap(work -> work.tasks().stream())
                .filter(task -> task.kind() == TaskKind.TEST)
                .forEach(task -> tested.add(task.quantity().orElseThrow()));
        tested.remove(Quantity.SALINITY);
        return tested;
    }

    private Weights weights() {
        return new Weights() {
            @Override
            public StockMass of(StockKind kind, String name, BigDecimal amount, String unit) {
                return catalogue.massOf(kind, name, amount, unit);
            }

            @Override
            public StockMass ofSocks(int sizeMm, int count) {
                return catalogue.massOfSocks(sizeMm, count);
            }
        };
    }

    private List<SystemWork> works(RoundView round) {
        List<SystemWork> works = new ArrayList<>();
        for (StopView stop : round.stops()) {
            Map<WaterSystemId, List<PlannedVisitView>> bySystem = new LinkedHashMap<>();
            for (PlannedVisitView visit : dueVisits.find(stop.plannedVisits())) {
                bySystem.computeIfAbsent(visit.waterSystemId(), none -> new ArrayList<>())
                        .add(visit);
            }
            bySystem.forEach((id, visits) -> works.add(work(round, stop, systems.require(id), visits)));
        }
        return works;
    }

    private SystemWork work(RoundView round, StopView stop, WaterSystemView system, List<PlannedVisitView> visits) {
        List<TaskView> tasks = SystemWork.ofVisits(visits);
        return new SystemWork(
                stop.position(),
                sites.require(stop.siteId()),
                system,
                system.kind().isSalt()
                        ? Optional.of(ofPlan(system.id(), visits)
                                .orElseGet(() -> SalinityGoal.of(
                                        systems.targets(system.id()),
                                        () -> presets.require(system.kind()).targets())))
                        : Optional.empty(),
                systems.tanks(system.id()).stream().anyMatch(tank -> tank.material() == TankMaterial.GLASS),
                daysSinceVisit(system.id(), visits, round.date()),
                tasks);
    }

    /** Where a plan moves the tank's salinity, new water is mixed for its step and not to the target. */
    private Optional<SalinityGoal> ofPlan(WaterSystemId system, List<PlannedVisitView> visits) {
        return visits.stream()
                .flatMap(visit -> plans.newWaterSalinity(system, visit.id()).stream())
                .findFirst()
                .map(SalinityGoal::ofPlan);
    }

    /**
     * Since the last visit that was done before the round, so that a stop finished on it leaves the sheet as it was, or that
     * will be; before the first one, as long as the agreement lets pass between visits.
     */
    private long daysSinceVisit(WaterSystemId system, List<PlannedVisitView> visits, LocalDate date) {
        return dueVisits
                .lastThereBefore(system, date, visits)
                .map(last -> Math.max(0, ChronoUnit.DAYS.between(last, date)))
                .orElseGet(() -> agreements
                        .find(visits.getFirst().agreementId())
                        .flatMap(AgreementView::everyDays)
                        .map(Integer::longValue)
                        .orElse((long) DAYS_PER_WEEK));
    }

    // Socks

    private List<SockCheck> sockChecks(RoundView round, List<SystemWork> here) {
        Map<Integer, Integer> neededHere = socks(here);
        Map<Integer, Integer> today = new TreeMap<>(neededHere);
        rounds.on(round.date()).stream()
                .filter(other -> !other.id().equals(round.id()))
                .forEach(other -> socksOf(other)
                        .forEach((size, count) -> today.computeIfPresent(size, (same, had) -> had + count)));
        return today.entrySet().stream()
                .map(entry -> {
                    List<StockItemView> shelf = catalogue.socks(entry.getKey());
                    return new SockCheck(
                            entry.getKey(),
                            neededHere.getOrDefault(entry.getKey(), 0),
                            entry.getValue(),
                            Socks.onHand(shelf),
                            !shelf.isEmpty());
                })
                .toList();
    }

    /** What another round needs of the shelf that all share. */
    private Map<Integer, Integer> socksOf(RoundView other) {
        List<PlannedVisitView> due = dueVisits.find(other.stops().stream()
                .flatMap(stop -> stop.plannedVisits().stream())
                .toList());
        Map<Integer, Integer> bySize = new TreeMap<>();
        due.stream()
                .collect(Collectors.groupingBy(PlannedVisitView::waterSystemId))
                .values()
                .forEach(ofSystem -> Socks.bySize(SystemWork.ofVisits(ofSystem))
                        .forEach((size, count) -> bySize.merge(size, count, Integer::sum)));
        return bySize;
    }

    private static Map<Integer, Integer> socks(List<SystemWork> works) {
        Map<Integer, Integer> bySize = new TreeMap<>();
        works.forEach(
                work -> Socks.bySize(work.tasks()).forEach((size, count) -> bySize.merge(size, count, Integer::sum)));
        return bySize;
    }
}
