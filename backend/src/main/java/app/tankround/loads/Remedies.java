package app.tankround.loads;

import app.tankround.chemistry.VerdictCode;
import app.tankround.clients.SiteService;
import app.tankround.plans.CorrectivePlans;
import app.tankround.plans.PlanState;
import app.tankround.readings.ReadingService;
import app.tankround.readings.ReadingView;
import app.tankround.rounds.PlanningSettings;
import app.tankround.rounds.RoundId;
import app.tankround.rounds.RoundService;
import app.tankround.rounds.RoundView;
import app.tankround.rounds.StopId;
import app.tankround.rounds.StopMoves;
import app.tankround.rounds.StopMoves.Outcome;
import app.tankround.rounds.StopMoves.Target;
import app.tankround.rounds.StopView;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.MovedChanges;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.schedule.TaskKind;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.Quantity;
import app.tankround.web.FieldRefusal;
import app.tankround.web.StaleVersion;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * What can be done about a round that does not fit into its van, what each way costs, and doing it. Every way is tried on the
 * round itself: its load is worked out anew, and so is that of the round that takes stops over.
 */
@Service
public class Remedies {

    /** Of one kind so many moves are worked out at most. */
    private static final int MOST_TRIED = 18;

    /** Of one kind so many ways are shown: the cheapest. */
    private static final int SHOWN = 3;

    /** So many days later is looked for a round that takes up what may wait. */
    private static final int DAYS_LATER = 5;

    private static final int PERCENT = 100;
    private static final int STEP_PERCENT = 5;
    private static final BigDecimal MINUTES_PER_HOUR = BigDecimal.valueOf(60);

    /** What builds up between water changes; where one of them is above its target the change is not made smaller. */
    private static final Set<Quantity> BUILDS_UP =
            Set.of(Quantity.AMMONIA, Quantity.NITRITE, Quantity.NITRATE, Quantity.PHOSPHATE);

    private static final Comparator<Remedy> BEST_FIRST = Comparator.comparing(Remedy::settles)
            .reversed()
            .thenComparing(Remedies::lacks)
            .thenComparing(Remedy::price);

    private final LoadSheets sheets;
    private final RoundService rounds;
    private final StopMoves moves;
    private final PlanningSettings settings;
    private final DueVisits dueVisits;
    private final MovedChanges movedChanges;
    private final MixedOnSite mixedOnSite;
    private final RefillOnTheWay refillOnTheWay;
    private final WaterSystems systems;
    private final SiteService sites;
    private final CorrectivePlans plans;
    private final ReadingService readings;

    Remedies(
            LoadSheets sheets,
            RoundService rounds,
            StopMoves moves,
            PlanningSettings settings,
            DueVisits dueVisits,
            MovedChanges movedChanges,
            MixedOnSite mixedOnSite,
            RefillOnTheWay refillOnTheWay,
            WaterSystems systems,
            SiteService sites,
            CorrectivePlans plans,
            ReadingService readings) {
        this.sheets = sheets;
        this.rounds = rounds;
        this.moves = moves;
        this.settings = settings;
        this.dueVisits = dueVisits;
        this.movedChanges = movedChanges;
        this.mixedOnSite = mixedOnSite;
        this.refillOnTheWay = refillOnTheWay;
        this.systems = systems;
        this.sites = sites;
        this.plans = plans;
        this.readings = readings;
    }

    /**
     * What can be done about a round.
     *
     * @param now the van as it stands
     * @param remedies those that make it fit first, each by what it costs; empty where it fits
     * @param taken what was done about it already and may be taken back
     */
    public record Found(Remedy.Burden now, List<Remedy> remedies, List<Taken> taken) {}

    /**
     * What was decided for a visit of the round so that it fits.
     *
     * @param litres left to the next visit, or filled for later stops; empty where its salt water is mixed at the site
     */
    public record Taken(
            PlannedVisitId visit,
            WaterSystemView system,
            String siteName,
            Remedy.Kind kind,
            Optional<BigDecimal> litres) {}

