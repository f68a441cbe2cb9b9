package app.tankround.schedule;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.ChangeLog;
import app.tankround.clients.SiteDaysChanged;
import app.tankround.clients.SiteId;
import app.tankround.persistence.Uuids;
import app.tankround.tanks.WaterSystemId;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import java.math.RoundingMode;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Duration;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import org.joda.money.CurrencyUnit;
import org.joda.money.Money;
import org.jspecify.annotations.Nullable;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.context.event.EventListener;
import org.springframework.jdbc.core.RowMapper;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import tools.jackson.core.type.TypeReference;
import tools.jackson.databind.json.JsonMapper;

/** The due visits that follow from the agreements. Days are those of the business's zone. */
@Service
public class DueVisits {

    /** How far ahead due visits are kept ready. */
    static final int WEEKS_AHEAD = 8;

    /** How far ahead due visits are made at most, and a change may begin to hold. */
    static final int MOST_WEEKS_AHEAD = 53;

    private static final int LONGEST_REASON = 500;
    private static final double MILLISECONDS_PER_MINUTE = 60_000;
    private static final double MOST_WORKED_MINUTES = 1440;

    private static final String SELECT = """
            select v.id, v.agreement_id, v.water_system_id, v.site_id, v.nominal_on, v.due_on, v.tolerance_days,
                   v.hindrance, v.hindrance_detail, v.state, v.minutes, v.price,
                   (select coalesce(sum(p.minutes), 0) from proposed_task p where p.planned_visit_id = v.id) as beside_minutes,
                   (v.tasks || coalesce(
                       (select jsonb_agg(task order by p.proposer, place)
                        from proposed_task p
                        cross join lateral jsonb_array_elements(p.tasks) with ordinality as each (task, place)
                        where p.planned_visit_id = v.id),
                       '[]'))::text as tasks,
                   coalesce((select sum(m.litres) from moved_change m where m.to_visit_id = v.id), 0)
                       - coalesce((select m.litres from moved_change m where m.from_visit_id = v.id), 0) as moved_litres,
                   (select s.net_volume_l from water_system s where s.id = v.water_system_id) as net_litres,
                   v.done_on, v.dropped_reason
            from planned_visit v
            """;

    private static final TypeReference<List<TaskView>> TASKS = new TypeReference<>() {};

    private final JdbcClient jdbc;
    private final AgreementRepository agreements;
    private final VisitPlacing placing;
    private final BusinessProfile business;
    private final ChangeLog changes;
    private final ApplicationEventPublisher events;
    private final JsonMapper json;
    private final Clock clock;

    DueVisits(
            JdbcClient jdbc,
            AgreementRepository agreements,
            VisitPlacing placing,
            BusinessProfile business,
            ChangeLog changes,
            ApplicationEventPublisher events,
            JsonMapper json,
            Clock clock) {
        this.jdbc = jdbc;
        this.agreements = agreements;
        this.placing = placing;
        this.business = business;
        this.changes = changes;
        this.events = events;
        this.json = json;
        this.clock = clock;
    }

    /** Makes the due visits of the weeks ahead; see {@link #planUntil}. Does nothing before the business is set up. */
    @Transactional
    public void planAhead() {
        if (business.find().isPresent()) {
            planUntil(today().plusWeeks(WEEKS_AHEAD));
        }
    }

    /**
     * Makes the visits of all agreements that may be due up to and including that day: those of nominal days as far behind
     * it as a visit may be moved. Asked again, also at the same moment or from
     * another instance, it makes no visit a second time: each agreement's row is locked while its visits are made. No
     * visit is made more than {@value #MOST_WEEKS_AHEAD} weeks ahead, however far the day asked for.
     */
    @Transactional
    public void planUntil(LocalDate asked) {
        LocalDate furthest = today().plusWeeks(MOST_WEEKS_AHEAD);
        LocalDate last = asked.plusDays(VisitRhythm.MOST_TOLERANCE_DAYS);
        LocalDate until = last.isAfter(furthest) ? furthest : last;
        List<AgreementId> behind = jdbc.sql("""
                        select a.id
                        from agreement a
                        join water_system w on w.id = a.water_system_id
                        where w.active
                          and a.valid_from <= :until
                          and (a.planned_until is null
                               or a.planned_until < least(:until, coalesce(a.valid_until, :until)))
                        order by a.id
                        """)
                .param("until", until)
                .query((row, number) -> AgreementId.parse(row.getString("id")))
                .list();
        for (AgreementId id : behind) {
            jdbc.sql("select id from agreement where id = :id for update")
                    .param("id", id.value())
                    .query(UUID.class)
                    .single();
            plan(agreements.findById(id).orElseThrow(), until);
        }
    }

