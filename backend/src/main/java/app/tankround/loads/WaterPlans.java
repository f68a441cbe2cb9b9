package app.tankround.loads;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.DepotId;
import app.tankround.accounts.DepotView;
import app.tankround.accounts.Fleet;
import app.tankround.chemistry.SaltWater;
import app.tankround.clients.SiteService;
import app.tankround.clients.SiteView;
import app.tankround.loads.WaterPlan.Cause;
import app.tankround.loads.WaterPlan.Remedy;
import app.tankround.loads.WaterPlan.Way;
import app.tankround.loads.WaterPlanner.Outcome;
import app.tankround.loads.WaterPlanner.Problem;
import app.tankround.purification.PlantProduction;
import app.tankround.purification.PlantReview;
import app.tankround.purification.Plants;
import app.tankround.stock.KeptWater;
import app.tankround.stock.SaltYields;
import app.tankround.stock.VatRole;
import app.tankround.stock.VatView;
import app.tankround.stock.WaterBack;
import app.tankround.stock.WaterBatchView;
import app.tankround.stock.WaterBatches;
import app.tankround.stock.WaterVats;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.Salinity;
import app.tankround.units.Volume;
import app.tankround.web.NotFound;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.TreeMap;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * Works out backwards from when vans are loaded when the water plant of a depot has to run, and when each batch must be
 * filled, salted, heated, circulated and measured. Nothing of it is stored.
 */
@Service
@Transactional
public class WaterPlans {

    /** Today and the six days after it. */
    public static final int DAYS = 7;

    private static final int SLOT_MINUTES = 30;
    private static final int HEAT_STEP_MINUTES = 15;
    private static final double SLOTS_PER_HOUR = 2;

    private static final double ROUNDING_L = 0.05;
    private static final int PERCENT = 100;

    private final WaterNeeds waterNeeds;
    private final WaterPlantSettings settings;
    private final WaterVats vats;
    private final WaterBatches batches;
    private final WaterBack back;
    private final Plants plants;
    private final PlantReview review;
    private final WaterSystems systems;
    private final SiteService sites;
    private final Fleet fleet;
    private final BusinessProfile business;
    private final SaltYields yields;
    private final Clock clock;

    WaterPlans(
            WaterNeeds waterNeeds,
            WaterPlantSettings settings,
            WaterVats vats,
            WaterBatches batches,
            WaterBack back,
            Plants plants,
            PlantReview review,
            WaterSystems systems,
            SiteService sites,
            Fleet fleet,
            BusinessProfile business,
            SaltYields yields,
            Clock clock) {
        this.waterNeeds = waterNeeds;
        this.settings = settings;
        this.vats = vats;
        this.batches = batches;
        this.back = back;
        this.plants = plants;
        this.review = review;
        this.systems = systems;
        this.sites = sites;
        this.fleet = fleet;
        this.business = business;
        this.yields = yields;
        this.clock = clock;
    }

    /** @throws NotFound if there is no such depot */
    public WaterPlan of(DepotId depotId) {
        DepotView depot = fleet.find(depotId).orElseThrow(() -> new NotFound("depot", depotId));
        WaterPlantTerms terms = settings.current();
        List<WaterNeed> needs = waterNeeds.ahead(depotId, DAYS, terms.leavesAt());
        List<WaterPlan.Plant> producing = producing(depotId, terms.stated());
        List<VatView> taking =
                vats.at(depotId).stream().filter(vat -> vat.role().isPresent()).toList();
        return new Work(depot, terms, needs, producing, taking, back.keptAt(depotId)).plan();
    }

    private List<WaterPlan.Plant> producing(DepotId depot, PlantProduction.Stated stated) {
        List<WaterPlan.Plant> found = new ArrayList<>();
        for (WaterSystemId id : plants.all()) {
            WaterSystemView system = systems.require(id);
            boolean here = sites.find(system.siteId())
                    .flatMap(SiteView::depotId)
                    .filter(depot::equals)
                    .isPresent();
            if (here) {
                found.add(new WaterPlan.Plant(id, system.name(), review.production(id, stated)));
            }
        }
        return found;
    }

