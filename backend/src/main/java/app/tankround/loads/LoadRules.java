package app.tankround.loads;

import app.tankround.accounts.ContainerRole;
import app.tankround.accounts.VanView;
import app.tankround.accounts.WaterContainerId;
import app.tankround.accounts.WaterContainerView;
import app.tankround.chemistry.FreshWaterMatch;
import app.tankround.chemistry.SaltWater;
import app.tankround.clients.SiteView;
import app.tankround.instruments.InstrumentView;
import app.tankround.schedule.LearnedUse;
import app.tankround.schedule.SockTasks;
import app.tankround.schedule.TaskKind;
import app.tankround.schedule.TaskUse;
import app.tankround.schedule.TaskView;
import app.tankround.stock.StockKind;
import app.tankround.stock.StockMass;
import app.tankround.tanks.SystemKind;
import app.tankround.tanks.WaterSystemId;
import app.tankround.units.Mass;
import app.tankround.units.Quantity;
import app.tankround.units.Salinity;
import app.tankround.units.SockSize;
import app.tankround.units.Temperature;
import app.tankround.units.Volume;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.function.BiConsumer;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * What has to be in the van for the work of a round. Pure arithmetic; the formulas for salt water are those of
 * {@link SaltWater}.
 *
 * <p>Water is brought by these rules:
 *
 * <ul>
 *   <li>Salt water for a change, at a site with its own RO/DI water and a mixing barrel: dry salt, to be mixed there.
 *   <li>Salt water at every other site, own RO/DI water or not, since there is nothing to mix it in: mixed salt water
 *       from the depot. Its salt is weighed there the day before and is not loaded.
 *   <li>Salt water for a system that is kept fresher than most of the round, at a site with RO/DI water and without a barrel:
 *       a part of what is on board for the others, thinned there ({@link ThinnedSystems}).
 *   <li>Fresh water for a change: what {@link FreshChange} makes it of, of which RO/DI water comes from the depot where the site
 *       has none. For topping up a fresh-water system: nothing where the site has RO/DI water; conditioner alone where it has a
 *       tap; otherwise RO/DI water from the depot. Supply systems take no conditioned tap water.
 *   <li>Topping up salt water: nothing where the site has RO/DI water, otherwise RO/DI water from the depot, never tap
 *       water.
 *   <li>What the client keeps at the site, such as salt or socks of their own, is used first and not brought ({@link
 *       ThereAlready}).
 *   <li>A system in quarantine, suspected or under treatment shares nothing: own drums, own socks, own salt, own tools.
 *       Test kits and instruments are shared, since clean systems are visited first.
 * </ul>
 *
 * <p>Water goes in the registered containers that {@link ContainerChoice} finds: RO/DI and salt water in those for it, water for
 * systems that share nothing in those for treatments, and what is taken out where there is no drain in those for waste. What
 * finds none, and all water of a van without any, is reckoned with the van's usual drums.
 *
 * <p>Of what earlier visits used more or less than planned, as much is loaded as is enough on so many rounds as
 * {@link LoadTerms} ask for, pooled over the round ({@link PooledNeed}), and never less than is planned: what was agreed is
 * always in the van, and a van that ran dry must not teach to load less.
 */
final class LoadRules {

    /** Salt water is weighed as it is mixed, at 25 °C. */
    static final Temperature MIXED_AT = Temperature.ofCelsius(25);

    /** RO/DI water is measured and weighed at 20 °C. */
    static final Temperature WATER_AT = Temperature.ofCelsius(20);

    /** Common practice, no source; the label of the product in use goes before. */
    static final BigDecimal CONDITIONER_ML_PER_LITRE = new BigDecimal("0.1");

    /** The name under which a conditioner in the catalogue is found. */
    static final String CONDITIONER = "Water conditioner";

    /** What the key of its line begins with. */
    static final String CONDITIONER_KEY = "conditioner";

    private static final int YIELD_DECIMALS = 3;

    static final String DRY_SALT_KEY = "dry-salt";

    static final String SALT_WATER_KEY = "salt-water";

    static final String RO_DI_KEY = "ro-di";

    /** What the key of a use begins with that is of what the client keeps at the site. */
    static final String THERE_KEY = "there";

    private static final double ROUNDING = 1e-9;

    /** What the key of a line begins with that is a container without water; its number follows. */
    static final String CONTAINER_KEY = "container:";

    private static final Salinity FRESH = Salinity.ofPractical(0);

    /** Old water is weighed as sea water where it is told how far a container may be filled. */
    private static final Salinity SALTIEST_USUAL = Salinity.ofPractical(35);

    private final VanView van;
    private final double saltYield;
    private final Weights weights;
    private final InstrumentKit instruments;
    private final LoadLevels levels;
    private final List<WaterContainerView> containers;

    private final Map<String, Pile> saltWater = new LinkedHashMap<>();
    private final Map<String, Salinity> salinities = new LinkedHashMap<>();
    private final SharedSalinities shared;
    private final Map<WaterSystemId, Thinning> thinned;
    private final Map<WaterSystemId, List<LoadText>> waters = new LinkedHashMap<>();
    private final Map<String, Pile> freshWater = new LinkedHashMap<>();
    private final Map<String, Pile> drySalt = new LinkedHashMap<>();
    private final List<MixedThere> mixedThere = new ArrayList<>();
    private final ThereAlready there = new ThereAlready();
    private final Map<String, Pile> conditioner = new LinkedHashMap<>();
    private final List<LoadLine> lines = new ArrayList<>();
    private final List<DepotMix> mixes = new ArrayList<>();
    private final List<LoadText> notes = new ArrayList<>();
    private final List<PlannedUse> planned = new ArrayList<>();
    private final Set<WaterContainerId> fromPool = new HashSet<>();

    private LoadRules(
            VanView van,
            double saltYield,
            Weights weights,
            InstrumentKit instruments,
            LoadLevels levels,
            List<WaterContainerView> containers,
            SharedSalinities shared,
            Map<WaterSystemId, Thinning> thinned) {
        this.shared = shared;
        this.thinned = thinned;
        this.containers = containers;
        this.instruments = instruments;
        this.levels = levels;
        this.van = van;
        this.saltYield = saltYield;
        this.weights = weights;
    }

    /**
     * What has to be loaded.
     *
     * @param notes what was assumed
     * @param planned what each system is to get of what is loaded
     * @param fromPool containers of the depot that go along
     * @param waters how the water for a change of a system is made up there, and how warm it may be
     */
    record Needs(
            List<LoadLine> lines,
            List<DepotMix> mixes,
            List<LoadText> notes,
            List<PlannedUse> planned,
            Set<WaterContainerId> fromPool,
            Map<WaterSystemId, List<LoadText>> waters) {

        Needs {
            planned = List.copyOf(planned);
            lines = List.copyOf(lines);
            mixes = List.copyOf(mixes);
            notes = List.copyOf(notes);
            fromPool = Set.copyOf(fromPool);
            waters = Map.copyOf(waters);
        }
    }

