package app.tankround.persistence;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;

import app.tankround.chemistry.DecisionRule;
import app.tankround.chemistry.InstrumentStatus;
import app.tankround.chemistry.ReasonCode;
import app.tankround.chemistry.UncertaintySource;
import app.tankround.chemistry.VerdictCode;
import app.tankround.readings.Answer;
import app.tankround.schedule.VisitRhythm;
import app.tankround.testing.TestDatabase;
import app.tankround.testing.TestPostgres;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.flywaydb.core.Flyway;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.FieldSource;
import org.springframework.core.io.ClassPathResource;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.jdbc.datasource.SingleConnectionDataSource;

/** What a business wrote down with a released version of the program is there, unchanged, after every migration since. */
class UpgradeTests {

    /** Schema versions that were released, each with its rows in {@code upgrade/rows-of-VERSION.sql}. Only added to. */
    private static final List<String> RELEASED = List.of(
            "202611251631",
            "202611260240",
            "202611260851",
            "202611261410",
            "202611261815",
            "202611262150",
            "202611270120",
            "202611270502",
            "202611270620",
            "202611272003",
            "202611272121");

    /**
     * By released version the tables whose data a later migration moves on purpose, each with the query that finds the
     * columns of then in the newest schema, under their old names and in the old types.
     */
    private static final Map<String, Map<String, String>> MOVED = Map.of(
            "202611251631",
            Map.of(
                    "assessment", """
                    select a.*, w.reading_id is not null as latest
                    from assessment a
                    left join newest_assessment w on w.assessment_id = a.id
                    """,
                    "instrument", """
                    select id, code, name,
                        case when kind in ('TITRATION_KIT', 'COLOUR_KIT') then 'TEST_KIT' else kind end as kind,
                        quantity, unit, gravity_reference, graduation, resolution, permitted_error, check_interval_days, lot,
                        expires_on, purchased_on, retired_on, holder_id, version
                    from instrument
                    """,
                    "calibration", """
                    select id, code, instrument_id, standard_id, performed_at, person_id, as_found[1] as as_found,
                        as_left[1] as as_left, standard_value, standard_unit, standard_uncertainty, standard_lot,
                        temperature_c, note, recorded_at
                    from calibration
                    """));

    private static final String FIRST_WITH_RULES = "202611261715";

    /** The same for every version that was released before agreements had rules. */
    private static final Map<String, String> MOVED_BEFORE_RULES = Map.of("agreement", """
                    select id, code, water_system_id, every_days / 7 as every_weeks, weekdays, valid_from, valid_until, minutes,
                        price, planned_from, planned_until, version
                    from agreement
                    """);

    private static final String FIRST_WITH_LEDGER = "202611271601";

    /** The same for every version that was released before the ledger had what is on the shelf. */
    private static final Map<String, String> MOVED_TO_LEDGER = Map.of("stock_item", """
                    select i.*, coalesce(sum(b.amount), 0) as on_hand
                    from stock_item i
                    left join stock_balance b on b.item_id = i.id and b.account = 'DEPOT' and b.place is null
                    group by i.id
                    """);

    private static final String NEWEST = "latest";
    private static final Pattern ALLOWED_VALUE = Pattern.compile("'([^']*)'::text");

    @ParameterizedTest
    @FieldSource("RELEASED")
    void keepsEveryRowOfAReleasedVersionAsItWas(String version) throws IOException {
        Map<String, String> moved =
                new TreeMap<>(version.compareTo(FIRST_WITH_LEDGER) < 0 ? MOVED_TO_LEDGER : Map.of());
        moved.putAll(version.compareTo(FIRST_WITH_RULES) < 0 ? MOVED_BEFORE_RULES : Map.of());
        moved.putAll(MOVED.getOrDefault(version, Map.of()));
        try (var database = new Database()) {
            database.fill(version);
            Map<String, List<String>> tables = database.tables();
            Map<String, List<Map<String, Object>>> before = database.rows(tables, Map.of());

            database.migrate(NEWEST);

            Map<String, List<String>> newest = database.tables();
            tables.forEach((table, columns) -> assertThat(moved.containsKey(table)
                            || newest.getOrDefault(table, List.of()).containsAll(columns))
                    .as("%s %s is still there, or MOVED says where it went", table, columns)
                    .isTrue());
            Map<String, List<Map<String, Object>>> after = database.rows(tables, moved);
            before.forEach(
                    (table, rows) -> assertThat(after.get(table)).as(table).containsAll(rows));
        }
    }

