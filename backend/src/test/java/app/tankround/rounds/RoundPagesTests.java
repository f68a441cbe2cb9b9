package app.tankround.rounds;

import static org.assertj.core.api.Assertions.assertThat;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.authentication;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.csrf;

import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.Role;
import app.tankround.accounts.VanId;
import app.tankround.clients.SiteId;
import app.tankround.schedule.AgreementId;
import app.tankround.schedule.Agreements;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.NewAgreement;
import app.tankround.schedule.TaskView;
import app.tankround.tanks.WaterSystemId;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBusiness;
import app.tankround.testing.TestClock;
import app.tankround.testing.TestPeople;
import app.tankround.units.Quantity;
import app.tankround.units.SockSize;
import java.io.UnsupportedEncodingException;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.security.core.Authentication;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.test.web.servlet.assertj.MockMvcTester;
import org.springframework.test.web.servlet.assertj.MvcTestResult;

/** The pages of agreements, rounds and billing as a browser without JavaScript uses them. */
@SpringBootTest
@AutoConfigureMockMvc
@IntegrationTest
class RoundPagesTests {

    private static final LocalDate TODAY = LocalDate.of(2026, 11, 25);

    @Autowired
    private MockMvcTester pages;

    @Autowired
    private RoundService rounds;

    @Autowired
    private Agreements agreements;

