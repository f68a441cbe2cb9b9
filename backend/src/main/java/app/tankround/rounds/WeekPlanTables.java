package app.tankround.rounds;

import app.tankround.accounts.PersonId;
import app.tankround.accounts.VanId;
import app.tankround.clients.SiteId;
import app.tankround.schedule.PlannedVisitId;
import java.sql.Array;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Types;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Reads and writes plans for weeks. */
@Repository
class WeekPlanTables {

    private static final String SELECT = """
            select id, number, first_day, weeks, seed, tries, tried, state, stop_asked, unplaced, cost, based_on
            from week_plan
            """;

    /** A plan without its stops. */
    record Head(
            WeekPlanId id,
            long number,
            LocalDate firstDay,
            int weeks,
            long seed,
            long tries,
            long tried,
            WeekPlanView.State state,
            boolean stopAsked,
            int unplaced,
            long cost,
            String basedOn) {

        LocalDate until() {
            return firstDay.plusWeeks(weeks);
        }
    }

    /** A stop of a plan; its place in the list of its van's day is its place there. */
    record PlanStop(
            LocalDate day,
            VanId van,
            int trip,
            SiteId site,
            LocalTime starts,
            LocalTime departs,
            List<PlannedVisitId> visits) {}

    private final JdbcClient jdbc;

    WeekPlanTables(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    void insert(Head plan, Optional<PersonId> by, Instant at) {
        jdbc.sql("""
                        insert into week_plan (id, first_day, weeks, seed, tries, state, based_on, made_by, made_at)
                        values (:id, :first, :weeks, :seed, :tries, :state, :based, :by, :at)
                        """)
                .param("id", plan.id().value())
                .param("first", plan.firstDay())
                .param("weeks", plan.weeks())
                .param("seed", plan.seed())
                .param("tries", plan.tries())
                .param("state", plan.state().name())
                .param("based", plan.basedOn())
                .param("by", by.map(PersonId::value).orElse(null), Types.OTHER)
                .param("at", at.atOffset(ZoneOffset.UTC))
                .update();
    }

    Optional<Head> find(WeekPlanId id) {
        return jdbc.sql(SELECT + "where id = :id")
                .param("id", id.value())
                .query((row, number) -> head(row))
                .optional();
    }

    /** The same, and whoever else changes it waits until this transaction ends. */
    Optional<Head> lock(WeekPlanId id) {
        return jdbc.sql(SELECT + "where id = :id for update")
                .param("id", id.value())
                .query((row, number) -> head(row))
                .optional();
    }

    /** The newest ones, newest first. */
    List<Head> newest(int most) {
        return jdbc.sql(SELECT + "order by number desc limit :most")
                .param("most", most)
                .query((row, number) -> head(row))
                .list();
    }

    void told(WeekPlanId id, long tried, int unplaced, long cost) {
        jdbc.sql("""
                        update week_plan set tried = :tried, unplaced = :unplaced, cost = :cost
                        where id = :id and state = 'RUNNING'
                        """)
                .param("tried", tried)
                .param("unplaced", unplaced)
                .param("cost", cost)
                .param("id", id.value())
                .update();
    }

    void askToStop(WeekPlanId id) {
        jdbc.sql("update week_plan set stop_asked = true where id = :id and state = 'RUNNING'")
                .param("id", id.value())
                .update();
    }

    boolean stopAsked(WeekPlanId id) {
        return jdbc.sql("select stop_asked from week_plan where id = :id")
                .param("id", id.value())
                .query(Boolean.class)
                .optional()
                .orElse(true);
    }

    /** Keeps what a search has come to. */
    void finish(WeekPlanId id, List<PlanStop> stops) {
        jdbc.sql("update week_plan set state = 'READY' where id = :id")
                .param("id", id.value())
                .update();
        replace(id, stops);
    }

    /** Puts these in the place of all stops of a plan. */
    void replace(WeekPlanId id, List<PlanStop> stops) {
        jdbc.sql("delete from week_plan_stop where plan_id = :id")
                .param("id", id.value())
                .update();
        int position = 0;
        @Nullable PlanStop before = null;
        for (PlanStop stop : stops) {
            boolean sameRound = before != null
                    && before.day().equals(stop.day())
                    && before.van().equals(stop.van());
            position = sameRound ? position + 1 : 1;
            jdbc.sql("""
                            insert into week_plan_stop (
                                plan_id, day, van_id, position, trip, site_id, starts_at, departs_at, visits)
                            values (:plan, :day, :van, :position, :trip, :site, :starts, :departs, :visits)
                            """)
                    .param("plan", id.value())
                    .param("day", stop.day())
                    .param("van", stop.van().value())
                    .param("position", position)
                    .param("trip", stop.trip())
                    .param("site", stop.site().value())
                    .param("starts", stop.starts())
                    .param("departs", stop.departs())
                    .param(
                            "visits",
                            stop.visits().stream().map(PlannedVisitId::value).toArray(UUID[]::new))
                    .update();
            before = stop;
        }
    }

    void accepted(WeekPlanId id, Optional<PersonId> by, Instant at) {
        jdbc.sql("""
                        update week_plan set state = 'ACCEPTED', accepted_by = :by, accepted_at = :at where id = :id
                        """)
                .param("by", by.map(PersonId::value).orElse(null), Types.OTHER)
                .param("at", at.atOffset(ZoneOffset.UTC))
                .param("id", id.value())
                .update();
    }

    /** By day, van and position. */
    List<PlanStop> stops(WeekPlanId id) {
        return jdbc.sql("""
                        select s.day, s.van_id, s.trip, s.site_id, s.starts_at, s.departs_at, s.visits
                        from week_plan_stop s
                        join van v on v.id = s.van_id
                        where s.plan_id = :plan
                        order by s.day, v.code, s.position
                        """)
                .param("plan", id.value())
                .query((row, number) -> new PlanStop(
                        row.getObject("day", LocalDate.class),
                        new VanId(row.getObject("van_id", UUID.class)),
                        row.getInt("trip"),
                        new SiteId(row.getObject("site_id", UUID.class)),
                        row.getObject("starts_at", LocalTime.class),
                        row.getObject("departs_at", LocalTime.class),
                        visits(row.getArray("visits"))))
                .list();
    }

    private static List<PlannedVisitId> visits(Array array) throws SQLException {
        return Arrays.stream((UUID[]) array.getArray()).map(PlannedVisitId::new).toList();
    }

    private static Head head(ResultSet row) throws SQLException {
        return new Head(
                WeekPlanId.of(row.getObject("id", UUID.class)),
                row.getLong("number"),
                row.getObject("first_day", LocalDate.class),
                row.getInt("weeks"),
                row.getLong("seed"),
                row.getLong("tries"),
                row.getLong("tried"),
                WeekPlanView.State.valueOf(row.getString("state")),
                row.getBoolean("stop_asked"),
                row.getInt("unplaced"),
                row.getLong("cost"),
                row.getString("based_on"));
    }
}
