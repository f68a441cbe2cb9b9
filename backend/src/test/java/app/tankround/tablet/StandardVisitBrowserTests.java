package app.tankround.tablet;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;

import app.tankround.accounts.Role;
import app.tankround.readings.Answer;
import app.tankround.readings.ReadingService;
import app.tankround.readings.ReadingView;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.PersonAtBrowser;
import app.tankround.testing.TestBrowser;
import app.tankround.testing.TestClock;
import app.tankround.testing.TestPeople;
import app.tankround.units.Quantity;
import app.tankround.visits.VisitId;
import app.tankround.visits.VisitService;
import app.tankround.visits.VisitView;
import com.microsoft.playwright.Browser;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import com.microsoft.playwright.options.ColorScheme;
import com.microsoft.playwright.options.ServiceWorkerPolicy;
import java.nio.file.Path;
import java.util.Date;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.assertj.core.api.Assertions;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.web.server.LocalServerPort;

/** A visit as most are, with one wet hand: how many taps it takes, and what the keypad of the page does. */
@SpringBootTest(webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT)
@IntegrationTest
class StandardVisitBrowserTests {

    /** More than this nobody does with wet hands, said those who asked for the page. */
    private static final int MOST_TAPS = 45;

    private static final Map<String, String> READ = new LinkedHashMap<>();

    static {
        READ.put("Temperature", "25.1");
        READ.put("Salinity", "1.0252");
        READ.put("pH", "8.15");
        READ.put("Alkalinity", "8.3");
        READ.put("Calcium", "425");
        READ.put("Magnesium", "1310");
        READ.put("Nitrate", "5");
        READ.put("Phosphate", "0.05");
    }

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
    private TestClock clock;

    @LocalServerPort
    private int port;

    private BrowserContext tablet;
    private Page page;
    private VisitFixture.Stop stop;
    /** Taps and keystrokes but for digits. */
    private int taps;

    @BeforeAll
    static void openBrowser() {
        browser = TestBrowser.open();
    }

    @AfterAll
    static void closeBrowser() {
        browser.close();
    }

    @BeforeEach
    void takeTheTablet() {
        take(true);
        stop = fixture.standardStop();
        signIn();
    }

    private void take(boolean touched) {
        tablet = browser.browser()
                .newContext(new Browser.NewContextOptions()
                        .setViewportSize(820, 1180)
                        .setHasTouch(touched)
                        .setLocale("en-IE")
                        .setServiceWorkers(ServiceWorkerPolicy.BLOCK));
        tablet.clock().setFixedTime(Date.from(clock.instant()));
        page = tablet.newPage();
    }

    private void signIn() {
        page.navigate(address(people.signInPath(Role.TECHNICIAN)));
        page.navigate(address("/visits/for-stop/" + stop.stop()));
    }

    @AfterEach
    void putTheTabletAway() {
        fixture.putToolsAway();
        tablet.close();
    }

