package app.tankround.tablet;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;

import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.Role;
import app.tankround.instruments.InstrumentId;
import app.tankround.persistence.Uuids;
import app.tankround.readings.Answer;
import app.tankround.readings.Bench;
import app.tankround.readings.DecisionRegister;
import app.tankround.readings.DecisionView;
import app.tankround.readings.ReadingId;
import app.tankround.readings.ReadingService;
import app.tankround.schedule.TaskView;
import app.tankround.stock.BatchMeasurement;
import app.tankround.stock.NewWaterBatch;
import app.tankround.stock.WaterBatchId;
import app.tankround.stock.WaterBatchView;
import app.tankround.stock.WaterBatches;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.PersonAtBrowser;
import app.tankround.testing.TestBrowser;
import app.tankround.testing.TestClock;
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
import java.math.BigDecimal;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Date;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.regex.Pattern;
import org.assertj.core.api.Assertions;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.context.annotation.Import;
import org.springframework.jdbc.core.simple.JdbcClient;

/** What goes wrong at a tank, as the technician meets it on the page of the visit. */
@SpringBootTest(webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT)
@IntegrationTest
@Import(Bench.class)
class VisitPerilBrowserTests {

    private static TestBrowser browser;

    @Autowired
    private VisitFixture fixture;

    @Autowired
    private Bench bench;

    @Autowired
    private TestPeople people;

    @Autowired
    private VisitService visits;

    @Autowired
    private ReadingService readings;

    @Autowired
    private DecisionRegister decisions;

    @Autowired
    private WaterBatches batches;

    @Autowired
    private CurrentPerson currentPerson;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private TestClock clock;

    @LocalServerPort
    private int port;

