package app.tankround.tanks;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.ChangeLog;
import app.tankround.accounts.ChangedFields;
import app.tankround.clients.NextCode;
import app.tankround.clients.SiteId;
import app.tankround.clients.SiteService;
import app.tankround.persistence.RecordLock;
import app.tankround.persistence.TransactionMemory;
import app.tankround.units.Quantity;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import app.tankround.web.StaleVersion;
import app.tankround.web.TextInput;
import java.time.Clock;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Water systems with all that belongs to them. */
@Service
public class WaterSystems {

    private final WaterSystemRepository systems;
    private final WaterSystemQueries queries;
    private final SamplePoints samplePoints;
    private final Tanks tanks;
    private final EquipmentRepository equipment;
    private final LivestockRepository livestock;
    private final SiteService sites;
    private final BusinessProfile business;
    private final RecordLock lock;
    private final ChangeLog changeLog;
    private final ApplicationEventPublisher events;
    private final JdbcClient jdbc;
    private final ObjectProvider<StockingHolds> holds;
    private final Quarantine quarantine;
    private final Clock clock;

    WaterSystems(
            WaterSystemRepository systems,
            WaterSystemQueries queries,
            SamplePoints samplePoints,
            Tanks tanks,
            EquipmentRepository equipment,
            LivestockRepository livestock,
            SiteService sites,
            BusinessProfile business,
            RecordLock lock,
            ChangeLog changeLog,
            ApplicationEventPublisher events,
            JdbcClient jdbc,
            ObjectProvider<StockingHolds> holds,
            Quarantine quarantine,
            Clock clock) {
        this.systems = systems;
        this.queries = queries;
        this.samplePoints = samplePoints;
        this.tanks = tanks;
        this.equipment = equipment;
        this.livestock = livestock;
        this.sites = sites;
        this.business = business;
        this.lock = lock;
        this.changeLog = changeLog;
        this.events = events;
        this.jdbc = jdbc;
        this.holds = holds;
        this.quarantine = quarantine;
        this.clock = clock;
    }

    // Reading

    public Optional<WaterSystemView> find(WaterSystemId id) {
        return TransactionMemory.askedOnce(this, "find", id, () -> queries.find(id));
    }

    /** Those with these ids, by id; ids that do not exist are missing. */
    public Map<WaterSystemId, WaterSystemView> find(Collection<WaterSystemId> ids) {
        return queries.find(ids).stream().collect(Collectors.toMap(WaterSystemView::id, Function.identity()));
    }

    /** @throws NotFound if there is none */
    public WaterSystemView require(WaterSystemId id) {
        return find(id).orElseThrow(() -> new NotFound("water-system", id));
    }

    public Optional<WaterSystemView> findByCode(String code) {
        return queries.findByCode(code);
    }

    /** The systems of a site, by name. */
    public List<WaterSystemView> bySite(SiteId id) {
        return TransactionMemory.askedOnce(this, "bySite", id, () -> List.copyOf(queries.bySite(id)));
    }

    /** All systems by code, inactive ones too. */
    public List<WaterSystemView> all() {
        return queries.all();
    }

    /** Systems whose code, name, site or client holds the text, of that kind and class where one is given. */
    public List<WaterSystemLine> search(
            String text, @Nullable SystemKind kind, @Nullable InfectionClass infectionClass) {
        return queries.lines(text, kind, infectionClass);
    }

    /** The targets of a system in the order of {@link Quantity}. */
    public List<TargetView> targets(WaterSystemId id) {
        return ranges(id).stream().map(TargetRange::view).toList();
    }

    /** The targets of many systems by quantity; a system that does not exist is missing from the map. */
    public Map<WaterSystemId, Map<Quantity, TargetView>> targets(Collection<WaterSystemId> ids) {
        return queries.targets(ids);
    }

    /** The own targets of sample points of many systems; a point that has none is missing from the map. */
    public Map<SamplePointId, Map<Quantity, TargetView>> pointTargets(Collection<WaterSystemId> ids) {
        Map<SamplePointId, Map<Quantity, TargetView>> found = new LinkedHashMap<>();
        samplePoints
                .targets(ids)
                .forEach((point, targets) -> found.put(
                        point,
                        targets.targets().stream()
                                .collect(Collectors.toMap(TargetRange::quantity, TargetRange::view))));
        return found;
    }

