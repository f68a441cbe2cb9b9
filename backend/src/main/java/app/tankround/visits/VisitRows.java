package app.tankround.visits;

import app.tankround.accounts.PersonId;
import app.tankround.clients.SiteId;
import app.tankround.documents.FileId;
import app.tankround.rounds.RoundId;
import app.tankround.rounds.StopId;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.stock.WaterBatchId;
import app.tankround.tanks.WaterSystemId;
import app.tankround.visits.VisitService.EarlierPhoto;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Types;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import tools.jackson.databind.json.JsonMapper;

/** The tables of visits. Entries are only ever added. */
@Component
class VisitRows {

    private static final String VISITS = """
            select id, code, site_id, service_date, round_id, stop_id, technician_id, planned_visits, started_at, finished_at
            from visit
            """;

    private static final String ENTRIES = """
            select id, visit_id, kind, field, counts, water_system_id, body::text as body, facts::text as facts, author_id,
                entered_at, entered_offset, happened_at
            from visit_entry
            """;

    private static final int BATCH = 1000;

    private final JdbcClient jdbc;
    private final JdbcTemplate template;
    private final JsonMapper json;
    private final Clock clock;

    VisitRows(JdbcClient jdbc, JdbcTemplate template, JsonMapper json, Clock clock) {
        this.jdbc = jdbc;
        this.template = template;
        this.json = json;
        this.clock = clock;
    }

    String nextCode() {
        long number =
                jdbc.sql("select nextval('visit_number')").query(Long.class).single();
        return "V-%04d".formatted(number);
    }

    void insert(VisitRow visit) {
        jdbc.sql("""
                        insert into visit (
                            id, code, site_id, service_date, round_id, stop_id, technician_id, planned_visits,
                            started_at, finished_at, version)
                        values (:id, :code, :site, :date, :round, :stop, :technician, cast(:planned as uuid[]),
                            :started, :finished, 1)
                        """)
                .param("id", visit.id().value())
                .param("code", visit.code())
                .param("site", visit.siteId().value())
                .param("date", visit.serviceDate())
                .param("round", visit.roundId().map(RoundId::value).orElse(null), Types.OTHER)
                .param("stop", visit.stopId().map(StopId::value).orElse(null), Types.OTHER)
                .param("technician", visit.technicianId().value())
                .param("planned", planned(visit.plannedVisits()))
                .param("started", utc(visit.startedAt()), Types.TIMESTAMP_WITH_TIMEZONE)
                .param("finished", utc(visit.finishedAt()), Types.TIMESTAMP_WITH_TIMEZONE)
                .update();
    }

    /** The first time stays. */
    void finish(VisitId id, Instant at) {
        jdbc.sql("""
                        update visit set finished_at = :at, version = version + 1
                        where id = :id and finished_at is null
                        """)
                .param("at", at.atOffset(ZoneOffset.UTC))
                .param("id", id.value())
                .update();
    }

    /** Visits that ended and of which nobody was told what they used, the oldest first, kept from others until the end. */
    List<VisitRow> lockUntold(int most) {
        return where("""
                where not uses_told and finished_at is not null
                order by finished_at
                limit :most
                for update skip locked
                """, Map.of("most", most));
    }

    void told(Collection<VisitRow> visits) {
        jdbc.sql("update visit set uses_told = true where id = any(:visits)")
                .param(
                        "visits",
                        visits.stream().map(visit -> visit.id().value()).toArray(UUID[]::new))
                .update();
    }

    /**
     * The visit that ended first of those of which nobody booked what they used; one that was refused counts again only where
     * it was tried before {@code triedBefore}.
     */
    Optional<VisitId> unbooked(Instant triedBefore) {
        return jdbc.sql("""
                        select id from visit
                        where not uses_booked and finished_at is not null
                            and (booking_tried_at is null or booking_tried_at < :before)
                        order by booking_tried_at is not null, finished_at, id
                        limit 1
                        """)
                .param("before", triedBefore.atOffset(ZoneOffset.UTC))
                .query((row, number) -> VisitId.of(row.getObject("id", UUID.class)))
                .optional();
    }

    /** Keeps a visit from others until the end; empty where another books it, or has. */
    Optional<VisitRow> lockUnbooked(VisitId visit) {
        return where("where id = :visit and not uses_booked for update skip locked", Map.of("visit", visit.value()))
                .stream()
                .findFirst();
    }

