package app.tankround.documents;

import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.PersonId;
import app.tankround.persistence.Uuids;
import java.sql.Timestamp;
import java.sql.Types;
import java.time.Clock;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Every version that was made of a document. None is ever replaced. */
@Service
public class DocumentVersions {

    private final JdbcClient jdbc;
    private final Clock clock;
    private final CurrentPerson currentPerson;

    DocumentVersions(JdbcClient jdbc, Clock clock, CurrentPerson currentPerson) {
        this.jdbc = jdbc;
        this.clock = clock;
        this.currentPerson = currentPerson;
    }

    /** The number that the next version will carry, so that it can be printed on it; holds it for this transaction. */
    @Transactional
    public int nextNumber(String kind, UUID subjectId) {
        jdbc.sql("select pg_advisory_xact_lock(hashtextextended(:key, 0))")
                .param("key", kind + "/" + subjectId)
                .query((row, number) -> true)
                .single();
        return jdbc.sql("""
                        select coalesce(max(number), 0) + 1 from document_version
                        where kind = :kind and subject_id = :subject
                        """)
                .param("kind", kind)
                .param("subject", subjectId)
                .query(Integer.class)
                .single();
    }

    /**
     * Adds the next version.
     *
     * @param kind such as {@code service-report}
     * @return its number, from 1
     */
    @Transactional
    public int add(String kind, UUID subjectId, FileId file) {
        int number = nextNumber(kind, subjectId);
        Instant now = clock.instant();
        jdbc.sql("""
                        insert into document_version (id, kind, subject_id, number, file_id, made_by, made_at)
                        values (:id, :kind, :subject, :number, :file, :person, :now)
                        """)
                .param("id", Uuids.next(now))
                .param("kind", kind)
                .param("subject", subjectId)
                .param("number", number)
                .param("file", file.value())
                .param("person", currentPerson.id().map(PersonId::value).orElse(null), Types.OTHER)
                .param("now", Timestamp.from(now))
                .update();
        return number;
    }

    public Optional<DocumentVersionView> latest(String kind, UUID subjectId) {
        return all(kind, subjectId).stream().findFirst();
    }

    /** All versions, newest first. */
    public List<DocumentVersionView> all(String kind, UUID subjectId) {
        return jdbc.sql("""
                        select d.id, d.number, d.file_id, coalesce(p.name, '') as made_by, d.made_at
                        from document_version d
                        left join person p on p.id = d.made_by
                        where d.kind = :kind and d.subject_id = :subject
                        order by d.number desc
                        """)
                .param("kind", kind)
                .param("subject", subjectId)
                .query((row, number) -> new DocumentVersionView(
                        DocumentVersionId.of(row.getObject("id", UUID.class)),
                        row.getInt("number"),
                        FileId.of(row.getObject("file_id", UUID.class)),
                        row.getString("made_by"),
                        row.getTimestamp("made_at").toInstant()))
                .list();
    }
}