    List<TargetRange> ranges(WaterSystemId id) {
        return TransactionMemory.askedOnce(
                this,
                "ranges",
                id,
                () -> systems.findById(id)
                        .map(system -> Targets.of(system.targets()).targets())
                        .orElse(List.of()));
    }

    /** The sample points of a system in the order in which they are drawn. */
    public List<SamplePointView> samplePoints(WaterSystemId id) {
        return TransactionMemory.askedOnce(this, "samplePoints", id, () -> List.copyOf(samplePoints.of(id)));
    }

    public List<TankView> tanks(WaterSystemId id) {
        return TransactionMemory.askedOnce(
                this,
                "tanks",
                id,
                () -> tanks.findBySystem(id).stream().map(Tank::view).toList());
    }

    /** Those of these systems of which a tank is of glass. */
    public Set<WaterSystemId> withGlass(Collection<WaterSystemId> ids) {
        return queries.withGlass(ids);
    }

    public List<EquipmentView> equipment(WaterSystemId id) {
        return equipment.findBySystem(id).stream().map(Equipment::view).toList();
    }

    public List<LivestockView> livestock(WaterSystemId id) {
        return TransactionMemory.askedOnce(
                this,
                "livestock",
                id,
                () -> livestock.findBySystem(id).stream().map(Livestock::view).toList());
    }

    /** @throws NotFound if there is none */
    public TankView requireTank(TankId id) {
        return tanks.findById(id).map(Tank::view).orElseThrow(() -> new NotFound("tank", id));
    }

    /** @throws NotFound if there is none */
    public EquipmentView requireEquipment(EquipmentId id) {
        return equipment.findById(id).map(Equipment::view).orElseThrow(() -> new NotFound("equipment", id));
    }

    /** @throws NotFound if there is none */
    public LivestockView requireLivestock(LivestockId id) {
        return livestock.findById(id).map(Livestock::view).orElseThrow(() -> new NotFound("livestock", id));
    }

    /** Today where the business is. */
    public LocalDate today() {
        ZoneId zone = business.zone();
        return LocalDate.ofInstant(clock.instant(), zone);
    }

    /** A code that no system has yet. */
    public String nextCode() {
        return NextCode.of(jdbc, "water_system", "W");
    }

    /** A code that no tank has yet. */
    public String nextTankCode() {
        return NextCode.of(jdbc, "tank", "T");
    }

    /** A code that no equipment has yet. */
    public String nextEquipmentCode() {
        return NextCode.of(jdbc, "equipment", "E");
    }

    /** A code that no livestock has yet. */
    public String nextLivestockCode() {
        return NextCode.of(jdbc, "livestock", "L");
    }

    // Systems

    /**
     * Adds a system. Sending the same again adds nothing.
     *
     * @throws FieldRefusal if another system has that code or there is no such site
     * @throws StaleVersion if there is a system of that id that says something else
     */
    @Transactional
    public WaterSystemId add(NewWaterSystem added) {
        WaterSystemId id = added.id();
        lock.hold("water-system " + id);
        Optional<WaterSystem> stored = systems.findById(id);
        if (stored.isPresent()) {
            if (!stored.get().details().equals(added.details())) {
                throw new StaleVersion("/systems/" + id, stored.get().details(), added.details());
            }
            return id;
        }
        requireSiteAndFreeCode(id, added.details());
        systems.save(new WaterSystem(
                id, added.details(), added.infectionClass(), added.classSince(), Set.copyOf(added.targets()), 0));
        samplePoints.replace(id, added.samplePoints());
        Map<String, Object> detail = ChangedFields.of(added.details());
        detail.put("infectionClass", added.infectionClass().name());
        detail.put("classSince", added.classSince().toString());
        detail.put("samplePoints", SamplePointNames.joined(added.samplePoints()));
        detail.put("targets", Targets.of(added.targets()).texts());
        changeLog.record("water-system", id, "added", detail);
        return id;
    }