    /** The caller holds the lock on the agreement's row. */
    private void plan(Agreement agreement, LocalDate until) {
        LocalDate planned = agreement.plannedUntil();
        if (planned != null && !planned.isBefore(until)) {
            return;
        }
        LocalDate from = planned == null ? agreement.plannedFrom() : planned.plusDays(1);
        List<VisitRhythm.Period> periods = agreement.rhythm().periods(from, until);
        List<LocalDate> wanted = periods.isEmpty() ? List.of() : free(agreement, periods);
        if (!wanted.isEmpty()) {
            make(agreement, wanted);
        }
        jdbc.sql("update agreement set planned_until = :until where id = :id")
                .param("until", agreement.rhythm().lastDayBeforeVisitAfter(until))
                .param("id", agreement.id().value())
                .update();
    }

    /** Visits of the periods for which none stands yet: done, dropped or still due. */
    private List<LocalDate> free(Agreement agreement, List<VisitRhythm.Period> periods) {
        Set<LocalDate> taken = new HashSet<>(jdbc.sql("""
                        select nominal_on
                        from planned_visit
                        where agreement_id = :agreement and nominal_on >= :start and state <> 'WITHDRAWN'
                        """)
                .param("agreement", agreement.id().value())
                .param("start", periods.getFirst().start())
                .query(LocalDate.class)
                .list());
        return periods.stream()
                .filter(period -> taken.stream().noneMatch(period::contains))
                .map(VisitRhythm.Period::visitOn)
                .toList();
    }

    /** Makes the visits before the day from which changed terms will hold, on the terms until then. */
    void planBefore(Agreement stored, LocalDate from) {
        plan(stored, from.minusDays(1));
    }

    private void make(Agreement agreement, List<LocalDate> nominal) {
        List<VisitPlacing.Placed> placed = placing.place(agreement, site(agreement), nominal, today());
        jdbc.sql("""
                        insert into planned_visit (id, agreement_id, water_system_id, site_id, nominal_on, due_on, tolerance_days,
                            hindrance, hindrance_detail, state, minutes, price, tasks)
                        select d.id, :agreement, w.id, w.site_id, d.nominal, d.due, :tolerance, d.hindrance, d.detail, 'DUE',
                            :minutes, :price, cast(:tasks as jsonb)
                        from water_system w
                        cross join unnest(cast(:ids as uuid[]), cast(:nominal as date[]), cast(:due as date[]),
                            cast(:hindrances as text[]), cast(:details as text[])) as d (id, nominal, due, hindrance, detail)
                        where w.id = :system
                        on conflict (agreement_id, nominal_on) do update
                        set state = 'DUE', site_id = excluded.site_id, due_on = excluded.due_on,
                            tolerance_days = excluded.tolerance_days, hindrance = excluded.hindrance,
                            hindrance_detail = excluded.hindrance_detail, minutes = excluded.minutes, price = excluded.price,
                            tasks = excluded.tasks
                        where planned_visit.state = 'WITHDRAWN'
                        """)
                .param(
                        "ids",
                        placed.stream().map(day -> Uuids.next(clock.instant())).toArray(UUID[]::new))
                .param("agreement", agreement.id().value())
                .param(
                        "nominal",
                        placed.stream().map(day -> day.nominalOn().toString()).toArray(String[]::new))
                .param("due", placed.stream().map(day -> day.dueOn().toString()).toArray(String[]::new))
                .param("tolerance", agreement.toleranceDays())
                .param(
                        "hindrances",
                        placed.stream()
                                .map(day -> day.hindrance()
                                        .map(hindrance -> hindrance.kind().name())
                                        .orElse(null))
                                .toArray(String[]::new))
                .param(
                        "details",
                        placed.stream()
                                .map(day -> day.hindrance()
                                        .flatMap(DayHindrance::detail)
                                        .orElse(null))
                                .toArray(String[]::new))
                .param("minutes", agreement.minutes())
                .param("price", agreement.price())
                .param("tasks", json.writeValueAsString(agreement.taskViews()))
                .param("system", agreement.waterSystemId().value())
                .update();
    }

