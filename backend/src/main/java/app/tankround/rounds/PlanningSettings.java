package app.tankround.rounds;

import app.tankround.accounts.ChangeLog;
import app.tankround.accounts.ChangedFields;
import app.tankround.persistence.RecordLock;
import app.tankround.web.StaleVersion;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** The terms that planning keeps to; plans that were made before a change stay as they are. */
@Service
public class PlanningSettings {

    private final JdbcClient jdbc;
    private final RecordLock lock;
    private final ChangeLog changes;

    PlanningSettings(JdbcClient jdbc, RecordLock lock, ChangeLog changes) {
        this.jdbc = jdbc;
        this.lock = lock;
        this.changes = changes;
    }

    /** The terms as they are; the usual ones where nobody has changed them. */
    @Transactional(readOnly = true)
    public PlanningTerms current() {
        return jdbc.sql("select * from planning_terms")
                .query((row, number) -> new PlanningTerms(
                        row.getBigDecimal("driving_hour"),
                        row.getBigDecimal("kilometre"),
                        row.getBigDecimal("overtime_hour"),
                        row.getBigDecimal("round"),
                        row.getBigDecimal("day_beyond"),
                        row.getBigDecimal("stranger"),
                        row.getBigDecimal("promise"),
                        row.getBigDecimal("late_hour"),
                        row.getBigDecimal("uneven_hour"),
                        row.getBigDecimal("disinfection"),
                        row.getBigDecimal("reload"),
                        row.getBigDecimal("left_out"),
                        row.getInt("days_beyond"),
                        row.getInt("overtime_minutes"),
                        row.getInt("break_after_minutes"),
                        row.getInt("break_minutes"),
                        row.getBoolean("reloads"),
                        row.getInt("reload_minutes"),
                        row.getInt("version")))
                .optional()
                .orElseGet(PlanningTerms::usual);
    }

    /** @throws StaleVersion if somebody else changed them meanwhile */
    @Transactional
    public void change(PlanningTerms wanted) {
        lock.hold("planning terms");
        PlanningTerms before = current();
        if (before.version() != wanted.version()) {
            throw new StaleVersion("/week-plans/terms", before, wanted);
        }
        jdbc.sql("""
                        insert into planning_terms (
                            driving_hour, kilometre, overtime_hour, round, day_beyond, stranger, promise, late_hour,
                            uneven_hour, disinfection, reload, left_out, days_beyond, overtime_minutes, break_after_minutes,
                            break_minutes, reloads, reload_minutes, version)
                        values (
                            :driving, :kilometre, :overtime, :round, :beyond, :stranger, :promise, :late, :uneven,
                            :disinfection, :reload, :out, :days, :longer, :after, :rest, :reloads, :reloadMinutes, 1)
                        on conflict (only_one) do update
                        set driving_hour = excluded.driving_hour, kilometre = excluded.kilometre,
                            overtime_hour = excluded.overtime_hour, round = excluded.round,
                            day_beyond = excluded.day_beyond, stranger = excluded.stranger,
                            promise = excluded.promise, late_hour = excluded.late_hour,
                            uneven_hour = excluded.uneven_hour, disinfection = excluded.disinfection, reload = excluded.reload,
                            left_out = excluded.left_out, days_beyond = excluded.days_beyond,
                            overtime_minutes = excluded.overtime_minutes,
                            break_after_minutes = excluded.break_after_minutes,
                            break_minutes = excluded.break_minutes, reloads = excluded.reloads,
                            reload_minutes = excluded.reload_minutes, version = planning_terms.version + 1
                        """)
                .param("driving", wanted.drivingHour())
                .param("kilometre", wanted.kilometre())
                .param("overtime", wanted.overtimeHour())
                .param("round", wanted.round())
                .param("beyond", wanted.dayBeyond())
                .param("stranger", wanted.stranger())
                .param("promise", wanted.promise())
                .param("late", wanted.lateHour())
                .param("uneven", wanted.unevenHour())
                .param("disinfection", wanted.disinfection())
                .param("reload", wanted.reload())
                .param("reloads", wanted.reloads())
                .param("reloadMinutes", wanted.reloadMinutes())
                .param("out", wanted.leftOut())
                .param("days", wanted.daysBeyond())
                .param("longer", wanted.overtimeMinutes())
                .param("after", wanted.breakAfterMinutes())
                .param("rest", wanted.breakMinutes())
                .update();
        changes.record("planning-terms", "all", "changed", ChangedFields.between(before, wanted));
    }
}
