package app.tankround.tablet;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;

import app.tankround.documents.FileStore;
import app.tankround.testing.PersonAtBrowser;
import app.tankround.visits.VisitId;
import app.tankround.visits.VisitView;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Route;
import com.microsoft.playwright.options.AriaRole;
import com.microsoft.playwright.options.BoundingBox;
import com.microsoft.playwright.options.FilePayload;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import javax.imageio.ImageIO;
import org.assertj.core.api.Assertions;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

/** What a visit leaves behind beside its numbers: signature, photos, dead animals, things handed over. */
class SignedVisitBrowserTests extends AtATablet {

    @Autowired
    private FileStore files;

    @Override
    BrowserContext newTablet() {
        return browser.person(port, 820, 1180);
    }

    @BeforeEach
    void beginTheVisit() {
        page.navigate("/visits/for-stop/" + stop.stop());
        PersonAtBrowser.press(page, "Start the visit");
        PersonAtBrowser.allIsSaved(page);
    }

    @Test
    void keepsADrawnSignatureWithItsEntryAndAsksAgainOnceTheVisitChanged() throws IOException {
        page.route("**/api/entries", Route::abort);
        page.route("**/api/photos/*", Route::abort);
        PersonAtBrowser.type(page, "Signed by, for the client", "Ann Lee");
        sign();
        // The name, and then the name with what was drawn.
        assertThat(page.locator("#sync")).containsText("2 entries are saved on this device");
        page.reload();
        assertThat(part("finish").locator("img.signature")).hasJSProperty("naturalWidth", 1000);
        page.unrouteAll();
        PersonAtBrowser.sendNow(page);
        PersonAtBrowser.allIsSaved(page);
        VisitView.Signature signature = visit().signature().orElseThrow();
        Assertions.assertThat(signature.name()).contains("Ann Lee");
        Assertions.assertThat(signature.arrived()).isTrue();
        Assertions.assertThat(signature.outdated()).isFalse();
        BufferedImage drawn =
                picture(files.require(signature.drawing().orElseThrow()).content());
        Assertions.assertThat(drawn.getWidth()).isEqualTo(1000);
        assertThat(changed()).isHidden();

        page.getByLabel("No film").check();
        PersonAtBrowser.allIsSaved(page);
        assertThat(changed()).isVisible();
        page.route("**/api/bundles/**", Route::abort);
        page.reload();
        assertThat(changed()).isVisible();
        page.unrouteAll();
        page.reload();
        assertThat(changed()).isVisible();
        Assertions.assertThat(visit().signature().orElseThrow().outdated()).isTrue();

        PersonAtBrowser.press(page, "Sign anew");
        sign();
        PersonAtBrowser.allIsSaved(page);
        assertThat(changed()).isHidden();
        Assertions.assertThat(visit().signature().orElseThrow().outdated()).isFalse();
        part("finish").screenshot(new Locator.ScreenshotOptions().setPath(Path.of("target", "signed-820.png")));
        PersonAtBrowser.assertAccessible(page);
    }

    @Test
    void keepsAPhotoUprightAndWithoutItsPlaceFromTheFirstMomentAndACopyForWhatIsMarked() throws IOException {
        tablet.setOffline(true);
        camera().setInputFiles(new FilePayload("tank.jpg", "image/jpeg", heldSideways()));
        assertThat(part("photos")).containsText("saved on this device");
        // Taken 40 wide and 30 high with the tablet held sideways.
        assertThat(part("photos").locator("img").first()).hasJSProperty("naturalWidth", 30);
        Assertions.assertThat(page.evaluate("""
                        async () => {
                          const opened = await new Promise((found) => {
                            const request = indexedDB.open("tankround");
                            request.onsuccess = () => found(request.result);
                          });
                          const kept = await new Promise((found) => {
                            const request = opened.transaction("photos").objectStore("photos").getAll();
                            request.onsuccess = () => found(request.result);
                          });
                          return kept.map(({ content }) => new TextDecoder("latin1").decode(content)).join();
                        }
                        """).toString())
                .doesNotContain("Exif")
                .isNotEmpty();
        tablet.setOffline(false);
        PersonAtBrowser.sendNow(page);
        PersonAtBrowser.allIsSaved(page);

        PersonAtBrowser.press(page, "Mark something");
        Locator canvas = page.locator("canvas.marking");
        stroke(canvas);
        page.screenshot(new Page.ScreenshotOptions().setFullPage(true).setPath(Path.of("target", "marking-820.png")));
        PersonAtBrowser.press(page, "Keep the marked copy");
        assertThat(part("photos").locator("img")).hasCount(2);
        PersonAtBrowser.allIsSaved(page);
        List<VisitView.Photo> photos = visit().photos();
        Assertions.assertThat(photos).hasSize(2).allMatch(VisitView.Photo::arrived);
        Assertions.assertThat(photos.get(1).marks()).contains(photos.get(0).fileId());
        byte[] original = files.require(photos.get(0).fileId()).content();
        Assertions.assertThat(picture(original).getHeight()).isEqualTo(40);
        Assertions.assertThat(new String(original, StandardCharsets.ISO_8859_1)).doesNotContain("Exif");
    }

