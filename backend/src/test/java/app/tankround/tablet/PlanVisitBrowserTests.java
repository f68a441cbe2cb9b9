package app.tankround.tablet;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;

import app.tankround.accounts.Role;
import app.tankround.instruments.InstrumentId;
import app.tankround.persistence.Uuids;
import app.tankround.plans.DoseKind;
import app.tankround.plans.DoseRuleView;
import app.tankround.plans.DoseRules;
import app.tankround.readings.Bench;
import app.tankround.readings.NewReading;
import app.tankround.readings.ReadingId;
import app.tankround.readings.ReadingService;
import app.tankround.schedule.TaskView;
import app.tankround.tanks.LivestockId;
import app.tankround.tanks.NewLivestock;
import app.tankround.tanks.WaterSystems;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.PersonAtBrowser;
import app.tankround.testing.TestBrowser;
import app.tankround.testing.TestClock;
import app.tankround.testing.TestPeople;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import com.microsoft.playwright.Browser;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import com.microsoft.playwright.options.ServiceWorkerPolicy;
import com.microsoft.playwright.options.WaitForSelectorState;
import java.math.BigDecimal;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Date;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.regex.Pattern;
import org.assertj.core.api.Assertions;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.context.annotation.Import;

/** A plan made at the desk and followed at the tank, what the guard over doses says there, and a dropped instrument. */
@SpringBootTest(webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT)
@IntegrationTest
@Import(Bench.class)
class PlanVisitBrowserTests {

    private static TestBrowser browser;

    @Autowired
    private VisitFixture fixture;

    @Autowired
    private TestPeople people;

    @Autowired
    private Bench bench;

    @Autowired
    private ReadingService readings;

    @Autowired
    private DoseRules doseRules;

    @Autowired
    private WaterSystems systems;

    @Autowired
    private TestClock clock;

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

    /** Half a degree a day in 400 L: 0.5 x 4.0 x 2.996 g = 5.99 g of NaHCO3 (0.35665 meq/L to the degree, 84.007 g/mol). */
    @Test
    void bringsTheStepOfAPlanToVisitAndLoadSheet() {
        VisitFixture.Stop stop = fixture.stop();
        measure(stop, Quantity.ALKALINITY, "6", MeasurementUnit.DEGREE_CARBONATE_HARDNESS);
        List<String> complaints = new ArrayList<>();
        try (BrowserContext context = context()) {
            Page page = signedIn(context, Role.OFFICE, complaints);
            page.navigate(address("/systems/" + stop.system()));
            page.getByRole(AriaRole.LINK, new Page.GetByRoleOptions().setName("Plan for alkalinity"))
                    .click();
            page.getByLabel("Target", new Page.GetByLabelOptions().setExact(true))
                    .fill("10.5");
            page.getByLabel("Product", new Page.GetByLabelOptions().setExact(true))
                    .selectOption("SODIUM_BICARBONATE");
            page.getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName("Work it out"))
                    .click();
            assertThat(page.locator("main")).containsText("6.5 dKH");
            assertThat(page.locator("main")).containsText("Dissolve 6 g of NaHCO3 outside");
            // 4.5 dKH by half a degree are 9 visits, as many as are due in the 8 weeks ahead.
            assertThat(page.locator("main")).not().containsText("The visits are too few");
            page.getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName("Follow this plan"))
                    .click();
            assertThat(page.locator("main")).containsText("Followed");
            page.screenshot(new Page.ScreenshotOptions().setFullPage(true).setPath(Path.of("target", "plan-820.png")));

