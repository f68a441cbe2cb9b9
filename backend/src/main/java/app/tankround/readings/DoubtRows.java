package app.tankround.readings;

import app.tankround.accounts.PersonId;
import app.tankround.chemistry.RangeVerdict;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.SuspicionId;
import app.tankround.tanks.WaterSystemId;
import app.tankround.units.Quantity;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Types;
import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Doubt lists and their lines. Lines are added by whole sets, since one instrument may have tens of thousands of readings. */
@Repository
class DoubtRows {

    private static final String LISTS = """
            select
                l.*,
                coalesce(c.lines, 0) as lines,
                coalesce(c.open, 0) as open,
                coalesce(c.changed, 0) as changed,
                coalesce(c.not_decidable, 0) as not_decidable,
                s.believed_until,
                s.evidence_id,
                s.reason,
                s.person_id,
                s.stated_at
            from doubt_list l
            left join lateral (
                select
                    count(*) as lines,
                    count(*) filter (where n.outcome is null) as open,
                    count(*) filter (where n.change = 'CHANGED') as changed,
                    count(*) filter (where n.change = 'NOT_DECIDABLE') as not_decidable
                from doubt_line n
                where n.list_id = l.id
            ) c on true
            left join lateral (
                select * from doubt_start b where b.list_id = l.id order by b.believed_until desc limit 1
            ) s on true
            """;

    /** Of these it is a danger too if nothing can be told: what kills, and salinity. */
    private static final String[] DANGEROUS = Arrays.stream(Quantity.values())
            .filter(quantity -> quantity == Quantity.SALINITY || RangeVerdict.kills(quantity))
            .map(Quantity::name)
            .toArray(String[]::new);

    /** What is known now beside what was thought while the instrument was believed, or as read where it never was. */
    private static final String CHANGE = """
            case
                when coalesce(b.verdict, a.verdict_as_read) = a.verdict then 'UNCHANGED'
                when a.verdict = 'UNDECIDED' then 'NOT_DECIDABLE'
                else 'CHANGED'
            end
            """;

    private static final String BEFORE = """
            left join lateral (
                select o.id, o.verdict
                from assessment o
                where o.reading_id = r.id and not o.doubtful
                order by o.id desc
                limit 1
            ) b on true
            """;

    private static final String ADD_READINGS = """
            insert into doubt_line (list_id, reading_id, happened_at, before_id, after_id, change, outcome, ended_at)
            select l.id, r.id, r.taken_at, b.id, a.id,
            """ + CHANGE + """
                , case when r.taken_at <= s.believed_until then 'EVIDENCE' end,
                case when r.taken_at <= s.believed_until then cast(:now as timestamptz) end
            from doubt_list l
            join reading r
                on r.instrument_id = l.instrument_id
                and r.taken_at >= coalesce(l.doubt_from, '-infinity')
                and r.taken_at < l.doubt_until
            join newest_assessment w on w.reading_id = r.id
            join assessment a on a.id = w.assessment_id
            """ + BEFORE + """
            left join lateral (
                select max(believed_until) as believed_until from doubt_start where list_id = l.id
            ) s on true
            where r.answer <> 'NOT_MEASURED'
                and not exists (select 1 from reading n where n.replaces_id = r.id)
                and not exists (
                    select 1
                    from doubt_list o
                    join doubt_line other on other.list_id = o.id and other.reading_id = r.id
                    where o.instrument_id = l.instrument_id and o.id <> l.id
                )
            """;

    /**
     * What a reading in doubt means for a decision that rests on it: without a target, or where the method cannot tell, there
     * is no verdict that could stand, and whoever judged the bare number, as for a batch of water, could not judge it now.
     */
    private static final String RESTING = """
            case
                when l.change = 'UNCHANGED' and a.verdict in ('NO_TARGET', 'UNDECIDED') then 'NOT_DECIDABLE'
                else l.change
            end
            """;

    /** Of several verdicts behind one decision a changed one weighs most. */
    private static final String WORST = """
            case
                when bool_or(change = 'CHANGED') then 'CHANGED'
                when bool_or(change = 'NOT_DECIDABLE') then 'NOT_DECIDABLE'
                else 'UNCHANGED'
            end
            """;

    /** However many readings an instrument has, its page looks at so many of them for others beside them. */
    private static final int NEWEST_LOOKED_AT = 500;

    private final JdbcClient jdbc;

