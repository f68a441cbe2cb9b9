package app.tankround.tablet;

import static app.tankround.testing.PersonAtBrowser.allIsSaved;
import static app.tankround.testing.PersonAtBrowser.field;
import static app.tankround.testing.PersonAtBrowser.press;
import static app.tankround.testing.PersonAtBrowser.type;
import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;

import app.tankround.accounts.Role;
import app.tankround.instruments.InstrumentKind;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.PersonAtBrowser;
import app.tankround.testing.TestBrowser;
import app.tankround.testing.TestPeople;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.jdbc.core.simple.JdbcClient;

/** Samples that are shaken and stand while other work goes on. */
@SpringBootTest(webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT)
@IntegrationTest
class KitTimesBrowserTests {

    private static TestBrowser browser;

    @Autowired
    private VisitFixture fixture;

    @Autowired
    private TestPeople people;

    @Autowired
    private JdbcClient jdbc;

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
    void runSeveralAtOnceRingWhenToReadOutliveThePageAndSayWhatWasReadTooLate() {
        VisitFixture.Stop stop = fixture.stop();
        jdbc.sql("""
                        insert into target (water_system, quantity, low, high, unit)
                        values (:system, 'NITRATE', 0, 25, 'mg/L'), (:system, 'PHOSPHATE', 0, 0.1, 'mg/L')
                        """).param("system", stop.system().value()).update();
        fixture.tool(InstrumentKind.COLOUR_KIT, Quantity.NITRATE, MeasurementUnit.MILLIGRAMS_PER_LITRE, "1");
        fixture.tool(InstrumentKind.COLOUR_KIT, Quantity.PHOSPHATE, MeasurementUnit.MILLIGRAMS_PER_LITRE, "0.01");
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
            page.route("**/api/**", route -> route.abort());

            // Salinity is read off an instrument, which takes no time.
            assertThat(start(field(page, "Salinity"))).isHidden();
            Locator strip = page.locator("#kit-timers");
            assertThat(strip).isHidden();
            start(field(page, "Nitrate")).click();
            Locator nitrate = strip.locator("li", new Locator.LocatorOptions().setHasText("Nitrate"));
            assertThat(nitrate).containsText("shake");
            assertThat(nitrate.getByRole(AriaRole.TIMER)).hasText(Pattern.compile("0:[45]\\d|1:00"));
            page.clock().fastForward("01:02");
            assertThat(nitrate).containsText("let it stand");
            assertThat(page.locator("html")).hasAttribute("data-sounded", "1");
            start(field(page, "Phosphate")).click();
            assertThat(strip.locator("li")).hasCount(2);
            PersonAtBrowser.assertAccessible(page);

            // The other work is at the foot of the page; the strip stays in sight.
            page.locator("#leaving").scrollIntoViewIfNeeded();
            assertThat(nitrate).isInViewport();

            // The browser dies and comes back without a signal.
            page.reload();
            assertThat(strip.locator("li")).hasCount(2);
            assertThat(nitrate.getByRole(AriaRole.TIMER)).hasText(Pattern.compile("4:\\d\\d"));
            page.locator("h1").click();
            page.clock().fastForward("05:00");
            assertThat(nitrate).containsText("read it now, by ");
            assertThat(page.locator("html")).hasAttribute("data-sounded", Pattern.compile("[3-9]"));
            type(page, "Nitrate", "10");
            assertThat(strip.locator("li")).hasCount(1);
            assertThat(field(page, "Nitrate").locator(".kit-timer .state")).hasCount(0);

            page.clock().fastForward("07:00");
            assertThat(strip.locator("li")).containsText("too late to read since ");
            type(page, "Phosphate", "0.05");
            assertThat(strip).isHidden();
            assertThat(field(page, "Phosphate").locator(".kit-timer")).containsText("after the latest time of the kit");
            page.reload();
            assertThat(field(page, "Phosphate").locator(".kit-timer")).containsText("after the latest time of the kit");
        }
    }

    @Test
    void saysThatAColourWasReadTooEarlyAndTakesTheTimesThatTheOfficeWrote() {
        VisitFixture.Stop stop = fixture.stop();
        jdbc.sql(
                        "insert into target (water_system, quantity, low, high, unit) values (:system, 'NITRITE', 0, 0.2, 'mg/L')")
                .param("system", stop.system().value())
                .update();
        var kit =
                fixture.tool(InstrumentKind.COLOUR_KIT, Quantity.NITRITE, MeasurementUnit.MILLIGRAMS_PER_LITRE, "0.05");
        try (BrowserContext owner = browser.person(port, 1280, 800);
                BrowserContext technician = browser.person(port, 820, 1180)) {
            Page form = owner.newPage();
            form.navigate(people.signInPath(Role.OWNER));
            form.navigate("/instruments/" + kit.value() + "/edit");
            form.getByLabel("Kit: shake for").fill("0");
            form.getByLabel("Kit: then wait for").fill("9000");
            press(form, "Save");
            assertThat(form.locator("main")).containsText("9,000");
            assertThat(form.locator("main")).containsText("7,200");
            form.getByLabel("Kit: then wait for").fill("180");
            press(form, "Save");
            assertThat(form.locator("h1")).not().containsText("Change");

            Page page = technician.newPage();
            page.navigate(people.signInPath(Role.TECHNICIAN));
            page.navigate("/visits/" + stop.visit());
            press(page, "Start the visit");
            allIsSaved(page);
            Locator button = start(field(page, "Nitrite"));
            assertThat(button).hasText("Start its time: wait 3 min");
            button.click();
            page.clock().fastForward("01:00");
            type(page, "Nitrite", "0.05");
            assertThat(field(page, "Nitrite").locator(".kit-timer")).containsText("before its time was over");
            allIsSaved(page);

            // It goes with the reading, to the office and to every other device.
            form.navigate("/systems/" + stop.system() + "/readings");
            assertThat(form.locator("main")).containsText("before the kit\u2019s time was over");
            assertThat(form.locator("main")).containsText("Read 2 min ");
            form.getByRole(AriaRole.LINK, new Page.GetByRoleOptions().setName("Nitrite"))
                    .click();
            assertThat(form.locator("main")).containsText("before the kit\u2019s time was over");
            try (BrowserContext other = browser.person(port, 820, 1180)) {
                Page there = other.newPage();
                there.navigate(people.signInPath(Role.TECHNICIAN));
                there.navigate("/visits/" + stop.visit());
                assertThat(field(there, "Nitrite").locator(".kit-timer")).containsText("before its time was over");
            }
        }
    }

    private static Locator start(Locator row) {
        return row.getByRole(
                AriaRole.BUTTON, new Locator.GetByRoleOptions().setName(Pattern.compile("^Start its time")));
    }
}
