package app.tankround.loads;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.ChangeLog;
import app.tankround.accounts.CurrentPerson;
import app.tankround.clients.SiteService;
import app.tankround.clients.SiteView;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.schedule.PlannedVisitState;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.schedule.TaskView;
import app.tankround.schedule.WorkMoved;
import app.tankround.web.FieldRefusal;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.ZoneOffset;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.context.MessageSource;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * Salt water that is mixed at a site with its own RO/DI water, in empty drums that go along, because a van could not carry it
 * mixed. It makes the visit longer.
 */
@Service
public class MixedOnSite {

    /** To fill, salt, stir, warm and measure, beside other work; common practice, no source. */
    static final int MINUTES = 30;

    private final DueVisits dueVisits;
    private final SiteService sites;
    private final BusinessProfile business;
    private final CurrentPerson currentPerson;
    private final ChangeLog changes;
    private final ApplicationEventPublisher events;
    private final MessageSource messages;
    private final JdbcClient jdbc;
    private final Clock clock;

    MixedOnSite(
            DueVisits dueVisits,
            SiteService sites,
            BusinessProfile business,
            CurrentPerson currentPerson,
            ChangeLog changes,
            ApplicationEventPublisher events,
            MessageSource messages,
            JdbcClient jdbc,
            Clock clock) {
        this.dueVisits = dueVisits;
        this.sites = sites;
        this.business = business;
        this.currentPerson = currentPerson;
        this.changes = changes;
        this.events = events;
        this.messages = messages;
        this.jdbc = jdbc;
        this.clock = clock;
    }

    /** Those of these visits for which that was decided. */
    @Transactional(readOnly = true)
    public Set<PlannedVisitId> among(Collection<PlannedVisitId> visits) {
        return jdbc.sql("select planned_visit_id from mixed_on_site where planned_visit_id = any(:visits)")
                .param("visits", visits.stream().map(PlannedVisitId::value).toArray(UUID[]::new))
                .query((row, number) -> PlannedVisitId.of(row.getObject("planned_visit_id", UUID.class)))
                .set();
    }

    /** Whether that can be done at a site at all: it makes its own RO/DI water, and has no barrel to mix it in anyway. */
    static boolean isPossibleAt(SiteView site) {
        return site.ownRoDi() && !site.mixingBarrel();
    }

    /**
     * Decides it for a visit; said again, it changes nothing.
     *
     * @throws FieldRefusal if the site makes no RO/DI water, or the visit is not due any more
     * @throws app.tankround.web.NotFound if there is no such visit
     */
    @Transactional
    public void decide(PlannedVisitId id) {
        PlannedVisitView visit = dueVisits.require(id);
        SiteView site = sites.require(visit.siteId());
        if (!isPossibleAt(site) || visit.state() != PlannedVisitState.DUE) {
            throw new FieldRefusal("visit", "loads.mixed-on-site.cannot", site.name());
        }
        int decided = jdbc.sql("""
                        insert into mixed_on_site (planned_visit_id, person_id, decided_at)
                        values (:visit, :person, :at)
                        on conflict (planned_visit_id) do nothing
                        """)
                .param("visit", id.value())
                .param("person", currentPerson.require().id().value())
                .param("at", clock.instant().atOffset(ZoneOffset.UTC))
                .update();
        if (decided == 1) {
            dueVisits.propose(
                    id,
                    proposer(id),
                    List.of(TaskView.work(messages.getMessage(
                            "loads.mixed-on-site.task", null, business.current().locale()))),
                    MINUTES);
            changes.record("planned-visit", id, "mixed-on-site", Map.of());
            events.publishEvent(new WorkMoved(List.of(id)));
        }
    }

    /** Takes it back; said again, it changes nothing. */
    @Transactional
    public void takeBack(PlannedVisitId id) {
        int back = jdbc.sql("""
                        delete from mixed_on_site m
                        using planned_visit v
                        where m.planned_visit_id = :visit and v.id = m.planned_visit_id and v.state = 'DUE'
                        """).param("visit", id.value()).update();
        if (back == 1) {
            dueVisits.withdraw(proposer(id));
            changes.record("planned-visit", id, "mixed-at-depot", Map.of());
            events.publishEvent(new WorkMoved(List.of(id)));
        }
    }

    private static UUID proposer(PlannedVisitId visit) {
        return UUID.nameUUIDFromBytes(("mixed-on-site:" + visit).getBytes(StandardCharsets.UTF_8));
    }
}
