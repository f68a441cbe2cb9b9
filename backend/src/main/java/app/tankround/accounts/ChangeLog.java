package app.tankround.accounts;

import java.sql.Timestamp;
import java.sql.Types;
import java.time.Clock;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;
import tools.jackson.databind.json.JsonMapper;

/** Who changed what, and when. Lines are only ever added, in the transaction of the change itself. */
@Service
public class ChangeLog {

    /** One line of the log. */
    public record Line(Instant changedAt, String personName, String action, String detail) {}

    private final JdbcClient jdbc;
    private final JsonMapper json;
    private final Clock clock;
    private final CurrentPerson currentPerson;

    ChangeLog(JdbcClient jdbc, JsonMapper json, Clock clock, CurrentPerson currentPerson) {
        this.jdbc = jdbc;
        this.json = json;
        this.clock = clock;
        this.currentPerson = currentPerson;
    }

    /**
     * Adds a line for the signed-in person, or for the program itself where nobody is signed in.
     *
     * @param subjectKind what was changed, such as {@code client}
     * @param action a code such as {@code added} or {@code changed}
     */
    @Transactional(propagation = Propagation.MANDATORY)
    public void record(String subjectKind, Object subjectId, String action, Map<String, ?> detail) {
        jdbc.sql("""
                        insert into change_log (changed_at, person_id, subject_kind, subject_id, action, detail)
                        values (:at, :person, :kind, :subject, :action, cast(:detail as jsonb))
                        """)
                .param("at", Timestamp.from(clock.instant()))
                .param("person", currentPerson.id().map(PersonId::value).orElse(null), Types.OTHER)
                .param("kind", subjectKind)
                .param("subject", subjectId.toString())
                .param("action", action)
                .param("detail", json.writeValueAsString(detail))
                .update();
    }

    /** The lines about one subject, newest first. */
    public List<Line> of(String subjectKind, UUID subjectId) {
        return jdbc.sql("""
                        select c.changed_at, coalesce(p.name, '') as person_name, c.action, c.detail::text as detail
                        from change_log c
                        left join person p on p.id = c.person_id
                        where c.subject_kind = :kind and c.subject_id = :subject
                        order by c.id desc
                        """)
                .param("kind", subjectKind)
                .param("subject", subjectId.toString())
                .query((row, number) -> new Line(
                        row.getTimestamp("changed_at").toInstant(),
                        row.getString("person_name"),
                        row.getString("action"),
                        row.getString("detail")))
                .list();
    }
}