    /**
     * Adds up the work of a round.
     *
     * @param saltYield g of anhydrous salt in one g of the salt mix, 0.5 to 1
     * @param asked in the order of the round
     * @param instruments instruments, test kits and standards, chosen by whoever knows the register
     * @param levels how sure the load is to be enough
     * @param containers that the van may load, its own first; with none it loads its usual drums
     */
    static Needs of(
            VanView van,
            double saltYield,
            Weights weights,
            List<SystemWork> asked,
            InstrumentKit instruments,
            LoadLevels levels,
            List<WaterContainerView> containers) {
        List<SystemWork> works = asked.stream().map(LoadRules::withSalts).toList();
        SharedSalinities shared = shared(works);
        LoadRules rules = new LoadRules(
                van,
                saltYield,
                weights,
                instruments,
                levels,
                containers,
                shared,
                ThinnedSystems.of(works, shared, van));
        works.forEach(rules::water);
        rules.waterLines(works);
        rules.countedLines(works);
        rules.lines.addAll(instruments.lines());
        rules.toolLines(works);
        rules.lines.sort(LoadLine.ORDER);
        return new Needs(rules.lines, rules.mixes, rules.notes, rules.planned, rules.fromPool, rules.waters);
    }

    // Water

    /** Hardness salts for a change are a dose as any other. */
    private static SystemWork withSalts(SystemWork work) {
        return freshChange(work).flatMap(FreshChange::dose).map(work::and).orElse(work);
    }

    private static Optional<FreshChange> freshChange(SystemWork work) {
        return work.salinity().isPresent()
                ? Optional.empty()
                : changed(work).map(needed -> FreshChange.of(work, needed.litres()));
    }

    private void water(SystemWork work) {
        changed(work).ifPresent(needed -> bringForChange(work, needed, TaskView.waterChangeLitres(needed.litres())));
        BigDecimal along = takenAlong(work);
        if (along.signum() > 0) {
            notes.add(LoadText.of(
                    "loads.note.no-drain",
                    work.system().name(),
                    work.site().name(),
                    Volume.ofLitres(along.doubleValue())));
        }
        tasks(work, TaskKind.TOP_UP)
                .map(task -> topUp(work, task))
                .max(Comparator.comparing(Needed::litres))
                .filter(needed -> needed.litres().signum() > 0)
                .ifPresent(needed -> bringFresh(work, needed, TaskView.topUp()));
    }

    /** @param litres or what is made of them */
    private record Needed(BigDecimal litres, List<LoadText> workings) {

        Needed and(Needed other) {
            return new Needed(
                    litres.add(other.litres),
                    Stream.concat(workings.stream(), other.workings.stream()).toList());
        }

        void addTo(Pile pile, SystemWork work, PooledNeed.Use use) {
            pile.add(work, litres, workings.getFirst());
            workings.stream().skip(1).forEach(working -> pile.add(work, BigDecimal.ZERO, working));
            pile.use(use, used(work, use));
        }
    }

    /** The largest change that is agreed, or what a plan asks for beside it. */
    private static Optional<Needed> changed(SystemWork work, boolean besides) {
        return tasks(work, TaskKind.WATER_CHANGE)
                .filter(task -> task.item().isPresent() == besides)
                .map(task -> change(work, task))
                .max(Comparator.comparing(Needed::litres));
    }

    /** @return empty where no water is changed */
    static Optional<BigDecimal> litresChanged(SystemWork work) {
        return changed(work).map(Needed::litres);
    }

    private static Optional<Needed> changed(SystemWork work) {
        return Stream.of(changed(work, false), changed(work, true))
                .flatMap(Optional::stream)
                .reduce(Needed::and);
    }

    /** Of the water that is taken out of a system that for which there is no drain, L. */
    static BigDecimal takenAlong(SystemWork work) {
        return work.site().ownDrain()
                ? BigDecimal.ZERO
                : changed(work).map(Needed::litres).orElse(BigDecimal.ZERO);
    }

    private static Needed change(SystemWork work, TaskView task) {
        BigDecimal amount = task.amount().orElse(BigDecimal.ZERO);
        Volume net = work.system().netVolume();
        boolean percent = task.unit().filter("%"::equals).isPresent();
        BigDecimal litres = task.litresOf(BigDecimal.valueOf(net.litres()));
        Volume volume = Volume.ofLitres(litres.doubleValue());
        return new Needed(
                litres,
                List.of(
                        percent
                                ? LoadText.of(
                                        "loads.work.change-percent",
                                        work.system().name(),
                                        amount,
                                        net,
                                        volume)
                                : LoadText.of(
                                        task.item().isPresent() ? "loads.work.change-plan" : "loads.work.change-litres",
                                        work.system().name(),
                                        volume)));
    }

    private static Needed topUp(SystemWork work, TaskView task) {
        if (task.amount().isPresent()) {
            BigDecimal litres = tenths(task.amount().get());
            return new Needed(
                    litres,
                    List.of(LoadText.of(
                            "loads.work.top-up-agreed", work.system().name(), Volume.ofLitres(litres.doubleValue()))));
        }
        Volume perDay = work.system().evaporationPerDay();
        BigDecimal evaporated = BigDecimal.valueOf(perDay.litres()).multiply(BigDecimal.valueOf(work.daysSinceVisit()));
        BigDecimal most = BigDecimal.valueOf(work.system().netVolume().litres());
        BigDecimal litres = tenths(evaporated.min(most));
        return new Needed(
                litres,
                List.of(LoadText.of(
                        "loads.work.top-up",
                        work.system().name(),
                        perDay,
                        work.daysSinceVisit(),
                        Volume.ofLitres(litres.doubleValue()))));
    }

    /** Up to the next tenth of a litre: nobody measures finer, and too little is the worse mistake. */
    private static BigDecimal tenths(BigDecimal litres) {
        return litres.setScale(1, RoundingMode.CEILING);
    }

    private void bringForChange(SystemWork work, Needed needed, TaskView task) {
        tellWarmth(work, needed.litres());
        SalinityGoal goal = work.salinity().orElse(null);
        if (goal == null) {
            bringFreshForChange(work, needed, task);
            return;
        }
        if (goal.assumed()) {
            notes.add(LoadText.of(
                    "loads.note.no-salinity-target",
                    work.system().name(),
                    work.site().name(),
                    goal.salinity()));
        }
        SiteView site = work.site();
        if (mixesThere(work)) {
            if (!site.mixingBarrel()) {
                mixedThere.add(new MixedThere(work, needed.litres()));
                notes.add(LoadText.of(
                        "loads.note.mixed-on-site",
                        work.system().name(),
                        site.name(),
                        Volume.ofLitres(needed.litres().doubleValue()),
                        goal.salinity()));
            }
            SaltWater.Batch batch = batch(Volume.ofLitres(needed.litres().doubleValue()), goal.salinity());
            BigDecimal kilograms =
                    BigDecimal.valueOf(batch.product().kilograms()).setScale(2, RoundingMode.HALF_UP);
            BigDecimal own = there.salt(work, kilograms);
            tellThere(work, own, LoadUnit.KILOGRAM, LoadText.of("loads.item.salt-mix"));
            planThere(DRY_SALT_KEY, work, own, task);
            BigDecimal brought = kilograms.subtract(own);
            if (brought.signum() > 0) {
                Pile pile = pile(drySalt, DRY_SALT_KEY, work);
                new Needed(brought, needed.workings()).addTo(pile, work, use(DRY_SALT_KEY, work, brought, task));
                pile.add(work, BigDecimal.ZERO, saltWorking(batch));
            }
        } else if (thinned.containsKey(work.system().id())) {
            bringThinned(work, needed, task);
        } else {
            Salinity mixed = shared.of(work, goal);
            String key = SALT_WATER_KEY + ":" + mixed.practical();
            salinities.put(owned(key, work), mixed);
            Pile pile = pile(saltWater, key, work);
            needed.addTo(pile, work, use(key, work, needed.litres(), task));
            if (!mixed.equals(goal.salinity())) {
                pile.add(
                        work,
                        BigDecimal.ZERO,
                        LoadText.of("loads.work.shares-batch", work.system().name(), goal.salinity(), mixed));
            }
        }
    }