    private SiteId site(Agreement agreement) {
        return jdbc.sql("select site_id from water_system where id = :system")
                .param("system", agreement.waterSystemId().value())
                .query((row, number) -> new SiteId(row.getObject("site_id", UUID.class)))
                .single();
    }

    /** Visits move as soon as the days on which somebody can come to their site do. */
    @EventListener
    void on(SiteDaysChanged changed) {
        placeAgain(jdbc.sql("""
                        select a.id
                        from agreement a
                        join water_system w on w.id = a.water_system_id
                        where w.site_id = :site
                        order by a.id
                        for update of a
                        """)
                .param("site", changed.site().value())
                .query((row, number) -> AgreementId.parse(row.getString("id")))
                .list());
    }

    /** Puts every visit still to come to the day that is nearest now, as after a change of the holidays. */
    void placeAllAgain() {
        placeAgain(jdbc.sql("select id from agreement order by id for update")
                .query((row, number) -> AgreementId.parse(row.getString("id")))
                .list());
    }

    /**
     * Puts the visits still to come of some agreements to the days that are nearest now. One that moves leaves the round
     * that holds it. The caller holds the locks on the agreements' rows.
     */
    private void placeAgain(List<AgreementId> ids) {
        LocalDate today = today();
        List<PlannedVisitId> moved = new ArrayList<>();
        for (Agreement agreement : agreements.findAllById(ids)) {
            List<PlannedVisitView> coming = jdbc.sql(SELECT + """
                            where v.agreement_id = :agreement and v.state = 'DUE' and v.due_on >= :today and v.nominal_on >= :today
                            order by v.nominal_on
                            """)
                    .param("agreement", agreement.id().value())
                    .param("today", today)
                    .query(mapper())
                    .list();
            if (!coming.isEmpty()) {
                List<VisitPlacing.Placed> placed = placing.place(
                        agreement,
                        site(agreement),
                        coming.stream().map(PlannedVisitView::nominalOn).toList(),
                        today);
                for (int i = 0; i < placed.size(); i++) {
                    PlannedVisitView visit = coming.get(i);
                    boolean moves = !visit.dueOn().equals(placed.get(i).dueOn());
                    if (moves || !visit.hindrance().equals(placed.get(i).hindrance())) {
                        put(visit, placed.get(i));
                    }
                    if (moves) {
                        moved.add(visit.id());
                    }
                }
            }
        }
        if (!moved.isEmpty()) {
            events.publishEvent(new DueVisitsRemoved(moved));
        }
    }

    private void put(PlannedVisitView visit, VisitPlacing.Placed placed) {
        jdbc.sql("""
                        update planned_visit set due_on = :due, hindrance = :hindrance, hindrance_detail = :detail
                        where id = :id
                        """)
                .param("due", placed.dueOn())
                .param(
                        "hindrance",
                        placed.hindrance()
                                .map(hindrance -> hindrance.kind().name())
                                .orElse(null))
                .param(
                        "detail",
                        placed.hindrance().flatMap(DayHindrance::detail).orElse(null))
                .param("id", visit.id().value())
                .update();
    }

    private record Withdrawn(PlannedVisitId id, LocalDate nominalOn, LocalDate dueOn) {}

    /**
     * Brings the visits that are due from that day on in line with changed terms, as far ahead as there were some. Visits of
     * days before it, and whatever was done or dropped, keep what was agreed then.
     */
    void agreeAgain(Agreement changed, LocalDate from) {
        List<Withdrawn> before = jdbc.sql("""
                        update planned_visit set state = 'WITHDRAWN'
                        where agreement_id = :agreement and nominal_on >= :from and state = 'DUE'
                        returning id, nominal_on, due_on
                        """)
                .param("agreement", changed.id().value())
                .param("from", from)
                .query((row, number) -> new Withdrawn(
                        PlannedVisitId.parse(row.getString("id")),
                        row.getObject("nominal_on", LocalDate.class),
                        row.getObject("due_on", LocalDate.class)))
                .list();
        LocalDate ahead = today().plusWeeks(WEEKS_AHEAD);
        plan(
                changed,
                before.stream()
                        .map(Withdrawn::nominalOn)
                        .filter(ahead::isBefore)
                        .max(Comparator.naturalOrder())
                        .orElse(ahead));
        Map<PlannedVisitId, LocalDate> after = find(
                        before.stream().map(Withdrawn::id).toList())
                .stream()
                .filter(visit -> visit.state() != PlannedVisitState.WITHDRAWN)
                .collect(Collectors.toMap(PlannedVisitView::id, PlannedVisitView::dueOn));
        List<PlannedVisitId> gone = before.stream()
                .filter(visit -> !visit.dueOn().equals(after.get(visit.id())))
                .map(Withdrawn::id)
                .toList();
        if (!gone.isEmpty()) {
            events.publishEvent(new DueVisitsRemoved(gone));
        }
    }