    @Test
    void takesNoMoreThanFortyFiveTaps() {
        tap(button("Start the visit"));
        tap(page.getByLabel("Yes, at the mark"));
        tap(page.getByText("Ate as usual"));
        tap(reading("Temperature"));
        for (String value : READ.values()) {
            // The next reading comes by itself.
            for (char sign : value.toCharArray()) {
                press(sign);
            }
            tap(next());
        }
        assertThat(keypad()).isHidden();
        tap(button("As agreed: 80 L"));
        tap(button("As agreed: 2"));
        // One tap on the page, one in the camera.
        page.locator("[data-tab=photos] input[type=file]").setInputFiles(PersonAtBrowser.photo());
        taps += 2;
        for (Locator line : page.locator("[data-line]").all()) {
            tap(line.getByText("Yes", new Locator.GetByTextOptions().setExact(true)));
        }
        tap(button("Nobody was there"));
        tap(button("Finish the visit"));
        assertThat(page.locator("[data-tab=finish]")).containsText("This visit was finished");
        PersonAtBrowser.allIsSaved(page);

        VisitView visit = visits.require(VisitId.of(stop.visit()));
        Assertions.assertThat(visit.finished()).isTrue();
        VisitView.SystemWork work = visit.systems().getFirst();
        Assertions.assertThat(work.readings())
                .extracting(reading -> reading.value().orElseThrow().toPlainString())
                .containsExactlyInAnyOrderElementsOf(READ.values());
        Assertions.assertThat(work.readings())
                .allMatch(reading -> reading.instrumentId().isPresent());
        Assertions.assertThat(work.topUp().orElseThrow().atMark()).isTrue();
        Assertions.assertThat(work.waterChange().orElseThrow().out().litres()).isEqualTo(80);
        Assertions.assertThat(work.socks())
                .extracting(socks -> socks.count() + " of " + socks.size().code())
                .containsExactly("2 of 100x400-200");
        Assertions.assertThat(work.tasks()).allMatch(task -> task.state() == VisitView.TaskState.DONE);
        Assertions.assertThat(work.feeding().orElseThrow().appetite()).isEqualTo(VisitView.Appetite.AS_USUAL);
        Assertions.assertThat(visit.photos()).allMatch(VisitView.Photo::arrived).hasSize(1);
        Assertions.assertThat(visit.signature().orElseThrow().state()).isEqualTo(VisitView.SignatureState.NOBODY_THERE);
        Assertions.assertThat(taps).as("taps and keystrokes beside digits").isLessThanOrEqualTo(MOST_TAPS);
    }

    @Test
    void saysWhatIsKnownOfAValueAndTakesWhatIsNoNumber() {
        button("Start the visit").tap();
        PersonAtBrowser.allIsSaved(page);
        reading("Nitrate").tap();
        assertThat(keypad()).containsText("0 to 25 mg/L");
        assertThat(keypad().getByRole(AriaRole.BUTTON, new Locator.GetByRoleOptions().setPressed(true)))
                .containsText("lot L-");
        choose("Between two colours");
        key("5").tap();
        next().tap();
        key("1").tap();
        key("0").tap();
        assertThat(keypad().locator("output")).containsText("5 to 10");
        look("keypad-between");
        next().tap();

        assertThat(keypad()).containsText("Phosphate");
        choose("Below detection");
        assertThat(keypad().locator("output")).containsText("under 0.01");
        next().tap();
        reading("pH").tap();
        choose("Not measured, because");
        choose("Reagent used up");
        PersonAtBrowser.allIsSaved(page);

        Assertions.assertThat(taken(Quantity.NITRATE).answer()).isEqualTo(Answer.BETWEEN);
        Assertions.assertThat(taken(Quantity.NITRATE).upperValue().orElseThrow())
                .isEqualByComparingTo("10");
        Assertions.assertThat(taken(Quantity.PHOSPHATE).answer()).isEqualTo(Answer.BELOW_DETECTION);
        Assertions.assertThat(taken(Quantity.PH).notMeasuredBecause()).contains("Reagent used up");
    }

    @Test
    void undoesWhatWasJustWrittenWithoutAsking() {
        button("Start the visit").tap();
        PersonAtBrowser.allIsSaved(page);
        reading("Calcium").tap();
        for (String digit : List.of("5", "2", "4")) {
            key(digit).tap();
        }
        next().tap();
        assertThat(keypad()).containsText("Calcium: 524");
        keypad().getByText("Undo").tap();
        assertThat(keypad().locator("h2")).hasText("Calcium");
        for (String digit : List.of("4", "2", "5")) {
            key(digit).tap();
        }
        next().tap();
        PersonAtBrowser.allIsSaved(page);
        Assertions.assertThat(visits.require(VisitId.of(stop.visit()))
                        .systems()
                        .getFirst()
                        .readings())
                .filteredOn(reading -> reading.quantity() == Quantity.CALCIUM
                        && reading.value().isPresent())
                .singleElement()
                .satisfies(reading ->
                        Assertions.assertThat(reading.value().orElseThrow()).isEqualByComparingTo("425"));
    }

