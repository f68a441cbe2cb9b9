package app.tankround.readings;

import app.tankround.accounts.PersonId;
import app.tankround.chemistry.DecisionRule;
import app.tankround.chemistry.InstrumentStatus;
import app.tankround.chemistry.UncertaintyBudget;
import app.tankround.chemistry.VerdictCode;
import app.tankround.instruments.CalibrationId;
import app.tankround.instruments.InstrumentId;
import app.tankround.tanks.SamplePointId;
import app.tankround.tanks.WaterSystemId;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import java.math.BigDecimal;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Types;
import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.CompletableFuture;
import java.util.function.Function;
import java.util.function.IntFunction;
import java.util.stream.Collectors;
import java.util.stream.Gatherers;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;
import tools.jackson.databind.json.JsonMapper;

/** Readings and their assessments: rows are added and read; only the mark of the newest assessment moves. */
@Repository
class ReadingRows {

    /** A reading to be added, with the version it replaces. */
    record NewRow(
            NewReading reading, Optional<ReadingId> replaces, Optional<String> reason, AssessmentView assessment) {}

    private static final int BATCH = 1000;
    /** As many as the database holds in memory at once. */
    private static final int SLICE = 1000;

    private static final String COLUMNS = """
            reading_id, rule_version, verdict, verdict_as_read, instrument_status, trusted, doubtful, corrected_value,
            uncertainty, salinity, salinity_uncertainty, reasons, calibration_ids, target_low, target_high, computed_at,
            decision_rule, below_probability, above_probability, budget
            """;

    /** Assessments given as arrays, under the names of the columns. */
    private static final String GIVEN = """
            select
                reading_id, rule_version, verdict, verdict_as_read, instrument_status, trusted, doubtful, corrected_value,
                uncertainty, salinity, salinity_uncertainty, cast(reasons as jsonb) as reasons,
                cast(calibration_ids as uuid[]) as calibration_ids, target_low, target_high, computed_at, decision_rule,
                below_probability, above_probability, cast(budget as jsonb) as budget
            from unnest(
                cast(:readings as uuid[]),
                cast(:versions as int[]),
                cast(:verdicts as text[]),
                cast(:asRead as text[]),
                cast(:statuses as text[]),
                cast(:trusted as boolean[]),
                cast(:doubtful as boolean[]),
                cast(:corrected as float8[]),
                cast(:uncertainties as float8[]),
                cast(:salinities as float8[]),
                cast(:salinityUncertainties as float8[]),
                cast(:reasons as text[]),
                cast(:calibrations as text[]),
                cast(:lows as numeric[]),
                cast(:highs as numeric[]),
                cast(:at as timestamptz[]),
                cast(:decisionRules as text[]),
                cast(:below as float8[]),
                cast(:above as float8[]),
                cast(:budgets as text[])
            ) as given (
                reading_id, rule_version, verdict, verdict_as_read, instrument_status, trusted, doubtful, corrected_value,
                uncertainty, salinity, salinity_uncertainty, reasons, calibration_ids, target_low, target_high, computed_at,
                decision_rule, below_probability, above_probability, budget)
            """;

    /** Adds an assessment to each reading whose newest one says something else, and makes it the newest. */
    private static final String REASSESS = """
            with again as (
            """ + GIVEN + """
            ),
            changed as (
                select g.*
                from again g
                join newest_assessment w on w.reading_id = g.reading_id
                join assessment a on a.id = w.assessment_id
                where (
                    a.rule_version, a.verdict, a.verdict_as_read, a.instrument_status, a.trusted, a.doubtful,
                    a.corrected_value, a.uncertainty, a.salinity, a.salinity_uncertainty, a.reasons,
                    a.calibration_ids, a.target_low, a.target_high, a.decision_rule, a.below_probability,
                    a.above_probability, a.budget
                ) is distinct from (
                    g.rule_version, g.verdict, g.verdict_as_read, g.instrument_status, g.trusted, g.doubtful,
                    g.corrected_value, g.uncertainty, g.salinity, g.salinity_uncertainty, g.reasons,
                    g.calibration_ids, g.target_low, g.target_high, g.decision_rule, g.below_probability,
                    g.above_probability, g.budget
                )
            ),
            added as (
                insert into assessment (
            """ + COLUMNS + """
                )
                select
            """ + COLUMNS + """
                from changed
                returning id, reading_id
            )
            update newest_assessment w
            set assessment_id = a.id
            from added a
            where w.reading_id = a.reading_id
            """;

