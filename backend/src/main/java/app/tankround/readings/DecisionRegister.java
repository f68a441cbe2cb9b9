package app.tankround.readings;

import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.PersonId;
import app.tankround.instruments.CalibrationId;
import app.tankround.persistence.Uuids;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Types;
import java.time.Clock;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import tools.jackson.databind.json.JsonMapper;

/** What was done because of readings, so that later doubt about a reading finds it. */
@Service
@Transactional
public class DecisionRegister {

    private static final int[] ROW_TYPES = {
        Types.OTHER,
        Types.VARCHAR,
        Types.VARCHAR,
        Types.OTHER,
        Types.VARCHAR,
        Types.VARCHAR,
        Types.VARCHAR,
        Types.OTHER,
        Types.TIMESTAMP_WITH_TIMEZONE,
        Types.VARCHAR,
        Types.TIMESTAMP_WITH_TIMEZONE
    };

    private static final int[] PAIR_TYPES = {Types.OTHER, Types.OTHER};

    private static final int[] MEASURED_TYPES = {Types.OTHER, Types.OTHER, Types.TIMESTAMP_WITH_TIMEZONE};

    private final JdbcClient jdbc;
    private final JdbcTemplate template;
    private final JsonMapper json;
    private final CurrentPerson currentPerson;
    private final DoubtGrowth growth;
    private final Clock clock;

    DecisionRegister(
            JdbcClient jdbc,
            JdbcTemplate template,
            JsonMapper json,
            CurrentPerson currentPerson,
            DoubtGrowth growth,
            Clock clock) {
        this.jdbc = jdbc;
        this.template = template;
        this.json = json;
        this.currentPerson = currentPerson;
        this.growth = growth;
        this.clock = clock;
    }

    /**
     * Registers a decision that rests on readings. Without readings it rests on nothing that could come into doubt, so
     * nothing is registered for an empty list.
     *
     * @param kind water-change, dose, plan-step, instrument-adjusted, batch-released or report-sent
     * @param page where the decision is shown
     * @param summaryCode message code of its one line, which takes {@code args}
     */
    public DecisionId register(
            String kind,
            String subjectKind,
            UUID subjectId,
            String page,
            String summaryCode,
            List<String> args,
            List<ReadingId> readings) {
        return registerAll(List.of(new NewDecision(kind, subjectKind, subjectId, page, summaryCode, args, readings)))
                .getFirst();
    }

    /**
     * As {@link #register} although it rests on nothing yet, so that whatever rests on it is found. Once there is a reading
     * behind it, {@link #rest} says so.
     */
    public DecisionId registerAhead(
            String kind, String subjectKind, UUID subjectId, String page, String summaryCode, List<String> args) {
        return registerAll(
                        List.of(new NewDecision(kind, subjectKind, subjectId, page, summaryCode, args, List.of())),
                        true)
                .getFirst();
    }

    /** From now on a decision rests on that reading too, and so does whatever rests on the decision. */
    public void rest(DecisionId decision, ReadingId reading) {
        jdbc.sql(
                        "insert into decision_reading (decision_id, reading_id) values (:decision, :reading) on conflict do nothing")
                .param("decision", decision.value())
                .param("reading", reading.value())
                .update();
        growth.decided(List.of(decision));
        growth.decided(restingOn(decision).stream().map(DecisionView::id).toList());
    }

    /**
     * As {@link #register} for many decisions, with one id for each, in the same order. Of decisions that take each other's
     * place the last one stands; the others are kept.
     */
    public List<DecisionId> registerAll(List<NewDecision> decisions) {
        return registerAll(decisions, false);
    }

    private List<DecisionId> registerAll(List<NewDecision> decisions, boolean ahead) {
        List<DecisionId> ids = decisions.stream()
                .map(decision -> new DecisionId(Uuids.next(clock.instant())))
                .toList();
        List<Object[]> rows = new ArrayList<>();
        List<Object[]> pairs = new ArrayList<>();
        List<Object[]> chain = new ArrayList<>();
        List<Object[]> checked = new ArrayList<>();
        List<Object[]> measured = new ArrayList<>();
        List<DecisionId> standing = new ArrayList<>();
        @Nullable UUID person = currentPerson.id().map(PersonId::value).orElse(null);
        OffsetDateTime now = clock.instant().atOffset(ZoneOffset.UTC);
        for (int place = 0; place < decisions.size(); place++) {
            NewDecision decision = decisions.get(place);
            if (decision.restsOnNothing() && !ahead) {
                continue;
            }
            UUID id = ids.get(place).value();
            boolean replaced = isReplaced(decision, decisions.subList(place + 1, decisions.size()));
            if (!replaced) {
                standing.add(ids.get(place));
            }
            rows.add(new Object[] {
                id,
                decision.kind(),
                decision.subjectKind(),
                decision.subjectId(),
                decision.page(),
                decision.summaryCode(),
                json.writeValueAsString(decision.args()),
                person,
                now,
                decision.place().orElse(null),
                replaced ? now : null
            });
            decision.readings().forEach(reading -> pairs.add(new Object[] {id, reading.value()}));
            decision.decisions().forEach(other -> chain.add(new Object[] {id, other.value()}));
            decision.checks().forEach(check -> checked.add(new Object[] {id, check.value()}));
            decision.measured()
                    .forEach(each -> measured.add(new Object[] {
                        id, each.instrument().value(), each.at().atOffset(ZoneOffset.UTC)
                    }));
        }
        replace(decisions.stream()
                .flatMap(decision -> decision.replaces().stream())
                .toList());
        template.batchUpdate("""
                insert into decision (
                    id, kind, subject_kind, subject_id, page, summary_code, summary_args, person_id, decided_at, place,
                    replaced_at)
                values (?, ?, ?, ?, ?, ?, cast(? as jsonb), ?, ?, ?, ?)
                """, rows, ROW_TYPES);
        template.batchUpdate(
                "insert into decision_reading (decision_id, reading_id) values (?, ?) on conflict do nothing",
                pairs,
                PAIR_TYPES);
        template.batchUpdate(
                "insert into decision_decision (decision_id, rests_on_id) values (?, ?) on conflict do nothing",
                chain,
                PAIR_TYPES);
        template.batchUpdate(
                "insert into decision_check (decision_id, calibration_id) values (?, ?) on conflict do nothing",
                checked,
                PAIR_TYPES);
        // Waits, as a reading does, while the instrument is being condemned.
        template.batchUpdate(
                "insert into decision_instrument (decision_id, instrument_id, measured_at) values (?, ?, ?) on conflict do nothing",
                measured,
                MEASURED_TYPES);
        growth.decided(standing);
        return ids;
    }