    /** @throws app.tankround.web.NotFound if there is no such round */
    @Transactional(readOnly = true)
    public Found of(RoundId id) {
        RoundView round = rounds.require(id);
        LoadSheet now = sheets.loadSheet(round);
        List<Remedy> found = new ArrayList<>();
        if (!now.fitsOnTheWay()) {
            found.addAll(byMoving(now));
            found.addAll(onTheSpot(now));
        }
        return new Found(Remedy.Burden.of(now), ranked(found), taken(round));
    }

    private static List<Remedy> ranked(List<Remedy> all) {
        Map<Remedy.Kind, List<Remedy>> byKind = all.stream()
                .sorted(BEST_FIRST)
                .collect(Collectors.groupingBy(remedy -> remedy.choice().kind()));
        return byKind.values().stream()
                .flatMap(ofKind -> ofKind.stream().limit(SHOWN))
                .sorted(BEST_FIRST)
                .toList();
    }

    /** What does not settle it is the better the less it leaves to be done. */
    private static double lacks(Remedy remedy) {
        return remedy.left().over().kilograms() + remedy.left().overRoom().litres();
    }

    // Stops that go elsewhere

    private List<Remedy> byMoving(LoadSheet now) {
        RoundView round = now.round();
        List<Outcome> outcomes = new ArrayList<>();
        Map<Remedy.Kind, Integer> tried = new EnumMap<>(Remedy.Kind.class);
        Map<StopId, LocalDate> waits = waits(round);
        for (Target target : targets(round, waits)) {
            for (List<StopId> stops : candidates(now, target, waits)) {
                if (tried.merge(kind(round, target), 1, Integer::sum) <= MOST_TRIED) {
                    moves.tried(round.id(), stops, target).ifPresent(outcomes::add);
                }
            }
        }
        Map<LocalDate, List<RoundView>> byDay = outcomes.stream()
                .flatMap(outcome -> Stream.of(outcome.left(), outcome.gained()))
                .collect(Collectors.groupingBy(RoundView::date));
        Map<RoundView, LoadSheet> loads = new HashMap<>();
        byDay.forEach((day, ofDay) ->
                sheets.loadSheets(ofDay, Lighter.NOTHING).forEach(sheet -> loads.put(sheet.round(), sheet)));
        List<Remedy> found = new ArrayList<>();
        for (Outcome outcome : outcomes) {
            Remedy.Burden left = Remedy.Burden.of(Objects.requireNonNull(loads.get(outcome.left())));
            Remedy.Burden gained = Remedy.Burden.of(Objects.requireNonNull(loads.get(outcome.gained())));
            if (gained.fits() && (left.fits() || relieves(now, left))) {
                found.add(new Remedy(
                        new Remedy.Choice.Move(kind(round, outcome.target()), outcome.stops(), outcome.target()),
                        outcome.price(),
                        left,
                        Optional.of(gained),
                        outcome.tell()));
            }
        }
        return found;
    }

    private static boolean relieves(LoadSheet now, Remedy.Burden left) {
        return left.over().kilograms() < now.overOnTheWay().kilograms()
                || left.overRoom().litres() < now.overRoom().litres();
    }

    private static Remedy.Kind kind(RoundView round, Target target) {
        if (!target.date().equals(round.date())) {
            return Remedy.Kind.POSTPONE;
        }
        return target.van().equals(round.van().id()) ? Remedy.Kind.LOAD_AGAIN : Remedy.Kind.OTHER_VAN;
    }

