package app.tankround.tablet;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;

import app.tankround.accounts.Role;
import app.tankround.instruments.InstrumentId;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.PersonAtBrowser;
import app.tankround.testing.TestBrowser;
import app.tankround.testing.TestClock;
import app.tankround.testing.TestPeople;
import app.tankround.visits.VisitId;
import app.tankround.visits.VisitService;
import com.microsoft.playwright.Browser;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import com.microsoft.playwright.options.ServiceWorkerPolicy;
import java.nio.file.Path;
import java.util.Date;
import java.util.Objects;
import org.assertj.core.api.Assertions;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.web.server.LocalServerPort;

/** A change of water on the page of the visit; what it is held against is in {@link WaterChangeGuardTests}. */
@SpringBootTest(webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT)
@IntegrationTest
class WaterChangeBrowserTests {

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

    private BrowserContext context;
    private Page page;
    private VisitFixture.Stop stop;
    private Locator water;

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
        water = page.locator("[data-tab=water]");
    }

    @AfterEach
    void closeContext() {
        context.close();
    }

    private String address(String path) {
        return "http://127.0.0.1:" + port + path;
    }

    /** Opens the visit and reads the tank. */
    private void read(InstrumentId with) {
        page.navigate(address("/visits/for-stop/" + stop.stop()));
        PersonAtBrowser.press(page, "Start the visit");
        page.waitForURL("**/visits/" + stop.visit());
        PersonAtBrowser.allIsSaved(page);
        page.getByLabel("Yes, at the mark").check();
        Locator salinity = PersonAtBrowser.field(page, "Salinity");
        salinity.getByText("More about this reading").click();
        salinity.getByLabel("Instrument").selectOption(with.toString());
        PersonAtBrowser.write(page, "Salinity", "1.0266");
    }

    private void press(String name) {
        water.getByRole(AriaRole.BUTTON, new Locator.GetByRoleOptions().setName(name))
                .click();
    }

    @Test
    void saysWithoutAConnectionWhatTheServerAsksBackAndTakesARescueAsAReason() {
        read(fixture.refractometer("1.0266"));
        String said = "from S 35 down to S 33.5 at once; S 1.3 a day is what its animals stand";
        page.route("**/api/entries", route -> route.abort());
        water.getByLabel("What it was measured with").selectOption("");
        water.getByLabel("Scale of that salinity").selectOption("S");
        PersonAtBrowser.type(page, "Salinity of the new water", "29");
        PersonAtBrowser.type(page, "Out", "100");
        assertThat(water.locator("p.say")).containsText(said);
        assertThat(water).containsText("saved on this device, not sent yet");

        assertThat(page.locator("#sync")).containsText("The program cannot be reached");
        page.unroute("**/api/entries");
        PersonAtBrowser.sendNow(page);
        assertThat(water.locator(".field-error")).containsText(said);
        assertThat(water.locator("p.say")).hasText("");
        PersonAtBrowser.assertAccessible(page);
        water.screenshot(new Locator.ScreenshotOptions().setPath(Path.of("target", "water-asked-820.png")));
        press("It is a rescue in an emergency");
        PersonAtBrowser.allIsSaved(page);
        assertThat(water.locator("p.say")).containsText("The office is told");
        Assertions.assertThat(Objects.requireNonNull(visits.require(VisitId.of(stop.visit()))
                                .fields()
                                .get("water-change/" + stop.system()))
                        .body()
                        .path("because")
                        .asString())
                .isEqualTo("Rescue in an emergency");
    }

    @Test
    void presetsWhatTheNewWaterWasMeasuredWithAndSaysThatTankAndWaterOnlyMatched() {
        InstrumentId suspect = fixture.refractometer("1.0186");
        InstrumentId sound = fixture.refractometer("1.0266");
        read(suspect);
        Locator instrument = water.getByLabel("What it was measured with");
        assertThat(instrument.locator("option:checked")).not().containsText("Suspect");
        Assertions.assertThat(
                        instrument.locator("option[value='" + sound + "']").count())
                .isEqualTo(1);
        page.route("**/api/entries", route -> route.abort());
        instrument.selectOption(suspect.toString());
        PersonAtBrowser.type(page, "Salinity of the new water", "1.0266");
        PersonAtBrowser.type(page, "Out", "40");
        assertThat(water.locator("p.say")).containsText("that they agree says only that they matched");
        assertThat(page.locator("#sync")).containsText("The program cannot be reached");
        page.unroute("**/api/entries");
        PersonAtBrowser.sendNow(page);
        assertThat(water.locator(".field-error")).containsText("To correct that in one visit is the danger");
    }

    /** As the server asks back; a reason lets it pass. */
    @Test
    void saysWithoutAConnectionThatNothingMayRestOnWhatNobodyNamed() {
        fixture.refractometer("1.0266");
        page.navigate(address("/visits/for-stop/" + stop.stop()));
        PersonAtBrowser.press(page, "Start the visit");
        page.waitForURL("**/visits/" + stop.visit());
        PersonAtBrowser.allIsSaved(page);
        page.getByLabel("Yes, at the mark").check();
        page.route("**/api/entries", route -> route.abort());
        Locator salinity = PersonAtBrowser.field(page, "Salinity");
        salinity.getByText("More about this reading").click();
        salinity.getByLabel("Instrument").selectOption("");
        PersonAtBrowser.type(page, "Salinity", "1.0266");
        PersonAtBrowser.type(page, "Out", "40");
        String said = "Nobody said what this was measured with, so nothing may rest on it.";
        assertThat(water.locator("p.say")).containsText(said);
        assertThat(water).containsText("saved on this device, not sent yet");
        PersonAtBrowser.type(page, "If it was changed all the same: why", "As every week");
        assertThat(water.locator("p.say")).not().containsText(said);
        page.unroute("**/api/entries");
        PersonAtBrowser.sendNow(page);
        PersonAtBrowser.allIsSaved(page);
        Assertions.assertThat(visits.require(VisitId.of(stop.visit())).fields())
                .containsKey("water-change/" + stop.system());
    }
}