    /**
     * What is still to be done on that day: visits due on it or earlier, oldest first, of systems that are looked after.
     * Visits up to that day are made first if they were not yet.
     */
    @Transactional
    public List<PlannedVisitView> dueOn(LocalDate day) {
        planUntil(day);
        return jdbc.sql(SELECT + """
                        join water_system w on w.id = v.water_system_id
                        where v.state = 'DUE' and v.due_on <= :day and w.active
                        order by v.due_on, v.id
                        """).param("day", day).query(mapper()).list();
    }

    /**
     * The tasks of some kinds of all visits that {@link #dueOn} would give, by their day. Far cheaper than the visits where
     * there are many.
     */
    @Transactional
    public List<DueTask> tasksDue(LocalDate day, Set<TaskKind> kinds) {
        planUntil(day);
        return jdbc.sql("""
                        select v.water_system_id, v.due_on, task.said::text as task
                        from planned_visit v
                        join water_system w on w.id = v.water_system_id
                        cross join lateral (
                            select said from jsonb_array_elements(v.tasks) as agreed (said)
                            union all
                            select said
                            from proposed_task p
                            cross join lateral jsonb_array_elements(p.tasks) as proposed (said)
                            where p.planned_visit_id = v.id
                        ) as task
                        where v.state = 'DUE' and v.due_on <= :day and w.active and task.said ->> 'kind' = any(:kinds)
                        order by v.due_on, v.id
                        """)
                .param("day", day)
                .param("kinds", kinds.stream().map(Enum::name).toArray(String[]::new))
                .query((row, number) -> new DueTask(
                        new WaterSystemId(row.getObject("water_system_id", UUID.class)),
                        row.getObject("due_on", LocalDate.class),
                        json.readValue(row.getString("task"), TaskView.class)))
                .list();
    }

    /** Visits whose day lies from the first day up to but not including the second, whatever became of them, by day. */
    @Transactional(readOnly = true)
    public List<PlannedVisitView> between(LocalDate from, LocalDate until) {
        return jdbc.sql(SELECT + """
                        where v.state <> 'WITHDRAWN' and v.due_on >= :from and v.due_on < :until
                        order by v.due_on, v.id
                        """)
                .param("from", from)
                .param("until", until)
                .query(mapper())
                .list();
    }

    /** Visits done from the first day up to but not including the second, by the day they were done. */
    @Transactional(readOnly = true)
    public List<PlannedVisitView> doneBetween(LocalDate from, LocalDate until) {
        return jdbc.sql(SELECT + """
                        where v.state = 'DONE' and v.done_on >= :from and v.done_on < :until
                        order by v.done_on, v.id
                        """)
                .param("from", from)
                .param("until", until)
                .query(mapper())
                .list();
    }

    /** A system's visits that are still to be done, oldest first. */
    @Transactional(readOnly = true)
    public List<PlannedVisitView> dueFor(WaterSystemId system) {
        return jdbc.sql(SELECT + """
                        where v.state = 'DUE' and v.water_system_id = :system
                        order by v.due_on, v.id
                        """)
                .param("system", system.value())
                .query(mapper())
                .list();
    }

    /** The visits with these ids, by day; ids that do not exist are left out. */
    @Transactional(readOnly = true)
    public List<PlannedVisitView> find(Collection<PlannedVisitId> ids) {
        if (ids.isEmpty()) {
            return List.of();
        }
        return jdbc.sql(SELECT + "where v.id = any(:ids) order by v.due_on, v.id")
                .param("ids", ids.stream().map(PlannedVisitId::value).toArray(UUID[]::new))
                .query(mapper())
                .list();
    }

    /** @throws NotFound if there is no such visit */
    @Transactional(readOnly = true)
    public PlannedVisitView require(PlannedVisitId id) {
        return find(List.of(id)).stream().findFirst().orElseThrow(() -> new NotFound("planned-visit", id));
    }