    /** Salt water for one day and salinity, or a part of it that a vat holds. */
    private record Wanted(
            LocalDate day,
            Salinity salinity,
            double litres,
            Instant leavesAt,
            Instant emptiedAt,
            List<String> rounds,
            double estimated) {

        SaltWater.Batch batch(double saltYield) {
            return SaltWater.mix(Volume.ofLitres(litres), salinity, LoadRules.MIXED_AT, LoadRules.WATER_AT, saltYield);
        }

        Wanted share(double part) {
            return new Wanted(day, salinity, litres * part, leavesAt, emptiedAt, rounds, estimated * part);
        }
    }

    private record PurifiedWanted(LocalDate day, double litres, Instant leavesAt, List<String> rounds) {}

    /** When the steps of a batch begin, each as late as can be. */
    private record Steps(Instant salt, Instant heat, Instant circulate, Instant measure, Instant ready) {}

    /** One plan. */
    private final class Work {

        private final DepotView depot;
        private final WaterPlantTerms terms;
        private final List<WaterNeed> needs;
        private final List<WaterPlan.Plant> producing;
        private final List<VatView> taking;
        private final List<KeptWater> kept;
        private final ZoneId zone = business.zone();
        private final double saltYield;
        private final Instant origin;
        private final Map<WaterSystemId, Instant> freeFrom = new LinkedHashMap<>();
        private final List<WaterPlan.OnHand> onHand = new ArrayList<>();
        private final List<WaterPlan.InDrums> inDrums = new ArrayList<>();
        private final List<Wanted> wanted;
        private final List<PurifiedWanted> purified;
        private final List<Boolean> night;

        Work(
                DepotView depot,
                WaterPlantTerms terms,
                List<WaterNeed> needs,
                List<WaterPlan.Plant> producing,
                List<VatView> taking,
                List<KeptWater> kept) {
            this.depot = depot;
            this.kept = kept;
            this.saltYield = yields.toWeigh(LocalDate.ofInstant(clock.instant(), zone));
            this.terms = terms;
            this.needs = needs;
            this.producing = producing;
            this.taking = taking;
            Instant now = clock.instant();
            Instant hour = now.truncatedTo(ChronoUnit.HOURS);
            long past = ChronoUnit.SECONDS.between(hour, now);
            origin = hour.plus(
                    (past + SLOT_MINUTES * 60L - 1) / (SLOT_MINUTES * 60L) * SLOT_MINUTES, ChronoUnit.MINUTES);
            wanted = split(unserved());
            purified = purified();
            Instant end = Stream.concat(needs.stream().map(WaterNeed::leavesAt), Stream.of(origin))
                    .max(Comparator.naturalOrder())
                    .orElse(origin);
            night = IntStream.range(0, Math.max(0, slotOf(end)))
                    .mapToObj(slot -> terms.isNight(
                            LocalDateTime.ofInstant(at(slot), zone).toLocalTime()))
                    .toList();
        }

        private Instant at(int slot) {
            return origin.plus((long) slot * SLOT_MINUTES, ChronoUnit.MINUTES);
        }

        /** The slot in which an instant lies; below 0 before the first. */
        private int slotOf(Instant instant) {
            return (int) Math.floorDiv(ChronoUnit.MINUTES.between(origin, instant), SLOT_MINUTES);
        }

        WaterPlan plan() {
            Problem problem = problem(terms, 1, 0, 1);
            Outcome outcome = WaterPlanner.plan(problem);
            List<WaterPlan.Order> orders = orders(problem, outcome);
            List<WaterPlan.Drums> drums = drums(outcome);
            double missing = missing(problem, outcome);
            return new WaterPlan(
                    depot,
                    origin,
                    producing,
                    taking,
                    days(),
                    runs(outcome),
                    orders,
                    drums,
                    onHand,
                    inDrums,
                    missing > ROUNDING_L ? remedies(missing) : List.of());
        }

        // Demand

        private List<WaterPlan.Day> days() {
            Map<LocalDate, List<WaterNeed>> byDay = new TreeMap<>();
            LocalDate today = LocalDate.ofInstant(clock.instant(), zone);
            IntStream.range(0, DAYS).forEach(day -> byDay.put(today.plusDays(day), new ArrayList<>()));
            needs.forEach(need ->
                    byDay.computeIfAbsent(need.day(), none -> new ArrayList<>()).add(need));
            return byDay.entrySet().stream()
                    .map(day -> new WaterPlan.Day(
                            day.getKey(),
                            sum(day.getValue().stream()
                                    .filter(need -> need.salinity().isPresent())),
                            sum(day.getValue().stream()
                                    .filter(need -> need.salinity().isEmpty())),
                            sum(day.getValue().stream()
                                    .filter(need -> need.round().isEmpty()))))
                    .toList();
        }

