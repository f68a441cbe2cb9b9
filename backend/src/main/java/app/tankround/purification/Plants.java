package app.tankround.purification;

import app.tankround.accounts.ChangeLog;
import app.tankround.accounts.ChangedFields;
import app.tankround.accounts.PersonId;
import app.tankround.persistence.RecordLock;
import app.tankround.tanks.SamplePointId;
import app.tankround.tanks.SamplePointView;
import app.tankround.tanks.SystemKind;
import app.tankround.tanks.TargetRange;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import app.tankround.web.StaleVersion;
import java.time.LocalDate;
import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** What the plants for purified water consist of, and which containers they fill. A plant is a supply system. */
@Service
@Transactional
public class Plants {

    private static final Comparator<Stage> IN_ORDER =
            Comparator.comparing((Stage stage) -> stage.details().kind());

    private final StageRepository stages;
    private final WaterSystems systems;
    private final RecordLock lock;
    private final ChangeLog changeLog;
    private final JdbcClient jdbc;

    Plants(StageRepository stages, WaterSystems systems, RecordLock lock, ChangeLog changeLog, JdbcClient jdbc) {
        this.stages = stages;
        this.systems = systems;
        this.lock = lock;
        this.changeLog = changeLog;
        this.jdbc = jdbc;
    }

    /** Systems that are looked after and have a stage in use. */
    @Transactional(readOnly = true)
    public List<WaterSystemId> all() {
        return jdbc.sql("""
                        select w.id
                        from water_system w
                        where w.active
                            and exists (select 1 from purification_stage s where s.water_system_id = w.id and s.removed_on is null)
                        order by w.code
                        """)
                .query((row, number) -> WaterSystemId.of(row.getObject("id", UUID.class)))
                .list();
    }

    /** The stages of a plant in the order in which water runs through, those that were replaced too. */
    @Transactional(readOnly = true)
    public List<StageView> stages(WaterSystemId plant) {
        return stages.findBySystem(plant).stream()
                .sorted(IN_ORDER)
                .map(Stage::view)
                .toList();
    }

    /** @throws NotFound if there is none */
    @Transactional(readOnly = true)
    public StageView requireStage(StageId id) {
        return stages.findById(id).map(Stage::view).orElseThrow(() -> new NotFound("purification-stage", id));
    }

    /** The plant that fills a system, if one does. */
    @Transactional(readOnly = true)
    public Optional<WaterSystemId> plantOf(WaterSystemId container) {
        return jdbc.sql("select plant_id from purification_container where water_system_id = :id")
                .param("id", container.value())
                .query((row, number) -> WaterSystemId.of(row.getObject("plant_id", UUID.class)))
                .optional();
    }

    @Transactional(readOnly = true)
    public Arrangement arrangement(WaterSystemId plant) {
        Map<SamplePointId, Place> places = new LinkedHashMap<>();
        jdbc.sql("""
                        select q.sample_point_id, q.place
                        from purification_point q
                        join sample_point p on p.id = q.sample_point_id
                        where p.water_system = :plant
                        """).param("plant", plant.value()).query(row -> {
            places.put(
                    SamplePointId.of(row.getObject("sample_point_id", UUID.class)),
                    Place.valueOf(row.getString("place")));
        });
        Set<WaterSystemId> containers = jdbc.sql("""
                        select c.water_system_id
                        from purification_container c
                        join water_system w on w.id = c.water_system_id
                        where c.plant_id = :plant and w.active
                        """)
                .param("plant", plant.value())
                .query((row, number) -> WaterSystemId.of(row.getObject("water_system_id", UUID.class)))
                .set();
        return new Arrangement(places, containers);
    }

    /** The other supply systems at a plant's site: what could be filled from it. */
    @Transactional(readOnly = true)
    public List<WaterSystemView> neighbours(WaterSystemView plant) {
        return systems.bySite(plant.siteId()).stream()
                .filter(other -> other.kind() == SystemKind.SUPPLY && other.active())
                .filter(other -> !other.id().equals(plant.id()))
                .toList();
    }

    /**
     * Adds a stage. Sending the same again adds nothing. A stage of that kind that is in use goes on the day on which the
     * new one comes.
     *
     * @throws FieldRefusal if the system is no supply system, or the stage in use came later
     * @throws StaleVersion if there is a stage of that id that says something else
     */
    public StageId addStage(StageId id, StageDetails details) {
        lock.hold("purification-stage " + id);
        Optional<Stage> stored = stages.findById(id);
        if (stored.isPresent()) {
            if (!stored.get().details().equals(details)) {
                throw new StaleVersion(page(details.systemId()), stored.get().details(), details);
            }
            return id;
        }
        requireSupply(details.systemId());
        if (details.removedOn() == null) {
            stages.findBySystem(details.systemId()).stream()
                    .filter(other -> other.details().kind() == details.kind()
                            && other.details().removedOn() == null)
                    .forEach(other -> remove(other, details.installedOn()));
        }
        stages.save(new Stage(id, details, 0));
        changeLog.record("purification-stage", id, "added", ChangedFields.of(details));
        return id;
    }

    private void remove(Stage stage, LocalDate on) {
        StageDetails was = stage.details();
        if (was.installedOn().isAfter(on)) {
            throw new FieldRefusal("installedOn", "purification.installed-before-present", on, was.installedOn());
        }
        StageDetails gone = new StageDetails(
                was.systemId(),
                was.kind(),
                was.name(),
                was.installedOn(),
                on,
                was.meterLitres(),
                was.monthsAllowed(),
                was.dropAllowedKilopascals(),
                was.litresBetweenTests(),
                was.lowestRejection(),
                was.capacityEquivalents(),
                was.carbonDioxide());
        stages.save(new Stage(stage.id(), gone, stage.version()));
        changeLog.record("purification-stage", stage.id(), "changed", ChangedFields.between(was, gone));
    }

