package app.tankround.rounds;

import app.tankround.accounts.PersonId;
import app.tankround.accounts.VanId;
import app.tankround.clients.SiteId;
import app.tankround.rounds.StoredRound.HeldVisit;
import app.tankround.rounds.StoredRound.StoredStop;
import app.tankround.rounds.StoredRound.Timing;
import app.tankround.rounds.solver.PlanningMethod;
import app.tankround.schedule.PlannedVisitId;
import java.math.BigDecimal;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.Collection;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Reads and writes rounds. Stops are rows of their own, since visits refer to them and they must keep their ids. */
@Repository
class RoundTables {

    private static final String SELECT = """
            select id, code, service_date, van_id, trip, technician_id, leaves_at, not_before, method, proven_best,
                   driving_seconds, distance_m, returns_at, locked, version
            from round
            """;

    private final JdbcClient jdbc;

    RoundTables(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    Optional<StoredRound> find(RoundId id) {
        return read(jdbc.sql(SELECT + "where id = :id").param("id", id.value())).stream()
                .findFirst();
    }

    /** A van's rounds of a day, the first to leave first. */
    List<StoredRound> of(VanId van, LocalDate date) {
        return read(jdbc.sql(SELECT + "where service_date = :date and van_id = :van order by trip")
                .param("date", date)
                .param("van", van.value()));
    }

    /** The same without their stops. */
    List<RoundService.Trip> trips(VanId van, LocalDate date) {
        return jdbc.sql("select id, trip from round where service_date = :date and van_id = :van order by trip")
                .param("date", date)
                .param("van", van.value())
                .query((row, number) ->
                        new RoundService.Trip(new RoundId(row.getObject("id", UUID.class)), row.getInt("trip")))
                .list();
    }

    Optional<RoundId> roundOf(StopId stop) {
        return jdbc.sql("select round_id from round_stop where id = :stop")
                .param("stop", stop.value())
                .query(UUID.class)
                .optional()
                .map(RoundId::of);
    }

    List<StoredRound> on(LocalDate date) {
        return read(jdbc.sql(SELECT + "where service_date = :date order by min(code) over (partition by van_id), trip")
                .param("date", date));
    }

    List<RoundService.Departure> departures(LocalDate date) {
        return jdbc.sql("select id, code, technician_id, leaves_at from round where service_date = :date order by code")
                .param("date", date)
                .query((row, number) -> new RoundService.Departure(
                        new RoundId(row.getObject("id", UUID.class)),
                        row.getString("code"),
                        Optional.ofNullable(row.getObject("technician_id", UUID.class))
                                .map(PersonId::new),
                        row.getObject("leaves_at", LocalTime.class)))
                .list();
    }

    List<StoredRound> between(LocalDate from, LocalDate until) {
        return read(jdbc.sql(SELECT + """
                        where service_date >= :from and service_date < :until
                        order by service_date, min(code) over (partition by service_date, van_id), trip
                        """).param("from", from).param("until", until));
    }

    List<StoredRound> forTechnician(PersonId technician, LocalDate date) {
        return read(
                jdbc.sql(SELECT + "where service_date = :date and technician_id = :technician order by leaves_at, code")
                        .param("date", date)
                        .param("technician", technician.value()));
    }

    /** Rounds that hold any of these visits at a stop whose work has not begun. */
    List<StoredRound> holding(Collection<PlannedVisitId> visits) {
        return read(jdbc.sql(SELECT + """
                        where id in (select s.round_id
                                     from round_stop s
                                     join round_stop_visit v on v.stop_id = s.id
                                     where v.held and s.started_at is null and v.planned_visit_id = any(:visits))
                        order by id
                        """).param("visits", array(visits)));
    }

    /** Which of these visits are held by a round of that day or later, other than the given one. */
    Set<PlannedVisitId> held(Collection<PlannedVisitId> visits, LocalDate from, @Nullable RoundId except) {
        return held(visits, from, null, except);
    }

    /** Which of these visits are held by a round of one of the days from the first up to but not including the second. */
    Set<PlannedVisitId> heldBetween(Collection<PlannedVisitId> visits, LocalDate from, LocalDate until) {
        return held(visits, from, until, null);
    }

    private Set<PlannedVisitId> held(
            Collection<PlannedVisitId> visits, LocalDate from, @Nullable LocalDate until, @Nullable RoundId except) {
        return jdbc.sql("""
                        select v.planned_visit_id
                        from round_stop_visit v
                        join round_stop s on s.id = v.stop_id
                        join round r on r.id = s.round_id
                        where v.held and v.planned_visit_id = any(:visits) and r.service_date >= :from
                          and (cast(:until as date) is null or r.service_date < :until)
                          and r.id is distinct from cast(:except as uuid)
                        """)
                .param("visits", array(visits))
                .param("from", from)
                .param("until", until)
                .param("except", except == null ? null : except.value())
                .query((row, number) -> PlannedVisitId.parse(row.getString("planned_visit_id")))
                .set();
    }

    /** Rounds of days before that one let go of these visits. */
    void release(Collection<PlannedVisitId> visits, LocalDate before) {
        jdbc.sql("""
                        update round_stop_visit v
                        set held = false
                        from round_stop s
                        join round r on r.id = s.round_id
                        where s.id = v.stop_id and v.held and r.service_date < :before and v.planned_visit_id = any(:visits)
                        """).param("visits", array(visits)).param("before", before).update();
    }

    /** Others who plan for the same van wait until this transaction ends. */
    void lockVan(VanId van) {
        jdbc.sql("select id from van where id = :van for update")
                .param("van", van.value())
                .query(UUID.class)
                .optional();
    }

    String nextCode() {
        long number =
                jdbc.sql("select nextval('round_number')").query(Long.class).single();
        return "R-" + "0".repeat(Math.max(0, 4 - String.valueOf(number).length())) + number;
    }

    void insert(StoredRound round) {
        bind(jdbc.sql("""
                        insert into round (id, code, service_date, van_id, trip, technician_id, leaves_at, not_before, method,
                                           proven_best, driving_seconds, distance_m, returns_at, version)
                        values (:id, :code, :date, :van, :trip, :technician, :leaves, :notBefore, :method, :proven,
                                :driving, :distance, :returns, :version)
                        """), round)
                .param("code", round.code())
                .param("date", round.date())
                .param("van", round.vanId().value())
                .param(
                        "technician",
                        round.technicianId() == null
                                ? null
                                : round.technicianId().value())
                .update();
        writeStops(round);
    }

    /** Saves a round that was read at {@link StoredRound#version()}; false if it was changed since. */
    boolean update(StoredRound round) {
        int updated = bind(jdbc.sql("""
                        update round
                        set trip = :trip, leaves_at = :leaves, not_before = :notBefore, method = :method, proven_best = :proven, driving_seconds = :driving,
                            distance_m = :distance, returns_at = :returns, version = version + 1
                        where id = :id and version = :version
                        """), round).update();
        if (updated == 0) {
            return false;
        }
        writeStops(round);
        return true;
    }

    private static JdbcClient.StatementSpec bind(JdbcClient.StatementSpec statement, StoredRound round) {
        return statement
                .param("id", round.id().value())
                .param("trip", round.trip())
                .param("leaves", round.leavesAt())
                .param("notBefore", round.notBefore())
                .param("method", round.timing().method().name())
                .param("proven", round.timing().provenBest())
                .param("driving", round.timing().drivingSeconds())
                .param("distance", round.timing().distanceM())
                .param("returns", round.timing().returnsAt())
                .param("version", round.version());
    }

    private void writeStops(StoredRound round) {
        UUID[] kept = round.stops().stream().map(stop -> stop.id().value()).toArray(UUID[]::new);
        jdbc.sql("delete from round_stop where round_id = :round and id <> all(:kept)")
                .param("round", round.id().value())
                .param("kept", kept)
                .update();
        if (round.stops().isEmpty()) {
            return;
        }
        jdbc.sql("""
                        insert into round_stop (id, round_id, position, site_id, arrives_at, starts_at, departs_at, late_minutes)
                        select s.id, :round, s.position, s.site_id, s.arrives_at, s.starts_at, s.departs_at, s.late_minutes
                        from unnest(
                            cast(:stops as uuid[]), cast(:sites as uuid[]), cast(:arrives as time[]),
                            cast(:starts as time[]), cast(:departs as time[]), cast(:late as int[])
                        ) with ordinality
                            as s (id, site_id, arrives_at, starts_at, departs_at, late_minutes, position)
                        on conflict (id) do update
                        set position = excluded.position, arrives_at = excluded.arrives_at, starts_at = excluded.starts_at,
                            departs_at = excluded.departs_at, late_minutes = excluded.late_minutes
                        """)
                .param("round", round.id().value())
                .param("stops", kept)
                .param(
                        "sites",
                        round.stops().stream()
                                .map(stop -> stop.siteId().value())
                                .toArray(UUID[]::new))
                .param("arrives", times(round, StoredStop::arrivesAt))
                .param("starts", times(round, StoredStop::startsAt))
                .param("departs", times(round, StoredStop::departsAt))
                .param(
                        "late",
                        round.stops().stream().map(StoredStop::lateMinutes).toArray(Integer[]::new))
                .update();
        writeVisits(round);
    }

    private static String[] times(StoredRound round, Function<StoredStop, LocalTime> time) {
        return round.stops().stream().map(stop -> time.apply(stop).toString()).toArray(String[]::new);
    }

    private void writeVisits(StoredRound round) {
        List<StopVisit> visits = round.stops().stream()
                .flatMap(stop -> stop.visits().stream()
                        .map(visit -> new StopVisit(stop.id().value(), visit)))
                .toList();
        UUID[] stops = visits.stream().map(StopVisit::stop).toArray(UUID[]::new);
        UUID[] ids = visits.stream().map(visit -> visit.visit().id().value()).toArray(UUID[]::new);
        jdbc.sql("""
                        delete from round_stop_visit v
                        using round_stop s
                        where s.id = v.stop_id
                          and s.round_id = :round
                          and not exists (
                              select
                              from unnest(cast(:stops as uuid[]), cast(:visits as uuid[])) as kept (stop, visit)
                              where kept.stop = v.stop_id and kept.visit = v.planned_visit_id)
                        """)
                .param("round", round.id().value())
                .param("stops", stops)
                .param("visits", ids)
                .update();
        jdbc.sql("""
                        insert into round_stop_visit (stop_id, planned_visit_id, held)
                        select * from unnest(cast(:stops as uuid[]), cast(:visits as uuid[]), cast(:held as boolean[]))
                        on conflict (stop_id, planned_visit_id) do nothing
                        """)
                .param("stops", stops)
                .param("visits", ids)
                .param(
                        "held",
                        visits.stream().map(visit -> visit.visit().held()).toArray(Boolean[]::new))
                .update();
    }

    /** Says whether planning may move a round; false if it was changed since that version. */
    boolean lock(RoundId id, int version, boolean locked) {
        return jdbc.sql("""
                        update round set locked = :locked, version = version + 1
                        where id = :id and version = :version
                        """)
                        .param("locked", locked)
                        .param("id", id.value())
                        .param("version", version)
                        .update()
                == 1;
    }

    /** Minutes of driving for each stop of the rounds from one day to another, the last one left out; empty without any. */
    Optional<Double> drivingMinutesPerStop(LocalDate from, LocalDate until) {
        return jdbc.sql("""
                        select avg(r.driving_seconds / 60.0 / n.stops) as minutes
                        from round r
                        join lateral (select count(*) as stops from round_stop s where s.round_id = r.id) n on n.stops > 0
                        where r.service_date >= :from and r.service_date < :until
                        """)
                .param("from", from)
                .param("until", until)
                .query((row, number) -> Optional.ofNullable(row.getBigDecimal("minutes")))
                .single()
                .map(BigDecimal::doubleValue);
    }

    /** Who visited each of these sites last before that day, as far as anybody did. */
    Map<SiteId, PersonId> lastThere(Collection<SiteId> sites, LocalDate before) {
        return jdbc
                .sql("""
                        select distinct on (s.site_id) s.site_id, r.technician_id
                        from round_stop s
                        join round r on r.id = s.round_id
                        where s.site_id = any(:sites) and r.service_date < :before and r.technician_id is not null
                        order by s.site_id, r.service_date desc
                        """)
                .param("sites", sites.stream().map(SiteId::value).toArray(UUID[]::new))
                .param("before", before)
                .query((row, number) -> Map.entry(
                        new SiteId(row.getObject("site_id", UUID.class)),
                        new PersonId(row.getObject("technician_id", UUID.class))))
                .list()
                .stream()
                .collect(Collectors.toMap(Map.Entry::getKey, Map.Entry::getValue));
    }

    /** Deletes a round with its stops; false if it was changed since. */
    boolean delete(RoundId id, int version) {
        return jdbc.sql("delete from round where id = :id and version = :version")
                        .param("id", id.value())
                        .param("version", version)
                        .update()
                == 1;
    }

    /** Keeps the first time only; whether there is such a stop. */
    boolean recordStarted(StopId stop, Instant at) {
        return jdbc.sql("update round_stop set started_at = coalesce(started_at, :at) where id = :stop")
                        .param("at", at.atOffset(ZoneOffset.UTC))
                        .param("stop", stop.value())
                        .update()
                == 1;
    }

    /** Keeps the last time; whether there is such a stop. */
    boolean recordFinished(StopId stop, Instant at) {
        return jdbc.sql("""
                        update round_stop set started_at = coalesce(started_at, :at), finished_at = :at
                        where id = :stop
                        """)
                        .param("at", at.atOffset(ZoneOffset.UTC))
                        .param("stop", stop.value())
                        .update()
                == 1;
    }

    private List<StoredRound> read(JdbcClient.StatementSpec statement) {
        List<StoredRound> heads = statement.query((row, number) -> head(row)).list();
        if (heads.isEmpty()) {
            return heads;
        }
        Map<RoundId, List<PlacedStop>> stops =
                stops(heads.stream().map(round -> round.id().value()).toArray(UUID[]::new));
        return heads.stream()
                .map(round -> round.with(
                        stops.getOrDefault(round.id(), List.of()).stream()
                                .map(PlacedStop::stop)
                                .toList(),
                        round.timing()))
                .toList();
    }

    private record PlacedStop(RoundId round, StoredStop stop) {}

    private record StopVisit(UUID stop, HeldVisit visit) {}

    private Map<RoundId, List<PlacedStop>> stops(UUID[] rounds) {
        Map<UUID, List<StopVisit>> visits = jdbc
                .sql("""
                        select v.stop_id, v.planned_visit_id, v.held
                        from round_stop_visit v
                        join round_stop s on s.id = v.stop_id
                        where s.round_id = any(:rounds)
                        order by v.planned_visit_id
                        """)
                .param("rounds", rounds)
                .query((row, number) -> new StopVisit(
                        row.getObject("stop_id", UUID.class),
                        new HeldVisit(
                                new PlannedVisitId(row.getObject("planned_visit_id", UUID.class)),
                                row.getBoolean("held"))))
                .list()
                .stream()
                .collect(Collectors.groupingBy(StopVisit::stop));
        return jdbc
                .sql("""
                        select id, round_id, site_id, arrives_at, starts_at, departs_at, late_minutes, started_at, finished_at
                        from round_stop
                        where round_id = any(:rounds)
                        order by round_id, position
                        """)
                .param("rounds", rounds)
                .query((row, number) -> new PlacedStop(
                        new RoundId(row.getObject("round_id", UUID.class)),
                        stop(row, visits.getOrDefault(row.getObject("id", UUID.class), List.of()))))
                .list()
                .stream()
                .collect(Collectors.groupingBy(PlacedStop::round));
    }

    private static StoredRound head(ResultSet row) throws SQLException {
        @Nullable UUID technician = row.getObject("technician_id", UUID.class);
        return new StoredRound(
                new RoundId(row.getObject("id", UUID.class)),
                row.getString("code"),
                row.getObject("service_date", LocalDate.class),
                new VanId(row.getObject("van_id", UUID.class)),
                row.getInt("trip"),
                technician == null ? null : new PersonId(technician),
                row.getObject("leaves_at", LocalTime.class),
                row.getObject("not_before", LocalTime.class),
                List.of(),
                new Timing(
                        PlanningMethod.valueOf(row.getString("method")),
                        row.getBoolean("proven_best"),
                        row.getInt("driving_seconds"),
                        row.getInt("distance_m"),
                        row.getObject("returns_at", LocalTime.class)),
                row.getBoolean("locked"),
                row.getInt("version"));
    }

    private static StoredStop stop(ResultSet row, List<StopVisit> visits) throws SQLException {
        return new StoredStop(
                new StopId(row.getObject("id", UUID.class)),
                new SiteId(row.getObject("site_id", UUID.class)),
                row.getObject("arrives_at", LocalTime.class),
                row.getObject("starts_at", LocalTime.class),
                row.getObject("departs_at", LocalTime.class),
                row.getInt("late_minutes"),
                instant(row, "started_at"),
                instant(row, "finished_at"),
                visits.stream().map(StopVisit::visit).toList());
    }

    private static @Nullable Instant instant(ResultSet row, String column) throws SQLException {
        @Nullable OffsetDateTime time = row.getObject(column, OffsetDateTime.class);
        return time == null ? null : time.toInstant();
    }

    private static UUID[] array(Collection<PlannedVisitId> visits) {
        return new HashSet<>(visits).stream().map(PlannedVisitId::value).toArray(UUID[]::new);
    }
}
