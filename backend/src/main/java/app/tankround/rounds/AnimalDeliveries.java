package app.tankround.rounds;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.ChangeLog;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.schedule.PlannedVisitState;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.stream.Collectors;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Live animals on board: what goes along to which visit. */
@Service
public class AnimalDeliveries {

    /** Published when what goes along to a visit changes, so that the round that holds it is timed again. */
    record Changed(PlannedVisitId visit) {}

    private final DueVisits dueVisits;
    private final BusinessProfile business;
    private final ChangeLog changes;
    private final ApplicationEventPublisher events;
    private final JdbcClient jdbc;

    AnimalDeliveries(
            DueVisits dueVisits,
            BusinessProfile business,
            ChangeLog changes,
            ApplicationEventPublisher events,
            JdbcClient jdbc) {
        this.dueVisits = dueVisits;
        this.business = business;
        this.changes = changes;
        this.events = events;
        this.jdbc = jdbc;
    }

    /** What goes along to these visits, by visit; visits to which nothing does are missing. */
    @Transactional(readOnly = true)
    public Map<PlannedVisitId, List<AnimalDelivery>> of(Collection<PlannedVisitId> visits) {
        return jdbc
                .sql("""
                        select id, planned_visit_id, what, packed_at, bag_minutes, acclimation_minutes
                        from animal_delivery
                        where planned_visit_id = any(:visits)
                        order by packed_at, id
                        """)
                .param("visits", visits.stream().map(PlannedVisitId::value).toArray(UUID[]::new))
                .query((row, number) -> new AnimalDelivery(
                        row.getObject("id", UUID.class),
                        new PlannedVisitId(row.getObject("planned_visit_id", UUID.class)),
                        row.getString("what"),
                        row.getObject("packed_at", OffsetDateTime.class).toInstant(),
                        row.getInt("bag_minutes"),
                        row.getInt("acclimation_minutes")))
                .list()
                .stream()
                .collect(Collectors.groupingBy(AnimalDelivery::visit));
    }

    /**
     * Takes animals along to a visit, and times the round anew that holds it. Sending the same twice adds them once.
     *
     * @param day of the round that brings them, or of the visit
     * @throws NotFound if there is no such visit
     * @throws FieldRefusal if the visit is not due, or the bag is no longer good on that day or not packed by then
     */
    @Transactional
    public void add(AnimalDelivery delivery, LocalDate day) {
        PlannedVisitView visit = dueVisits.require(delivery.visit());
        if (visit.state() != PlannedVisitState.DUE) {
            throw new FieldRefusal("what", "rounds.animals.not-due");
        }
        ZoneId zone = business.current().zone();
        if (!delivery.canArriveOn(day, zone)) {
            throw new FieldRefusal(
                    "packedAt",
                    "rounds.animals.not-that-day",
                    day,
                    inWords(delivery.packedAt(), zone),
                    inWords(delivery.goodUntil(), zone));
        }
        int added = jdbc.sql("""
                        insert into animal_delivery (id, planned_visit_id, what, packed_at, bag_minutes, acclimation_minutes)
                        values (:id, :visit, :what, :packed, :bag, :acclimation)
                        on conflict (id) do nothing
                        """)
                .param("id", delivery.id())
                .param("visit", delivery.visit().value())
                .param("what", delivery.what())
                .param("packed", delivery.packedAt().atOffset(ZoneOffset.UTC))
                .param("bag", delivery.bagMinutes())
                .param("acclimation", delivery.acclimationMinutes())
                .update();
        if (added == 1) {
            changes.record("planned-visit", delivery.visit(), "animals-added", Map.of("what", delivery.what()));
            events.publishEvent(new Changed(delivery.visit()));
        }
    }

    private static String inWords(Instant at, ZoneId zone) {
        return at.atZone(zone)
                .toLocalDateTime()
                .truncatedTo(ChronoUnit.MINUTES)
                .toString()
                .replace('T', ' ');
    }

    /** Leaves animals behind. Said again, it changes nothing. */
    @Transactional
    public void remove(PlannedVisitId visit, UUID id) {
        int removed = jdbc.sql("delete from animal_delivery where id = :id and planned_visit_id = :visit")
                .param("id", id)
                .param("visit", visit.value())
                .update();
        if (removed == 1) {
            changes.record("planned-visit", visit, "animals-removed", Map.of());
            events.publishEvent(new Changed(visit));
        }
    }
}
