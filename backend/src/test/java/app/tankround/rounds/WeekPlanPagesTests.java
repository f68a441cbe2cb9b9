package app.tankround.rounds;

import static org.assertj.core.api.Assertions.assertThat;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.authentication;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.csrf;

import app.tankround.accounts.CrewView;
import app.tankround.accounts.Crews;
import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.Role;
import app.tankround.accounts.VanId;
import app.tankround.clients.SiteId;
import app.tankround.schedule.Agreements;
import app.tankround.schedule.NewAgreement;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.schedule.WorkProposal;
import app.tankround.schedule.WorkProposals;
import app.tankround.tanks.WaterSystemId;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBusiness;
import app.tankround.testing.TestClock;
import app.tankround.testing.TestPeople;
import java.io.UnsupportedEncodingException;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.security.core.Authentication;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.test.web.servlet.assertj.MockMvcTester;
import org.springframework.test.web.servlet.assertj.MvcTestResult;

/** The pages that plan weeks and the rest of a day, as a browser without JavaScript uses them. */
@SpringBootTest(properties = "db-scheduler.polling-interval=1h")
@AutoConfigureMockMvc
@IntegrationTest
class WeekPlanPagesTests {

    private static final LocalDate WEDNESDAY = LocalDate.of(2026, 11, 25);

    @Autowired
    private MockMvcTester pages;

    @Autowired
    private WeekPlans plans;

    @Autowired
    private WeekReasons reasons;

    @Autowired
    private RoundService rounds;

    @Autowired
    private WorkProposals proposals;

    @Autowired
    private Crews crews;

    @Autowired
    private Agreements agreements;

    @Autowired
    private CurrentPerson currentPerson;

    @Autowired
    private TestPeople people;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private TestClock clock;

    private @Nullable TestBusiness business;
    private @Nullable Authentication owner;

    @BeforeEach
    void prepare() throws Exception {
        clock.set(Instant.parse("2026-11-25T05:00:00Z"));
        TestBusiness.empty(jdbc, "week_plan, round, planned_visit, agreement, van, site, followup");
        business = new TestBusiness(jdbc);
        owner = currentPerson.actingAs(
                people.person(Role.OWNER),
                () -> Objects.requireNonNull(SecurityContextHolder.getContext().getAuthentication()));
    }

    @Test
    void weeksArePlannedLookedAtMovedAndAccepted() throws Exception {
        van();
        SiteId site = site("Harbour Dental", 52.1, 30);
        site("At the equator", 0, 30);
        TestBusiness there = Objects.requireNonNull(business);
        UUID pond = there.system(there.site("Pond house", 52.11, 5, null, null), "Pond", "HEALTHY");
        proposals.propose(new WorkProposal(
                UUID.randomUUID(),
                WaterSystemId.of(pond),
                WorkProposal.Source.REPAIR,
                "Look at the pump",
                WEDNESDAY,
                WEDNESDAY.plusDays(7),
                15,
                Optional.empty(),
                Optional.empty()));
        assertThat(text(get("/week-plans"))).contains("What the next eight weeks need", "It fits");
        MvcTestResult begun =
                post("/week-plans", Map.of("from", "2026-11-30", "weeks", "1", "tries", "200", "seed", "3"));
        String address = Objects.requireNonNull(begun.getResponse().getRedirectedUrl());
        assertThat(text(get(address))).contains("Stop and keep the best so far", "0 % done");
        WeekPlanId id = WeekPlanId.parse(address.substring(address.lastIndexOf('/') + 1));
        plans.search(id);
        String board = text(get(address));
        assertThat(board).contains("Harbour Dental", "Nothing moves until you accept it", "At the equator", "seed 3");
        assertThat(text(get(address + "?by=person"))).contains("Nobody");
        PlannedVisitId visit =
                reasons.asked(plans.require(id).stops()).values().iterator().next();
        String why = text(get(address + "/why?visit=" + visit));
        assertThat(why).contains("It is here.", "Move here", "It fits, and costs");
        assertThat(text(get(address + "/prices?visit=" + visit))).contains("\"fits\":true");
        WeekReasons.SiteVisitsView left = reasons.leftOut(id).getFirst().here();
        assertThat(text(get(address + "/why?visit=" + left.visit())))
                .contains("There is no road to it", "Where it seems very far away");
        WeekReasons.Answer free = reasons.why(id, visit).answers().stream()
                .filter(answer ->
                        !answer.planned() && answer.reason().shortages().isEmpty())
                .findFirst()
                .orElseThrow();
        assertThat(board)
                .contains(
                        "There is no road to it or on from it there",
                        "Work that goes with no visit",
                        "Look at the pump");
        String seen = plans.require(id).stamp();
        Map<String, String> move = Map.of(
                "seen",
                seen,
                "visit",
                visit.toString(),
                "day",
                free.day().toString(),
                "van",
                free.van().id().toString());
        assertThat(post(address + "/move", move)).hasStatus3xxRedirection();
        assertThat(post(address + "/move", move).getResponse().getContentAsString())
                .contains("Somebody else changed this plan since you saw it");
        post(address + "/accept", Map.of("seen", seen));
        assertThat(rounds.on(free.day())).isEmpty();
        post(address + "/accept", Map.of("seen", plans.require(id).stamp()));
        assertThat(rounds.on(free.day())).hasSize(1);
        assertThat(text(get(address))).contains("This plan has made the rounds");
        String round = "/rounds/" + rounds.on(free.day()).getFirst().id();
        post(round + "/lock", Map.of("version", "1", "locked", "true"));
        assertThat(text(get(round))).contains("No planning moves it");
    }

