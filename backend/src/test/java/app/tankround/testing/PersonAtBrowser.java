package app.tankround.testing;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.deque.html.axecore.args.AxeRunOptions;
import com.deque.html.axecore.playwright.AxeBuilder;
import com.microsoft.playwright.APIResponse;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.assertions.LocatorAssertions;
import com.microsoft.playwright.options.AriaRole;
import com.microsoft.playwright.options.FilePayload;
import com.microsoft.playwright.options.ViewportSize;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Objects;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import javax.imageio.ImageIO;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.text.PDFTextStripper;

/** What a person does and sees at a page, by what stands on it. */
public final class PersonAtBrowser {

    private PersonAtBrowser() {}

    /** WCAG 2.2 A and AA, as far as a program can tell, by axe; and no sideways scrolling. */
    public static void assertAccessible(Page page) {
        // Following a link ends before the style of the next page is there.
        page.waitForLoadState();
        // A bar at the foot of the window covers what stands under it, unless the window is as high as the page.
        ViewportSize window = page.viewportSize();
        int whole = ((Number) page.evaluate("document.documentElement.scrollHeight + 200")).intValue();
        page.setViewportSize(window.width, Math.max(window.height, whole));
        var onlyViolations = new AxeRunOptions();
        onlyViolations.setResultTypes(List.of("violations"));
        var violations = new AxeBuilder(page)
                .options(onlyViolations)
                // No page of ours has frames, for which alone a page is opened beside and read in once more.
                .setLegacyMode(true)
                .withTags(List.of("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"))
                .analyze()
                .getViolations();
        page.setViewportSize(window.width, window.height);
        assertThat(violations.stream()
                        .map(rule -> rule.getId() + " "
                                + rule.getNodes().stream()
                                        .map(node -> String.valueOf(node.getTarget()))
                                        .limit(3)
                                        .toList())
                        .toList())
                .as(page.url())
                .isEmpty();
        assertThat(page.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth"))
                .as("no sideways scrolling on " + page.url())
                .isEqualTo(true);
    }

    /** Sets up a business of the tests as its first owner, who stands at the page for that. */
    public static void begin(Page owner) {
        owner.getByLabel("Name of the business").fill("Corran Water Care");
        owner.getByLabel("Your name").fill("Orla Finn");
        owner.getByLabel("Name for sign-in").fill("orla");
        owner.getByLabel("Password").fill("slack water at half past four");
        press(owner, "Begin");
    }

    /** Lets somebody of the imported files sign in, by a link. */
    public static String letIn(Page owner, String signInName) {
        owner.navigate("/people");
        follow(owner, signInName);
        owner.getByLabel("May sign in").check();
        press(owner, "Save");
        press(owner, "Make a link for sign-in");
        return owner.locator(".one-time-link").innerText();
    }

    /** The first button of that name. */
    public static void press(Page page, String name) {
        page.getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName(name))
                .first()
                .click();
    }

    /** The first link with these words. */
    public static void follow(Page page, String words) {
        page.getByRole(AriaRole.LINK, new Page.GetByRoleOptions().setName(words))
                .first()
                .click();
    }

    /** Types into the field of that label and leaves it. */
    public static void type(Page page, String label, String typed) {
        Locator input = page.getByLabel(label, new Page.GetByLabelOptions().setExact(true))
                .first();
        input.fill(typed);
        input.blur();
    }

    /** Types into a field of a visit and waits until it is saved. */
    public static void write(Page page, String label, String typed) {
        type(page, label, typed);
        allIsSaved(page);
    }

    /** Sends what waits, whether or not the page has begun to by itself and so taken the button away. */
    public static void sendNow(Page page) {
        page.evaluate("() => document.getElementById('sync-now').click()");
    }

    /** Waits until the page of a visit has saved everything. */
    public static void allIsSaved(Page page) {
        assertThat(page.locator("#sync")).containsText("Everything on this page is saved");
    }

    /** Answers every line of the check before leaving with yes. */
    public static void answersYes(Page visit) {
        // A page that is not drawn yet has no lines.
        visit.locator("[data-line]").first().waitFor();
        for (Locator line : visit.locator("[data-line]").all()) {
            line.getByLabel("Yes").check();
        }
    }

    /** A small photo, 40 pixels wide, as a camera hands it over. */
    public static FilePayload photo() {
        var bytes = new ByteArrayOutputStream();
        try {
            ImageIO.write(new BufferedImage(40, 30, BufferedImage.TYPE_INT_RGB), "png", bytes);
        } catch (IOException impossible) {
            throw new UncheckedIOException(impossible);
        }
        return new FilePayload("tank.png", "image/png", bytes.toByteArray());
    }

    /** The reading of a quantity on the page of a visit, with its verdict. */
    public static Locator field(Page page, String quantity) {
        return page.locator(
                ".reading",
                new Page.LocatorOptions()
                        .setHas(page.getByLabel(quantity, new Page.GetByLabelOptions().setExact(true))));
    }

    /** Waits until a page says all of this, whatever its spaces. */
    public static void sees(Page page, String... words) {
        for (String each : words) {
            assertThat(page.locator("main"))
                    .containsText(each, new LocatorAssertions.ContainsTextOptions().setUseInnerText(true));
        }
    }

    /** What a page says, with plain spaces. */
    public static String text(Page page) {
        return plain(page.locator("main").innerText());
    }

    /** What a document says that this person may read, with plain spaces. */
    public static String pdf(BrowserContext person, String path) throws IOException {
        APIResponse answer = person.request().get(path);
        try (var document = Loader.loadPDF(answer.body())) {
            return plain(new PDFTextStripper().getText(document));
        }
    }

    private static String plain(String text) {
        return text.replace('\u00A0', ' ').replace('\u202F', ' ').replaceAll("\\s+", " ");
    }

    /** A CSV file of the test's resources as it is exchanged: Git keeps plain line ends, RFC 4180 has CRLF. */
    public static String csv(String folder, String name) throws IOException {
        try (var in = PersonAtBrowser.class.getResourceAsStream("/" + folder + "/" + name + ".csv")) {
            return new String(Objects.requireNonNull(in).readAllBytes(), StandardCharsets.UTF_8).replace("\n", "\r\n");
        }
    }

    /** Some of them packed for the import. */
    public static byte[] zip(String folder, List<String> names) throws IOException {
        var bytes = new ByteArrayOutputStream();
        try (var zip = new ZipOutputStream(bytes)) {
            for (String name : names) {
                zip.putNextEntry(new ZipEntry(name + ".csv"));
                zip.write(csv(folder, name).getBytes(StandardCharsets.UTF_8));
            }
        }
        return bytes.toByteArray();
    }
}
