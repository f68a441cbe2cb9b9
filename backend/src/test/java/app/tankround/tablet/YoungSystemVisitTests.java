package app.tankround.tablet;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.accounts.PersonId;
import app.tankround.accounts.Role;
import app.tankround.followups.FollowupView;
import app.tankround.followups.Followups;
import app.tankround.persistence.Uuids;
import app.tankround.readings.Answer;
import app.tankround.readings.NewReading;
import app.tankround.readings.ReadingId;
import app.tankround.readings.ReadingService;
import app.tankround.tanks.WaterSystems;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.PersonAtBrowser;
import app.tankround.testing.TestBrowser;
import app.tankround.testing.TestClock;
import app.tankround.testing.TestPeople;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.visits.VisitId;
import app.tankround.visits.VisitService;
import app.tankround.visits.YoungSystems;
import app.tankround.web.EntryAnswer;
import com.microsoft.playwright.Browser;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import com.microsoft.playwright.options.ServiceWorkerPolicy;
import java.math.BigDecimal;
import java.time.Duration;
import java.util.Date;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.jdbc.core.simple.JdbcClient;

/** A visit to a system in its first weeks: what is expected of it, and no animals before its filter copes. */
@SpringBootTest(webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT)
@IntegrationTest
class YoungSystemVisitTests {

    @Autowired
    private VisitFixture fixture;

    @Autowired
    private EntryInbox inbox;

    @Autowired
    private ReadingService readings;

    @Autowired
    private YoungSystems young;

    @Autowired
    private WaterSystems systems;

    @Autowired
    private VisitService visits;

    @Autowired
    private Followups followups;

    @Autowired
    private TestPeople people;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private TestClock clock;

    @LocalServerPort
    private int port;

    private VisitFixture.Stop stop;

    @BeforeEach
    void prepare() {
        stop = fixture.stop();
    }

    @AfterEach
    void resetClock() {
        clock.set(TestClock.START);
    }

    private void startedDaysAgo(int days) {
        jdbc.sql("update water_system set started_on = :on where id = :id")
                .param("on", VisitFixture.TODAY.minusDays(days))
                .param("id", stop.system().value())
                .update();
    }

    private void test(int daysAgo, Quantity quantity, Answer answer, String value) {
        PersonId person = stop.technician();
        readings.record(new NewReading(
                ReadingId.of(Uuids.next(clock.instant())),
                stop.system(),
                Optional.empty(),
                quantity,
                answer,
                Optional.of(new BigDecimal(value)),
                Optional.empty(),
                MeasurementUnit.MILLIGRAMS_PER_LITRE,
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.of("LOT-7"),
                Optional.empty(),
                TestClock.START.minus(Duration.ofDays(daysAgo)).minusSeconds(60),
                person,
                Optional.empty()));
    }

    private void nothingFound(int daysAgo) {
        test(daysAgo, Quantity.AMMONIA, Answer.BELOW_DETECTION, "0.05");
        test(daysAgo, Quantity.NITRITE, Answer.BELOW_DETECTION, "0.05");
    }

    private EntryAnswer take(String kind, String body) {
        return inbox.take(fixture.entry(stop, kind, body));
    }

    private EntryAnswer putIn(String line, int count, String more) {
        return take(
                "visit.livestock",
                "{'system':'%s','line':'%s','change':'NEW','count':'%d','name':'Clownfish'%s}"
                        .formatted(stop.system(), line, count, more));
    }

    @Test
    void asksBackNewAnimalsUntilTheFilterCopesAndTellsTheOfficeWhatWentInAllTheSame() {
        startedDaysAgo(36);
        take("visit.start", "{'stop':'%s'}".formatted(stop.stop()));
        test(10, Quantity.AMMONIA, Answer.VALUE, "0.5");
        assertThat(putIn("a", 2, "").code()).isEqualTo("visits.stocking.FOUND");
        nothingFound(4);
        assertThat(putIn("b", 2, "").code()).isEqualTo("visits.stocking.ONCE");
        nothingFound(1);
        assertThat(putIn("c", 2, "").code()).isEqualTo("visits.stocking.NO_SOURCE");
        assertThat(systems.livestock(stop.system())).isEmpty();
        take("visit.ammonia-source", "{'system':'%s','source':'NONE'}".formatted(stop.system()));
        assertThat(putIn("d", 2, "").code()).isEqualTo("visits.stocking.NO_SOURCE");
        assertThat(inbox.take(fixture.entry(
                                stop,
                                "visit.ammonia-source",
                                "{'system':'%s','source':'FED'}".formatted(stop.system()),
                                "{'system':'%s','source':'NONE'}".formatted(stop.system())))
                        .status())
                .isEqualTo(EntryAnswer.Status.APPLIED);
        assertThat(putIn("e", 2, "").status()).isEqualTo(EntryAnswer.Status.APPLIED);
        EntryAnswer many = putIn("f", 2, "");
        assertThat(many.code()).isEqualTo("visits.stocking.FEW");
        assertThat(matters()).isEmpty();
        assertThat(putIn("g", 2, ",'because':'The dealer closes tomorrow'").status())
                .isEqualTo(EntryAnswer.Status.APPLIED);
        assertThat(matters())
                .singleElement()
                .satisfies(matter ->
                        assertThat(matter.args()).containsExactly("Dining room", "2", "The dealer closes tomorrow"));
    }

