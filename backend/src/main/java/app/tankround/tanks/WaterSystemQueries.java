package app.tankround.tanks;

import app.tankround.clients.SiteId;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.units.Volume;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.LocalDate;
import java.util.Collection;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;

/** Reads systems as views: one statement each, whatever they hold. */
@Component
class WaterSystemQueries {

    private static final String COLUMNS = """
            select w.*,
                exists (
                    select 1 from tank t where t.water_system_id = w.id and t.material = 'ACRYLIC'
                ) as has_acrylic,
                exists (
                    select 1 from livestock l where l.water_system_id = w.id and l.will_be_eaten and l.quantity > 0
                ) as eaten
            """;

    private static final String SELECT = COLUMNS + " from water_system w ";

    private final JdbcClient jdbc;

    WaterSystemQueries(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    Optional<WaterSystemView> find(WaterSystemId id) {
        return jdbc.sql(SELECT + " where w.id = :id")
                .param("id", id.value())
                .query(WaterSystemQueries::view)
                .optional();
    }

    List<WaterSystemView> find(Collection<WaterSystemId> ids) {
        return jdbc.sql(SELECT + " where w.id = any(cast(:ids as uuid[]))")
                .param("ids", ids.stream().map(WaterSystemId::value).toArray(UUID[]::new))
                .query(WaterSystemQueries::view)
                .list();
    }

    Optional<WaterSystemView> findByCode(String code) {
        return jdbc.sql(SELECT + " where w.code = :code")
                .param("code", code)
                .query(WaterSystemQueries::view)
                .optional();
    }

    Set<WaterSystemId> withGlass(Collection<WaterSystemId> ids) {
        return new HashSet<>(jdbc.sql("""
                        select distinct water_system_id
                        from tank
                        where material = 'GLASS' and water_system_id = any(cast(:ids as uuid[]))
                        """)
                .param("ids", ids.stream().map(WaterSystemId::value).toArray(UUID[]::new))
                .query((row, number) -> new WaterSystemId(row.getObject(1, UUID.class)))
                .list());
    }

    Map<WaterSystemId, Map<Quantity, TargetView>> targets(Collection<WaterSystemId> ids) {
        Map<WaterSystemId, Map<Quantity, TargetView>> found = new HashMap<>();
        jdbc.sql("""
                        select w.id, t.quantity, t.low, t.high, t.unit, t.gravity_reference
                        from water_system w
                        left join target t on t.water_system = w.id
                        where w.id = any(cast(:ids as uuid[]))
                        """)
                .param("ids", ids.stream().map(WaterSystemId::value).toArray(UUID[]::new))
                .query(row -> {
                    Map<Quantity, TargetView> ofSystem = found.computeIfAbsent(
                            new WaterSystemId(row.getObject("id", UUID.class)), id -> new EnumMap<>(Quantity.class));
                    if (row.getString("quantity") != null) {
                        TargetView target = new TargetRange(
                                        Quantity.valueOf(row.getString("quantity")),
                                        row.getBigDecimal("low"),
                                        row.getBigDecimal("high"),
                                        MeasurementUnit.ofCode(row.getString("unit"))
                                                .orElseThrow(),
                                        row.getString("gravity_reference"))
                                .view();
                        ofSystem.put(target.quantity(), target);
                    }
                });
        return found;
    }

    List<WaterSystemView> bySite(SiteId id) {
        return jdbc.sql(SELECT + " where w.site_id = :site order by w.name, w.code")
                .param("site", id.value())
                .query(WaterSystemQueries::view)
                .list();
    }

    List<WaterSystemView> all() {
        return jdbc.sql(SELECT + " order by w.code collate \"C\"")
                .query(WaterSystemQueries::view)
                .list();
    }

    List<WaterSystemLine> lines(String text, @Nullable SystemKind kind, @Nullable InfectionClass infectionClass) {
        return jdbc.sql(COLUMNS + """
                        , s.name as site_name, coalesce(c.name, d.name) as client_name
                        from water_system w
                        join site s on s.id = w.site_id
                        left join client c on c.id = s.client_id
                        left join depot d on d.id = s.depot_id
                        where (:kind = '' or w.kind = :kind)
                            and (:class = '' or w.infection_class = :class)
                            and (
                                :text = ''
                                or position(lower(:text) in lower(concat_ws(' ', w.code, w.name, s.name, c.name, d.name))) > 0
                            )
                        order by client_name, s.name, w.name, w.code
                        """)
                .param("text", text.strip())
                .param("kind", kind == null ? "" : kind.name())
                .param("class", infectionClass == null ? "" : infectionClass.name())
                .query((row, number) -> new WaterSystemLine(
                        WaterSystemId.parse(row.getString("id")),
                        row.getString("code"),
                        row.getString("name"),
                        SystemKind.valueOf(row.getString("kind")),
                        InfectionClass.valueOf(row.getString("infection_class")),
                        row.getObject("class_since", LocalDate.class),
                        row.getDouble("net_volume_l"),
                        VolumeBasis.valueOf(row.getString("volume_basis")),
                        row.getBoolean("has_acrylic"),
                        row.getBoolean("eaten"),
                        row.getBoolean("active"),
                        SiteId.parse(row.getString("site_id")),
                        row.getString("site_name"),
                        row.getString("client_name")))
                .list();
    }

    private static WaterSystemView view(ResultSet row, int number) throws SQLException {
        return new WaterSystemView(
                WaterSystemId.parse(row.getString("id")),
                row.getString("code"),
                SiteId.parse(row.getString("site_id")),
                row.getString("name"),
                SystemKind.valueOf(row.getString("kind")),
                InfectionClass.valueOf(row.getString("infection_class")),
                Objects.requireNonNull(row.getObject("class_since", LocalDate.class)),
                Volume.ofLitres(row.getDouble("net_volume_l")),
                VolumeBasis.valueOf(row.getString("volume_basis")),
                volume(row, "display_volume_l"),
                volume(row, "displacement_l"),
                volume(row, "sump_volume_l"),
                Optional.ofNullable(row.getObject("started_on", LocalDate.class)),
                Volume.ofLitres(row.getDouble("evaporation_l_day")),
                Optional.ofNullable(row.getString("notes")),
                row.getBoolean("has_acrylic"),
                row.getBoolean("eaten"),
                row.getBoolean("active"),
                row.getInt("version"));
    }

    private static Optional<Volume> volume(ResultSet row, String column) throws SQLException {
        double litres = row.getDouble(column);
        return row.wasNull() ? Optional.empty() : Optional.of(Volume.ofLitres(litres));
    }
}
