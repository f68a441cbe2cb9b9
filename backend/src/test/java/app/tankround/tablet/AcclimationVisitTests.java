package app.tankround.tablet;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.accounts.Role;
import app.tankround.instruments.InstrumentId;
import app.tankround.tanks.InfectionClass;
import app.tankround.tanks.WaterSystems;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.PersonAtBrowser;
import app.tankround.testing.TestBrowser;
import app.tankround.testing.TestClock;
import app.tankround.testing.TestPeople;
import app.tankround.visits.VisitId;
import app.tankround.visits.VisitService;
import app.tankround.web.EntryAnswer;
import com.microsoft.playwright.Browser;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import com.microsoft.playwright.options.ServiceWorkerPolicy;
import java.util.Date;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.web.server.LocalServerPort;

/** Animals from a bag at a visit, and illness suspected there; the arithmetic is in AcclimationTests. */
@SpringBootTest(webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT)
@IntegrationTest
class AcclimationVisitTests {

    @Autowired
    private VisitFixture fixture;

    @Autowired
    private EntryInbox inbox;

    @Autowired
    private VisitService visits;

    @Autowired
    private WaterSystems systems;

    @Autowired
    private TestPeople people;

    @Autowired
    private TestClock clock;

    @LocalServerPort
    private int port;

    private VisitFixture.Stop stop;

    @BeforeEach
    void prepare() {
        stop = fixture.stop();
    }

    private EntryAnswer take(String kind, String body) {
        return inbox.take(fixture.entry(stop, kind, body));
    }

    private EntryAnswer acclimated(String line) {
        return take("visit.acclimation", """
                {'system':'%s','line':'%s','name':'Tang','unit':'L','bag':'2','salinity':'34','salinityUnit':'S',\
                'temperatureUnit':'degC','bagTemperature':'23','bagPh':'6.8','hours':'4','ammonia':'5',\
                'tankTemperature':'25','tankPh':'8.2','vessel':'20','dropsPerMl':'20','mode':'GROWING'}""".formatted(stop.system(), line));
    }

    @Test
    void takesTheTanksSalinityOnlyFromAnInstrumentThatIsTrustedToday() {
        InstrumentId sound = fixture.refractometer("1.0266");
        InstrumentId wrong = fixture.refractometer("1.0320");
        take("visit.start", "{'stop':'%s'}".formatted(stop.stop()));
        EntryAnswer unread = acclimated("a");
        assertThat(unread.code()).isEqualTo("visits.acclimation.unread");
        assertThat(String.valueOf(unread.args().get("words"))).contains("V-R");
        take("visit.reading", VisitFixture.salinity(stop, wrong, "1.0320"));
        assertThat(acclimated("b").code()).isEqualTo("visits.acclimation.untrusted");
        inbox.take(fixture.entry(
                stop,
                "visit.reading",
                VisitFixture.salinity(stop, sound, "1.0266"),
                VisitFixture.salinity(stop, wrong, "1.0320")));
        EntryAnswer kept = acclimated("c");
        assertThat(kept.status()).isEqualTo(EntryAnswer.Status.APPLIED);
        assertThat(kept.args().get("way")).isEqualTo("SHORT");
    }

    @Test
    void saysAtTheTankWithoutAConnectionWhyABagIsNotDrippedForLong() {
        fixture.refractometer("1.0266");
        InstrumentId sound = fixture.refractometer("1.0266");
        try (TestBrowser browser = TestBrowser.open();
                BrowserContext context = context(browser)) {
            Page page = visit(context);
            Locator bag = page.locator("[data-acclimation]");
            bag.getByText("Animals from a bag").click();
            bag.getByRole(AriaRole.BUTTON, new Locator.GetByRoleOptions().setName("Bring animals over"))
                    .click();
            assertThat(bag).containsText("Bag water goes to the drain, never into the tank");
            assertThat(bag).containsText("salinity was not read at this visit. Read it with V-R");
            assertThat(bag.getByRole(AriaRole.BUTTON, new Locator.GetByRoleOptions().setName("Keep this")))
                    .isDisabled();
            page.getByLabel("Yes, at the mark").check();
            Locator salinity = PersonAtBrowser.field(page, "Salinity");
            salinity.getByText("More about this reading").click();
            salinity.getByLabel("Instrument").selectOption(sound.toString());
            PersonAtBrowser.write(page, "Salinity", "1.0266");
            page.route("**/api/entries", route -> route.abort());
            bag.getByLabel("Name").fill("Tang");
            fill(bag, "Water in the bag", "2");
            fill(bag, "Hours in the bag", "4");
            bag.getByLabel("Scale of that salinity").selectOption("S");
            fill(bag, "Salinity in the bag", "1.0210");
            fill(bag, "Temperature in the bag", "23");
            fill(bag, "pH in the bag", "6.8");
            fill(bag, "Temperature of the tank", "25");
            fill(bag, "pH of the tank", "8.2");
            fill(bag, "The vessel holds", "20");
            assertThat(bag.getByRole(AriaRole.STATUS)).containsText("Did you mean 1.0210 SG?");
            fill(bag, "Salinity in the bag", "24");
            assertThat(bag).containsText("Then drip for 11 hours");
            assertThat(bag).containsText("Rather mix water to the bag’s S 24");
            fill(bag, "Salinity in the bag", "34");
            assertThat(bag).containsText("Then drip for");
            fill(bag, "Total ammonia in the bag, if measured", "5");
            assertThat(bag).containsText("Do not drip for long");
            assertThat(bag).containsText("be done within 20 minutes");
            Locator keep = bag.getByRole(AriaRole.BUTTON, new Locator.GetByRoleOptions().setName("Keep this"));
            saysAtTheFieldThatItIsEmpty(bag, keep, "pH in the bag", "A number is missing here, from 4 to 11.");
            fill(bag, "pH in the bag", "6.8");
            saysAtTheFieldThatItIsEmpty(bag, keep, "Name", "“Name” is missing.");
            fill(bag, "Name", "Tang");
            keep.click();
            assertThat(bag).containsText("saved on this device");
            assertThat(bag.locator("[aria-invalid]")).hasCount(0);
            page.unroute("**/api/entries");
            page.reload();
            PersonAtBrowser.allIsSaved(page);
            assertThat(page.locator("[data-acclimation]")).containsText("Do not drip for long");
            assertThat(visits.require(VisitId.of(stop.visit())).fields().keySet())
                    .anyMatch(key -> key.startsWith("acclimation/"));
            PersonAtBrowser.assertAccessible(page);
        }
    }

