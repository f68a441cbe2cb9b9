package app.tankround.tablet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import app.tankround.instruments.InstrumentId;
import app.tankround.persistence.Uuids;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestClock;
import app.tankround.visits.VisitView.DepartureLine;
import app.tankround.web.Entry;
import app.tankround.web.EntryAnswer;
import app.tankround.web.EntryAnswer.Status;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.function.Supplier;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;

/** Entries taken in together, held against the same entries taken in one by one. */
@SpringBootTest(webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT)
@IntegrationTest
class EntriesTogetherIntegrationTests {

    /** Everything that entries write, without what is numbered or named anew each time. */
    private static final Map<String, String> ROWS = Map.of(
            "inbox_entry",
            "select to_jsonb(i) from inbox_entry i where subject_id in (:visits) order by id",
            "visit",
            "select to_jsonb(v) from visit v where id in (:visits) order by id",
            "visit_entry",
            "select to_jsonb(e) - 'number' from visit_entry e where visit_id in (:visits) order by e.number",
            "reading",
            "select to_jsonb(r) from reading r where visit_id in (:visits) order by id",
            "assessment",
            """
            select to_jsonb(a) - 'id' from assessment a join reading r on r.id = a.reading_id
            where r.visit_id in (:visits) order by a.id
            """,
            "decision",
            """
            select to_jsonb(d) - 'id' || jsonb_build_object('behind', (
                select jsonb_agg(b.reading_id order by b.reading_id) from decision_reading b where b.decision_id = d.id
            ))
            from decision d where d.subject_id in (:systems) order by d.kind, d.summary_args::text, d.page
            """,
            "planned_visit",
            "select to_jsonb(p) from planned_visit p where water_system_id in (:systems) order by id",
            "round_stop",
            "select to_jsonb(s) from round_stop s where id in (:visits) order by id",
            "livestock",
            "select to_jsonb(l) from livestock l where water_system_id in (:systems) order by id");

    @Autowired
    private VisitFixture fixture;

    @Autowired
    private EntryInbox inbox;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private PlatformTransactionManager transactions;

    private VisitFixture.Stop stop;
    private VisitFixture.Stop other;
    private InstrumentId instrument;

    @BeforeEach
    void twoStops() {
        stop = fixture.stop();
        other = fixture.stop();
        // 0.0016 low in a standard of 35, so its readings are corrected and say how to get back
        instrument = fixture.refractometer("1.0250");
    }

    @Test
    void keepsAndAnswersTheSameTogetherAsOneByOne() {
        List<Entry> entries = wholeDay();
        long number = jdbc.sql("select last_value from visit_number")
                .query(Long.class)
                .single();

        Outcome oneByOne =
                takenBack(number, () -> entries.stream().map(inbox::take).toList());
        Outcome together = takenBack(number, () -> inbox.takeAll(entries));

        assertThat(oneByOne.answers())
                .extracting(EntryAnswer::status)
                .contains(Status.APPLIED, Status.CONFLICT, Status.WAITING)
                .doesNotContain(Status.REFUSED);
        for (int place = 0; place < entries.size(); place++) {
            assertThat(together.answers().get(place))
                    .as(entries.get(place).kind() + " " + entries.get(place).body())
                    .isEqualTo(oneByOne.answers().get(place));
        }
        assertThat(oneByOne.rows())
                .allSatisfy((table, rows) -> assertThat(rows).as(table).isNotEmpty());
        assertThat(together.rows()).isEqualTo(oneByOne.rows());
    }

    @Test
    void answersEntriesThatWereThereBeforeAsTheFirstTime() {
        List<Entry> entries = wholeDay();
        List<EntryAnswer> first = inbox.takeAll(entries);
        Map<String, List<String>> rows = rows();

        List<EntryAnswer> again = inbox.takeAll(entries);

        assertThat(again).extracting(EntryAnswer::status).isEqualTo(statuses(first));
        assertThat(again).extracting(EntryAnswer::code).isEqualTo(codes(first));
        assertThat(rows()).isEqualTo(rows);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '"',
            value = {
                "visit.finish | {} | visits.departure-open",
                "visit.note | {'text':'No line'} | visits.missing",
                "visit.dance | {} | tablet.kind-unknown",
            })
    void keepsNothingWhenOneIsRefused(String kind, String body, String code) {
        List<Entry> entries = new ArrayList<>(List.of(
                fixture.entry(stop, "visit.start", "{'stop':'%s'}".formatted(stop.stop())),
                fixture.entry(stop, "visit.reading", VisitFixture.salinity(stop, instrument, "1.025"))));
        entries.add(fixture.entry(stop, kind, body));

        assertThatThrownBy(() -> inbox.takeAll(entries))
                .isInstanceOfSatisfying(
                        EntriesRefused.class,
                        refused -> assertThat(refused.answer().code()).isEqualTo(code));
        assertThat(rows().get("inbox_entry")).isEmpty();
        assertThat(rows().get("visit")).isEmpty();
        assertThat(rows().get("reading")).isEmpty();
    }

