package app.tankround.visits;

import app.tankround.accounts.PersonId;
import app.tankround.clients.SiteId;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Types;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;

/** The tables of those who are alone somewhere. */
@Component
class AloneRows {

    private static final String STAYS = """
            select id, site_id, person_id, because, checked_in_at, checked_in_by, latest_return, checked_out_at,
                checked_out_by, answered_at, answered_by
            from alone_stay
            """;

    private final JdbcClient jdbc;

    AloneRows(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    Optional<StayView> find(StayId id) {
        return where("where id = :id", Map.of("id", id.value())).stream().findFirst();
    }

    /** Whoever is in, whose time is up first. */
    List<StayView> open() {
        return where("where checked_out_at is null order by latest_return, id", Map.of());
    }

    List<StayView> lately(Instant since) {
        return where(
                "where checked_out_at >= :since order by checked_out_at desc limit 50", Map.of("since", utc(since)));
    }

    /** Of whom somebody is to be told: the next person, or again whoever said to see to it. */
    List<StayView> due(Instant now) {
        return where(
                "where checked_out_at is null and next_call_at <= :now order by next_call_at, id",
                Map.of("now", utc(now)));
    }

    List<StayView> where(String condition, Map<String, ?> params) {
        return jdbc.sql(STAYS + condition).params(params).query(this::stay).list();
    }

    void insert(StayView stay) {
        jdbc.sql("""
                        insert into alone_stay (id, site_id, person_id, because, checked_in_at, checked_in_by,
                            latest_return, next_call_at, checked_out_at, checked_out_by)
                        values (:id, :site, :person, :because, :at, :by, :until, :until, :out, :outBy)
                        """)
                .param("id", stay.id().value())
                .param("site", stay.siteId().value())
                .param("person", stay.personId().value())
                .param("because", stay.because())
                .param("at", utc(stay.checkedInAt()))
                .param("by", stay.checkedInBy().value())
                .param("until", utc(stay.latestReturn()))
                .param("out", stay.checkedOutAt().map(AloneRows::utc).orElse(null), Types.TIMESTAMP_WITH_TIMEZONE)
                .param("outBy", stay.checkedOutBy().map(PersonId::value).orElse(null), Types.OTHER)
                .update();
    }

    /** Another latest return; whoever had said to see to it is free of it. */
    void extend(StayId id, Instant until) {
        jdbc.sql("""
                        update alone_stay
                        set latest_return = :until, next_call_at = :until, answered_at = null, answered_by = null
                        where id = :id
                        """).param("until", utc(until)).param("id", id.value()).update();
    }

    void checkOut(StayId id, Instant at, PersonId by) {
        jdbc.sql("update alone_stay set checked_out_at = :at, checked_out_by = :by where id = :id")
                .param("at", utc(at))
                .param("by", by.value())
                .param("id", id.value())
                .update();
    }

    /** @param again when whoever sees to it is asked once more */
    void answer(StayId id, Instant at, PersonId by, Instant again) {
        jdbc.sql("""
                        update alone_stay set answered_at = :at, answered_by = :by, next_call_at = :again
                        where id = :id
                        """)
                .param("at", utc(at))
                .param("again", utc(again))
                .param("by", by.value())
                .param("id", id.value())
                .update();
    }

    /** Nobody sees to it any more. */
    void release(StayId id, Instant now) {
        jdbc.sql("update alone_stay set answered_at = null, answered_by = null, next_call_at = :now where id = :id")
                .param("now", utc(now))
                .param("id", id.value())
                .update();
    }

    void called(StayId id, int number, PersonId person, Instant at, boolean mailed) {
        jdbc.sql("""
                        insert into alone_call (stay_id, number, person_id, called_at, mailed)
                        values (:stay, :number, :person, :at, :mailed)
                        """)
                .param("stay", id.value())
                .param("number", number)
                .param("person", person.value())
                .param("at", utc(at))
                .param("mailed", mailed)
                .update();
    }

    void nextCall(StayId id, Instant at) {
        jdbc.sql("update alone_stay set next_call_at = :at where id = :id")
                .param("at", utc(at))
                .param("id", id.value())
                .update();
    }

    private List<StayView.Call> calls(UUID stay) {
        return jdbc.sql("select person_id, called_at, mailed from alone_call where stay_id = :stay order by number")
                .param("stay", stay)
                .query((row, number) -> new StayView.Call(
                        PersonId.of(row.getObject("person_id", UUID.class)),
                        row.getObject("called_at", OffsetDateTime.class).toInstant(),
                        row.getBoolean("mailed")))
                .list();
    }

    private StayView stay(ResultSet row, int number) throws SQLException {
        UUID id = row.getObject("id", UUID.class);
        return new StayView(
                StayId.of(id),
                SiteId.of(row.getObject("site_id", UUID.class)),
                PersonId.of(row.getObject("person_id", UUID.class)),
                row.getString("because"),
                row.getObject("checked_in_at", OffsetDateTime.class).toInstant(),
                PersonId.of(row.getObject("checked_in_by", UUID.class)),
                row.getObject("latest_return", OffsetDateTime.class).toInstant(),
                Optional.ofNullable(row.getObject("checked_out_at", OffsetDateTime.class))
                        .map(OffsetDateTime::toInstant),
                Optional.ofNullable(row.getObject("checked_out_by", UUID.class)).map(PersonId::of),
                Optional.ofNullable(row.getObject("answered_at", OffsetDateTime.class))
                        .map(OffsetDateTime::toInstant),
                Optional.ofNullable(row.getObject("answered_by", UUID.class)).map(PersonId::of),
                calls(id));
    }

    private static OffsetDateTime utc(Instant instant) {
        return instant.atOffset(ZoneOffset.UTC);
    }
}
