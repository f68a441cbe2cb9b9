package app.tankround.schedule;

import app.tankround.tanks.SystemKind;
import app.tankround.tanks.WaterSystemId;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.temporal.TemporalAdjusters;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** What was planned at visits and what was used, and what that says of the visits to come. */
@Service
public class TaskUses {

    private final JdbcClient jdbc;
    private final JdbcTemplate template;

    TaskUses(JdbcClient jdbc, JdbcTemplate template) {
        this.jdbc = jdbc;
        this.template = template;
    }

    /**
     * What was used on a day at systems, as parts of what was planned; without an entry where no visit said.
     *
     * @param day on which the visits were
     */
    @Transactional(readOnly = true)
    public Map<Thing, Double> partsUsed(LocalDate day, Collection<WaterSystemId> systems) {
        Map<Thing, Double> parts = new HashMap<>();
        jdbc.sql("""
                        select water_system_id, task, item, sum(used) / sum(planned) as part
                        from task_use
                        where used_on = :day and water_system_id = any(:systems)
                        group by water_system_id, task, item
                        """)
                .param("day", day)
                .param("systems", systems.stream().map(WaterSystemId::value).toArray(UUID[]::new))
                .query(row -> {
                    parts.put(
                            new Thing(
                                    WaterSystemId.of(row.getObject("water_system_id", UUID.class)),
                                    TaskKind.valueOf(row.getString("task")),
                                    row.getString("item")),
                            row.getDouble("part"));
                });
        return parts;
    }

    /** One thing that a system needs: a kind of task, and what tells those of a kind apart. */
    public record Thing(WaterSystemId system, TaskKind task, String item) {

        static Thing of(TaskUse use) {
            return new Thing(use.system(), use.task(), use.item());
        }
    }

    /** What was learned of systems, asked at once. */
    public static final class Learned {

        public static final Learned NOTHING = new Learned(Map.of(), Map.of());

        private final Map<Thing, LearnedUse.Sums> own;
        private final Map<SystemKind, Map<TaskKind, LearnedUse.OfKind>> kinds;

        private Learned(Map<Thing, LearnedUse.Sums> own, Map<SystemKind, Map<TaskKind, LearnedUse.OfKind>> kinds) {
            this.own = own;
            this.kinds = kinds;
        }

        /** Of a task at a system of a kind. */
        public LearnedUse of(WaterSystemId system, SystemKind kind, TaskView task) {
            return LearnedUse.of(
                    own.getOrDefault(new Thing(system, task.kind(), TaskUse.item(task)), LearnedUse.Sums.NONE),
                    kinds.getOrDefault(kind, Map.of()).getOrDefault(task.kind(), LearnedUse.OfKind.NONE));
        }
    }

    /**
     * Keeps what a visit used, in the place of what was kept of it before.
     *
     * @param visit names it
     * @param day on which it was
     */
    @Transactional
    public void record(UUID visit, LocalDate day, List<TaskUse> uses) {
        Set<Thing> touched = new HashSet<>(jdbc.sql(
                        "delete from task_use where visit_id = :visit returning water_system_id, task, item")
                .param("visit", visit)
                .query((row, number) -> new Thing(
                        WaterSystemId.of(row.getObject("water_system_id", UUID.class)),
                        TaskKind.valueOf(row.getString("task")),
                        row.getString("item")))
                .list());
        template.batchUpdate(
                """
                insert into task_use (visit_id, water_system_id, task, item, planned, used, used_on)
                values (?, ?, ?, ?, ?, ?, ?)
                """,
                uses.stream()
                        .map(use -> new Object[] {
                            visit, use.system().value(), use.task().name(), use.item(), use.planned(), use.used(), day
                        })
                        .toList());
        uses.forEach(use -> touched.add(Thing.of(use)));
        LocalDate week = monday(day);
        template.batchUpdate(
                """
                insert into learned_use as l (water_system_id, task, item, week, visits, mean, squares,
                    visits_before, mean_before, squares_before)
                select ?, ?, ?, ?, count(*), coalesce(avg(part), 1), coalesce(var_pop(part) * count(*), 0), 0, 1, 0
                from (select least(used / planned, ?) as part
                      from task_use
                      where water_system_id = ? and task = ? and item = ?
                      order by used_on desc, visit_id
                      limit ?) as newest
                on conflict (water_system_id, task, item) do update
                set visits = excluded.visits, mean = excluded.mean, squares = excluded.squares,
                    week = greatest(l.week, excluded.week),
                    visits_before = case when excluded.week > l.week then l.visits else l.visits_before end,
                    mean_before = case when excluded.week > l.week then l.mean else l.mean_before end,
                    squares_before = case when excluded.week > l.week then l.squares else l.squares_before end
                """,
                touched.stream()
                        .sorted((one, other) -> one.toString().compareTo(other.toString()))
                        .map(thing -> new Object[] {
                            thing.system().value(),
                            thing.task().name(),
                            thing.item(),
                            week,
                            LearnedUse.MOST_PART,
                            thing.system().value(),
                            thing.task().name(),
                            thing.item(),
                            LearnedUse.MOST_VISITS
                        })
                        .toList());
    }

