package app.tankround.schedule;

import app.tankround.accounts.ChangeLog;
import app.tankround.accounts.CurrentPerson;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Clock;
import java.time.ZoneOffset;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.springframework.context.event.EventListener;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * Water that is not changed at one visit but at the next to the same system, such as where a van could not carry it all: what
 * the one has less the other has more, so no litre of what was agreed is left off.
 */
@Service
public class MovedChanges {

    /** At least this share of what a visit would change stays with it; common practice, no source. */
    public static final BigDecimal LEAST_SHARE = new BigDecimal("0.5");

    private final DueVisits dueVisits;
    private final WaterSystems systems;
    private final CurrentPerson currentPerson;
    private final ChangeLog changes;
    private final JdbcClient jdbc;
    private final Clock clock;

    MovedChanges(
            DueVisits dueVisits,
            WaterSystems systems,
            CurrentPerson currentPerson,
            ChangeLog changes,
            JdbcClient jdbc,
            Clock clock) {
        this.dueVisits = dueVisits;
        this.systems = systems;
        this.currentPerson = currentPerson;
        this.changes = changes;
        this.jdbc = jdbc;
        this.clock = clock;
    }

    /**
     * Water that goes from one visit to another.
     *
     * @param litres above 0
     */
    public record Moved(PlannedVisitId from, PlannedVisitId to, BigDecimal litres) {}

    /**
     * What may be moved off a visit.
     *
     * @param changed litres that it changes as it stands
     * @param most litres that may be left to the next one
     */
    public record Movable(BigDecimal changed, BigDecimal most, PlannedVisitView next) {}

    /** What was moved off these visits, by visit. */
    @Transactional(readOnly = true)
    public Map<PlannedVisitId, Moved> offVisits(Collection<PlannedVisitId> visits) {
        Map<PlannedVisitId, Moved> off = new HashMap<>();
        jdbc.sql("select from_visit_id, to_visit_id, litres from moved_change where from_visit_id = any(:visits)")
                .param("visits", visits.stream().map(PlannedVisitId::value).toArray(UUID[]::new))
                .query((row, number) -> new Moved(
                        PlannedVisitId.parse(row.getString("from_visit_id")),
                        PlannedVisitId.parse(row.getString("to_visit_id")),
                        row.getBigDecimal("litres")))
                .list()
                .forEach(moved -> off.put(moved.from(), moved));
        return off;
    }

    /**
     * What may be moved off a visit; empty where it changes no water by agreement, something was moved off it already, or no
     * later visit to its system is due.
     */
    @Transactional(readOnly = true)
    public Optional<Movable> movable(PlannedVisitView visit) {
        BigDecimal changed = agreedLitres(visit, systems.require(visit.waterSystemId()));
        if (visit.state() != PlannedVisitState.DUE
                || changed.signum() == 0
                || !offVisits(List.of(visit.id())).isEmpty()) {
            return Optional.empty();
        }
        BigDecimal most = changed.multiply(BigDecimal.ONE.subtract(LEAST_SHARE)).setScale(1, RoundingMode.FLOOR);
        return most.signum() == 0 ? Optional.empty() : next(visit).map(next -> new Movable(changed, most, next));
    }

    /** The largest change that is agreed, L; 0 where there is none. */
    private static BigDecimal agreedLitres(PlannedVisitView visit, WaterSystemView system) {
        BigDecimal net = BigDecimal.valueOf(system.netVolume().litres());
        return visit.tasks().stream()
                .filter(task ->
                        task.kind() == TaskKind.WATER_CHANGE && task.item().isEmpty())
                .map(task -> task.litresOf(net))
                .max(Comparator.naturalOrder())
                .orElse(BigDecimal.ZERO);
    }

    private Optional<PlannedVisitView> next(PlannedVisitView visit) {
        return dueVisits.dueFor(visit.waterSystemId()).stream()
                .filter(other -> !other.id().equals(visit.id()) && other.dueOn().isAfter(visit.dueOn()))
                .findFirst();
    }

    /**
     * Leaves so much of a visit's water change to the next visit.
     *
     * @throws FieldRefusal if that is nothing, more than may be left to it, or something was moved off the visit already
     * @throws app.tankround.web.NotFound if there is no such visit
     */
    @Transactional
    public void move(PlannedVisitId id, BigDecimal litres) {
        PlannedVisitView visit = dueVisits.require(id);
        Movable movable = movable(visit).orElseThrow(() -> new FieldRefusal("litres", "schedule.moved-change.none"));
        if (litres.signum() <= 0 || litres.compareTo(movable.most()) > 0) {
            throw new FieldRefusal("litres", "schedule.moved-change.range", litres, movable.most());
        }
        int moved = jdbc.sql("""
                        insert into moved_change (from_visit_id, to_visit_id, litres, person_id, moved_at)
                        values (:from, :to, :litres, :person, :at)
                        on conflict (from_visit_id) do nothing
                        """)
                .param("from", id.value())
                .param("to", movable.next().id().value())
                .param("litres", litres)
                .param("person", currentPerson.require().id().value())
                .param("at", clock.instant().atOffset(ZoneOffset.UTC))
                .update();
        if (moved == 0) {
            throw new FieldRefusal("litres", "schedule.moved-change.none");
        }
        changes.record(
                "planned-visit",
                id,
                "change-moved",
                Map.of("litres", litres, "to", movable.next().dueOn().toString()));
    }

    /** Gives a visit that is not done yet back what was moved off it; said again, it changes nothing. */
    @Transactional
    public void takeBack(PlannedVisitId id) {
        int back = jdbc.sql("""
                        delete from moved_change m
                        using planned_visit f, planned_visit t
                        where m.from_visit_id = :from and f.id = m.from_visit_id and t.id = m.to_visit_id
                          and f.state = 'DUE' and t.state = 'DUE'
                        """).param("from", id.value()).update();
        if (back == 1) {
            changes.record("planned-visit", id, "change-moved-back", Map.of());
        }
    }

    /** What waits at a visit that is gone goes with the next one. */
    @EventListener
    void on(DueVisitsRemoved removed) {
        jdbc.sql("""
                        select m.from_visit_id, m.to_visit_id
                        from moved_change m
                        join planned_visit t on t.id = m.to_visit_id
                        where m.to_visit_id = any(:visits) and t.state in ('DROPPED', 'WITHDRAWN')
                        """)
                .param(
                        "visits",
                        removed.visits().stream().map(PlannedVisitId::value).toArray(UUID[]::new))
                .query((row, number) -> Map.entry(
                        PlannedVisitId.parse(row.getString("from_visit_id")),
                        PlannedVisitId.parse(row.getString("to_visit_id"))))
                .list()
                .forEach(each -> next(dueVisits.require(each.getValue()))
                        .filter(next -> !next.id().equals(each.getKey()))
                        .ifPresent(next -> jdbc.sql(
                                        "update moved_change set to_visit_id = :to where from_visit_id = :from")
                                .param("to", next.id().value())
                                .param("from", each.getKey().value())
                                .update()));
    }

    /** The tasks of a visit whose agreed water change is so many litres larger, or smaller where it is below 0. */
    static List<TaskView> changedBy(List<TaskView> tasks, BigDecimal litres, BigDecimal netLitres) {
        if (litres.signum() == 0) {
            return tasks;
        }
        return tasks.stream()
                .map(task -> task.kind() == TaskKind.WATER_CHANGE && task.item().isEmpty()
                        ? TaskView.waterChangeLitres(task.litresOf(netLitres).add(litres))
                        : task)
                .filter(task ->
                        task.amount().filter(amount -> amount.signum() <= 0).isEmpty())
                .toList();
    }
}
