package app.tankround.tablet;

import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.PersonId;
import app.tankround.clients.SiteService;
import app.tankround.followups.Followups;
import app.tankround.followups.NewFollowup;
import app.tankround.followups.Urgency;
import app.tankround.persistence.Uuids;
import app.tankround.visits.VisitId;
import app.tankround.visits.VisitService;
import app.tankround.visits.VisitView;
import app.tankround.web.Entry;
import app.tankround.web.NotFound;
import app.tankround.web.StaleVersion;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * What stands open of entries: values of two people for one field, between which somebody decides, and what was refused
 * and has not been entered again. The office is told of the first at once, of the second once the visit is finished:
 * until then whoever entered it is still there to see to it.
 */
@Service
@Transactional
public class OpenEntries {

    /** Message code of the matter that a visit with open entries is. */
    static final String MATTER = "tablet.followup.entries";

    private static final String DECIDED = "tablet.entries.decided";

    /**
     * Refused, not entered again in the same field, and nobody has looked at it. A visit that began or ended after all did so
     * whatever was refused before.
     */
    private static final String REFUSED = """
            select i.id, i.kind, i.subject_id, i.content, i.author_id, i.received_at, i.answer::text as answer
            from inbox_entry i
            where i.status = 'refused' and i.settled_at is null
                and not exists (
                    select 1
                    from inbox_entry later
                    where later.subject_id = i.subject_id
                        and (later.field = i.field
                            or i.kind in ('visit.start', 'visit.finish') and later.kind = i.kind
                                and later.status = 'applied')
                        and (later.received_at, later.sequence) > (i.received_at, i.sequence))
            """;

    /**
     * @param words why it was refused, as its author was told
     * @param body what was entered
     */
    public record RefusedEntry(
            UUID id, String kind, Optional<VisitId> visit, JsonNode body, PersonId author, Instant at, String words) {}

    private final JdbcClient jdbc;
    private final JsonMapper json;
    private final VisitService visits;
    private final SiteService sites;
    private final Followups followups;
    private final CurrentPerson currentPerson;
    private final Clock clock;

    OpenEntries(
            JdbcClient jdbc,
            JsonMapper json,
            VisitService visits,
            SiteService sites,
            Followups followups,
            CurrentPerson currentPerson,
            Clock clock) {
        this.jdbc = jdbc;
        this.json = json;
        this.visits = visits;
        this.sites = sites;
        this.followups = followups;
        this.currentPerson = currentPerson;
        this.clock = clock;
    }

    /** The newest of them first. */
    @Transactional(readOnly = true)
    public List<RefusedEntry> refused(int most) {
        return jdbc.sql(REFUSED + "order by i.received_at desc, i.sequence desc limit :most")
                .param("most", most)
                .query(this::entry)
                .list();
    }

    /** Visits with values that stand against each other, newest first. */
    @Transactional(readOnly = true)
    public List<VisitView> contested() {
        return visits.inConflict();
    }

    /** Tells the office of what stands open of visits, or that nothing does any more, after entries of them were answered. */
    void review(Collection<UUID> subjects) {
        jdbc.sql("""
                        select distinct subject_id from inbox_entry
                        where subject_id = any(cast(:subjects as uuid[])) and status in ('conflict', 'refused')
                        """)
                .param("subjects", subjects.toArray(UUID[]::new))
                .query((row, number) -> row.getObject("subject_id", UUID.class))
                .list()
                .forEach(subject -> visits.find(VisitId.of(subject)).ifPresent(this::review));
    }

    private void review(VisitView visit) {
        String topic = "entries:" + visit.id();
        long contested = visit.fields().values().stream()
                .filter(field -> !field.conflicts().isEmpty())
                .count();
        int refused = visit.finishedAt().isPresent() ? refused(visit.id()) : 0;
        if (contested == 0 && refused == 0) {
            followups.settleTopic(topic, DECIDED);
            return;
        }
        followups.open(new NewFollowup(
                MATTER,
                List.of(sites.require(visit.siteId()).name(), String.valueOf(contested), String.valueOf(refused)),
                Urgency.TODAY,
                "visit",
                visit.id().value(),
                topic,
                "/tablets"));
    }

    private int refused(VisitId visit) {
        return jdbc.sql("select count(*) from (" + REFUSED + "and i.subject_id = :visit) open_ones")
                .param("visit", visit.value())
                .query(Integer.class)
                .single();
    }

    /**
     * Somebody has looked at a refused entry: it was entered otherwise, or is not needed.
     *
     * @throws NotFound if there is no such refused entry
     */
    public void settle(UUID id, String why) {
        RefusedEntry entry = jdbc.sql("""
                        update inbox_entry i set settled_at = :now, settled_by = :by, settled_note = :why
                        where i.id = :id and i.status = 'refused' and i.settled_at is null
                        returning i.id, i.kind, i.subject_id, i.content, i.author_id, i.received_at, i.answer::text as answer
                        """)
                .param("now", clock.instant().atOffset(ZoneOffset.UTC))
                .param("by", currentPerson.require().id().value())
                .param("why", why)
                .param("id", id)
                .query(this::entry)
                .optional()
                .orElseThrow(() -> new NotFound("entry", id));
        entry.visit().flatMap(visits::find).ifPresent(this::review);
    }

    /**
     * The entry by which somebody decides between values: it writes one of them once more.
     *
     * @param seen the entry whose value counted when the person looked
     * @param chosen the entry whose value is to count
     * @throws StaleVersion if another one counts by now
     * @throws NotFound if the field or the chosen entry is not there
     */
    @Transactional(readOnly = true)
    public Entry decision(VisitId id, String key, UUID seen, UUID chosen) {
        VisitView visit = visits.require(id);
        VisitView.Field field =
                Optional.ofNullable(visit.fields().get(key)).orElseThrow(() -> new NotFound("field", key));
        if (!field.entryId().equals(seen)) {
            throw new StaleVersion("/tablets", field.body(), seen);
        }
        JsonNode body = chosen.equals(seen)
                ? field.body()
                : field.conflicts().stream()
                        .filter(conflict -> conflict.entryId().equals(chosen))
                        .map(VisitView.Conflict::body)
                        .findFirst()
                        .orElseThrow(() -> new NotFound("entry", chosen));
        return new Entry(
                Uuids.next(clock.instant()),
                field.kind(),
                Optional.of(id.value()),
                "office",
                0,
                clock.instant().atOffset(ZoneOffset.UTC),
                Duration.ZERO,
                Optional.of(field.body()),
                body,
                currentPerson.require().id().value());
    }

    private RefusedEntry entry(ResultSet row, int number) throws SQLException {
        return new RefusedEntry(
                row.getObject("id", UUID.class),
                row.getString("kind"),
                Optional.ofNullable(row.getObject("subject_id", UUID.class)).map(VisitId::of),
                json.readTree(row.getString("content")).path("body"),
                PersonId.of(row.getObject("author_id", UUID.class)),
                row.getObject("received_at", OffsetDateTime.class).toInstant(),
                json.readTree(row.getString("answer"))
                        .path("args")
                        .path("words")
                        .asString(""));
    }
}