    /** Two people sign, one after the other, and the tablet dies before anything is sent. */
    @Test
    void countsAsFinishedOnlyOnceThePhotoAndBothSignaturesHaveArrived() throws IOException {
        page.route("**/api/entries", Route::abort);
        page.route("**/api/photos/*", Route::abort);
        camera().setInputFiles(new FilePayload("tank.jpg", "image/jpeg", heldSideways()));
        assertThat(page.locator("#sync")).containsText("1 entry is saved on this device");
        PersonAtBrowser.type(page, "Signed by, for the client", "Ann Lee");
        sign();
        assertThat(page.locator("#sync")).containsText("3 entries are saved on this device");
        PersonAtBrowser.answersYes(page);
        assertThat(part("leaving")).containsText("6 of 6 answered");
        PersonAtBrowser.press(page, "Sign anew");
        PersonAtBrowser.type(page, "Signed by, for the client", "Ben Roe");
        sign();
        assertThat(page.locator("#sync")).containsText("11 entries are saved on this device");
        PersonAtBrowser.press(page, "Finish the visit");
        assertThat(page.locator("#sync")).containsText("12 entries are saved on this device");
        page.close();

        page = tablet.newPage();
        List<String> pictures = new ArrayList<>();
        page.route("**/api/photos/*", route -> {
            if (!route.request().method().equals("PUT") || pictures.size() < 2) {
                pictures.add(route.request().url());
                route.resume();
            } else {
                route.abort();
            }
        });
        page.navigate("/visits/" + stop.visit());
        assertThat(page.locator("#sync")).containsText("The program cannot be reached");
        // The photo and the first signature are there, of the second only the name: the visit goes on.
        Assertions.assertThat(visit().finishedAt()).isEmpty();
        Assertions.assertThat(visit().photos())
                .singleElement()
                .satisfies(photo -> Assertions.assertThat(photo.arrived()).isTrue());
        Assertions.assertThat(visit().signature().orElseThrow().name()).contains("Ben Roe");
        Assertions.assertThat(visit().signature().orElseThrow().drawing()).isEmpty();
        page.unroute("**/api/photos/*");
        PersonAtBrowser.sendNow(page);
        PersonAtBrowser.allIsSaved(page);

        VisitView whole = visit();
        Assertions.assertThat(whole.finishedAt()).isPresent();
        Assertions.assertThat(whole.photos())
                .singleElement()
                .satisfies(photo -> Assertions.assertThat(photo.arrived()).isTrue());
        Assertions.assertThat(whole.signature().orElseThrow().name()).contains("Ben Roe");
        Assertions.assertThat(whole.signature().orElseThrow().drawing()).isPresent();
        Assertions.assertThat(whole.signature().orElseThrow().arrived()).isTrue();
    }

    /** What was signed and the picture of it are one: a device that takes only one of them keeps none. */
    @Test
    void keepsNoEntryOfASignatureWhosePictureDoesNotFit() {
        PersonAtBrowser.write(page, "Signed by, for the client", "Ann Lee");
        page.evaluate("""
                () => {
                  const put = IDBObjectStore.prototype.put;
                  IDBObjectStore.prototype.put = function (...given) {
                    if (this.name === "photos") {
                      throw new DOMException("full", "QuotaExceededError");
                    }
                    return put.apply(this, given);
                  };
                }
                """);
        sign();
        assertThat(part("finish")).containsText("Not saved: this device is full");
        page.reload();
        PersonAtBrowser.allIsSaved(page);
        VisitView.Signature signature = visit().signature().orElseThrow();
        Assertions.assertThat(signature.name()).contains("Ann Lee");
        Assertions.assertThat(signature.drawing()).isEmpty();
    }

    @Test
    void refusesAPhotoThatIsNone() {
        camera().setInputFiles(new FilePayload(
                "tank.jpg", "image/jpeg", "this is a shopping list".getBytes(StandardCharsets.UTF_8)));
        assertThat(part("photos").getByRole(AriaRole.ALERT).first())
                .containsText("tank.jpg is no picture that can be opened");
        assertThat(part("photos").locator("img")).hasCount(0);
        Assertions.assertThat(visit().photos()).isEmpty();
    }