    /**
     * Visits to one system that are made together on a day.
     *
     * @param due visits due from then on have not been made before these
     */
    public record Together(WaterSystemId system, LocalDate day, LocalDate due, List<PlannedVisitId> visits) {

        public Together {
            visits = List.copyOf(visits);
        }

        public static Together of(WaterSystemId system, LocalDate day, List<PlannedVisitView> visits) {
            return new Together(
                    system,
                    day,
                    visits.stream()
                            .map(PlannedVisitView::dueOn)
                            .filter(day::isAfter)
                            .min(Comparator.naturalOrder())
                            .orElse(day),
                    visits.stream().map(PlannedVisitView::id).toList());
        }

        /** The ids of the visits as PostgreSQL writes an array. */
        private String ids() {
            return visits.stream().map(PlannedVisitId::toString).collect(Collectors.joining(",", "{", "}"));
        }
    }

    /**
     * The last day before each on which somebody was at the system, or will have been by then: visits from today on that are
     * due before it count as done on their day. In the order in which they are asked for.
     */
    @Transactional(readOnly = true)
    public List<Optional<LocalDate>> lastThereBefore(List<Together> asked) {
        return jdbc.sql("""
                        select (select max(case state when 'DONE' then done_on else due_on end)
                                from planned_visit
                                where water_system_id = asked.system
                                  and (state = 'DONE' and done_on < asked.day
                                       or state = 'DUE' and due_on >= :today and due_on < asked.due
                                          and id <> all(cast(asked.visits as uuid[]))))
                        from unnest(cast(:systems as uuid[]), cast(:days as date[]), cast(:dues as date[]), cast(:visits as text[]))
                            with ordinality as asked (system, day, due, visits, number)
                        order by asked.number
                        """)
                .param("today", today())
                .param(
                        "systems",
                        asked.stream().map(each -> each.system().value()).toArray(UUID[]::new))
                .param("days", asked.stream().map(each -> each.day().toString()).toArray(String[]::new))
                .param("dues", asked.stream().map(each -> each.due().toString()).toArray(String[]::new))
                .param("visits", asked.stream().map(Together::ids).toArray(String[]::new))
                .query((row, number) -> Optional.ofNullable(row.getObject(1, LocalDate.class)))
                .list();
    }

    /** The last day before {@code day} on which a visit to this system was done. */
    @Transactional(readOnly = true)
    public Optional<LocalDate> lastDoneBefore(WaterSystemId system, LocalDate day) {
        return jdbc.sql("""
                        select done_on
                        from planned_visit
                        where water_system_id = :system and state = 'DONE' and done_on < :day
                        order by done_on desc
                        limit 1
                        """)
                .param("system", system.value())
                .param("day", day)
                .query(LocalDate.class)
                .optional();
    }

    /**
     * Says that a visit was done. Said again, the first day stays. Work that was done counts also where the office had
     * dropped the visit meanwhile.
     *
     * @throws NotFound if there is no such visit
     */
    @Transactional
    public void recordDone(PlannedVisitId id, LocalDate day) {
        int found = jdbc.sql("""
                        update planned_visit
                        set state = 'DONE', done_on = coalesce(done_on, :day), dropped_reason = null
                        where id = :id
                        """).param("day", day).param("id", id.value()).update();
        if (found == 0) {
            throw new NotFound("planned-visit", id);
        }
    }

    /**
     * Says how long work on visits took that were done together; each is taken to have had its share by the agreed minutes,
     * and what went along beside them its own. What took no time at all, or more than a day, since nobody ended it, tells nothing.
     */
    @Transactional
    public void recordWorked(Collection<PlannedVisitId> together, Duration worked) {
        double minutes = worked.toMillis() / MILLISECONDS_PER_MINUTE;
        if (together.isEmpty() || minutes <= 0 || minutes > MOST_WORKED_MINUTES) {
            return;
        }
        jdbc.sql("""
                        update planned_visit v
                        set worked_minutes = :minutes * v.minutes
                            / ((select sum(minutes) from planned_visit where id = any(:ids))
                               + (select coalesce(sum(minutes), 0) from proposed_task where planned_visit_id = any(:ids)))
                        where v.id = any(:ids) and v.state = 'DONE'
                        """)
                .param("minutes", minutes)
                .param("ids", together.stream().map(PlannedVisitId::value).toArray(UUID[]::new))
                .update();
    }