    /** What the client keeps there is told, since nobody finds it in the van. */
    private BigDecimal tellThere(SystemWork work, BigDecimal found, LoadUnit unit, LoadText item) {
        if (found.signum() > 0) {
            notes.add(LoadText.of(
                    "loads.note.there",
                    work.system().name(),
                    work.site().name(),
                    shown(found.setScale(2, RoundingMode.HALF_UP).stripTrailingZeros(), unit),
                    item));
        }
        return found;
    }

    /** Saltier water that is on board anyway, and what it is thinned in. */
    private void bringThinned(SystemWork work, Needed needed, TaskView task) {
        Thinning thinning = Objects.requireNonNull(thinned.get(work.system().id()));
        mixedThere.add(new MixedThere(work, needed.litres()));
        String key = SALT_WATER_KEY + ":" + thinning.from().practical();
        salinities.put(key, thinning.from());
        BigDecimal carried = tenths(BigDecimal.valueOf(thinning.carried().litres()));
        new Needed(carried, needed.workings()).addTo(pile(saltWater, key, work), work, use(key, work, carried, task));
        LoadText how = LoadText.of(
                "loads.water.thinned", thinning.carried(), thinning.from(), thinning.purified(), thinning.to());
        pile(saltWater, key, work)
                .add(
                        work,
                        BigDecimal.ZERO,
                        LoadText.of("loads.work.thinned", work.system().name(), how));
        tell(work, how);
        notes.add(LoadText.of(
                "loads.note.thinned", work.system().name(), work.site().name(), how));
    }

    /** How the water for a change is made up, for whoever does it. */
    private void tell(SystemWork work, LoadText how) {
        waters.computeIfAbsent(work.system().id(), none -> new ArrayList<>()).add(how);
    }

    private void tellWarmth(SystemWork work, BigDecimal litres) {
        double net = work.system().netVolume().litres();
        work.suits()
                .temperature()
                .map(kept -> FreshWaterMatch.warmth(kept, Math.min(1, litres.doubleValue() / net)))
                .ifPresent(span -> tell(work, LoadText.of("loads.water.warmth", span.low(), span.high())));
    }

    private static SharedSalinities shared(List<SystemWork> works) {
        return new SharedSalinities(works.stream()
                .filter(work -> !mixesThere(work))
                .flatMap(work -> work.salinity().filter(goal -> SharedSalinities.isShared(work, goal)).stream()
                        .flatMap(goal -> changed(work).stream()
                                .map(needed -> new SharedSalinities.Wanted(
                                        goal.salinity(), needed.litres().doubleValue()))))
                .toList());
    }

    static boolean mixesThere(SystemWork work) {
        return work.site().ownRoDi() && (work.site().mixingBarrel() || work.mixedOnSite());
    }

    /** Conditioned tap water, RO/DI water, or both, as the hardness asks for. */
    private void bringFreshForChange(SystemWork work, Needed needed, TaskView task) {
        FreshChange change = FreshChange.of(work, needed.litres());
        List<LoadText> making = change.making(work);
        making.forEach(how -> tell(work, how));
        if (change.tap().signum() > 0) {
            bringConditioner(work, new Needed(change.tap(), needed.workings()), task);
        }
        if (change.purified().signum() > 0) {
            bringPurified(work, new Needed(change.purified(), needed.workings()), task);
        }
        String said = work.site().name();
        if (change.tapUnknown()) {
            notes.add(LoadText.of("loads.note.tap-unknown", work.system().name(), said));
        }
        if (change.salts().isPresent()
                || change.tap().signum() > 0 && change.purified().signum() > 0) {
            making.forEach(how ->
                    notes.add(LoadText.of("loads.note.water", work.system().name(), said, how)));
        }
    }

    private void bringFresh(SystemWork work, Needed needed, TaskView task) {
        boolean tap = work.site().ownTap()
                && !work.site().ownRoDi()
                && !work.system().kind().isSalt()
                && work.system().kind() != SystemKind.SUPPLY;
        if (tap) {
            bringConditioner(work, needed, task);
        } else {
            bringPurified(work, needed, task);
        }
    }

    private void bringConditioner(SystemWork work, Needed needed, TaskView task) {
        BigDecimal millilitres =
                needed.litres().multiply(CONDITIONER_ML_PER_LITRE).setScale(0, RoundingMode.CEILING);
        BigDecimal own = there.product(work, StockKind.DOSE, CONDITIONER, millilitres, "mL");
        tellThere(work, own, LoadUnit.MILLILITRE, LoadText.of("loads.item.conditioner"));
        planThere(CONDITIONER_KEY, work, own, task);
        BigDecimal brought = millilitres.subtract(own);
        if (brought.signum() == 0) {
            return;
        }
        Pile pile = pile(conditioner, CONDITIONER_KEY, work);
        new Needed(brought, needed.workings()).addTo(pile, work, use(CONDITIONER_KEY, work, brought, task));
        pile.add(work, BigDecimal.ZERO, LoadText.of("loads.work.conditioner", CONDITIONER_ML_PER_LITRE));
    }

    private void bringPurified(SystemWork work, Needed needed, TaskView task) {
        if (work.site().ownRoDi()) {
            notes.add(LoadText.of(
                    "loads.note.own-ro-di",
                    work.system().name(),
                    work.site().name(),
                    Volume.ofLitres(needed.litres().doubleValue())));
        } else {
            needed.addTo(pile(freshWater, RO_DI_KEY, work), work, use(RO_DI_KEY, work, needed.litres(), task));
        }
    }

    private SaltWater.Batch batch(Volume volume, Salinity salinity) {
        return SaltWater.mix(volume, salinity, MIXED_AT, WATER_AT, saltYield);
    }

    private LoadText saltWorking(SaltWater.Batch batch) {
        return LoadText.of(
                "loads.work.salt",
                batch.volume(),
                batch.salinity(),
                batch.seawater(),
                batch.anhydrousSalt(),
                BigDecimal.valueOf(saltYield)
                        .setScale(YIELD_DECIMALS, RoundingMode.HALF_EVEN)
                        .stripTrailingZeros(),
                batch.product());
    }

