package app.tankround.loads;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.BusinessSettings;
import app.tankround.accounts.ChangeLog;
import app.tankround.accounts.CurrentPerson;
import app.tankround.clients.SiteId;
import app.tankround.clients.SiteService;
import app.tankround.clients.SiteView;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.schedule.PlannedVisitState;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.schedule.TaskView;
import app.tankround.schedule.WorkMoved;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.Volume;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.ZoneOffset;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.stream.Collectors;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.context.MessageSource;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * RO/DI water that the van takes at a site which makes its own, and whose client allows it, for the stops after that, so that
 * their containers leave the depot empty. It makes the visit longer. Where a system is in quarantine, suspected or under
 * treatment nothing is filled, whatever was decided before.
 */
@Service
public class RefillOnTheWay {

    /** To lay the hose, measure the water, close and lift the containers and wipe up; own choice, no source. */
    static final int SETTING_UP_MINUTES = 10;

    /** From a stored supply, by tap or small pump; own choice, no source. */
    static final int LITRES_A_MINUTE = 5;

    private final DueVisits dueVisits;
    private final SiteService sites;
    private final WaterSystems systems;
    private final BusinessProfile business;
    private final CurrentPerson currentPerson;
    private final ChangeLog changes;
    private final ApplicationEventPublisher events;
    private final MessageSource messages;
    private final JdbcClient jdbc;
    private final Clock clock;

    RefillOnTheWay(
            DueVisits dueVisits,
            SiteService sites,
            WaterSystems systems,
            BusinessProfile business,
            CurrentPerson currentPerson,
            ChangeLog changes,
            ApplicationEventPublisher events,
            MessageSource messages,
            JdbcClient jdbc,
            Clock clock) {
        this.dueVisits = dueVisits;
        this.sites = sites;
        this.systems = systems;
        this.business = business;
        this.currentPerson = currentPerson;
        this.changes = changes;
        this.events = events;
        this.messages = messages;
        this.jdbc = jdbc;
        this.clock = clock;
    }

    /** Of these visits those for which that was decided, with the litres. */
    @Transactional(readOnly = true)
    public Map<PlannedVisitId, BigDecimal> among(Collection<PlannedVisitId> visits) {
        record Decided(PlannedVisitId visit, BigDecimal litres) {}
        return jdbc
                .sql("select planned_visit_id, litres from refill_on_the_way where planned_visit_id = any(:visits)")
                .param("visits", visits.stream().map(PlannedVisitId::value).toArray(UUID[]::new))
                .query((row, number) -> new Decided(
                        PlannedVisitId.of(row.getObject("planned_visit_id", UUID.class)), row.getBigDecimal("litres")))
                .list()
                .stream()
                .collect(Collectors.toMap(Decided::visit, Decided::litres));
    }

    /** How much longer a visit is at which so much is filled. */
    static int minutes(BigDecimal litres) {
        return SETTING_UP_MINUTES
                + litres.divide(BigDecimal.valueOf(LITRES_A_MINUTE), 0, RoundingMode.CEILING)
                        .intValueExact();
    }

    /** Whether any system that is looked after there shares nothing with others. */
    @Transactional(readOnly = true)
    public boolean isSickAt(SiteId site) {
        return systems.bySite(site).stream()
                .anyMatch(system -> system.active() && system.infectionClass().isSick());
    }

    /**
     * Decides it for a visit; said again as it was, it changes nothing.
     *
     * @param litres above 0, up to what the site allows
     * @throws FieldRefusal if the site allows none, or less, a system there is sick, the visit is not due any more, or somebody
     *     else decided on another amount meanwhile
     * @throws app.tankround.web.NotFound if there is no such visit
     */
    @Transactional
    public void decide(PlannedVisitId id, BigDecimal litres) {
        PlannedVisitView visit = dueVisits.require(id);
        SiteView site = sites.require(visit.siteId());
        double most = site.refill().map(Volume::litres).orElse(0.0);
        if (most == 0 || visit.state() != PlannedVisitState.DUE) {
            throw new FieldRefusal("visit", "loads.refill.cannot", site.name());
        }
        if (isSickAt(site.id())) {
            throw new FieldRefusal("visit", "loads.refill.sick", site.name());
        }
        LoadWords words = words();
        if (litres.signum() <= 0 || litres.doubleValue() > most) {
            throw new FieldRefusal(
                    "visit",
                    "loads.refill.out-of-range",
                    litres.toPlainString(),
                    site.name(),
                    words.volume(Volume.ofLitres(most)));
        }
        int decided = jdbc.sql("""
                        insert into refill_on_the_way (planned_visit_id, litres, person_id, decided_at)
                        values (:visit, :litres, :person, :at)
                        on conflict (planned_visit_id) do nothing
                        """)
                .param("visit", id.value())
                .param("litres", litres)
                .param("person", currentPerson.require().id().value())
                .param("at", clock.instant().atOffset(ZoneOffset.UTC))
                .update();
        if (decided == 1) {
            dueVisits.propose(
                    id,
                    proposer(id),
                    List.of(TaskView.work(words.word("loads.refill.task", words.litres(litres)))),
                    minutes(litres));
            changes.record("planned-visit", id, "refill-on-the-way", Map.of("litres", litres.toPlainString()));
            events.publishEvent(new WorkMoved(List.of(id)));
            return;
        }
        BigDecimal before = among(List.of(id)).getOrDefault(id, BigDecimal.ZERO);
        if (before.compareTo(litres) != 0) {
            throw new FieldRefusal("visit", "loads.refill.decided", site.name(), words.litres(before));
        }
    }

    /** Takes it back; said again, it changes nothing. */
    @Transactional
    public void takeBack(PlannedVisitId id) {
        int back = jdbc.sql("""
                        delete from refill_on_the_way r
                        using planned_visit v
                        where r.planned_visit_id = :visit and v.id = r.planned_visit_id and v.state = 'DUE'
                        """).param("visit", id.value()).update();
        if (back == 1) {
            dueVisits.withdraw(proposer(id));
            changes.record("planned-visit", id, "filled-at-depot", Map.of());
            events.publishEvent(new WorkMoved(List.of(id)));
        }
    }

    private LoadWords words() {
        BusinessSettings settings = business.current();
        return LoadWords.of(settings, messages, settings.locale());
    }

    private static UUID proposer(PlannedVisitId visit) {
        return UUID.nameUUIDFromBytes(("refill-on-the-way:" + visit).getBytes(StandardCharsets.UTF_8));
    }
}
