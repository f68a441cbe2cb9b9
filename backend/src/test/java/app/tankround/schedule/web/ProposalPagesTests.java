package app.tankround.schedule.web;

import static app.tankround.tanks.web.PageTester.body;
import static app.tankround.tanks.web.PageTester.refusal;
import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.accounts.Role;
import app.tankround.clients.SiteId;
import app.tankround.schedule.Agreements;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.NewAgreement;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.schedule.TaskView;
import app.tankround.schedule.WorkProposals;
import app.tankround.tanks.InfectionClass;
import app.tankround.tanks.Samples;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.web.PageTester;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBusiness;
import app.tankround.testing.TestClock;
import java.math.BigDecimal;
import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;
import org.springframework.http.HttpStatus;
import org.springframework.jdbc.core.simple.JdbcClient;

@SpringBootTest
@IntegrationTest
@AutoConfigureMockMvc
@Import({Samples.class, PageTester.class})
class ProposalPagesTests {

    /** A Wednesday. */
    private static final LocalDate TODAY = LocalDate.of(2026, 11, 25);

    private static final TaskView RETEST = TaskView.work("Measure ammonia again");

    @Autowired
    private PageTester pages;

    @Autowired
    private Samples samples;

    @Autowired
    private WorkProposals proposals;

    @Autowired
    private Agreements agreements;

    @Autowired
    private DueVisits dueVisits;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private TestClock clock;

    private SiteId site = SiteId.of(new UUID(0, 0));
    private WaterSystemId system = WaterSystemId.of(new UUID(0, 0));

    @BeforeEach
    void prepare() {
        clock.set(Instant.parse("2026-11-25T09:00:00Z"));
        new TestBusiness(jdbc);
        // What other tests left behind would be proposed too.
        TestBusiness.empty(jdbc, "site, followup, work_proposal");
        site = samples.site("Foyer");
        system = system("Reef");
    }

    @Test
    void goesWithTheVisitToItsSystemInItsWindow() {
        agree(system, DayOfWeek.FRIDAY);
        agree(system("Pond"), DayOfWeek.THURSDAY);
        assertThat(pages.post(Role.OFFICE, "/proposals/new", form("2026-11-25", "2026-12-02")))
                .hasStatus(HttpStatus.FOUND);
        PlannedVisitView friday = dueVisits.dueFor(system).getFirst();
        assertThat(friday.dueOn()).isEqualTo(LocalDate.of(2026, 11, 27));
        assertThat(friday.tasks()).contains(RETEST);
        assertThat(friday.minutes()).isEqualTo(45);
        assertThat(friday.allMinutes()).isEqualTo(65);
        assertThat(pages.page(Role.TECHNICIAN, "/proposals"))
                .contains("Measure ammonia again", "Retest", "With the visit of 27 Nov 2026")
                .doesNotContain("Take back", "The last day is over");
        dueVisits.recordDone(friday.id(), friday.dueOn());
        assertThat(proposals.open()).isEmpty();
    }

    @Test
    void goesWithOtherWorkAtTheSiteWhereItsSystemHasNoVisit() {
        WaterSystemId pond = system("Pond");
        agree(pond, DayOfWeek.THURSDAY);
        pages.post(Role.OFFICE, "/proposals/new", form("2026-11-25", "2026-12-02"));
        assertThat(dueVisits.dueFor(pond).getFirst().tasks()).contains(TaskView.work("Reef: Measure ammonia again"));
    }

    @Test
    void isUnplacedWhereNobodyComesInItsWindow() {
        agree(system, DayOfWeek.FRIDAY);
        pages.post(Role.OFFICE, "/proposals/new", form("2026-11-25", "2026-11-26"));
        assertThat(pages.page(Role.OFFICE, "/proposals"))
                .contains("No visit in these days", "Make it a visit of its own");
        assertThat(dueVisits.dueFor(system)).noneMatch(visit -> visit.tasks().contains(RETEST));
        proposals.withdraw(proposals.open().getFirst().proposal().id());
        assertThat(proposals.open()).isEmpty();
    }

    @Test
    void becomesAVisitOfItsOwnAtThePriceOfAVisitThere() {
        agree(system, DayOfWeek.FRIDAY);
        pages.post(Role.OFFICE, "/proposals/new", form("2026-11-25", "2026-11-26"));
        UUID id = proposals.open().getFirst().proposal().id();
        assertThat(pages.page(Role.OFFICE, "/proposals/" + id + "/visit")).contains("Measure ammonia again", "10.00");
        assertThat(pages.post(Role.OFFICE, "/proposals/" + id + "/visit", Map.of("day", "2026-11-26", "price", "")))
                .hasStatus(HttpStatus.FOUND);
        PlannedVisitView visit = dueVisits.dueFor(system).getFirst();
        assertThat(visit.dueOn()).isEqualTo(LocalDate.of(2026, 11, 26));
        assertThat(visit.price().getAmount()).isEqualByComparingTo("10");
        assertThat(visit.allMinutes()).isEqualTo(20);
        assertThat(visit.tasks()).containsExactly(RETEST);
        assertThat(proposals.open().getFirst().visitOn()).contains(LocalDate.of(2026, 11, 26));
        assertThat(refusal(
                        body(pages.post(
                                Role.OFFICE, "/proposals/" + id + "/visit", Map.of("day", "2026-11-26", "price", ""))),
                        "day"))
                .contains("meanwhile");
        assertThat(dueVisits.dueFor(system))
                .filteredOn(each -> each.minutes() == 20)
                .hasSize(1);
    }

