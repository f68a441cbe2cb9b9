package app.tankround.followups;

import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.PersonId;
import app.tankround.persistence.Uuids;
import java.sql.Types;
import java.time.Clock;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.Collection;
import java.util.List;
import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import tools.jackson.databind.json.JsonMapper;

/** What needs somebody, until somebody settles it. */
@Service
@Transactional
public class Followups {

    private final JdbcClient jdbc;
    private final JsonMapper json;
    private final CurrentPerson currentPerson;
    private final Clock clock;

    Followups(JdbcClient jdbc, JsonMapper json, CurrentPerson currentPerson, Clock clock) {
        this.jdbc = jdbc;
        this.json = json;
        this.currentPerson = currentPerson;
        this.clock = clock;
    }

    /**
     * Opens a matter. Where one is open for the same topic, that one takes over the new words and the greater urgency
     * instead.
     *
     * @return the open one
     */
    public FollowupId open(NewFollowup opened) {
        return jdbc.sql("""
                        insert into followup (
                            id, code, args, urgency, subject_kind, subject_id, topic, page, opened_at)
                        values (:id, :code, cast(:args as jsonb), :urgency, :kind, :subject, :topic, :page, :at)
                        on conflict (topic) where settled_at is null do update
                        set code = excluded.code,
                            args = excluded.args,
                            page = excluded.page,
                            urgency = case
                                when 'NOW' in (followup.urgency, excluded.urgency) then 'NOW'
                                when 'TODAY' in (followup.urgency, excluded.urgency) then 'TODAY'
                                else 'SOON'
                            end
                        returning id
                        """)
                .param("id", Uuids.next(clock.instant()))
                .param("code", opened.code())
                .param("args", json.writeValueAsString(opened.args()))
                .param("urgency", opened.urgency().name())
                .param("kind", opened.subjectKind())
                .param("subject", opened.subjectId())
                .param("topic", opened.topic())
                .param("page", opened.page())
                .param("at", clock.instant().atOffset(ZoneOffset.UTC))
                .query((row, number) -> FollowupId.of(row.getObject("id", UUID.class)))
                .single();
    }

    /** Settles one; settling it again changes nothing. */
    public void settle(FollowupId id, String note) {
        settleWhere("id = :which", id.value(), note);
    }

    /** Settles the open one of a topic, if there is one. */
    public void settleTopic(String topic, String note) {
        settleTopics(List.of(topic), note);
    }

    /** Settles the open one of each topic that has one. */
    public void settleTopics(Collection<String> topics, String note) {
        settleWhere("topic = any(cast(:which as text[]))", topics.toArray(String[]::new), note);
    }

    private void settleWhere(String condition, Object which, String note) {
        jdbc.sql("""
                        update followup
                        set settled_at = :at, settled_by = :person, settled_note = :note
                        where settled_at is null and\s""" + condition)
                .param("at", clock.instant().atOffset(ZoneOffset.UTC))
                .param("person", currentPerson.id().map(PersonId::value).orElse(null), Types.OTHER)
                .param("note", note)
                .param("which", which)
                .update();
    }

    /** All open ones, the most urgent first, then the oldest. */
    @Transactional(readOnly = true)
    public List<FollowupView> open() {
        return jdbc.sql("""
                        select id, code, args::text as args, urgency, subject_kind, subject_id, topic, page, opened_at
                        from followup
                        where settled_at is null
                        order by array_position(array['NOW', 'TODAY', 'SOON'], urgency), opened_at, id
                        """)
                .query((row, number) -> new FollowupView(
                        FollowupId.of(row.getObject("id", UUID.class)),
                        row.getString("code"),
                        Arrays.asList(json.readValue(row.getString("args"), String[].class)),
                        Urgency.valueOf(row.getString("urgency")),
                        row.getString("subject_kind"),
                        row.getObject("subject_id", UUID.class),
                        row.getString("topic"),
                        row.getString("page"),
                        row.getObject("opened_at", OffsetDateTime.class).toInstant()))
                .list();
    }
}
