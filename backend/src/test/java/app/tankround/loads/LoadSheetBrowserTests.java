package app.tankround.loads;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;

import app.tankround.accounts.Role;
import app.tankround.accounts.VanId;
import app.tankround.clients.SiteId;
import app.tankround.rounds.RoundId;
import app.tankround.rounds.RoundService;
import app.tankround.schedule.Agreements;
import app.tankround.schedule.NewAgreement;
import app.tankround.schedule.TaskView;
import app.tankround.tanks.WaterSystemId;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBrowser;
import app.tankround.testing.TestBusiness;
import app.tankround.testing.TestClock;
import app.tankround.testing.TestPeople;
import com.microsoft.playwright.Browser;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import java.math.BigDecimal;
import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.assertj.core.api.Assertions;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.jdbc.core.simple.JdbcClient;

/** The load sheet in a real browser, with and without JavaScript, with and without a signal. */
@SpringBootTest(webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT)
@IntegrationTest
class LoadSheetBrowserTests {

    private static final LocalDate TODAY = LocalDate.of(2026, 11, 25);

    private static @Nullable TestBrowser browser;

    @Autowired
    private TestPeople people;

    @Autowired
    private RoundService rounds;

    @Autowired
    private Agreements agreements;

    @Autowired
    private LoadTicks ticks;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private TestClock clock;

    @LocalServerPort
    private int port;

    @BeforeAll
    static void openBrowser() {
        browser = TestBrowser.open();
    }

    @AfterAll
    static void closeBrowser() {
        Objects.requireNonNull(browser).close();
    }

    @Test
    void tickIsKeptAtOnceAndAfterTheSignalComesBack() {
        RoundId id = round();
        List<String> complaints = new ArrayList<>();
        try (BrowserContext context = context(new Browser.NewContextOptions())) {
            Page page = signedIn(context);
            page.onPageError(complaints::add);
            page.navigate(address("/rounds/" + id + "/load"));
            Locator boxes = page.locator("[data-load-line] .tick-only");
            boxes.nth(0).click();
            assertThat(page.locator("[data-load-done]")).containsText("1 of ");
            assertThat(page.locator("[data-load-who]").nth(0)).containsText("Test technician");
            Assertions.assertThat(ticks.of(id)).hasSize(1);

            context.setOffline(true);
            boxes.nth(1).click();
            assertThat(page.locator("[data-load-who]").nth(1)).containsText("Kept on this device");
            Assertions.assertThat(ticks.of(id)).hasSize(1);
            context.setOffline(false);
            assertThat(page.locator("[data-load-done]")).containsText("2 of ");
            Assertions.assertThat(ticks.of(id)).hasSize(2);

            boxes.nth(0).click();
            assertThat(page.locator("[data-load-done]")).containsText("1 of ");
        }
        Assertions.assertThat(complaints).isEmpty();
    }

    @Test
    void tickIsKeptWithoutJavaScript() {
        RoundId id = round();
        try (BrowserContext context = context(new Browser.NewContextOptions().setJavaScriptEnabled(false))) {
            Page page = signedIn(context);
            page.navigate(address("/rounds/" + id + "/load"));
            Locator line = page.locator("[data-load-line]").nth(0);
            line.locator(".tick-only").click();
            line.getByRole(AriaRole.BUTTON, new Locator.GetByRoleOptions().setName("Keep"))
                    .click();
            assertThat(page.locator("[data-load-done]")).containsText("1 of ");
            assertThat(page.locator(".flash")).containsText("Kept: it is in the van.");
        }
        Assertions.assertThat(ticks.of(id)).hasSize(1);
    }

    @ParameterizedTest
    @ValueSource(ints = {1280, 820, 360})
    void nothingHangsOverTheEdge(int width) {
        RoundId id = round();
        try (BrowserContext context = context(new Browser.NewContextOptions().setViewportSize(width, 900))) {
            Page page = signedIn(context);
            for (String path : List.of("/rounds/" + id + "/load", "/stock")) {
                page.navigate(address(path));
                assertThat(page.locator("h1")).isVisible();
                Assertions.assertThat((Boolean) page.evaluate(
                                "document.documentElement.scrollWidth <= document.documentElement.clientWidth"))
                        .as(path)
                        .isTrue();
            }
        }
    }

    private RoundId round() {
        people.person(Role.TECHNICIAN);
        clock.set(Instant.parse("2026-11-25T05:00:00Z"));
        TestBusiness business = new TestBusiness(jdbc);
        UUID site = business.site("Harbour Dental", 52.1, 5, null, null);
        WaterSystemId system = WaterSystemId.of(business.system(site, "Foyer reef", "HEALTHY"));
        agreements.add(new NewAgreement(
                "A-" + system,
                system,
                1,
                Set.of(DayOfWeek.WEDNESDAY),
                TODAY.minusDays(2),
                Optional.empty(),
                45,
                new BigDecimal("60"),
                List.of(
                        TaskView.waterChangePercent(BigDecimal.TEN),
                        TaskView.sockSwap(2, 175, 7),
                        TaskView.dose("Alkalinity solution", new BigDecimal("300"), "mL")),
                Optional.of(TODAY)));
        return rounds.plan(TODAY, VanId.of(business.van("Van 1", 52, 5)), List.of(SiteId.of(site)));
    }

    private static BrowserContext context(Browser.NewContextOptions options) {
        return Objects.requireNonNull(browser).browser().newContext(options);
    }

    private Page signedIn(BrowserContext context) {
        Page page = context.newPage();
        page.navigate(address(people.signInPath(Role.TECHNICIAN)));
        return page;
    }

    private String address(String path) {
        return "http://127.0.0.1:" + port + path;
    }
}