    @Autowired
    private DueVisits dueVisits;

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
        business = new TestBusiness(jdbc);
        owner = signedIn(Role.OWNER);
    }

    @Test
    void dayListsDueStopsAndPutsThemOnARound() throws Exception {
        SiteId site = site("Harbour Dental", 0.1, "HEALTHY");
        assertThat(text(get("/rounds?date=2026-11-25")))
                .contains("Harbour Dental", "Water change 15\u00a0%", "Put these on");
        VanId van = van();
        MvcTestResult planned = pages.post()
                .uri("/rounds")
                .param("date", "2026-11-25")
                .param("van", van.toString())
                .param("sites", site.toString())
                .with(authentication(owner()))
                .with(csrf())
                .exchange();
        assertThat(planned).hasStatus3xxRedirection();
        String address = Objects.requireNonNull(planned.getResponse().getRedirectedUrl());
        assertThat(text(get(address)))
                .contains(
                        "Harbour Dental", "Start this visit", "/visits/for-stop/", "geo:52.1,5.0", "2 socks of 200 mm");
    }

    @Test
    void sickStopSaysWhyItIsLast() throws Exception {
        SiteId clean = site("Clean", 0.2, "HEALTHY");
        SiteId sick = site("Varga", 0.1, "TREATMENT");
        RoundId id = rounds.plan(TODAY, van(), List.of(clean, sick));
        assertThat(text(get("/rounds/" + id)))
                .contains("stops-apart", "Last on purpose.", "is under treatment, day 25.", "may touch another tank");
    }

    @Test
    void movingAStopShowsWhatItCostsAndSavesNothingUntilKept() throws Exception {
        SiteId clean = site("Clean stop", 0.1, "HEALTHY");
        SiteId sick = site("Sick stop", 0.2, "TREATMENT");
        RoundId id = rounds.plan(TODAY, van(), List.of(clean, sick));
        RoundView before = rounds.require(id);
        MvcTestResult moved = order(
                id,
                before.version(),
                ids(before),
                "down:" + before.stops().getFirst().id());
        assertThat(text(moved)).contains("Clean stop has healthy animals and comes after a stop that was left sick");
        assertThat(rounds.require(id)).isEqualTo(before);

        List<StopId> turned = ids(before).reversed();
        assertThat(order(id, before.version(), turned, null)).hasStatus3xxRedirection();
        assertThat(ids(rounds.require(id))).isEqualTo(turned);
        assertThat(text(get("/rounds/" + id))).contains("comes after a stop that was left sick");

        MvcTestResult stale = order(id, before.version(), ids(before), null);
        assertThat(stale).hasStatus(409);
        assertThat(text(stale)).contains("Saved now", "Your order", "Keep my order");
        assertThat(ids(rounds.require(id))).isEqualTo(turned);
    }

    /** Whoever presses a button on a round that somebody else has changed since is told so, and nothing changes. */
    @ParameterizedTest
    @ValueSource(strings = {"/best-order", "/lock", "/stops/{stop}/remove", "/delete"})
    void whatWasPressedOnARoundOfBeforeChangesNothing(String button) throws Exception {
        SiteId near = site("Near stop", 0.1, "HEALTHY");
        SiteId far = site("Far stop", 0.2, "HEALTHY");
        RoundId id = rounds.plan(TODAY, van(), List.of(near, far));
        RoundView seen = rounds.require(id);
        assertThat(order(id, seen.version(), ids(seen).reversed(), null)).hasStatus3xxRedirection();
        RoundView now = rounds.require(id);

        MvcTestResult pressed = pages.post()
                .uri("/rounds/" + id
                        + button.replace("{stop}", seen.stops().getFirst().id().toString()))
                .param("version", String.valueOf(seen.version()))
                .param("locked", "true")
                .with(authentication(owner()))
                .with(csrf())
                .exchange();

        assertThat(pressed).hasStatus(409);
        assertThat(pressed.getResponse().getContentAsString())
                .contains("Somebody changed this before you", "/rounds/" + id);
        assertThat(rounds.require(id)).isEqualTo(now);
    }

    @Test
    void refusalsStandAtTheirFieldsAndKeepWhatWasTicked() throws Exception {
        SiteId site = site("Ticked", 0.1, "HEALTHY");
        MvcTestResult noVan = pages.post()
                .uri("/rounds")
                .param("date", "2026-11-25")
                .param("van", "")
                .param("sites", site.toString())
                .with(authentication(owner()))
                .with(csrf())
                .exchange();
        assertThat(text(noVan)).contains("Choose a van.", "checked=\"checked\"");
        assertThat(text(get("/rounds?date=20225-01-01"))).contains("20225-01-01");
        VanId unplaced = VanId.of(business().vanWithoutSite("Unplaced"));
        MvcTestResult noDepot = pages.post()
                .uri("/rounds")
                .param("date", "2026-11-25")
                .param("van", unplaced.toString())
                .param("sites", site.toString())
                .with(authentication(owner()))
                .with(csrf())
                .exchange();
        assertThat(text(noDepot)).contains("Unplaced: its depot has no site");
    }

    @Test
    void technicianReadsButDoesNotPlan() throws Exception {
        Authentication technician = signedIn(Role.TECHNICIAN);
        RoundId id = rounds.plan(TODAY, van(), List.of(site("Stop", 0.1, "HEALTHY")));
        assertThat(pages.get()
                        .uri("/rounds/" + id)
                        .with(authentication(technician))
                        .exchange())
                .hasStatusOk()
                .bodyText()
                .doesNotContain("Change the order");
        assertThat(pages.post()
                        .uri("/rounds/" + id + "/delete")
                        .param("version", "1")
                        .with(authentication(technician))
                        .with(csrf())
                        .exchange())
                .hasStatus(403);
        assertThat(pages.get()
                        .uri("/billing/month")
                        .with(authentication(technician))
                        .exchange())
                .hasStatus(403);
        assertThat(pages.get()
                        .uri("/rounds/today")
                        .with(authentication(technician))
                        .exchange())
                .hasRedirectedUrl("/rounds");
    }

    @Test
    void agreementFormAddsRowsWithoutSavingAndThenSaves() throws Exception {
        WaterSystemId system = system(SiteId.of(business().site("Quay", 52, 5, null, null)), "HEALTHY", false);
        String form = text(get("/agreements/new?system=" + system));
        assertThat(form).contains("tasks[0].kind");
        AgreementId id = AgreementId.of(UUID.randomUUID());
        MvcTestResult added = agreement(id, system, "45", "add");
        assertThat(text(added)).contains("tasks[1].kind", "value=\"A-" + id + "\"");
        assertThat(agreements.bySystem(system)).isEmpty();
        assertThat(agreement(id, system, "45", null)).hasRedirectedUrl("/agreements/" + id);
        assertThat(agreement(id, system, "45", null)).hasRedirectedUrl("/agreements/" + id);
        assertThat(agreements.bySystem(system)).hasSize(1);
        assertThat(text(get("/agreements/" + id)))
                .contains("2 socks of 200 mm", "every 4 days, but a visit comes only every 7 days", "EUR 62.50");
        assertThat(text(get("/agreements"))).contains("A-" + id);
    }

    @ParameterizedTest
    @CsvSource({
        "everyWeeks, 0, 0",
        "everyWeeks, 53, 53",
        "minutes, -5, -5",
        "minutes, 1000000000, 1000000000",
        "minutes, NaN, NaN",
        "price, -1, -1",
        "price, NaN, NaN",
        "validFrom, 20225-01-01, 20225-01-01",
        "tasks[0].amount, 150, '150 cannot be. More than 0 and at most 100 %.'",
        "weekdays, '', Choose at least one weekday"
    })
    void refusesBadValuesAtTheFieldAndKeepsThem(String field, String value, String message) throws Exception {
        WaterSystemId system = system(SiteId.of(business().site("Quay", 52, 5, null, null)), "HEALTHY", false);
        var request = pages.post()
                .uri("/agreements/new")
                .param("id", UUID.randomUUID().toString())
                .param("version", "0")
                .param("code", "A-" + system)
                .param("waterSystem", system.toString());
        request = field.equals("everyWeeks") ? request : request.param("everyWeeks", "1");
        request = field.equals("minutes") ? request : request.param("minutes", "45");
        request = field.equals("price") ? request : request.param("price", "62.50");
        request = field.equals("validFrom") ? request : request.param("validFrom", "2026-11-25");
        request = field.equals("weekdays") ? request : request.param("weekdays", "MONDAY");
        if (field.startsWith("tasks")) {
            request = request.param("tasks[0].kind", "WATER_CHANGE").param("tasks[0].unit", "%");
        }
        request = value.isEmpty() ? request : request.param(field, value);
        MvcTestResult refused =
                request.with(authentication(owner())).with(csrf()).exchange();
        assertThat(text(refused)).contains(message, "field-error", "value=\"A-" + system + "\"");
        assertThat(agreements.bySystem(system)).isEmpty();
    }

    @Test
    void dueVisitIsDroppedWithAReason() throws Exception {
        WaterSystemId system = system(SiteId.of(business().site("Quay", 52, 5, null, null)), "HEALTHY", true);
        String address =
                "/planned-visits/" + dueVisits.dueFor(system).getFirst().id() + "/drop";
        assertThat(text(get(address))).contains("will not be done");
        MvcTestResult without = pages.post()
                .uri(address)
                .param("reason", " ")
                .with(authentication(owner()))
                .with(csrf())
                .exchange();
        assertThat(text(without)).contains("Say why");
        assertThat(pages.post()
                        .uri(address)
                        .param("reason", "On holiday")
                        .with(authentication(owner()))
                        .with(csrf())
                        .exchange())
                .hasStatus3xxRedirection();
    }

    @Test
    void monthListsFinishedVisitsWithSumsAsPageAndCsv() throws Exception {
        WaterSystemId one = system(SiteId.of(business().site("Quay, \"north\"", 52, 5, null, null)), "HEALTHY", true);
        dueVisits.recordDone(dueVisits.dueFor(one).getFirst().id(), LocalDate.of(2031, 2, 3));
        dueVisits.recordDone(dueVisits.dueFor(one).getFirst().id(), LocalDate.of(2031, 2, 28));
        dueVisits.recordDone(dueVisits.dueFor(one).getFirst().id(), LocalDate.of(2031, 3, 1));
        assertThat(text(get("/billing/month?month=2031-02"))).contains("EUR 60.50", "EUR 121.00");
        MvcTestResult csv = get("/billing/month.csv?month=2031-02");
        assertThat(csv).hasStatusOk().hasContentTypeCompatibleWith("text/csv");
        List<String> lines = csv.getResponse().getContentAsString().lines().toList();
        assertThat(lines)
                .hasSize(3)
                .first()
                .isEqualTo("client,client_name,done_on,agreement,site_name,system_name,price,currency");
        assertThat(lines.get(1)).contains("\"Quay, \"\"north\"\"\"", "60.50,EUR", "2031-02-03");
        assertThat(csv.getResponse().getContentAsString()).contains("\r\n");
        assertThat(text(get("/billing/month?month=20225-01"))).contains("20225-01", "cannot be");
    }

    private MvcTestResult agreement(AgreementId id, WaterSystemId system, String minutes, @Nullable String row) {
        var request = pages.post()
                .uri("/agreements/new")
                .param("id", id.toString())
                .param("version", "0")
                .param("code", "A-" + id)
                .param("waterSystem", system.toString())
                .param("everyWeeks", "1")
                .param("weekdays", "MONDAY", "THURSDAY")
                .param("validFrom", "2026-11-25")
                .param("minutes", minutes)
                .param("price", "62.50")
                .param("tasks[0].kind", "SOCK_SWAP")
                .param("tasks[0].amount", "2")
                .param("tasks[0].sizeMm", "200")
                .param("tasks[0].intervalDays", "4");
        request = row == null ? request.param("oftener", "as-it-is") : request.param("row", row);
        return request.with(authentication(owner())).with(csrf()).exchange();
    }

    private MvcTestResult order(RoundId id, int version, List<StopId> order, @Nullable String move) {
        var request = pages.post()
                .uri("/rounds/" + id + "/order")
                .param("version", String.valueOf(version))
                .param("order", order.stream().map(StopId::toString).toArray(String[]::new));
        request = move == null ? request : request.param("move", move);
        return request.with(authentication(owner())).with(csrf()).exchange();
    }

    private static List<StopId> ids(RoundView round) {
        return round.stops().stream().map(StopView::id).toList();
    }

    private MvcTestResult get(String address) {
        return pages.get().uri(address).with(authentication(owner())).exchange();
    }

    private static String text(MvcTestResult result) throws UnsupportedEncodingException {
        assertThat(result).doesNotHaveFailed();
        return result.getResponse().getContentAsString();
    }

    private SiteId site(String name, double north, String infectionClass) {
        SiteId site = SiteId.of(business().site(name, 52 + north, 5, LocalTime.of(8, 0), LocalTime.of(18, 0)));
        system(site, infectionClass, true);
        return site;
    }

    private WaterSystemId system(SiteId site, String infectionClass, boolean agreed) {
        WaterSystemId system = WaterSystemId.of(business().system(site.value(), "Lobby reef", infectionClass));
        if (agreed) {
            agreements.add(new NewAgreement(
                    "A-" + system,
                    system,
                    1,
                    Set.of(TODAY.getDayOfWeek()),
                    TODAY,
                    Optional.empty(),
                    20,
                    new BigDecimal("60.50"),
                    List.of(
                            TaskView.waterChangePercent(new BigDecimal("15")),
                            TaskView.sockSwap(2, SockSize.ofDiameter(200), 4),
                            TaskView.test(Quantity.SALINITY),
                            TaskView.work("Scrape the panes")),
                    Optional.empty()));
        }
        return system;
    }

    private VanId van() {
        return VanId.of(business().van("Van", 52, 5));
    }

    private Authentication signedIn(Role role) throws Exception {
        return currentPerson.actingAs(
                people.person(role),
                () -> Objects.requireNonNull(SecurityContextHolder.getContext().getAuthentication()));
    }

    private Authentication owner() {
        return Objects.requireNonNull(owner);
    }

    private TestBusiness business() {
        return Objects.requireNonNull(business);
    }
}