    @Test
    void letsNobodyLeaveAnimalsInDangerHoweverTheEntriesCome() {
        List<Entry> entries = wholeDay().stream()
                .filter(entry -> !entry.kind().equals("visit.danger"))
                .toList();

        assertThatThrownBy(() -> inbox.takeAll(entries))
                .isInstanceOfSatisfying(
                        EntriesRefused.class,
                        refused -> assertThat(refused.answer().code()).isEqualTo("visits.danger-open"));
        assertThat(rows().get("visit")).isEmpty();
    }

    /** Two visits whose entries come mixed, with what two people write into one field, and what one says twice. */
    private List<Entry> wholeDay() {
        List<Entry> entries = new ArrayList<>();
        for (VisitFixture.Stop each : List.of(stop, other)) {
            entries.add(fixture.entry(each, "visit.start", "{'stop':'%s'}".formatted(each.stop())));
            entries.add(entry(each, "visit.water-change", "{'system':'%s','out':'40'}"));
        }
        Entry salinity = fixture.entry(stop, "visit.reading", VisitFixture.salinity(stop, instrument, "1.028"));
        entries.add(salinity);
        entries.add(fixture.entry(other, "visit.reading", VisitFixture.salinity(other, instrument, "1.020")));
        entries.add(entry(stop, "visit.reading", """
                {'system':'%s','quantity':'TEMPERATURE','answer':'NOT_MEASURED','unit':'degC','because':'Broken'}"""));
        entries.add(entry(stop, "visit.dose", """
                {'system':'%s','line':'1','product':'Alkalinity solution','amount':'25','unit':'mL',\
                'because':'Agreed with the client'}"""));
        Entry hot = entry(other, "visit.reading", """
                {'system':'%s','quantity':'TEMPERATURE','answer':'VALUE','value':'34','unit':'degC','kitLot':'T-1'}""");
        entries.add(hot);
        entries.add(entry(
                other, "visit.danger", "{'system':'%%s','reading':'%s','done':'Heater off'}".formatted(hot.id())));
        entries.add(fixture.entry(
                stop,
                "visit.correct-reading",
                VisitFixture.salinity(stop, instrument, "1.029")
                        .replace("{", "{'reading':'%s','reason':'Slip of the pen',".formatted(salinity.id())),
                VisitFixture.salinity(stop, instrument, "1.028")));
        entries.add(entry(stop, "visit.top-up", "{'system':'%s','atMark':true}"));
        entries.add(entry(stop, "visit.top-up", "{'system':'%s','atMark':false,'filledUp':'3'}"));
        entries.add(entry(stop, "visit.top-up", "{'system':'%s','atMark':true}"));
        entries.add(entry(stop, "visit.socks", "{'system':'%s','count':'2','sizeMm':'100'}"));
        entries.add(fixture.entry(
                stop, "visit.task", "{'plannedVisit':'%s','position':'0','state':'DONE'}".formatted(stop.due())));
        entries.add(entry(stop, "visit.livestock", """
                {'system':'%s','line':'1','change':'NEW','count':'2','name':'Firefish'}"""));
        entries.add(entry(stop, "visit.film", "{'system':'%s','seen':true}"));
        entries.add(fixture.entry(stop, "visit.note", "{'line':'n','text':'Door code changed'}"));
        for (VisitFixture.Stop each : List.of(stop, other)) {
            for (DepartureLine line : DepartureLine.values()) {
                entries.add(
                        fixture.entry(each, "visit.departure", "{'line':'%s','answer':'YES'}".formatted(line.name())));
            }
        }
        entries.add(fixture.entry(other, "visit.finish", "{}"));
        entries.add(fixture.entry(other, "visit.finish", "{}"));
        entries.add(fixture.entry(
                stop, "visit.photo", "{'photo':'%s','caption':'Sump'}".formatted(Uuids.next(TestClock.START))));
        return entries;
    }

    private Entry entry(VisitFixture.Stop each, String kind, String body) {
        return fixture.entry(each, kind, body.formatted(each.system()));
    }

    private record Outcome(List<EntryAnswer> answers, Map<String, List<String>> rows) {}

    /** Takes entries in, looks at what that made, and takes it back. */
    private Outcome takenBack(long number, Supplier<List<EntryAnswer>> taking) {
        jdbc.sql("select setval('visit_number', :number)")
                .param("number", number)
                .query(Long.class)
                .single();
        return new TransactionTemplate(transactions).execute(status -> {
            status.setRollbackOnly();
            List<EntryAnswer> answers = taking.get();
            return new Outcome(answers, rows());
        });
    }

    private Map<String, List<String>> rows() {
        Map<String, List<String>> rows = new LinkedHashMap<>();
        ROWS.forEach((table, sql) -> rows.put(
                table,
                jdbc.sql(sql)
                        .param("visits", List.of(stop.visit(), other.visit()))
                        .param(
                                "systems",
                                List.<UUID>of(
                                        stop.system().value(), other.system().value()))
                        .query(String.class)
                        .list()));
        return rows;
    }

    private static List<Status> statuses(List<EntryAnswer> answers) {
        return answers.stream().map(EntryAnswer::status).toList();
    }

    private static List<String> codes(List<EntryAnswer> answers) {
        return answers.stream().map(EntryAnswer::code).toList();
    }
}
