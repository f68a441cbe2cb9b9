package app.tankround.tablet;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;

import app.tankround.accounts.Role;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.PersonAtBrowser;
import app.tankround.testing.TestBrowser;
import app.tankround.testing.TestClock;
import app.tankround.testing.TestPeople;
import com.microsoft.playwright.Browser;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import com.microsoft.playwright.options.ServiceWorkerPolicy;
import java.nio.file.Path;
import java.util.Date;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.web.server.LocalServerPort;

/** What stands beside a reading on the page of the visit while something about it is open. */
@SpringBootTest(webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT)
@IntegrationTest
class ReadingRowBrowserTests {

    private static TestBrowser browser;

    @Autowired
    private VisitFixture fixture;

    @Autowired
    private TestPeople people;

    @Autowired
    private EntryInbox inbox;

    @Autowired
    private TestClock clock;

    @LocalServerPort
    private int port;

    private BrowserContext context;
    private Page page;
    private VisitFixture.Stop stop;

    @BeforeAll
    static void openBrowser() {
        browser = TestBrowser.open();
    }

    @AfterAll
    static void closeBrowser() {
        browser.close();
    }

    @BeforeEach
    void openContext() {
        context = browser.browser()
                .newContext(new Browser.NewContextOptions()
                        .setViewportSize(820, 1180)
                        .setServiceWorkers(ServiceWorkerPolicy.BLOCK));
        context.clock().setFixedTime(Date.from(clock.instant()));
        stop = fixture.onlyStop();
        page = context.newPage();
        page.navigate(address(people.signInPath(Role.TECHNICIAN)));
    }

    @AfterEach
    void closeContext() {
        context.close();
    }

    private String address(String path) {
        return "http://127.0.0.1:" + port + path;
    }

    private void open() {
        page.navigate(address("/visits/for-stop/" + stop.stop()));
        PersonAtBrowser.press(page, "Start the visit");
        page.waitForURL("**/visits/" + stop.visit());
        PersonAtBrowser.allIsSaved(page);
    }

    private Locator read(String value) {
        fixture.refractometer("1.0266");
        open();
        Locator salinity = PersonAtBrowser.field(page, "Salinity");
        PersonAtBrowser.write(page, "Salinity", value);
        return salinity;
    }

    private static Locator button(Locator within, String name) {
        return within.getByRole(AriaRole.BUTTON, new Locator.GetByRoleOptions().setName(name));
    }

    @Test
    void showsNoVerdictOfTheOldValueBesideANewOneThatWaitsForItsReason() {
        Locator salinity = read("1.0300");
        assertThat(salinity.locator(".verdict")).containsText("Above");

        PersonAtBrowser.type(page, "Salinity", "1.0250");
        assertThat(salinity.locator(".verdict")).containsText("Not judged yet. 1.0300");
        assertThat(salinity.locator(".verdict")).not().containsText("Above");

        PersonAtBrowser.type(page, "Salinity", "1.0300");
        assertThat(salinity.locator(".verdict")).containsText("Above");
        PersonAtBrowser.type(page, "Salinity", "1.0250");
        button(salinity, "It was mistyped").click();
        PersonAtBrowser.allIsSaved(page);
        assertThat(salinity.locator(".verdict")).not().containsText("Above");
        assertThat(salinity.locator(".verdict")).not().containsText("Not judged");
    }

    @Test
    void judgesASalinityAnewAtOnceWhenSomebodySaysThatTheSumpIsLow() {
        Locator salinity = read("1.0300");
        page.getByLabel("No, it is low").check();
        assertThat(salinity.locator(".verdict")).containsText("Not judged: the sump was low");
        assertThat(salinity).containsText("What is missing may be pure water");
        PersonAtBrowser.assertAccessible(page);
        salinity.screenshot(new Locator.ScreenshotOptions().setPath(Path.of("target", "row-low-820.png")));
        page.reload();
        assertThat(salinity.locator(".verdict")).containsText("Not judged: the sump was low");
    }

    @Test
    void countsOnTheDangerOfAValueThatLostUntilSomebodyDecides() {
        open();
        String warm =
                "{'system':'%s','quantity':'TEMPERATURE','answer':'VALUE','value':'%s','unit':'degC','kitLot':'T-1'}";
        inbox.take(fixture.entry(stop, "visit.reading", warm.formatted(stop.system(), "25.0")));
        inbox.take(fixture.entry(stop, "visit.reading", warm.formatted(stop.system(), "34.0")));
        page.reload();

        assertThat(page.locator("#danger")).containsText("Dangerous. Temperature");
        assertThat(page.locator("#danger")).containsText("34.0");
        Locator temperature = PersonAtBrowser.field(page, "Temperature");
        assertThat(temperature.locator(".notice-signal"))
                .containsText("count on the danger until somebody has decided");
        assertThat(page.locator("[data-tab=leaving]")).containsText("0 of 7 answered");
        page.screenshot(new Page.ScreenshotOptions().setFullPage(true).setPath(Path.of("target", "contested-820.png")));

        temperature.locator(".notice .actions button").last().click();
        PersonAtBrowser.allIsSaved(page);
        assertThat(temperature).not().containsText("count on the danger");
        assertThat(page.locator("#danger")).containsText("Dangerous. Temperature");
    }

    @Test
    void keepsANoThatStillLacksItsReasonOpenThroughAReload() {
        open();
        Locator heater = page.locator("[data-line=HEATER_ON]");
        heater.getByLabel("No", new Locator.GetByLabelOptions().setExact(true)).check();
        Locator why = heater.getByLabel("Why not");
        why.fill("Burnt out");
        why.blur();
        PersonAtBrowser.allIsSaved(page);

        why.fill("");
        why.blur();
        assertThat(heater).containsText("not saved yet");
        assertThat(page.locator("[data-tab=leaving]")).containsText("0 of 6 answered");
        page.reload();
        assertThat(heater.getByLabel("No", new Locator.GetByLabelOptions().setExact(true)))
                .isChecked();
        assertThat(why).hasValue("");
        heater.getByLabel("Yes").check();
        PersonAtBrowser.allIsSaved(page);
        page.reload();
        assertThat(heater.getByLabel("Yes")).isChecked();
        assertThat(heater.getByLabel("Why not")).isHidden();
    }
}