    /** Rounds of that day, and of the days until which something here may wait: there only those of the van itself or that stand. */
    private List<Target> targets(RoundView round, Map<StopId, LocalDate> waits) {
        LocalDate last = waits.values().stream().max(Comparator.naturalOrder()).orElse(round.date());
        List<LocalDate> later = round.date()
                .plusDays(1)
                .datesUntil(round.date().plusDays(DAYS_LATER + 1L))
                .filter(day -> !day.isAfter(last))
                .toList();
        Set<Target> standing = rounds
                .between(round.date().plusDays(1), round.date().plusDays(DAYS_LATER + 1L))
                .stream()
                .map(other -> new Target(other.date(), other.van().id(), other.trip()))
                .collect(Collectors.toSet());
        return Stream.concat(
                        moves.targets(round.id(), List.of(round.date())).stream(),
                        moves.targets(round.id(), later).stream()
                                .filter(target ->
                                        target.van().equals(round.van().id()) || standing.contains(target)))
                .toList();
    }

    /** Until when each stop may wait by what was agreed; those that may not, and those at work, are left out. */
    private Map<StopId, LocalDate> waits(RoundView round) {
        Map<StopId, LocalDate> until = new HashMap<>();
        for (StopView stop : round.stops()) {
            dueVisits.find(stop.plannedVisits()).stream()
                    .map(visit -> visit.nominalOn().plusDays(visit.toleranceDays()))
                    .min(Comparator.naturalOrder())
                    .filter(last -> stop.startedAt().isEmpty() && last.isAfter(round.date()))
                    .ifPresent(last -> until.put(stop.id(), last));
        }
        return until;
    }

    /**
     * Stops that are worth trying there. Where the van leaves too heavy, those that relieve it of enough, the lightest such
     * first, alone or two together; where it becomes so on the way or lacks room, each alone. A van that loads again takes the
     * rest of the round from some stop on as well.
     */
    private List<List<StopId>> candidates(LoadSheet now, Target target, Map<StopId, LocalDate> waits) {
        RoundView round = now.round();
        List<StopView> open = round.stops().stream()
                .filter(stop -> stop.startedAt().isEmpty())
                .filter(stop -> target.date().equals(round.date())
                        || Optional.ofNullable(waits.get(stop.id()))
                                .filter(last -> !last.isBefore(target.date()))
                                .isPresent())
                .toList();
        double over = now.over().kilograms();
        Map<StopView, Double> relief = new LinkedHashMap<>();
        open.forEach(stop -> relief.put(stop, WayBack.deliveredTo(stop.position(), now.lines())));
        List<List<StopView>> sets = new ArrayList<>();
        open.forEach(stop -> sets.add(List.of(stop)));
        if (over > 0) {
            for (int one = 0; one < open.size(); one++) {
                for (int other = one + 1; other < open.size(); other++) {
                    sets.add(List.of(open.get(one), open.get(other)));
                }
            }
        }
        Comparator<List<StopView>> lightest = Comparator.comparingDouble(set -> relief(relief, set));
        List<List<StopId>> chosen = new ArrayList<>();
        List<List<StopView>> enough = sets.stream()
                .filter(set -> relief(relief, set) >= over)
                .sorted(lightest)
                .toList();
        Stream<List<StopView>> worth = enough.isEmpty()
                ? sets.stream().sorted(lightest.reversed())
                : enough.stream()
                        .sorted(Comparator.<List<StopView>>comparingInt(List::size)
                                .thenComparing(lightest));
        worth.filter(set -> set.size() < round.stops().size())
                .limit(SHOWN)
                .map(Remedies::ids)
                .forEach(chosen::add);
        if (target.date().equals(round.date())
                && target.van().equals(round.van().id())) {
            IntStream.range(1, open.size())
                    .mapToObj(from -> ids(open.subList(from, open.size())))
                    .filter(set -> set.size() < round.stops().size() && !chosen.contains(set))
                    .forEach(chosen::add);
        }
        return chosen;
    }

    private static double relief(Map<StopView, Double> relief, List<StopView> set) {
        return set.stream().mapToDouble(relief::get).sum();
    }

