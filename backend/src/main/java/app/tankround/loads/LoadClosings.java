package app.tankround.loads;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.ChangeLog;
import app.tankround.accounts.CurrentPerson;
import app.tankround.persistence.RecordLock;
import app.tankround.persistence.Uuids;
import app.tankround.rounds.RoundId;
import app.tankround.rounds.RoundService;
import app.tankround.rounds.RoundView;
import app.tankround.web.FieldRefusal;
import app.tankround.web.StaleVersion;
import app.tankround.web.TextInput;
import java.math.BigDecimal;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Timestamp;
import java.sql.Types;
import java.time.Clock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.springframework.context.MessageSource;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Who loaded what before the van left. A sheet that is closed again, since its round changed, is another one. */
@Service
public class LoadClosings {

    static final int LONGEST_REASON = 300;

    private final LoadSheets sheets;
    private final LoadTicks ticks;
    private final RoundService rounds;
    private final LoadedStock stock;
    private final CurrentPerson currentPerson;
    private final BusinessProfile business;
    private final ChangeLog changes;
    private final RecordLock lock;
    private final MessageSource messages;
    private final JdbcClient jdbc;
    private final Clock clock;

    LoadClosings(
            LoadSheets sheets,
            LoadTicks ticks,
            RoundService rounds,
            LoadedStock stock,
            CurrentPerson currentPerson,
            BusinessProfile business,
            ChangeLog changes,
            RecordLock lock,
            MessageSource messages,
            JdbcClient jdbc,
            Clock clock) {
        this.sheets = sheets;
        this.ticks = ticks;
        this.rounds = rounds;
        this.stock = stock;
        this.currentPerson = currentPerson;
        this.business = business;
        this.changes = changes;
        this.lock = lock;
        this.messages = messages;
        this.jdbc = jdbc;
        this.clock = clock;
    }

    /** The last one of a round. */
    @Transactional(readOnly = true)
    public Optional<LoadClosing> of(RoundId round) {
        return jdbc.sql("""
                        select c.id, c.round_version, c.closed_at, p.name as person
                        from load_closing c
                        join person p on p.id = c.person_id
                        where c.round_id = :round
                        order by c.closed_at desc, c.id desc
                        limit 1
                        """)
                .param("round", round.value())
                .query((row, number) -> {
                    UUID id = row.getObject("id", UUID.class);
                    return new LoadClosing(
                            id,
                            row.getInt("round_version"),
                            row.getString("person"),
                            row.getTimestamp("closed_at").toInstant(),
                            lines(id));
                })
                .optional();
    }

    private List<LoadClosing.Line> lines(UUID closing) {
        return jdbc.sql("""
                        select l.line, l.item, l.planned, l.loaded, l.litres, l.safety, l.ticked_at, l.instead, l.reason,
                               p.name as person
                        from load_closing_line l
                        left join person p on p.id = l.person_id
                        where l.closing_id = :closing
                        order by l.place
                        """)
                .param("closing", closing)
                .query((row, number) -> line(row))
                .list();
    }

    private static LoadClosing.Line line(ResultSet row) throws SQLException {
        return new LoadClosing.Line(
                row.getString("line"),
                row.getString("item"),
                row.getBigDecimal("planned"),
                row.getBigDecimal("loaded"),
                Optional.ofNullable(row.getBigDecimal("litres")),
                row.getBoolean("safety"),
                Optional.ofNullable(row.getString("person")),
                Optional.ofNullable(row.getTimestamp("ticked_at")).map(Timestamp::toInstant),
                Optional.ofNullable(row.getString("instead")),
                Optional.ofNullable(row.getString("reason")));
    }

