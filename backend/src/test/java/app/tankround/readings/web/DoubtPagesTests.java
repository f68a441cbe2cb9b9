package app.tankround.readings.web;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.accounts.PersonId;
import app.tankround.accounts.Role;
import app.tankround.followups.FollowupView;
import app.tankround.followups.Followups;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.StandardId;
import app.tankround.readings.Bench;
import app.tankround.readings.DoubtLineView;
import app.tankround.readings.DoubtListView;
import app.tankround.readings.DoubtLists;
import app.tankround.readings.DoubtOutcome;
import app.tankround.readings.ReadingId;
import app.tankround.readings.ReadingService;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.web.PageTester;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBusiness;
import java.time.Duration;
import java.util.Map;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;
import org.springframework.http.HttpStatus;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.test.web.servlet.assertj.MvcTestResult;

/** A technician works a doubt list on its pages; figures as in {@code DoubtListTests}. */
@SpringBootTest
@IntegrationTest
@AutoConfigureMockMvc
@Import({Bench.class, PageTester.class})
class DoubtPagesTests {

    @Autowired
    private Followups followups;

    @Autowired
    Bench bench;

    @Autowired
    PageTester pages;

    @Autowired
    ReadingService readings;

    @Autowired
    DoubtLists lists;

    @Autowired
    JdbcClient jdbc;

    InstrumentId instrument = InstrumentId.of(new UUID(0, 0));
    StandardId standard = StandardId.of(new UUID(0, 0));
    StandardId second = StandardId.of(new UUID(0, 0));
    WaterSystemId system = WaterSystemId.of(new UUID(0, 0));
    PersonId person = PersonId.of(new UUID(0, 0));

    @BeforeEach
    void hasReadOneTankWithAnInstrumentThatFails() {
        new TestBusiness(jdbc);
        instrument = bench.refractometer();
        standard = bench.salinityStandard("35");
        second = bench.salinityStandard("35");
        system = bench.marineSystem();
        person = bench.person();
        bench.check(instrument, standard, bench.daysAgo(20), "1.0266", "1.0266");
        read(instrument, 14);
        read(instrument, 1);
        bench.check(instrument, standard, bench.daysAgo(0).minus(Duration.ofHours(3)), "1.0186", "1.0186");
    }

    private ReadingId read(InstrumentId with, int daysAgo) {
        return readings.record(bench.gravity(system, with, person, "1.025", bench.daysAgo(daysAgo)))
                .id();
    }

    private DoubtListView condemn() {
        bench.check(instrument, second, bench.daysAgo(0).minus(Duration.ofHours(2)), "1.0186", "1.0186");
        return lists.of(instrument).getFirst();
    }

    private DoubtLineView first(DoubtListView list) {
        return lists.lines(list.id(), 0, 1).getFirst();
    }

    @Test
    void saysWhatToMeasureTodayWhileAnInstrumentIsSuspect() {
        assertThat(pages.page(Role.TECHNICIAN, "/doubts"))
                .contains("Suspect since", "Measure these again today", "/systems/" + system);
    }

    @Test
    void showsThenAndNowWithTheChanceAndLeadsFromTheInstrumentAndTheSystem() {
        DoubtListView list = condemn();

        assertThat(pages.page(Role.TECHNICIAN, "/doubts/" + list.id()))
                .contains("Animals at risk now", "Was: Inside. Is: Above", "under 1%", "2 of 2");
        assertThat(pages.page(Role.OFFICE, "/doubts")).contains("/doubts/" + list.id());
        assertThat(pages.page(Role.OFFICE, "/instruments/" + instrument)).contains("/doubts/" + list.id());
        assertThat(pages.page(Role.OFFICE, "/systems/" + system)).contains("/doubts/" + list.id());
        assertThat(pages.page(Role.OFFICE, "/")).contains("/doubts/" + list.id());
    }

    @Test
    void refusesAtTheFieldAndEndsTheLineWithTheNewReading() {
        DoubtListView list = condemn();
        String path = "/doubts/" + list.id() + "/lines/" + first(list).id();
        InstrumentId sound = bench.refractometer();
        bench.check(sound, second, bench.daysAgo(0).minus(Duration.ofHours(1)), "1.0266", "1.0266");
        ReadingId again = read(sound, 0);

        assertThat(PageTester.refusal(
                        PageTester.body(pages.post(Role.TECHNICIAN, path, Map.of("outcome", "MEASURED_AGAIN"))),
                        "again"))
                .isEqualTo("Choose the new reading.");
        assertThat(PageTester.body(pages.post(Role.TECHNICIAN, path, Map.of("outcome", "HARMLESS"))))
                .contains("id=\"f-note-error\"");
        assertThat(PageTester.body(pages.post(Role.TECHNICIAN, path, Map.of()))).contains("id=\"f-outcome-error\"");
        assertThat(pages.page(Role.TECHNICIAN, path)).contains(again.toString());

        assertThat(pages.post(
                        Role.TECHNICIAN,
                        path,
                        Map.of("outcome", "MEASURED_AGAIN", "again", again.toString(), "alike", "true")))
                .hasStatus3xxRedirection();
        // A fortnight earlier it can no longer be told, which is another matter.
        assertThat(lists.require(list.id()).open()).isEqualTo(1);
        assertThat(pages.post(
                        Role.TECHNICIAN,
                        "/doubts/" + list.id() + "/lines/" + first(list).id(),
                        Map.of("outcome", "MEASURED_AGAIN", "again", again.toString())))
                .hasStatus3xxRedirection();
        assertThat(lists.require(list.id()).open()).isZero();
        assertThat(lists.lines(list.id(), 0, 9))
                .allSatisfy(line ->
                        assertThat(line.ending().orElseThrow().outcome()).isEqualTo(DoubtOutcome.MEASURED_AGAIN));
        assertThat(pages.page(Role.TECHNICIAN, "/doubts/" + list.id()))
                .contains("Every line has ended", "Measured again");
    }