    /**
     * What was learned of these systems before the week of a day, so that neither a sheet nor what is mixed for it changes
     * while the week goes on.
     */
    @Transactional(readOnly = true)
    public Learned before(LocalDate day, Collection<WaterSystemId> systems) {
        LocalDate week = monday(day);
        Map<SystemKind, Map<TaskKind, LearnedUse.OfKind>> kinds = kinds(week);
        if (kinds.isEmpty() || systems.isEmpty()) {
            return Learned.NOTHING;
        }
        Map<Thing, LearnedUse.Sums> own = new HashMap<>();
        jdbc.sql("""
                        select water_system_id, task, item,
                               case when week < :week then visits else visits_before end as visits,
                               case when week < :week then mean else mean_before end as mean,
                               case when week < :week then squares else squares_before end as squares
                        from learned_use
                        where water_system_id = any(:systems)
                        """)
                .param("week", week)
                .param("systems", systems.stream().map(WaterSystemId::value).toArray(UUID[]::new))
                .query(row -> {
                    own.put(
                            new Thing(
                                    WaterSystemId.of(row.getObject("water_system_id", UUID.class)),
                                    TaskKind.valueOf(row.getString("task")),
                                    row.getString("item")),
                            new LearnedUse.Sums(row.getInt("visits"), row.getDouble("mean"), row.getDouble("squares")));
                });
        return new Learned(own, kinds);
    }

    private record KindOfTask(SystemKind kind, TaskKind task, LearnedUse.OfKind known) {}

    private Map<SystemKind, Map<TaskKind, LearnedUse.OfKind>> kinds(LocalDate week) {
        return jdbc
                .sql("""
                        select kind, task, count(*) as systems, sum(visits) as visits,
                               sum(visits * mean) / sum(visits) as mean, sum(squares) as squares
                        from (
                            select w.kind, l.task,
                                   case when l.week < :week then l.visits else l.visits_before end as visits,
                                   case when l.week < :week then l.mean else l.mean_before end as mean,
                                   case when l.week < :week then l.squares else l.squares_before end as squares
                            from learned_use l
                            join water_system w on w.id = l.water_system_id
                        ) as known
                        where visits > 0
                        group by kind, task
                        """)
                .param("week", week)
                .query((row, number) -> new KindOfTask(
                        SystemKind.valueOf(row.getString("kind")),
                        TaskKind.valueOf(row.getString("task")),
                        new LearnedUse.OfKind(
                                row.getInt("systems"),
                                row.getInt("visits"),
                                row.getDouble("mean"),
                                row.getDouble("squares"))))
                .list()
                .stream()
                .collect(
                        Collectors.groupingBy(KindOfTask::kind, Collectors.toMap(KindOfTask::task, KindOfTask::known)));
    }

    private static LocalDate monday(LocalDate day) {
        return Objects.requireNonNull(day.with(TemporalAdjusters.previousOrSame(DayOfWeek.MONDAY)));
    }
}