    /** Water that is mixed at a site, in as many drums as hold all of it at once, so that it is measured as one. */
    private record MixedThere(SystemWork work, BigDecimal litres) {

        ContainerChoice.Need need() {
            return new ContainerChoice.Need(
                    "mix:" + work.system().id(),
                    work.sick() ? ContainerRole.TREATMENT : ContainerRole.SALT,
                    Volume.ofLitres(litres.doubleValue()),
                    1,
                    true);
        }
    }

    /**
     * Water of one kind, for everybody clean or for one sick system.
     *
     * @param volume that is taken along from the depot
     * @param stops that get it
     */
    private record Water(
            LoadGroup group,
            String key,
            Pile pile,
            Loaded loaded,
            Volume volume,
            List<StopShare> stops,
            Salinity salinity,
            Temperature temperature,
            String item) {

        static Water whole(
                LoadGroup group,
                String key,
                Pile pile,
                Loaded loaded,
                Salinity salinity,
                Temperature temperature,
                String item) {
            Volume volume = Volume.ofLitres(loaded.amount().doubleValue());
            return new Water(group, key, pile, loaded, volume, pile.shares(), salinity, temperature, item);
        }

        /** What lies between two parts of it. */
        Water between(double from, double until) {
            return new Water(
                    group,
                    key,
                    pile,
                    loaded,
                    Volume.ofLitres(loaded.amount().doubleValue() * (until - from)),
                    part(pile.shares(), from, until),
                    salinity,
                    temperature,
                    item);
        }

        ContainerChoice.Need need() {
            ContainerRole clean = group == LoadGroup.SALT_WATER ? ContainerRole.SALT : ContainerRole.FRESH;
            return new ContainerChoice.Need(
                    key,
                    pile.apartFor().isPresent() ? ContainerRole.TREATMENT : clean,
                    volume(),
                    mass(Volume.ofLitres(1)).kilograms(),
                    false);
        }

        Mass mass(Volume part) {
            return SaltWater.mass(part, salinity, temperature);
        }

        LoadText named(Volume part) {
            return LoadText.of(item, part, salinity);
        }
    }

    private void waterLines(List<SystemWork> works) {
        List<Water> waters = new ArrayList<>();
        saltWater.forEach((key, pile) -> {
            Salinity salinity = Objects.requireNonNull(salinities.get(key));
            Loaded loaded = loaded(pile, LoadTerms.Kind.WATER, LoadUnit.LITRE);
            Water water =
                    Water.whole(LoadGroup.SALT_WATER, key, pile, loaded, salinity, MIXED_AT, "loads.item.salt-water");
            SaltWater.Batch batch = batch(water.volume(), salinity);
            mixes.add(new DepotMix(pile.apartFor(), water.volume(), salinity, batch.product(), batch.water()));
            waters.add(water);
        });
        List<FilledThere> filledThere = new ArrayList<>();
        freshWater.forEach((key, pile) -> {
            Loaded loaded = loaded(pile, LoadTerms.Kind.WATER, LoadUnit.LITRE);
            Water water = Water.whole(LoadGroup.RO_DI_WATER, key, pile, loaded, FRESH, WATER_AT, "loads.item.ro-di");
            fromDepot(water, works, filledThere).ifPresent(waters::add);
        });
        ContainerChoice choice = ContainerChoice.of(
                Stream.concat(
                                waters.stream().map(Water::need),
                                mixedThere.stream().map(MixedThere::need))
                        .toList(),
                containers,
                (container, lifts) -> DrumLift.limit(lifts, container.standsCm(), van.floorOrUsualCm()));
        waters.forEach(water -> bring(water, choice.of(water.need())));
        emptyLines(choice);
        refillLines(filledThere);
        refillNotes(works);
        wasteLines(works);
        if (containers.isEmpty() && lines.stream().anyMatch(line -> line.unit() == LoadUnit.DRUM)) {
            notes.add(LoadText.of("loads.note.no-containers", van.name(), van.drum()));
        }
        drySalt.forEach((key, pile) -> {
            Loaded loaded = loaded(pile, LoadTerms.Kind.SALT, LoadUnit.KILOGRAM);
            lines.add(new LoadLine(
                    key,
                    LoadGroup.DRY_SALT,
                    pile.apartFor(),
                    loaded.amount(),
                    LoadUnit.KILOGRAM,
                    LoadText.of("loads.item.salt-mix"),
                    Optional.empty(),
                    Mass.ofKilograms(loaded.amount().doubleValue()),
                    false,
                    loaded.workings(),
                    pile.shares(),
                    loaded.assurance()));
        });
        conditioner.forEach((key, pile) -> {
            Loaded loaded = loaded(pile, LoadTerms.Kind.SAFETY, LoadUnit.MILLILITRE);
            StockMass mass = weights.of(StockKind.DOSE, CONDITIONER, loaded.amount(), "mL");
            lines.add(new LoadLine(
                    key,
                    LoadGroup.DOSES,
                    pile.apartFor(),
                    loaded.amount(),
                    LoadUnit.MILLILITRE,
                    LoadText.of("loads.item.conditioner"),
                    Optional.empty(),
                    mass.mass(),
                    mass.estimated(),
                    loaded.workings(),
                    pile.shares(),
                    loaded.assurance()));
        });
    }

    // How much more than planned

    /** What a task is planned to use, and what earlier visits say of it; socks that are left are just handed over. */
    private PooledNeed.Use use(String key, SystemWork work, BigDecimal planned, TaskView task) {
        plan(key, work, planned, task);
        Optional<LearnedUse> learned =
                task.kind() == TaskKind.SOCKS_LEFT ? Optional.empty() : Optional.of(levels.learned(work, task));
        return new PooledNeed.Use(planned.doubleValue(), learned, work.system().kind(), task.kind());
    }

    /** What nobody writes down is booked by what is planned, also what the client keeps there. */
    private void planThere(String key, SystemWork work, BigDecimal amount, TaskView task) {
        if (amount.signum() > 0) {
            plan(THERE_KEY + ":" + key, work, amount, task);
        }
    }

    private void plan(String key, SystemWork work, BigDecimal amount, TaskView task) {
        planned.add(new PlannedUse(
                owned(key, work),
                work.position(),
                work.site().title(),
                work.system(),
                TaskUse.item(task),
                task.kind(),
                amount));
    }

    private static LoadText used(SystemWork work, PooledNeed.Use use) {
        String name = work.system().name();
        LearnedUse learned = use.learned().filter(LearnedUse::isKnown).orElse(null);
        if (learned == null) {
            return LoadText.of("loads.work.used-planned", name);
        }
        BigDecimal mean = hundredths(learned.mean());
        BigDecimal spread = hundredths(Math.sqrt(learned.variance()));
        return learned.visits() == 0
                ? LoadText.of("loads.work.used-kind", name, learned.kindVisits(), mean, spread)
                : LoadText.of(
                        "loads.work.used",
                        name,
                        learned.visits(),
                        hundredths(learned.seen()),
                        learned.kindVisits(),
                        mean,
                        spread);
    }