    @Test
    void saysWhatIsDoneWithADeadAnimalAndWhatWasLeft() throws IOException {
        add("NEW", "Clown", "3");
        PersonAtBrowser.allIsSaved(page);
        // With a day at hand, the page would not wait long for one in which they live there.
        page.evaluate("""
                async () => {
                  const { openDB } = await import("/js/lib/idb/index.js");
                  await (await openDB("tankround")).clear("days");
                }
                """);
        page.reload();
        PersonAtBrowser.press(page, "Add a line about animals");
        Locator line = part("look").locator("[data-field^='livestock/']").last().locator("xpath=..");
        line.getByLabel("What happened").selectOption("LOST");
        line.getByLabel("How many").fill("1");
        line.getByLabel("When it was found").fill("on arrival");
        line.getByText("Kept for the veterinarian").click();
        assertThat(line).containsText("never in a fridge for food");
        line.getByRole(AriaRole.BUTTON, new Locator.GetByRoleOptions().setName("Save"))
                .click();
        PersonAtBrowser.allIsSaved(page);
        PersonAtBrowser.press(page, "Filter socks");
        PersonAtBrowser.allIsSaved(page);
        part("look").screenshot(new Locator.ScreenshotOptions().setPath(Path.of("target", "animals-820.png")));

        VisitView visit = visit();
        Assertions.assertThat(visit.systems().getFirst().livestock())
                .filteredOn(animals -> animals.change() == VisitView.LivestockChange.LOST)
                .singleElement()
                .satisfies(dead -> {
                    Assertions.assertThat(dead.found()).contains("on arrival");
                    Assertions.assertThat(dead.remains()).contains(VisitView.Remains.FOR_VETERINARIAN);
                });
        Assertions.assertThat(visit.handedOver())
                .extracting(VisitView.HandedOver::what)
                .containsExactly(VisitView.HandedOver.What.SOCKS);
        PersonAtBrowser.assertAccessible(page);
    }

    private void add(String change, String name, String count) {
        PersonAtBrowser.press(page, "Add a line about animals");
        Locator line = part("look").locator("[data-field^='livestock/']").last().locator("xpath=..");
        line.getByLabel("What happened").selectOption(change);
        line.getByLabel("Name").fill(name);
        line.getByLabel("How many").fill(count);
        line.getByRole(AriaRole.BUTTON, new Locator.GetByRoleOptions().setName("Save"))
                .click();
    }

    private VisitView visit() {
        return visits.require(VisitId.of(stop.visit()));
    }

    private Locator part(String tab) {
        return page.locator("[data-tab=" + tab + "]");
    }

    private Locator changed() {
        return part("finish").getByText("was changed after it was signed");
    }

    private Locator camera() {
        return part("photos").locator("input[type=file]");
    }

    private void sign() {
        stroke(page.locator("canvas.signature"));
    }

    private void stroke(Locator canvas) {
        // Clear of the bar at the foot of the window.
        canvas.evaluate("element => element.scrollIntoView({ block: 'center' })");
        BoundingBox box = canvas.boundingBox();
        page.mouse().move(box.x + box.width / 4, box.y + box.height / 2);
        page.mouse().down();
        page.mouse().move(box.x + box.width / 2, box.y + box.height / 4);
        page.mouse().move(box.x + box.width * 3 / 4, box.y + box.height / 2);
        page.mouse().up();
    }

    private static BufferedImage picture(byte[] content) throws IOException {
        return ImageIO.read(new ByteArrayInputStream(content));
    }

    /**
     * A JPEG of 40 by 30 that is shown turned by a quarter, with a place: an APP1 segment with orientation 6 and a GPS
     * directory, as Exif 2.3 (CIPA DC-008) lays them out.
     */
    private static byte[] heldSideways() throws IOException {
        var plain = new ByteArrayOutputStream();
        ImageIO.write(new BufferedImage(40, 30, BufferedImage.TYPE_INT_RGB), "jpg", plain);
        byte[] jpeg = plain.toByteArray();
        ByteBuffer exif = ByteBuffer.allocate(6 + 8 + 2 + 2 * 12 + 4 + 2 + 12 + 4);
        exif.put("Exif\0\0".getBytes(StandardCharsets.ISO_8859_1));
        exif.put("MM".getBytes(StandardCharsets.ISO_8859_1))
                .putShort((short) 42)
                .putInt(8);
        exif.putShort((short) 2);
        // Orientation, SHORT: the top of the picture is at its right.
        exif.putShort((short) 0x0112)
                .putShort((short) 3)
                .putInt(1)
                .putShort((short) 6)
                .putShort((short) 0);
        // Where the GPS directory is, LONG.
        exif.putShort((short) 0x8825).putShort((short) 4).putInt(1).putInt(38);
        exif.putInt(0);
        // Latitude north.
        exif.putShort((short) 1)
                .putShort((short) 1)
                .putShort((short) 2)
                .putInt(2)
                .put("N\0\0\0".getBytes(StandardCharsets.ISO_8859_1));
        exif.putInt(0);
        var whole = new ByteArrayOutputStream();
        whole.write(jpeg, 0, 2);
        whole.write(new byte[] {(byte) 0xFF, (byte) 0xE1, 0, (byte) (exif.capacity() + 2)});
        whole.write(exif.array());
        whole.write(jpeg, 2, jpeg.length - 2);
        return whole.toByteArray();
    }
}