    private static final String SELECT = """
            select
                r.*,
                n.id as replaced_by,
                a.rule_version,
                a.verdict,
                a.verdict_as_read,
                a.instrument_status,
                a.trusted,
                a.doubtful,
                a.corrected_value,
                a.uncertainty,
                a.salinity,
                a.salinity_uncertainty,
                a.reasons::text as reasons,
                a.calibration_ids,
                a.target_low,
                a.target_high,
                a.computed_at,
                a.decision_rule,
                a.below_probability,
                a.above_probability,
                a.budget::text as budget
            from reading r
            join newest_assessment w on w.reading_id = r.id
            join assessment a on a.id = w.assessment_id
            left join reading n on n.replaces_id = r.id
            """;

    private final JdbcClient jdbc;
    private final JdbcTemplate template;
    private final JsonMapper json;

    ReadingRows(JdbcClient jdbc, JdbcTemplate template, JsonMapper json) {
        this.jdbc = jdbc;
        this.template = template;
        this.json = json;
    }

    /** Rows that {@code condition} holds for, in the given order; {@code r} is the reading, {@code n} its replacement. */
    List<ReadingView> where(String condition, Map<String, ?> params) {
        return jdbc.sql(SELECT + " where " + condition)
                .params(params)
                .query((row, number) -> view(row))
                .list();
    }

    /** How many of the readings of an instrument that count {@code condition} holds for; {@code a} is the newest assessment. */
    ReadingService.Disbelieved count(String condition, InstrumentId instrument) {
        return jdbc.sql("""
                        select count(*) as readings, count(distinct r.water_system_id) as systems
                        from reading r
                        join newest_assessment w on w.reading_id = r.id
                        join assessment a on a.id = w.assessment_id
                        where r.instrument_id = :instrument
                            and not exists (select 1 from reading n where n.replaces_id = r.id)
                            and (%s)
                        """.formatted(condition))
                .param("instrument", instrument.value())
                .query((row, number) -> new ReadingService.Disbelieved(row.getInt("readings"), row.getInt("systems")))
                .single();
    }

    /** What other instruments showed of the sample of a reading, oldest first. */
    List<ReadingView> onOneSample(ReadingView reading, Duration within) {
        return where(
                """
                r.water_system_id = :system and r.quantity = :quantity
                and r.sample_point_id is not distinct from cast(nullif(:point, '') as uuid)
                and r.instrument_id <> :instrument and r.answer = 'VALUE' and n.id is null
                and r.taken_at between :from and :until
                order by r.taken_at, r.recorded_at, r.id
                """,
                Map.of(
                        "system",
                        reading.systemId().value(),
                        "quantity",
                        reading.quantity().name(),
                        "point",
                        reading.samplePointId().map(SamplePointId::toString).orElse(""),
                        "instrument",
                        reading.instrumentId().orElseThrow().value(),
                        "from",
                        reading.takenAt().minus(within).atOffset(ZoneOffset.UTC),
                        "until",
                        reading.takenAt().plus(within).atOffset(ZoneOffset.UTC)));
    }

    /** Those of the readings since an instant that another instrument's reading of the same sample stands beside. */
    List<ReadingView> besideAnother(Collection<ReadingId> readings, Duration within, Instant since) {
        return where(
                """
                r.id = any(cast(:ids as uuid[])) and r.taken_at > :since and n.id is null
                and exists (
                    select 1
                    from reading o
                    where o.water_system_id = r.water_system_id
                        and o.quantity = r.quantity
                        and o.sample_point_id is not distinct from r.sample_point_id
                        and o.instrument_id <> r.instrument_id
                        and o.taken_at between r.taken_at - make_interval(secs => :seconds)
                            and r.taken_at + make_interval(secs => :seconds))
                """,
                Map.of(
                        "ids",
                        readings.stream().map(ReadingId::value).toArray(UUID[]::new),
                        "since",
                        since.atOffset(ZoneOffset.UTC),
                        "seconds",
                        within.toSeconds()));
    }