    private static boolean isReplaced(NewDecision decision, List<NewDecision> later) {
        return decision.place()
                .filter(place ->
                        later.stream().anyMatch(other -> other.replaces().contains(place)))
                .isPresent();
    }

    /** From now on what was written down in these places no longer stands; it is kept. */
    public void replace(Collection<String> places) {
        if (places.isEmpty()) {
            return;
        }
        growth.replaced(jdbc.sql("""
                        update decision
                        set replaced_at = :now
                        where place = any(cast(:places as text[])) and replaced_at is null
                        returning id
                        """)
                .param("places", places.toArray(String[]::new))
                .param("now", clock.instant().atOffset(ZoneOffset.UTC))
                .query((row, number) -> DecisionId.of(row.getObject("id", UUID.class)))
                .list());
    }

    /** Whether a decision rests on a check. */
    @Transactional(readOnly = true)
    boolean restsOn(CalibrationId check) {
        return jdbc.sql("select exists (select 1 from decision_check where calibration_id = :check)")
                .param("check", check.value())
                .query(Boolean.class)
                .single();
    }

    /** Those of these decisions that are there. */
    @Transactional(readOnly = true)
    Map<DecisionId, DecisionView> find(Collection<DecisionId> ids) {
        Map<DecisionId, DecisionView> found = new HashMap<>();
        jdbc.sql("select d.*, d.summary_args::text as args from decision d where d.id = any(cast(:ids as uuid[]))")
                .param("ids", ids.stream().map(DecisionId::value).toArray(UUID[]::new))
                .query(row -> {
                    DecisionView decision = view(row);
                    found.put(decision.id(), decision);
                });
        return found;
    }

    private DecisionView view(ResultSet row) throws SQLException {
        return new DecisionView(
                DecisionId.of(row.getObject("id", UUID.class)),
                row.getString("kind"),
                row.getString("subject_kind"),
                row.getObject("subject_id", UUID.class),
                row.getString("page"),
                row.getString("summary_code"),
                Arrays.asList(json.readValue(row.getString("args"), String[].class)),
                row.getObject("decided_at", OffsetDateTime.class).toInstant());
    }

    /** What was done because of another decision, such as the changes of water with a batch that was released; oldest first. */
    @Transactional(readOnly = true)
    public List<DecisionView> restingOn(DecisionId other) {
        return jdbc.sql("""
                        select d.*, d.summary_args::text as args
                        from decision_decision o
                        join decision d on d.id = o.decision_id
                        where o.rests_on_id = :other and d.replaced_at is null
                        order by d.decided_at, d.id
                        """)
                .param("other", other.value())
                .query((row, number) -> view(row))
                .list();
    }

    /** The decisions that rest on each of these readings; readings without any are missing from the map. */
    @Transactional(readOnly = true)
    public Map<ReadingId, List<DecisionView>> restingOn(Collection<ReadingId> readings) {
        Map<ReadingId, List<DecisionView>> found = new HashMap<>();
        jdbc.sql("""
                        select
                            r.reading_id,
                            d.id,
                            d.kind,
                            d.subject_kind,
                            d.subject_id,
                            d.page,
                            d.summary_code,
                            d.summary_args::text as args,
                            d.decided_at
                        from decision_reading r
                        join decision d on d.id = r.decision_id
                        where r.reading_id = any(cast(:readings as uuid[])) and d.replaced_at is null
                        order by d.decided_at, d.id
                        """).param("readings", ids(readings)).query(row -> {
            found.computeIfAbsent(ReadingId.of(row.getObject("reading_id", UUID.class)), id -> new ArrayList<>())
                    .add(view(row));
        });
        return found;
    }

    private static UUID[] ids(Collection<ReadingId> readings) {
        return readings.stream().map(ReadingId::value).toArray(UUID[]::new);
    }
}