    /**
     * Changes what is written down about a system and its sample points.
     *
     * @throws FieldRefusal if another system has that code, there is no such site, or a sample point with readings would
     *     go
     * @throws StaleVersion if somebody else changed it meanwhile
     */
    @Transactional
    public void change(WaterSystemId id, int version, SystemDetails details, List<String> samplePointNames) {
        List<String> names = SamplePointNames.checked(samplePointNames);
        WaterSystem stored = locked(id);
        List<String> storedNames =
                samplePoints.of(id).stream().map(SamplePointView::name).toList();
        if (stored.details().equals(details) && storedNames.equals(names)) {
            return;
        }
        if (stored.version() != version) {
            throw new StaleVersion("/systems/" + id, stored.details(), details);
        }
        requireSiteAndFreeCode(id, details);
        systems.save(stored.with(details));
        samplePoints.replace(id, names);
        Map<String, Object> detail = ChangedFields.between(stored.details(), details);
        if (!storedNames.equals(names)) {
            detail.put("samplePoints", List.of(SamplePointNames.joined(storedNames), SamplePointNames.joined(names)));
        }
        changeLog.record("water-system", id, "changed", detail);
    }

    /**
     * Replaces the targets of a system.
     *
     * @throws FieldRefusal if a quantity comes twice
     * @throws StaleVersion if somebody else changed the system meanwhile
     */
    @Transactional
    public void changeTargets(WaterSystemId id, int version, List<TargetRange> targets) {
        Targets wanted = Targets.of(targets);
        WaterSystem stored = locked(id);
        Targets before = Targets.of(stored.targets());
        if (before.equals(wanted)) {
            return;
        }
        if (stored.version() != version) {
            throw new StaleVersion("/systems/" + id, before, wanted);
        }
        systems.save(stored.with(wanted.targets()));
        changeLog.record("water-system", id, "targets-changed", before.changedTo(wanted));
    }

    /**
     * Replaces the own targets of sample points of a system, which go before those of the system; points that are not named
     * keep theirs.
     *
     * @throws FieldRefusal for a point of another system, or a quantity that comes twice
     * @throws StaleVersion if somebody else changed the system meanwhile
     */
    @Transactional
    public void changePointTargets(
            WaterSystemId id, int version, Map<SamplePointId, ? extends Collection<TargetRange>> targets) {
        WaterSystem stored = locked(id);
        Map<SamplePointId, String> names =
                samplePoints.of(id).stream().collect(Collectors.toMap(SamplePointView::id, SamplePointView::name));
        Map<SamplePointId, Targets> before = samplePoints.targets(List.of(id));
        Map<String, Object> detail = new LinkedHashMap<>();
        targets.forEach((point, ranges) -> {
            String name = Optional.ofNullable(names.get(point))
                    .orElseThrow(() -> new FieldRefusal("samplePoints", "tanks.sample-point-elsewhere", point));
            Targets wanted = Targets.of(ranges);
            Targets had = before.getOrDefault(point, Targets.of(List.of()));
            if (!had.equals(wanted)) {
                samplePoints.replaceTargets(point, wanted);
                detail.put(name, List.of(String.join("; ", had.texts()), String.join("; ", wanted.texts())));
            }
        });
        if (detail.isEmpty()) {
            return;
        }
        if (stored.version() != version) {
            throw new StaleVersion("/systems/" + id, before, targets);
        }
        systems.save(stored);
        changeLog.record("water-system", id, "point-targets-changed", detail);
    }

    /** Makes a system what a line of a table states, its infection class and the day of it included. */
    @Transactional
    void restate(
            WaterSystemId id,
            SystemDetails details,
            InfectionClass infectionClass,
            LocalDate classSince,
            List<String> samplePointNames) {
        change(id, locked(id).version(), details, samplePointNames);
        WaterSystem stored = locked(id);
        var before = new ClassAndDay(stored.infectionClass(), stored.classSince());
        var after = new ClassAndDay(infectionClass, Days.required("classSince", classSince));
        if (!before.equals(after)) {
            requireReleased("infection_class", stored, infectionClass);
            systems.save(stored.with(infectionClass, classSince));
            changeLog.record("water-system", id, "class-changed", ChangedFields.between(before, after));
        }
    }

    /** Sets one target of a system, as a line of a table does. */
    @Transactional
    void setTarget(WaterSystemId id, TargetRange target) {
        WaterSystem stored = locked(id);
        List<TargetRange> others = stored.targets().stream()
                .filter(other -> other.quantity() != target.quantity())
                .toList();
        List<TargetRange> all = new ArrayList<>(others);
        all.add(target);
        changeTargets(id, stored.version(), all);
    }

