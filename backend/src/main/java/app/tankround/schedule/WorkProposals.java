package app.tankround.schedule;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.ChangeLog;
import app.tankround.persistence.RecordLock;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.Quantity;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import java.math.BigDecimal;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Types;
import java.time.Clock;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.Collection;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.context.event.EventListener;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import tools.jackson.core.type.TypeReference;
import tools.jackson.databind.json.JsonMapper;

/**
 * Work that is due beside the agreed visits, each with its window and reason. It goes with the first due visit to its system
 * in the window, else to its site; where there is none it is unplaced, and somebody has to agree on a visit. Once the window
 * is over the next visit takes it along, however late; what a visit was done without goes with the one after it.
 *
 * <p>A person proposes it, or a {@link WorkSource} knows of it. What a source knows is asked, not told: so nothing of it
 * outlives its reason, and the same matter is never proposed twice.
 */
@Service
public class WorkProposals {

    /** How many are listed at most. */
    private static final int MOST = 200;

    private static final String SELECT = """
            select p.*, case v.state when 'DUE' then v.id end as visit_id, v.due_on
            from work_proposal p
            left join planned_visit v on v.id = p.planned_visit_id
            where not p.withdrawn and (v.id is null or v.state = 'DUE' or p.page is not null)
            """;

    private static final TypeReference<List<TaskView>> TASKS = new TypeReference<>() {};

    /**
     * A proposal that is still to be done.
     *
     * @param visit the due visit that it goes with, with its day; empty while it is unplaced
     */
    public record Open(WorkProposal proposal, Optional<PlannedVisitId> visit, Optional<LocalDate> visitOn) {}

    /**
     * Tasks of a visit beside the agreed ones.
     *
     * @param proposer who added them, such as a proposal or a plan
     * @param work what the proposal says; empty where it was none
     */
    public record Added(PlannedVisitId visit, UUID proposer, List<TaskView> tasks, Optional<WorkProposal> work) {

        public Added {
            tasks = List.copyOf(tasks);
        }
    }

    /** What another module added to a due visit, such as the step of a plan. */
    public record Beside(PlannedVisitId visit, WaterSystemId system, LocalDate dueOn, List<TaskView> tasks) {

        public Beside {
            tasks = List.copyOf(tasks);
        }
    }

    private final JdbcClient jdbc;
    private final ObjectProvider<WorkSource> sources;
    private final BusinessProfile business;
    private final DueVisits dueVisits;
    private final OneOffVisits oneOffs;
    private final WaterSystems systems;
    private final ChangeLog changes;
    private final ApplicationEventPublisher events;
    private final RecordLock lock;
    private final JsonMapper json;
    private final Clock clock;

    WorkProposals(
            JdbcClient jdbc,
            ObjectProvider<WorkSource> sources,
            BusinessProfile business,
            DueVisits dueVisits,
            OneOffVisits oneOffs,
            WaterSystems systems,
            ChangeLog changes,
            ApplicationEventPublisher events,
            RecordLock lock,
            JsonMapper json,
            Clock clock) {
        this.jdbc = jdbc;
        this.sources = sources;
        this.business = business;
        this.dueVisits = dueVisits;
        this.oneOffs = oneOffs;
        this.systems = systems;
        this.changes = changes;
        this.events = events;
        this.lock = lock;
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
        if (add(asked)) {
            place(asked, system);
        }
    }

    /**
     * Asks every source what waits: what is new is proposed, what changed or goes with no visit is put anew, and what is
     * settled is withdrawn, whether a person had taken it back or not.
     */
    @Transactional
    public void gather() {
        if (business.find().isEmpty()) {
            return;
        }
        lock.hold("work proposals");
        Map<UUID, WorkProposal> waiting = new LinkedHashMap<>();
        sources.orderedStream()
                .flatMap(source -> source.waiting().stream())
                .forEach(each -> waiting.putIfAbsent(each.id(), each));
        Map<UUID, Known> known = new HashMap<>();
        jdbc.sql("""
                        select p.*, case v.state when 'DUE' then v.id end as visit_id
                        from work_proposal p
                        left join planned_visit v on v.id = p.planned_visit_id
                        where p.page is not null or not p.withdrawn and v.id is null
                        """)
                .query((row, number) ->
                        new Known(proposal(row), row.getObject("visit_id") != null, row.getBoolean("withdrawn")))
                .list()
                .forEach(each -> known.put(each.proposal().id(), each));
        known.values().stream()
                .map(Known::proposal)
                .filter(each -> each.page().isPresent() && !waiting.containsKey(each.id()))
                .forEach(this::settle);
        waiting.values().forEach(each -> follow(each, Optional.ofNullable(known.get(each.id()))));
        known.values().stream()
                .filter(each -> each.proposal().page().isEmpty())
                .forEach(each ->
                        place(each.proposal(), systems.require(each.proposal().system())));
    }