        private static Volume sum(Stream<WaterNeed> some) {
            return Volume.ofLitres(
                    some.mapToDouble(need -> need.volume().litres()).sum());
        }

        /** Salt water that no vat holds already, by day and salinity. */
        private List<Wanted> unserved() {
            List<WaterNeed> salt =
                    needs.stream().filter(need -> need.salinity().isPresent()).toList();
            double[] litres =
                    salt.stream().mapToDouble(need -> need.volume().litres()).toArray();
            serveKept(salt, litres);
            for (VatView vat : taking) {
                if (vat.role().equals(Optional.of(VatRole.MIXING))) {
                    freeFrom.put(vat.id(), serve(vat, salt, litres));
                }
            }
            record Key(LocalDate day, double salinity) {}
            Map<Key, Wanted> byTarget = new LinkedHashMap<>();
            for (int k = 0; k < litres.length; k++) {
                WaterNeed need = salt.get(k);
                if (litres[k] > ROUNDING_L) {
                    Wanted one = new Wanted(
                            need.day(),
                            need.salinity().orElseThrow(),
                            litres[k],
                            need.leavesAt(),
                            need.leavesAt(),
                            need.code().isEmpty() ? List.of() : List.of(need.code()),
                            need.round().isEmpty() ? litres[k] : 0);
                    byTarget.merge(new Key(need.day(), one.salinity().practical()), one, Work::together);
                }
            }
            return List.copyOf(byTarget.values());
        }

        /** Takes what waits in its drums first, since that is the oldest, for days on which it is still good. */
        private void serveKept(List<WaterNeed> wants, double[] litres) {
            boolean salted = wants.stream().anyMatch(need -> need.salinity().isPresent());
            for (KeptWater waiting : kept) {
                if (waiting.salinity().isPresent() != salted) {
                    continue;
                }
                double left = waiting.left().litres();
                double served = 0;
                for (int k = 0; k < litres.length && left > ROUNDING_L; k++) {
                    if (serves(waiting, wants.get(k))) {
                        double taken = Math.min(left, litres[k]);
                        litres[k] -= taken;
                        left -= taken;
                        served += taken;
                    }
                }
                if (served > ROUNDING_L) {
                    inDrums.add(new WaterPlan.InDrums(waiting, Volume.ofLitres(served)));
                }
            }
        }

        private static boolean serves(KeptWater waiting, WaterNeed need) {
            boolean same = waiting.salinity().isEmpty()
                    || Math.abs(waiting.salinity().get().practical()
                                    - need.salinity().orElseThrow().practical())
                            <= WaterBack.SAME_WITHIN;
            return same && !need.day().isAfter(waiting.goodUntil());
        }

        private static Wanted together(Wanted one, Wanted other) {
            return new Wanted(
                    one.day(),
                    one.salinity(),
                    one.litres() + other.litres(),
                    one.leavesAt().isBefore(other.leavesAt()) ? one.leavesAt() : other.leavesAt(),
                    one.emptiedAt().isAfter(other.emptiedAt()) ? one.emptiedAt() : other.emptiedAt(),
                    Stream.concat(one.rounds().stream(), other.rounds().stream())
                            .distinct()
                            .toList(),
                    one.estimated() + other.estimated());
        }

        /** Takes from what stands in a vat, and says when the vat is free. */
        private Instant serve(VatView vat, List<WaterNeed> salt, double[] litres) {
            Optional<WaterBatchView> batch = vat.content()
                    .flatMap(VatView.Content::batch)
                    .flatMap(batches::find)
                    .filter(made -> made.salt().isPresent());
            double left = vat.level().litres();
            if (batch.isEmpty() || left <= ROUNDING_L) {
                return origin;
            }
            double salinity = batches.salinity(batch.get()).practical();
            double served = 0;
            Instant free = Instant.MAX;
            for (int k = 0; k < litres.length && left > ROUNDING_L; k++) {
                double wantedSalinity = salt.get(k).salinity().orElseThrow().practical();
                if (Math.abs(wantedSalinity - salinity) <= WaterBack.SAME_WITHIN) {
                    double taken = Math.min(left, litres[k]);
                    litres[k] -= taken;
                    left -= taken;
                    served += taken;
                    free = salt.get(k).leavesAt();
                }
            }
            onHand.add(new WaterPlan.OnHand(
                    vat.name(),
                    OptionalInt.of(batch.get().number()),
                    batch.get().release().isPresent(),
                    Volume.ofLitres(served),
                    Volume.ofLitres(left > ROUNDING_L ? left : 0)));
            return left > ROUNDING_L ? Instant.MAX : free;
        }

