package app.tankround.tablet;

import static app.tankround.testing.PersonAtBrowser.allIsSaved;
import static app.tankround.testing.PersonAtBrowser.press;
import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;

import app.tankround.accounts.Role;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.PersonAtBrowser;
import app.tankround.testing.TestBrowser;
import app.tankround.testing.TestClock;
import app.tankround.testing.TestPeople;
import app.tankround.visits.VisitId;
import app.tankround.visits.VisitService;
import app.tankround.visits.VisitView.RunningState;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import java.time.Duration;
import java.util.regex.Pattern;
import org.assertj.core.api.Assertions;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.web.server.LocalServerPort;

/** What is switched off for a water change, from the tap that starts its clock to the check before leaving. */
@SpringBootTest(webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT)
@IntegrationTest
class RunningThingsBrowserTests {

    private static TestBrowser browser;

    @Autowired
    private VisitFixture fixture;

    @Autowired
    private TestPeople people;

    @Autowired
    private VisitService visits;

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
        browser.close();
    }

    @Test
    void runsByTheClockSoundsAlarmsOnEveryPageAndIsAskedBeforeLeaving() {
        VisitFixture.Stop stop = fixture.onlyStop();
        try (BrowserContext technician = browser.person(port, 820, 1180)) {
            technician.addInitScript("""
                    let sounded = 0;
                    const start = OscillatorNode.prototype.start;
                    OscillatorNode.prototype.start = function (...args) {
                      document.documentElement.dataset.sounded = String(++sounded);
                      return start.apply(this, args);
                    };
                    """);
            Page page = technician.newPage();
            page.navigate(people.signInPath(Role.TECHNICIAN));
            page.navigate("/visits/" + stop.visit());
            press(page, "Start the visit");
            allIsSaved(page);

            // It is offered before the water is changed.
            Assertions.assertThat(page.evaluate("""
                    document.querySelector("[data-tab=running]").compareDocumentPosition(
                        document.querySelector("[data-tab=water]")) & Node.DOCUMENT_POSITION_FOLLOWING
                    """)).isEqualTo(Integer.valueOf(4));
            Locator part = page.locator("[data-tab=running]");
            press(page, "Return pump off");
            Locator pump = part.locator("[data-thing=RETURN_PUMP_OFF]");
            assertThat(pump.getByRole(AriaRole.TIMER)).containsText("00:0");
            press(page, "Water running");
            allIsSaved(page);
            assertThat(page.locator("#leaving [data-running]")).hasCount(2);
            assertThat(page.locator("#leaving")).containsText("0 of 8 answered");
            PersonAtBrowser.assertAccessible(page);

            // Water is reminded of after 5 minutes, once and briefly.
            page.clock().fastForward("05:30");
            assertThat(page.locator("html")).hasAttribute("data-sounded", "1");
            assertThat(pump).containsText("05:3");
            assertThat(page.locator("#alarm")).isHidden();

            page.clock().fastForward("15:00");
            assertThat(page.locator("#alarm")).containsText("Water running, 20 min.");
            assertThat(page.locator("html")).hasAttribute("data-sounded", Pattern.compile("[4-9]"));

            // Another page of the tablet, with what the server knows by then, says so too.
            clock.advance(Duration.ofSeconds(20 * 60 + 30));
            page.navigate("/day");
            assertThat(page.locator("#alarm")).containsText("Water running");
            assertThat(page.locator("#alarm")).containsText("may sound only after a tap");
            page.locator("h1").click();
            assertThat(page.locator("html")).hasAttribute("data-sounded", Pattern.compile("[3-9]"));
            PersonAtBrowser.follow(page, "To the visit");
            page.locator("[data-tab=running] [data-thing=WATER_RUNNING] button").click();
            allIsSaved(page);
            assertThat(page.locator("#alarm")).isHidden();
            press(page, "Finish the visit");
            assertThat(page.locator("[data-tab=finish] .field-error")).containsText("Return pump off, Dining room");

            // The clock has run since it was begun, also after the page was loaded again.
            page.reload();
            Locator asked = page.locator("#leaving [data-running]");
            assertThat(asked).hasCount(1);
            assertThat(asked).containsText("20:");
            asked.getByText("It stays so on purpose").click();
            asked.getByText("Leave it so").click();
            assertThat(asked).containsText("Say why, and until when");
            asked.getByLabel("Why it stays so").fill("Plumber repairs the weir today");
            asked.getByLabel("Until when").fill("2026-03-02T17:00");
            asked.getByText("Leave it so").click();
            assertThat(asked).containsText("Stays so until 17:00: Plumber repairs the weir today");
            allIsSaved(page);
            assertThat(page.locator("#leaving")).containsText("1 of 7 answered");
            PersonAtBrowser.answersYes(page);
            allIsSaved(page);
            press(page, "Finish the visit");
            assertThat(page.locator("[data-tab=finish]")).containsText("This visit was finished");
            allIsSaved(page);
        }
        var visit = visits.require(VisitId.of(stop.visit()));
        Assertions.assertThat(visit.finished()).isTrue();
        Assertions.assertThat(visit.running())
                .extracting(each -> each.thing() + " " + each.state())
                .containsExactlyInAnyOrder(
                        "RETURN_PUMP_OFF " + RunningState.LEFT, "WATER_RUNNING " + RunningState.ENDED);
    }

    @Test
    void waitsOnTheTabletWithoutASignalAndShowsOnAnotherDeviceOnceItCame() {
        VisitFixture.Stop stop = fixture.onlyStop();
        try (BrowserContext one = browser.person(port, 820, 1180);
                BrowserContext other = browser.person(port, 820, 1180)) {
            Page page = one.newPage();
            page.navigate(people.signInPath(Role.TECHNICIAN));
            page.navigate("/visits/" + stop.visit());
            press(page, "Start the visit");
            allIsSaved(page);
            page.route("**/api/**", route -> route.abort());
            press(page, "Heater off");
            assertThat(page.locator("#leaving [data-running]")).hasCount(1);
            assertThat(page.locator("#sync")).containsText("1");
            page.unrouteAll();
            page.reload();
            allIsSaved(page);
            assertThat(page.locator("#leaving [data-running]")).hasCount(1);

            Page second = other.newPage();
            second.navigate(people.signInPath(Role.TECHNICIAN));
            second.navigate("/visits/" + stop.visit());
            assertThat(second.locator("[data-tab=running] [data-thing=HEATER_OFF]"))
                    .isVisible();
            second.locator("#leaving [data-running] button").first().click();
            allIsSaved(second);
            page.reload();
            assertThat(page.locator("[data-tab=running]")).isVisible();
            assertThat(page.locator("#leaving [data-running]")).hasCount(0);
        }
    }
}