    /** @param withdrawn by a person */
    private record Known(WorkProposal proposal, boolean placed, boolean withdrawn) {}

    private void follow(WorkProposal wanted, Optional<Known> known) {
        if (known.filter(Known::withdrawn).isPresent()) {
            return;
        }
        boolean same = known.map(Known::proposal).filter(wanted::equals).isPresent();
        if (same && known.filter(Known::placed).isPresent()) {
            return;
        }
        WaterSystemView system = systems.require(wanted.system());
        if (known.isEmpty()) {
            add(wanted);
        } else if (!same) {
            change(wanted);
        }
        place(wanted, system);
    }

    private boolean add(WorkProposal asked) {
        int added = jdbc.sql("""
                        insert into work_proposal (
                            id, water_system_id, source, reason, earliest, latest, minutes, quantity, page, proposed_at)
                        values (:id, :system, :source, :reason, :earliest, :latest, :minutes, :quantity, :page, :at)
                        on conflict (id) do nothing
                        """)
                .param("id", asked.id())
                .param("system", asked.system().value())
                .param("source", asked.source().name())
                .param("reason", asked.reason())
                .param("earliest", asked.earliest())
                .param("latest", asked.latest())
                .param("minutes", asked.minutes())
                .param("quantity", asked.measures().map(Quantity::name).orElse(null), Types.VARCHAR)
                .param("page", asked.page().orElse(null), Types.VARCHAR)
                .param("at", clock.instant().atOffset(ZoneOffset.UTC))
                .update();
        if (added == 1) {
            changes.record("water-system", asked.system(), "work-proposed", Map.of("reason", asked.reason()));
        }
        return added == 1;
    }

    private void change(WorkProposal wanted) {
        jdbc.sql("""
                        update work_proposal
                        set water_system_id = :system, source = :source, reason = :reason, earliest = :earliest,
                            latest = :latest, minutes = :minutes, quantity = :quantity, page = :page
                        where id = :id
                        """)
                .param("id", wanted.id())
                .param("system", wanted.system().value())
                .param("source", wanted.source().name())
                .param("reason", wanted.reason())
                .param("earliest", wanted.earliest())
                .param("latest", wanted.latest())
                .param("minutes", wanted.minutes())
                .param("quantity", wanted.measures().map(Quantity::name).orElse(null), Types.VARCHAR)
                .param("page", wanted.page().orElseThrow())
                .update();
    }

    private void settle(WorkProposal settled) {
        takeOff(settled.id());
        jdbc.sql("delete from work_proposal where id = :id")
                .param("id", settled.id())
                .update();
        changes.record("water-system", settled.system(), "work-settled", Map.of("reason", settled.reason()));
    }

    /** Takes it off the visit that it goes with. */
    private void takeOff(UUID id) {
        List<PlannedVisitId> before = jdbc.sql("""
                        select v.id
                        from proposed_task t
                        join planned_visit v on v.id = t.planned_visit_id
                        where t.proposer = :id and v.state = 'DUE'
                        """)
                .param("id", id)
                .query((row, number) -> new PlannedVisitId(row.getObject("id", UUID.class)))
                .list();
        dueVisits.withdraw(id);
        if (!before.isEmpty()) {
            events.publishEvent(new WorkMoved(before));
        }
    }

    /** Puts it with the first due visit to its system in its window, else to its site; with none where there is none. */
    private void place(WorkProposal proposal, WaterSystemView system) {
        LocalDate today = dueVisits.today();
        LocalDate last = proposal.latest().isBefore(today) ? today.plusWeeks(DueVisits.WEEKS_AHEAD) : proposal.latest();
        takeOff(proposal.id());
        dueVisits.planUntil(last);
        Optional<PlannedVisitView> visit = jdbc.sql("""
                        select id
                        from planned_visit
                        where state = 'DUE' and site_id = :site
                          and greatest(due_on, :today) between :earliest and :latest
                        order by water_system_id <> :system, due_on, id
                        limit 1
                        """)
                .param("site", system.siteId().value())
                .param("system", system.id().value())
                .param("today", today)
                .param("earliest", proposal.earliest())
                .param("latest", last)
                .query(UUID.class)
                .optional()
                .map(PlannedVisitId::of)
                .map(dueVisits::require);
        jdbc.sql("update work_proposal set planned_visit_id = :visit where id = :id")
                .param("visit", visit.map(each -> each.id().value()).orElse(null), Types.OTHER)
                .param("id", proposal.id())
                .update();
        visit.ifPresent(each -> put(proposal, system, each, proposal.minutes()));
    }