    /** What an instrument and another one showed of the same samples from {@code from} to before {@code until}. */
    List<ReadingId> onOneSample(InstrumentId instrument, Instant from, Instant until, Duration within) {
        return jdbc.sql("""
                        select distinct pair.id
                        from reading m
                        join reading o
                            on o.water_system_id = m.water_system_id
                            and o.quantity = m.quantity
                            and o.sample_point_id is not distinct from m.sample_point_id
                            and o.instrument_id <> m.instrument_id
                            and o.answer = 'VALUE'
                            and o.taken_at between m.taken_at - make_interval(secs => :seconds)
                                and m.taken_at + make_interval(secs => :seconds)
                            and not exists (select 1 from reading n where n.replaces_id = o.id)
                        cross join lateral (values (m.id), (o.id)) pair (id)
                        where m.instrument_id = :instrument
                            and m.answer = 'VALUE'
                            and m.taken_at >= :from
                            and m.taken_at < :until
                            and not exists (select 1 from reading n where n.replaces_id = m.id)
                        """)
                .param("instrument", instrument.value())
                .param("from", from.atOffset(ZoneOffset.UTC))
                .param("until", until.atOffset(ZoneOffset.UTC))
                .param("seconds", within.toSeconds())
                .query((row, number) -> ReadingId.of(row.getObject("id", UUID.class)))
                .list();
    }

    /** The newest measured reading of each quantity of a system. */
    List<ReadingView> latest(WaterSystemId system) {
        return jdbc.sql("select distinct on (quantity) * from (" + SELECT + """
                        where r.water_system_id = :system and n.id is null and r.answer <> 'NOT_MEASURED'
                        ) newest
                        order by quantity, taken_at desc, recorded_at desc
                        """)
                .param("system", system.value())
                .query((row, number) -> view(row))
                .list();
    }

    /** The newest measured reading in each place: one step into the index for each, however long the series are. */
    List<ReadingView> latest(Collection<ReadingPlace> places) {
        return jdbc.sql(SELECT + """
                        where r.id in (
                            select newest.id
                            from unnest(
                                cast(:systems as uuid[]), cast(:quantities as text[]), cast(:points as text[])
                            ) as place (system, quantity, point)
                            cross join lateral (
                                select o.id
                                from reading o
                                where o.water_system_id = place.system
                                    and o.quantity = place.quantity
                                    and o.sample_point_id is not distinct from cast(nullif(place.point, '') as uuid)
                                    and o.answer <> 'NOT_MEASURED'
                                    and not exists (select 1 from reading c where c.replaces_id = o.id)
                                order by o.taken_at desc, o.recorded_at desc
                                limit 1
                            ) newest
                        )
                        """)
                .param(
                        "systems",
                        places.stream().map(place -> place.systemId().value()).toArray(UUID[]::new))
                .param(
                        "quantities",
                        places.stream().map(place -> place.quantity().name()).toArray(String[]::new))
                .param(
                        "points",
                        places.stream()
                                .map(place -> place.samplePointId()
                                        .map(SamplePointId::toString)
                                        .orElse(""))
                                .toArray(String[]::new))
                .query((row, number) -> view(row))
                .list();
    }

    /** Whether a trusted measurement stands in the same place after a row with the columns of a reading. */
    static String trustedSince(String row) {
        return trustedSince(row, "");
    }

    private static String trustedSince(String row, String from) {
        return """
                exists (
                    select 1
                    from reading t
                    join newest_assessment tw on tw.reading_id = t.id
                    join assessment ta on ta.id = tw.assessment_id and ta.trusted
                    where t.water_system_id = %1$s.water_system_id
                        and t.quantity = %1$s.quantity
                        and t.sample_point_id is not distinct from %1$s.sample_point_id
                        and t.taken_at > %1$s.taken_at %2$s
                        and t.answer <> 'NOT_MEASURED'
                        and not exists (select 1 from reading n where n.replaces_id = t.id)
                )
                """.formatted(row, from);
    }