    private static BigDecimal hundredths(double number) {
        return BigDecimal.valueOf(number).setScale(2, RoundingMode.HALF_UP);
    }

    /**
     * How much of a pile is loaded.
     *
     * @param assurance empty where what is planned is loaded, since nothing is known
     */
    private record Loaded(BigDecimal amount, Optional<Assurance> assurance, List<LoadText> workings) {}

    private Loaded loaded(Pile pile, LoadTerms.Kind kind, LoadUnit unit) {
        BigDecimal planned = pile.amount();
        PooledNeed need = pile.need();
        if (!levels.terms().byUse()) {
            return new Loaded(planned, Optional.empty(), pile.workings());
        }
        if (!need.known()) {
            return new Loaded(planned, Optional.empty(), pile.workingsAnd(LoadText.of("loads.work.nothing-learned")));
        }
        double level = levels.terms().level(kind);
        BigDecimal wanted = BigDecimal.valueOf(need.quantile(level));
        BigDecimal amount = planned.max(
                switch (unit) {
                    // Whole ones: up to half a piece more is no piece more.
                    case PIECE -> wanted.setScale(0, RoundingMode.HALF_UP);
                    case KILOGRAM -> wanted.setScale(1, RoundingMode.CEILING);
                    case DRUM, GRAM, LITRE, MILLILITRE, SET -> wanted.setScale(0, RoundingMode.CEILING);
                });
        double enough = need.enough(amount.doubleValue() + (unit == LoadUnit.PIECE ? 0.5 : 0));
        LoadTerms.Cost cost = levels.terms().cost(kind);
        List<LoadText> workings = new ArrayList<>(pile.workings());
        workings.addAll(pile.learned());
        workings.add(LoadText.of(
                "loads.work.pooled",
                shown(planned, unit),
                shown(BigDecimal.valueOf(need.mean()).setScale(1, RoundingMode.HALF_UP), unit),
                shown(BigDecimal.valueOf(need.deviation()).setScale(1, RoundingMode.HALF_UP), unit)));
        workings.add(LoadText.of(
                kind == LoadTerms.Kind.SAFETY ? "loads.work.level-safety" : "loads.work.level",
                cost.few(),
                cost.many(),
                percent(level),
                shown(wanted.setScale(1, RoundingMode.CEILING), unit),
                shown(amount, unit),
                levels.terms().safetyPercent()));
        return new Loaded(amount, Optional.of(new Assurance(planned, amount, enough)), workings);
    }

    /** Water and salt in the units of the business. */
    private static Object shown(BigDecimal amount, LoadUnit unit) {
        return switch (unit) {
            case LITRE -> Volume.ofLitres(amount.doubleValue());
            case KILOGRAM -> Mass.ofKilograms(amount.doubleValue());
            case DRUM, GRAM, MILLILITRE, PIECE, SET -> LoadText.of("loads.work.amount", amount, unit);
        };
    }

    private static BigDecimal percent(double part) {
        return BigDecimal.valueOf(part).movePointRight(2).setScale(2, RoundingMode.HALF_UP);
    }

    // In what it is brought

    /** The first stops get what is in the first containers; what finds none is in drums. */
    private void bring(Water water, ContainerChoice.Served served) {
        double litres = served.containers().stream()
                        .mapToDouble(filled -> filled.level().litres())
                        .sum()
                + served.without().litres();
        double from = 0;
        for (ContainerChoice.Filled filled : served.containers()) {
            double until = from + filled.level().litres();
            lines.add(containerLine(
                    water, LoadedContainer.of(filled), part(water.stops(), from / litres, until / litres)));
            keepFromPool(filled);
            from = until;
        }
        if (served.without().litres() > 0) {
            drumLines(
                    water,
                    served.containers().isEmpty() ? water.volume() : served.without(),
                    part(water.stops(), from / litres, 1));
            if (!containers.isEmpty()) {
                notes.add(LoadText.of(
                        "loads.note.no-container." + water.need().role(),
                        served.without(),
                        water.named(served.without()),
                        van.drum()));
            }
        }
    }

    private void keepFromPool(ContainerChoice.Filled filled) {
        if (filled.container().van().isEmpty()) {
            fromPool.add(filled.container().id());
        }
    }

    /**
     * Who gets what lies between two parts of all the water, the first stop first; to a thousandth of a litre, so that the parts
     * add up to what is planned.
     */
    private static List<StopShare> part(List<StopShare> shares, double from, double until) {
        if (from <= 0 && until >= 1) {
            return shares;
        }
        BigDecimal all = shares.stream().map(StopShare::amount).reduce(BigDecimal.ZERO, BigDecimal::add);
        BigDecimal low = thousandths(all, from);
        BigDecimal high = thousandths(all, until);
        List<StopShare> part = new ArrayList<>();
        BigDecimal before = BigDecimal.ZERO;
        for (StopShare share : shares) {
            BigDecimal after = before.add(share.amount());
            BigDecimal here = after.min(high).subtract(before.max(low));
            if (here.signum() > 0) {
                part.add(new StopShare(share.position(), share.siteName(), here));
            }
            before = after;
        }
        return part;
    }

    private static BigDecimal thousandths(BigDecimal all, double part) {
        return part > 1 - ROUNDING
                ? all
                : all.multiply(BigDecimal.valueOf(part)).setScale(3, RoundingMode.HALF_EVEN);
    }

    private LoadLine containerLine(Water water, LoadedContainer container, List<StopShare> stops) {
        List<LoadText> workings = new ArrayList<>(water.loaded().workings());
        workings.add(LoadText.of(
                "loads.work.container",
                container.level(),
                water.salinity(),
                water.mass(container.level()),
                container.number(),
                container.empty()));
        return new LoadLine(
                // Less or more in it is to be filled anew.
                water.key() + ":no:" + container.number() + ":"
                        + tenths(BigDecimal.valueOf(container.level().litres())).toPlainString(),
                water.group(),
                water.pile().apartFor(),
                BigDecimal.ONE,
                LoadUnit.DRUM,
                water.named(container.level()),
                Optional.empty(),
                water.mass(container.level()).plus(container.empty()),
                false,
                workings,
                stops,
                water.loaded().assurance(),
                Optional.of(container),
                Optional.empty());
    }

