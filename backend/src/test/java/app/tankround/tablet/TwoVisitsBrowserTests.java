package app.tankround.tablet;

import static app.tankround.testing.PersonAtBrowser.allIsSaved;
import static app.tankround.testing.PersonAtBrowser.press;
import static app.tankround.testing.PersonAtBrowser.sendNow;
import static app.tankround.testing.PersonAtBrowser.type;
import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;

import app.tankround.persistence.Uuids;
import app.tankround.visits.VisitId;
import app.tankround.visits.VisitService;
import app.tankround.web.Entry;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import java.time.Duration;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.assertj.core.api.Assertions;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import tools.jackson.databind.json.JsonMapper;

/** Two visits that are open at once at one system. */
class TwoVisitsBrowserTests extends AtATablet {

    @Autowired
    private EntryInbox inbox;

    @Autowired
    private JsonMapper json;

    @Override
    BrowserContext newTablet() {
        return browser.person(port, 820, 1180);
    }

    @Test
    void tellsTheSecondWhoIsThereSinceWhenAndLetsBothGoOn() {
        UUID other = another();
        page.navigate("/visits/" + stop.visit());
        Locator told = page.locator("[data-beside='" + other + "']");
        assertThat(told).containsText("has been here since 09:00");
        assertThat(told).containsText("which is not finished");
        press(page, "Start the visit");
        allIsSaved(page);
        assertThat(told).isVisible();
        type(page, "Temperature", "25.0");
        allIsSaved(page);
        Assertions.assertThat(temperatures()).containsExactly("25.0");
        Assertions.assertThat(visits.require(VisitId.of(other)).finished()).isFalse();

        told.getByRole(AriaRole.LINK).click();
        page.waitForURL("**/visits/" + other);
        assertThat(page.locator("[data-tab=readings]")).isVisible();
        Assertions.assertThat(visits.openAt(List.of(stop.site()), VisitFixture.TODAY))
                .extracting(VisitService.Open::id)
                .containsExactlyInAnyOrder(VisitId.of(other), VisitId.of(stop.visit()));
    }

    @Test
    void tellsItOnceThereIsASignalAgain() {
        page.navigate("/visits/" + stop.visit());
        assertThat(page.getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName("Start the visit")))
                .isVisible();
        assertThat(page.locator("[data-beside]")).hasCount(0);
        page.route("**/api/**", route -> route.abort());
        press(page, "Start the visit");
        assertThat(page.locator("[data-tab=readings]")).isVisible();
        UUID other = another();
        page.unrouteAll();
        sendNow(page);
        assertThat(page.locator("[data-beside='" + other + "']")).containsText("has been here since");
        allIsSaved(page);
    }

    /** Somebody begins a visit to the same site that no round knows of. */
    private UUID another() {
        UUID id = Uuids.next(clock.instant());
        inbox.take(new Entry(
                Uuids.next(clock.instant()),
                "visit.start",
                Optional.of(id),
                "other-device",
                1,
                clock.instant().atOffset(ZoneOffset.UTC),
                Duration.ZERO,
                Optional.empty(),
                json.readTree("{\"site\":\"" + stop.site() + "\"}"),
                stop.technician().value()));
        return id;
    }
}
