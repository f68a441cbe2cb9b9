package app.tankround.tablet;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;

import app.tankround.accounts.Role;
import app.tankround.instruments.InstrumentId;
import app.tankround.readings.ReadingService;
import app.tankround.schedule.TaskView;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.PersonAtBrowser;
import app.tankround.testing.TestBrowser;
import app.tankround.testing.TestPeople;
import app.tankround.units.Quantity;
import app.tankround.visits.VisitId;
import app.tankround.visits.VisitService;
import com.microsoft.playwright.Browser;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import com.microsoft.playwright.options.ServiceWorkerPolicy;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.assertj.core.api.Assertions;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.web.server.LocalServerPort;

/** The visit page in a real browser, as a technician uses it. */
@SpringBootTest(webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT)
@IntegrationTest
class VisitPageBrowserTests {

    private static TestBrowser browser;

    @Autowired
    private VisitFixture fixture;

    @Autowired
    private TestPeople people;

    @Autowired
    private VisitService visits;

    @Autowired
    private ReadingService readings;

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
    void savesAFieldShowsItAgainAndSaysWhatAReadingIsWorth() {
        VisitFixture.Stop stop = fixture.onlyStop();
        InstrumentId low = fixture.refractometer("1.0186");
        List<String> complaints = new ArrayList<>();
        try (BrowserContext context = browser.browser()
                .newContext(new Browser.NewContextOptions()
                        .setViewportSize(820, 1180)
                        .setServiceWorkers(ServiceWorkerPolicy.BLOCK))) {
            Page page = context.newPage();
            page.navigate(address(people.signInPath(Role.TECHNICIAN)));
            page.onConsoleMessage(message -> {
                if (message.type().equals("error")) {
                    complaints.add(message.text());
                }
            });
            page.onPageError(complaints::add);
            page.navigate(address("/visits/for-stop/" + stop.stop()));
            page.getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName("Start the visit"))
                    .click();
            page.waitForURL("**/visits/" + stop.visit());
            PersonAtBrowser.allIsSaved(page);

            page.getByLabel("Yes, at the mark").check();
            Locator salinity = page.getByLabel("Salinity", new Page.GetByLabelOptions().setExact(true));
            Locator reading = page.locator(".reading", new Page.LocatorOptions().setHas(salinity));
            reading.getByText("More about this reading").click();
            reading.getByLabel("Instrument").selectOption(low.toString());
            salinity.fill("1,025");
            salinity.blur();
            assertThat(reading.locator(".field-error")).containsText("1,025");
            assertThat(salinity).hasValue("1,025");
            Assertions.assertThat(readings.byVisit(stop.visit())).isEmpty();

            salinity.fill("1.025");
            salinity.blur();
            assertThat(reading.locator(".verdict")).containsText("In doubt");
            assertThat(reading.locator(".notice")).containsText("Do not correct it in one visit");
            assertThat(reading).containsText("saved");

            // A kit that stands in no register is known by its lot.
            Locator warmth = page.getByLabel("Temperature", new Page.GetByLabelOptions().setExact(true));
            Locator warm = page.locator(".reading", new Page.LocatorOptions().setHas(warmth));
            warm.getByText("More about this reading").click();
            warm.getByLabel("Lot of the test kit").fill("K-77");
            warmth.fill("25.0");
            warmth.blur();
            assertThat(warm).containsText("saved");

            // The salinity behind it is by a suspect instrument, so the change is asked back and says why.
            page.getByLabel("Out", new Page.GetByLabelOptions().setExact(true)).fill("40");
            page.getByLabel("Out", new Page.GetByLabelOptions().setExact(true)).blur();
            Locator doubt = page.locator(
                    ".field-error",
                    new Page.LocatorOptions()
                            .setHasText("is suspect: nothing may rest on it until a check settles it"));
            assertThat(doubt).isVisible();
            Locator why = page.getByLabel("If it was changed all the same: why");
            why.fill("Agreed change, new water matched to the tank");
            why.blur();
            assertThat(doubt).hasCount(0);
            assertThat(page.locator("#sync")).containsText("Everything on this page is saved");

            page.reload();
            assertThat(page.getByLabel("Out", new Page.GetByLabelOptions().setExact(true)))
                    .hasValue("40");
            assertThat(page.getByLabel("Salinity", new Page.GetByLabelOptions().setExact(true)))
                    .hasValue("1.025");
            assertThat(warm.getByLabel("Lot of the test kit")).hasValue("K-77");
            assertThat(page.locator(".reading .notice")).containsText("Do not correct it in one visit");
            page.screenshot(new Page.ScreenshotOptions().setFullPage(true).setPath(Path.of("target", "visit-820.png")));

            page.getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName("Finish the visit"))
                    .click();
            assertThat(page.locator("[data-tab=finish] .field-error")).containsText("Top-off is back on");
            for (Locator line : page.locator("[data-line]").all()) {
                line.getByLabel("Yes").check();
                assertThat(line).containsText("saved");
            }
            page.getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName("Finish the visit"))
                    .click();
            assertThat(page.locator("[data-tab=finish]")).containsText("This visit was finished");

            page.setViewportSize(360, 740);
            page.screenshot(new Page.ScreenshotOptions().setFullPage(true).setPath(Path.of("target", "visit-360.png")));
            Assertions.assertThat((Boolean) page.evaluate(
                            "document.documentElement.scrollWidth <= document.documentElement.clientWidth"))
                    .isTrue();
        }
        Assertions.assertThat(complaints).isEmpty();
        Assertions.assertThat(visits.require(VisitId.of(stop.visit())).finished())
                .isTrue();
    }

    @Test
    void asksForAReadingAtEachSamplePoint() {
        VisitFixture.Stop stop = fixture.onlyStop();
        List<String> points = fixture.samplePoints(stop, "Display", "Sump");
        try (BrowserContext context = browser.browser()
                .newContext(new Browser.NewContextOptions()
                        .setViewportSize(820, 1180)
                        .setServiceWorkers(ServiceWorkerPolicy.BLOCK))) {
            Page page = context.newPage();
            page.navigate(address(people.signInPath(Role.TECHNICIAN)));
            page.navigate(address("/visits/for-stop/" + stop.stop()));
            page.getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName("Start the visit"))
                    .click();
            page.waitForURL("**/visits/" + stop.visit());
            PersonAtBrowser.allIsSaved(page);

            Locator display = page.getByLabel("Temperature, Display");
            Locator sump = page.getByLabel("Temperature, Sump");
            assertThat(display).isVisible();
            assertThat(sump).hasCount(0);
            display.fill("25.0");
            display.blur();
            page.getByText("Measured at another sample point").click();
            page.getByLabel("Reading", new Page.GetByLabelOptions().setExact(true))
                    .selectOption("TEMPERATURE");
            page.getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName("Add this reading"))
                    .click();
            assertThat(sump).isFocused();
            sump.fill("25.4");
            sump.blur();
            assertThat(page.locator(".reading", new Page.LocatorOptions().setHas(sump)))
                    .containsText("saved");
            assertThat(page.locator("#sync")).containsText("Everything on this page is saved");

            page.reload();
            assertThat(display).hasValue("25.0");
            assertThat(sump).hasValue("25.4");
            page.screenshot(
                    new Page.ScreenshotOptions().setFullPage(true).setPath(Path.of("target", "visit-points-820.png")));
        }
        Assertions.assertThat(readings.byVisit(stop.visit()))
                .extracting(reading -> reading.samplePointId().orElseThrow() + " "
                        + reading.value().orElseThrow())
                .containsExactly(points.get(0) + " 25.0", points.get(1) + " 25.4");
    }

    @Test
    void saysWhatWasAgreedAndCountsOnlyWhatHolds() {
        VisitFixture.Stop stop = fixture.onlyStop(TaskView.test(Quantity.TEMPERATURE));
        try (BrowserContext context = browser.browser()
                .newContext(new Browser.NewContextOptions()
                        .setViewportSize(820, 1180)
                        .setServiceWorkers(ServiceWorkerPolicy.BLOCK))) {
            Page page = context.newPage();
            page.navigate(address(people.signInPath(Role.TECHNICIAN)));
            page.navigate(address("/visits/for-stop/" + stop.stop()));
            page.getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName("Start the visit"))
                    .click();
            page.waitForURL("**/visits/" + stop.visit());
            PersonAtBrowser.allIsSaved(page);

            // 10 % of 400 L.
            assertThat(page.locator("[data-tab=water]")).containsText("Agreed: 40 L");

            Locator work = page.locator("[data-tab=work]");
            assertThat(work).containsText("0 of 4 done");
            assertThat(work).containsText("Temperature tested");
            Locator temperature = page.getByLabel("Temperature", new Page.GetByLabelOptions().setExact(true));
            temperature.fill("25.0");
            temperature.blur();
            assertThat(work).containsText("1 of 4 done");
            assertThat(work).not().containsText("Done once its reading is written");

            Locator leaving = page.locator("[data-tab=leaving]");
            Locator heater = page.locator("[data-line=HEATER_ON]");
            heater.getByLabel("Yes").check();
            assertThat(leaving).containsText("1 of 6 answered");
            heater.getByLabel("No", new Locator.GetByLabelOptions().setExact(true))
                    .check();
            assertThat(leaving).containsText("0 of 6 answered");
            assertThat(heater).containsText("not saved yet");
            Locator why = heater.getByLabel("Why not");
            why.fill("Element burnt out");
            why.blur();
            assertThat(leaving).containsText("1 of 6 answered");

            page.reload();
            assertThat(leaving).containsText("1 of 6 answered");
            assertThat(why).hasValue("Element burnt out");
            assertThat(work).containsText("1 of 4 done");
            page.screenshot(
                    new Page.ScreenshotOptions().setFullPage(true).setPath(Path.of("target", "visit-agreed-820.png")));
        }
    }

    @Test
    void keepsOnTheDeviceWhatCannotBeSentAndSendsItLater() {
        VisitFixture.Stop stop = fixture.onlyStop();
        try (BrowserContext context = browser.person(port, 820, 1180)) {
            Page page = context.newPage();
            page.navigate(address(people.signInPath(Role.TECHNICIAN)));
            page.navigate(address("/visits/for-stop/" + stop.stop()));
            page.getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName("Start the visit"))
                    .click();
            page.waitForURL("**/visits/" + stop.visit());
            PersonAtBrowser.allIsSaved(page);
            Locator out = page.getByLabel("Out", new Page.GetByLabelOptions().setExact(true));
            assertThat(out).isVisible();
            page.route("**/api/entries", route -> route.abort());
            out.fill("40");
            out.blur();
            Locator part = page.locator("[data-tab=water]");
            assertThat(part).containsText("saved on this device, not sent yet");
            assertThat(page.locator("#sync")).containsText("1 entry is saved on this device and not sent yet");
            assertThat(page.locator("#sync")).containsText("The program cannot be reached");
            assertThat(out).hasValue("40");
            Assertions.assertThat(visits.require(VisitId.of(stop.visit())).fields())
                    .doesNotContainKey("water-change/" + stop.system());
            page.unroute("**/api/entries");
            page.getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName("Send now"))
                    .click();
            assertThat(page.locator("#sync")).containsText("Everything on this page is saved");
            Assertions.assertThat(visits.require(VisitId.of(stop.visit())).fields())
                    .containsKey("water-change/" + stop.system());
        }
    }

    private String address(String path) {
        return "http://127.0.0.1:" + port + path;
    }
}
