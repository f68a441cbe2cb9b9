package app.tankround.tablet;

import static app.tankround.testing.PersonAtBrowser.press;
import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;

import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.Role;
import app.tankround.clients.LoneHazard;
import app.tankround.clients.ResidualCurrentTest;
import app.tankround.clients.SiteSafetyDetails;
import app.tankround.clients.SiteSafetyService;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.PersonAtBrowser;
import app.tankround.testing.TestBrowser;
import app.tankround.testing.TestClock;
import app.tankround.testing.TestPeople;
import app.tankround.visits.LoneWorking;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import java.time.Duration;
import org.assertj.core.api.Assertions;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.web.server.LocalServerPort;

/** Somebody alone in a CO2 cellar, by the tablet and by the office. */
@SpringBootTest(webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT)
@IntegrationTest
class LoneWorkingBrowserTests {

    private static TestBrowser browser;

    @Autowired
    private VisitFixture fixture;

    @Autowired
    private TestPeople people;

    @Autowired
    private SiteSafetyService safety;

    @Autowired
    private LoneWorking alone;

    @Autowired
    private CurrentPerson currentPerson;

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

    @Test
    void asksForCheckInSaysWhatTheOfficeKnowsAndIsRaisedThoughTheTabletIsDead() throws Exception {
        VisitFixture.Stop stop = fixture.onlyStop();
        safety.change(
                stop.site(),
                0,
                new SiteSafetyDetails(ResidualCurrentTest.AGREED, null, LoneHazard.CO2_CELLAR, "Behind the bar"));
        try (BrowserContext technician = browser.person(port, 820, 1180);
                BrowserContext owner = browser.person(port, 1280, 800)) {
            Page page = technician.newPage();
            page.navigate(people.signInPath(Role.TECHNICIAN));
            page.navigate("/visits/" + stop.visit());
            Locator card = page.locator("#alone");
            assertThat(card).containsText("asks whoever is alone to check in first. CO2 cellar: Behind the bar");
            assertThat(page.locator("#before-hands")).containsText("CO2 cellar: nobody smells it");
            PersonAtBrowser.assertAccessible(page);

            // Without a signal the page says plainly that nobody knows, and whom to ring.
            page.route("**/api/entries", route -> route.abort());
            press(page, "Check in");
            assertThat(card).containsText("The office does not know yet that you are in");
            assertThat(card).containsText("0555 010 100");
            Assertions.assertThat(alone.open()).isEmpty();
            page.unroute("**/api/entries");
            page.reload();
            assertThat(card).containsText("The office knows.");
            assertThat(card).containsText("back at the latest 10:00");
            Assertions.assertThat(alone.openOf(stop.technician())).hasSize(1);

            page.clock().fastForward("51:00");
            assertThat(card).containsText("Check out, or say that it takes longer");
            press(page, "30 minutes more");
            assertThat(card).containsText("back at the latest 10:3");
            assertThat(card).containsText("The office knows.");
            // The office takes calls: the open page learns of them by itself.
            currentPerson.actingAs(
                    stop.technician(),
                    () -> alone.checkInByTelephone(stop.technician(), stop.site(), 120, "Waits for a part"));
            page.clock().fastForward("01:05");
            assertThat(card).containsText("back at the latest 11:00");
            alone.checkOut(alone.openOf(stop.technician()).getFirst().id(), clock.instant(), stop.technician());
            clock.advance(Duration.ofMinutes(1));
            page.clock().fastForward("01:05");
            assertThat(card).containsText("asks whoever is alone to check in first");
            press(page, "Check in");
            assertThat(card).containsText("The office knows.");
            page.close();

            // The tablet is dead. The server counts.
            clock.advance(Duration.ofMinutes(95));
            alone.look();
            Page office = owner.newPage();
            office.navigate(people.signInPath(Role.OWNER));
            office.navigate("/");
            PersonAtBrowser.sees(office, "Test technician is alone at", "Ring now.");
            office.navigate("/alone");
            PersonAtBrowser.sees(office, "overdue", "Nobody is named yet", "CO2 cellar: Behind the bar");
            PersonAtBrowser.assertAccessible(office);
            PersonAtBrowser.follow(office, "Look at it");
            PersonAtBrowser.assertAccessible(office);
            press(office, "I have it");
            PersonAtBrowser.sees(office, "Test owner sees to it.");
            press(office, "Checks out by telephone");
            PersonAtBrowser.sees(office, "Checked out");
            Assertions.assertThat(alone.open()).isEmpty();
            office.navigate("/alone/people");
            PersonAtBrowser.assertAccessible(office);
            office.navigate("/sites/" + stop.site() + "/safety");
            PersonAtBrowser.assertAccessible(office);

            // The tablet comes back and learns of it.
            Page again = technician.newPage();
            again.navigate("/visits/" + stop.visit());
            assertThat(again.locator("#alone")).containsText("asks whoever is alone to check in first");
        }
    }
}