    @Test
    void saysAtTheFieldWhatCannotBePlanned() throws Exception {
        assertThat(post("/week-plans", Map.of("from", "2026-11-25", "weeks", "1", "tries", "1"))
                        .getResponse()
                        .getContentAsString())
                .contains("Plan from tomorrow on");
        assertThat(post("/week-plans", Map.of("from", "2026-11-30", "weeks", "12", "tries", "1"))
                        .getResponse()
                        .getContentAsString())
                .contains("Plan 1 to 8 weeks, not 12.");
    }

    @Test
    void whoWouldBeToldStandsThereBeforeADayIsChanged() throws Exception {
        VanId van = van();
        van();
        SiteId site = site("Harbour Dental", 52.1, 30);
        rounds.plan(WEDNESDAY, van, List.of(site));
        assertThat(text(get("/rounds/repair?date=2026-11-25"))).contains("Technician ill, or van broken");
        Map<String, String> what = Map.of("kind", "OVERRUN", "date", "2026-11-25", "at", "07:00", "minutes", "90");
        assertThat(post("/rounds/repair", what).getResponse().getContentAsString())
                .contains("This is needed for what happened.");
        Map<String, String> whole = new HashMap<>(what);
        whole.put("van", van.toString());
        String proposal = post("/rounds/repair", whole).getResponse().getContentAsString();
        assertThat(proposal).contains("What would change", "Harbour Dental", "name=\"based\"");
    }

    @Test
    void termsAreShownInMoneyAndMinutesAndKeptUntilSomebodyElseIsFaster() throws Exception {
        jdbc.sql("delete from planning_terms").update();
        String terms = text(get("/week-plans/terms"));
        assertThat(terms).contains("Worth 60 min on the road.", "Worth 50 min on the road.", "2003/88/EC");
        Map<String, String> fields = new HashMap<>(
                Map.of("version", "0", "drivingHour", "60", "kilometre", "0.4", "overtimeHour", "45", "round", "20"));
        fields.putAll(Map.of("dayBeyond", "2", "stranger", "10", "promise", "25", "lateHour", "30", "unevenHour", "5"));
        fields.putAll(Map.of("disinfection", "18", "leftOut", "1000", "daysBeyond", "2", "overtimeMinutes", "90"));
        fields.putAll(Map.of("breakAfterMinutes", "360", "breakMinutes", "200"));
        fields.putAll(Map.of("reload", "5", "reloads", "true", "reloadMinutes", "20"));
        assertThat(post("/week-plans/terms", fields).getResponse().getContentAsString())
                .contains("200", "f-breakMinutes-error");
        fields.put("breakMinutes", "45");
        fields.put("kilometre", "0.405");
        assertThat(post("/week-plans/terms", fields).getResponse().getContentAsString())
                .contains("Two decimals at most.");
        fields.put("kilometre", "0.4");
        assertThat(post("/week-plans/terms", fields)).hasStatus3xxRedirection();
        assertThat(text(get("/week-plans/terms"))).contains("value=\"45\"", "Worth 25 min on the road.");
        MvcTestResult late = post("/week-plans/terms", fields);
        assertThat(late).hasStatus(409);
        jdbc.sql("delete from planning_terms").update();
    }

    @Test
    void vanWithNobodyInItIsNamedWhereOneAsksWhy() throws Exception {
        VanId van = van();
        crews.change(new CrewView(van, Optional.empty(), Map.of(), 0));
        SiteId site = site("Harbour Dental", 52.1, 30);
        WeekPlanId id = plans.begin(LocalDate.of(2026, 11, 30), 1, 100, 1);
        plans.search(id);
        PlannedVisitId visit = reasons.leftOut(id).getFirst().here().visit();
        assertThat(text(get("/week-plans/" + id + "/why?visit=" + visit)))
                .contains("No van can be planned near that day", "Vans that stay", "Does not drive on that weekday.");
    }

    private MvcTestResult get(String address) {
        return pages.get().uri(address).with(authentication(owner())).exchange();
    }

    private MvcTestResult post(String address, Map<String, String> fields) {
        var request = pages.post().uri(address);
        fields.forEach(request::param);
        return request.with(authentication(owner())).with(csrf()).exchange();
    }

    private static String text(MvcTestResult result) throws UnsupportedEncodingException {
        assertThat(result).doesNotHaveFailed();
        return result.getResponse().getContentAsString();
    }

    private VanId van() {
        return VanId.of(business().van("Van", 52, 5));
    }

    private SiteId site(String name, double north, int minutes) {
        SiteId site = SiteId.of(business().site(name, north, 5, LocalTime.of(7, 0), LocalTime.of(18, 0)));
        WaterSystemId system = WaterSystemId.of(business().system(site.value(), "Tank", "HEALTHY"));
        agreements.add(new NewAgreement(
                "A-" + system,
                system,
                1,
                Set.of(WEDNESDAY.getDayOfWeek()),
                WEDNESDAY,
                Optional.empty(),
                minutes,
                BigDecimal.TEN,
                List.of(),
                Optional.empty()));
        return site;
    }

    private Authentication owner() {
        return Objects.requireNonNull(owner);
    }

    private TestBusiness business() {
        return Objects.requireNonNull(business);
    }
}
