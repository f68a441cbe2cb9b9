package app.tankround.tanks;

import app.tankround.persistence.Uuids;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.web.FieldRefusal;
import java.time.Clock;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.springframework.dao.DataIntegrityViolationException;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;

/** Keeps the sample points of a system; a point is known by its name, so one that stays keeps its readings. */
@Component
class SamplePoints {

    private final JdbcClient jdbc;
    private final Clock clock;

    SamplePoints(JdbcClient jdbc, Clock clock) {
        this.jdbc = jdbc;
        this.clock = clock;
    }

    List<SamplePointView> of(WaterSystemId id) {
        return jdbc.sql("""
                        select id, position, name
                        from sample_point
                        where water_system = :system
                        order by position
                        """)
                .param("system", id.value())
                .query((row, number) -> new SamplePointView(
                        SamplePointId.parse(row.getString("id")), id, row.getInt("position"), row.getString("name")))
                .list();
    }

    /** @throws FieldRefusal for a point that is to go but has readings */
    void replace(WaterSystemId id, List<String> names) {
        Map<String, SamplePointView> stored =
                of(id).stream().collect(Collectors.toMap(SamplePointView::name, Function.identity()));
        for (SamplePointView point : stored.values()) {
            if (!names.contains(point.name())) {
                remove(point);
            }
        }
        for (int position = 0; position < names.size(); position++) {
            SamplePointView point = stored.get(names.get(position));
            if (point == null) {
                jdbc.sql("""
                                insert into sample_point (id, water_system, position, name)
                                values (:id, :system, :position, :name)
                                """)
                        .param("id", Uuids.next(clock.instant()))
                        .param("system", id.value())
                        .param("position", position)
                        .param("name", names.get(position))
                        .update();
            } else if (point.position() != position) {
                jdbc.sql("update sample_point set position = :position where id = :id")
                        .param("position", position)
                        .param("id", point.id().value())
                        .update();
            }
        }
    }

    /** The points' own targets, of many systems at once; a point without any is missing from the map. */
    Map<SamplePointId, Targets> targets(Collection<WaterSystemId> systems) {
        Map<SamplePointId, List<TargetRange>> found = new HashMap<>();
        jdbc.sql("""
                        select t.sample_point, t.quantity, t.low, t.high, t.unit, t.gravity_reference
                        from sample_point_target t
                        join sample_point p on p.id = t.sample_point
                        where p.water_system = any(cast(:ids as uuid[]))
                        """)
                .param("ids", systems.stream().map(WaterSystemId::value).toArray(UUID[]::new))
                .query(row -> {
                    found.computeIfAbsent(
                                    SamplePointId.of(row.getObject("sample_point", UUID.class)),
                                    point -> new ArrayList<>())
                            .add(new TargetRange(
                                    Quantity.valueOf(row.getString("quantity")),
                                    row.getBigDecimal("low"),
                                    row.getBigDecimal("high"),
                                    MeasurementUnit.ofCode(row.getString("unit"))
                                            .orElseThrow(),
                                    row.getString("gravity_reference")));
                });
        return found.entrySet().stream()
                .collect(Collectors.toMap(Map.Entry::getKey, entry -> Targets.of(entry.getValue())));
    }

    void replaceTargets(SamplePointId point, Targets targets) {
        jdbc.sql("delete from sample_point_target where sample_point = :point")
                .param("point", point.value())
                .update();
        for (TargetRange target : targets.targets()) {
            jdbc.sql("""
                            insert into sample_point_target (sample_point, quantity, low, high, unit, gravity_reference)
                            values (:point, :quantity, :low, :high, :unit, :reference)
                            """)
                    .param("point", point.value())
                    .param("quantity", target.quantity().name())
                    .param("low", target.low())
                    .param("high", target.high())
                    .param("unit", target.unit().code())
                    .param("reference", target.gravityReference())
                    .update();
        }
    }

    private void remove(SamplePointView point) {
        try {
            jdbc.sql("delete from sample_point where id = :id")
                    .param("id", point.id().value())
                    .update();
        } catch (DataIntegrityViolationException stillReferredTo) {
            throw new FieldRefusal("samplePoints", "tanks.sample-point-in-use", point.name());
        }
    }
}
