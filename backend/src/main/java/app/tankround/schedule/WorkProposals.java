package app.tankround.schedule;

import app.tankround.accounts.ChangeLog;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.web.FieldRefusal;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.springframework.context.event.EventListener;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import tools.jackson.core.type.TypeReference;
import tools.jackson.databind.json.JsonMapper;

/**
 * Work that is due beside the agreed visits, each with its window and reason. It goes with the first due visit to its system
 * in the window, else to its site; where there is none it is unplaced, and somebody has to agree on a visit.
 */
@Service
public class WorkProposals {

    /** How many are listed at most. */
    private static final int MOST = 200;

    private static final String SELECT = """
            select p.id, p.water_system_id, p.source, p.reason, p.earliest, p.latest, v.id as visit_id, v.due_on
            from work_proposal p
            left join planned_visit v on v.id = p.planned_visit_id
            where not p.withdrawn and (v.id is null or v.state = 'DUE')
            """;

    private static final TypeReference<List<TaskView>> TASKS = new TypeReference<>() {};

    /**
     * A proposal that is still to be done.
     *
     * @param visit the due visit that it goes with, with its day; empty while it is unplaced
     */
    public record Open(WorkProposal proposal, Optional<PlannedVisitId> visit, Optional<LocalDate> visitOn) {}

    /** What another module added to a due visit, such as the step of a plan. */
    public record Beside(PlannedVisitId visit, WaterSystemId system, LocalDate dueOn, List<TaskView> tasks) {

        public Beside {
            tasks = List.copyOf(tasks);
        }
    }

    private final JdbcClient jdbc;
    private final DueVisits dueVisits;
    private final WaterSystems systems;
    private final ChangeLog changes;
    private final JsonMapper json;
    private final Clock clock;

    WorkProposals(
            JdbcClient jdbc,
            DueVisits dueVisits,
            WaterSystems systems,
            ChangeLog changes,
            JsonMapper json,
            Clock clock) {
        this.jdbc = jdbc;
        this.dueVisits = dueVisits;
        this.systems = systems;
        this.changes = changes;
        this.json = json;
        this.clock = clock;
    }

    /**
     * Proposes work and puts it with a visit where there is one in its window. The same id again proposes nothing.
     *
     * @throws FieldRefusal if there is no such system, or the window is over
     */
    @Transactional
    public void propose(WorkProposal asked) {
        WaterSystemView system = systems.find(asked.system())
                .orElseThrow(() -> new FieldRefusal("waterSystem", "schedule.no-such-system"));
        if (asked.latest().isBefore(dueVisits.today())) {
            throw new FieldRefusal("latest", "schedule.proposal.over", asked.latest(), dueVisits.today());
        }
        int added = jdbc.sql("""
                        insert into work_proposal (id, water_system_id, source, reason, earliest, latest, proposed_at)
                        values (:id, :system, :source, :reason, :earliest, :latest, :at)
                        on conflict (id) do nothing
                        """)
                .param("id", asked.id())
                .param("system", asked.system().value())
                .param("source", asked.source().name())
                .param("reason", asked.reason())
                .param("earliest", asked.earliest())
                .param("latest", asked.latest())
                .param("at", clock.instant().atOffset(ZoneOffset.UTC))
                .update();
        if (added == 1) {
            place(asked, system);
            changes.record("water-system", asked.system(), "work-proposed", Map.of("reason", asked.reason()));
        }
    }

    /** Puts it with the first due visit to its system in its window, else to its site; with none where there is none. */
    private void place(WorkProposal proposal, WaterSystemView system) {
        dueVisits.withdraw(proposal.id());
        dueVisits.planUntil(proposal.latest());
        Optional<PlannedVisitView> visit = jdbc.sql("""
                        select id
                        from planned_visit
                        where state = 'DUE' and site_id = :site and due_on between :earliest and :latest
                        order by water_system_id <> :system, due_on, id
                        limit 1
                        """)
                .param("site", system.siteId().value())
                .param("system", system.id().value())
                .param("earliest", proposal.earliest())
                .param("latest", proposal.latest())
                .query(UUID.class)
                .optional()
                .map(PlannedVisitId::of)
                .map(dueVisits::require);
        jdbc.sql("update work_proposal set planned_visit_id = :visit where id = :id")
                .param("visit", visit.map(each -> each.id().value()).orElse(null))
                .param("id", proposal.id())
                .update();
        visit.ifPresent(each -> dueVisits.propose(
                each.id(),
                proposal.id(),
                List.of(TaskView.work(
                        each.waterSystemId().equals(system.id())
                                ? proposal.reason()
                                : system.name() + ": " + proposal.reason()))));
    }

    /** A visit that moved or is gone may no longer lie in the window of what went with it. */
    @EventListener
    void on(DueVisitsRemoved removed) {
        jdbc.sql("""
                        select p.*
                        from work_proposal p
                        join planned_visit v on v.id = p.planned_visit_id
                        where not p.withdrawn and v.state <> 'DONE' and v.id = any(:visits)
                        order by p.id
                        """)
                .param(
                        "visits",
                        removed.visits().stream().map(PlannedVisitId::value).toArray(UUID[]::new))
                .query((row, number) -> proposal(row))
                .list()
                .forEach(moved -> place(moved, systems.require(moved.system())));
    }

    /** Takes a proposal back. Said again, it changes nothing. */
    @Transactional
    public void withdraw(UUID id) {
        int withdrawn = jdbc.sql("update work_proposal set withdrawn = true where id = :id and not withdrawn")
                .param("id", id)
                .update();
        if (withdrawn == 1) {
            dueVisits.withdraw(id);
            changes.record("work-proposal", id, "withdrawn", Map.of());
        }
    }

    /** What is still to be done: unplaced first, then by the last day. */
    @Transactional(readOnly = true)
    public List<Open> open() {
        return jdbc.sql(SELECT + " order by v.id is not null, p.latest, p.id limit :most")
                .param("most", MOST)
                .query((row, number) -> open(row))
                .list();
    }

    /** What other modules added to visits that are due, by day. */
    @Transactional(readOnly = true)
    public List<Beside> besideVisits() {
        return jdbc.sql("""
                        select v.id, v.water_system_id, v.due_on, t.tasks::text as tasks
                        from proposed_task t
                        join planned_visit v on v.id = t.planned_visit_id
                        where v.state = 'DUE' and jsonb_array_length(t.tasks) > 0
                          and not exists (select from work_proposal p where p.id = t.proposer)
                        order by v.due_on, v.id
                        limit :most
                        """)
                .param("most", MOST)
                .query((row, number) -> new Beside(
                        new PlannedVisitId(row.getObject("id", UUID.class)),
                        new WaterSystemId(row.getObject("water_system_id", UUID.class)),
                        row.getObject("due_on", LocalDate.class),
                        json.readValue(row.getString("tasks"), TASKS)))
                .list();
    }

    private static Open open(ResultSet row) throws SQLException {
        return new Open(
                proposal(row),
                Optional.ofNullable(row.getObject("visit_id", UUID.class)).map(PlannedVisitId::of),
                Optional.ofNullable(row.getObject("due_on", LocalDate.class)));
    }

    private static WorkProposal proposal(ResultSet row) throws SQLException {
        return new WorkProposal(
                row.getObject("id", UUID.class),
                new WaterSystemId(row.getObject("water_system_id", UUID.class)),
                WorkProposal.Source.valueOf(row.getString("source")),
                row.getString("reason"),
                row.getObject("earliest", LocalDate.class),
                row.getObject("latest", LocalDate.class));
    }
}
