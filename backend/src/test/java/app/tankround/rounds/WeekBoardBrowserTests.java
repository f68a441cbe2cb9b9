package app.tankround.rounds;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;

import app.tankround.accounts.Role;
import app.tankround.accounts.VanId;
import app.tankround.clients.SiteId;
import app.tankround.schedule.Agreements;
import app.tankround.schedule.NewAgreement;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.tanks.WaterSystemId;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.PersonAtBrowser;
import app.tankround.testing.TestBrowser;
import app.tankround.testing.TestBusiness;
import app.tankround.testing.TestClock;
import app.tankround.testing.TestPeople;
import com.microsoft.playwright.Browser;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.BoundingBox;
import java.math.BigDecimal;
import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import org.assertj.core.api.Assertions;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.jdbc.core.simple.JdbcClient;

/** The board of a week and the map of a round under a pointer in a real browser. */
@SpringBootTest(
        webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT,
        properties = "db-scheduler.polling-interval=1h")
@IntegrationTest
class WeekBoardBrowserTests {

    private static final LocalDate MONDAY = LocalDate.of(2026, 11, 30);

    private static @Nullable TestBrowser browser;

    @Autowired
    private TestPeople people;

    @Autowired
    private WeekPlans plans;

    @Autowired
    private RoundService rounds;

    @Autowired
    private MapBackgrounds backgrounds;

    @Autowired
    private Agreements agreements;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private TestClock clock;

    @LocalServerPort
    private int port;

    private @Nullable TestBusiness business;

    @BeforeAll
    static void openBrowser() {
        browser = TestBrowser.open();
    }

    @AfterAll
    static void closeBrowser() {
        Objects.requireNonNull(browser).close();
    }

    @BeforeEach
    void prepare() {
        clock.set(Instant.parse("2026-11-25T05:00:00Z"));
        business = new TestBusiness(jdbc);
    }

    @Test
    void siteIsDraggedToAnotherDayOnceItsPriceStandsThere() {
        SiteId site = site("Harbour Dental", 52.1, 5, DayOfWeek.WEDNESDAY);
        van();
        WeekPlanId plan = plans.begin(MONDAY, 1, 50, 3);
        plans.search(plan);
        WeekPlanView.Stop before = stop(plan, site);
        PlannedVisitId visit = before.visits().getFirst();
        List<String> complaints = new ArrayList<>();
        try (BrowserContext context = context()) {
            Page page = signedIn(context);
            page.onPageError(complaints::add);
            page.navigate(address("/week-plans/" + plan));
            PersonAtBrowser.assertAccessible(page);
            Locator dragged = page.locator("[data-visit='" + visit + "'][draggable]");
            Locator place = page.locator("[data-day]:has([data-price])")
                    .filter(new Locator.FilterOptions().setHasNot(page.locator("[data-visit]")));
            BoundingBox from = dragged.boundingBox();
            page.mouse().move(from.x + 20, from.y + from.height / 2);
            page.mouse().down();
            page.mouse().move(from.x + 40, from.y + from.height / 2 + 10);
            assertThat(page.locator("[data-price]:not([hidden])").first()).isVisible();
            Locator fitting = place.filter(new Locator.FilterOptions().setHasText("It fits"))
                    .first();
            String day = Objects.requireNonNull(fitting.getAttribute("data-day"));
            BoundingBox to = fitting.boundingBox();
            page.mouse().move(to.x + to.width / 2, to.y + to.height / 2);
            page.mouse().move(to.x + to.width / 2 + 2, to.y + to.height / 2 + 2);
            assertThat(page.locator("[data-board-status]")).containsText("It fits");
            page.mouse().up();
            assertThat(page.locator("[data-day='" + day + "'] [data-visit='" + visit + "']"))
                    .isVisible();
            Assertions.assertThat(stop(plan, site).day())
                    .isEqualTo(LocalDate.parse(day))
                    .isNotEqualTo(before.day());
        }
        Assertions.assertThat(complaints).isEmpty();
    }

    @Test
    void roundIsAMapOverThePicturesThatTheOfficeChose() {
        SiteId near = site("Quay", 52.01, 5.01, DayOfWeek.MONDAY);
        SiteId far = site("Mill <b>Lane</b>", 52.09, 4.93, DayOfWeek.MONDAY);
        RoundId round = rounds.plan(MONDAY, van(), List.of(near, far));
        List<String> asked = new ArrayList<>();
        List<String> complaints = new ArrayList<>();
        try (BrowserContext context = context()) {
            context.route("https://tiles.example/**", route -> {
                asked.add(route.request().url());
                route.abort();
            });
            Page page = signedIn(context);
            page.onPageError(complaints::add);
            page.navigate(address("/rounds/" + round));
            assertThat(page.locator("[data-round-map] .map-stop")).hasCount(2);
            assertThat(page.locator("[data-round-map] .map-depot")).hasCount(1);
            assertThat(page.locator("[data-round-drawing]")).isHidden();
            assertThat(page.locator("[data-round-map] .leaflet-control-scale-line"))
                    .containsText("km");
            page.locator("[data-round-map] .map-stop", new Page.LocatorOptions().setHasText("2"))
                    .hover();
            assertThat(page.locator(".leaflet-tooltip")).containsText("2 ");
            PersonAtBrowser.assertAccessible(page);
            Assertions.assertThat(asked).isEmpty();

            backgrounds.change(
                    Optional.of("https://tiles.example/{z}/{x}/{y}.png"),
                    Optional.of("© Survey <i>Office</i>"),
                    17,
                    backgrounds.current().version());
            page.navigate(address("/rounds/" + round));
            assertThat(page.locator(".leaflet-control-attribution")).hasText("© Survey <i>Office</i>");
            page.waitForCondition(() -> !asked.isEmpty());
            Assertions.assertThat(asked).allMatch(url -> url.matches("https://tiles\\.example/\\d+/\\d+/\\d+\\.png"));
        }
        Assertions.assertThat(complaints).isEmpty();
    }

    private WeekPlanView.Stop stop(WeekPlanId plan, SiteId site) {
        return plans.require(plan).stops().stream()
                .filter(stop -> stop.site().id().equals(site))
                .findFirst()
                .orElseThrow();
    }

    private VanId van() {
        return VanId.of(business().van("Van", 52, 5));
    }

    private SiteId site(String name, double north, double east, DayOfWeek day) {
        SiteId site = SiteId.of(business().site(name, north, east, LocalTime.of(7, 0), LocalTime.of(18, 0)));
        WaterSystemId system = WaterSystemId.of(business().system(site.value(), "Tank", "HEALTHY"));
        agreements.add(new NewAgreement(
                "A-" + system,
                system,
                1,
                Set.of(day),
                LocalDate.of(2026, 11, 23),
                Optional.empty(),
                30,
                BigDecimal.TEN,
                List.of(),
                Optional.empty()));
        return site;
    }

    private TestBusiness business() {
        return Objects.requireNonNull(business);
    }

    private static BrowserContext context() {
        return Objects.requireNonNull(browser)
                .browser()
                .newContext(new Browser.NewContextOptions().setViewportSize(1280, 900));
    }

    private Page signedIn(BrowserContext context) {
        Page page = context.newPage();
        page.navigate(address(people.signInPath(Role.OFFICE)));
        return page;
    }

    private String address(String path) {
        return "http://127.0.0.1:" + port + path;
    }
}
