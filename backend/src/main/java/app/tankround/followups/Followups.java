package app.tankround.followups;

import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.PersonId;
import app.tankround.persistence.Uuids;
import app.tankround.web.NotFound;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Types;
import java.time.Clock;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.Collection;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import tools.jackson.databind.json.JsonMapper;

/** What needs somebody, until somebody settles it. */
@Service
@Transactional
public class Followups {

    private static final String[] SOONEST_FIRST =
            Arrays.stream(Urgency.values()).map(Urgency::name).toArray(String[]::new);

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
                                when array_position(cast(:urgencies as text[]), followup.urgency)
                                    < array_position(cast(:urgencies as text[]), excluded.urgency)
                                    then followup.urgency
                                else excluded.urgency
                            end
                        returning id
                        """)
                .param("urgencies", SOONEST_FIRST)
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

    /**
     * A person settles one.
     *
     * @param why in words, or the message code of what ended it
     * @param page where to see what ended it
     * @return whether it was open until now; a settled one stays as it is
     * @throws NotFound if there is none
     */
    public boolean settle(FollowupId id, String why, Optional<String> page) {
        boolean settled = settleWhere("id = :which", id.value(), why, page) > 0;
        if (!settled) {
            require(id);
        }
        return settled;
    }

    /** Settles the open one of a topic, if there is one. */
    public void settleTopic(String topic, String note) {
        settleTopics(List.of(topic), note);
    }

    /** Settles the open one of each topic that has one. */
    public void settleTopics(Collection<String> topics, String note) {
        settleWhere("topic = any(cast(:which as text[]))", topics.toArray(String[]::new), note, Optional.empty());
    }

    private int settleWhere(String condition, Object which, String why, Optional<String> page) {
        return jdbc.sql("""
                        update followup
                        set settled_at = :at, settled_by = :person, settled_note = :why, settled_page = :page
                        where settled_at is null and\s""" + condition)
                .param("at", clock.instant().atOffset(ZoneOffset.UTC))
                .param("person", currentPerson.id().map(PersonId::value).orElse(null), Types.OTHER)
                .param("why", why)
                .param("page", page.orElse(null))
                .param("which", which)
                .update();
    }

    /** All open ones: the most urgent first, of these what is about water before the rest, then the oldest. */
    @Transactional(readOnly = true)
    public List<FollowupView> open() {
        return select("""
                        where settled_at is null
                        order by
                            array_position(cast(:urgencies as text[]), urgency),
                            subject_kind <> 'water-system',
                            opened_at,
                            id
                        """).param("urgencies", SOONEST_FIRST).query(this::view).list();
    }

    /** The last ones that were settled, newest first. */
    @Transactional(readOnly = true)
    public List<FollowupView> settled(int most) {
        return select("where settled_at is not null order by settled_at desc, id desc limit :most")
                .param("most", most)
                .query(this::view)
                .list();
    }

    /** What was settled of a topic, newest first. */
    @Transactional(readOnly = true)
    public List<FollowupView> settledOf(String topic) {
        return select("where settled_at is not null and topic = :topic order by settled_at desc, id desc")
                .param("topic", topic)
                .query(this::view)
                .list();
    }

    /** @throws NotFound if there is none */
    @Transactional(readOnly = true)
    public FollowupView require(FollowupId id) {
        return select("where id = :id")
                .param("id", id.value())
                .query(this::view)
                .optional()
                .orElseThrow(() -> new NotFound("followup", id));
    }

    private JdbcClient.StatementSpec select(String which) {
        return jdbc.sql("""
                        select id, code, args::text as args, urgency, subject_kind, subject_id, topic, page, opened_at,
                            settled_at, settled_by, settled_note, settled_page
                        from followup
                        """ + which);
    }

    private FollowupView view(ResultSet row, int number) throws SQLException {
        return new FollowupView(
                FollowupId.of(row.getObject("id", UUID.class)),
                row.getString("code"),
                Arrays.asList(json.readValue(row.getString("args"), String[].class)),
                Urgency.valueOf(row.getString("urgency")),
                row.getString("subject_kind"),
                row.getObject("subject_id", UUID.class),
                row.getString("topic"),
                row.getString("page"),
                row.getObject("opened_at", OffsetDateTime.class).toInstant(),
                settled(row));
    }

    private static Optional<FollowupView.Settled> settled(ResultSet row) throws SQLException {
        @Nullable OffsetDateTime at = row.getObject("settled_at", OffsetDateTime.class);
        if (at == null) {
            return Optional.empty();
        }
        return Optional.of(new FollowupView.Settled(
                at.toInstant(),
                Optional.ofNullable(row.getObject("settled_by", UUID.class)).map(PersonId::of),
                Objects.requireNonNullElse(row.getString("settled_note"), ""),
                Optional.ofNullable(row.getString("settled_page"))));
    }
}