    /** @return whether it was refused before */
    boolean booked(VisitId visit) {
        return jdbc.sql("""
                        update visit v
                        set uses_booked = true, booking_refused = null, booking_tried_at = null
                        from (select id, booking_refused from visit where id = :visit) before
                        where v.id = before.id
                        returning before.booking_refused is not null
                        """).param("visit", visit.value()).query(Boolean.class).single();
    }

    void bookingRefused(VisitId visit, String why, Instant at) {
        jdbc.sql(
                        "update visit set booking_refused = :why, booking_tried_at = :at where id = :visit and not uses_booked")
                .param("why", why)
                .param("at", at.atOffset(ZoneOffset.UTC))
                .param("visit", visit.value())
                .update();
    }

    /** Whether a change of water at a visit names the batch that it came from. */
    boolean namesBatch(VisitId visit, WaterSystemId system) {
        return jdbc.sql("""
                        select coalesce((
                            select facts ->> 'batch' is not null
                            from visit_entry
                            where visit_id = :visit and field = 'water-change/' || :system and counts
                            order by number desc
                            limit 1), false)
                        """)
                .param("visit", visit.value())
                .param("system", system.toString())
                .query(Boolean.class)
                .single();
    }

    /** What a visit used is told and booked again. */
    void tellAgain(VisitId id) {
        jdbc.sql("""
                        update visit
                        set uses_told = false, uses_booked = case when uses_booked then false else uses_booked end
                        where id = :id and (uses_told or uses_booked)
                        """).param("id", id.value()).update();
    }

    /** Adds entries in their order; one that is there already stays as it is. */
    void add(List<VisitEntry> entries) {
        OffsetDateTime now = clock.instant().atOffset(ZoneOffset.UTC);
        template.batchUpdate("""
                insert into visit_entry (
                    id, visit_id, kind, field, counts, water_system_id, body, facts, author_id, entered_at,
                    entered_offset, happened_at, received_at)
                values (?, ?, ?, ?, ?, ?, cast(? as jsonb), cast(? as jsonb), ?, ?, ?, ?, ?)
                on conflict (id) do nothing
                """, entries, BATCH, (statement, entry) -> bind(statement, entry, now));
    }

    private void bind(PreparedStatement statement, VisitEntry entry, OffsetDateTime now) throws SQLException {
        int at = 0;
        statement.setObject(++at, entry.id());
        statement.setObject(++at, entry.visitId().value());
        statement.setString(++at, entry.kind());
        statement.setString(++at, entry.field());
        statement.setBoolean(++at, entry.counts());
        statement.setObject(++at, entry.systemId().map(WaterSystemId::value).orElse(null), Types.OTHER);
        statement.setString(++at, json.writeValueAsString(entry.body()));
        statement.setString(++at, json.writeValueAsString(entry.facts()));
        statement.setObject(++at, entry.author().value());
        statement.setObject(++at, entry.enteredAt().withOffsetSameInstant(ZoneOffset.UTC));
        statement.setString(++at, entry.enteredAt().getOffset().getId());
        statement.setObject(++at, entry.at().atOffset(ZoneOffset.UTC));
        statement.setObject(++at, now);
    }

    Optional<VisitRow> find(VisitId id) {
        return where("where id = :id", Map.of("id", id.value())).stream().findFirst();
    }

    /** Visits by a condition and order of our own making. */
    List<VisitRow> where(String condition, Map<String, ?> params) {
        return jdbc.sql(VISITS + condition)
                .params(params)
                .query(VisitRows::visit)
                .list();
    }

    /** The entries of visits in the order in which they arrived, by visit. */
    Map<VisitId, List<VisitEntry>> entries(Collection<VisitId> visits) {
        return jdbc
                .sql(ENTRIES + "where visit_id = any(cast(:visits as uuid[])) order by number")
                .param("visits", visits.stream().map(VisitId::value).toArray(UUID[]::new))
                .query(this::entry)
                .stream()
                .collect(Collectors.groupingBy(VisitEntry::visitId));
    }

    /** Visits in which two people wrote different things into one field and nobody has decided, newest first. */
    List<VisitRow> inConflict() {
        return where("""
                where id in (
                    select against.visit_id
                    from visit_entry against
                    where not against.counts and not exists (
                        select 1
                        from visit_entry later
                        where later.visit_id = against.visit_id and later.field = against.field
                            and later.counts and later.number > against.number))
                order by service_date desc, started_at desc
                """, Map.of());
    }