    @ParameterizedTest
    @FieldSource("RELEASED")
    void hasARowOfThenForEveryTableColumnAndAllowedValue(String version) throws IOException {
        try (var database = new Database()) {
            database.fill(version);
            Map<String, List<Map<String, Object>>> rows = database.rows(database.tables(), Map.of());

            assertThat(rows).isNotEmpty();
            rows.forEach((table, held) -> assertThat(held)
                    .as(table)
                    .isNotEmpty()
                    .satisfies(filled -> filled.getFirst()
                            .keySet()
                            .forEach(column -> assertThat(filled)
                                    .as("%s.%s", table, column)
                                    .anySatisfy(
                                            row -> assertThat(row.get(column)).isNotNull()))));
            database.allowedValues()
                    .forEach((column, allowed) -> assertThat(rows.get(column.table()))
                            .as(column.toString())
                            .extracting(row -> row.get(column.name()))
                            .containsAll(allowed));
        }
    }

    @Test
    void givesAgreementsOfThenTheRuleOfTheSameDays() throws IOException {
        try (var database = new Database()) {
            database.fill("202611260851");
            Map<String, VisitRhythm> agreed = new TreeMap<>();
            for (int weeks = 1; weeks <= 4; weeks++) {
                for (int day = 0; day < 7; day++) {
                    for (Set<DayOfWeek> allowed : List.of(
                            Set.of(DayOfWeek.MONDAY),
                            Set.of(DayOfWeek.SUNDAY),
                            Set.of(DayOfWeek.TUESDAY, DayOfWeek.FRIDAY))) {
                        LocalDate first = LocalDate.of(2026, 11, 23).plusDays(day);
                        String code = "A-%d-%s-%s"
                                .formatted(
                                        weeks, first, allowed.stream().sorted().toList());
                        agreed.put(code, VisitRhythm.oneInWeeks(weeks, allowed, first, Optional.empty()));
                        database.jdbc.update(
                                """
                                insert into agreement (id, code, water_system_id, every_weeks, weekdays, valid_from, minutes,
                                    price, planned_from, version)
                                select gen_random_uuid(), ?, water_system_id, ?, ?, ?, 45, 60, ?, 0
                                from agreement where code = 'A-001'
                                """,
                                code,
                                weeks,
                                allowed.stream()
                                        .sorted()
                                        .map(on -> on.name().substring(0, 2))
                                        .collect(Collectors.joining(",")),
                                first,
                                first);
                    }
                }
            }

            database.migrate(NEWEST);

            assertThat(agreed).hasSize(84);
            agreed.forEach((code, rhythm) -> assertThat(database.texts(
                            "select rule || ' ' || every_days from agreement where code = '" + code + "'"))
                    .as(code)
                    .containsExactly(
                            rhythm.rule().text() + " " + 7 * rhythm.everyWeeks().orElseThrow()));
        }
    }

    /** A correction of a dose that was entered by an earlier program finds the dose and its matter. */
    @Test
    void namesTheDosesOfThenAsFieldsOfTheirVisits() throws IOException {
        String visit = "e0000000-0000-7000-8000-000000000003";
        String line = "0190b3a2-0000-7000-8000-000000000001";
        try (var database = new Database()) {
            database.fill("202611260240");
            database.jdbc.update("""
                    insert into dose_given (key, water_system_id, product, amount, unit, given_at, visit_id, agreed)
                    select ?, water_system_id, product, amount, unit, given_at, visit_id, false
                    from dose_given where agreed
                    """, visit + "/" + line);
            database.jdbc.update(
                    "update followup set topic = ? where settled_at is null and topic like 'dose-given%'",
                    "dose-given-against:" + visit + "/" + line);

            database.migrate(NEWEST);

            assertThat(database.texts("select key from dose_given"))
                    .contains(visit + "/dose/" + line)
                    .anyMatch(key -> key.startsWith(visit + "/task/"));
            assertThat(database.texts("select topic from followup where topic like 'dose-given%'"))
                    .containsExactly("dose-given-against:" + visit + "/dose/" + line);
        }
    }

    @Test
    void takesARoundOfThenForTheFirstOfItsVanOnThatDay() throws IOException {
        try (var database = new Database()) {
            database.fill("202611262150");

            database.migrate(NEWEST);

            assertThat(database.texts("select distinct trip::text from round")).containsExactly("1");
            assertThat(database.texts("select distinct trip::text from week_plan_stop"))
                    .containsExactly("1");
        }
    }