        /** What no vat holds at once is mixed in equal parts. */
        private List<Wanted> split(List<Wanted> all) {
            double largest =
                    mixing().mapToDouble(vat -> vat.volume().litres()).max().orElse(0);
            return all.stream()
                    .flatMap(one -> {
                        int parts = largest > 0 ? (int) Math.ceil(one.litres() / largest - 1e-9) : 1;
                        return Stream.generate(() -> one.share(1.0 / parts)).limit(parts);
                    })
                    .toList();
        }

        private Stream<VatView> mixing() {
            return taking.stream().filter(vat -> vat.role().equals(Optional.of(VatRole.MIXING)));
        }

        private List<PurifiedWanted> purified() {
            List<WaterNeed> fresh =
                    needs.stream().filter(need -> need.salinity().isEmpty()).toList();
            double[] litres =
                    fresh.stream().mapToDouble(need -> need.volume().litres()).toArray();
            serveKept(fresh, litres);
            Map<LocalDate, PurifiedWanted> byDay = new TreeMap<>();
            for (int k = 0; k < litres.length; k++) {
                WaterNeed need = fresh.get(k);
                if (litres[k] > ROUNDING_L) {
                    byDay.merge(
                            need.day(),
                            new PurifiedWanted(
                                    need.day(),
                                    litres[k],
                                    need.leavesAt(),
                                    need.code().isEmpty() ? List.of() : List.of(need.code())),
                            (one, other) -> new PurifiedWanted(
                                    one.day(),
                                    one.litres() + other.litres(),
                                    one.leavesAt(),
                                    Stream.concat(one.rounds().stream(), other.rounds().stream())
                                            .toList()));
                }
            }
            return List.copyOf(byDay.values());
        }

        // Backwards from loading

        private Steps steps(Wanted one, WaterPlantTerms by) {
            Instant ready = attendedEnd(
                    one.leavesAt().minus((long) by.loadMinutes() + by.spareMinutes(), ChronoUnit.MINUTES),
                    by.measureMinutes(),
                    by);
            Instant measure = ready.minus(by.measureMinutes(), ChronoUnit.MINUTES);
            Instant circulate = measure.minus(by.circulateMinutes(), ChronoUnit.MINUTES);
            Instant heatLatest = circulate.minus(by.heatMinutes(), ChronoUnit.MINUTES);
            Instant salted = attendedEnd(heatLatest, by.saltMinutes(), by);
            return new Steps(
                    salted.minus(by.saltMinutes(), ChronoUnit.MINUTES),
                    heat(salted, heatLatest, by),
                    circulate,
                    measure,
                    ready);
        }

        /** The latest end of so many minutes' work, not after {@code latest}, while somebody is there. */
        private Instant attendedEnd(Instant latest, int minutes, WaterPlantTerms by) {
            LocalDateTime local = LocalDateTime.ofInstant(latest, zone);
            LocalDateTime until = local.toLocalDate().atTime(by.attendedUntil());
            LocalDateTime earliest =
                    local.toLocalDate().atTime(by.attendedFrom()).plusMinutes(minutes);
            if (local.isAfter(until)) {
                return until.atZone(zone).toInstant();
            }
            return local.isBefore(earliest) ? until.minusDays(1).atZone(zone).toInstant() : latest;
        }

        /** Of the times at which heating may begin, the one with the most of it by night; of those the latest. */
        private Instant heat(Instant first, Instant last, WaterPlantTerms by) {
            Instant best = last;
            int most = -1;
            for (Instant start = last;
                    !start.isBefore(first);
                    start = start.minus(HEAT_STEP_MINUTES, ChronoUnit.MINUTES)) {
                int inNight = 0;
                for (int minute = 0; minute < by.heatMinutes(); minute += HEAT_STEP_MINUTES) {
                    boolean cheap = by.isNight(LocalDateTime.ofInstant(start.plus(minute, ChronoUnit.MINUTES), zone)
                            .toLocalTime());
                    inNight += cheap ? 1 : 0;
                }
                if (inNight > most) {
                    most = inNight;
                    best = start;
                }
            }
            return best;
        }