    /**
     * Moves a system to another infection class, or corrects since when it is in its class.
     *
     * @param since not after tomorrow
     * @param note why, up to 1000 characters
     * @throws FieldRefusal for a day out of range, or out of quarantine to where nobody is kept apart, however long ago it
     *     was left for an illness or a treatment: see {@link QuarantineService#release}
     * @throws StaleVersion if somebody else changed the system meanwhile
     */
    @Transactional
    public void changeInfectionClass(
            WaterSystemId id, int version, InfectionClass changed, LocalDate since, @Nullable String note) {
        requireNotInFuture("classSince", Days.required("classSince", since));
        String reason = TextInput.lines("note", note, 1000);
        WaterSystem stored = locked(id);
        requireReleased("infectionClass", stored, changed);
        moved(stored, version, changed, since, reason);
    }

    /** Out of a quarantine leads its release only, also by way of an illness or a treatment in it. */
    private void requireReleased(String field, WaterSystem stored, InfectionClass changed) {
        boolean inQuarantine = stored.infectionClass() == InfectionClass.QUARANTINE;
        if (!changed.isSick() && inQuarantine) {
            throw new FieldRefusal(field, "tanks.quarantine.release-needed", changed);
        }
        if (!changed.isSick() && quarantine.isLeftUnreleased(stored.id())) {
            throw new FieldRefusal(field, "tanks.quarantine.unfinished", changed);
        }
        if (changed == InfectionClass.QUARANTINE) {
            quarantine.takeUpAgain(stored.id());
        } else if (inQuarantine) {
            quarantine.leaveUnreleased(stored.id(), today());
        }
    }

    /** Ends a quarantine, once everything that was agreed was looked at. */
    @Transactional
    void endQuarantine(WaterSystemId id, int version, LocalDate on, @Nullable String note) {
        moved(locked(id), version, InfectionClass.HEALTHY, on, note);
        changeLog.record("water-system", id, "quarantine-released", Map.of("on", on.toString()));
    }

    private void moved(
            WaterSystem stored, int version, InfectionClass changed, LocalDate since, @Nullable String reason) {
        WaterSystemId id = stored.id();
        if (stored.infectionClass() == changed && stored.classSince().equals(since)) {
            return;
        }
        if (stored.version() != version) {
            throw new StaleVersion(
                    "/systems/" + id,
                    new ClassAndDay(stored.infectionClass(), stored.classSince()),
                    new ClassAndDay(changed, since));
        }
        systems.save(stored.with(changed, since));
        Map<String, Object> detail = ChangedFields.between(
                new ClassAndDay(stored.infectionClass(), stored.classSince()), new ClassAndDay(changed, since));
        if (reason != null) {
            detail.put("note", reason);
        }
        changeLog.record("water-system", id, "class-changed", detail);
    }

    /** What the page about a stale version shows of a system's class. */
    record ClassAndDay(InfectionClass infectionClass, LocalDate classSince) {}

    // Tanks and equipment

    /**
     * Adds a tank. Sending the same again adds nothing.
     *
     * @throws FieldRefusal if another tank has that code
     * @throws StaleVersion if there is a tank of that id that says something else
     */
    @Transactional
    public TankId addTank(NewTank added) {
        lock.hold("tank " + added.id());
        Optional<Tank> stored = tanks.findById(added.id());
        if (stored.isPresent()) {
            requireSame(stored.get().details(), added.details(), added.details().systemId());
            return added.id();
        }
        locked(added.details().systemId());
        requireFreeTankCode(added.id(), added.details());
        tanks.save(new Tank(added.id(), added.details(), 0));
        changeLog.record("tank", added.id(), "added", ChangedFields.of(added.details()));
        return added.id();
    }

    /**
     * Changes a tank.
     *
     * @throws FieldRefusal if another tank has that code
     * @throws StaleVersion if somebody else changed it meanwhile
     */
    @Transactional
    public void changeTank(TankId id, int version, TankDetails details) {
        lock.hold("tank " + id);
        Tank stored = tanks.findById(id).orElseThrow(() -> new NotFound("tank", id));
        if (stored.details().equals(details)) {
            return;
        }
        requireVersion(stored.version(), version, stored.details(), details, details.systemId());
        requireFreeTankCode(id, details);
        tanks.save(new Tank(id, details, version));
        changeLog.record("tank", id, "changed", ChangedFields.between(stored.details(), details));
    }

    private void requireFreeTankCode(TankId id, TankDetails details) {
        requireFreeCode(
                "tank",
                details.code(),
                id,
                tanks.findByCode(details.code()),
                Tank::id,
                other -> other.details().name());
    }