    @ParameterizedTest
    @FieldSource("RELEASED")
    void stillUnderstandsEveryCodeOfThen(String version) throws IOException {
        try (var database = new Database()) {
            database.fill(version);
            database.migrate(NEWEST);

            database.texts("select verdict from assessment union select verdict_as_read from assessment")
                    .forEach(code ->
                            assertThatCode(() -> VerdictCode.valueOf(code)).doesNotThrowAnyException());
            database.texts("select instrument_status from assessment where instrument_status is not null")
                    .forEach(code ->
                            assertThatCode(() -> InstrumentStatus.valueOf(code)).doesNotThrowAnyException());
            database.texts("select reason ->> 'code' from assessment, jsonb_array_elements(reasons) as reason")
                    .forEach(code ->
                            assertThatCode(() -> ReasonCode.valueOf(code)).doesNotThrowAnyException());
            database.textsIfAny("select decision_rule from assessment where decision_rule is not null")
                    .forEach(code ->
                            assertThatCode(() -> DecisionRule.valueOf(code)).doesNotThrowAnyException());
            database.textsIfAny("select part ->> 'source' from assessment, jsonb_array_elements(budget) as part")
                    .forEach(code -> assertThatCode(() -> UncertaintySource.valueOf(code))
                            .doesNotThrowAnyException());
            database.texts("select answer from reading")
                    .forEach(code -> assertThatCode(() -> Answer.valueOf(code)).doesNotThrowAnyException());
            database.texts("select quantity from reading union select quantity from target")
                    .forEach(
                            code -> assertThatCode(() -> Quantity.valueOf(code)).doesNotThrowAnyException());
            assertThat(database.texts("select unit from reading union select unit from target"))
                    .allSatisfy(code -> assertThat(MeasurementUnit.ofCode(code)).isPresent());
        }
    }

    private record Column(String table, String name) {}

    private static final class Database implements AutoCloseable {

        private final TestDatabase database = TestPostgres.shared().createEmpty();
        private final SingleConnectionDataSource connection =
                new SingleConnectionDataSource(database.jdbcUrl(), database.username(), database.password(), true);
        private final JdbcTemplate jdbc = new JdbcTemplate(connection);

        void fill(String version) throws IOException {
            migrate(version);
            jdbc.execute(new ClassPathResource("upgrade/rows-of-" + version + ".sql")
                    .getContentAsString(StandardCharsets.UTF_8));
        }

        void migrate(String target) {
            Flyway.configure()
                    .dataSource(database.jdbcUrl(), database.username(), database.password())
                    .target(target)
                    .load()
                    .migrate();
        }

        /** The columns of every table that the migrations made. */
        Map<String, List<String>> tables() {
            Map<String, List<String>> tables = new TreeMap<>();
            jdbc.query("""
                    select table_name, column_name
                    from information_schema.columns
                    join information_schema.tables using (table_schema, table_name)
                    where table_schema = current_schema() and table_type = 'BASE TABLE'
                        and table_name <> 'flyway_schema_history'
                    order by table_name, ordinal_position
                    """, row -> {
                tables.computeIfAbsent(row.getString(1), table -> new ArrayList<>())
                        .add(row.getString(2));
            });
            return tables;
        }

        /** All rows, each column as the text that PostgreSQL writes for it; of a moved table, what its query finds. */
        Map<String, List<Map<String, Object>>> rows(Map<String, List<String>> tables, Map<String, String> moved) {
            Map<String, List<Map<String, Object>>> rows = new LinkedHashMap<>();
            tables.forEach((table, columns) -> {
                String texts = columns.stream()
                        .map(column -> "\"%s\"::text as \"%s\"".formatted(column, column))
                        .collect(Collectors.joining(", "));
                String source = moved.containsKey(table) ? "(" + moved.get(table) + ")" : "\"" + table + "\"";
                rows.put(table, jdbc.queryForList("select " + texts + " from " + source + " as held"));
            });
            return rows;
        }

        /** Where a check lists the values that a column may have: those. The business is one row, which cannot have all. */
        Map<Column, List<String>> allowedValues() {
            Map<Column, List<String>> allowed = new LinkedHashMap<>();
            jdbc.query(
                    """
                    select c.conrelid::regclass::text, a.attname, pg_get_constraintdef(c.oid)
                    from pg_constraint c
                    join pg_attribute a on a.attrelid = c.conrelid and a.attnum = c.conkey[1]
                    where c.contype = 'c' and cardinality(c.conkey) = 1
                        and c.connamespace = current_schema()::regnamespace and c.conrelid <> 'business'::regclass
                        and pg_get_constraintdef(c.oid) like '%= ANY (ARRAY[%'
                    """,
                    row -> {
                        allowed.put(
                                new Column(row.getString(1), row.getString(2)),
                                ALLOWED_VALUE
                                        .matcher(row.getString(3))
                                        .results()
                                        .map(value -> value.group(1))
                                        .toList());
                    });
            assertThat(allowed).isNotEmpty();
            return allowed;
        }

        List<String> texts(String query) {
            List<String> texts = textsIfAny(query);
            assertThat(texts).isNotEmpty();
            return texts;
        }

        /** Of something that not every version knew. */
        List<String> textsIfAny(String query) {
            List<String> texts = new ArrayList<>();
            jdbc.query(query, row -> {
                texts.add(row.getString(1));
            });
            return texts;
        }

        @Override
        public void close() {
            connection.destroy();
        }
    }
}
