package app.tankround.documents;

import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.PersonId;
import app.tankround.persistence.Sha256;
import app.tankround.persistence.Uuids;
import app.tankround.web.NotFound;
import java.sql.Timestamp;
import java.sql.Types;
import java.time.Clock;
import java.util.Collection;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Keeps bytes in the database with their SHA-256, so that every instance and every backup has them. */
@Service
public class FileStore {

    private final JdbcClient jdbc;
    private final Clock clock;
    private final CurrentPerson currentPerson;

    FileStore(JdbcClient jdbc, Clock clock, CurrentPerson currentPerson) {
        this.jdbc = jdbc;
        this.clock = clock;
        this.currentPerson = currentPerson;
    }

    @Transactional
    public FileId store(String name, String mediaType, byte[] content) {
        FileId id = FileId.of(Uuids.next(clock.instant()));
        store(id, name, mediaType, content);
        return id;
    }

    /** Stores under an id that the sender made. Storing under the same id again keeps what is there. */
    @Transactional
    public void store(FileId id, String name, String mediaType, byte[] content) {
        jdbc.sql("""
                        insert into stored_file
                            (id, name, media_type, sha256, size_bytes, content, stored_by, stored_at)
                        values (:id, :name, :type, :hash, :size, :content, :person, :now)
                        on conflict (id) do nothing
                        """)
                .param("id", id.value())
                .param("name", name)
                .param("type", mediaType)
                .param("hash", Sha256.of(content))
                .param("size", content.length)
                .param("content", content)
                .param("person", currentPerson.id().map(PersonId::value).orElse(null), Types.OTHER)
                .param("now", Timestamp.from(clock.instant()))
                .update();
    }

    public boolean exists(FileId id) {
        return jdbc.sql("select count(*) from stored_file where id = :id")
                        .param("id", id.value())
                        .query(Integer.class)
                        .single()
                > 0;
    }

    public Optional<StoredFile> find(FileId id) {
        return jdbc.sql("select name, media_type, content, stored_at from stored_file where id = :id")
                .param("id", id.value())
                .query((row, number) -> new StoredFile(
                        id,
                        row.getString("name"),
                        row.getString("media_type"),
                        row.getBytes("content"),
                        row.getTimestamp("stored_at").toInstant()))
                .optional();
    }

    public StoredFile require(FileId id) {
        return find(id).orElseThrow(() -> new NotFound("file", id));
    }

    /** Ids without a file are left out of the answer. */
    public Set<UUID> stored(Collection<UUID> ids) {
        if (ids.isEmpty()) {
            return Set.of();
        }
        return Set.copyOf(jdbc.sql("select id from stored_file where id in (:ids)")
                .param("ids", ids)
                .query(UUID.class)
                .list());
    }
}