    /** The entry that counts in a field. */
    Optional<VisitEntry> current(VisitId visit, String field) {
        return jdbc.sql(ENTRIES + """
                        where visit_id = :visit and field = :field and counts
                        order by number desc
                        limit 1
                        """)
                .param("visit", visit.value())
                .param("field", field)
                .query(this::entry)
                .optional();
    }

    /** Of each field that entries of a kind write into, the one that counts; of those that happened since then. */
    List<VisitEntry> lastSaid(String kind, Instant since) {
        return jdbc.sql("""
                        select distinct on (visit_id, field) id, visit_id, kind, field, counts, water_system_id,
                            body::text as body, facts::text as facts, author_id, entered_at, entered_offset, happened_at
                        from visit_entry
                        where kind = :kind and counts and happened_at >= :since
                        order by visit_id, field, number desc
                        """)
                .param("kind", kind)
                .param("since", since.atOffset(ZoneOffset.UTC))
                .query(this::entry)
                .list();
    }

    /** Whether everybody who wrote something at a visit has begun one at another site since. */
    boolean allWentElsewhere(VisitRow visit) {
        return jdbc.sql("""
                        select coalesce(bool_and(exists (
                            select 1
                            from visit_entry as begun join visit as other on other.id = begun.visit_id
                            where begun.kind = :start and begun.counts and begun.author_id = here.author_id
                              and begun.happened_at > here.last_at and other.site_id <> :site)), false)
                        from (select author_id, max(happened_at) as last_at
                              from visit_entry
                              where visit_id = :visit
                              group by author_id) as here
                        """)
                .param("start", VisitEntryHandler.START)
                .param("visit", visit.id().value())
                .param("site", visit.siteId().value())
                .query(Boolean.class)
                .single();
    }

    /**
     * What was said to be not in order when somebody left: of each line of the check before leaving the answer of the last
     * visit to the site that had one, where it is no; of those since then.
     */
    List<VisitEntry> notInOrder(Instant since) {
        return jdbc.sql("""
                        select *
                        from (select distinct on (v.site_id, said.field) said.*
                              from (select distinct on (visit_id, field) id, visit_id, kind, field, counts, water_system_id,
                                        body::text as body, facts::text as facts, author_id, entered_at, entered_offset,
                                        happened_at, facts ->> 'answer' as answer
                                    from visit_entry
                                    where kind = 'visit.departure' and counts and happened_at >= :since
                                    order by visit_id, field, number desc) as said
                              join visit v on v.id = said.visit_id
                              where v.finished_at is not null and said.answer is not null
                              order by v.site_id, said.field, said.happened_at desc) as newest
                        where answer = 'NO'
                        order by happened_at, id
                        """)
                .param("since", since.atOffset(ZoneOffset.UTC))
                .query(this::entry)
                .list();
    }

    /** What was answered in a field and counted, in the order in which it arrived. */
    List<VisitEntry> counting(VisitId visit, String field) {
        return jdbc.sql(ENTRIES + "where visit_id = :visit and field = :field and counts order by number")
                .param("visit", visit.value())
                .param("field", field)
                .query(this::entry)
                .list();
    }

    /** What counts now in the fields of these kinds about a system, of whichever visit, the newest first. */
    List<VisitEntry> ofSystem(WaterSystemId system, Collection<String> kinds, Instant from) {
        return jdbc
                .sql("""
                        select distinct on (visit_id, field) id, visit_id, kind, field, counts, water_system_id,
                            body::text as body, facts::text as facts, author_id, entered_at, entered_offset, happened_at
                        from visit_entry
                        where water_system_id = :system and kind = any(:kinds) and happened_at >= :from and counts
                        order by visit_id, field, number desc
                        """)
                .param("system", system.value())
                .param("kinds", kinds.toArray(String[]::new))
                .param("from", from.atOffset(ZoneOffset.UTC))
                .query(this::entry)
                .list()
                .stream()
                .sorted(Comparator.comparing(VisitEntry::at).reversed())
                .toList();
    }