        // The problem and what comes of it

        /**
         * @param scale by which all demand is multiplied
         * @param moreVats vats beside those there are, as large as the largest
         * @param tanks by how much there is room for purified water
         */
        private Problem problem(WaterPlantTerms by, double scale, int moreVats, double tanks) {
            double perHour = producing.stream()
                    .flatMap(plant -> plant.production().stream())
                    .mapToDouble(PlantProduction::litresPerHour)
                    .sum();
            double stored = 0;
            double room = 0;
            for (VatView vat : taking) {
                boolean tank = vat.role().equals(Optional.of(VatRole.PURIFIED));
                boolean noBatch = vat.content().flatMap(VatView.Content::batch).isEmpty();
                // Purified water that is in a vat already waits there for its batch.
                double here = tank || noBatch ? vat.level().litres() : 0;
                stored += here;
                room += tank ? Math.max(here, vat.volume().litres() * tanks) : here;
            }
            List<WaterPlanner.Vat> all = new ArrayList<>(
                    mixing().map(vat -> new WaterPlanner.Vat(vat.volume().litres(), free(vat)))
                            .toList());
            all.stream()
                    .max(Comparator.comparingDouble(WaterPlanner.Vat::litres))
                    .ifPresent(largest -> IntStream.range(0, moreVats)
                            .forEach(more -> all.add(new WaterPlanner.Vat(largest.litres(), 0))));
            List<WaterPlanner.Batch> toMake = new ArrayList<>();
            for (Wanted one : wanted) {
                double water = one.batch(saltYield).water().litres() * scale;
                toMake.add(new WaterPlanner.Batch(
                        water,
                        one.litres() * scale,
                        slotOf(steps(one, by).salt()),
                        slotOf(one.emptiedAt()) + 1,
                        Math.max(1, (int)
                                Math.ceil(water / by.fillLitresPerHour().doubleValue() * SLOTS_PER_HOUR)),
                        true));
            }
            for (PurifiedWanted each : purified) {
                int by2 = slotOf(each.leavesAt().minus(by.loadMinutes(), ChronoUnit.MINUTES));
                toMake.add(new WaterPlanner.Batch(each.litres() * scale, each.litres() * scale, by2, by2, 0, false));
            }
            return new Problem(night, perHour / SLOTS_PER_HOUR, stored, room, all, toMake);
        }

        private int free(VatView vat) {
            Instant free = freeFrom.getOrDefault(vat.id(), origin);
            return free.equals(Instant.MAX)
                    ? Integer.MAX_VALUE
                    : Math.max(0, slotOf(free) + (free.equals(origin) ? 0 : 1));
        }

        /** Litres of finished water that are missing. */
        private double missing(Problem problem, Outcome outcome) {
            return IntStream.range(0, outcome.missing().length)
                    .mapToDouble(batch -> missing(problem, outcome, batch))
                    .sum();
        }

        private static double missing(Problem problem, Outcome outcome, int batch) {
            WaterPlanner.Batch made = problem.batches().get(batch);
            double litres = made.water() > 0 ? outcome.missing()[batch] / made.water() * made.litres() : 0;
            return litres > ROUNDING_L ? litres : 0;
        }

        private List<WaterPlan.Order> orders(Problem problem, Outcome outcome) {
            List<VatView> mixers = mixing().toList();
            List<WaterPlan.Order> orders = new ArrayList<>();
            for (int k = 0; k < wanted.size(); k++) {
                Wanted one = wanted.get(k);
                SaltWater.Batch batch = one.batch(saltYield);
                Steps steps = steps(one, terms);
                double missing = missing(problem, outcome, k);
                int vat = outcome.vat()[k];
                orders.add(new WaterPlan.Order(
                        one.day(),
                        one.salinity(),
                        batch.volume(),
                        batch.product(),
                        batch.water(),
                        vat < 0 ? Optional.empty() : Optional.of(mixers.get(vat).name()),
                        at(outcome.fillFrom()[k]),
                        steps.salt(),
                        steps.heat(),
                        steps.circulate(),
                        steps.measure(),
                        steps.ready(),
                        one.leavesAt(),
                        one.rounds(),
                        Volume.ofLitres(one.estimated()),
                        Volume.ofLitres(missing),
                        missing > 0 ? Optional.of(cause(problem, outcome, k)) : Optional.empty()));
            }
            orders.sort(Comparator.comparing(WaterPlan.Order::fillFrom));
            return orders;
        }

