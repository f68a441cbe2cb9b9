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
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.SequencedMap;
import java.util.UUID;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
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
        return tick(round, version, new LinkedHashMap<>(Map.of(line, amount)), ticked, Optional.empty(), "");
    }

    /**
     * The same of a row, where some of it may not be there: all of its lines, or none. Of several lines, those that somebody has
     * put in stay as they are, and those that are not there are the last ones that nobody has put in.
     *
     * @param lines of the row, in its order, each with its amount as the person saw it
     * @param missing from 0 to what the lines are together, whole where they are several; empty where what is still open is all there
     * @param instead what goes instead, or nothing
     * @throws FieldRefusal if that is more than the lines have, below 0, or a part of a container
     */
    @Transactional
    public Outcome tick(
            RoundId round,
            int version,
            SequencedMap<String, BigDecimal> lines,
            boolean ticked,
            Optional<BigDecimal> missing,
            String instead) {
        PersonId person = currentPerson.require().id();
        Instant now = clock.instant();
        Optional<String> other = Optional.ofNullable(TextInput.optional("instead", instead, LONGEST_INSTEAD));
        List<NewTick> ticks = new ArrayList<>();
        missing(round, lines, ticked, missing)
                .forEach((line, left) -> ticks.add(new NewTick(
                        Uuids.next(now),
                        round,
                        version,
                        line,
                        Objects.requireNonNull(lines.get(line)),
                        ticked,
                        left,
                        left.signum() > 0 || lines.size() == 1 ? other : Optional.empty(),
                        person,
                        now)));
        return record(round, version, ticks);
    }

    /** Which lines of a row are to be ticked, and how much of each is missing. */
    private Map<String, BigDecimal> missing(
            RoundId round, SequencedMap<String, BigDecimal> lines, boolean ticked, Optional<BigDecimal> missing) {
        BigDecimal open = missing.orElse(BigDecimal.ZERO);
        if (lines.size() == 1) {
            return Map.of(lines.firstEntry().getKey(), open);
        }
        requireInRange(open, lines.values().stream().reduce(BigDecimal.ZERO, BigDecimal::add));
        if (open.stripTrailingZeros().scale() > 0) {
            throw new FieldRefusal("missing", "loads.missing-whole", open);
        }
        Map<String, BigDecimal> left = new LinkedHashMap<>();
        Map<String, LoadTick> said = of(round);
        List<String> notIn = new ArrayList<>();
        List<String> in = new ArrayList<>();
        lines.forEach((line, amount) -> {
            Optional<LoadTick> last = Optional.ofNullable(said.get(line))
                    .filter(tick -> tick.ticked() && tick.amount().compareTo(amount) == 0);
            (last.filter(tick -> !tick.isShort()).isPresent() ? in : notIn).add(line);
            if (last.isPresent() != ticked) {
                left.put(line, BigDecimal.ZERO);
            }
        });
        if (ticked && missing.isPresent()) {
            notIn.forEach(line -> left.put(line, BigDecimal.ZERO));
            for (String line : Stream.concat(notIn.reversed().stream(), in.reversed().stream())
                    .toList()) {
                if (open.signum() > 0) {
                    BigDecimal here = open.min(Objects.requireNonNull(lines.get(line)));
                    left.put(line, here);
                    open = open.subtract(here);
                }
            }
        }
        return left;
    }

    @Transactional
    Outcome record(NewTick tick) {
        return record(tick.roundId(), tick.version(), List.of(tick));
    }

    /** Of ticks all or none. */
    private Outcome record(RoundId round, int version, List<NewTick> ticks) {
        LoadSheet sheet = sheets.loadSheet(round);
        boolean sameSheet = sheet.round().version() == version;
        for (NewTick tick : ticks) {
            var line = sheet.line(tick.line());
            if (line.isEmpty() && sameSheet) {
                return Outcome.UNKNOWN_LINE;
            }
            if (!sameSheet || line.get().amount().compareTo(tick.amount()) != 0) {
                return Outcome.SHEET_CHANGED;
            }
            if (tick.ticked()) {
                requireInRange(tick.missing(), tick.amount());
                if (line.get().isSafety() && tick.missing().compareTo(tick.amount()) == 0) {
                    throw new FieldRefusal("missing", "loads.missing-safety");
                }
            }
        }
        ticks.forEach(this::write);
        return Outcome.KEPT;
    }

    private static void requireInRange(BigDecimal missing, BigDecimal amount) {
        if (missing.signum() < 0 || missing.compareTo(amount) > 0) {
            throw new FieldRefusal("missing", "loads.missing-range", missing, amount);
        }
    }

    private void write(NewTick tick) {
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
                .param("missing", tick.ticked() ? tick.missing() : BigDecimal.ZERO)
                .param("instead", tick.ticked() ? tick.instead().orElse(null) : null, Types.VARCHAR)
                .param("person", tick.person().value())
                .param("at", Timestamp.from(tick.at()))
                .update();
    }
}