    /**
     * The newest measured reading by an instrument in each place since an instant, where no trusted one is of the same sample
     * or has come since.
     */
    List<ReadingView> restingOnAlone(InstrumentId instrument, Instant from) {
        return jdbc.sql(SELECT + """
                        where r.id in (
                            select newest.id
                            from (
                                select distinct on (o.water_system_id, o.quantity, o.sample_point_id) o.*
                                from reading o
                                where o.instrument_id = :instrument
                                    and o.taken_at >= :from
                                    and o.answer <> 'NOT_MEASURED'
                                    and not exists (select 1 from reading c where c.replaces_id = o.id)
                                order by
                                    o.water_system_id,
                                    o.quantity,
                                    o.sample_point_id,
                                    o.taken_at desc,
                                    o.recorded_at desc
                            ) newest
                            where not\s""" + trustedSince("newest", "- make_interval(secs => :sample)") + """
                        )
                        order by r.taken_at desc
                        """)
                .param("instrument", instrument.value())
                .param("from", from.atOffset(ZoneOffset.UTC))
                .param("sample", SampleComparisons.ONE_SAMPLE.toSeconds())
                .query((row, number) -> view(row))
                .list();
    }

    /** What was thought of each reading in its newest assessment without doubt; those always in doubt are missing. */
    Map<ReadingId, AssessmentView> beforeDoubt(Collection<ReadingId> readings) {
        return assessments("""
                select distinct on (a.reading_id) a.*
                from assessment a
                where a.reading_id = any(cast(:readings as uuid[])) and not a.doubtful
                order by a.reading_id, a.id desc
                """, Map.of("readings", ids(readings)));
    }

    /** What was thought of each reading at an instant; those not written down by then are missing. */
    Map<ReadingId, AssessmentView> assessedAt(Collection<ReadingId> readings, Instant instant) {
        return assessments("""
                select distinct on (a.reading_id) a.*
                from assessment a
                where a.reading_id = any(cast(:readings as uuid[])) and a.computed_at <= :at
                order by a.reading_id, a.id desc
                """, Map.of("readings", ids(readings), "at", instant.atOffset(ZoneOffset.UTC)));
    }

    /** Assessments by their own ids. */
    Map<Long, AssessmentView> assessments(Collection<Long> ids) {
        Map<Long, AssessmentView> found = new HashMap<>();
        jdbc.sql("select a.* from assessment a where a.id = any(cast(:ids as bigint[]))")
                .param("ids", ids.toArray(Long[]::new))
                .query(row -> {
                    found.put(row.getLong("id"), assessment(row));
                });
        return found;
    }

    private Map<ReadingId, AssessmentView> assessments(String query, Map<String, ?> params) {
        Map<ReadingId, AssessmentView> found = new HashMap<>();
        jdbc.sql(query).params(params).query(row -> {
            found.put(ReadingId.of(row.getObject("reading_id", UUID.class)), assessment(row));
        });
        return found;
    }

    private static UUID[] ids(Collection<ReadingId> readings) {
        return readings.stream().map(ReadingId::value).toArray(UUID[]::new);
    }

    /**
     * Waits until nobody is changing what is known of these instruments, and keeps it so until the transaction ends: what
     * is written down while one is condemned is assessed afterwards, and so joins its doubt list.
     */
    void share(Collection<InstrumentId> instruments) {
        if (instruments.isEmpty()) {
            return;
        }
        jdbc.sql("select id from instrument where id = any(cast(:ids as uuid[])) order by id for key share")
                .param("ids", instruments.stream().map(InstrumentId::value).toArray(UUID[]::new))
                .query(row -> {});
    }

    void insert(List<NewRow> rows, Instant recordedAt) {
        if (rows.isEmpty()) {
            return;
        }
        template.batchUpdate("""
                insert into reading (
                    id, water_system_id, sample_point_id, quantity, answer, value, upper_value, unit,
                    gravity_reference, sample_temperature_c, instrument_id, kit_lot, not_measured_because, taken_at,
                    person_id, visit_id, replaces_id, reason, recorded_at)
                values (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)
                """, rows, BATCH, (statement, row) -> bind(statement, row, recordedAt));
        List<ReadingId> ids = rows.stream().map(row -> row.reading().id()).toList();
        insertAssessments(ids, rows.stream().map(NewRow::assessment).toList());
    }

    /** A reading with what its newest assessment was made against. */
    record Judged(NewReading reading, TargetOnScale target, DecisionRule decisionRule, boolean trusted) {}

    /** Readings with what is thought of them now, and that as {@link #GIVEN} asks for it. */
    private record Slice(List<Judged> judged, List<AssessmentView> assessments, Map<String, Object> given) {}

