package app.tankround.tablet;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.accounts.Role;
import app.tankround.readings.ReadingService;
import app.tankround.readings.ReadingView;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.PersonAtBrowser;
import app.tankround.testing.TestBrowser;
import app.tankround.testing.TestPeople;
import app.tankround.visits.VisitId;
import app.tankround.visits.VisitService;
import app.tankround.visits.VisitView;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.jdbc.core.simple.JdbcClient;

/** A round of eight stops with one tablet: a signal at the first only, and a battery that gives out twice. */
@SpringBootTest(
        webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT,
        properties = "spring.application.name=day-of-eight-stops")
@IntegrationTest
class DayOfEightStopsBrowserTests {

    private static final int STOPS = 8;
    private static final String KEPT = "saved on this device and not sent yet";

    private static TestBrowser browser;

    @Autowired
    private VisitFixture fixture;

    @Autowired
    private TestPeople people;

    @Autowired
    private VisitService visits;

    @Autowired
    private ReadingService readings;

    @Autowired
    private JdbcClient jdbc;

    @LocalServerPort
    private int port;

    @TempDir
    private Path store;

    private BrowserContext tablet;
    private Page page;

    @BeforeAll
    static void openBrowser() {
        browser = TestBrowser.open();
    }

    @AfterAll
    static void closeBrowser() {
        browser.close();
    }

    @BeforeEach
    void turnOn() {
        tablet = browser.tablet(store, "http://localhost:" + port);
        page = tablet.pages().getFirst();
    }

    @AfterEach
    void turnOff() {
        tablet.close();
    }

    @Test
    void arrivesWhole() {
        List<VisitFixture.Stop> day = fixture.stops(STOPS);
        page.navigate(people.signInPath(Role.TECHNICIAN));
        page.navigate("/day");
        assertThat(page.locator(".day-stops a[href='/visits/" + day.getLast().visit() + "']"))
                .isVisible();
        page.evaluate("() => navigator.serviceWorker.ready.then(() => true)");
        page.waitForFunction("() => navigator.serviceWorker.controller !== null");

        comeTo(day.getFirst());
        work(0);
        leave();
        PersonAtBrowser.allIsSaved(page);

        tablet.setOffline(true);
        for (int number = 1; number < STOPS; number++) {
            comeTo(day.get(number));
            if (number == 3) {
                batteryGivesOut();
                comeBackTo(day.get(number));
            }
            work(number);
            if (number == 6) {
                batteryGivesOut();
                comeBackTo(day.get(number));
                assertThat(temperature()).hasValue(read(number));
                assertThat(page.locator("[data-tab=photos] img")).hasJSProperty("naturalWidth", 40);
            }
            leave();
            assertThat(page.locator("#sync")).containsText(KEPT);
        }
        assertThat(visits.find(VisitId.of(day.get(1).visit()))).isEmpty();

        tablet.setOffline(false);
        page.navigate(people.signInPath(Role.TECHNICIAN));
        page.navigate("/day");
        PersonAtBrowser.allIsSaved(page);
        for (int number = 0; number < STOPS; number++) {
            assertWhole(day.get(number), number);
        }
        assertThat(jdbc.sql("select count(*) from inbox_entry where status <> 'applied'")
                        .query(Integer.class)
                        .single())
                .isZero();
        assertThat(jdbc.sql("select max(sequence) - count(*) from inbox_entry")
                        .query(Integer.class)
                        .single())
                .as("numbers of the device that never came")
                .isZero();
    }

    private void batteryGivesOut() {
        TestBrowser.kill(store);
        turnOn();
        tablet.setOffline(true);
    }

    private void comeTo(VisitFixture.Stop stop) {
        open(stop);
        PersonAtBrowser.press(page, "Start the visit");
        page.getByLabel("Yes, at the mark").check();
        assertThat(page.locator("#sync")).not().containsText("Not saved");
    }

    private void comeBackTo(VisitFixture.Stop stop) {
        open(stop);
        assertThat(temperature()).isVisible();
    }

    private void open(VisitFixture.Stop stop) {
        page.navigate("/day");
        page.locator(".day-stops a[href='/visits/" + stop.visit() + "']").click();
    }

    private void work(int number) {
        PersonAtBrowser.type(page, "Temperature", read(number));
        PersonAtBrowser.type(page, "Out", String.valueOf(40 + number));
        page.getByLabel("Clean the glass").check();
        page.locator("[data-tab=photos] input[type=file]").setInputFiles(PersonAtBrowser.photo());
        assertThat(page.locator("[data-tab=photos] img")).hasJSProperty("naturalWidth", 40);
        assertThat(page.locator("#sync")).not().containsText("Not saved");
        assertThat(page.locator("[data-tab=photos]")).containsText("saved");
    }

    private void leave() {
        PersonAtBrowser.answersYes(page);
        PersonAtBrowser.press(page, "Nobody was there");
        PersonAtBrowser.press(page, "Finish the visit");
        assertThat(page.locator("[data-tab=finish]")).containsText("This visit was finished");
    }

    private void assertWhole(VisitFixture.Stop stop, int number) {
        VisitView visit = visits.require(VisitId.of(stop.visit()));
        VisitView.SystemWork work = visit.systems().getFirst();
        assertThat(visit.finished()).as("stop %s", number + 1).isTrue();
        assertThat(readings.byVisit(stop.visit()))
                .extracting(ReadingView::value)
                .map(value -> value.orElseThrow().toPlainString())
                .containsExactly(read(number));
        assertThat(work.topUp().orElseThrow().atMark()).isTrue();
        assertThat(work.waterChange().orElseThrow().out().litres()).isEqualTo(40 + number);
        assertThat(work.tasks())
                .filteredOn(task -> task.state() == VisitView.TaskState.DONE)
                .isNotEmpty();
        assertThat(visit.photos())
                .singleElement()
                .satisfies(photo -> assertThat(photo.arrived()).isTrue());
        assertThat(visit.signature().orElseThrow().state()).isEqualTo(VisitView.SignatureState.NOBODY_THERE);
    }

    private Locator temperature() {
        return page.getByLabel("Temperature", new Page.GetByLabelOptions().setExact(true));
    }

    private static String read(int number) {
        return "25." + (number + 1);
    }
}