    DoubtRows(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** Waits until nobody is writing down readings of an instrument; whoever comes later waits for the running transaction. */
    void hold(InstrumentId instrument) {
        jdbc.sql("select id from instrument where id = :id for update")
                .param("id", instrument.value())
                .query(row -> {});
    }

    String instrumentCode(InstrumentId instrument) {
        return jdbc.sql("select code from instrument where id = :id")
                .param("id", instrument.value())
                .query(String.class)
                .single();
    }

    /** @return false if there is a list of that suspicion already */
    boolean add(
            DoubtListId id,
            SuspicionId suspicion,
            InstrumentId instrument,
            @Nullable Instant from,
            Instant until,
            Instant now) {
        return jdbc.sql("""
                                insert into doubt_list (
                                    id, suspicion_id, instrument_id, doubt_from, doubt_until, made_at)
                                values (:id, :suspicion, :instrument, :from, :until, :now)
                                on conflict (suspicion_id) do nothing
                                """)
                        .param("id", id.value())
                        .param("suspicion", suspicion.value())
                        .param("instrument", instrument.value())
                        .param("from", from == null ? null : utc(from), Types.TIMESTAMP_WITH_TIMEZONE)
                        .param("until", utc(until))
                        .param("now", utc(now))
                        .update()
                > 0;
    }

    /** Puts every reading of the interval on a new list, and every decision that rests on them, at whatever remove. */
    void fill(DoubtListId id, Instant now) {
        // No line can be there: asking of each whether one is would take a quarter of the time.
        jdbc.sql(ADD_READINGS + " and l.id = :list")
                .param("list", id.value())
                .param("now", utc(now))
                .update();
        jdbc.sql("""
                        with recursive doubted as (
                            select l.reading_id,
                        """ + RESTING + """
                                as change
                            from doubt_line l
                            left join assessment a on a.id = l.after_id
                            where l.list_id = :list and l.reading_id is not null
                            union
                            select r.replaces_id, d.change
                            from doubted d
                            join reading r on r.id = d.reading_id
                            where r.replaces_id is not null
                        ),
                        resting as (
                            select r.decision_id, d.change
                            from doubted d
                            join decision_reading r on r.reading_id = d.reading_id
                            union
                            select c.decision_id, 'NOT_DECIDABLE'
                            from doubt_list t
                            join calibration k
                                on k.instrument_id = t.instrument_id
                                and k.performed_at > coalesce(t.doubt_from, '-infinity')
                                and k.performed_at < t.doubt_until
                            join decision_check c on c.calibration_id = k.id
                            where t.id = :list
                            union
                            select m.decision_id, 'NOT_DECIDABLE'
                            from doubt_list t
                            join decision_instrument m
                                on m.instrument_id = t.instrument_id
                                and m.measured_at > coalesce(t.doubt_from, '-infinity')
                                and m.measured_at < t.doubt_until
                            where t.id = :list
                            union
                            select o.decision_id, rests.change
                            from resting rests
                            join decision_decision o on o.rests_on_id = rests.decision_id
                        ),
                        worst as (
                            select decision_id,
                        """ + WORST + """
                                as change
                            from resting
                            group by decision_id
                        )
                        insert into doubt_line (list_id, decision_id, happened_at, change)
                        select :list, d.id, d.decided_at, w.change
                        from worst w
                        join decision d on d.id = w.decision_id and d.replaced_at is null
                        on conflict do nothing
                        """).param("list", id.value()).update();
    }

    /** Whether there is a list at all, as in few businesses: with each reading and decision the question is asked first. */
    boolean isAny() {
        return jdbc.sql("select exists (select from doubt_list)")
                .query(Boolean.class)
                .single();
    }

    /** Puts readings that came in late on the lists whose interval they lie in. */
    Set<DoubtListId> addLate(Collection<ReadingId> readings, Instant now) {
        return new HashSet<>(jdbc.sql(ADD_READINGS + """
                         and r.id = any(cast(:readings as uuid[]))
                        on conflict do nothing
                        returning list_id
                        """)
                .param("readings", readings.stream().map(ReadingId::value).toArray(UUID[]::new))
                .param("now", utc(now))
                .query((row, number) -> DoubtListId.of(row.getObject("list_id", UUID.class)))
                .list());
    }

    /** Puts decisions on the lists on which something that they rest on is still open. */
    Set<DoubtListId> addDecisions(Collection<DecisionId> decisions) {
        return new HashSet<>(jdbc.sql("""
                        with behind as (
                            select r.decision_id, l.list_id,
                        """ + RESTING + """
                                as change
                            from decision_reading r
                            join doubt_line l on l.reading_id = r.reading_id and l.outcome is null
                            left join assessment a on a.id = l.after_id
                            where r.decision_id = any(cast(:decisions as uuid[]))
                            union
                            select o.decision_id, l.list_id, l.change
                            from decision_decision o
                            join doubt_line l on l.decision_id = o.rests_on_id and l.outcome is null
                            where o.decision_id = any(cast(:decisions as uuid[]))
                            union
                            select c.decision_id, t.id, 'NOT_DECIDABLE'
                            from decision_check c
                            join calibration k on k.id = c.calibration_id
                            join doubt_list t
                                on t.instrument_id = k.instrument_id
                                and k.performed_at > coalesce(t.doubt_from, '-infinity')
                                and k.performed_at < t.doubt_until
                            where c.decision_id = any(cast(:decisions as uuid[]))
                            union
                            select m.decision_id, t.id, 'NOT_DECIDABLE'
                            from decision_instrument m
                            join doubt_list t
                                on t.instrument_id = m.instrument_id
                                and m.measured_at > coalesce(t.doubt_from, '-infinity')
                                and m.measured_at < t.doubt_until
                            where m.decision_id = any(cast(:decisions as uuid[]))
                        ),
                        worst as (
                            select decision_id, list_id,
                        """ + WORST + """
                                as change
                            from behind
                            group by decision_id, list_id
                        )
                        insert into doubt_line (list_id, decision_id, happened_at, change)
                        select w.list_id, d.id, d.decided_at, w.change
                        from worst w
                        join decision d on d.id = w.decision_id
                        on conflict do nothing
                        returning list_id
                        """)
                .param("decisions", decisions.stream().map(DecisionId::value).toArray(UUID[]::new))
                .query((row, number) -> DoubtListId.of(row.getObject("list_id", UUID.class)))
                .list());
    }

    /** Takes over what a further check says about lines that are open. */
    void refresh(InstrumentId instrument) {
        jdbc.sql("""
                        update doubt_line n
                        set after_id = a.id, change =
                        """ + CHANGE + """
                        from doubt_line m
                        join doubt_list l on l.id = m.list_id
                        join reading r on r.id = m.reading_id
                        join newest_assessment w on w.reading_id = r.id
                        join assessment a on a.id = w.assessment_id
                        """ + BEFORE + """
                        where m.id = n.id and l.instrument_id = :instrument and m.outcome is null and a.id <> m.after_id
                        """)
                .param("instrument", instrument.value())
                .update();
    }

    Optional<DoubtListView> find(DoubtListId id) {
        return jdbc.sql(LISTS + " where l.id = :id")
                .param("id", id.value())
                .query((row, number) -> list(row))
                .optional();
    }

    /** Newest first. */
    List<DoubtListView> of(InstrumentId instrument) {
        return jdbc.sql(LISTS + " where l.instrument_id = :instrument order by l.made_at desc, l.id desc")
                .param("instrument", instrument.value())
                .query((row, number) -> list(row))
                .list();
    }

    /** Lists with open lines about readings of a system, newest first. */
    List<DoubtListView> touching(WaterSystemId system) {
        return jdbc.sql(LISTS + """
                        where exists (
                            select 1
                            from reading r
                            join doubt_line n on n.reading_id = r.id
                            where r.water_system_id = :system and n.list_id = l.id and n.outcome is null
                        )
                        order by l.made_at desc, l.id desc
                        """)
                .param("system", system.value())
                .query((row, number) -> list(row))
                .list();
    }

    /** Open ones first, then newest first. */
    List<DoubtListView> all() {
        return jdbc.sql(LISTS + " order by coalesce(c.open, 0) = 0, l.made_at desc, l.id desc")
                .query((row, number) -> list(row))
                .list();
    }

    /** A line as it is stored, with who is at risk. */
    record Row(
            long id,
            DoubtListId listId,
            Instant happenedAt,
            DoubtChange change,
            DoubtRisk risk,
            Optional<ReadingId> reading,
            Optional<DecisionId> decision,
            Optional<Long> before,
            Optional<Long> after,
            Optional<DoubtLineView.Ending> ending) {}

    /**
     * Lines of a list, open ones first, by who is at risk now, newest first. The last that is known of a place is what
     * counts now; a trusted reading since then has taken the risk away.
     */
    List<Row> lines(DoubtListId list, int offset, int limit) {
        return lines(list, Optional.empty(), offset, limit);
    }

    /** Of these alone, in the same order. */
    List<Row> lines(DoubtListId list, Collection<Long> only) {
        return only.isEmpty() ? List.of() : lines(list, Optional.of(only), 0, only.size());
    }

    private List<Row> lines(DoubtListId list, Optional<Collection<Long>> only, int offset, int limit) {
        return jdbc.sql("""
                        with doubted as (
                            select
                                l.id as line_id,
                                r.id as reading_id,
                                r.water_system_id,
                                r.quantity,
                                r.sample_point_id,
                                r.taken_at,
                                a.verdict,
                                row_number() over (
                                    partition by r.water_system_id, r.quantity, r.sample_point_id
                                    order by r.taken_at desc, r.recorded_at desc
                                ) as age
                            from doubt_line l
                            join reading r on r.id = l.reading_id
                            join assessment a on a.id = l.after_id
                            where l.list_id = :list and l.outcome is null
                        ),
                        danger as (
                            select d.line_id, d.reading_id
                            from doubted d
                            join water_system s on s.id = d.water_system_id
                            where d.age = 1
                                and s.active
                                and s.kind <> 'SUPPLY'
                                and (
                                    d.verdict in ('ABOVE', 'BELOW')
                                    or d.verdict = 'UNDECIDED' and d.quantity = any(cast(:dangerous as text[]))
                                )
                                and not\s""" + ReadingRows.trustedSince("d") + """
                        ),
                        dangerous as (
                            select distinct r.decision_id
                            from danger d
                            join decision_reading r on r.reading_id = d.reading_id
                        )
                        select *
                        from (
                            select
                                l.*,
                                case
                                    when d.kind = 'report-sent' then 'REPORT'
                                    when g.line_id is not null or p.decision_id is not null then 'ANIMALS'
                                    when not s.active then 'PAST'
                                    else 'LIVE_SYSTEM'
                                end as risk
                            from doubt_line l
                            left join reading r on r.id = l.reading_id
                            left join decision d on d.id = l.decision_id
                            left join water_system s
                                on s.id = coalesce(
                                    r.water_system_id, case when d.subject_kind = 'water-system' then d.subject_id end)
                            left join danger g on g.line_id = l.id
                            left join dangerous p on p.decision_id = l.decision_id and l.outcome is null
                            where l.list_id = :list and (:every or l.id = any(cast(:only as bigint[])))
                        ) line
                        order by
                            outcome is not null,
                            array_position(array['ANIMALS', 'LIVE_SYSTEM', 'REPORT', 'PAST'], risk),
                            happened_at desc,
                            id desc
                        offset :offset
                        limit :limit
                        """)
                .param("list", list.value())
                .param("dangerous", DANGEROUS)
                .param("every", only.isEmpty())
                .param("only", only.stream().flatMap(Collection::stream).toArray(Long[]::new))
                .param("offset", offset)
                .param("limit", limit)
                .query((row, number) -> row(row, DoubtRisk.valueOf(row.getString("risk"))))
                .list();
    }

    /** One line; its risk is not looked into. */
    Optional<Row> line(long id) {
        return jdbc.sql("select l.* from doubt_line l where l.id = :id")
                .param("id", id)
                .query((row, number) -> row(row, DoubtRisk.LIVE_SYSTEM))
                .optional();
    }

    /** Lines about readings, of all lists. */
    List<Row> about(Collection<ReadingId> readings) {
        return jdbc.sql(
                        "select l.* from doubt_line l where l.reading_id = any(cast(:readings as uuid[])) order by l.id")
                .param("readings", readings.stream().map(ReadingId::value).toArray(UUID[]::new))
                .query((row, number) -> row(row, DoubtRisk.LIVE_SYSTEM))
                .list();
    }

    /** Lines about what was done to something, of all lists. */
    List<Row> about(String subjectKind, UUID subjectId) {
        return jdbc.sql("""
                        select l.*
                        from decision d
                        join doubt_line l on l.decision_id = d.id
                        where d.subject_kind = :kind and d.subject_id = :subject
                        order by l.id
                        """)
                .param("kind", subjectKind)
                .param("subject", subjectId)
                .query((row, number) -> row(row, DoubtRisk.REPORT))
                .list();
    }

    /**
     * The open lines that are like one, whoever is at risk: what became of them is the same, and they are the same quantity of
     * the same system, or what was done in the same way to the same thing.
     */
    List<Long> alike(long line) {
        return jdbc.sql("""
                        select o.id
                        from doubt_line l
                        join doubt_line o on o.list_id = l.list_id and o.outcome is null
                        left join reading lr on lr.id = l.reading_id
                        left join reading r on r.id = o.reading_id
                        left join decision ld on ld.id = l.decision_id
                        left join decision d on d.id = o.decision_id
                        left join assessment lb on lb.id = l.before_id
                        left join assessment la on la.id = l.after_id
                        left join assessment ob on ob.id = o.before_id
                        left join assessment oa on oa.id = o.after_id
                        where l.id = :line
                            and o.change = l.change
                            and oa.verdict is not distinct from la.verdict
                            and coalesce(ob.verdict, oa.verdict_as_read)
                                is not distinct from coalesce(lb.verdict, la.verdict_as_read)
                            and (
                                lr.water_system_id = r.water_system_id and lr.quantity = r.quantity
                                or ld.kind = d.kind and ld.subject_kind = d.subject_kind and ld.subject_id = d.subject_id
                            )
                        """)
                .param("line", line)
                .query((row, number) -> row.getLong("id"))
                .list();
    }

    /** Ends open lines. @return how many were open */
    int end(Collection<Long> lines, DoubtLineView.Ending ending) {
        return jdbc.sql("""
                        update doubt_line
                        set outcome = :outcome, ended_at = :at, ended_by = :by, again_id = :again, note = :note
                        where id = any(cast(:lines as bigint[])) and outcome is null
                        """)
                .param("outcome", ending.outcome().name())
                .param("at", utc(ending.at()))
                .param("by", ending.by().map(PersonId::value).orElse(null), Types.OTHER)
                .param("again", ending.again().map(ReadingId::value).orElse(null), Types.OTHER)
                .param("note", ending.note().orElse(null), Types.VARCHAR)
                .param("lines", lines.toArray(Long[]::new))
                .update();
    }

    /** The open lines of a reading. */
    List<Long> openLines(ReadingId reading) {
        return jdbc.sql("select id from doubt_line where reading_id = :reading and outcome is null")
                .param("reading", reading.value())
                .query((row, number) -> row.getLong("id"))
                .list();
    }

    /** The open lines of decisions. */
    List<Long> openLines(Collection<DecisionId> decisions) {
        return jdbc.sql("""
                        select id from doubt_line where decision_id = any(cast(:decisions as uuid[])) and outcome is null
                        """)
                .param("decisions", decisions.stream().map(DecisionId::value).toArray(UUID[]::new))
                .query((row, number) -> row.getLong("id"))
                .list();
    }

    /** A reading in doubt and one by another, trusted instrument on the same water within a day of it. */
    record Pair(ReadingId doubted, ReadingId other) {}

    /** Newest first. */
    List<Pair> pairs(DoubtListId list, int limit) {
        return jdbc.sql("""
                        select m.id as doubted, o.id as other
                        from doubt_line l
                        join doubt_list t on t.id = l.list_id
                        join instrument_suspicion q on q.id = t.suspicion_id
                        join reading m on m.id = l.reading_id
                        join reading o
                            on o.water_system_id = m.water_system_id
                            and o.quantity = m.quantity
                            and o.sample_point_id is not distinct from m.sample_point_id
                            and o.instrument_id <> m.instrument_id
                            and o.taken_at between m.taken_at - interval '1 day' and m.taken_at + interval '1 day'
                            and o.taken_at >= coalesce(t.doubt_from, '-infinity')
                            and o.taken_at < t.doubt_until
                        join newest_assessment w on w.reading_id = o.id
                        join assessment a on a.id = w.assessment_id and a.trusted
                        where l.list_id = :list
                            and l.before_id is not null
                            and m.taken_at < coalesce(q.check_at, t.doubt_until)
                            and m.answer = 'VALUE'
                            and o.answer = 'VALUE'
                            and not exists (select 1 from reading n where n.replaces_id = o.id)
                        order by m.taken_at desc, o.taken_at desc
                        limit :limit
                        """)
                .param("list", list.value())
                .param("limit", limit)
                .query((row, number) -> new Pair(
                        ReadingId.of(row.getObject("doubted", UUID.class)),
                        ReadingId.of(row.getObject("other", UUID.class))))
                .list();
    }

    /**
     * Of the newest readings by an instrument since an instant, those beside which a trusted one by another instrument stands on the
     * same water, each with the nearest before and the nearest after it; the newest first.
     *
     * @param window how far apart in time they may lie
     */
    List<Pair> nearest(InstrumentId instrument, Instant from, Duration window, int limit) {
        return jdbc.sql("""
                        select m.id as doubted, o.id as other
                        from (
                            select r.*
                            from reading r
                            where r.instrument_id = :instrument
                                and r.taken_at >= :from
                                and r.answer = 'VALUE'
                                and not exists (select 1 from reading n where n.replaces_id = r.id)
                            order by r.taken_at desc
                            limit :newest
                        ) m
                        cross join (values (true), (false)) as side (earlier)
                        cross join lateral (
                            select t.id, t.taken_at
                            from reading t
                            join newest_assessment w on w.reading_id = t.id
                            join assessment a on a.id = w.assessment_id and a.trusted
                            where t.water_system_id = m.water_system_id
                                and t.quantity = m.quantity
                                and t.sample_point_id is not distinct from m.sample_point_id
                                and t.instrument_id <> m.instrument_id
                                and t.answer = 'VALUE'
                                and (t.taken_at <= m.taken_at) = side.earlier
                                and t.taken_at between m.taken_at - make_interval(secs => :seconds)
                                    and m.taken_at + make_interval(secs => :seconds)
                                and not exists (select 1 from reading n where n.replaces_id = t.id)
                            order by abs(extract(epoch from t.taken_at - m.taken_at))
                            limit 1
                        ) o
                        order by m.taken_at desc, abs(extract(epoch from o.taken_at - m.taken_at))
                        limit :limit
                        """)
                .param("instrument", instrument.value())
                .param("from", utc(from))
                .param("seconds", window.toSeconds())
                .param("newest", NEWEST_LOOKED_AT)
                .param("limit", limit)
                .query((row, number) -> new Pair(
                        ReadingId.of(row.getObject("doubted", UUID.class)),
                        ReadingId.of(row.getObject("other", UUID.class))))
                .list();
    }

    /**
     * An interval in which a condemned instrument is believed after all.
     *
     * @param from the last good check, or the beginning of time
     */
    record Believed(Instant from, Instant until) {

        boolean covers(Instant instant) {
            return !instant.isBefore(from) && !instant.isAfter(until);
        }
    }

    /** Instruments without any are missing. */
    Map<InstrumentId, List<Believed>> believed(Collection<InstrumentId> instruments) {
        Map<InstrumentId, List<Believed>> found = new HashMap<>();
        jdbc.sql("""
                        select l.instrument_id, l.doubt_from, max(s.believed_until) as believed_until
                        from doubt_list l
                        join doubt_start s on s.list_id = l.id
                        where l.instrument_id = any(cast(:instruments as uuid[]))
                        group by l.id
                        """)
                .param(
                        "instruments",
                        instruments.stream().map(InstrumentId::value).toArray(UUID[]::new))
                .query(row -> {
                    found.computeIfAbsent(
                                    InstrumentId.of(row.getObject("instrument_id", UUID.class)),
                                    id -> new ArrayList<>())
                            .add(new Believed(
                                    moment(row, "doubt_from").orElse(Instant.EPOCH),
                                    moment(row, "believed_until").orElseThrow()));
                });
        return found;
    }

    void begin(UUID id, DoubtListId list, ReadingId doubted, DoubtListView.Start start) {
        jdbc.sql("""
                        insert into doubt_start (
                            id, list_id, believed_until, reading_id, evidence_id, reason, person_id, stated_at)
                        values (:id, :list, :until, :reading, :evidence, :reason, :person, :at)
                        """)
                .param("id", id)
                .param("list", list.value())
                .param("until", utc(start.believedUntil()))
                .param("reading", doubted.value())
                .param("evidence", start.evidence().value())
                .param("reason", start.reason())
                .param("person", start.by().map(PersonId::value).orElse(null), Types.OTHER)
                .param("at", utc(start.statedAt()))
                .update();
    }

    /** Ends what the instrument is believed in after all: readings up to an instant, and what rests on nothing else in doubt. */
    void endBelieved(DoubtListId list, DoubtListView.Start start) {
        jdbc.sql("""
                        update doubt_line
                        set outcome = 'EVIDENCE', ended_at = :at, ended_by = :by
                        where list_id = :list and reading_id is not null and outcome is null and happened_at <= :until
                        """)
                .param("list", list.value())
                .param("until", utc(start.believedUntil()))
                .param("at", utc(start.statedAt()))
                .param("by", start.by().map(PersonId::value).orElse(null), Types.OTHER)
                .update();
        int ended;
        do {
            ended = jdbc.sql("""
                            update doubt_line l
                            set outcome = 'EVIDENCE', ended_at = :at, ended_by = :by
                            where l.list_id = :list
                                and l.decision_id is not null
                                and l.outcome is null
                                and not exists (
                                    with recursive versions as (
                                        select r.reading_id
                                        from decision_reading r
                                        where r.decision_id = l.decision_id
                                        union
                                        select n.id
                                        from versions v
                                        join reading n on n.replaces_id = v.reading_id
                                    )
                                    select 1
                                    from versions v
                                    join doubt_line m on m.reading_id = v.reading_id and m.list_id = l.list_id
                                    where m.outcome is distinct from 'EVIDENCE'
                                )
                                and not exists (
                                    select 1
                                    from decision_decision o
                                    join doubt_line m on m.decision_id = o.rests_on_id and m.list_id = l.list_id
                                    where o.decision_id = l.decision_id and m.outcome is distinct from 'EVIDENCE'
                                )
                            """)
                    .param("list", list.value())
                    .param("at", utc(start.statedAt()))
                    .param("by", start.by().map(PersonId::value).orElse(null), Types.OTHER)
                    .update();
        } while (ended > 0);
    }

    private static DoubtListView list(ResultSet row) throws SQLException {
        return new DoubtListView(
                DoubtListId.of(row.getObject("id", UUID.class)),
                SuspicionId.of(row.getObject("suspicion_id", UUID.class)),
                InstrumentId.of(row.getObject("instrument_id", UUID.class)),
                moment(row, "doubt_from"),
                moment(row, "doubt_until").orElseThrow(),
                moment(row, "made_at").orElseThrow(),
                row.getInt("lines"),
                row.getInt("open"),
                row.getInt("changed"),
                row.getInt("not_decidable"),
                start(row));
    }

    private static Optional<DoubtListView.Start> start(ResultSet row) throws SQLException {
        Optional<Instant> until = moment(row, "believed_until");
        return until.isEmpty()
                ? Optional.empty()
                : Optional.of(new DoubtListView.Start(
                        until.get(),
                        ReadingId.of(row.getObject("evidence_id", UUID.class)),
                        row.getString("reason"),
                        uuid(row, "person_id").map(PersonId::of),
                        moment(row, "stated_at").orElseThrow()));
    }

    private static Row row(ResultSet row, DoubtRisk risk) throws SQLException {
        Optional<DoubtLineView.Ending> ending = row.getString("outcome") == null
                ? Optional.empty()
                : Optional.of(new DoubtLineView.Ending(
                        DoubtOutcome.valueOf(row.getString("outcome")),
                        moment(row, "ended_at").orElseThrow(),
                        uuid(row, "ended_by").map(PersonId::of),
                        uuid(row, "again_id").map(ReadingId::of),
                        Optional.ofNullable(row.getString("note"))));
        return new Row(
                row.getLong("id"),
                DoubtListId.of(row.getObject("list_id", UUID.class)),
                moment(row, "happened_at").orElseThrow(),
                DoubtChange.valueOf(row.getString("change")),
                risk,
                uuid(row, "reading_id").map(ReadingId::of),
                uuid(row, "decision_id").map(DecisionId::of),
                Optional.ofNullable(row.getObject("before_id", Long.class)),
                Optional.ofNullable(row.getObject("after_id", Long.class)),
                ending);
    }

    private static Optional<UUID> uuid(ResultSet row, String column) throws SQLException {
        return Optional.ofNullable(row.getObject(column, UUID.class));
    }

    private static Optional<Instant> moment(ResultSet row, String column) throws SQLException {
        return Optional.ofNullable(row.getObject(column, OffsetDateTime.class)).map(OffsetDateTime::toInstant);
    }

    private static OffsetDateTime utc(Instant instant) {
        return instant.atOffset(ZoneOffset.UTC);
    }
}