    /**
     * Adds an assessment to each reading of an instrument from {@code from} on whose newest one says something else, and
     * makes it the newest. A condemned instrument has tens of thousands of readings, so they are fetched as they are needed
     * and the next ones are assessed while the database writes.
     *
     * @param assess nothing but arithmetic, since several threads share it
     * @return what was trusted before and is no more
     */
    Set<ReadingId> reassess(InstrumentId instrument, Instant from, Function<Judged, AssessmentView> assess) {
        Set<ReadingId> untrusted = new HashSet<>();
        try (Stream<Judged> judged = judged(instrument, from)) {
            Iterator<List<Judged>> parts =
                    judged.gather(Gatherers.windowFixed(SLICE)).iterator();
            Optional<CompletableFuture<Slice>> ahead = Optional.empty();
            while (parts.hasNext()) {
                List<Judged> part = parts.next();
                CompletableFuture<Slice> next = CompletableFuture.supplyAsync(() -> slice(part, assess));
                ahead.ifPresent(slice -> write(slice.join(), untrusted));
                ahead = Optional.of(next);
            }
            ahead.ifPresent(slice -> write(slice.join(), untrusted));
        }
        return untrusted;
    }

    /** What counts of what was read on an instrument, to be closed. */
    private Stream<Judged> judged(InstrumentId instrument, Instant from) {
        return jdbc
                .sql("""
                        select r.*, a.target_low, a.target_high, a.decision_rule, a.trusted,
                            a.reasons @> cast(:general as jsonb) as general
                        from reading r
                        join newest_assessment w on w.reading_id = r.id
                        join assessment a on a.id = w.assessment_id
                        where r.instrument_id = :instrument
                            and r.taken_at >= :from
                            and not exists (select 1 from reading n where n.replaces_id = r.id)
                        """)
                .withFetchSize(SLICE)
                .param("instrument", instrument.value())
                .param("from", from.atOffset(ZoneOffset.UTC))
                .param("general", "[{\"code\":\"" + ReadingRule.NO_OWN_TARGET + "\"}]")
                .query((row, number) -> new Judged(
                        stated(row),
                        new TargetOnScale(
                                Optional.ofNullable(row.getBigDecimal("target_low")),
                                Optional.ofNullable(row.getBigDecimal("target_high")),
                                row.getBoolean("general")),
                        Optional.ofNullable(row.getString("decision_rule"))
                                .map(DecisionRule::valueOf)
                                .orElse(DecisionRule.GUARD_BAND),
                        row.getBoolean("trusted")))
                .stream();
    }

    private Slice slice(List<Judged> judged, Function<Judged, AssessmentView> assess) {
        List<AssessmentView> assessments = judged.parallelStream().map(assess).toList();
        List<ReadingId> ids = judged.stream().map(each -> each.reading().id()).toList();
        return new Slice(judged, assessments, given(ids, assessments));
    }

    private void write(Slice slice, Set<ReadingId> untrusted) {
        jdbc.sql(REASSESS).params(slice.given()).update();
        for (int i = 0; i < slice.judged().size(); i++) {
            Judged before = slice.judged().get(i);
            if (before.trusted() && !slice.assessments().get(i).trusted()) {
                untrusted.add(before.reading().id());
            }
        }
    }

    private void insertAssessments(List<ReadingId> readings, List<AssessmentView> assessments) {
        jdbc.sql("with added as (insert into assessment (" + COLUMNS + ") select " + COLUMNS + """
                from (
                """ + GIVEN + """
                ) given
                returning id, reading_id
                )
                insert into newest_assessment (reading_id, assessment_id) select reading_id, id from added
                """)
                .params(given(readings, assessments))
                .update();
    }

