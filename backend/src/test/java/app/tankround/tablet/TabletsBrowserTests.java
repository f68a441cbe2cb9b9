package app.tankround.tablet;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;

import app.tankround.accounts.Role;
import app.tankround.followups.FollowupView;
import app.tankround.followups.Followups;
import app.tankround.readings.ReadingService;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.PersonAtBrowser;
import app.tankround.testing.TestBrowser;
import app.tankround.testing.TestPeople;
import app.tankround.visits.VisitId;
import app.tankround.visits.VisitService;
import app.tankround.web.Entry;
import app.tankround.web.EntryAnswer;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Download;
import com.microsoft.playwright.Page;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.assertj.core.api.Assertions;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.web.server.LocalServerPort;

/** What the office sees of tablets: values that stand against each other, what was refused, and where the devices are. */
@SpringBootTest(
        webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT,
        // What stands open is of these tests alone.
        properties = "spring.application.name=tablets")
@IntegrationTest
class TabletsBrowserTests {

    private static TestBrowser browser;

    @Autowired
    private VisitFixture fixture;

    @Autowired
    private TestPeople people;

    @Autowired
    private EntryInbox inbox;

    @Autowired
    private VisitService visits;

    @Autowired
    private ReadingService readings;

    @Autowired
    private Followups followups;

    @LocalServerPort
    private int port;

    private BrowserContext desk;
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
    void signIn() {
        stop = fixture.stop();
        take("visit.start", "{'stop':'%s'}".formatted(stop.stop()));
        desk = browser.person(port, 1280, 800);
        page = desk.newPage();
        page.navigate(people.signInPath(Role.OFFICE));
    }

    @AfterEach
    void leave() {
        desk.close();
    }

    @Test
    void letsSomebodyDecideBetweenTwoValues() {
        take("visit.note", "{'line':'gate','text':'Gate sticks'}");
        Assertions.assertThat(take("visit.note", "{'line':'gate','text':'Gate is mended'}")
                        .status())
                .isEqualTo(EntryAnswer.Status.CONFLICT);
        Assertions.assertThat(matters())
                .singleElement()
                .satisfies(matter ->
                        Assertions.assertThat(matter.args()).element(1).isEqualTo("1"));

        page.navigate("/");
        assertThat(page.locator("main")).containsText("Two values for one thing: 1");
        page.navigate("/tablets");
        assertThat(page.locator("main")).containsText("Gate sticks");
        PersonAtBrowser.assertAccessible(page);
        page.screenshot(new Page.ScreenshotOptions().setFullPage(true).setPath(Path.of("target", "tablets-1280.png")));
        // Somebody writes a third value while the page is open.
        take("visit.note", "{'line':'gate','text':'Gate is gone'}", "{'line':'gate','text':'Gate sticks'}");
        take("visit.note", "{'line':'gate','text':'Gate is mended'}");
        PersonAtBrowser.press(page, "“Gate is mended” is right");
        assertThat(page.locator(".field-error")).containsText("Somebody else wrote a value meanwhile");
        PersonAtBrowser.press(page, "“Gate is mended” is right");
        assertThat(page.locator(".flash")).containsText("Decided");
        Assertions.assertThat(visits.require(VisitId.of(stop.visit())).notes())
                .singleElement()
                .satisfies(note -> Assertions.assertThat(note.text()).isEqualTo("Gate is mended"));
        Assertions.assertThat(matters()).isEmpty();

        take("visit.reading", reading("25.3"));
        Assertions.assertThat(take("visit.reading", reading("26.4")).status()).isEqualTo(EntryAnswer.Status.CONFLICT);
        page.navigate("/tablets");
        PersonAtBrowser.press(page, "“26.4 °C” is right");
        assertThat(page.locator(".flash")).containsText("Decided");
        Assertions.assertThat(matters()).isEmpty();
    }

