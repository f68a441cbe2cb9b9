package app.tankround.accounts;

import app.tankround.persistence.SecretText;
import app.tankround.persistence.Sha256;
import app.tankround.persistence.Uuids;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import app.tankround.web.TextInput;
import java.security.MessageDigest;
import java.sql.Timestamp;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * Passwords that a person makes for other programs, each with a name of its own and good until it is revoked. They open
 * the calculations only, never the pages.
 *
 * <p>The secret is 160 random bits, so guessing is hopeless however fast it is tried, and a fast hash is enough to keep
 * it: what Argon2 slows down are guesses at passwords that people think up. That keeps a wrong attempt cheap, too.
 */
@Service
public class ApplicationPasswords {

    /** The most that one person may have at a time. */
    public static final int MOST_PER_PERSON = 20;

    private static final int LONGEST_NAME = 60;
    private static final int SECRET_BYTES = 20;

    /** The last use is kept no finer, so that reading does not write each time. */
    private static final Duration LAST_USE_STEP = Duration.ofMinutes(1);

    /** An application password without its secret, which nobody can read again. */
    public record Kept(UUID id, String name, Instant madeAt, Optional<Instant> lastUsedAt) {}

    /**
     * A new application password.
     *
     * @param secret shown this once
     */
    public record Made(UUID id, String name, Instant madeAt, String secret) {}

    private record Stored(UUID id, UUID personId, byte[] hash) {}

    private final JdbcClient jdbc;
    private final Persons persons;
    private final ChangeLog changeLog;
    private final Clock clock;

    ApplicationPasswords(JdbcClient jdbc, Persons persons, ChangeLog changeLog, Clock clock) {
        this.jdbc = jdbc;
        this.persons = persons;
        this.changeLog = changeLog;
        this.clock = clock;
    }

    /** Those of a person, oldest first. */
    public List<Kept> of(PersonId person) {
        return jdbc.sql("""
                        select id, name, made_at, last_used_at from application_password
                        where person_id = :person
                        order by made_at, id
                        """)
                .param("person", person.value())
                .query((row, number) -> new Kept(
                        row.getObject("id", UUID.class),
                        row.getString("name"),
                        row.getTimestamp("made_at").toInstant(),
                        Optional.ofNullable(row.getTimestamp("last_used_at")).map(Timestamp::toInstant)))
                .list();
    }

    /**
     * Makes one.
     *
     * @param name what it is for, 1 to 60 characters
     * @throws FieldRefusal for a name that is empty, too long or taken, and beyond {@value #MOST_PER_PERSON}
     */
    @Transactional
    public Made make(PersonId person, String name) {
        String checked = TextInput.required("name", name, LONGEST_NAME);
        List<Kept> kept = of(person);
        if (kept.stream().anyMatch(each -> each.name().equals(checked))) {
            throw new FieldRefusal("name", "accounts.app-password.name-taken", checked);
        }
        if (kept.size() >= MOST_PER_PERSON) {
            throw new FieldRefusal("name", "accounts.app-password.too-many", kept.size(), MOST_PER_PERSON);
        }
        String secret = SecretText.of(SECRET_BYTES);
        Instant now = clock.instant();
        UUID id = Uuids.next(now);
        jdbc.sql("""
                        insert into application_password (id, person_id, name, secret_hash, made_at)
                        values (:id, :person, :name, :hash, :made)
                        """)
                .param("id", id)
                .param("person", person.value())
                .param("name", checked)
                .param("hash", Sha256.of(secret))
                .param("made", Timestamp.from(now))
                .update();
        changeLog.record("person", person, "application-password-made", Map.of("name", checked));
        return new Made(id, checked, now, secret);
    }

    /** Ends one of the person's; @throws NotFound if they have none of that id. */
    @Transactional
    public void revoke(PersonId person, UUID id) {
        String name = jdbc.sql("delete from application_password where id = :id and person_id = :person returning name")
                .param("id", id)
                .param("person", person.value())
                .query(String.class)
                .optional()
                .orElseThrow(() -> new NotFound("application-password", id));
        changeLog.record("person", person, "application-password-revoked", Map.of("name", name));
    }

    /** Who signs in with this name and secret; nobody if they do not belong together or the person has left. */
    @Transactional
    Optional<SignedInPerson> signIn(String signInName, String secret) {
        // Nobody's name holds what the database cannot.
        if (signInName.indexOf('\0') >= 0) {
            return Optional.empty();
        }
        byte[] given = Sha256.of(secret);
        Optional<Stored> used = jdbc
                .sql("""
                        select a.id, a.person_id, a.secret_hash from application_password a
                        join person p on p.id = a.person_id
                        where p.sign_in_name = :name and p.active
                        """)
                .param("name", signInName.strip().toLowerCase(Locale.ROOT))
                .query((row, number) -> new Stored(
                        row.getObject("id", UUID.class),
                        row.getObject("person_id", UUID.class),
                        row.getBytes("secret_hash")))
                .list()
                .stream()
                .filter(stored -> MessageDigest.isEqual(stored.hash(), given))
                .findFirst();
        used.ifPresent(stored -> recordUse(stored.id()));
        return used.flatMap(stored -> persons.findById(PersonId.of(stored.personId())))
                .map(person -> SignedInPerson.of(person).forSession());
    }

    private void recordUse(UUID id) {
        Instant now = clock.instant();
        jdbc.sql("""
                        update application_password set last_used_at = :now
                        where id = :id and (last_used_at is null or last_used_at < :before)
                        """)
                .param("now", Timestamp.from(now))
                .param("id", id)
                .param("before", Timestamp.from(now.minus(LAST_USE_STEP)))
                .update();
    }
}
