package app.tankround.accounts;

import app.tankround.persistence.SecretText;
import app.tankround.persistence.Sha256;
import java.sql.Timestamp;
import java.sql.Types;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Links that sign in once. The token is in the link only; the database keeps its hash. */
@Service
public class SignInLinks {

    /** How long a link may wait before it is used. */
    public static final Duration VALID_FOR = Duration.ofDays(7);

    private static final int TOKEN_BYTES = 24;

    private final JdbcClient jdbc;
    private final Clock clock;

    SignInLinks(JdbcClient jdbc, Clock clock) {
        this.jdbc = jdbc;
        this.clock = clock;
    }

    /** A new token that signs the person in once, within {@link #VALID_FOR}. */
    @Transactional
    public String tokenFor(PersonId person) {
        return make("SIGN_IN", person.value());
    }

    /** A new token with which the first owner sets up the business; earlier ones that were never used end. */
    @Transactional
    public String tokenForFirstOwner() {
        jdbc.sql("delete from sign_in_link where purpose = 'FIRST_OWNER' and used_at is null")
                .update();
        return make("FIRST_OWNER", null);
    }

    /** Uses up the token: the person on the first call, nothing on any other. */
    @Transactional
    public Optional<PersonId> use(String token) {
        Timestamp now = Timestamp.from(clock.instant());
        return jdbc.sql("""
                        update sign_in_link
                        set used_at = :now
                        where token_hash = :hash and purpose = 'SIGN_IN' and used_at is null and valid_until > :now
                        returning person_id
                        """)
                .param("now", now)
                .param("hash", Sha256.of(token))
                .query(UUID.class)
                .optional()
                .map(PersonId::of);
    }

    boolean isOpenForFirstOwner(String token) {
        return jdbc.sql("""
                        select count(*) from sign_in_link
                        where token_hash = :hash and purpose = 'FIRST_OWNER' and used_at is null and valid_until > :now
                        """)
                        .param("hash", Sha256.of(token))
                        .param("now", Timestamp.from(clock.instant()))
                        .query(Integer.class)
                        .single()
                > 0;
    }

    /** Uses up a first owner's token; false if it was used or never made. */
    boolean useForFirstOwner(String token) {
        return jdbc.sql("""
                        update sign_in_link
                        set used_at = :now
                        where token_hash = :hash and purpose = 'FIRST_OWNER' and used_at is null and valid_until > :now
                        """)
                        .param("hash", Sha256.of(token))
                        .param("now", Timestamp.from(clock.instant()))
                        .update()
                == 1;
    }

    private String make(String purpose, @Nullable UUID person) {
        String token = SecretText.of(TOKEN_BYTES);
        Instant now = clock.instant();
        jdbc.sql("""
                        insert into sign_in_link (token_hash, person_id, purpose, made_at, valid_until)
                        values (:hash, :person, :purpose, :made, :until)
                        """)
                .param("hash", Sha256.of(token))
                .param("person", person, Types.OTHER)
                .param("purpose", purpose)
                .param("made", Timestamp.from(now))
                .param("until", Timestamp.from(now.plus(VALID_FOR)))
                .update();
        return token;
    }
}