    @Test
    void tellsTheOfficeOfWhatWasRefusedOnceNobodyIsThereToEnterItOtherwise() {
        takeIn("reading/salt", "visit.reading", reading("78"));
        takeIn("reading/acid", "visit.reading", "{'system':'%s','quantity':'PH'}".formatted(stop.system()));
        Assertions.assertThat(matters()).as("while somebody is there").isEmpty();
        takeIn("reading/salt", "visit.reading", reading("25"));
        Assertions.assertThat(take("visit.finish", "{}").status())
                .as("before the check at the door")
                .isEqualTo(EntryAnswer.Status.REFUSED);
        List.of("TOP_OFF_ON", "HEATER_ON", "PUMPS_FLOW", "LEVEL_AT_MARK", "FLOOR_DRY", "RCD_TESTED")
                .forEach(line -> take("visit.departure", "{'line':'%s','answer':'YES'}".formatted(line)));
        Assertions.assertThat(take("visit.finish", "{}").status()).isEqualTo(EntryAnswer.Status.APPLIED);
        Assertions.assertThat(matters())
                .singleElement()
                .satisfies(matter ->
                        Assertions.assertThat(matter.args()).element(2).isEqualTo("1"));

        page.navigate("/tablets");
        var form = page.locator("form:has(a[href='/visits/" + stop.visit() + "'])");
        assertThat(form).containsText("Reading, pH, Dining room");
        form.getByText("It is settled").click();
        assertThat(form.locator(".field-error")).isVisible();
        PersonAtBrowser.assertAccessible(page);
        form.getByLabel("What was done about it").fill("It was a slip: no pH was measured");
        form.getByText("It is settled").click();
        assertThat(page.locator(".flash")).containsText("Settled");
        assertThat(form).hasCount(0);
        Assertions.assertThat(matters()).isEmpty();
    }

    @Test
    void barsADeviceThatIsLostAndLosesNothingOfIt() throws Exception {
        try (BrowserContext tablet = browser.person(port, 820, 1180)) {
            Page there = tablet.newPage();
            there.navigate(people.signInPath(Role.TECHNICIAN));
            there.navigate("/day");
            String shown = there.locator("#device").innerText();
            String sign = shown.substring(shown.indexOf("knows it: ") + 10).substring(0, 4);

            page.navigate("/tablets");
            assertThat(page.locator("main")).containsText(sign + ", used by Test technician");
            page.getByLabel("Why " + sign + " is barred").fill("Left on the ferry");
            PersonAtBrowser.press(page, "Bar " + sign);
            assertThat(page.locator(".flash")).containsText("Barred");
            assertThat(page.locator("main")).containsText("Left on the ferry");
            page.screenshot(new Page.ScreenshotOptions()
                    .setFullPage(true)
                    .setPath(Path.of("target", "tablets-barred-1280.png")));

            there.navigate("/visits/" + stop.visit());
            assertThat(there.locator("main")).not().containsText("Bellwether");
            there.navigate(people.signInPath(Role.TECHNICIAN));
            there.navigate("/visits/" + stop.visit());
            assertThat(there.locator("main")).containsText("The office has barred this device");
            Download file = there.waitForDownload(() -> PersonAtBrowser.press(there, "Save unsent work as a file"));
            Assertions.assertThat(Files.readString(file.path())).contains("\"program\":\"tankround\"");

            PersonAtBrowser.press(page, "Let " + sign + " in again");
            there.navigate("/visits/" + stop.visit());
            PersonAtBrowser.write(there, "Temperature", "25.1");
            Assertions.assertThat(readings.byVisit(stop.visit())).hasSize(1);
        }
    }

    private String reading(String temperature) {
        return "{'system':'%s','quantity':'TEMPERATURE','answer':'VALUE','value':'%s','unit':'degC'}"
                .formatted(stop.system(), temperature);
    }

    private List<FollowupView> matters() {
        return followups.open().stream()
                .filter(matter -> matter.code().equals(OpenEntries.MATTER)
                        && matter.subjectId().equals(stop.visit()))
                .toList();
    }

    private EntryAnswer take(String kind, String body) {
        return inbox.take(fixture.entry(stop, kind, body));
    }

    private void take(String kind, String body, String base) {
        Assertions.assertThat(inbox.take(fixture.entry(stop, kind, body, base)).status())
                .isEqualTo(EntryAnswer.Status.APPLIED);
    }

    /** As a device sends it, which says in which field it was entered. */
    private void takeIn(String field, String kind, String body) {
        Entry entry = fixture.entry(stop, kind, body);
        inbox.take(new Entry(
                entry.id(),
                entry.kind(),
                entry.subject(),
                entry.device(),
                entry.sequence(),
                Optional.of(field),
                entry.deviceTime(),
                entry.clockAhead(),
                entry.base(),
                entry.body(),
                entry.author()));
    }
}