    /** @throws StaleVersion if somebody else changed it meanwhile */
    public void changeStage(StageId id, int version, StageDetails details) {
        lock.hold("purification-stage " + id);
        Stage stored = stages.findById(id).orElseThrow(() -> new NotFound("purification-stage", id));
        if (stored.details().equals(details)) {
            return;
        }
        if (stored.version() != version) {
            throw new StaleVersion(page(details.systemId()), stored.details(), details);
        }
        stages.save(new Stage(id, details, version));
        changeLog.record("purification-stage", id, "changed", ChangedFields.between(stored.details(), details));
    }

    /**
     * Says where the sample points of a plant are, what may be found at each, and which systems are filled from it.
     *
     * @param version of the system
     * @param targets of the points
     * @throws FieldRefusal for a point or system that is not there, or one that another plant fills
     * @throws StaleVersion if somebody else changed the system meanwhile
     */
    public void arrange(
            WaterSystemId plant,
            int version,
            Arrangement wanted,
            Map<SamplePointId, ? extends Collection<TargetRange>> targets) {
        lock.hold("purification-plant " + plant);
        WaterSystemView system = requireSupply(plant);
        Arrangement before = arrangement(plant);
        if (!before.equals(wanted) && system.version() != version) {
            throw new StaleVersion(page(plant), before, wanted);
        }
        Set<SamplePointId> points =
                systems.samplePoints(plant).stream().map(SamplePointView::id).collect(Collectors.toSet());
        wanted.places().keySet().stream()
                .filter(point -> !points.contains(point))
                .findFirst()
                .ifPresent(point -> {
                    throw new FieldRefusal("points", "tanks.sample-point-elsewhere", point);
                });
        List<WaterSystemId> near =
                neighbours(system).stream().map(WaterSystemView::id).toList();
        for (WaterSystemId container : wanted.containers()) {
            Optional<WaterSystemId> other = plantOf(container).filter(of -> !of.equals(plant));
            if (!near.contains(container) || other.isPresent()) {
                throw new FieldRefusal("containers", "purification.container-elsewhere", container);
            }
        }
        systems.changePointTargets(plant, version, targets);
        if (before.equals(wanted)) {
            return;
        }
        jdbc.sql("delete from purification_point where sample_point_id = any(cast(:points as uuid[]))")
                .param("points", points.stream().map(SamplePointId::value).toArray(UUID[]::new))
                .update();
        wanted.places()
                .forEach((point, place) -> jdbc.sql(
                                "insert into purification_point (sample_point_id, place) values (:point, :place)")
                        .param("point", point.value())
                        .param("place", place.name())
                        .update());
        jdbc.sql("delete from purification_container where plant_id = :plant")
                .param("plant", plant.value())
                .update();
        wanted.containers()
                .forEach(container -> jdbc.sql(
                                "insert into purification_container (water_system_id, plant_id) values (:id, :plant)")
                        .param("id", container.value())
                        .param("plant", plant.value())
                        .update());
        changeLog.record("purification-plant", plant, "arranged", ChangedFields.between(before, wanted));
    }

    /**
     * Writes down that a container was washed; its dissolved solids are counted anew from then on. The same day twice is
     * one wash.
     *
     * @param point of the plant itself, where the container is no system of its own
     */
    public void washed(WaterSystemId system, @Nullable SamplePointId point, LocalDate on, PersonId person) {
        systems.require(system);
        if (on.isBefore(StageDetails.FIRST) || on.isAfter(systems.today().plusDays(1))) {
            throw new FieldRefusal(
                    "washedOn",
                    "web.date-out-of-range",
                    on,
                    StageDetails.FIRST,
                    systems.today().plusDays(1));
        }
        if (point != null
                && systems.samplePoints(system).stream()
                        .noneMatch(known -> known.id().equals(point))) {
            throw new FieldRefusal("containers", "tanks.sample-point-elsewhere", point);
        }
        jdbc.sql("""
                        insert into purification_wash (water_system_id, sample_point_id, washed_on, person_id)
                        values (:system, :point, :on, :person)
                        on conflict do nothing
                        """)
                .param("system", system.value())
                .param("point", point == null ? null : point.value())
                .param("on", on)
                .param("person", person.value())
                .update();
    }

    /** The newest day on which a container was washed. */
    @Transactional(readOnly = true)
    public Optional<LocalDate> washedOn(WaterSystemId system, @Nullable SamplePointId point) {
        return jdbc.sql("""
                        select max(washed_on) as washed_on
                        from purification_wash
                        where water_system_id = :system and sample_point_id is not distinct from cast(:point as uuid)
                        """)
                .param("system", system.value())
                .param("point", point == null ? null : point.value())
                .query((row, number) -> Optional.ofNullable(row.getObject("washed_on", LocalDate.class)))
                .single();
    }

    private WaterSystemView requireSupply(WaterSystemId id) {
        WaterSystemView system = systems.require(id);
        if (system.kind() != SystemKind.SUPPLY) {
            throw new FieldRefusal("kind", "purification.no-supply", system.name());
        }
        return system;
    }

    static String page(WaterSystemId plant) {
        return "/systems/" + plant + "/purified-water";
    }
}