    /** What went into systems out of batches of water. */
    List<ChangesOfWater.Drawn> drawnFrom(Collection<WaterBatchId> batches) {
        return jdbc.sql("""
                        with mentioned as (
                            select distinct visit_id, field
                            from visit_entry
                            where facts ->> 'batch' = any (:batches) and counts
                        ),
                        newest as (
                            select distinct on (e.visit_id, e.field)
                                e.visit_id, e.field, e.facts, e.water_system_id, e.happened_at
                            from mentioned
                            join visit_entry e using (visit_id, field)
                            where e.counts
                            order by e.visit_id, e.field, e.number desc
                        )
                        select facts ->> 'batch' batch, visit_id, field, water_system_id, happened_at,
                            cast(coalesce(facts ->> 'in', facts ->> 'out') as double precision) litres
                        from newest
                        where facts ->> 'batch' = any (:batches)
                        order by visit_id, field
                        """)
                .param("batches", batches.stream().map(WaterBatchId::toString).toArray(String[]::new))
                .query((row, number) -> new ChangesOfWater.Drawn(
                        WaterBatchId.of(UUID.fromString(row.getString("batch"))),
                        row.getObject("visit_id", UUID.class),
                        row.getString("field"),
                        WaterSystemId.of(row.getObject("water_system_id", UUID.class)),
                        row.getDouble("litres"),
                        row.getObject("happened_at", OffsetDateTime.class).toInstant()))
                .list();
    }

    /**
     * The photos of earlier visits to these sites but for marked copies, the newest first.
     *
     * @param until the day before which the visits were
     */
    List<EarlierPhoto> photos(Collection<SiteId> sites, LocalDate from, LocalDate until) {
        return jdbc.sql("""
                        select site_id, water_system_id, service_date, facts ->> 'photo' as photo,
                            coalesce(facts ->> 'caption', '') as caption
                        from (
                            select distinct on (e.visit_id, e.field) v.site_id, v.service_date, e.water_system_id, e.facts,
                                e.happened_at
                            from visit v
                            join visit_entry e on e.visit_id = v.id
                            where v.site_id = any(cast(:sites as uuid[])) and v.service_date >= :from
                                and v.service_date < :until and e.kind = 'visit.photo' and e.counts
                            order by e.visit_id, e.field, e.number desc
                        ) taken
                        where facts ->> 'marks' is null
                        order by service_date desc, happened_at desc
                        """)
                .param("sites", sites.stream().map(SiteId::value).toArray(UUID[]::new))
                .param("from", from)
                .param("until", until)
                .query((row, number) -> new EarlierPhoto(
                        FileId.of(UUID.fromString(row.getString("photo"))),
                        row.getString("caption"),
                        SiteId.of(row.getObject("site_id", UUID.class)),
                        Optional.ofNullable(row.getObject("water_system_id", UUID.class))
                                .map(WaterSystemId::of),
                        row.getObject("service_date", LocalDate.class)))
                .list();
    }

    private static VisitRow visit(ResultSet row, int number) throws SQLException {
        UUID[] planned = (UUID[]) row.getArray("planned_visits").getArray();
        return new VisitRow(
                VisitId.of(row.getObject("id", UUID.class)),
                row.getString("code"),
                SiteId.of(row.getObject("site_id", UUID.class)),
                row.getObject("service_date", LocalDate.class),
                Optional.ofNullable(row.getObject("round_id", UUID.class)).map(RoundId::of),
                Optional.ofNullable(row.getObject("stop_id", UUID.class)).map(StopId::of),
                PersonId.of(row.getObject("technician_id", UUID.class)),
                Arrays.stream(planned).map(PlannedVisitId::of).toList(),
                instant(row.getObject("started_at", OffsetDateTime.class)),
                instant(row.getObject("finished_at", OffsetDateTime.class)));
    }

    private VisitEntry entry(ResultSet row, int number) throws SQLException {
        ZoneOffset offset = ZoneOffset.of(row.getString("entered_offset"));
        return new VisitEntry(
                row.getObject("id", UUID.class),
                VisitId.of(row.getObject("visit_id", UUID.class)),
                row.getString("kind"),
                row.getString("field"),
                row.getBoolean("counts"),
                Optional.ofNullable(row.getObject("water_system_id", UUID.class))
                        .map(WaterSystemId::of),
                json.readTree(row.getString("body")),
                json.readTree(row.getString("facts")),
                PersonId.of(row.getObject("author_id", UUID.class)),
                row.getObject("entered_at", OffsetDateTime.class).withOffsetSameInstant(offset),
                row.getObject("happened_at", OffsetDateTime.class).toInstant());
    }

    private static Optional<Instant> instant(@Nullable OffsetDateTime time) {
        return Optional.ofNullable(time).map(OffsetDateTime::toInstant);
    }

    private static @Nullable OffsetDateTime utc(Optional<Instant> instant) {
        return instant.map(time -> time.atOffset(ZoneOffset.UTC)).orElse(null);
    }

    private static UUID[] planned(List<PlannedVisitId> visits) {
        return visits.stream().map(PlannedVisitId::value).toArray(UUID[]::new);
    }
}