    /** What {@link #GIVEN} asks for. */
    private Map<String, Object> given(List<ReadingId> readings, List<AssessmentView> assessments) {
        Map<String, Object> given = new HashMap<>();
        given.put("readings", ids(readings));
        given.put("versions", array(assessments, AssessmentView::ruleVersion, Integer[]::new));
        given.put("verdicts", array(assessments, each -> each.verdict().name(), String[]::new));
        given.put("asRead", array(assessments, each -> each.verdictAsRead().name(), String[]::new));
        given.put("statuses", texts(assessments, each -> each.instrumentStatus().map(Enum::name)));
        given.put("trusted", array(assessments, AssessmentView::trusted, Boolean[]::new));
        given.put("doubtful", array(assessments, AssessmentView::doubtful, Boolean[]::new));
        given.put("corrected", numbers(assessments, AssessmentView::correctedValue));
        given.put("uncertainties", numbers(assessments, AssessmentView::uncertainty));
        given.put("salinities", numbers(assessments, AssessmentView::salinity));
        given.put("salinityUncertainties", numbers(assessments, AssessmentView::salinityUncertainty));
        given.put("reasons", array(assessments, each -> json.writeValueAsString(each.reasons()), String[]::new));
        given.put("calibrations", array(assessments, ReadingRows::calibrations, String[]::new));
        given.put("lows", texts(assessments, each -> each.targetLow().map(BigDecimal::toPlainString)));
        given.put("highs", texts(assessments, each -> each.targetHigh().map(BigDecimal::toPlainString)));
        given.put("at", array(assessments, each -> each.computedAt().toString(), String[]::new));
        given.put(
                "decisionRules",
                texts(
                        assessments,
                        each -> each.grounds().map(VerdictGrounds::decisionRule).map(Enum::name)));
        given.put("below", numbers(assessments, each -> each.grounds().map(VerdictGrounds::below)));
        given.put("above", numbers(assessments, each -> each.grounds().map(VerdictGrounds::above)));
        given.put(
                "budgets",
                texts(
                        assessments,
                        each -> each.grounds()
                                .map(grounds ->
                                        json.writeValueAsString(grounds.budget().lines()))));
        return given;
    }

    /** What was written down without a lot is of the lot that the kit has now. */
    Map<InstrumentId, Integer> testsMade(Collection<InstrumentId> kits, Instant before) {
        Map<InstrumentId, Integer> made = new HashMap<>();
        jdbc.sql("""
                        select i.id, count(r.id) as tests
                        from instrument i
                        left join reading r on r.instrument_id = i.id
                            and r.replaces_id is null and r.answer <> 'NOT_MEASURED' and r.taken_at < :before
                            and lower(coalesce(r.kit_lot, i.lot)) = lower(i.lot)
                            and r.taken_at >= coalesce(i.purchased_on, date '-infinity')
                        where i.id = any(cast(:kits as uuid[])) and i.lot is not null
                        group by i.id
                        """)
                .param("kits", kits.stream().map(InstrumentId::value).toArray(UUID[]::new))
                .param("before", before.atOffset(ZoneOffset.UTC))
                .query(row -> {
                    made.put(new InstrumentId(row.getObject("id", UUID.class)), row.getInt("tests"));
                });
        return made;
    }

    private static String calibrations(AssessmentView assessment) {
        return assessment.calibrationIds().stream()
                .map(CalibrationId::toString)
                .collect(Collectors.joining(",", "{", "}"));
    }

    private static <T> T[] array(
            List<AssessmentView> assessments, Function<AssessmentView, T> part, IntFunction<T[]> made) {
        return assessments.stream().map(part).toArray(made);
    }

    private static @Nullable String[] texts(
            List<AssessmentView> assessments, Function<AssessmentView, Optional<String>> part) {
        return assessments.stream().map(each -> part.apply(each).orElse(null)).toArray(String[]::new);
    }

    private static @Nullable Double[] numbers(
            List<AssessmentView> assessments, Function<AssessmentView, Optional<Double>> part) {
        return assessments.stream().map(each -> part.apply(each).orElse(null)).toArray(Double[]::new);
    }

    private static void bind(PreparedStatement statement, NewRow row, Instant recordedAt) throws SQLException {
        NewReading reading = row.reading();
        int at = 0;
        statement.setObject(++at, reading.id().value());
        statement.setObject(++at, reading.systemId().value());
        statement.setObject(
                ++at, reading.samplePointId().map(SamplePointId::value).orElse(null), Types.OTHER);
        statement.setString(++at, reading.quantity().name());
        statement.setString(++at, reading.answer().name());
        statement.setBigDecimal(++at, reading.value().orElse(null));
        statement.setBigDecimal(++at, reading.upperValue().orElse(null));
        statement.setString(++at, reading.unit().code());
        statement.setString(++at, reading.gravityReference().orElse(null));
        statement.setBigDecimal(++at, reading.sampleTemperature().orElse(null));
        statement.setObject(
                ++at, reading.instrumentId().map(InstrumentId::value).orElse(null), Types.OTHER);
        statement.setString(++at, reading.kitLot().orElse(null));
        statement.setString(++at, reading.notMeasuredBecause().orElse(null));
        statement.setObject(++at, reading.takenAt().atOffset(ZoneOffset.UTC));
        statement.setObject(++at, reading.person().value());
        statement.setObject(++at, reading.visitId().orElse(null), Types.OTHER);
        statement.setObject(++at, row.replaces().map(ReadingId::value).orElse(null), Types.OTHER);
        statement.setString(++at, row.reason().orElse(null));
        statement.setObject(++at, recordedAt.atOffset(ZoneOffset.UTC));
    }