    private static List<StopId> ids(List<StopView> stops) {
        return stops.stream().map(StopView::id).toList();
    }

    // What is done otherwise at the stops

    private List<Remedy> onTheSpot(LoadSheet now) {
        RoundView round = now.round();
        List<PlannedVisitView> open = dueVisits.find(round.stops().stream()
                .filter(stop -> stop.startedAt().isEmpty())
                .flatMap(stop -> stop.plannedVisits().stream())
                .toList());
        List<Remedy> found = new ArrayList<>(mixing(now, open));
        found.addAll(refilling(now, open));
        smaller(now, open).ifPresent(found::add);
        return found;
    }

    private static boolean changesWater(PlannedVisitView visit) {
        return visit.tasks().stream().anyMatch(task -> task.kind() == TaskKind.WATER_CHANGE);
    }

    /** Each visit alone, and all together where one is not enough. */
    private List<Remedy> mixing(LoadSheet now, List<PlannedVisitView> open) {
        Set<PlannedVisitId> already =
                mixedOnSite.among(open.stream().map(PlannedVisitView::id).toList());
        Map<WaterSystemId, WaterSystemView> known =
                systems.find(open.stream().map(PlannedVisitView::waterSystemId).collect(Collectors.toSet()));
        List<PlannedVisitId> possible = open.stream()
                .filter(visit -> !already.contains(visit.id())
                        && changesWater(visit)
                        && Objects.requireNonNull(known.get(visit.waterSystemId()))
                                .kind()
                                .isSalt()
                        && MixedOnSite.isPossibleAt(sites.require(visit.siteId())))
                .map(PlannedVisitView::id)
                .toList();
        Set<List<PlannedVisitId>> sets = new LinkedHashSet<>();
        possible.forEach(visit -> sets.add(List.of(visit)));
        sets.add(possible);
        List<Remedy> found = new ArrayList<>();
        for (List<PlannedVisitId> set : sets) {
            if (!set.isEmpty()) {
                lighter(now, Lighter.mixing(Set.copyOf(set)), new Remedy.Choice.Mix(set), mixingCosts(set.size()))
                        .ifPresent(found::add);
            }
        }
        return found;
    }

    private BigDecimal mixingCosts(int visits) {
        return minutesCost(MixedOnSite.MINUTES * visits);
    }

    /** The time that it takes, at what an hour on the road costs. */
    private BigDecimal minutesCost(int minutes) {
        return settings.current()
                .drivingHour()
                .multiply(BigDecimal.valueOf(minutes))
                .divide(MINUTES_PER_HOUR, 2, RoundingMode.HALF_EVEN);
    }

    /** At each stop alone, and at all together; as little as makes it fit. */
    private List<Remedy> refilling(LoadSheet now, List<PlannedVisitView> open) {
        Map<PlannedVisitId, BigDecimal> allowed = refillable(now, open);
        Set<Map<PlannedVisitId, BigDecimal>> sets = new LinkedHashSet<>();
        allowed.forEach((visit, litres) -> sets.add(Map.of(visit, litres)));
        sets.add(allowed);
        List<Remedy> found = new ArrayList<>();
        for (Map<PlannedVisitId, BigDecimal> set : sets) {
            Map<PlannedVisitId, BigDecimal> most = filled(now, set);
            if (!most.isEmpty() && most.size() == set.size()) {
                leastRefill(now, most).ifPresent(found::add);
            }
        }
        return found;
    }