    /**
     * Adds a device. Sending the same again adds nothing.
     *
     * @throws FieldRefusal if another device has that code
     * @throws StaleVersion if there is a device of that id that says something else
     */
    @Transactional
    public EquipmentId addEquipment(NewEquipment added) {
        lock.hold("equipment " + added.id());
        Optional<Equipment> stored = equipment.findById(added.id());
        if (stored.isPresent()) {
            requireSame(stored.get().details(), added.details(), added.details().systemId());
            return added.id();
        }
        locked(added.details().systemId());
        requireFreeEquipmentCode(added.id(), added.details());
        equipment.save(new Equipment(added.id(), added.details(), 0));
        changeLog.record("equipment", added.id(), "added", ChangedFields.of(added.details()));
        return added.id();
    }

    /**
     * Changes a device.
     *
     * @throws FieldRefusal if another device has that code
     * @throws StaleVersion if somebody else changed it meanwhile
     */
    @Transactional
    public void changeEquipment(EquipmentId id, int version, EquipmentDetails details) {
        lock.hold("equipment " + id);
        Equipment stored = equipment.findById(id).orElseThrow(() -> new NotFound("equipment", id));
        if (stored.details().equals(details)) {
            return;
        }
        requireVersion(stored.version(), version, stored.details(), details, details.systemId());
        requireFreeEquipmentCode(id, details);
        equipment.save(new Equipment(id, details, version));
        changeLog.record("equipment", id, "changed", ChangedFields.between(stored.details(), details));
    }

    private void requireFreeEquipmentCode(EquipmentId id, EquipmentDetails details) {
        requireFreeCode(
                "equipment",
                details.code(),
                id,
                equipment.findByCode(details.code()),
                Equipment::id,
                other -> other.details().name());
    }

    // Livestock

    /**
     * Puts animals into a system as {@link #addLivestock} does, once whoever knows its water has nothing against it, or
     * somebody says why all the same.
     *
     * @param because why they go in all the same; empty before anybody said so
     * @param page where they were put in
     * @throws FieldRefusal also at {@code because} if something speaks against it
     */
    @Transactional
    public LivestockId putIn(NewLivestock added, Optional<String> because, String page) {
        if (livestock.findById(added.id()).isEmpty()) {
            WaterSystemView system = require(added.systemId());
            holds.forEach(hold -> hold.require(system, added.quantity(), added.on(), because, page));
        }
        return addLivestock(added);
    }

    /**
     * Puts animals into a system. In a quarantine the days are counted anew from that day, which the log of the system
     * records; {@link LivestockAdded} is published. Sending the same again adds nothing.
     *
     * @throws FieldRefusal if other livestock has that code, the day is out of range, or no animal is added
     * @throws StaleVersion if there is livestock of that id that says something else
     */
    @Transactional
    public LivestockId addLivestock(NewLivestock added) {
        requireNotInFuture("addedOn", added.on());
        LivestockDetails details = added.details();
        if (details.quantity() < 1) {
            throw new FieldRefusal("quantity", "web.number-out-of-range", details.quantity(), 1, LivestockDetails.MOST);
        }
        if (!storeNew(added.id(), details)) {
            return added.id();
        }
        WaterSystem system = locked(added.systemId());
        WaterSystem after = system.withLivestockAdded(added.on());
        if (!after.classSince().equals(system.classSince())) {
            systems.save(after);
            Map<String, Object> detail = ChangedFields.between(
                    new ClassAndDay(system.infectionClass(), system.classSince()),
                    new ClassAndDay(after.infectionClass(), after.classSince()));
            detail.put("livestock", details.commonName());
            detail.put("quantity", details.quantity());
            changeLog.record("water-system", added.systemId(), "quarantine-restarted", detail);
        }
        events.publishEvent(new LivestockAdded(added.systemId(), added.on()));
        return added.id();
    }

    /** Stores livestock as a table states it, without any effect on the system: the table states that too. */
    @Transactional
    void importLivestock(LivestockId id, LivestockDetails details) {
        storeNew(id, details);
    }

    private boolean storeNew(LivestockId id, LivestockDetails details) {
        lock.hold("livestock " + id);
        Optional<Livestock> stored = livestock.findById(id);
        if (stored.isPresent()) {
            requireSame(stored.get().details(), details, details.systemId());
            return false;
        }
        locked(details.systemId());
        requireFreeLivestockCode(id, details);
        livestock.save(new Livestock(id, details, 0));
        changeLog.record("livestock", id, "added", ChangedFields.of(details));
        return true;
    }

