package app.tankround.tablet;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;

import app.tankround.accounts.Role;
import app.tankround.readings.ReadingService;
import app.tankround.readings.ReadingView;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.PersonAtBrowser;
import app.tankround.testing.TestBrowser;
import app.tankround.testing.TestClock;
import app.tankround.testing.TestPeople;
import app.tankround.visits.VisitService;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Page;
import java.util.List;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.jdbc.core.simple.JdbcClient;

/** A technician with a tablet at a stop of its own, and what of that arrived at the server. */
@SpringBootTest(webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT)
@IntegrationTest
abstract class AtATablet {

    static TestBrowser browser;

    @Autowired
    VisitFixture fixture;

    @Autowired
    TestPeople people;

    @Autowired
    VisitService visits;

    @Autowired
    ReadingService readings;

    @Autowired
    JdbcClient jdbc;

    @Autowired
    TestClock clock;

    @LocalServerPort
    int port;

    BrowserContext tablet;
    Page page;
    VisitFixture.Stop stop;

    @BeforeAll
    static void openBrowser() {
        browser = TestBrowser.open();
    }

    @AfterAll
    static void closeBrowser() {
        browser.close();
    }

    @BeforeEach
    void comeWithATablet() {
        stop = fixture.onlyStop();
        take(newTablet());
    }

    /** What the browser of this test keeps, and at what hour. */
    abstract BrowserContext newTablet();

    @AfterEach
    void putTheTabletAway() {
        tablet.close();
    }

    /** Signs the technician in on this tablet. */
    final void take(BrowserContext taken) {
        tablet = taken;
        page = tablet.newPage();
        page.navigate(people.signInPath(Role.TECHNICIAN));
    }

    /** Opens the day where the browser keeps pages, until it does. */
    void takeTheDayAlong() {
        page.navigate("/day");
        assertThat(page.locator(".day-stops a[href='/visits/" + stop.visit() + "']"))
                .isVisible();
        page.evaluate("() => navigator.serviceWorker.ready.then(() => true)");
        page.waitForFunction("() => navigator.serviceWorker.controller !== null");
    }

    /** At the program of this test, or at another address. */
    void begin(String address) {
        page.navigate(address + "/visits/" + stop.visit());
        PersonAtBrowser.press(page, "Start the visit");
        PersonAtBrowser.allIsSaved(page);
    }

    /** What was read at the visit. */
    List<String> temperatures() {
        return readings.byVisit(stop.visit()).stream()
                .map(ReadingView::value)
                .map(value -> value.orElseThrow().toPlainString())
                .toList();
    }

    /** The kinds of the entries that the server holds of the visit, as the device counts them. */
    List<String> inbox() {
        return jdbc.sql("select kind from inbox_entry where subject_id = :visit order by sequence")
                .param("visit", stop.visit())
                .query((row, number) -> row.getString("kind"))
                .list();
    }
}
