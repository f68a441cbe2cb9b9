package app.tankround.health;

import app.tankround.chemistry.VerdictCode;
import app.tankround.instruments.InstrumentId;
import app.tankround.readings.Answer;
import app.tankround.readings.ReadingId;
import app.tankround.tanks.InfectionClass;
import app.tankround.tanks.SystemKind;
import app.tankround.tanks.WaterSystemId;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import java.math.BigDecimal;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;

/** Reads what the ranking looks at, of all systems at once: two statements, whatever the number of systems and readings. */
@Component
class HealthQueries {

    /** What was seen longer ago says nothing of today: common practice, no source. */
    private static final int FILM_REMEMBERED_DAYS = 56;

    private final JdbcClient jdbc;

    HealthQueries(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** The facts of every system that is looked after, without how the water stood. */
    List<SystemFacts> all(LocalDate today) {
        Map<UUID, List<List<SeriesPoint>>> series = series();
        return jdbc.sql("""
                        select
                            w.id,
                            w.code,
                            w.name,
                            w.kind,
                            w.infection_class,
                            w.class_since,
                            w.started_on,
                            w.net_volume_l,
                            s.name as site_name,
                            coalesce(c.name, d.name) as client_name,
                            a.rhythm_days,
                            a.care_since,
                            v.next_visit,
                            f.film_seen_on
                        from water_system w
                        join site s on s.id = w.site_id
                        left join client c on c.id = s.client_id
                        left join depot d on d.id = s.depot_id
                        left join (
                            select water_system_id, min(every_days) as rhythm_days, min(valid_from) as care_since
                            from agreement
                            where valid_from <= :today and (valid_until is null or valid_until >= :today)
                            group by water_system_id
                        ) a on a.water_system_id = w.id
                        left join (
                            select water_system_id, min(due_on) as next_visit
                            from planned_visit
                            where state = 'DUE' and due_on >= :today
                            group by water_system_id
                        ) v on v.water_system_id = w.id
                        left join (
                            select distinct on (e.water_system_id)
                                e.water_system_id,
                                case when (e.facts ->> 'seen')::boolean then o.service_date end as film_seen_on
                            from visit_entry e
                            join visit o on o.id = e.visit_id
                            where o.service_date > :filmAfter and e.kind = 'visit.film' and e.counts
                            order by e.water_system_id, o.service_date desc, e.number desc
                        ) f on f.water_system_id = w.id
                        where w.active
                        """)
                .param("today", today)
                .param("filmAfter", today.minusDays(FILM_REMEMBERED_DAYS))
                .query((row, number) -> facts(row, series))
                .list();
    }

    private static SystemFacts facts(ResultSet row, Map<UUID, List<List<SeriesPoint>>> series) throws SQLException {
        UUID id = row.getObject("id", UUID.class);
        int rhythm = row.getInt("rhythm_days");
        return new SystemFacts(
                WaterSystemId.of(id),
                row.getString("code"),
                row.getString("name"),
                row.getString("site_name"),
                row.getString("client_name"),
                SystemKind.valueOf(row.getString("kind")),
                InfectionClass.valueOf(row.getString("infection_class")),
                row.getObject("class_since", LocalDate.class),
                Optional.ofNullable(row.getObject("started_on", LocalDate.class)),
                row.getDouble("net_volume_l"),
                rhythm == 0 ? HealthRule.USUAL_RHYTHM_DAYS : rhythm,
                Optional.ofNullable(row.getObject("care_since", LocalDate.class)),
                Optional.ofNullable(row.getObject("next_visit", LocalDate.class)),
                Optional.ofNullable(row.getObject("film_seen_on", LocalDate.class)),
                Optional.empty(),
                Optional.empty(),
                series.getOrDefault(id, List.of()));
    }

    /** A series of one system: a quantity, and a sample point where the water is not the same everywhere. */
    private record SeriesKey(UUID system, Quantity quantity, Optional<String> samplePoint) {}

    /** The newest readings that count, oldest first. Supply water is another at each sample point, so more are read. */
    private Map<UUID, List<List<SeriesPoint>>> series() {
        Map<SeriesKey, List<SeriesPoint>> points = new LinkedHashMap<>();
        jdbc.sql("""
                        select
                            r.*,
                            w.kind,
                            p.name as sample_point,
                            a.verdict,
                            a.trusted,
                            a.doubtful,
                            a.reasons @> '[{"code": "LEFT_OUT_OF_TOLERANCE"}]'
                                or a.reasons @> '[{"code": "GAIN_IMPLAUSIBLE"}]' as known_wrong,
                            a.corrected_value,
                            a.salinity,
                            a.target_low,
                            a.target_high
                        from water_system w
                        cross join unnest(cast(:quantities as text[])) as q (quantity)
                        cross join lateral (
                            select o.*
                            from reading o
                            where o.water_system_id = w.id
                                and o.quantity = q.quantity
                                and not exists (select 1 from reading n where n.replaces_id = o.id)
                            order by o.taken_at desc, o.recorded_at desc
                            limit case w.kind when 'SUPPLY' then 60 else 8 end
                        ) r
                        join newest_assessment n on n.reading_id = r.id
                        join assessment a on a.id = n.assessment_id
                        left join sample_point p on p.id = r.sample_point_id
                        where w.active
                        order by r.quantity, r.taken_at, r.recorded_at
                        """)
                .param(
                        "quantities",
                        Quantity.ofWater().stream().map(Quantity::name).toArray(String[]::new))
                .query(row -> {
                    SeriesPoint point = point(row);
                    boolean supply = SystemKind.valueOf(row.getString("kind")) == SystemKind.SUPPLY;
                    var key = new SeriesKey(
                            row.getObject("water_system_id", UUID.class),
                            point.quantity(),
                            supply ? point.samplePoint() : Optional.empty());
                    points.computeIfAbsent(key, fresh -> new ArrayList<>()).add(point);
                });
        Map<UUID, List<List<SeriesPoint>>> bySystem = new HashMap<>();
        points.forEach((key, series) -> bySystem.computeIfAbsent(key.system(), fresh -> new ArrayList<>())
                .add(series));
        return bySystem;
    }

    private static SeriesPoint point(ResultSet row) throws SQLException {
        return new SeriesPoint(
                ReadingId.of(row.getObject("id", UUID.class)),
                Quantity.valueOf(row.getString("quantity")),
                Optional.ofNullable(row.getString("sample_point")),
                row.getObject("taken_at", OffsetDateTime.class).toInstant(),
                Optional.ofNullable(row.getObject("visit_id", UUID.class)),
                Optional.ofNullable(row.getObject("instrument_id", UUID.class)).map(InstrumentId::of),
                Answer.valueOf(row.getString("answer")),
                number(row, "value"),
                MeasurementUnit.ofCode(row.getString("unit")).orElseThrow(),
                Optional.ofNullable(row.getString("gravity_reference")),
                VerdictCode.valueOf(row.getString("verdict")),
                row.getBoolean("trusted"),
                row.getBoolean("doubtful"),
                row.getBoolean("known_wrong"),
                number(row, "corrected_value"),
                number(row, "salinity"),
                number(row, "target_low"),
                number(row, "target_high"));
    }

    private static Optional<Double> number(ResultSet row, String column) throws SQLException {
        @Nullable BigDecimal value = row.getBigDecimal(column);
        return Optional.ofNullable(value).map(BigDecimal::doubleValue);
    }

    /** An instrument or kit with its last day. */
    record LastDayRow(UUID id, String code, String name, LocalDate lastDay) {}

    /** What is in use and past its use-by date by that day. */
    List<LastDayRow> expiring(LocalDate today, LocalDate until) {
        return jdbc.sql("""
                        select id, code, name, expires_on
                        from instrument
                        where (retired_on is null or retired_on > :today)
                          and expires_on <= :until
                        order by expires_on, code
                        """)
                .param("today", today)
                .param("until", until)
                .query((row, number) -> new LastDayRow(
                        row.getObject("id", UUID.class),
                        row.getString("code"),
                        row.getString("name"),
                        row.getObject("expires_on", LocalDate.class)))
                .list();
    }
}
