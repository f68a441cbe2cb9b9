package app.tankround.feeds;

import app.tankround.accounts.PersonId;
import app.tankround.persistence.Sha256;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;

/** Calendars and what they told, as they are kept. */
@Component
class FeedRows {

    /** A calendar without its address. */
    record Row(UUID id, FeedKind kind, UUID subjectId, Instant madeAt) {}

    private final JdbcClient jdbc;

    FeedRows(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    void add(UUID id, FeedKind kind, UUID subject, String token, PersonId by, Instant at) {
        jdbc.sql("""
                        insert into calendar_feed (id, kind, subject_id, token_hash, made_by, made_at)
                        values (:id, :kind, :subject, :hash, :person, :at)
                        """)
                .param("id", id)
                .param("kind", kind.name())
                .param("subject", subject)
                .param("hash", Sha256.of(token))
                .param("person", by.value())
                .param("at", at.atOffset(ZoneOffset.UTC))
                .update();
    }

    /** @return whether it could still be read until now */
    boolean revoke(UUID id, Instant at) {
        return jdbc.sql("update calendar_feed set revoked_at = :at where id = :id and revoked_at is null")
                        .param("at", at.atOffset(ZoneOffset.UTC))
                        .param("id", id)
                        .update()
                > 0;
    }

    List<Row> readable() {
        return jdbc.sql("""
                        select id, kind, subject_id, made_at from calendar_feed where revoked_at is null order by made_at, id
                        """).query(FeedRows::row).list();
    }

    /** The calendar of an address, kept from being told by two at once. */
    Optional<Row> hold(String token) {
        return jdbc.sql("""
                        select id, kind, subject_id, made_at from calendar_feed
                        where token_hash = :hash and revoked_at is null
                        for update
                        """)
                .param("hash", Sha256.of(token))
                .query(FeedRows::row)
                .optional();
    }

    private static Row row(ResultSet row, int number) throws SQLException {
        return new Row(
                row.getObject("id", UUID.class),
                FeedKind.valueOf(row.getString("kind")),
                row.getObject("subject_id", UUID.class),
                row.getObject("made_at", OffsetDateTime.class).toInstant());
    }

    /** What it told of that day and later ones. */
    List<ToldEvent> told(UUID feed, LocalDate from) {
        return jdbc.sql("""
                        select id, visit_id, starts_on, starts_at, ends_at, summary, location, description, sequence, cancelled,
                            changed_at
                        from calendar_event
                        where feed_id = :feed and starts_on >= :from
                        """)
                .param("feed", feed)
                .param("from", from)
                .query(FeedRows::event)
                .list();
    }

    private static ToldEvent event(ResultSet row, int number) throws SQLException {
        @Nullable LocalTime starts = row.getObject("starts_at", LocalTime.class);
        @Nullable LocalTime ends = row.getObject("ends_at", LocalTime.class);
        return new ToldEvent(
                row.getObject("id", UUID.class),
                new FeedEvent(
                        row.getObject("visit_id", UUID.class),
                        row.getObject("starts_on", LocalDate.class),
                        starts == null || ends == null
                                ? Optional.empty()
                                : Optional.of(new FeedEvent.Span(starts, ends)),
                        row.getString("summary"),
                        Optional.ofNullable(row.getString("location")),
                        Optional.ofNullable(row.getString("description"))),
                row.getInt("sequence"),
                row.getBoolean("cancelled"),
                row.getObject("changed_at", OffsetDateTime.class).toInstant());
    }

    /** Writes down what is told now; one that was of an earlier day has a row already, and goes on from it. */
    ToldEvent tell(UUID feed, ToldEvent told) {
        FeedEvent event = told.event();
        return jdbc.sql("""
                        insert into calendar_event (id, feed_id, visit_id, starts_on, starts_at, ends_at, summary, location,
                            description, sequence, cancelled, changed_at)
                        values (:id, :feed, :visit, :day, :starts, :ends, :summary, :location, :description, :sequence, :cancelled,
                            :at)
                        on conflict (feed_id, visit_id) do update
                        set starts_on = excluded.starts_on, starts_at = excluded.starts_at, ends_at = excluded.ends_at,
                            summary = excluded.summary, location = excluded.location, description = excluded.description,
                            sequence = calendar_event.sequence + 1, cancelled = excluded.cancelled,
                            changed_at = excluded.changed_at
                        returning id, visit_id, starts_on, starts_at, ends_at, summary, location, description, sequence,
                            cancelled, changed_at
                        """)
                .param("id", told.id())
                .param("feed", feed)
                .param("visit", event.visitId())
                .param("day", event.day())
                .param("starts", event.time().map(FeedEvent.Span::starts).orElse(null))
                .param("ends", event.time().map(FeedEvent.Span::ends).orElse(null))
                .param("summary", event.summary())
                .param("location", event.location().orElse(null))
                .param("description", event.description().orElse(null))
                .param("sequence", told.sequence())
                .param("cancelled", told.cancelled())
                .param("at", told.changedAt().atOffset(ZoneOffset.UTC))
                .query(FeedRows::event)
                .single();
    }
}