    private void drumLines(Water water, Volume volume, List<StopShare> stops) {
        Drums drums = Drums.of(volume, van.drum());
        List<LoadText> workings = new ArrayList<>(water.loaded().workings());
        workings.add(LoadText.of("loads.work.drums", volume, van.drum(), drums.full(), drums.rest()));
        workings.add(
                LoadText.of("loads.work.water-mass", volume, water.salinity(), water.mass(volume), van.drumEmpty()));
        if (drums.full() > 0) {
            Mass each = water.mass(van.drum()).plus(van.drumEmpty());
            lines.add(new LoadLine(
                    water.key() + ":full",
                    water.group(),
                    water.pile().apartFor(),
                    BigDecimal.valueOf(drums.full()),
                    LoadUnit.DRUM,
                    water.named(van.drum()),
                    Optional.of(each),
                    Mass.ofKilograms(each.kilograms() * drums.full()),
                    false,
                    workings,
                    stops,
                    water.loaded().assurance()));
        }
        if (drums.hasRest()) {
            lines.add(new LoadLine(
                    // Less or more in it is another drum.
                    water.key() + ":rest:"
                            + tenths(BigDecimal.valueOf(drums.rest().litres())).toPlainString(),
                    water.group(),
                    water.pile().apartFor(),
                    BigDecimal.ONE,
                    LoadUnit.DRUM,
                    water.named(drums.rest()),
                    Optional.empty(),
                    water.mass(drums.rest()).plus(van.drumEmpty()),
                    false,
                    workings,
                    stops,
                    water.loaded().assurance()));
        }
    }

    /** Containers, and drums for what finds none, in which water is mixed at the sites. */
    private void emptyLines(ContainerChoice choice) {
        Map<String, Pile> drums = new LinkedHashMap<>();
        for (MixedThere mixed : mixedThere) {
            SystemWork work = mixed.work();
            ContainerChoice.Served served = choice.of(mixed.need());
            for (ContainerChoice.Filled filled : served.containers()) {
                Pile pile = Pile.of(work);
                pile.add(
                        work,
                        BigDecimal.ONE,
                        LoadText.of(
                                "loads.work.mixed-on-site-container",
                                work.system().name(),
                                Volume.ofLitres(mixed.litres().doubleValue()),
                                filled.level()));
                lines.add(emptyLine(
                        LoadGroup.EMPTY_DRUMS,
                        mixed.need().key(),
                        LoadedContainer.of(filled),
                        pile,
                        "loads.item.empty-container"));
                keepFromPool(filled);
            }
            if (served.without().litres() > 0) {
                BigDecimal count = BigDecimal.valueOf(
                        Drums.of(served.without(), van.drum()).count());
                pile(drums, "empty-drum", work)
                        .add(
                                work,
                                count,
                                LoadText.of(
                                        "loads.work.mixed-on-site",
                                        work.system().name(),
                                        served.without(),
                                        van.drum(),
                                        count));
            }
        }
        drums.forEach((key, pile) -> lines.add(new LoadLine(
                key,
                LoadGroup.EMPTY_DRUMS,
                pile.apartFor(),
                pile.amount(),
                LoadUnit.DRUM,
                LoadText.of("loads.item.empty-drum", van.drum()),
                Optional.of(van.drumEmpty()),
                Mass.ofKilograms(van.drumEmpty().kilograms() * pile.amount().doubleValue()),
                false,
                pile.workings(),
                pile.shares())));
    }

    // What is filled on the way

    /** RO/DI water that is filled at a stop, and who gets it. */
    private record FilledThere(SystemWork there, Water water) {

        ContainerChoice.Need need() {
            return new ContainerChoice.Need(
                    Refill.purpose(there.site().id()),
                    ContainerRole.FRESH,
                    water.volume(),
                    water.mass(Volume.ofLitres(1)).kilograms(),
                    false);
        }

        Refill refill(Volume part) {
            return new Refill(there.position(), there.site().title(), part, water.mass(part));
        }
    }

    /**
     * What of RO/DI water the depot gives, the first stops getting theirs from it; the rest is filled on the way, what is filled
     * last going to the last stops. A sick system gets none of that, and where one stands nothing is filled.
     */
    private Optional<Water> fromDepot(Water all, List<SystemWork> works, List<FilledThere> filledThere) {
        Map<Integer, SystemWork> there = new LinkedHashMap<>();
        works.stream()
                .filter(work -> work.refill().litres() > 0)
                .forEach(work -> there.putIfAbsent(work.position(), work));
        if (all.pile().apartFor().isPresent() || there.isEmpty()) {
            return Optional.of(all);
        }
        Map<Integer, Double> allowed = new LinkedHashMap<>();
        there.forEach((position, work) -> allowed.put(position, allowedAt(position, works)));
        double litres = all.volume().litres();
        Map<Integer, Volume> filled = RefillShares.of(all.stops(), all.volume(), allowed);
        double from = 1 - filled.values().stream().mapToDouble(Volume::litres).sum() / litres;
        Optional<Water> ofDepot = from > ROUNDING ? Optional.of(all.between(0, from)) : Optional.empty();
        for (Map.Entry<Integer, Volume> each : filled.entrySet()) {
            double until = from + each.getValue().litres() / litres;
            filledThere.add(
                    new FilledThere(Objects.requireNonNull(there.get(each.getKey())), all.between(from, until)));
            from = until;
        }
        return ofDepot;
    }

    /** L that the van takes at a stop, by what was decided there and what its site allows. */
    private static double allowedAt(int position, List<SystemWork> works) {
        List<SystemWork> here =
                works.stream().filter(work -> work.position() == position).toList();
        if (isSickAt(position, works)) {
            return 0;
        }
        double decided =
                here.stream().mapToDouble(work -> work.refill().litres()).sum();
        return Math.min(
                decided, here.getFirst().site().refill().map(Volume::litres).orElse(0.0));
    }

    private static boolean isSickAt(int position, List<SystemWork> works) {
        return works.stream()
                .anyMatch(work -> work.position() == position
                        && (work.sick() || work.refill().sickThere()));
    }

    /**
     * Stop by stop, in what is left once the water of the depot has its containers. What stands in the van is not filled there,
     * and what is filled is lifted from the ground.
     */
    private void refillLines(List<FilledThere> filledThere) {
        Set<String> used = lines.stream()
                .flatMap(line -> line.container().stream())
                .map(LoadedContainer::number)
                .collect(Collectors.toCollection(HashSet::new));
        for (FilledThere filled : filledThere) {
            Water water = filled.water();
            ContainerChoice.Need need = filled.need();
            List<WaterContainerView> free = containers.stream()
                    .filter(container -> !container.pumped() && !used.contains(container.number()))
                    .toList();
            ContainerChoice.Served served = ContainerChoice.of(
                            List.of(need), free, (container, lifts) -> DrumLift.limit(lifts, 0, van.floorOrUsualCm()))
                    .of(need);
            double litres = water.volume().litres();
            double from = 0;
            for (ContainerChoice.Filled each : served.containers()) {
                double until = from + each.level().litres();
                LoadedContainer container = LoadedContainer.of(each).onTheGround();
                used.add(container.number());
                lines.add(refillLine(
                        filled,
                        CONTAINER_KEY + container.number() + ":" + need.key(),
                        BigDecimal.ONE,
                        LoadText.of(
                                "loads.item.refill-container",
                                container.level(),
                                filled.there().position(),
                                filled.there().site().title()),
                        filled.refill(container.level()),
                        part(water.stops(), from / litres, Math.min(1, until / litres)),
                        Optional.of(container)));
                keepFromPool(each);
                from = until;
            }
            if (served.without().litres() > ROUNDING) {
                refillDrums(filled, served.without(), part(water.stops(), from / litres, 1));
                if (!containers.isEmpty()) {
                    notes.add(LoadText.of(
                            "loads.note.no-container.FRESH",
                            served.without(),
                            water.named(served.without()),
                            van.drum()));
                }
            }
            notes.add(LoadText.of(
                    "loads.note.refill", water.volume(), filled.there().site().title()));
        }
    }