    /** By the first visit of each stop that has none yet, what may be filled there for a later stop that needs some. */
    private Map<PlannedVisitId, BigDecimal> refillable(LoadSheet now, List<PlannedVisitView> open) {
        Set<PlannedVisitId> due = open.stream().map(PlannedVisitView::id).collect(Collectors.toSet());
        Set<PlannedVisitId> already = refillOnTheWay.among(due).keySet();
        int last = now.lines().stream()
                .filter(line -> line.group() == LoadGroup.RO_DI_WATER && !line.apart())
                .flatMap(line -> line.stops().stream())
                .mapToInt(StopShare::position)
                .max()
                .orElse(0);
        Map<PlannedVisitId, BigDecimal> allowed = new LinkedHashMap<>();
        for (StopView stop : now.round().stops()) {
            List<PlannedVisitId> here =
                    stop.plannedVisits().stream().filter(due::contains).toList();
            if (stop.position() < last && !here.isEmpty() && here.stream().noneMatch(already::contains)) {
                sites.require(stop.siteId())
                        .refill()
                        .filter(most -> !refillOnTheWay.isSickAt(stop.siteId()))
                        .ifPresent(most -> allowed.put(here.getFirst(), BigDecimal.valueOf(most.litres())));
            }
        }
        return allowed;
    }

    /** Of what may be filled at each of these visits what later stops need of it, in whole litres where that is allowed. */
    private Map<PlannedVisitId, BigDecimal> filled(LoadSheet now, Map<PlannedVisitId, BigDecimal> allowed) {
        if (allowed.isEmpty()) {
            return allowed;
        }
        LoadSheet tried = sheets.loadSheets(List.of(now.round()), Lighter.refilling(allowed))
                .getFirst();
        Map<PlannedVisitId, BigDecimal> filled = new LinkedHashMap<>();
        for (StopView stop : now.round().stops()) {
            double litres = tried.refilledAt(stop.position()).litres();
            stop.plannedVisits().stream()
                    .filter(visit -> litres > 0 && allowed.containsKey(visit))
                    .forEach(visit ->
                            filled.put(visit, wholeLitres(litres, Objects.requireNonNull(allowed.get(visit)))));
        }
        return filled;
    }

    private static BigDecimal wholeLitres(double litres, BigDecimal most) {
        return BigDecimal.valueOf(litres).setScale(0, RoundingMode.CEILING).min(most);
    }

    /** The more is filled the less leaves the depot, so the least that is enough is found by halving. */
    private Optional<Remedy> leastRefill(LoadSheet now, Map<PlannedVisitId, BigDecimal> most) {
        Optional<Remedy> best = refill(now, most, PERCENT);
        if (best.filter(Remedy::settles).isEmpty()) {
            return best;
        }
        int few = 0;
        int enough = PERCENT / STEP_PERCENT;
        while (enough - few > 1) {
            int middle = (few + enough) / 2;
            Optional<Remedy> tried = refill(now, most, middle * STEP_PERCENT).filter(Remedy::settles);
            if (tried.isPresent()) {
                best = tried;
                enough = middle;
            } else {
                few = middle;
            }
        }
        return best;
    }

    private Optional<Remedy> refill(LoadSheet now, Map<PlannedVisitId, BigDecimal> most, int percent) {
        Map<PlannedVisitId, BigDecimal> litres = new HashMap<>();
        most.forEach((visit, all) -> litres.put(visit, wholeLitres(all.doubleValue() * percent / PERCENT, all)));
        int minutes = litres.values().stream().mapToInt(RefillOnTheWay::minutes).sum();
        return lighter(now, Lighter.refilling(litres), new Remedy.Choice.Refill(litres), minutesCost(minutes));
    }

    private Optional<Remedy> lighter(LoadSheet now, Lighter tried, Remedy.Choice choice, BigDecimal price) {
        Remedy.Burden left =
                Remedy.Burden.of(sheets.loadSheets(List.of(now.round()), tried).getFirst());
        return left.fits() || relieves(now, left)
                ? Optional.of(new Remedy(choice, price, left, Optional.empty(), List.of()))
                : Optional.empty();
    }