    /** From clean to dirty, fish under treatment last: fishery biosecurity advice, read. */
    @Test
    void ordersTheRestOfTheRoundFromHealthyToSick() {
        try (TestBrowser browser = TestBrowser.open();
                BrowserContext context = context(browser)) {
            Page page = visit(context);
            Object order = page.evaluate("""
                    async () => {
                      const { cleanestFirst } = await import("/js/tablet/order.js");
                      const classes = { a: "TREATMENT", b: "HEALTHY", c: "QUARANTINE", d: "NEW", e: "HEALTHY", f: "HEALTHY" };
                      const ids = Object.keys(classes);
                      const bundle = {
                        systems: ids.map((id) => ({ id, infectionClass: classes[id] })),
                        plannedVisits: ids.map((id) => ({ id: `due-${id}`, system: id })),
                      };
                      const stops = ids.map((id) => ({ id, plannedVisits: [`due-${id}`] }));
                      return cleanestFirst(bundle, stops, new Set(["f"]), new Set(["b"])).map((stop) => stop.id).join("");
                    }
                    """);
            assertThat(order).isEqualTo("edcba");
        }
    }

    @Test
    void keepsASuspicionWithoutAConnectionSaysWhatToDoAndTellsTheOfficeLater() {
        try (TestBrowser browser = TestBrowser.open();
                BrowserContext context = context(browser)) {
            Page page = visit(context);
            page.route("**/api/entries", route -> route.abort());
            Locator part = page.locator("[data-suspicion]");
            part.getByText("Illness suspected here").click();
            part.getByLabel("What was seen").fill("white spots");
            part.getByLabel("Disinfect and go on").check();
            assertThat(part).containsText("cleaned, disinfected, rinsed and dried");
            assertThat(part).containsText("saved on this device");
            page.navigate(address("/day"));
            assertThat(page.locator("main")).containsText("the rest stands here clean before sick");
            assertThat(systems.require(stop.system()).infectionClass()).isEqualTo(InfectionClass.HEALTHY);
            page.unroute("**/api/entries");
            page.navigate(address("/visits/" + stop.visit()));
            PersonAtBrowser.allIsSaved(page);
            assertThat(systems.require(stop.system()).infectionClass()).isEqualTo(InfectionClass.SUSPECTED);
        }
    }

    /** Empties a field and keeps what stands there; nothing of it is shown as kept. */
    private static void saysAtTheFieldThatItIsEmpty(Locator part, Locator keep, String label, String said) {
        fill(part, label, "");
        keep.click();
        assertThat(part.locator(".field-error")).hasText(label + ": " + said);
        assertThat(part.getByLabel(label, new Locator.GetByLabelOptions().setExact(true)))
                .hasAttribute("aria-invalid", "true");
        assertThat(part).not().containsText("saved on this device");
    }

    private static void fill(Locator part, String label, String text) {
        Locator input = part.getByLabel(label, new Locator.GetByLabelOptions().setExact(true));
        input.fill(text);
        input.blur();
    }

    private BrowserContext context(TestBrowser browser) {
        BrowserContext context = browser.browser()
                .newContext(new Browser.NewContextOptions()
                        .setViewportSize(820, 1180)
                        .setServiceWorkers(ServiceWorkerPolicy.BLOCK));
        context.clock().setFixedTime(Date.from(clock.instant()));
        return context;
    }

    private Page visit(BrowserContext context) {
        Page page = context.newPage();
        page.navigate(address(people.signInPath(Role.TECHNICIAN)));
        page.navigate(address("/visits/for-stop/" + stop.stop()));
        PersonAtBrowser.press(page, "Start the visit");
        page.waitForURL("**/visits/" + stop.visit());
        PersonAtBrowser.allIsSaved(page);
        return page;
    }

    private String address(String path) {
        return "http://127.0.0.1:" + port + path;
    }
}