    /**
     * Closes the sheet of a round: what is ticked is in the van, by whoever ticked it, and the rest is left. Closed again as it
     * was, it stays as it was.
     *
     * @param version of the round whose sheet the person saw
     * @param reasons why something is left, by the key of the line that is the first of its row
     * @throws StaleVersion if the round was changed since
     * @throws FieldRefusal at {@code reasons} if something is left without which an animal could die, and nobody says why; if
     *     nothing was loaded at all; or for a reason that is too long
     */
    @Transactional
    public LoadClosing close(RoundId id, int version, Map<String, String> reasons) {
        lock.hold("load " + id);
        RoundView round = rounds.require(id);
        if (round.version() != version) {
            throw new StaleVersion("/rounds/" + id + "/load", null, null);
        }
        LoadSheet sheet = sheets.loadSheet(round);
        Map<String, LoadTick> said = ticks.of(id);
        LoadWords words =
                LoadWords.of(business.current(), messages, business.current().locale());
        List<Closed> closed = new ArrayList<>();
        Map<String, String> ofRows = new HashMap<>();
        LoadRow.of(sheet.lines())
                .forEach(row -> row.lines()
                        .forEach(line -> ofRows.put(
                                line.key(), reasons.getOrDefault(row.first().key(), ""))));
        for (LoadLine line : sheet.lines()) {
            Optional<LoadTick> tick = LoadChange.tick(line, said).filter(each -> each.covers(line));
            BigDecimal loaded = tick.map(LoadTick::loaded).orElse(BigDecimal.ZERO);
            Optional<String> reason = loaded.compareTo(line.amount()) < 0
                    ? Optional.ofNullable(TextInput.optional("reasons", ofRows.get(line.key()), LONGEST_REASON))
                    : Optional.empty();
            String item = words.measure(line) + " " + words.say(line.item());
            if (line.isSafety() && loaded.signum() == 0 && reason.isEmpty()) {
                throw new FieldRefusal("reasons", "loads.close.safety", item.strip());
            }
            closed.add(new Closed(line, item.strip(), loaded, tick, reason));
        }
        if (closed.stream().allMatch(each -> each.loaded().signum() == 0)) {
            throw new FieldRefusal("reasons", "loads.close.nothing");
        }
        Optional<LoadClosing> before = of(id);
        if (before.filter(last -> says(last, version, closed)).isPresent()) {
            return before.get();
        }
        write(round, closed, before);
        return of(id).orElseThrow();
    }

    /** A line as it is closed. */
    private record Closed(
            LoadLine line, String item, BigDecimal loaded, Optional<LoadTick> tick, Optional<String> reason) {}

    private static boolean says(LoadClosing last, int version, List<Closed> closed) {
        return last.version() == version
                && last.lines().stream()
                        .map(line -> line.key() + " " + line.loaded().stripTrailingZeros() + " " + line.reason())
                        .toList()
                        .equals(closed.stream()
                                .map(each -> each.line().key() + " "
                                        + each.loaded().stripTrailingZeros() + " " + each.reason())
                                .toList());
    }

    private void write(RoundView round, List<Closed> closed, Optional<LoadClosing> before) {
        Instant now = clock.instant();
        UUID id = Uuids.next(now);
        jdbc.sql("""
                        insert into load_closing (id, round_id, round_version, person_id, closed_at)
                        values (:id, :round, :version, :person, :at)
                        """)
                .param("id", id)
                .param("round", round.id().value())
                .param("version", round.version())
                .param("person", currentPerson.require().id().value())
                .param("at", Timestamp.from(now))
                .update();
        for (int place = 0; place < closed.size(); place++) {
            Closed each = closed.get(place);
            Optional<LoadTick> loaded = each.tick().filter(tick -> tick.loaded().signum() > 0);
            jdbc.sql("""
                            insert into load_closing_line (
                                closing_id, line, place, item, planned, loaded, litres, safety, person_id, ticked_at, instead, reason)
                            values (:closing, :line, :place, :item, :planned, :loaded, :litres, :safety, :person, :at, :instead, :reason)
                            """)
                    .param("closing", id)
                    .param("line", each.line().key())
                    .param("place", place)
                    .param("item", each.item())
                    .param("planned", each.line().amount())
                    .param("loaded", each.loaded())
                    .param("litres", each.line().litres(each.loaded()).orElse(null), Types.NUMERIC)
                    .param("safety", each.line().isSafety())
                    .param("person", loaded.map(tick -> tick.personId().value()).orElse(null), Types.OTHER)
                    .param("at", loaded.map(tick -> Timestamp.from(tick.at())).orElse(null), Types.TIMESTAMP)
                    .param("instead", each.tick().flatMap(LoadTick::instead).orElse(null), Types.VARCHAR)
                    .param("reason", each.reason().orElse(null), Types.VARCHAR)
                    .update();
        }
        stock.load(
                id,
                round,
                closed.stream()
                        .map(each -> new LoadedStock.Loaded(each.line(), each.loaded()))
                        .toList(),
                before.map(LoadClosing::lines).orElse(List.of()));
        changes.record("round", round.id(), "load-closed", Map.of("code", round.code(), "lines", closed.size()));
    }
}