    /**
     * Corrects what is written down about livestock. Animals that are put in are added, not corrected, since a quarantine
     * depends on it.
     *
     * @throws FieldRefusal if other livestock has that code, or there would be more animals in a quarantine
     * @throws StaleVersion if somebody else changed it meanwhile
     */
    @Transactional
    public void changeLivestock(LivestockId id, int version, LivestockDetails details) {
        lock.hold("livestock " + id);
        Livestock stored = livestock.findById(id).orElseThrow(() -> new NotFound("livestock", id));
        if (stored.details().equals(details)) {
            return;
        }
        requireVersion(stored.version(), version, stored.details(), details, details.systemId());
        requireFreeLivestockCode(id, details);
        boolean more = details.quantity() > stored.details().quantity();
        if (more && locked(details.systemId()).infectionClass() == InfectionClass.QUARANTINE) {
            throw new FieldRefusal(
                    "quantity",
                    "tanks.quarantine-needs-adding",
                    details.quantity(),
                    stored.details().quantity());
        }
        livestock.save(new Livestock(id, details, version));
        changeLog.record("livestock", id, "changed", ChangedFields.between(stored.details(), details));
    }

    /**
     * Takes dead or removed animals off a line of livestock.
     *
     * @param count 1 to as many as there are
     * @param on not after tomorrow
     * @param note what was seen, up to 1000 characters
     * @throws FieldRefusal for a count or day out of range
     */
    @Transactional
    public void recordLoss(LivestockId id, int count, LocalDate on, @Nullable String note) {
        requireNotInFuture("on", Days.required("on", on));
        String seen = TextInput.lines("note", note, 1000);
        lock.hold("livestock " + id);
        Livestock stored = livestock.findById(id).orElseThrow(() -> new NotFound("livestock", id));
        int there = stored.details().quantity();
        if (count < 1 || count > there) {
            throw new FieldRefusal("count", "web.number-out-of-range", count, Math.min(1, there), there);
        }
        livestock.save(new Livestock(id, stored.details().withQuantity(there - count), stored.version()));
        Map<String, Object> detail = new LinkedHashMap<>();
        detail.put("count", count);
        detail.put("on", on.toString());
        detail.put("quantity", List.of(String.valueOf(there), String.valueOf(there - count)));
        if (seen != null) {
            detail.put("note", seen);
        }
        changeLog.record("livestock", id, "lost", detail);
    }

    private void requireFreeLivestockCode(LivestockId id, LivestockDetails details) {
        requireFreeCode(
                "livestock",
                details.code(),
                id,
                livestock.findByCode(details.code()),
                Livestock::id,
                other -> other.details().commonName());
    }

    // Rules shared by all of these

    private WaterSystem locked(WaterSystemId id) {
        lock.hold("water-system " + id);
        return systems.findById(id).orElseThrow(() -> new NotFound("water-system", id));
    }

    private void requireSiteAndFreeCode(WaterSystemId id, SystemDetails details) {
        if (sites.find(details.siteId()).isEmpty()) {
            throw new FieldRefusal("site", "tanks.site-unknown", details.siteId());
        }
        requireFreeCode(
                "water-system",
                details.code(),
                id,
                queries.findByCode(details.code()),
                WaterSystemView::id,
                WaterSystemView::name);
    }

    private <T, I> void requireFreeCode(
            String kind, String code, I id, Optional<T> holder, Function<T, I> idOf, Function<T, String> nameOf) {
        holder.filter(other -> !idOf.apply(other).equals(id)).ifPresent(other -> {
            throw new FieldRefusal("code", "web.code-taken", code, nameOf.apply(other));
        });
    }

    private void requireNotInFuture(String field, LocalDate day) {
        // A tablet east of the office may already be in tomorrow.
        LocalDate latest = today().plusDays(1);
        if (day.isAfter(latest)) {
            throw new FieldRefusal(field, "web.date-out-of-range", day, Days.FIRST, latest);
        }
    }

    private static void requireSame(Record stored, Record sent, WaterSystemId systemId) {
        if (!stored.equals(sent)) {
            throw new StaleVersion("/systems/" + systemId, stored, sent);
        }
    }

    private static void requireVersion(int stored, int seen, Record theirs, Record yours, WaterSystemId systemId) {
        if (stored != seen) {
            throw new StaleVersion("/systems/" + systemId, theirs, yours);
        }
    }
}
