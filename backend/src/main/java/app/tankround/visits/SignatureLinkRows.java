package app.tankround.visits;

import app.tankround.accounts.PersonId;
import app.tankround.persistence.Sha256;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.HexFormat;
import java.util.Optional;
import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;

/** The links as they are kept. */
@Component
class SignatureLinkRows {

    private static final String COLUMNS =
            "select id, visit_id, made_by, made_at, valid_until, shown_hash, ended_at, used_at from visit_signature_link ";

    private final JdbcClient jdbc;

    SignatureLinkRows(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    Optional<SignatureLink> find(String token, Instant now) {
        return jdbc.sql(COLUMNS + """
                        where token_hash = :hash
                            or id = (select link_id from visit_signature_token where token_hash = :hash)
                        """)
                .param("hash", Sha256.of(token))
                .query((row, number) -> link(row, now))
                .optional();
    }

    Optional<SignatureLink> find(UUID id, Instant now) {
        return jdbc.sql(COLUMNS + "where id = :id")
                .param("id", id)
                .query((row, number) -> link(row, now))
                .optional();
    }

    /** A further token of a link. */
    void addToken(UUID link, String token) {
        jdbc.sql("insert into visit_signature_token (token_hash, link_id) values (:hash, :link)")
                .param("hash", Sha256.of(token))
                .param("link", link)
                .update();
    }

    /** The newest link of a visit, as far as it can still be used. */
    Optional<SignatureLink> open(VisitId visit, Instant now) {
        return jdbc.sql(COLUMNS + "where visit_id = :visit and used_at is null and ended_at is null")
                .param("visit", visit.value())
                .query((row, number) -> link(row, now))
                .optional()
                .filter(SignatureLink::isOpen);
    }

    void endOpen(VisitId visit, Instant now) {
        jdbc.sql("""
                        update visit_signature_link
                        set ended_at = :now
                        where visit_id = :visit and used_at is null and ended_at is null
                        """)
                .param("visit", visit.value())
                .param("now", now.atOffset(ZoneOffset.UTC))
                .update();
    }

    void add(SignatureLink link, String token) {
        jdbc.sql("""
                        insert into visit_signature_link
                            (id, token_hash, visit_id, shown_hash, made_by, made_at, valid_until)
                        values (:id, :hash, :visit, :shown, :person, :made, :until)
                        """)
                .param("id", link.id())
                .param("hash", Sha256.of(token))
                .param("visit", link.visit().value())
                .param("shown", HexFormat.of().parseHex(link.shown()))
                .param("person", link.madeBy().value())
                .param("made", link.madeAt().atOffset(ZoneOffset.UTC))
                .param("until", link.validUntil().atOffset(ZoneOffset.UTC))
                .update();
    }

    /** Uses it up for an entry; the caller has seen, under the visit's lock, that it is open. */
    void use(UUID link, UUID entry, Instant now) {
        jdbc.sql("update visit_signature_link set used_at = :now, entry_id = :entry where id = :id")
                .param("now", now.atOffset(ZoneOffset.UTC))
                .param("entry", entry)
                .param("id", link)
                .update();
    }

    /** Whether the link was used up for that entry, which nobody but its holder can bring about. */
    boolean isUsedFor(UUID link, VisitId visit, UUID entry) {
        return jdbc.sql("""
                        select exists (
                            select 1 from visit_signature_link where id = :id and visit_id = :visit and entry_id = :entry)
                        """)
                .param("id", link)
                .param("visit", visit.value())
                .param("entry", entry)
                .query(Boolean.class)
                .single();
    }

    private static SignatureLink link(ResultSet row, Instant now) throws SQLException {
        Instant until = row.getObject("valid_until", OffsetDateTime.class).toInstant();
        SignatureLink.State state;
        if (row.getObject("used_at") != null) {
            state = SignatureLink.State.USED;
        } else if (row.getObject("ended_at") != null) {
            state = SignatureLink.State.REPLACED;
        } else {
            state = until.isAfter(now) ? SignatureLink.State.OPEN : SignatureLink.State.EXPIRED;
        }
        return new SignatureLink(
                row.getObject("id", UUID.class),
                VisitId.of(row.getObject("visit_id", UUID.class)),
                PersonId.of(row.getObject("made_by", UUID.class)),
                row.getObject("made_at", OffsetDateTime.class).toInstant(),
                until,
                HexFormat.of().formatHex(row.getBytes("shown_hash")),
                state);
    }
}
