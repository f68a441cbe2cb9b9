package app.tankround.tablet;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;

import app.tankround.accounts.Role;
import app.tankround.persistence.Uuids;
import app.tankround.plans.Emergency;
import app.tankround.readings.NewReading;
import app.tankround.readings.ReadingId;
import app.tankround.testing.PersonAtBrowser;
import app.tankround.testing.TestClock;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import java.math.BigDecimal;
import java.time.Duration;
import java.util.Date;
import org.assertj.core.api.Assertions;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.boot.test.context.SpringBootTest;

/** What a tablet shows of the day that it took along, where there is no signal. */
@SpringBootTest(
        webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT,
        properties = "spring.application.name=kept-day")
class KeptDayBrowserTests extends AtATablet {

    private static final String CODE = "Key safe 4711, left of the gate";

    @Override
    BrowserContext newTablet() {
        return browser.keepingPages("http://localhost:" + port, 820, 1180);
    }

    @BeforeEach
    @Override
    void takeTheDayAlong() {
        jdbc.sql("update site set access_notes = :code where id = :site")
                .param("code", CODE)
                .param("site", stop.site().value())
                .update();
        read("24.5", 14);
        read("26.5", 7);
        super.takeTheDayAlong();
    }

    @Test
    void showsTheLastReadingsAndHowTheyWent() {
        tablet.setOffline(true);
        beginWithoutASignal();
        Locator series = page.locator("[data-series]");
        series.locator("summary").click();
        Locator temperature = series.locator("[data-quantity=Temperature]");
        assertThat(temperature).containsText("26.5");
        assertThat(temperature).containsText("Target");
        assertThat(temperature.locator("svg circle")).hasCount(2);
        assertThat(page.locator("#sync")).containsText("What is shown is of");
        PersonAtBrowser.assertAccessible(page);
    }

    @Test
    void showsWhatIsInTheVan() {
        tablet.setOffline(true);
        page.navigate("/rounds/" + stop.round() + "/load");
        PersonAtBrowser.sees(page, "Van load", "Drums of salt water", "Clean filter socks", "In the van: 0 of");
        assertThat(page.locator("#sync")).containsText("What is shown is of");
        PersonAtBrowser.assertAccessible(page);
    }

    @Test
    void showsEveryEmergencyWithPeopleFirst() {
        tablet.setOffline(true);
        page.navigate("/visits/" + stop.visit());
        PersonAtBrowser.press(page, "Start the visit");
        PersonAtBrowser.follow(page, "Emergency: what to do first");
        PersonAtBrowser.sees(page, "Emergencies", "Dining room", "A quarter of it");
        assertThat(page.locator("#visit > section").first()).containsText("People first");
        // Nitrite harms in fresh water only, and this is a marine tank.
        assertThat(page.locator(".emergency")).hasCount(Emergency.values().length - 1);
        assertThat(page.locator("#sync")).containsText("What is shown is of");
        PersonAtBrowser.assertAccessible(page);
        page.navigate("/emergencies");
        assertThat(page.locator(".emergency")).hasCount(Emergency.values().length);
    }

    /** A signal that is there and lets nothing through. */
    @Test
    void waitsForNoBadSignalBeforeItShowsWhatToDoInAnEmergency() {
        tablet.route("**/emergencies*", route -> {});
        page.navigate("/emergencies?system=" + stop.system());
        PersonAtBrowser.sees(page, "People first");
        assertThat(page.locator("#sync")).containsText("What is shown is of");
    }

    @Test
    void forgetsHowToGetInAtTheEndOfTheDayAlsoWhereAPageStaysOpen() {
        page.navigate("/visits/" + stop.visit());
        assertThat(page.locator("#access")).hasText(CODE);
        Assertions.assertThat(kept()).contains(CODE);
        tablet.setOffline(true);
        tablet.clock().setFixedTime(Date.from(TestClock.START.plus(Duration.ofHours(1))));
        page.reload();
        assertThat(page.locator("#access")).hasText(CODE);

        tablet.clock().setFixedTime(Date.from(TestClock.START.plus(Duration.ofDays(1))));
        tablet.clock().runFor(61_000);
        assertThat(page.locator("#access")).hasCount(0);
        Assertions.assertThat(kept()).isNotEmpty().doesNotContain(CODE);
        page.reload();
        assertThat(page.locator("#place")).containsText("Bellwether");
        Assertions.assertThat(page.content()).doesNotContain("4711");
    }

    @Test
    void hasNothingOfHowToGetInForWhoeverIsNotSignedIn() {
        tablet.setOffline(true);
        page.navigate("/visits/" + stop.visit());
        assertThat(page.locator("#access")).hasText(CODE);
        tablet.setOffline(false);
        tablet.clearCookies();
        page.navigate("/visits/" + stop.visit());
        assertThat(page.locator("#sync")).containsText("kept this for somebody else");
        Assertions.assertThat(page.content()).doesNotContain("4711");
    }

    /** It was entered on the technician's other device, and has arrived. */
    @Test
    void goesFromCleanToSickAlsoOnTheOtherDevice() {
        assertThat(page.locator("#visit")).not().containsText("Illness is suspected on this round");
        begin("");
        try (BrowserContext other = browser.person("http://localhost:" + port, 820, 1180)) {
            Page there = other.newPage();
            there.navigate(people.signInPath(Role.TECHNICIAN));
            there.navigate("/visits/" + stop.visit());
            Locator suspicion = there.locator("[data-suspicion]");
            suspicion.locator("summary").click();
            suspicion.locator("input[type=text], input:not([type])").first().fill("White spots, scraping");
            suspicion.locator("input[type=radio]").first().check();
            PersonAtBrowser.allIsSaved(there);
        }
        page.navigate("/day");
        PersonAtBrowser.sees(page, "Illness is suspected on this round");
        tablet.setOffline(true);
        page.reload();
        PersonAtBrowser.sees(page, "Illness is suspected on this round");
    }

    private void beginWithoutASignal() {
        page.navigate("/visits/" + stop.visit());
        PersonAtBrowser.press(page, "Start the visit");
        assertThat(page.locator("#sync")).containsText("1 entry is saved on this device");
    }

    private String kept() {
        return String.valueOf(page.evaluate("""
                () => new Promise((resolve, reject) => {
                  const opening = indexedDB.open("tankround");
                  opening.onerror = () => reject(opening.error);
                  opening.onsuccess = () => {
                    const days = opening.result.transaction("days").objectStore("days").getAll();
                    days.onsuccess = () => {
                      opening.result.close();
                      resolve(JSON.stringify(days.result));
                    };
                  };
                })
                """));
    }

    private void read(String celsius, long daysAgo) {
        readings.record(NewReading.of(
                ReadingId.of(Uuids.next(TestClock.START)),
                stop.system(),
                Quantity.TEMPERATURE,
                new BigDecimal(celsius),
                MeasurementUnit.DEGREE_CELSIUS,
                TestClock.START.minus(Duration.ofDays(daysAgo)),
                stop.technician()));
    }
}