            page.navigate(address("/rounds/" + stop.round() + "/load"));
            assertThat(page.locator("main")).containsText("NaHCO3");
            assertThat(page.locator("main")).containsText("5.99");
        }
        try (BrowserContext context = context()) {
            Page page = visit(context, stop, complaints);
            Locator work = page.locator("[data-tab=work]");
            assertThat(work).containsText("NaHCO3, 5.99 g dosed");
            assertThat(work).containsText("Alkalinity tested");
            Locator step = work.locator("li").filter(new Locator.FilterOptions().setHasText("NaHCO3, 5.99 g dosed"));
            assertThat(step).containsText("Measure first: Salinity; Ammonia, total; Alkalinity");
            assertThat(step.locator("input[type=checkbox]")).isDisabled();
            page.screenshot(new Page.ScreenshotOptions().setFullPage(true).setPath(Path.of("target", "step-820.png")));
            step.getByText("No kit or instrument for it is here").click();
            assertThat(step).containsText("saved");
            assertThat(step.locator("input[type=checkbox]")).isChecked();
        }
        Assertions.assertThat(complaints).isEmpty();
    }

    /** As above 5.99 g a day; two hundredths more are what a scale may miss by. */
    @Test
    void refusesAtTheTankWhatTheGuardOverDosesRefuses() {
        VisitFixture.Stop stop = fixture.stop();
        String medicine = "Bath " + UUID.randomUUID();
        doseRules.save(new DoseRuleView(
                UUID.randomUUID(), medicine, DoseKind.MEDICATION, Optional.of(24), Optional.empty(), "mL", "Label", 0));
        systems.addLivestock(new NewLivestock(
                LivestockId.of(UUID.randomUUID()),
                stop.system(),
                systems.nextLivestockCode(),
                "Cleaner shrimp",
                null,
                2,
                false,
                VisitFixture.TODAY));
        List<String> complaints = new ArrayList<>();
        try (BrowserContext context = context()) {
            Page page = visit(context, stop, complaints);
            Locator first = dose(page, 0, "NaHCO3", "60", "g");
            assertThat(first.locator(".field-error"))
                    .containsText(Pattern.compile("60 g is too much: 5\\.99 g is left for 24 hours in 400 L"));
            assertThat(first).containsText("not saved yet");
            assertThat(first.getByLabel("Amount")).hasValue("60");
            first.getByLabel("Amount").fill("6");
            first.getByLabel("Amount").blur();
            assertThat(first).not().containsText("not saved yet");
            assertThat(first.locator(".field-error")).hasCount(0);

            Locator second = dose(page, 1, "CaCl2·2H2O", "3", "g");
            assertThat(second.locator(".field-error")).containsText("never poured together");
            Locator why = second.getByLabel("If it was given all the same: why");
            assertThat(why).isVisible();
            why.fill("Poured before anybody looked");
            why.blur();
            assertThat(second.locator(".field-error")).hasCount(0);
            assertThat(second).containsText("saved");

            Locator third = dose(page, 2, "Copper sulfate", "1", "mL");
            assertThat(third.locator(".field-error")).containsText("not into this system. Cleaner shrimp");

            Locator fourth = dose(page, 3, medicine, "5", "mL");
            assertThat(fourth.locator(".field-error")).containsText("carbon and resins out");
            fourth.getByRole(AriaRole.BUTTON, new Locator.GetByRoleOptions().setName("All of this is done"))
                    .click();
            assertThat(fourth.locator(".field-error")).hasCount(0);
            assertThat(fourth).containsText("saved");
            Locator fifth = dose(page, 4, medicine, "5", "mL");
            assertThat(fifth.locator(".field-error")).containsText("carbon and resins out");
            fifth.getByRole(AriaRole.BUTTON, new Locator.GetByRoleOptions().setName("All of this is done"))
                    .click();
            assertThat(fifth.locator(".field-error")).containsText("24 hours have to pass between two doses");
            page.screenshot(new Page.ScreenshotOptions().setFullPage(true).setPath(Path.of("target", "doses-820.png")));

            page.reload();
            Locator doses = page.locator(".dose");
            Locator refused =
                    page.locator(".dose", new Page.LocatorOptions().setHas(page.locator("[role=alert] .field-error")));
            assertThat(doses).hasCount(5);
            assertThat(refused).hasCount(2);
            refused.first()
                    .getByRole(
                            AriaRole.BUTTON,
                            new Locator.GetByRoleOptions().setName("Do not keep what was entered here"))
                    .click();
            assertThat(doses).hasCount(4);
            assertThat(refused).hasCount(1);
        }
        Assertions.assertThat(complaints).isEmpty();
    }

    /** 5 mL per 100 L are 20 mL in 400 L. */
    @Test
    void asksWhetherADoseIsTheTickedOneOrAsMuchAgain() {
        String product = "Trace mix " + UUID.randomUUID();
        doseRules.save(new DoseRuleView(
                UUID.randomUUID(), product, DoseKind.SUPPLEMENT, Optional.empty(), Optional.of(5.0), "mL", "Label", 0));
        VisitFixture.Stop stop = fixture.stop(TaskView.dose(product, new BigDecimal("20"), "mL"));
        try (BrowserContext context = context()) {
            Page page = visit(context, stop, new ArrayList<>());
            Locator agreed = page.locator("[data-tab=work] li").filter(new Locator.FilterOptions().setHasText(product));
            agreed.locator("input[type=checkbox]").check();
            assertThat(agreed).containsText("saved");

            Locator more = dose(page, 0, product, "20", "mL");
            assertThat(more.locator(".field-error")).containsText("Is this the same dose");
            page.screenshot(new Page.ScreenshotOptions().setFullPage(true).setPath(Path.of("target", "same-820.png")));
            more.getByText("It was given besides").click();
            assertThat(more.locator(".field-error")).containsText("20 mL is too much: 0 mL is left");
            assertThat(more.getByLabel("If it was given all the same: why")).isVisible();
        }
    }

    /** 2.0 mg/L at pH 8.1, 25 °C and S 35 hold 0.104 mg/L un-ionised (Bell and others 2008, pKa 9.361). */
    @Test
    void saysWithoutAConnectionWhatSpeaksAgainstADose() {
        VisitFixture.Stop stop = fixture.stop();
        measure(stop, Quantity.PH, "8.1", MeasurementUnit.PH_UNIT);
        measure(stop, Quantity.TEMPERATURE, "25", MeasurementUnit.DEGREE_CELSIUS);
        measure(stop, Quantity.AMMONIA, "2.0", MeasurementUnit.MILLIGRAMS_PER_LITRE);
        clock.advance(Duration.ofMinutes(1));
        try (BrowserContext context = context()) {
            Page page = visit(context, stop, new ArrayList<>());
            page.locator("[data-tab=work]")
                    .waitFor(new Locator.WaitForOptions().setState(WaitForSelectorState.ATTACHED));
            context.setOffline(true);

            Locator line = dose(page, 0, "Alkalinity buffer", "30", "mL");
            assertThat(line).containsText(Pattern.compile("Do not give Alkalinity buffer.*0\\.104 mg/L now"));
            assertThat(line.getByLabel("If it was given all the same: why")).isVisible();
            page.screenshot(
                    new Page.ScreenshotOptions().setFullPage(true).setPath(Path.of("target", "offline-820.png")));

            context.setOffline(false);
            assertThat(line.locator(".field-error")).containsText("Do not give Alkalinity buffer: it raises pH");
        }
    }

    @Test
    void dropsAnInstrumentWithOneTapAndLeadsToTheEmergencies() {
        VisitFixture.Stop stop = fixture.stop();
        InstrumentId dropped = fixture.refractometer("1.0266");
        fixture.refractometer("1.0266");
        List<String> complaints = new ArrayList<>();
        try (BrowserContext context = context()) {
            // The day of the instruments, which nobody drops in the future.
            context.clock().setFixedTime(Date.from(clock.instant()));
            Page page = visit(context, stop, complaints);
            Locator salinity = page.getByLabel("Salinity", new Page.GetByLabelOptions().setExact(true));
            Locator reading = page.locator(".reading", new Page.LocatorOptions().setHas(salinity));
            reading.getByText("More about this reading").click();
            reading.getByLabel("Instrument").selectOption(dropped.toString());
            reading.getByText("More about this reading").click();
            reading.getByRole(
                            AriaRole.BUTTON,
                            new Locator.GetByRoleOptions().setName(Pattern.compile("^V-R\\d+ was dropped$")))
                    .click();
            assertThat(reading).containsText("Nothing may rest on what it reads until a check settles it");
            assertThat(reading.locator(".reading-name")).containsText("Suspect");
            assertThat(reading.locator("option[value='" + dropped + "']")).containsText("Suspect");
            assertThat(reading.getByRole(
                            AriaRole.BUTTON, new Locator.GetByRoleOptions().setName(Pattern.compile("^Use "))))
                    .isVisible();
            page.screenshot(
                    new Page.ScreenshotOptions().setFullPage(true).setPath(Path.of("target", "dropped-820.png")));
            page.getByLabel("Yes, at the mark").check();
            salinity.fill("1.025");
            salinity.blur();
            assertThat(reading.locator(".verdict")).containsText("In doubt");
            reading.getByRole(AriaRole.BUTTON, new Locator.GetByRoleOptions().setName(Pattern.compile("^Use ")))
                    .click();
            assertThat(reading.getByLabel("Instrument")).not().hasValue(dropped.toString());

            page.getByRole(AriaRole.LINK, new Page.GetByRoleOptions().setName("Emergency: what to do first"))
                    .click();
            assertThat(page.locator("h1")).hasText("Emergencies");
            assertThat(page.locator("main")).containsText("400 L");
            assertThat(page.locator("main")).containsText("People first");
            for (int width : List.of(360, 820, 1280)) {
                page.setViewportSize(width, 900);
                Assertions.assertThat((Boolean) page.evaluate(
                                "document.documentElement.scrollWidth <= document.documentElement.clientWidth"))
                        .isTrue();
            }
            page.screenshot(
                    new Page.ScreenshotOptions().setFullPage(true).setPath(Path.of("target", "emergencies-1280.png")));
            page.pdf(new Page.PdfOptions().setFormat("A4").setPath(Path.of("target", "emergencies.pdf")));
        }
        Assertions.assertThat(complaints).isEmpty();
    }

    /** Adds a line of a dose and writes it. */
    private static Locator dose(Page page, int at, String product, String amount, String unit) {
        Locator work = page.locator("[data-tab=work]");
        work.getByRole(AriaRole.BUTTON, new Locator.GetByRoleOptions().setName("Add a dose"))
                .click();
        Locator line = work.locator(".dose").nth(at);
        line.getByLabel("Unit").selectOption(unit);
        line.getByLabel("Product").fill(product);
        line.getByLabel("Amount").fill(amount);
        line.getByLabel("Amount").blur();
        return line;
    }

    private void measure(VisitFixture.Stop stop, Quantity quantity, String value, MeasurementUnit unit) {
        people.person(Role.OFFICE);
        readings.record(bench.believed(NewReading.of(
                ReadingId.of(Uuids.next(clock.instant())),
                stop.system(),
                quantity,
                new BigDecimal(value),
                unit,
                clock.instant(),
                bench.person())));
    }

    private BrowserContext context() {
        return browser.browser()
                .newContext(new Browser.NewContextOptions()
                        .setViewportSize(820, 1180)
                        .setServiceWorkers(ServiceWorkerPolicy.BLOCK));
    }

    private Page visit(BrowserContext context, VisitFixture.Stop stop, List<String> complaints) {
        Page page = signedIn(context, Role.TECHNICIAN, complaints);
        page.navigate(address("/visits/for-stop/" + stop.stop()));
        page.getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName("Start the visit"))
                .click();
        page.waitForURL("**/visits/" + stop.visit());
        PersonAtBrowser.allIsSaved(page);
        return page;
    }

    private Page signedIn(BrowserContext context, Role role, List<String> complaints) {
        Page page = context.newPage();
        page.navigate(address(people.signInPath(role)));
        page.onConsoleMessage(message -> {
            if (message.type().equals("error")) {
                complaints.add(message.text());
            }
        });
        page.onPageError(complaints::add);
        return page;
    }

    private String address(String path) {
        return "http://127.0.0.1:" + port + path;
    }
}