    @Test
    void savesWhatTheKeysWroteWhenSomebodyGoesElsewhereWithoutTheNextKey() {
        button("Start the visit").tap();
        PersonAtBrowser.allIsSaved(page);
        reading("Calcium").tap();
        for (String digit : List.of("4", "2", "5")) {
            key(digit).tap();
        }
        page.getByText("Ate less than usual").tap();
        assertThat(keypad()).isHidden();
        PersonAtBrowser.allIsSaved(page);
        Assertions.assertThat(taken(Quantity.CALCIUM).value().orElseThrow()).isEqualByComparingTo("425");
    }

    @Test
    void doesTheSameByKeyboard() {
        tablet.close();
        take(false);
        signIn();
        button("Start the visit").click();
        PersonAtBrowser.allIsSaved(page);
        reading("Temperature").focus();
        assertThat(keypad()).isHidden();
        for (String value : READ.values()) {
            page.keyboard().type(value);
            page.keyboard().press("Enter");
        }
        PersonAtBrowser.allIsSaved(page);
        Assertions.assertThat(readings.byVisit(stop.visit()))
                .extracting(reading -> reading.value().orElseThrow().toPlainString())
                .containsExactlyInAnyOrderElementsOf(READ.values());
        page.getByText("Use the keypad of this page").first().click();
        assertThat(keypad()).isVisible();
        page.keyboard().press("Escape");
        assertThat(keypad()).isHidden();
    }

    @Test
    void fitsEveryWindowByDayAndByNight() {
        button("Start the visit").tap();
        PersonAtBrowser.allIsSaved(page);
        for (ColorScheme scheme : List.of(ColorScheme.LIGHT, ColorScheme.DARK)) {
            page.emulateMedia(new Page.EmulateMediaOptions().setColorScheme(scheme));
            for (int width : List.of(360, 820, 1280)) {
                page.setViewportSize(width, width == 1280 ? 800 : width == 820 ? 1180 : 740);
                reading("Salinity").tap();
                assertThat(keypad()).isVisible();
                for (Locator each : keypad().locator("button:visible").all()) {
                    Assertions.assertThat(each.boundingBox().height).isGreaterThanOrEqualTo(44);
                }
                look("keypad-" + width + "-" + scheme.name().toLowerCase(java.util.Locale.ROOT));
                PersonAtBrowser.assertAccessible(page);
                page.keyboard().press("Escape");
            }
        }
    }

    private ReadingView taken(Quantity quantity) {
        return readings.byVisit(stop.visit()).stream()
                .filter(reading -> reading.quantity() == quantity)
                .findFirst()
                .orElseThrow();
    }

    private void look(String name) {
        page.screenshot(new Page.ScreenshotOptions().setPath(Path.of("target", name + ".png")));
    }

    private void press(char sign) {
        key(String.valueOf(sign)).tap();
        if (!Character.isDigit(sign)) {
            taps++;
        }
    }

    private void tap(Locator what) {
        what.tap();
        taps++;
    }

    private Locator keypad() {
        return page.locator(".keypad");
    }

    private Locator key(String sign) {
        return keypad().locator(".keypad-key", new Locator.LocatorOptions().setHasText(sign));
    }

    private Locator next() {
        return keypad().getByRole(AriaRole.BUTTON, new Locator.GetByRoleOptions().setName("Next"));
    }

    private void choose(String name) {
        keypad().getByRole(AriaRole.BUTTON, new Locator.GetByRoleOptions().setName(name))
                .tap();
    }

    private Locator reading(String name) {
        return page.getByLabel(name, new Page.GetByLabelOptions().setExact(true));
    }

    private Locator button(String name) {
        return page.getByRole(
                AriaRole.BUTTON, new Page.GetByRoleOptions().setName(name).setExact(true));
    }

    private String address(String path) {
        return "http://127.0.0.1:" + port + path;
    }
}