    @Test
    void takesNoKitThatSeesTooLittleAsATest() {
        startedDaysAgo(36);
        test(5, Quantity.AMMONIA, Answer.BELOW_DETECTION, "5");
        test(5, Quantity.NITRITE, Answer.BELOW_DETECTION, "0.05");
        nothingFound(1);
        assertThat(young.told(systems.require(stop.system()), VisitFixture.TODAY, Locale.UK)
                        .get("code"))
                .isEqualTo("ONCE");
    }

    @Test
    void saysNothingOfAnOldSystem() {
        startedDaysAgo(900);
        assertThat(young.told(systems.require(stop.system()), VisitFixture.TODAY, Locale.UK))
                .isEmpty();
        assertThat(young.of(systems.require(stop.system()), VisitFixture.TODAY)
                        .stocking()
                        .held())
                .isFalse();
    }

    private List<FollowupView> matters() {
        return followups.open().stream()
                .filter(matter -> matter.code().equals("visits.followup.stocking")
                        && matter.subjectId().equals(stop.system().value()))
                .toList();
    }

    @Test
    void saysAtTheTankThatABrownFilmIsLeftAndAsksBackAnimalsWithoutAConnection() {
        startedDaysAgo(9);
        try (TestBrowser browser = TestBrowser.open();
                BrowserContext context = browser.browser()
                        .newContext(new Browser.NewContextOptions()
                                .setViewportSize(820, 1180)
                                .setServiceWorkers(ServiceWorkerPolicy.BLOCK))) {
            Page page = visit(context);
            assertThat(page.locator("[data-young]")).containsText("A brown film in week 2 is expected");
            assertThat(page.locator("[data-young]")).containsText("leave it");
            PersonAtBrowser.assertAccessible(page);
            page.route("**/api/entries", route -> route.abort());
            Locator animals = page.locator("[data-tab=look]");
            press(animals, "Add a line about animals");
            animals.getByLabel("Name").fill("Clownfish");
            animals.getByLabel("How many").fill("2");
            press(animals, "Save");
            assertThat(animals).containsText("No new animals in Dining room yet");
            page.unroute("**/api/entries");
            assertThat(visits.require(VisitId.of(stop.visit()))
                            .systems()
                            .getFirst()
                            .livestock())
                    .isEmpty();
            PersonAtBrowser.type(page, "Why they go in all the same", "Rescued from a burst tank");
            PersonAtBrowser.allIsSaved(page);
            assertThat(systems.livestock(stop.system())).hasSize(1);
            assertThat(matters()).hasSize(1);
        }
    }

    @Test
    void callsAmmoniaExpectedInTheFirstWeeksAndAnAlarmInTheTenth() {
        startedDaysAgo(66);
        try (TestBrowser browser = TestBrowser.open();
                BrowserContext context = browser.browser()
                        .newContext(new Browser.NewContextOptions()
                                .setViewportSize(820, 1180)
                                .setServiceWorkers(ServiceWorkerPolicy.BLOCK))) {
            Page page = visit(context);
            Locator said = page.locator("[data-young]");
            assertThat(said).containsText("Week 10");
            assertThat(said).not().containsText("is an alarm");
            PersonAtBrowser.type(page, "Ammonia, total", "0.5");
            assertThat(said).containsText("In week 10 the filter must cope. Ammonia or nitrite now is an alarm");
        }
    }

    private Page visit(BrowserContext context) {
        context.clock().setFixedTime(Date.from(clock.instant()));
        Page page = context.newPage();
        page.navigate(address(people.signInPath(Role.TECHNICIAN)));
        page.navigate(address("/visits/for-stop/" + stop.stop()));
        PersonAtBrowser.press(page, "Start the visit");
        page.waitForURL("**/visits/" + stop.visit());
        PersonAtBrowser.allIsSaved(page);
        return page;
    }

    private static void press(Locator part, String name) {
        part.getByRole(
                        AriaRole.BUTTON,
                        new Locator.GetByRoleOptions().setName(name).setExact(true))
                .click();
    }

    private String address(String path) {
        return "http://127.0.0.1:" + port + path;
    }
}