    private void refillDrums(FilledThere filled, Volume volume, List<StopShare> stops) {
        int count = Drums.of(volume, van.drum()).count();
        lines.add(refillLine(
                filled,
                Refill.drumsKey(filled.there().site().id()),
                BigDecimal.valueOf(count),
                LoadText.of(
                        "loads.item.refill-drums",
                        van.drum(),
                        volume,
                        filled.there().position(),
                        filled.there().site().title()),
                filled.refill(volume),
                stops,
                Optional.empty()));
        Mass heaviest = filled.water()
                .mass(Volume.ofLitres(Math.min(volume.litres(), van.drum().litres())))
                .plus(van.drumEmpty());
        double limit = DrumLift.limit(count, 0, van.floorOrUsualCm());
        if (heaviest.kilograms() > limit) {
            notes.add(LoadText.of(
                    "loads.note.refill-lift", filled.there().site().title(), heaviest, Mass.ofKilograms(limit)));
        }
    }

    private LoadLine refillLine(
            FilledThere filled,
            String key,
            BigDecimal count,
            LoadText item,
            Refill refill,
            List<StopShare> stops,
            Optional<LoadedContainer> container) {
        Mass empty = container.map(LoadedContainer::empty).orElse(van.drumEmpty());
        List<LoadText> workings = new ArrayList<>(filled.water().loaded().workings());
        workings.add(LoadText.of("loads.work.refill", refill.volume(), refill.siteName(), refill.water()));
        return new LoadLine(
                key,
                LoadGroup.FILLED_ON_THE_WAY,
                Optional.empty(),
                count,
                LoadUnit.DRUM,
                item,
                container.isPresent() ? Optional.empty() : Optional.of(empty),
                Mass.ofKilograms(empty.kilograms() * count.doubleValue()),
                false,
                workings,
                stops,
                filled.water().loaded().assurance(),
                container,
                Optional.of(refill));
    }

    /** Where something was decided and nothing is filled, it is said why. */
    private void refillNotes(List<SystemWork> works) {
        Set<Integer> filled = lines.stream()
                .flatMap(line -> line.refill().stream())
                .map(Refill::position)
                .collect(Collectors.toSet());
        works.stream()
                .filter(work -> work.refill().litres() > 0 && !filled.contains(work.position()))
                .map(work -> LoadText.of(
                        isSickAt(work.position(), works) ? "loads.note.refill-sick" : "loads.note.refill-nothing",
                        work.site().title()))
                .distinct()
                .forEach(notes::add);
    }

    /** What goes along empty: the key names container and purpose, since nothing is in it that could be more or less. */
    private static LoadLine emptyLine(
            LoadGroup group, String purpose, LoadedContainer container, Pile pile, String item) {
        return new LoadLine(
                CONTAINER_KEY + container.number() + ":" + purpose,
                group,
                pile.apartFor(),
                BigDecimal.ONE,
                LoadUnit.DRUM,
                LoadText.of(item, container.level()),
                Optional.empty(),
                container.empty(),
                false,
                pile.workings(),
                pile.shares(),
                Optional.empty(),
                Optional.of(container),
                Optional.empty());
    }

    /** Containers for what is taken out where there is no drain; a van without any takes its emptied drums. */
    private void wasteLines(List<SystemWork> works) {
        Pile pile = Pile.shared();
        works.stream().filter(work -> takenAlong(work).signum() > 0).forEach(work -> {
            Volume out = Volume.ofLitres(takenAlong(work).doubleValue());
            pile.add(
                    work,
                    takenAlong(work),
                    LoadText.of("loads.work.waste", work.system().name(), out));
        });
        if (containers.isEmpty() || pile.amount().signum() == 0) {
            return;
        }
        ContainerChoice.Need need = new ContainerChoice.Need(
                "waste",
                ContainerRole.WASTE,
                Volume.ofLitres(pile.amount().doubleValue()),
                SaltWater.mass(Volume.ofLitres(1), SALTIEST_USUAL, MIXED_AT).kilograms(),
                false);
        // It is filled beside the tank, on the ground.
        ContainerChoice.Served served = ContainerChoice.of(
                        List.of(need), containers, (container, lifts) -> DrumLift.limit(lifts, 0, van.floorOrUsualCm()))
                .of(need);
        served.containers().forEach(filled -> {
            lines.add(emptyLine(
                    LoadGroup.WASTE_CONTAINERS,
                    need.key(),
                    LoadedContainer.of(filled),
                    pile,
                    "loads.item.waste-container"));
            keepFromPool(filled);
        });
        if (served.without().litres() > 0) {
            notes.add(LoadText.of("loads.note.no-container.WASTE", served.without()));
        }
    }

    // Everything that is counted or measured out

    private void countedLines(List<SystemWork> works) {
        socks(works);
        products(works, TaskKind.MEDIA, StockKind.MEDIA, LoadGroup.MEDIA, LineKey.MEDIA);
        products(works, TaskKind.DOSE, StockKind.DOSE, LoadGroup.DOSES, LineKey.DOSE);
        kits(works);
    }

    private void socks(List<SystemWork> works) {
        Map<String, Pile> piles = new LinkedHashMap<>();
        Map<String, SockSize> sizes = new LinkedHashMap<>();
        works.forEach(work -> SockTasks.of(work.tasks()).forEach(task -> {
            SockSize size = task.sockSize().orElseThrow();
            String key = LineKey.SOCK + ":" + size.code();
            BigDecimal all = task.amount().orElse(BigDecimal.ONE);
            BigDecimal count = task.kind() == TaskKind.SOCKS_LEFT
                    ? all
                    : all.subtract(tellThere(
                            work,
                            there.socks(work, size, all),
                            LoadUnit.PIECE,
                            LoadText.of("loads.return.socks", size.text())));
            if (count.signum() == 0) {
                return;
            }
            sizes.put(owned(key, work), size);
            Pile pile = pile(piles, key, work);
            pile.add(
                    work,
                    count,
                    LoadText.of(
                            task.kind() == TaskKind.SOCKS_LEFT ? "loads.work.socks-left" : "loads.work.socks",
                            work.system().name(),
                            count));
            PooledNeed.Use use = use(key, work, count, task);
            pile.use(use, used(work, use));
        }));
        piles.forEach((key, pile) -> {
            SockSize size = Objects.requireNonNull(sizes.get(key));
            Loaded loaded = loaded(pile, LoadTerms.Kind.SOCKS, LoadUnit.PIECE);
            int count = loaded.amount().intValue();
            StockMass mass = weights.ofSocks(size, count);
            lines.add(new LoadLine(
                    key,
                    LoadGroup.SOCKS,
                    pile.apartFor(),
                    loaded.amount(),
                    LoadUnit.PIECE,
                    LoadText.of("loads.item.socks", size.text()),
                    Optional.of(Mass.ofKilograms(mass.mass().kilograms() / count)),
                    mass.mass(),
                    mass.estimated(),
                    loaded.workings(),
                    pile.shares(),
                    loaded.assurance()));
        });
    }