    /**
     * As little less as makes it fit, in as few tanks as that takes, the largest changes first. A tank allows it that is well,
     * has no plan and nothing that builds up above its target, and of which nothing waits already.
     */
    private Optional<Remedy> smaller(LoadSheet now, List<PlannedVisitView> open) {
        Map<PlannedVisitView, MovedChanges.Movable> allowed = new LinkedHashMap<>();
        Set<WaterSystemId> twice = twice(open);
        for (PlannedVisitView visit : open) {
            if (!twice.contains(visit.waterSystemId()) && isWell(visit.waterSystemId())) {
                movedChanges.movable(visit).ifPresent(movable -> allowed.put(visit, movable));
            }
        }
        List<Map.Entry<PlannedVisitView, MovedChanges.Movable>> largestFirst = allowed.entrySet().stream()
                .sorted(Comparator.comparing(
                        (Map.Entry<PlannedVisitView, MovedChanges.Movable> each) ->
                                each.getValue().most(),
                        Comparator.reverseOrder()))
                .toList();
        Optional<Remedy> most = Optional.empty();
        for (int tanks = 1; tanks <= largestFirst.size(); tanks++) {
            most = less(now, largestFirst.subList(0, tanks), PERCENT);
            if (most.filter(Remedy::settles).isPresent()) {
                return least(now, largestFirst.subList(0, tanks));
            }
        }
        return most;
    }

    private Optional<Remedy> least(LoadSheet now, List<Map.Entry<PlannedVisitView, MovedChanges.Movable>> changes) {
        return IntStream.iterate(STEP_PERCENT, percent -> percent <= PERCENT, percent -> percent + STEP_PERCENT)
                .mapToObj(percent -> less(now, changes, percent))
                .flatMap(Optional::stream)
                .filter(Remedy::settles)
                .findFirst();
    }

    /** So many percent of what may wait of each change are left to the next visit. */
    private Optional<Remedy> less(
            LoadSheet now, List<Map.Entry<PlannedVisitView, MovedChanges.Movable>> changes, int percent) {
        Map<PlannedVisitId, BigDecimal> less = new HashMap<>();
        BigDecimal price = BigDecimal.ZERO;
        for (Map.Entry<PlannedVisitView, MovedChanges.Movable> each : changes) {
            BigDecimal litres = each.getValue()
                    .most()
                    .multiply(BigDecimal.valueOf(percent))
                    .movePointLeft(2)
                    .setScale(1, RoundingMode.CEILING);
            less.put(each.getKey().id(), litres);
            price = price.add(waitingCosts(each.getKey(), each.getValue(), litres));
        }
        return lighter(
                now, Lighter.changing(less), new Remedy.Choice.Less(less), price.setScale(2, RoundingMode.HALF_EVEN));
    }

    /** Systems with several visits on the round: the largest of their changes is made, so one made smaller changes nothing. */
    private static Set<WaterSystemId> twice(List<PlannedVisitView> open) {
        Set<WaterSystemId> seen = new HashSet<>();
        return open.stream()
                .map(PlannedVisitView::waterSystemId)
                .filter(system -> !seen.add(system))
                .collect(Collectors.toSet());
    }

    private boolean isWell(WaterSystemId id) {
        if (systems.require(id).infectionClass().isSick()
                || plans.bySystem(id).stream()
                        .anyMatch(plan -> plan.state() == PlanState.PROPOSED || plan.state() == PlanState.RUNNING)) {
            return false;
        }
        Map<Quantity, ReadingView> latest = readings.latest(id);
        return BUILDS_UP.stream()
                .flatMap(quantity -> Optional.ofNullable(latest.get(quantity)).stream())
                .noneMatch(reading -> reading.assessment().verdict() == VerdictCode.ABOVE
                        || reading.assessment().verdictAsRead() == VerdictCode.ABOVE);
    }

