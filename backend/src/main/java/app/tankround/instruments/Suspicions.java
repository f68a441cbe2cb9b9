package app.tankround.instruments;

import app.tankround.accounts.PersonId;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Timestamp;
import java.sql.Types;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Suspicions, returns into use and drops of all instruments: rows are added and closed, nothing else. */
@Repository
class Suspicions {

    private static final String COLUMNS = """
            select
                s.id,
                s.instrument_id,
                s.cause,
                s.opened_at,
                s.opened_by,
                s.check_at,
                s.doubt_from,
                s.note,
                s.closed_at,
                s.closed_by,
                s.outcome,
                s.closing_check_at,
                r.returned_at,
                r.returned_by,
                r.check_at as return_check_at,
                r.reason as return_reason
            from instrument_suspicion s
            left join instrument_return r on r.suspicion_id = s.id
            """;

    private final JdbcClient jdbc;

    Suspicions(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** When somebody said that an instrument was dropped. */
    record Drop(InstrumentId instrumentId, Instant at) {}

    /**
     * What happened to an instrument beside its checks.
     *
     * @param suspicions oldest first
     * @param drops when it was dropped, oldest first
     * @param kindDrift as {@link KindDrifts#of}
     */
    record Marks(List<SuspicionView> suspicions, List<Instant> drops, Optional<Double> kindDrift) {}

    /** Oldest first. */
    List<SuspicionView> of(InstrumentId instrument) {
        return jdbc.sql(COLUMNS + " where s.instrument_id = :instrument order by s.opened_at, s.id")
                .param("instrument", instrument.value())
                .query((row, number) -> view(row))
                .list();
    }

    /** Of all instruments, oldest first. */
    List<SuspicionView> all() {
        return jdbc.sql(COLUMNS + " order by s.opened_at, s.id")
                .query((row, number) -> view(row))
                .list();
    }

    Optional<SuspicionView> find(SuspicionId id) {
        return jdbc.sql(COLUMNS + " where s.id = :id")
                .param("id", id.value())
                .query((row, number) -> view(row))
                .optional();
    }

    /** In one question, since the history of an instrument is asked for with each of its readings. */
    Map<InstrumentId, Marks> marks(Collection<InstrumentId> instruments) {
        Map<InstrumentId, Marks> found = new HashMap<>();
        jdbc.sql("""
                        select
                            i.id,
                            exists (select from instrument_suspicion s where s.instrument_id = i.id) as suspected,
                            array (
                                select d.dropped_at from instrument_drop d
                                where d.instrument_id = i.id
                                order by d.dropped_at
                            ) as drops,
                            (
                                select r.per_root_day from instrument_drift r
                                where r.instrument_id = i.id
                                order by r.position desc
                                limit 1
                            ) as kind_drift
                        from instrument i
                        where i.id = any(cast(:instruments as uuid[]))
                        """)
                .param(
                        "instruments",
                        instruments.stream().map(InstrumentId::value).toArray(UUID[]::new))
                .query(row -> {
                    InstrumentId instrument = InstrumentId.of(row.getObject("id", UUID.class));
                    found.put(
                            instrument,
                            new Marks(
                                    row.getBoolean("suspected") ? of(instrument) : List.of(),
                                    Arrays.stream((Timestamp[])
                                                    row.getArray("drops").getArray())
                                            .map(Timestamp::toInstant)
                                            .toList(),
                                    Optional.ofNullable(row.getObject("kind_drift", Double.class))));
                });
        return found;
    }

    List<Drop> drops() {
        return jdbc.sql("select instrument_id, dropped_at from instrument_drop order by dropped_at")
                .query((row, number) -> new Drop(
                        InstrumentId.of(row.getObject("instrument_id", UUID.class)), instant(row, "dropped_at")))
                .list();
    }

    void insert(SuspicionView opened) {
        jdbc.sql("""
                        insert into instrument_suspicion (
                            id, instrument_id, cause, opened_at, opened_by, check_at, doubt_from, note)
                        values (:id, :instrument, :cause, :openedAt, :openedBy, :checkAt, :doubtFrom, :note)
                        """)
                .param("id", opened.id().value())
                .param("instrument", opened.instrumentId().value())
                .param("cause", opened.cause().name())
                .param("openedAt", utc(opened.openedAt()))
                .param("openedBy", uuid(opened.openedBy()), Types.OTHER)
                .param("checkAt", utc(opened.checkAt()), Types.TIMESTAMP_WITH_TIMEZONE)
                .param("doubtFrom", utc(opened.doubtFrom()), Types.TIMESTAMP_WITH_TIMEZONE)
                .param("note", opened.note().orElse(null), Types.VARCHAR)
                .update();
    }

    void close(SuspicionId id, SuspicionView.Closing closing) {
        jdbc.sql("""
                        update instrument_suspicion
                        set closed_at = :at, closed_by = :by, outcome = :outcome, closing_check_at = :checkAt
                        where id = :id and closed_at is null
                        """)
                .param("at", utc(closing.at()))
                .param("by", uuid(closing.by()), Types.OTHER)
                .param("outcome", closing.outcome().name())
                .param("checkAt", utc(closing.checkAt()))
                .param("id", id.value())
                .update();
    }

    void putBack(UUID id, SuspicionId suspicion, SuspicionView.PutBack back) {
        jdbc.sql("""
                        insert into instrument_return (id, suspicion_id, returned_at, returned_by, check_at, reason)
                        values (:id, :suspicion, :at, :by, :checkAt, :reason)
                        """)
                .param("id", id)
                .param("suspicion", suspicion.value())
                .param("at", utc(back.at()))
                .param("by", uuid(back.by()), Types.OTHER)
                .param("checkAt", utc(back.checkAt()))
                .param("reason", back.reason().orElse(null), Types.VARCHAR)
                .update();
    }

    /** Twice at one instant is once. */
    void drop(UUID id, Drop drop, Optional<PersonId> by, Instant recordedAt) {
        jdbc.sql("""
                        insert into instrument_drop (id, instrument_id, dropped_at, reported_by, recorded_at)
                        values (:id, :instrument, :at, :by, :recordedAt)
                        on conflict (instrument_id, dropped_at) do nothing
                        """)
                .param("id", id)
                .param("instrument", drop.instrumentId().value())
                .param("at", utc(drop.at()))
                .param("by", uuid(by), Types.OTHER)
                .param("recordedAt", utc(recordedAt))
                .update();
    }

    private static SuspicionView view(ResultSet row) throws SQLException {
        return new SuspicionView(
                SuspicionId.of(row.getObject("id", UUID.class)),
                InstrumentId.of(row.getObject("instrument_id", UUID.class)),
                SuspicionCause.valueOf(row.getString("cause")),
                instant(row, "opened_at"),
                person(row, "opened_by"),
                moment(row, "check_at"),
                moment(row, "doubt_from"),
                Optional.ofNullable(row.getString("note")),
                closing(row));
    }

    private static Optional<SuspicionView.Closing> closing(ResultSet row) throws SQLException {
        if (row.getString("outcome") == null) {
            return Optional.empty();
        }
        Optional<SuspicionView.PutBack> back = row.getObject("returned_at") == null
                ? Optional.empty()
                : Optional.of(new SuspicionView.PutBack(
                        instant(row, "returned_at"),
                        person(row, "returned_by"),
                        instant(row, "return_check_at"),
                        Optional.ofNullable(row.getString("return_reason"))));
        return Optional.of(new SuspicionView.Closing(
                SuspicionOutcome.valueOf(row.getString("outcome")),
                instant(row, "closed_at"),
                person(row, "closed_by"),
                instant(row, "closing_check_at"),
                back));
    }

    private static Instant instant(ResultSet row, String column) throws SQLException {
        return row.getObject(column, OffsetDateTime.class).toInstant();
    }

    private static Optional<Instant> moment(ResultSet row, String column) throws SQLException {
        return Optional.ofNullable(row.getObject(column, OffsetDateTime.class)).map(OffsetDateTime::toInstant);
    }

    private static Optional<PersonId> person(ResultSet row, String column) throws SQLException {
        return Optional.ofNullable(row.getObject(column, UUID.class)).map(PersonId::of);
    }

    private static OffsetDateTime utc(Instant instant) {
        return instant.atOffset(ZoneOffset.UTC);
    }

    private static @Nullable OffsetDateTime utc(Optional<Instant> instant) {
        return instant.map(Suspicions::utc).orElse(null);
    }

    private static @Nullable UUID uuid(Optional<PersonId> person) {
        return person.map(PersonId::value).orElse(null);
    }
}