    /**
     * Decides that a due visit will not be done. Dropping a dropped visit again changes nothing.
     *
     * @param reason 1 to 500 characters
     * @throws FieldRefusal if there is no reason, or the visit was done meanwhile
     * @throws NotFound if there is no such visit
     */
    @Transactional
    public void drop(PlannedVisitId id, String reason) {
        String why = reason.strip();
        if (why.isEmpty()) {
            throw new FieldRefusal("reason", "schedule.reason-missing");
        }
        if (why.length() > LONGEST_REASON) {
            throw new FieldRefusal("reason", "schedule.text-too-long", why.length(), 1, LONGEST_REASON);
        }
        int dropped = jdbc.sql("""
                        update planned_visit set state = 'DROPPED', dropped_reason = :reason
                        where id = :id and state = 'DUE'
                        """).param("reason", why).param("id", id.value()).update();
        if (dropped == 0) {
            PlannedVisitView visit = require(id);
            if (visit.state() != PlannedVisitState.DROPPED) {
                throw new FieldRefusal("reason", "schedule.drop-not-due");
            }
            return;
        }
        changes.record("planned-visit", id, "dropped", Map.of("reason", why));
        events.publishEvent(new DueVisitsRemoved(List.of(id)));
    }

    /**
     * Adds tasks to a due visit beside the agreed ones, in place of those that the same proposer added before. What was done
     * or dropped stays as it was.
     *
     * @param proposer who proposes, such as a plan
     * @param minutes how much longer the visit takes with them
     * @throws NotFound if there is no such visit
     */
    @Transactional
    public void propose(PlannedVisitId id, UUID proposer, List<TaskView> tasks, int minutes) {
        if (require(id).state() != PlannedVisitState.DUE) {
            return;
        }
        jdbc.sql("""
                        insert into proposed_task (planned_visit_id, proposer, tasks, minutes)
                        values (:visit, :proposer, cast(:tasks as jsonb), :minutes)
                        on conflict (planned_visit_id, proposer) do update
                        set tasks = excluded.tasks, minutes = excluded.minutes
                        """)
                .param("visit", id.value())
                .param("proposer", proposer)
                .param("tasks", json.writeValueAsString(tasks))
                .param("minutes", minutes)
                .update();
    }

    /** Takes back what a proposer added to visits that are not done yet. */
    @Transactional
    public void withdraw(UUID proposer) {
        jdbc.sql("""
                        delete from proposed_task p
                        using planned_visit v
                        where p.proposer = :proposer and v.id = p.planned_visit_id and v.state <> 'DONE'
                        """).param("proposer", proposer).update();
    }

    /** Today in the business's zone. */
    public LocalDate today() {
        return LocalDate.now(clock.withZone(business.current().zone()));
    }

    private RowMapper<PlannedVisitView> mapper() {
        CurrencyUnit currency = business.current().currency();
        return (row, number) -> view(row, currency);
    }

    private PlannedVisitView view(ResultSet row, CurrencyUnit currency) throws SQLException {
        @Nullable String detail = row.getString("hindrance_detail");
        @Nullable LocalDate doneOn = row.getObject("done_on", LocalDate.class);
        return new PlannedVisitView(
                new PlannedVisitId(row.getObject("id", UUID.class)),
                new AgreementId(row.getObject("agreement_id", UUID.class)),
                new WaterSystemId(row.getObject("water_system_id", UUID.class)),
                new SiteId(row.getObject("site_id", UUID.class)),
                row.getObject("nominal_on", LocalDate.class),
                row.getObject("due_on", LocalDate.class),
                row.getInt("tolerance_days"),
                Optional.ofNullable(row.getString("hindrance"))
                        .map(kind -> new DayHindrance(DayHindrance.Kind.valueOf(kind), Optional.ofNullable(detail))),
                PlannedVisitState.valueOf(row.getString("state")),
                row.getInt("minutes"),
                row.getInt("beside_minutes"),
                Money.of(currency, row.getBigDecimal("price"), RoundingMode.HALF_EVEN),
                MovedChanges.changedBy(
                        json.readValue(row.getString("tasks"), TASKS),
                        row.getBigDecimal("moved_litres"),
                        row.getBigDecimal("net_litres")),
                Optional.ofNullable(doneOn),
                Optional.ofNullable(row.getString("dropped_reason")));
    }
}