    private BrowserContext context;
    private Page page;
    private VisitFixture.Stop stop;
    private final List<String> complaints = new ArrayList<>();

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
        stop = fixture.onlyStop(TaskView.test(Quantity.AMMONIA), TaskView.test(Quantity.PH));
        page = context.newPage();
        page.navigate(address(people.signInPath(Role.TECHNICIAN)));
        page.onConsoleMessage(message -> {
            if (message.type().equals("error")) {
                complaints.add(message.text());
            }
        });
        page.onPageError(complaints::add);
    }

    @AfterEach
    void closeContext() {
        context.close();
        Assertions.assertThat(complaints).isEmpty();
    }

    private void open() {
        page.navigate(address("/visits/for-stop/" + stop.stop()));
        PersonAtBrowser.press(page, "Start the visit");
        page.waitForURL("**/visits/" + stop.visit());
        PersonAtBrowser.allIsSaved(page);
    }

    private String address(String path) {
        return "http://127.0.0.1:" + port + path;
    }

    private static Locator button(Locator within, String name) {
        return within.getByRole(AriaRole.BUTTON, new Locator.GetByRoleOptions().setName(name));
    }

    private void leaveInOrder() {
        for (Locator line : page.locator("[data-line]").all()) {
            line.getByLabel("Yes").check();
            assertThat(line).containsText("saved");
        }
    }

    /**
     * Bell et al. 2008: pKa = 10.0423 - 0.0315536 x 25 + 0.003071 x 32.9 = 9.3545, so 1 / (1 + 10^(9.3545 - 8.2)) = 6.5 %
     * at pH 8.2, 25 °C and the salinity of 1.025 at 20/20, and 0.13 mg/L of 2.0 mg/L.
     */
    @Test
    void saysAtOnceThatAmmoniaKillsAndHowMuchOfItIsToxicAndAsksWhatWasDone() {
        jdbc.sql("insert into target (water_system, quantity, high, unit) values (:system, 'AMMONIA', 0.2, 'mg/L')")
                .param("system", stop.system().value())
                .update();
        fixture.refractometer("1.0266");
        bench.kit(Quantity.AMMONIA, "0.1", null);
        bench.kit(Quantity.PH, "0.2", null);
        open();
        Locator ammonia = PersonAtBrowser.field(page, "Ammonia, total");
        PersonAtBrowser.write(page, "Ammonia, total", "2.0");
        assertThat(ammonia).containsText("Dangerous: ammonia kills, the faster the higher pH and temperature are.");
        assertThat(ammonia).containsText("cannot be told without pH, the temperature, the salinity");
        assertThat(ammonia).containsText("Measure it again now");
        Assertions.assertThat(ammonia.getByRole(
                                AriaRole.LINK, new Locator.GetByRoleOptions().setName("What to do first: Ammonia"))
                        .getAttribute("href"))
                .isEqualTo("/emergencies?system=" + stop.system() + "#AMMONIA");

        page.getByLabel("Yes, at the mark").check();
        PersonAtBrowser.write(page, "Temperature", "25.0");
        PersonAtBrowser.write(page, "pH", "8.2");
        PersonAtBrowser.write(page, "Salinity", "1.025");
        assertThat(ammonia).containsText("6.5 % of it is un-ionised (NH3, the toxic part): about 0.13 mg/L.");
        assertThat(ammonia).containsText("pH 8.2 (this visit");
        assertThat(ammonia).containsText("25.0 °C (this visit");
        PersonAtBrowser.assertAccessible(page);
        page.screenshot(new Page.ScreenshotOptions().setFullPage(true).setPath(Path.of("target", "peril-820.png")));

        page.reload();
        Locator first = page.locator("#danger a");
        assertThat(first).containsText("Dangerous. Ammonia, total");
        assertThat(first).containsText("2.0 mg/L");
        assertThat(first).isInViewport();
        assertThat(page.locator("#danger .state-signal")).hasCount(1);
        first.click();
        assertThat(ammonia).isInViewport();

        Locator leaving = page.locator("[data-tab=leaving]");
        assertThat(leaving).containsText("0 of 7 answered");
        leaveInOrder();
        PersonAtBrowser.press(page, "Finish the visit");
        assertThat(page.locator("[data-tab=finish] .field-error"))
                .containsText("say what was done about it: Ammonia, total (2.0 mg/L)");
        PersonAtBrowser.write(
                page, "What was done about it (asked before the visit ends)", "A quarter changed, office told");
        assertThat(leaving).containsText("7 of 7 answered");
        PersonAtBrowser.press(page, "Finish the visit");
        assertThat(page.locator("[data-tab=finish]")).containsText("This visit was finished");
    }

    @Test
    void takesOverWhatWasMeantWithTheDigitsAsTheyWereWrittenAndNamesRefusedFieldsAsThePageDoes() {
        fixture.refractometer("1.0266");
        open();
        page.getByLabel("Yes, at the mark").check();
        Locator salinity = PersonAtBrowser.field(page, "Salinity");
        PersonAtBrowser.type(page, "Salinity", "35.0");
        assertThat(salinity.locator(".field-error")).containsText("35.0 SG is not accepted");
        button(salinity, "Take it as 35.0 S").click();
        PersonAtBrowser.allIsSaved(page);
        assertThat(salinity.locator(".field-error")).hasCount(0);
        Assertions.assertThat(readings.byVisit(stop.visit())).singleElement().satisfies(read -> {
            Assertions.assertThat(read.value().orElseThrow().toPlainString()).isEqualTo("35.0");
            Assertions.assertThat(read.unit().code()).isEqualTo("S");
        });

        Locator warm = PersonAtBrowser.field(page, "Temperature");
        warm.getByText("More about this reading").click();
        warm.getByLabel("Instrument").selectOption("");
        warm.getByLabel("Lot of the test kit").fill("T".repeat(90));
        PersonAtBrowser.type(page, "Temperature", "25.0");
        assertThat(warm.locator(".field-error")).containsText("Lot of the test kit: 90 characters");
        assertThat(warm.getByLabel("Lot of the test kit")).hasAttribute("aria-invalid", "true");
        warm.getByLabel("Lot of the test kit").fill("T-1");
        warm.getByLabel("Answer").selectOption("NOT_MEASURED");
        warm.getByLabel("Why").fill("w".repeat(301));
        warm.getByLabel("Why").blur();
        assertThat(warm.locator(".field-error")).containsText("Why: 301 characters");
        warm.getByLabel("Answer").selectOption("VALUE");
        warm.getByLabel("Lot of the test kit").blur();
        PersonAtBrowser.allIsSaved(page);

        // The new water's own salinity is asked back too; and nobody said what showed 35.0, so nothing may rest on it.
        PersonAtBrowser.type(page, "Salinity of the new water", "35");
        PersonAtBrowser.type(page, "Out", "40");
        Locator water = page.locator("[data-tab=water]");
        assertThat(water.locator(".field-error")).containsText("35 SG is not accepted");
        button(water, "Take it as 35 S").click();
        assertThat(water.locator(".field-error")).containsText("Nobody said what this was measured with");
        PersonAtBrowser.type(page, "If it was changed all the same: why", "Agreed with the client");
        PersonAtBrowser.allIsSaved(page);
        Assertions.assertThat(visits.require(VisitId.of(stop.visit())).fields())
                .hasEntrySatisfying(
                        "water-change/" + stop.system(),
                        field -> Assertions.assertThat(
                                        field.body().path("salinityUnit").asString())
                                .isEqualTo("S"));
    }

    @Test
    void keepsWhatWasRefusedThroughAReloadAndSaysThatItIsNotSaved() {
        fixture.refractometer("1.0186");
        open();
        page.getByLabel("Yes, at the mark").check();
        Locator salinity = PersonAtBrowser.field(page, "Salinity");
        salinity.getByText("More about this reading").click();
        salinity.getByLabel("Instrument").selectOption(suspect());
        PersonAtBrowser.write(page, "Salinity", "1.025");
        PersonAtBrowser.type(page, "Out", "40");
        Locator water = page.locator("[data-tab=water]");
        assertThat(water.locator(".field-error")).containsText("is suspect: nothing may rest on it");
        assertThat(page.locator("#sync")).containsText("Not saved yet: Water change.");

        page.reload();
        assertThat(page.getByLabel("Out", new Page.GetByLabelOptions().setExact(true)))
                .hasValue("40");
        assertThat(water.locator(".field-error")).containsText("is suspect: nothing may rest on it");
        assertThat(page.locator("#sync")).containsText("Not saved yet: Water change.");
        Assertions.assertThat(visits.require(VisitId.of(stop.visit())).fields())
                .doesNotContainKey("water-change/" + stop.system());

        PersonAtBrowser.write(page, "If it was changed all the same: why", "Agreed, matched to the tank");
        page.reload();
        PersonAtBrowser.allIsSaved(page);
        PersonAtBrowser.type(page, "Out", "");
        assertThat(water).containsText("What is saved cannot be emptied. 40 stands there again");
        assertThat(page.getByLabel("Out", new Page.GetByLabelOptions().setExact(true)))
                .hasValue("40");
    }

    private String suspect() {
        return PersonAtBrowser.field(page, "Salinity")
                .locator("option", new Locator.LocatorOptions().setHasText("Suspect"))
                .first()
                .getAttribute("value");
    }

    @Test
    void presetsOnlyWhatTheTechnicianHasAtHandAndNamesWhoCarriesAnother() {
        InstrumentId mine = fixture.refractometer("1.0266");
        fixture.refractometer("1.0266");
        jdbc.sql("update instrument set holder_id = :other where id <> :mine")
                .param("other", bench.person().value())
                .param("mine", mine.value())
                .update();
        fixture.check(mine, "1.0186", 3600);
        open();
        Locator salinity = PersonAtBrowser.field(page, "Salinity");
        assertThat(salinity.getByLabel("Instrument", new Locator.GetByLabelOptions().setExact(true)))
                .hasValue(mine.toString());
        assertThat(salinity).containsText("Nothing may rest on what it reads until a check settles it");
        assertThat(salinity.getByRole(AriaRole.BUTTON).filter(new Locator.FilterOptions().setHasText("instead, which")))
                .containsText("carries");
    }

    @Test
    void takesAnEmptiedReadingBackWithAReasonOrLetsItStand() {
        open();
        Locator warm = PersonAtBrowser.field(page, "Temperature");
        warm.getByText("More about this reading").click();
        warm.getByLabel("Instrument").selectOption("");
        warm.getByLabel("Lot of the test kit").fill("T-1");
        PersonAtBrowser.write(page, "Temperature", "25.0");

        PersonAtBrowser.type(page, "Temperature", "");
        assertThat(warm).containsText("You emptied a saved reading. 25.0 °C stays on record");
        assertThat(page.locator("#sync")).containsText("Not saved yet: Temperature.");
        page.reload();
        assertThat(warm).containsText("You emptied a saved reading. 25.0 °C stays on record");
        button(warm, "It stands").click();
        PersonAtBrowser.allIsSaved(page);
        assertThat(page.getByLabel("Temperature", new Page.GetByLabelOptions().setExact(true)))
                .hasValue("25.0");

        PersonAtBrowser.type(page, "Temperature", "");
        warm.getByLabel("Why it is taken back").fill("Read at the wrong tank");
        button(warm, "Take it back").click();
        PersonAtBrowser.allIsSaved(page);
        page.reload();
        assertThat(page.getByLabel("Temperature", new Page.GetByLabelOptions().setExact(true)))
                .hasValue("");
        Assertions.assertThat(readings.byVisit(stop.visit())).singleElement().satisfies(read -> {
            Assertions.assertThat(read.answer()).isEqualTo(Answer.NOT_MEASURED);
            Assertions.assertThat(read.reason()).contains("Read at the wrong tank");
            Assertions.assertThat(readings.require(read.replaces().orElseThrow())
                            .value()
                            .orElseThrow()
                            .toPlainString())
                    .isEqualTo("25.0");
        });
    }

    @Test
    void namesTheBatchThatTheNewWaterCameFrom() throws Exception {
        InstrumentId sound = fixture.refractometer("1.0266");
        WaterBatchView batch = released(sound);
        open();
        PersonAtBrowser.write(page, "Out", "40");
        Locator choice = page.getByLabel("Batch of water");
        choice.selectOption(batch.id().toString());
        PersonAtBrowser.allIsSaved(page);
        page.reload();
        assertThat(choice).hasValue(batch.id().toString());
        assertThat(choice.locator("option:checked"))
                .containsText(Pattern.compile("Batch " + batch.number() + ", drum 4, 180"));
        Assertions.assertThat(decisions.restingOn(batch.release().orElseThrow().decision()))
                .extracting(DecisionView::kind)
                .containsExactly("water-change");
    }

    private WaterBatchView released(InstrumentId with) throws Exception {
        var stated = new NewWaterBatch(
                WaterBatchId.of(UUID.randomUUID()),
                bench.vat(),
                "drum 4",
                new BigDecimal("180"),
                Optional.of(new BigDecimal("6.9")),
                Optional.of(new BigDecimal("34")),
                new BigDecimal("36"));
        jdbc.sql("""
                        update water_system
                        set site_id = (
                            select s.id
                            from round r
                            join van v on v.id = r.van_id
                            join site s on s.depot_id = v.depot_id
                            where r.id = :round
                        )
                        where id = :vat
                        """)
                .param("round", stop.round().value())
                .param("vat", stated.madeIn().value())
                .update();
        WaterBatchView made = batches.make(stated);
        var measured = new BatchMeasurement(
                ReadingId.of(Uuids.next(TestClock.START)), with, new BigDecimal("1.0266"), Optional.empty());
        return currentPerson.actingAs(stop.technician(), () -> batches.release(made.id(), made.version(), measured));
    }
}