        private static Cause cause(Problem problem, Outcome outcome, int batch) {
            WaterPlanner.Batch made = problem.batches().get(batch);
            if (made.filledBy() - made.fillSlots() < 0) {
                return Cause.TIME;
            }
            return outcome.missing()[batch] >= made.water() && outcome.vat()[batch] < 0 ? Cause.VAT : Cause.WATER;
        }

        private List<WaterPlan.Drums> drums(Outcome outcome) {
            List<WaterPlan.Drums> drums = new ArrayList<>();
            for (int k = 0; k < purified.size(); k++) {
                PurifiedWanted each = purified.get(k);
                double missing = outcome.missing()[wanted.size() + k];
                drums.add(new WaterPlan.Drums(
                        each.day(),
                        Volume.ofLitres(each.litres()),
                        each.leavesAt().minus(terms.loadMinutes(), ChronoUnit.MINUTES),
                        each.rounds(),
                        Volume.ofLitres(missing > ROUNDING_L ? missing : 0)));
            }
            return drums;
        }

        private List<WaterPlan.Run> runs(Outcome outcome) {
            List<WaterPlan.Run> runs = new ArrayList<>();
            double[] made = outcome.made();
            int slot = 0;
            while (slot < made.length) {
                int end = slot;
                double litres = 0;
                while (end < made.length && made[end] > 0) {
                    litres += made[end++];
                }
                if (end > slot) {
                    runs.add(new WaterPlan.Run(at(slot), at(end), Volume.ofLitres(litres)));
                }
                slot = end + 1;
            }
            return runs;
        }

        // What could be done

        private List<Remedy> remedies(double missing) {
            List<Remedy> found = new ArrayList<>();
            found.add(remedy(Way.HOURS, 0, problem(aroundTheClock(), 1, 0, 1)));
            if (mixing().findAny().isPresent()) {
                found.add(remedy(Way.VAT, 0, problem(terms, 1, 1, 1)));
            }
            found.add(remedy(Way.TANK, 0, problem(terms, 1, 0, 2)));
            smaller().ifPresent(found::add);
            List<Remedy> helping = new ArrayList<>(found.stream()
                    .filter(way -> way.missing().litres() < missing - ROUNDING_L)
                    .sorted(Comparator.comparingDouble(way -> way.missing().litres()))
                    .toList());
            helping.add(new Remedy(Way.BUY, missing, Volume.ofLitres(0)));
            return helping;
        }

        private Remedy remedy(Way way, double number, Problem problem) {
            double still = missing(problem, WaterPlanner.plan(problem));
            return new Remedy(way, number, Volume.ofLitres(still > ROUNDING_L ? still : 0));
        }

        private WaterPlantTerms aroundTheClock() {
            return new WaterPlantTerms(
                    terms.feedCelsius(),
                    terms.ratedLitresPerHour(),
                    terms.lossPercentPerYear(),
                    terms.fillLitresPerHour(),
                    terms.saltMinutes(),
                    terms.heatMinutes(),
                    terms.circulateMinutes(),
                    terms.measureMinutes(),
                    terms.spareMinutes(),
                    terms.loadMinutes(),
                    LocalTime.MIN,
                    LocalTime.MAX,
                    terms.leavesAt(),
                    terms.nightFrom(),
                    terms.nightUntil(),
                    terms.version());
        }

        /** The least percent by which everything has to be smaller so that nothing is missing; empty where nothing helps. */
        private Optional<Remedy> smaller() {
            int low = 1;
            int high = PERCENT - 1;
            while (low < high) {
                int middle = (low + high) / 2;
                Problem less = problem(terms, 1 - middle / (double) PERCENT, 0, 1);
                if (missing(less, WaterPlanner.plan(less)) > ROUNDING_L) {
                    low = middle + 1;
                } else {
                    high = middle;
                }
            }
            Remedy best = remedy(Way.SMALLER, low, problem(terms, 1 - low / (double) PERCENT, 0, 1));
            return best.missing().litres() > 0 ? Optional.empty() : Optional.of(best);
        }
    }
}
