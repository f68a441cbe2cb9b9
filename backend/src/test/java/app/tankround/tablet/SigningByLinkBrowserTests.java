package app.tankround.tablet;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;

import app.tankround.documents.FileStore;
import app.tankround.testing.PersonAtBrowser;
import app.tankround.visits.VisitId;
import app.tankround.visits.VisitView;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.BoundingBox;
import com.microsoft.playwright.options.ColorScheme;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.file.Path;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import javax.imageio.ImageIO;
import org.assertj.core.api.Assertions;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

/** Nobody can sign at the visit: the technician says so, makes a link, and the client signs on a device of their own. */
class SigningByLinkBrowserTests extends AtATablet {

    @Autowired
    private FileStore files;

    @Override
    BrowserContext newTablet() {
        return browser.person(port, 820, 1180);
    }

    @Test
    void letsTheClientSignByALinkThatTheTechnicianMade() throws IOException {
        page.navigate("/visits/for-stop/" + stop.stop());
        PersonAtBrowser.press(page, "Start the visit");
        PersonAtBrowser.allIsSaved(page);
        Locator finish = page.locator("[data-tab=finish]");
        PersonAtBrowser.press(page, "By link later");
        PersonAtBrowser.allIsSaved(page);
        assertThat(finish.getByText("By link later")).hasAttribute("aria-pressed", "true");
        Assertions.assertThat(signature().state()).isEqualTo(VisitView.SignatureState.TO_COME);
        jdbc.sql("update visit set finished_at = :at where id = :id")
                .param("at", clock.instant().atOffset(ZoneOffset.UTC))
                .param("id", stop.visit())
                .update();

        page.navigate("/visits/" + stop.visit() + "/report");
        assertThat(page.locator("#signature")).containsText("The client is to sign by link");
        PersonAtBrowser.press(page, "Make a link for signing");
        String link = page.locator("a.one-time-link").getAttribute("href");
        PersonAtBrowser.assertAccessible(page);

        try (BrowserContext strangers = browser.person(port, 820, 1180)) {
            Page client = strangers.newPage();
            List<String> refused = new ArrayList<>();
            client.onConsoleMessage(message -> {
                if (message.type().equals("error")) {
                    refused.add(message.text());
                }
            });
            client.navigate(link);
            for (ColorScheme scheme : List.of(ColorScheme.LIGHT, ColorScheme.DARK)) {
                client.emulateMedia(new Page.EmulateMediaOptions().setColorScheme(scheme));
                client.screenshot(new Page.ScreenshotOptions()
                        .setFullPage(true)
                        .setPath(
                                Path.of("target", "by-link-820-" + scheme.name().toLowerCase(Locale.ROOT) + ".png")));
                PersonAtBrowser.assertAccessible(client);
            }
            Assertions.assertThat(refused).isEmpty();

            // Without a name nothing is signed, and what was drawn is still there.
            stroke(client);
            PersonAtBrowser.press(client, "Sign for this visit");
            assertThat(client.locator(".error-summary")).isVisible();
            PersonAtBrowser.type(client, "Your name", "Ann Lee");
            PersonAtBrowser.press(client, "Sign for this visit");
            assertThat(client.locator("h1")).hasText("Thank you");
            PersonAtBrowser.assertAccessible(client);
            client.reload();
            assertThat(client.locator("h1")).hasText("This link has been used");
            PersonAtBrowser.assertAccessible(client);
        }

        VisitView.Signature signature = signature();
        Assertions.assertThat(signature.byLink()).isTrue();
        Assertions.assertThat(signature.name()).contains("Ann Lee");
        var drawn = ImageIO.read(new ByteArrayInputStream(
                files.require(signature.drawing().orElseThrow()).content()));
        Assertions.assertThat(drawn.getWidth()).isEqualTo(1000);
        Assertions.assertThat(drawn.getRGB(500, 100) & 0xFF).isLessThan(0x80);

        page.navigate("/visits/" + stop.visit());
        assertThat(finish).containsText("Signed by link by Ann Lee on");
        page.navigate("/visits/" + stop.visit() + "/report");
        assertThat(page.locator("#signature")).containsText("Signed by link by Ann Lee on");
        PersonAtBrowser.assertAccessible(page);
    }

    private VisitView.Signature signature() {
        return visits.require(VisitId.of(stop.visit())).signature().orElseThrow();
    }

    /** From a quarter of the frame's width over the middle of its upper half to three quarters. */
    private static void stroke(Page client) {
        Locator canvas = client.locator("canvas.signature");
        canvas.evaluate("element => element.scrollIntoView({ block: 'center' })");
        BoundingBox box = canvas.boundingBox();
        client.mouse().move(box.x + box.width / 4, box.y + box.height / 2);
        client.mouse().down();
        client.mouse().move(box.x + box.width / 2, box.y + box.height / 4);
        client.mouse().move(box.x + box.width * 3 / 4, box.y + box.height / 2);
        client.mouse().up();
    }
}