    @Test
    void asksForAPriceWhereNothingIsAgreedThatWouldTell() {
        pages.post(Role.OFFICE, "/proposals/new", form("2026-11-25", "2026-11-26"));
        String page = "/proposals/" + proposals.open().getFirst().proposal().id() + "/visit";
        assertThat(refusal(body(pages.post(Role.OFFICE, page, Map.of("day", "2026-11-26", "price", ""))), "price"))
                .contains("Reef");
        assertThat(refusal(body(pages.post(Role.OFFICE, page, Map.of("day", "2026-11-24", "price", "5"))), "day"))
                .contains("2026");
        assertThat(dueVisits.dueFor(system)).isEmpty();
        assertThat(pages.post(Role.OFFICE, page, Map.of("day", "2026-11-26", "price", "12.50")))
                .hasStatus(HttpStatus.FOUND);
        assertThat(dueVisits.dueFor(system).getFirst().price().getAmount()).isEqualByComparingTo("12.50");
    }

    @Test
    void costsNothingAtTheBusinesssOwnDepot() {
        jdbc.sql(
                        "insert into depot (id, code, name, version) values (:id, 'D-OWN', 'Own yard', 1) on conflict do nothing")
                .param("id", UUID.randomUUID())
                .update();
        jdbc.sql(
                        "update site set client_id = null, depot_id = (select id from depot where code = 'D-OWN') where id = :id")
                .param("id", site.value())
                .update();
        pages.post(Role.OFFICE, "/proposals/new", form("2026-11-25", "2026-11-26"));
        String page = "/proposals/" + proposals.open().getFirst().proposal().id() + "/visit";
        assertThat(pages.post(Role.OFFICE, page, Map.of("day", "2026-11-26", "price", "")))
                .hasStatus(HttpStatus.FOUND);
        assertThat(dueVisits.dueFor(system).getFirst().price().getAmount()).isZero();
    }

    @Test
    void goesWithAVisitThatIsAgreedLater() {
        pages.post(Role.OFFICE, "/proposals/new", form("2026-11-25", "2026-12-02"));
        assertThat(proposals.open().getFirst().visitOn()).isEmpty();
        agree(system, DayOfWeek.FRIDAY);
        proposals.gather();
        assertThat(proposals.open().getFirst().visitOn()).contains(LocalDate.of(2026, 11, 27));
    }

    @Test
    void goesWithTheNextVisitOnceItsDaysAreOver() {
        agree(system, DayOfWeek.FRIDAY);
        pages.post(Role.OFFICE, "/proposals/new", form("2026-11-25", "2026-11-26"));
        clock.set(Instant.parse("2026-11-27T05:00:00Z"));
        proposals.gather();
        assertThat(proposals.open().getFirst().visitOn()).contains(LocalDate.of(2026, 11, 27));
        assertThat(pages.page(Role.OFFICE, "/proposals")).contains("The last day is over");
    }

    @Test
    void refusesMinutesThatNobodyWorks() {
        Map<String, String> form = form("2026-11-25", "2026-11-26");
        form.put("minutes", "481");
        assertThat(refusal(body(pages.post(Role.OFFICE, "/proposals/new", form)), "minutes"))
                .contains("480");
        assertThat(proposals.open()).isEmpty();
    }

    @Test
    void movesOnWhenItsVisitIsDropped() {
        agree(system, DayOfWeek.FRIDAY);
        pages.post(Role.OFFICE, "/proposals/new", form("2026-11-25", "2026-12-09"));
        dueVisits.drop(dueVisits.dueFor(system).getFirst().id(), "Closed");
        assertThat(proposals.open().getFirst().visitOn()).contains(LocalDate.of(2026, 12, 4));
        assertThat(dueVisits.dueFor(system).getFirst().tasks()).contains(RETEST);
        proposals.withdraw(proposals.open().getFirst().proposal().id());
        assertThat(dueVisits.dueFor(system).getFirst().tasks()).doesNotContain(RETEST);
    }

    @Test
    void refusesAWindowThatEndsBeforeItStartsOrIsOver() {
        assertThat(refusal(body(pages.post(Role.OFFICE, "/proposals/new", form("2026-12-02", "2026-11-28"))), "latest"))
                .contains("2026-11-28", "2026-12-02");
        assertThat(refusal(body(pages.post(Role.OFFICE, "/proposals/new", form("2026-11-20", "2026-11-24"))), "latest"))
                .contains("2026-11-24");
        assertThat(pages.post(Role.TECHNICIAN, "/proposals/new", form("2026-11-25", "2026-11-26")))
                .hasStatus(HttpStatus.FORBIDDEN);
        assertThat(proposals.open()).isEmpty();
    }

    private Map<String, String> form(String earliest, String latest) {
        return new HashMap<>(Map.of(
                "id",
                UUID.randomUUID().toString(),
                "waterSystem",
                system.toString(),
                "source",
                "RETEST",
                "reason",
                "Measure ammonia again",
                "earliest",
                earliest,
                "latest",
                latest,
                "minutes",
                "20"));
    }

    private WaterSystemId system(String name) {
        return samples.system(site, name, InfectionClass.HEALTHY, LocalDate.of(2026, 1, 1));
    }

    private void agree(WaterSystemId of, DayOfWeek day) {
        agreements.add(new NewAgreement(
                "A-" + of,
                of,
                1,
                Set.of(day),
                TODAY,
                Optional.empty(),
                45,
                BigDecimal.TEN,
                List.of(),
                Optional.of(TODAY)));
    }
}
