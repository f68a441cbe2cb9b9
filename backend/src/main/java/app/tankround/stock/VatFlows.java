package app.tankround.stock;

import app.tankround.accounts.DepotId;
import app.tankround.tanks.WaterSystemId;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** How much was in each vat at an instant, and all that changed it since: each litre that is there came by one of these. */
@Service
@Transactional(readOnly = true)
public class VatFlows {

    private static final double ROUNDING_L = 1e-6;

    private final JdbcClient jdbc;
    private final WaterVats vats;

    VatFlows(JdbcClient jdbc, WaterVats vats) {
        this.jdbc = jdbc;
        this.vats = vats;
    }

    /**
     * One vat over some time; {@code start} and all flows come to {@code end}.
     *
     * @param start litres in it when the time began
     * @param end litres in it when it was over
     * @param flows the oldest first
     */
    public record OfVat(VatView vat, VatRole role, double start, double end, List<VatFlow> flows) {

        public OfVat {
            flows = List.copyOf(flows);
        }
    }

    /** The vats of a depot that take part in its water plan, from an instant up to but not including another. */
    public List<OfVat> at(DepotId depot, Instant from, Instant until) {
        return vats.at(depot).stream()
                .flatMap(vat -> vat.role().stream().map(role -> of(vat, role, from, until)))
                .toList();
    }

    private OfVat of(VatView vat, VatRole role, Instant from, Instant until) {
        Optional<Event> last = lastSeen(vat.id(), role, from);
        List<Event> events = events(vat.id(), role, last.map(Event::at).orElse(Instant.EPOCH), until);
        double level = 0;
        double start = 0;
        boolean known = false;
        List<VatFlow> flows = new ArrayList<>();
        for (Event event : events) {
            boolean before = event.at().isBefore(from);
            double more = event.sets() ? event.litres() - level : event.litres();
            level = event.sets() ? event.litres() : level + event.litres();
            if (before) {
                start = level;
            } else {
                say(flows, vat, role, event, known ? event.kind() : VatFlow.Kind.OPENING, more);
            }
            known = true;
        }
        return new OfVat(vat, role, start, level, flows);
    }

    private static void say(
            List<VatFlow> flows, VatView vat, VatRole role, Event event, VatFlow.Kind kind, double more) {
        // What was taken out of a batch to put it right was made before, and is gone.
        double taken = event.kind() == VatFlow.Kind.BATCH ? event.taken() : 0;
        if (Math.abs(more + taken) > ROUNDING_L) {
            flows.add(flow(vat, role, event, kind, more + taken));
        }
        if (taken > 0) {
            flows.add(flow(vat, role, event, VatFlow.Kind.AWAY, -taken));
        }
    }

    private static VatFlow flow(VatView vat, VatRole role, Event event, VatFlow.Kind kind, double litres) {
        return new VatFlow(vat.id(), vat.name(), role, kind, event.at(), litres, event.other(), event.page());
    }

    /**
     * @param sets whether it tells how much is in the vat, and not how much more
     * @param taken out of a batch when it was corrected
     */
    private record Event(
            VatFlow.Kind kind,
            boolean sets,
            double litres,
            double taken,
            Instant at,
            Optional<VatRole> other,
            String page) {}

    private static final String SEEN = """
            select 'SEEN' as kind, true as sets, litres, 0 as taken, read_at as at, null as other,
                '/water-plan/level?vat=' || water_system_id as page, 0 as rank, id
            from water_vat_level
            where water_system_id = :vat
            union all
            select 'BATCH', true, b.litres,
                coalesce((select sum(taken_l) from water_batch_step s where s.batch_id = b.id), 0),
                b.made_at, null, '/stock/batches/' || b.id, 1, b.id
            from water_batch b
            where b.water_system_id = :vat and :mixing
            """;

    private static final String MOVED = """
            select m.kind, false, case when m.to_system_id = :vat then m.litres else -m.litres end, 0, m.moved_at,
                (select v.role from water_vat v
                 where v.water_system_id = case when m.to_system_id = :vat then m.from_system_id else m.to_system_id end),
                coalesce(m.page, '/water-plan/move'), 2, m.id
            from water_movement m
            where m.from_system_id = :vat or m.to_system_id = :vat
            """;

    private Optional<Event> lastSeen(WaterSystemId vat, VatRole role, Instant before) {
        return jdbc.sql("select * from (" + SEEN
                        + ") seen where at < :until order by at desc, rank desc, id desc limit 1")
                .param("vat", vat.value())
                .param("mixing", role == VatRole.MIXING)
                .param("until", before.atOffset(ZoneOffset.UTC))
                .query((row, number) -> event(row))
                .optional();
    }

    /** Those that were at the same instant in the order in which the level of a vat reckons with them. */
    private List<Event> events(WaterSystemId vat, VatRole role, Instant from, Instant until) {
        return jdbc.sql("select * from (" + SEEN + " union all " + MOVED + """
                        ) events
                        where at >= :from and at < :until
                        order by at, rank, id
                        """)
                .param("vat", vat.value())
                .param("mixing", role == VatRole.MIXING)
                .param("from", from.atOffset(ZoneOffset.UTC))
                .param("until", until.atOffset(ZoneOffset.UTC))
                .query((row, number) -> event(row))
                .list();
    }

    private static Event event(ResultSet row) throws SQLException {
        @Nullable String other = row.getString("other");
        return new Event(
                VatFlow.Kind.valueOf(row.getString("kind")),
                row.getBoolean("sets"),
                row.getDouble("litres"),
                row.getDouble("taken"),
                row.getObject("at", OffsetDateTime.class).toInstant(),
                Optional.ofNullable(other).map(VatRole::valueOf),
                row.getString("page"));
    }

    /**
     * A part of water that waited in its drums.
     *
     * @param at when it was kept, or became of something
     * @param what became of it; empty of all that was kept
     * @param page where it is told of
     */
    public record Kept(UUID id, boolean salted, Optional<KeptWaterEnd> what, double litres, Instant at, String page) {}

    /** What was kept at a depot before an instant, and what became of it before that, the oldest first. */
    public List<Kept> kept(DepotId depot, Instant until) {
        return jdbc.sql("""
                        select * from (
                            select id, salinity is not null as salted, null as what, litres, kept_at as at, page
                            from kept_water
                            where depot_id = :depot
                            union all
                            select k.id, k.salinity is not null, e.what, e.litres, e.ended_at, k.page
                            from kept_water_end e
                            join kept_water k on k.id = e.kept_water_id
                            where k.depot_id = :depot
                        ) kept
                        where at < :until
                        order by at, id
                        """)
                .param("depot", depot.value())
                .param("until", until.atOffset(ZoneOffset.UTC))
                .query((row, number) -> {
                    @Nullable String what = row.getString("what");
                    return new Kept(
                            row.getObject("id", UUID.class),
                            row.getBoolean("salted"),
                            Optional.ofNullable(what).map(KeptWaterEnd::valueOf),
                            row.getDouble("litres"),
                            row.getObject("at", OffsetDateTime.class).toInstant(),
                            row.getString("page"));
                })
                .list();
    }
}