    private void put(WorkProposal proposal, WaterSystemView system, PlannedVisitView visit, int minutes) {
        dueVisits.propose(
                visit.id(),
                proposal.id(),
                List.of(TaskView.work(
                        visit.waterSystemId().equals(system.id())
                                ? proposal.reason()
                                : system.name() + ": " + proposal.reason())),
                minutes);
        events.publishEvent(new WorkMoved(List.of(visit.id())));
    }

    /** @throws NotFound if nothing of that id waits */
    @Transactional(readOnly = true)
    public Open require(UUID id) {
        return jdbc.sql(SELECT + " and p.id = :id")
                .param("id", id)
                .query((row, number) -> open(row))
                .optional()
                .orElseThrow(() -> new NotFound("work-proposal", id));
    }

    /**
     * Agrees on a visit of its own for work that goes with none. It may lie outside the window: somebody decided so.
     *
     * @param price in the business's currency; empty for what a visit there costs
     * @throws FieldRefusal if it goes with a visit meanwhile, or for a day or a price that no visit can have
     * @throws NotFound if it waits no more
     */
    @Transactional
    public PlannedVisitView accept(UUID id, LocalDate day, Optional<BigDecimal> price) {
        lock.hold("work proposals");
        Open waiting = require(id);
        waiting.visitOn().ifPresent(on -> {
            throw new FieldRefusal("day", "schedule.proposal.placed", on);
        });
        WorkProposal proposal = waiting.proposal();
        WaterSystemView system = systems.require(proposal.system());
        PlannedVisitView visit =
                oneOffs.agree(OneOffVisits.Occasion.WORK, system, day, Math.max(1, proposal.minutes()), price);
        jdbc.sql("update work_proposal set planned_visit_id = :visit where id = :id")
                .param("visit", visit.id().value())
                .param("id", id)
                .update();
        // Its minutes are the visit's own.
        put(proposal, system, visit, 0);
        return visit;
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

    /**
     * Takes a proposal back; what its source says of the same matter later is not proposed again. Said again, it changes
     * nothing.
     */
    @Transactional
    public void withdraw(UUID id) {
        int withdrawn = jdbc.sql("update work_proposal set withdrawn = true where id = :id and not withdrawn")
                .param("id", id)
                .update();
        if (withdrawn == 1) {
            takeOff(id);
            changes.record("work-proposal", id, "withdrawn", Map.of());
        }
    }

    /** What is still to be done: unplaced first, then by the last day. */
    @Transactional(readOnly = true)
    public List<Open> open() {
        return jdbc.sql(SELECT + " order by v.state is not distinct from 'DUE', p.latest, p.id limit :most")
                .param("most", MOST)
                .query((row, number) -> open(row))
                .list();
    }

    /** What was added to these visits, in the order of their tasks. */
    @Transactional(readOnly = true)
    public List<Added> addedTo(Collection<PlannedVisitId> visits) {
        return jdbc.sql("""
                        select t.planned_visit_id as visit_id, t.proposer, t.tasks::text as tasks, p.*
                        from proposed_task t
                        left join work_proposal p on p.id = t.proposer
                        where t.planned_visit_id = any(:visits)
                        order by t.proposer
                        """)
                .param("visits", visits.stream().map(PlannedVisitId::value).toArray(UUID[]::new))
                .query((row, number) -> new Added(
                        PlannedVisitId.of(row.getObject("visit_id", UUID.class)),
                        row.getObject("proposer", UUID.class),
                        json.readValue(row.getString("tasks"), TASKS),
                        row.getObject("id") == null ? Optional.empty() : Optional.of(proposal(row))))
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
                Optional.ofNullable(
                        row.getObject("visit_id") == null ? null : row.getObject("due_on", LocalDate.class)));
    }

    private static WorkProposal proposal(ResultSet row) throws SQLException {
        return new WorkProposal(
                row.getObject("id", UUID.class),
                new WaterSystemId(row.getObject("water_system_id", UUID.class)),
                WorkProposal.Source.valueOf(row.getString("source")),
                row.getString("reason"),
                row.getObject("earliest", LocalDate.class),
                row.getObject("latest", LocalDate.class),
                row.getInt("minutes"),
                Optional.ofNullable(row.getString("quantity")).map(Quantity::valueOf),
                Optional.ofNullable(row.getString("page")));
    }
}
