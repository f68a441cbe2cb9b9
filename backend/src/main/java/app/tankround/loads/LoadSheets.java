package app.tankround.loads;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.ContainerRegister;
import app.tankround.accounts.DepotId;
import app.tankround.accounts.PersonView;
import app.tankround.accounts.VanId;
import app.tankround.accounts.WaterContainerId;
import app.tankround.accounts.WaterContainerView;
import app.tankround.clients.SiteId;
import app.tankround.clients.SiteService;
import app.tankround.clients.SiteView;
import app.tankround.clients.TapWater;
import app.tankround.clients.TapWaterView;
import app.tankround.instruments.CalibrationHistory;
import app.tankround.instruments.CalibrationService;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.InstrumentView;
import app.tankround.plans.CorrectivePlans;
import app.tankround.plans.DoseKind;
import app.tankround.plans.DoseRules;
import app.tankround.readings.ReadingService;
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
import app.tankround.schedule.MovedChanges;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.schedule.SockTasks;
import app.tankround.schedule.TaskKind;
import app.tankround.schedule.TaskUses;
import app.tankround.schedule.TaskView;
import app.tankround.schedule.WorkProposal;
import app.tankround.schedule.WorkProposals;
import app.tankround.stock.Catalogue;
import app.tankround.stock.ClientOwned;
import app.tankround.stock.SaltYields;
import app.tankround.stock.SockShares;
import app.tankround.stock.StockAmount;
import app.tankround.stock.StockItemId;
import app.tankround.stock.StockItemView;
import app.tankround.stock.StockKind;
import app.tankround.stock.StockMass;
import app.tankround.stock.StockMasses;
import app.tankround.tanks.SystemKind;
import app.tankround.tanks.TargetPresetView;
import app.tankround.tanks.TargetPresets;
import app.tankround.tanks.TargetView;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.Mass;
import app.tankround.units.Quantity;
import app.tankround.units.SockSize;
import app.tankround.units.Volume;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
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
    private final MixedOnSite mixedOnSite;
    private final RefillOnTheWay refillOnTheWay;
    private final MovedChanges movedChanges;
    private final BusinessProfile business;
    private final TaskUses uses;
    private final LoadTermsStore terms;
    private final DoseRules doses;
    private final ContainerRegister containers;
    private final SaltYields yields;
    private final TapWater tapWater;
    private final WorkProposals proposals;
    private final ReadingService readings;
    private final ClientOwned owned;

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
            MixedOnSite mixedOnSite,
            RefillOnTheWay refillOnTheWay,
            MovedChanges movedChanges,
            BusinessProfile business,
            TaskUses uses,
            LoadTermsStore terms,
            DoseRules doses,
            ContainerRegister containers,
            SaltYields yields,
            TapWater tapWater,
            WorkProposals proposals,
            ReadingService readings,
            ClientOwned owned) {
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
        this.mixedOnSite = mixedOnSite;
        this.refillOnTheWay = refillOnTheWay;
        this.movedChanges = movedChanges;
        this.business = business;
        this.uses = uses;
        this.terms = terms;
        this.doses = doses;
        this.containers = containers;
        this.yields = yields;
        this.tapWater = tapWater;
        this.proposals = proposals;
        this.readings = readings;
        this.owned = owned;
    }

    /** @throws app.tankround.web.NotFound if there is no such round */
    public LoadSheet loadSheet(RoundId id) {
        return loadSheet(rounds.require(id));
    }

    /** The sheet of a round as it is given, stored or not. */
    public LoadSheet loadSheet(RoundView round) {
        Known known = known(List.of(round), Lighter.NOTHING);
        List<SystemWork> works = known.works(round);
        Register register = register(round.date());
        return loadSheet(
                round,
                works,
                register,
                known,
                free(List.of(round), known, register).of(round),
                sockChecks(round, works));
    }

    /** What each system of a round is to get of what is loaded, in the order of the round. */
    List<PlannedUse> planned(RoundView round) {
        Known known = known(List.of(round), Lighter.NOTHING);
        return needs(round, known.works(round), register(round.date()), known, List.of())
                .planned();
    }

    /**
     * The sheets of rounds of one day as they are given, stored or not, without a look at the shelf.
     *
     * @param lighter what would be done otherwise than it stands
     */
    List<LoadSheet> loadSheets(List<RoundView> ofDay, Lighter lighter) {
        if (ofDay.isEmpty()) {
            return List.of();
        }
        Known known = known(ofDay, lighter);
        Register register = register(ofDay.getFirst().date());
        Free free = free(ofDay, known, register);
        return ofDay.stream()
                .map(round -> loadSheet(round, known.works(round), register, known, free.of(round), List.of()))
                .toList();
    }

    private LoadSheet loadSheet(
            RoundView round,
            List<SystemWork> works,
            Register register,
            Known known,
            List<WaterContainerView> free,
            List<SockCheck> socks) {
        LoadRules.Needs needs = needs(round, works, register, known, free);
        List<LoadText> notes = new ArrayList<>(needs.notes());
        List<LoadSheet.Leg> legs = legs(round, works, needs.lines());
        // What it leaves with too heavy is said of the whole sheet.
        legs.stream()
                .skip(1)
                .max(Comparator.comparingDouble(leg -> leg.mass().kilograms()))
                .filter(leg -> leg.mass().kilograms() > round.van().payload().kilograms())
                .ifPresent(leg -> notes.add(LoadText.of(
                        "loads.note.heavy-leg",
                        leg.siteName(),
                        leg.mass(),
                        round.van().payload())));
        Volume needed = WayBack.room(round.van(), works, needs.lines());
        round.van().room().ifPresent(room -> {
            if (needed.litres() > room.litres()) {
                notes.add(LoadText.of("loads.note.no-room", needed, room));
            }
        });
        return new LoadSheet(
                round,
                needs.lines(),
                needs.mixes(),
                notes,
                socks,
                legs,
                needed,
                needs.waters(),
                known.isLighter(round));
    }

    private static List<LoadSheet.Leg> legs(RoundView round, List<SystemWork> works, List<LoadLine> lines) {
        return Stream.concat(
                        Stream.of(new LoadSheet.Leg(0, "", LoadSheet.departure(round, lines))),
                        round.stops().stream()
                                .map(stop -> new LoadSheet.Leg(
                                        stop.position(),
                                        stop.siteName(),
                                        WayBack.after(stop.position(), round.van(), works, lines))))
                .toList();
    }

    /** The instruments as they stand, and which of them are due on a day. */
    /** What all rounds of a day have in common; the yield is that of the salt mix, 0.5 to 1. */
    private record Register(
            List<CalibrationHistory> instruments,
            List<DueCheck> due,
            double saltYield,
            Weights weights,
            Map<InstrumentId, Integer> testsLeft,
            ZoneId zone) {}

    private Register register(LocalDate day) {
        List<CalibrationHistory> instruments =
                List.copyOf(calibrations.histories().values());
        return new Register(
                instruments,
                dueChecks.on(day, instruments),
                yields.toWeigh(day),
                weights(catalogue.masses()),
                testsLeft(instruments, day),
                business.current().zone());
    }

    /** For how many tests kits are enough as a day begins, so that a sheet stays as it is while its round goes on. */
    private Map<InstrumentId, Integer> testsLeft(List<CalibrationHistory> instruments, LocalDate day) {
        Map<Quantity, Integer> enough = catalogue.testsPerKit();
        Map<InstrumentId, InstrumentView> kits = instruments.stream()
                .map(CalibrationHistory::instrument)
                .filter(instrument -> instrument.kind().isKit() && enough.containsKey(instrument.quantity()))
                .collect(Collectors.toMap(InstrumentView::id, Function.identity()));
        if (kits.isEmpty()) {
            return Map.of();
        }
        Map<InstrumentId, Integer> left = new HashMap<>();
        readings.testsMade(
                        kits.keySet(),
                        day.atStartOfDay(business.current().zone()).toInstant())
                .forEach((id, made) -> left.put(
                        id,
                        Math.max(
                                0,
                                Objects.requireNonNull(enough.get(Objects.requireNonNull(kits.get(id))
                                                .quantity()))
                                        - made)));
        return left;
    }

    /**
     * Which containers each round may load.
     *
     * @param taken from the pools, by rounds that leave before it
     */
    private record Free(List<WaterContainerView> all, Map<RoundId, Set<WaterContainerId>> taken) {

        List<WaterContainerView> of(RoundView round) {
            Set<WaterContainerId> gone =
                    Optional.ofNullable(taken.get(round.id())).orElse(Set.of());
            return ContainerRegister.usableBy(round.van(), all).stream()
                    .filter(container -> !gone.contains(container.id()))
                    .toList();
        }
    }

    /**
     * What is in a pool serves the rounds of a day in the order in which they leave; the next round of the same van finds what
     * it took before, since it was back in between. Only where there is a pool the other rounds have to be worked out for it.
     */
    private Free free(List<RoundView> ofDay, Known known, Register register) {
        List<WaterContainerView> all = containers.all();
        Map<RoundId, Set<WaterContainerId>> taken = new HashMap<>();
        Set<DepotId> pools = all.stream()
                .filter(container -> !container.outOfUse())
                .flatMap(container -> container.depot().stream())
                .collect(Collectors.toSet());
        if (ofDay.stream().noneMatch(round -> pools.contains(round.van().depotId()))) {
            return new Free(all, taken);
        }
        Set<RoundId> given = ofDay.stream().map(RoundView::id).collect(Collectors.toSet());
        List<RoundView> leaving = Stream.concat(
                        ofDay.stream(),
                        rounds.on(ofDay.getFirst().date()).stream().filter(round -> !given.contains(round.id())))
                .filter(round -> pools.contains(round.van().depotId()))
                .sorted(Comparator.comparing(RoundView::leavesAt)
                        .thenComparing(RoundView::code)
                        .thenComparing(round -> round.id().toString()))
                .toList();
        // What leaves after all that are asked of takes nothing from them.
        int last = IntStream.range(0, leaving.size())
                .filter(at -> given.contains(leaving.get(at).id()))
                .max()
                .orElseThrow();
        List<RoundView> others = leaving.subList(0, last).stream()
                .filter(round -> !given.contains(round.id()))
                .toList();
        Known ofOthers = others.isEmpty() ? known : known(others, Lighter.NOTHING);
        Map<WaterContainerId, VanId> holders = new HashMap<>();
        for (int at = 0; at <= last; at++) {
            RoundView round = leaving.get(at);
            VanId van = round.van().id();
            taken.put(
                    round.id(),
                    holders.entrySet().stream()
                            .filter(held -> !held.getValue().equals(van))
                            .map(Map.Entry::getKey)
                            .collect(Collectors.toSet()));
            if (at < last) {
                Known of = given.contains(round.id()) ? known : ofOthers;
                needs(round, of.works(round), register, of, new Free(all, taken).of(round))
                        .fromPool()
                        .forEach(container -> holders.put(container, van));
            }
        }
        return new Free(all, taken);
    }

    private LoadRules.Needs needs(
            RoundView round, List<SystemWork> works, Register register, Known known, List<WaterContainerView> free) {
        return needs(round, works, register, roundChecks.among(register.due(), round), known, free);
    }

    /** Asks nothing of the database, so that many rounds may be worked out at the same time. */
    private static LoadRules.Needs needs(
            RoundView round,
            List<SystemWork> works,
            Register register,
            List<DueCheck> checks,
            Known known,
            List<WaterContainerView> free) {
        Weights weights = register.weights();
        Instant leavesAt =
                round.date().atTime(round.leavesAt()).atZone(register.zone()).toInstant();
        InstrumentKit kit = InstrumentKit.choose(
                register.instruments(),
                new InstrumentKit.Asked(
                        round.technician().map(PersonView::id),
                        round.date(),
                        leavesAt,
                        readsSalinity(works),
                        tested(works),
                        register.due(),
                        checks,
                        round.stops().stream().findFirst().map(known::share),
                        register.testsLeft()),
                weights);
        LoadRules.Needs needs =
                LoadRules.of(round.van(), register.saltYield(), weights, works, kit, known.levels(), free);
        List<LoadText> notes = new ArrayList<>(kit.notes());
        notes.addAll(needs.notes());
        return new LoadRules.Needs(
                Stream.concat(needs.lines().stream(), known.singleWork(round))
                        .sorted(LoadLine.ORDER)
                        .toList(),
                needs.mixes(),
                notes,
                needs.planned(),
                needs.fromPool(),
                needs.waters());
    }

    @Override
    public List<Carried> carried(List<RoundView> ofDay) {
        if (ofDay.isEmpty()) {
            return List.of();
        }
        Register register = register(ofDay.getFirst().date());
        Known known = known(ofDay, Lighter.NOTHING);
        Map<RoundId, List<DueCheck>> checks = new HashMap<>();
        ofDay.forEach(round -> checks.put(round.id(), roundChecks.among(register.due(), round)));
        return ofDay.parallelStream()
                .map(round -> {
                    List<SystemWork> works = known.works(round);
                    // What stops add up to is asked for: each alone would fill a container of its own.
                    List<LoadLine> lines = needs(
                                    round,
                                    works,
                                    register,
                                    Objects.requireNonNull(checks.get(round.id())),
                                    known,
                                    List.of())
                            .lines();
                    return new Carried(
                            LoadSheet.departure(round, lines),
                            WayBack.mass(round.van(), works, lines),
                            WayBack.roomAtDeparture(round.van(), lines),
                            WayBack.room(round.van(), works, lines));
                })
                .toList();
    }

    @Override
    public List<Mass> departures(List<RoundView> ofDay) {
        return loadSheets(ofDay, Lighter.NOTHING).stream().map(LoadSheet::total).toList();
    }

    private static boolean mattersForSafety(DoseKind kind) {
        return switch (kind) {
            case CONDITIONER, MEDICATION, COPPER -> true;
            case SUPPLEMENT, ALKALINITY, ALGICIDE, OTHER -> false;
        };
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

    private static Weights weights(StockMasses masses) {
        return new Weights() {
            @Override
            public StockMass of(StockKind kind, String name, BigDecimal amount, String unit) {
                return masses.of(kind, name, amount, unit);
            }

            @Override
            public StockMass ofSocks(SockSize asked, int count) {
                return masses.ofSocks(asked, count);
            }
        };
    }

    /** Everything that rounds are worked out from, asked at once: what many stops add is asked of hundreds of systems. */
    private Known known(List<RoundView> ofRounds, Lighter lighter) {
        List<StopView> stops =
                ofRounds.stream().flatMap(round -> round.stops().stream()).toList();
        Map<PlannedVisitId, PlannedVisitView> visits =
                dueVisits
                        .find(stops.stream()
                                .flatMap(stop -> stop.plannedVisits().stream())
                                .toList())
                        .stream()
                        .collect(Collectors.toMap(PlannedVisitView::id, Function.identity()));
        Set<WaterSystemId> ids =
                visits.values().stream().map(PlannedVisitView::waterSystemId).collect(Collectors.toSet());
        List<DueVisits.Together> together = ofRounds.stream()
                .flatMap(round -> round.stops().stream()
                        .flatMap(stop -> together(visits, stop).entrySet().stream()
                                .map(each -> DueVisits.Together.of(each.getKey(), round.date(), each.getValue()))))
                .toList();
        List<Optional<LocalDate>> lastThere = dueVisits.lastThereBefore(together);
        Map<DueVisits.Together, Long> days = new HashMap<>();
        for (int k = 0; k < together.size(); k++) {
            days.put(together.get(k), daysSinceVisit(together.get(k), visits, lastThere.get(k)));
        }
        LoadTerms current = terms.current();
        return new Known(
                LoadLevels.of(
                        current,
                        // Rounds that are asked of together are of one day, or nearly.
                        current.byUse() ? uses.before(ofRounds.getFirst().date(), ids) : TaskUses.Learned.NOTHING,
                        safety(visits.values())),
                visits,
                systems.find(ids),
                sites.find(stops.stream().map(StopView::siteId).collect(Collectors.toSet())),
                systems.targets(ids),
                tapWater.latest(stops.stream().map(StopView::siteId).collect(Collectors.toSet())),
                owned.at(stops.stream().map(StopView::siteId).collect(Collectors.toSet())),
                presets.all().stream().collect(Collectors.toMap(TargetPresetView::kind, TargetPresetView::targets)),
                systems.withGlass(ids),
                plans.newWaterSalinities(visits.keySet()),
                proposals.addedTo(visits.keySet()).stream()
                        .filter(added -> added.work().isPresent())
                        .collect(Collectors.groupingBy(WorkProposals.Added::visit)),
                mixedOnSite.among(visits.keySet()),
                refills(visits, lighter),
                movedChanges.offVisits(visits.keySet()).keySet(),
                lighter,
                days);
    }

    /** Whether something could die without a product; what visits give is asked of the rules at once, and all else when it is asked for. */
    private Predicate<String> safety(Collection<PlannedVisitView> visits) {
        Map<String, Boolean> known = new ConcurrentHashMap<>();
        Stream.concat(
                        visits.stream()
                                .flatMap(visit -> visit.tasks().stream())
                                .filter(task -> task.kind() == TaskKind.DOSE)
                                .flatMap(task -> task.item().stream()),
                        Stream.of(FreshChange.SALTS))
                .distinct()
                .forEach(product -> known.put(product, isForSafety(product)));
        return product -> known.computeIfAbsent(product, this::isForSafety);
    }

    private boolean isForSafety(String product) {
        return doses.kind(product).filter(LoadSheets::mattersForSafety).isPresent();
    }

    /** By visit what was decided, or would be. */
    private Map<PlannedVisitId, RefillHere> refills(Map<PlannedVisitId, PlannedVisitView> visits, Lighter lighter) {
        Map<PlannedVisitId, BigDecimal> litres = new HashMap<>(refillOnTheWay.among(visits.keySet()));
        lighter.refilled().forEach((visit, tried) -> {
            if (visits.containsKey(visit)) {
                litres.put(visit, tried);
            }
        });
        Map<PlannedVisitId, RefillHere> refills = new HashMap<>();
        litres.forEach((visit, decided) -> refills.put(
                visit,
                new RefillHere(
                        decided.doubleValue(),
                        refillOnTheWay.isSickAt(
                                Objects.requireNonNull(visits.get(visit)).siteId()))));
        return refills;
    }

    /** The visits of a stop by their system. */
    private static Map<WaterSystemId, List<PlannedVisitView>> together(
            Map<PlannedVisitId, PlannedVisitView> visits, StopView stop) {
        Map<WaterSystemId, List<PlannedVisitView>> bySystem = new LinkedHashMap<>();
        stop.plannedVisits().stream()
                .map(visits::get)
                .filter(Objects::nonNull)
                .sorted(Comparator.comparing(PlannedVisitView::dueOn)
                        .thenComparing(visit -> visit.id().toString()))
                .forEach(visit -> bySystem.computeIfAbsent(visit.waterSystemId(), none -> new ArrayList<>())
                        .add(visit));
        return bySystem;
    }

    /**
     * Since the last visit that was done before the round, so that a stop finished on it leaves the sheet as it was, or that
     * will be; before the first one, as long as the agreement lets pass between visits.
     */
    private long daysSinceVisit(
            DueVisits.Together here, Map<PlannedVisitId, PlannedVisitView> visits, Optional<LocalDate> lastThere) {
        return lastThere
                .map(last -> Math.max(0, ChronoUnit.DAYS.between(last, here.day())))
                .orElseGet(() -> agreements
                        .find(Objects.requireNonNull(visits.get(here.visits().getFirst()))
                                .agreementId())
                        .flatMap(AgreementView::everyDays)
                        .map(Integer::longValue)
                        .orElse((long) DAYS_PER_WEEK));
    }

    /**
     * What is known of the systems of rounds and of the visits to them.
     *
     * @param levels how sure the loads are to be enough
     * @param taps how hard the tap water at the sites is
     * @param owned what clients keep at the sites
     * @param usual targets by kind of system
     * @param withGlass systems of which a tank is of glass
     * @param ofPlans the salinity that new water is mixed to where a plan moves the tank's, so that it is not the target
     * @param proposed work beside the agreed visits that goes with them
     * @param mixedOnSite visits whose salt water is mixed at the site
     * @param refills visits at which RO/DI water is filled for later stops
     * @param changingLess visits that leave a part of their change to the next
     * @param days of evaporation to make up for
     */
    private record Known(
            LoadLevels levels,
            Map<PlannedVisitId, PlannedVisitView> visits,
            Map<WaterSystemId, WaterSystemView> systems,
            Map<SiteId, SiteView> sites,
            Map<WaterSystemId, Map<Quantity, TargetView>> targets,
            Map<SiteId, TapWaterView> taps,
            Map<SiteId, List<StockAmount>> owned,
            Map<SystemKind, List<TargetView>> usual,
            Set<WaterSystemId> withGlass,
            Map<PlannedVisitId, Double> ofPlans,
            Map<PlannedVisitId, List<WorkProposals.Added>> proposed,
            Set<PlannedVisitId> mixedOnSite,
            Map<PlannedVisitId, RefillHere> refills,
            Set<PlannedVisitId> changingLess,
            Lighter lighter,
            Map<DueVisits.Together, Long> days) {

        SiteView site(StopView stop) {
            return Objects.requireNonNull(sites.get(stop.siteId()));
        }

        StopShare share(StopView stop) {
            return new StopShare(stop.position(), site(stop).title(), BigDecimal.ONE);
        }

        boolean isLighter(RoundView round) {
            return round.stops().stream()
                    .flatMap(stop -> stop.plannedVisits().stream())
                    .anyMatch(visit ->
                            mixedOnSite.contains(visit) || refills.containsKey(visit) || changingLess.contains(visit));
        }

        private Stream<WorkProposal> proposed(PlannedVisitView visit) {
            return proposed.getOrDefault(visit.id(), List.of()).stream().flatMap(added -> added.work().stream());
        }

        /** What is read again takes its kit or instrument; all other work takes what its reason names. */
        Stream<LoadLine> singleWork(RoundView round) {
            return round.stops().stream()
                    .flatMap(stop -> stop.plannedVisits().stream()
                            .flatMap(id -> Optional.ofNullable(visits.get(id)).stream())
                            .flatMap(visit -> proposed(visit)
                                    .filter(work -> work.measures().isEmpty())
                                    .map(work -> singleWork(work, visit, stop))));
        }

        private LoadLine singleWork(WorkProposal work, PlannedVisitView visit, StopView stop) {
            WaterSystemView system = Objects.requireNonNull(systems.get(visit.waterSystemId()));
            return new LoadLine(
                    LineKey.SINGLE_WORK + ":" + work.id(),
                    LoadGroup.SINGLE_WORK,
                    system.infectionClass().isSick() ? Optional.of(system.name()) : Optional.empty(),
                    BigDecimal.ONE,
                    LoadUnit.PIECE,
                    LoadText.of("loads.item.single-work", work.reason()),
                    Optional.empty(),
                    Mass.ofKilograms(0),
                    false,
                    List.of(LoadText.of("loads.work.single-work", system.name())),
                    List.of(share(stop)));
        }

        List<SystemWork> works(RoundView round) {
            List<SystemWork> works = new ArrayList<>();
            round.stops()
                    .forEach(stop -> together(visits, stop)
                            .forEach((system, here) -> works.add(work(stop, round.date(), system, here))));
            return works;
        }

        private SystemWork work(StopView stop, LocalDate day, WaterSystemId id, List<PlannedVisitView> here) {
            WaterSystemView system = Objects.requireNonNull(systems.get(id));
            return new SystemWork(
                    stop.position(),
                    site(stop),
                    system,
                    system.kind().isSalt() ? Optional.of(goal(system, here)) : Optional.empty(),
                    suits(system, stop.siteId()),
                    withGlass.contains(system.id()),
                    Objects.requireNonNull(days.get(DueVisits.Together.of(id, day, here))),
                    here.stream().anyMatch(visit -> mixedOnSite.contains(visit.id()) || lighter.mixes(visit.id())),
                    here.stream()
                            .flatMap(visit -> Optional.ofNullable(refills.get(visit.id())).stream())
                            .reduce(RefillHere.NOTHING, RefillHere::and),
                    owned.getOrDefault(stop.siteId(), List.of()),
                    Stream.concat(
                                    SystemWork.ofVisits(here.stream()
                                                    .map(visit -> lighter.of(visit, systems))
                                                    .toList())
                                            .stream(),
                                    here.stream()
                                            .flatMap(this::proposed)
                                            .flatMap(proposal -> proposal.measures().stream())
                                            .map(TaskView::test))
                            .distinct()
                            .toList());
        }

        private SuitableWater suits(WaterSystemView system, SiteId site) {
            Map<Quantity, TargetView> own = targets.getOrDefault(system.id(), Map.of());
            return SuitableWater.of(
                    Optional.ofNullable(own.get(Quantity.HARDNESS)),
                    Optional.ofNullable(own.get(Quantity.TEMPERATURE)),
                    Optional.ofNullable(taps.get(site)).map(TapWaterView::asFormula));
        }

        private SalinityGoal goal(WaterSystemView system, List<PlannedVisitView> here) {
            return here.stream()
                    .map(visit -> ofPlans.get(visit.id()))
                    .filter(Objects::nonNull)
                    .findFirst()
                    .map(SalinityGoal::ofPlan)
                    .orElseGet(() -> SalinityGoal.of(
                            List.copyOf(
                                    targets.getOrDefault(system.id(), Map.of()).values()),
                            () -> Objects.requireNonNull(usual.get(system.kind()))));
        }
    }

    // Socks

    private List<SockCheck> sockChecks(RoundView round, List<SystemWork> here) {
        Map<SockSize, Integer> neededHere = socks(here);
        Map<SockSize, Integer> today = new TreeMap<>(neededHere);
        rounds.on(round.date()).stream()
                .filter(other -> !other.id().equals(round.id()))
                .forEach(other -> socksOf(other)
                        .forEach((size, count) -> today.computeIfPresent(size, (same, had) -> had + count)));
        Map<StockItemId, BigDecimal> left = new HashMap<>();
        List<SockCheck> checks = new ArrayList<>();
        today.forEach((size, needed) -> {
            List<StockItemView> serving = catalogue.socks(size);
            serving.forEach(item -> left.putIfAbsent(item.id(), item.onHand()));
            int onHand = serving.stream()
                    .map(item -> Objects.requireNonNull(left.get(item.id())))
                    // What others go without is of some sort too.
                    .mapToInt(count -> Math.max(0, count.intValue()))
                    .sum();
            SockShares.of(
                            serving,
                            BigDecimal.valueOf(needed),
                            List.of(item -> left.getOrDefault(item, BigDecimal.ZERO)))
                    .forEach(taken ->
                            left.merge(taken.item().id(), taken.amount().negate(), BigDecimal::add));
            checks.add(new SockCheck(size, neededHere.getOrDefault(size, 0), needed, onHand, !serving.isEmpty()));
        });
        return checks;
    }

    /** What another round needs of the shelf that all share. */
    private Map<SockSize, Integer> socksOf(RoundView other) {
        List<PlannedVisitView> due = dueVisits.find(other.stops().stream()
                .flatMap(stop -> stop.plannedVisits().stream())
                .toList());
        Map<SockSize, Integer> bySize = new TreeMap<>();
        due.stream()
                .collect(Collectors.groupingBy(PlannedVisitView::waterSystemId))
                .values()
                .forEach(ofSystem -> SockTasks.bySize(SystemWork.ofVisits(ofSystem))
                        .forEach((size, count) -> bySize.merge(size, count, Integer::sum)));
        return bySize;
    }

    private static Map<SockSize, Integer> socks(List<SystemWork> works) {
        Map<SockSize, Integer> bySize = new TreeMap<>();
        works.forEach(work ->
                SockTasks.bySize(work.tasks()).forEach((size, count) -> bySize.merge(size, count, Integer::sum)));
        return bySize;
    }
}