    /**
     * The share of the change that waits, for the days by which that is longer than the visit may be moved, at what a day beyond
     * what was agreed costs.
     */
    private BigDecimal waitingCosts(PlannedVisitView visit, MovedChanges.Movable movable, BigDecimal litres) {
        long days = ChronoUnit.DAYS.between(visit.dueOn(), movable.next().dueOn()) - visit.toleranceDays();
        return settings.current()
                .dayBeyond()
                .multiply(litres)
                .divide(movable.changed(), 4, RoundingMode.HALF_EVEN)
                .multiply(BigDecimal.valueOf(Math.max(0, days)));
    }

    // Doing it

    /**
     * Does it.
     *
     * @return the round that stops went to; the round itself where they stay
     * @throws StaleVersion if the round was changed since that version
     * @throws FieldRefusal if it cannot be done any more
     */
    @Transactional
    public RoundId apply(RoundId id, int version, Remedy.Choice choice) {
        RoundView round = rounds.require(id);
        if (round.version() != version) {
            throw new StaleVersion("/rounds/" + id + "/remedies", null, null);
        }
        return switch (choice) {
            case Remedy.Choice.Move move -> moves.move(id, version, move.stops(), move.target());
            case Remedy.Choice.Mix mix -> {
                ofRound(round, mix.visits());
                mix.visits().forEach(mixedOnSite::decide);
                yield id;
            }
            case Remedy.Choice.Refill refill -> {
                ofRound(round, refill.litres().keySet());
                refill.litres().forEach(refillOnTheWay::decide);
                yield id;
            }
            case Remedy.Choice.Less less -> {
                ofRound(round, less.litres().keySet());
                less.litres().forEach(movedChanges::move);
                yield id;
            }
        };
    }

    private static void ofRound(RoundView round, Collection<PlannedVisitId> visits) {
        Set<PlannedVisitId> here = round.stops().stream()
                .filter(stop -> stop.startedAt().isEmpty())
                .flatMap(stop -> stop.plannedVisits().stream())
                .collect(Collectors.toSet());
        if (!here.containsAll(visits)) {
            throw new FieldRefusal("visit", "loads.remedy.not-here");
        }
    }

    private List<Taken> taken(RoundView round) {
        List<PlannedVisitId> ids = round.stops().stream()
                .flatMap(stop -> stop.plannedVisits().stream())
                .toList();
        Set<PlannedVisitId> mixed = mixedOnSite.among(ids);
        Map<PlannedVisitId, BigDecimal> refills = refillOnTheWay.among(ids);
        Map<PlannedVisitId, MovedChanges.Moved> less = movedChanges.offVisits(ids);
        List<Taken> taken = new ArrayList<>();
        for (PlannedVisitView visit : dueVisits.find(ids)) {
            if (mixed.contains(visit.id())) {
                taken.add(taken(visit, Remedy.Kind.MIX_ON_SITE, Optional.empty()));
            }
            Optional.ofNullable(refills.get(visit.id()))
                    .ifPresent(litres -> taken.add(taken(visit, Remedy.Kind.REFILL_ON_THE_WAY, Optional.of(litres))));
            Optional.ofNullable(less.get(visit.id()))
                    .ifPresent(
                            moved -> taken.add(taken(visit, Remedy.Kind.SMALLER_CHANGE, Optional.of(moved.litres()))));
        }
        return taken;
    }

    private Taken taken(PlannedVisitView visit, Remedy.Kind kind, Optional<BigDecimal> litres) {
        return new Taken(
                visit.id(),
                systems.require(visit.waterSystemId()),
                sites.require(visit.siteId()).title(),
                kind,
                litres);
    }

    /**
     * Takes back what was decided for a visit of a round so that it fits: its salt water is mixed at the depot again, nothing is
     * filled there for later stops, and it changes as much as agreed.
     *
     * @throws FieldRefusal if the visit is not on that round, or its work has begun
     */
    @Transactional
    public void takeBack(RoundId id, PlannedVisitId visit) {
        ofRound(rounds.require(id), List.of(visit));
        mixedOnSite.takeBack(visit);
        refillOnTheWay.takeBack(visit);
        movedChanges.takeBack(visit);
    }
}
