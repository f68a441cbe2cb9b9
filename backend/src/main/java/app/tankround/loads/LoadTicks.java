package app.tankround.loads;

import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.PersonId;
import app.tankround.persistence.Uuids;
import app.tankround.rounds.RoundId;
import app.tankround.web.FieldRefusal;
import app.tankround.web.TextInput;
import java.math.BigDecimal;
import java.sql.Timestamp;
import java.sql.Types;
import java.time.Clock;
import java.time.Instant;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** What people say is in the van. Lines are only ever added; the last word on a line counts. */
@Service
public class LoadTicks {

    /** What became of a tick. */
    public enum Outcome {
        KEPT,
        /** The round or the line was changed since the person saw it; nothing was kept. */
        SHEET_CHANGED,
        /** The round as it stands has no such line. */
        UNKNOWN_LINE
    }

    /** Of what goes instead of something, in characters. */
    static final int LONGEST_INSTEAD = 200;

    private final LoadSheets sheets;
    private final CurrentPerson currentPerson;
    private final JdbcClient jdbc;
    private final Clock clock;

    LoadTicks(LoadSheets sheets, CurrentPerson currentPerson, JdbcClient jdbc, Clock clock) {
        this.sheets = sheets;
        this.currentPerson = currentPerson;
        this.jdbc = jdbc;
        this.clock = clock;
    }

    /** The last word on each line of a round that anybody ticked, by key. */
    @Transactional(readOnly = true)
    public Map<String, LoadTick> of(RoundId round) {
        return jdbc
                .sql("""
                        select distinct on (t.line)
                            t.line, t.amount, t.ticked, t.missing, t.instead, t.person_id, p.name as person, t.ticked_at
                        from load_tick t
                        join person p on p.id = t.person_id
                        where t.round_id = :round
                        order by t.line, t.ticked_at desc, t.id desc
                        """)
                .param("round", round.value())
                .query((row, number) -> new LoadTick(
                        row.getString("line"),
                        row.getBigDecimal("amount"),
                        row.getBoolean("ticked"),
                        row.getBigDecimal("missing"),
                        Optional.ofNullable(row.getString("instead")),
                        PersonId.of(row.getObject("person_id", UUID.class)),
                        row.getString("person"),
                        row.getTimestamp("ticked_at").toInstant()))
                .list()
                .stream()
                .collect(Collectors.toMap(LoadTick::line, Function.identity()));
    }

    /**
     * Ticks a line for the signed-in person, or takes the tick back.
     *
     * @param version of the round whose sheet the person saw
     * @param amount of the line as the person saw it
     * @throws app.tankround.web.NotFound if there is no such round
     */
    @Transactional
    public Outcome tick(RoundId round, int version, String line, BigDecimal amount, boolean ticked) {
        return tick(round, version, line, amount, ticked, BigDecimal.ZERO, "");
    }

    /**
     * The same where some of it is not there.
     *
     * @param missing from 0 to the amount
     * @param instead what goes instead, or nothing
     * @throws FieldRefusal if that is more than the line has, or below 0
     */
    @Transactional
    public Outcome tick(
            RoundId round,
            int version,
            String line,
            BigDecimal amount,
            boolean ticked,
            BigDecimal missing,
            String instead) {
        PersonId person = currentPerson.require().id();
        Instant now = clock.instant();
        return record(new NewTick(
                Uuids.next(now),
                round,
                version,
                line,
                amount,
                ticked,
                missing,
                Optional.ofNullable(TextInput.optional("instead", instead, LONGEST_INSTEAD)),
                person,
                now));
    }

    @Transactional
    Outcome record(NewTick tick) {
        LoadSheet sheet = sheets.loadSheet(tick.roundId());
        var line = sheet.line(tick.line());
        boolean sameSheet = sheet.round().version() == tick.version();
        if (line.isEmpty() && sameSheet) {
            return Outcome.UNKNOWN_LINE;
        }
        if (!sameSheet || line.get().amount().compareTo(tick.amount()) != 0) {
            return Outcome.SHEET_CHANGED;
        }
        BigDecimal missing = tick.ticked() ? tick.missing() : BigDecimal.ZERO;
        if (missing.signum() < 0 || missing.compareTo(tick.amount()) > 0) {
            throw new FieldRefusal("missing", "loads.missing-range", missing, tick.amount());
        }
        if (line.get().isSafety() && missing.compareTo(tick.amount()) == 0) {
            throw new FieldRefusal("missing", "loads.missing-safety");
        }
        jdbc.sql("""
                        insert into load_tick (id, round_id, line, amount, ticked, missing, instead, person_id, ticked_at)
                        values (:id, :round, :line, :amount, :ticked, :missing, :instead, :person, :at)
                        on conflict (id) do nothing
                        """)
                .param("id", tick.id())
                .param("round", tick.roundId().value())
                .param("line", tick.line())
                .param("amount", tick.amount())
                .param("ticked", tick.ticked())
                .param("missing", missing)
                .param("instead", tick.ticked() ? tick.instead().orElse(null) : null, Types.VARCHAR)
                .param("person", tick.person().value())
                .param("at", Timestamp.from(tick.at()))
                .update();
        return Outcome.KEPT;
    }
}