    private void products(List<SystemWork> works, TaskKind tasks, StockKind stock, LoadGroup group, String keyStart) {
        Map<String, Pile> piles = new LinkedHashMap<>();
        Map<String, TaskView> firsts = new LinkedHashMap<>();
        forEachTask(works, tasks, (work, task) -> {
            String unit = task.unit().orElseThrow();
            String name = task.item().orElse("");
            BigDecimal all = task.amount().orElse(BigDecimal.ZERO);
            BigDecimal amount = all.subtract(tellThere(
                    work,
                    there.product(work, stock, name, all, unit),
                    LoadUnit.ofCode(unit),
                    LoadText.of("loads.item.product", name)));
            if (all.signum() > 0 && amount.signum() == 0) {
                return;
            }
            String key = keyStart + ":" + name.strip().toLowerCase(Locale.ROOT) + ":" + unit;
            firsts.putIfAbsent(owned(key, work), task);
            Pile pile = pile(piles, key, work);
            pile.add(
                    work,
                    amount,
                    LoadText.of("loads.work.product", work.system().name(), amount, LoadUnit.ofCode(unit)));
            if (tasks == TaskKind.DOSE && amount.signum() > 0) {
                PooledNeed.Use use = use(key, work, amount, task);
                pile.use(use, used(work, use));
            } else {
                plan(key, work, amount, task);
            }
        });
        piles.forEach((key, pile) -> {
            TaskView first = Objects.requireNonNull(firsts.get(key));
            String unit = first.unit().orElseThrow();
            String name = first.item().orElse("");
            LoadTerms.Kind kind = levels.safety().test(name) ? LoadTerms.Kind.SAFETY : LoadTerms.Kind.DOSES;
            Loaded loaded = loaded(pile, kind, LoadUnit.ofCode(unit));
            StockMass mass = weights.of(stock, name, loaded.amount(), unit);
            lines.add(new LoadLine(
                    key,
                    group,
                    pile.apartFor(),
                    loaded.amount(),
                    LoadUnit.ofCode(unit),
                    LoadText.of("loads.item.product", name),
                    Optional.empty(),
                    mass.mass(),
                    mass.estimated(),
                    loaded.workings(),
                    pile.shares(),
                    loaded.assurance()));
        });
    }

    /**
     * One set for each quantity, however many systems it is tested in, by its code where it is registered; salinity is read
     * on an instrument, and so is what one goes along for.
     */
    private void kits(List<SystemWork> works) {
        Map<Quantity, Pile> piles = new LinkedHashMap<>();
        forEachTask(works, TaskKind.TEST, (work, task) -> {
            Quantity quantity = task.quantity().orElseThrow();
            if (quantity != Quantity.SALINITY && !instruments.readOn().contains(quantity)) {
                piles.computeIfAbsent(quantity, none -> Pile.shared())
                        .add(
                                work,
                                BigDecimal.ONE,
                                LoadText.of("loads.work.test", work.system().name()));
            }
        });
        piles.forEach((quantity, pile) -> {
            StockMass mass = weights.of(StockKind.TEST_KIT, quantity.name(), BigDecimal.ONE, "count");
            lines.add(new LoadLine(
                            "kit:" + quantity.name(),
                            LoadGroup.TEST_KITS,
                            Optional.empty(),
                            BigDecimal.ONE,
                            LoadUnit.SET,
                            Optional.ofNullable(instruments.kits().get(quantity))
                                    .map(kit -> LoadText.of("loads.item.kit-named", quantity, kit.code(), kit.name()))
                                    .orElseGet(() -> LoadText.of("loads.item.kit", quantity)),
                            Optional.empty(),
                            mass.mass(),
                            mass.estimated(),
                            pile.workings(),
                            pile.shares())
                    .with(caution(quantity, pile)));
        });
    }

    /** That there is no kit that is good on the day, or that the tests of the one there is are not enough for all stops. */
    private Optional<LoadCaution> caution(Quantity quantity, Pile pile) {
        InstrumentView kit = instruments.kits().get(quantity);
        if (kit == null) {
            return Optional.ofNullable(instruments.expired().get(quantity))
                    .map(expired -> new LoadCaution(
                            LoadText.of(
                                    "loads.kit.expired",
                                    expired.code(),
                                    expired.expiresOn().orElseThrow()),
                            pile.shares()));
        }
        return Optional.ofNullable(instruments.testsLeft().get(kit.id()))
                .filter(left -> pile.amount().compareTo(BigDecimal.valueOf(left)) > 0)
                .map(left -> new LoadCaution(
                        LoadText.of(
                                "loads.kit.short",
                                kit.code(),
                                left,
                                pile.amount().intValueExact()),
                        LoadLine.beyond(pile.shares(), left)));
    }

    /** A blade for glass; a pad that acrylic bears for acrylic, and wherever nobody wrote down what the panes are. */
    private void toolLines(List<SystemWork> works) {
        Map<String, Pile> piles = new LinkedHashMap<>();
        Map<String, String> tools = new LinkedHashMap<>();
        for (SystemWork work : works) {
            boolean acrylic = work.system().hasAcrylic();
            if (acrylic || !work.hasGlass()) {
                tool(piles, tools, work, "pad");
            }
            if (work.hasGlass()) {
                tool(piles, tools, work, "blade");
            }
        }
        piles.forEach((key, pile) -> lines.add(new LoadLine(
                key,
                LoadGroup.TOOLS,
                pile.apartFor(),
                BigDecimal.ONE,
                LoadUnit.PIECE,
                LoadText.of("loads.item." + tools.get(key)),
                Optional.empty(),
                Mass.ofKilograms(0),
                false,
                pile.workings(),
                pile.shares())));
    }

    private static void tool(Map<String, Pile> piles, Map<String, String> tools, SystemWork work, String tool) {
        String key = "tool:" + tool;
        tools.put(owned(key, work), tool);
        pile(piles, key, work)
                .add(
                        work,
                        BigDecimal.ONE,
                        LoadText.of("loads.work." + tool, work.system().name()));
    }

    private static void forEachTask(List<SystemWork> works, TaskKind kind, BiConsumer<SystemWork, TaskView> use) {
        works.forEach(work -> tasks(work, kind).forEach(task -> use.accept(work, task)));
    }

    private static Stream<TaskView> tasks(SystemWork work, TaskKind kind) {
        return work.tasks().stream().filter(task -> task.kind() == kind);
    }

    /** The pile of a thing: one for all clean systems, one for each sick system. */
    private static Pile pile(Map<String, Pile> piles, String key, SystemWork work) {
        return piles.computeIfAbsent(owned(key, work), none -> Pile.of(work));
    }

    private static String owned(String key, SystemWork work) {
        return work.sick() ? key + ":" + work.system().id() : key;
    }
}