    @Test
    void keepsTheSecondNoteInSightWhereTwoEndOneLine() {
        DoubtListView list = condemn();
        String path = "/doubts/" + list.id() + "/lines/" + first(list).id();
        assertThat(pages.post(Role.TECHNICIAN, path, Map.of("outcome", "HARMLESS", "note", "Fish only here")))
                .hasStatus3xxRedirection();

        MvcTestResult late =
                pages.post(Role.OFFICE, path, Map.of("outcome", "CLIENT_TOLD", "note", "Telephoned R. Castellane"));

        assertThat(late).hasStatus(HttpStatus.CONFLICT);
        assertThat(PageTester.body(late))
                .contains("Somebody has ended this line meanwhile", "What stands: Judged harmless. Fish only here")
                .contains("Your note was not kept", "Telephoned R. Castellane");
    }

    @Test
    void namesTheLinesThatEndTogether() {
        read(instrument, 2);
        DoubtListView list = condemn();
        DoubtLineView first = first(list);
        long next = lists.lines(list.id(), 1, 1).getFirst().id();

        assertThat(pages.page(Role.TECHNICIAN, "/doubts/" + list.id() + "/lines/" + first.id()))
                .contains("End these " + lists.alike(list.id(), first.id()).size() + " open lines in the same way")
                .contains("1.025 SG 20/20, Was: Inside. Is: Above; ");
        assertThat(pages.page(Role.TECHNICIAN, "/doubts/" + list.id() + "/lines/" + next))
                .doesNotContain("End these 3 open lines");
    }

    @Test
    void leavesTheMatterOfAnOpenListToTheList() {
        DoubtListView list = condemn();
        FollowupView matter = followups.open().stream()
                .filter(each -> each.page().equals("/doubts/" + list.id()))
                .findFirst()
                .orElseThrow();
        String settle = "/followups/" + matter.id() + "/settle";

        assertThat(pages.page(Role.OFFICE, "/"))
                .contains("Ends with the last line of its list")
                .doesNotContain(settle);
        MvcTestResult sent = pages.post(Role.OFFICE, settle, Map.of());

        assertThat(sent).hasRedirectedUrl("/doubts/" + list.id());
        assertThat(sent.getMvcResult().getFlashMap().get("flash")).isEqualTo("health.doubt-list-open");
        assertThat(followups.open()).extracting(FollowupView::id).contains(matter.id());
    }

    @Test
    void offersNoLaterBeginningWhereNoInstrumentAgreed() {
        InstrumentId sound = bench.refractometer();
        bench.check(sound, second, bench.daysAgo(30), "1.0266", "1.0266");
        readings.record(
                bench.gravity(system, sound, person, "1.0330", bench.daysAgo(14).plus(Duration.ofHours(1))));
        DoubtListView list = condemn();
        assertThat(lists.evidence(list.id())).isNotEmpty();

        assertThat(pages.page(Role.OFFICE, "/doubts/" + list.id()))
                .contains("No other instrument agreed with it")
                .doesNotContain("Let the doubt begin there");
    }

    @Test
    void letsTheDoubtBeginWhereAnotherInstrumentAgreed() {
        InstrumentId sound = bench.refractometer();
        bench.check(sound, second, bench.daysAgo(30), "1.0266", "1.0266");
        readings.record(
                bench.gravity(system, sound, person, "1.0252", bench.daysAgo(14).plus(Duration.ofHours(1))));
        DoubtListView list = condemn();
        var pair = lists.evidence(list.id()).getFirst();
        String path = "/doubts/" + list.id() + "/begin";

        assertThat(PageTester.body(pages.post(Role.OFFICE, path, Map.of("reason", "both agree"))))
                .contains("Choose a reading that a trusted instrument agreed with");
        assertThat(pages.post(
                        Role.OFFICE,
                        path,
                        Map.of(
                                "evidence",
                                pair.doubted().id() + "_" + pair.other().id(),
                                "reason",
                                "both agree")))
                .hasStatus3xxRedirection();

        assertThat(lists.require(list.id()).open()).isEqualTo(1);
        assertThat(pages.page(Role.OFFICE, "/doubts/" + list.id())).contains("both agree", "Another instrument agreed");
    }
}