    private static NewReading stated(ResultSet row) throws SQLException {
        return new NewReading(
                ReadingId.of(row.getObject("id", UUID.class)),
                WaterSystemId.of(row.getObject("water_system_id", UUID.class)),
                uuid(row, "sample_point_id").map(SamplePointId::of),
                Quantity.valueOf(row.getString("quantity")),
                Answer.valueOf(row.getString("answer")),
                Optional.ofNullable(row.getBigDecimal("value")),
                Optional.ofNullable(row.getBigDecimal("upper_value")),
                MeasurementUnit.ofCode(row.getString("unit")).orElseThrow(),
                Optional.ofNullable(row.getString("gravity_reference")),
                Optional.ofNullable(row.getBigDecimal("sample_temperature_c")),
                uuid(row, "instrument_id").map(InstrumentId::of),
                Optional.ofNullable(row.getString("kit_lot")),
                Optional.ofNullable(row.getString("not_measured_because")),
                instant(row, "taken_at"),
                PersonId.of(row.getObject("person_id", UUID.class)),
                uuid(row, "visit_id"));
    }

    private ReadingView view(ResultSet row) throws SQLException {
        return ReadingView.of(
                stated(row),
                uuid(row, "replaces_id").map(ReadingId::of),
                Optional.ofNullable(row.getString("reason")),
                uuid(row, "replaced_by").map(ReadingId::of),
                instant(row, "recorded_at"),
                assessment(row));
    }

    private AssessmentView assessment(ResultSet row) throws SQLException {
        UUID[] calibrations = (UUID[]) row.getArray("calibration_ids").getArray();
        return new AssessmentView(
                VerdictCode.valueOf(row.getString("verdict")),
                VerdictCode.valueOf(row.getString("verdict_as_read")),
                Optional.ofNullable(row.getString("instrument_status")).map(InstrumentStatus::valueOf),
                row.getBoolean("trusted"),
                row.getBoolean("doubtful"),
                number(row, "corrected_value"),
                number(row, "uncertainty"),
                number(row, "salinity"),
                number(row, "salinity_uncertainty"),
                Arrays.asList(json.readValue(row.getString("reasons"), Reason[].class)),
                Arrays.stream(calibrations).map(CalibrationId::of).toList(),
                Optional.ofNullable(row.getBigDecimal("target_low")),
                Optional.ofNullable(row.getBigDecimal("target_high")),
                row.getInt("rule_version"),
                instant(row, "computed_at"),
                grounds(row));
    }

    private Optional<VerdictGrounds> grounds(ResultSet row) throws SQLException {
        @Nullable String rule = row.getString("decision_rule");
        if (rule == null) {
            return Optional.empty();
        }
        var lines = json.readValue(row.getString("budget"), UncertaintyBudget.Line[].class);
        return Optional.of(new VerdictGrounds(
                DecisionRule.valueOf(rule),
                row.getDouble("below_probability"),
                row.getDouble("above_probability"),
                new UncertaintyBudget(Arrays.asList(lines))));
    }

    private static Optional<UUID> uuid(ResultSet row, String column) throws SQLException {
        return Optional.ofNullable(row.getObject(column, UUID.class));
    }

    private static Optional<Double> number(ResultSet row, String column) throws SQLException {
        @Nullable BigDecimal value = row.getBigDecimal(column);
        return Optional.ofNullable(value).map(BigDecimal::doubleValue);
    }

    private static Instant instant(ResultSet row, String column) throws SQLException {
        return row.getObject(column, OffsetDateTime.class).toInstant();
    }
}
