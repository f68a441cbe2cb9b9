package app.tankround.tablet;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;

import app.tankround.accounts.Role;
import app.tankround.testing.PersonAtBrowser;
import app.tankround.visits.VisitId;
import app.tankround.visits.VisitView;
import com.google.gson.JsonObject;
import com.microsoft.playwright.Browser;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.CDPSession;
import com.microsoft.playwright.Download;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Route;
import com.microsoft.playwright.options.AriaRole;
import com.microsoft.playwright.options.BoundingBox;
import com.microsoft.playwright.options.FilePayload;
import com.microsoft.playwright.options.ServiceWorkerPolicy;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Date;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicInteger;
import org.assertj.core.api.Assertions;
import org.junit.jupiter.api.Test;

/** A tablet without a signal, or with a bad one: whatever goes wrong, each entry has one effect and none is lost. */
class OfflineBrowserTests extends AtATablet {

    private static final String KEPT = "saved on this device and not sent yet";

    /** As much as a tablet has, in bytes. */
    private static final long ROOM = 1L << 30;

    /** Whose pages come from the server each time, so that a test can stand between them. */
    @Override
    BrowserContext newTablet() {
        return newTablet(ServiceWorkerPolicy.BLOCK);
    }

    private BrowserContext newTablet(ServiceWorkerPolicy workers) {
        BrowserContext taken = browser.browser()
                .newContext(new Browser.NewContextOptions()
                        .setViewportSize(820, 1180)
                        .setBaseURL("http://localhost:" + port)
                        .setTimezoneId("Europe/Dublin")
                        .setServiceWorkers(workers));
        taken.clock().setFixedTime(Date.from(clock.instant()));
        return taken;
    }

    @Test
    void doesAWholeVisitWithoutASignalIsClosedTwiceAndArrivesWhole() {
        takeTheDayAlong();
        tablet.setOffline(true);
        page.navigate("/day");
        assertThat(page.locator("main")).containsText("What is shown is of");
        page.locator(".day-stops a[href='/visits/" + stop.visit() + "']").click();
        PersonAtBrowser.press(page, "Start the visit");
        page.getByLabel("Yes, at the mark").check();
        PersonAtBrowser.type(page, "Temperature", "25.0");
        assertThat(page.locator("#sync")).containsText("3 entries are");
        page.close();

        page = tablet.newPage();
        page.navigate("/visits/" + stop.visit());
        assertThat(page.getByLabel("Temperature", new Page.GetByLabelOptions().setExact(true)))
                .hasValue("25.0");
        PersonAtBrowser.type(page, "Out", "40");
        page.locator("input[type=file]").setInputFiles(PersonAtBrowser.photo());
        assertThat(page.locator("[data-tab=photos]")).containsText("saved on this device");
        page.close();

        page = tablet.newPage();
        page.navigate("/visits/" + stop.visit());
        assertThat(page.locator("[data-tab=photos] img")).hasJSProperty("naturalWidth", 40);
        PersonAtBrowser.answersYes(page);
        assertThat(page.locator("[data-tab=leaving]")).containsText("6 of 6 answered");
        PersonAtBrowser.press(page, "Finish the visit");
        assertThat(page.locator("[data-tab=finish]")).containsText("This visit was finished");
        assertThat(page.locator("#sync")).containsText(KEPT);
        page.screenshot(new Page.ScreenshotOptions().setPath(Path.of("target", "offline-820.png")));
        Assertions.assertThat(visits.find(VisitId.of(stop.visit()))).isEmpty();

        tablet.setOffline(false);
        PersonAtBrowser.sendNow(page);
        PersonAtBrowser.allIsSaved(page);
        VisitView visit = visits.require(VisitId.of(stop.visit()));
        Assertions.assertThat(visit.finishedAt()).isPresent();
        Assertions.assertThat(visit.fields()).containsKey("water-change/" + stop.system());
        Assertions.assertThat(visit.photos())
                .singleElement()
                .satisfies(photo -> Assertions.assertThat(photo.arrived()).isTrue());
        Assertions.assertThat(temperatures()).containsExactly("25.0");
    }

    /** The photo of the same spot stands beside a new one with its day; a second one of a new spot beside the newest. */
    @Test
    void holdsANewPhotoBesideTheLastOfTheSameSpotWithoutASignal() {
        LocalDate last = VisitFixture.TODAY.minusDays(7);
        String sump = fixture.photosBefore(stop, last, Map.of("Sump", VisitFixture.picture(640, 480, 40)))
                .getFirst()
                .toString();
        String front = fixture.photosBefore(stop, last.plusDays(1), Map.of("Front", VisitFixture.picture(800, 400, 40)))
                .getFirst()
                .toString();
        begin("");
        // Both are on the tablet before the signal goes.
        Assertions.assertThat(page.evaluate("""
                        async (ids) => {
                          const { smallPhoto } = await import("/js/tablet/kept.js");
                          for (let tries = 0; tries < 200; tries++) {
                            if ((await Promise.all(ids.map(smallPhoto))).every(Boolean)) {
                              return true;
                            }
                            await new Promise((resolve) => setTimeout(resolve, 50));
                          }
                          return false;
                        }
                        """, List.of(sump, front))).isEqualTo(true);
        tablet.setOffline(true);

        Locator before = page.locator("[data-last-time] details");
        assertThat(before).hasCount(2);
        assertThat(before.first()).containsText("Last time, 24 Feb 2026: Front – show");
        before.last().locator("summary").click();
        assertThat(before.last().locator("img")).hasJSProperty("naturalWidth", 320);
        assertThat(before.last().locator("img")).hasJSProperty("naturalHeight", 240);

        page.locator("[data-tab=photos] input[type=file]").setInputFiles(PersonAtBrowser.photo());
        Locator pair = page.locator(".photo-pair");
        assertThat(pair.locator("[data-before='" + front + "'] img")).hasJSProperty("naturalHeight", 160);
        pair.getByLabel("What it shows").fill("sump");
        pair.getByLabel("What it shows").blur();
        assertThat(pair.locator("[data-before='" + sump + "']")).containsText("Last time, 23 Feb 2026: Sump");
        assertThat(pair.locator("[data-before]")).hasCount(1);
        pair.locator("img").last().scrollIntoViewIfNeeded();
        page.locator("[data-tab=photos]")
                .screenshot(new Locator.ScreenshotOptions().setPath(Path.of("target", "last-time-820.png")));
        PersonAtBrowser.assertAccessible(page);

        tablet.setOffline(false);
        PersonAtBrowser.sendNow(page);
        PersonAtBrowser.allIsSaved(page);
        Assertions.assertThat(visits.require(VisitId.of(stop.visit())).photos())
                .extracting(VisitView.Photo::caption)
                .containsExactly("sump");
    }

    /** The mark is drawn on this tablet, and both pictures are seen here without a signal: also once the server has them. */
    @Test
    void showsWhatWasMarkedWithAFingerWithoutASignalBeforeAndAfterItArrived() {
        takeTheDayAlong();
        begin("");
        tablet.setOffline(true);
        page.locator("[data-tab=photos] input[type=file]").setInputFiles(PersonAtBrowser.photo());
        Locator pictures = page.locator("[data-tab=photos] .photo-pair img");
        assertThat(pictures.first()).hasJSProperty("naturalWidth", 40);
        PersonAtBrowser.press(page, "Mark something");
        Locator canvas = page.locator("canvas.marking");
        canvas.scrollIntoViewIfNeeded();
        BoundingBox area = canvas.boundingBox();
        page.mouse().move(area.x + area.width * 0.2, area.y + area.height * 0.3);
        page.mouse().down();
        page.mouse().move(area.x + area.width * 0.8, area.y + area.height * 0.7);
        page.mouse().up();
        PersonAtBrowser.press(page, "Keep the marked copy");
        assertThat(page.locator("#sync")).containsText("2 entries are saved on this device");
        seesTheMark(pictures);
        page.reload();
        seesTheMark(pictures);

        tablet.setOffline(false);
        PersonAtBrowser.sendNow(page);
        PersonAtBrowser.allIsSaved(page);
        Assertions.assertThat(visits.require(VisitId.of(stop.visit())).photos())
                .hasSize(2)
                .allMatch(VisitView.Photo::arrived);
        tablet.setOffline(true);
        page.reload();
        seesTheMark(pictures);
    }

    /** The second picture is the first one with something drawn on it; JPEG alone moves a colour by a few of 255. */
    private void seesTheMark(Locator pictures) {
        assertThat(pictures).hasCount(2);
        assertThat(pictures.last()).hasJSProperty("naturalWidth", 40);
        assertThat(pictures.first()).hasJSProperty("naturalWidth", 40);
        Assertions.assertThat(((Number) pictures.evaluateAll("""
                        (both) => {
                          const [plain, marked] = both.map((image) => {
                            const pen = Object.assign(document.createElement("canvas"), { width: 40, height: 30 }).getContext("2d");
                            pen.drawImage(image, 0, 0);
                            return pen.getImageData(0, 0, 40, 30).data;
                          });
                          return Math.max(...plain.map((value, at) => Math.abs(value - marked[at])));
                        }
                        """)).intValue())
                .as("most that a colour differs by")
                .isGreaterThan(60);
    }

    /** Nobody leaves without the check because nobody is there to ask for it. */
    @Test
    void finishesNoVisitWithoutASignalBeforeEveryLineIsAnswered() {
        begin("");
        tablet.setOffline(true);
        PersonAtBrowser.press(page, "Finish the visit");
        Locator finish = page.locator("[data-tab=finish]");
        assertThat(finish.locator(".field-error")).containsText("Not answered yet: Top-off is back on");
        PersonAtBrowser.answersYes(page);
        page.locator("[data-line]")
                .first()
                .getByLabel("No", new Locator.GetByLabelOptions().setExact(true))
                .check();
        PersonAtBrowser.press(page, "Finish the visit");
        assertThat(finish.locator(".field-error")).containsText("Not answered yet: Top-off is back on.");
        page.locator("[data-line]").first().getByLabel("Yes").check();
        PersonAtBrowser.press(page, "Finish the visit");
        assertThat(finish).containsText("This visit was finished");
        tablet.setOffline(false);
        PersonAtBrowser.allIsSaved(page);
        Assertions.assertThat(visits.require(VisitId.of(stop.visit())).finished())
                .isTrue();
    }

    @Test
    void changesAFinishedVisitOnlyWithAReasonWithASignalAndWithout() {
        begin("");
        PersonAtBrowser.type(page, "Out", "40");
        PersonAtBrowser.answersYes(page);
        PersonAtBrowser.press(page, "Finish the visit");
        assertThat(page.locator("[data-tab=finish]")).containsText("This visit was finished");
        PersonAtBrowser.allIsSaved(page);

        Locator change = page.locator("[data-field='water-change/" + stop.system() + "']");
        PersonAtBrowser.type(page, "Out", "45");
        assertThat(change).containsText("Say why this is changed");
        assertThat(page.locator("#sync")).containsText("Not saved yet");
        // Asked again where the page is left before it was said.
        page.reload();
        assertThat(change).containsText("Say why this is changed");
        change.getByLabel("Why it is changed").fill("Read off the drum again");
        PersonAtBrowser.assertAccessible(page);
        PersonAtBrowser.press(page, "Save with this reason");
        assertThat(change).containsText("Changed or added after the visit: Read off the drum again");
        PersonAtBrowser.allIsSaved(page);
        Assertions.assertThat(waterOut()).isEqualTo("45");

        tablet.setOffline(true);
        PersonAtBrowser.type(page, "Out", "50");
        PersonAtBrowser.press(page, "It was mistyped");
        assertThat(change).containsText("Changed or added after the visit: It was mistyped");
        assertThat(page.locator("#sync")).containsText("saved on this device");
        tablet.setOffline(false);
        PersonAtBrowser.sendNow(page);
        PersonAtBrowser.allIsSaved(page);
        Assertions.assertThat(waterOut()).isEqualTo("50");
        page.reload();
        assertThat(change).containsText("Changed or added after the visit: It was mistyped");
    }

    private String waterOut() {
        VisitView visit = visits.require(VisitId.of(stop.visit()));
        return Objects.requireNonNull(visit.fields().get("water-change/" + stop.system()))
                .body()
                .path("out")
                .asString();
    }

    @Test
    void keepsWhatIsBeingTypedWhenTheTabletDies() {
        begin("");
        Locator temperature = page.getByLabel("Temperature", new Page.GetByLabelOptions().setExact(true));
        temperature.pressSequentially("25.");
        page.waitForTimeout(600);
        page.close();

        page = tablet.newPage();
        page.navigate("/visits/" + stop.visit());
        assertThat(temperature(page)).hasValue("25.");
        assertThat(page.locator("#sync")).containsText("Not saved yet");
        Assertions.assertThat(temperatures()).isEmpty();
        temperature(page).fill("25.3");
        temperature(page).blur();
        PersonAtBrowser.allIsSaved(page);
        Assertions.assertThat(temperatures()).containsExactly("25.3");
    }

    /** The server took it in, and its answer was lost on the way. */
    @Test
    void sendsAgainWhatWasTakenInWithoutAnAnswerAndHasOneEffect() {
        begin("");
        AtomicInteger lost = new AtomicInteger();
        page.route("**/api/entries", route -> {
            if (lost.getAndIncrement() == 0) {
                route.fetch();
                route.abort();
            } else {
                route.resume();
            }
        });
        PersonAtBrowser.type(page, "Temperature", "25.1");
        assertThat(page.locator("#sync")).containsText("The program cannot be reached");
        Assertions.assertThat(temperatures()).containsExactly("25.1");
        PersonAtBrowser.sendNow(page);
        PersonAtBrowser.allIsSaved(page);
        Assertions.assertThat(temperatures()).containsExactly("25.1");
    }

    /** A hotel's sign-in page answers everything with 200 and a page of its own. */
    @Test
    void takesNoOtherAnswerForTheServers() {
        begin("");
        page.route(
                "**/api/entries",
                route -> route.fulfill(new Route.FulfillOptions()
                        .setStatus(200)
                        .setContentType("text/html")
                        .setBody("<html>Welcome to our hotel</html>")));
        PersonAtBrowser.type(page, "Temperature", "25.2");
        assertThat(page.locator("#sync")).containsText("The program cannot be reached");
        Assertions.assertThat(temperatures()).isEmpty();
        page.unroute("**/api/entries");
        PersonAtBrowser.sendNow(page);
        PersonAtBrowser.allIsSaved(page);
        Assertions.assertThat(temperatures()).containsExactly("25.2");
    }

    @Test
    void waitsForTheSignInWhereItHasEnded() {
        begin("");
        tablet.clearCookies();
        PersonAtBrowser.type(page, "Temperature", "25.4");
        assertThat(page.locator("#sync")).containsText("The sign-in has ended");
        Assertions.assertThat(temperatures()).isEmpty();

        Page other = tablet.newPage();
        other.navigate(people.signInPath(Role.TECHNICIAN));
        page.reload();
        PersonAtBrowser.allIsSaved(page);
        Assertions.assertThat(temperatures()).containsExactly("25.4");
    }

    @Test
    void sendsNothingInTheNameOfSomebodyElse() {
        begin("");
        tablet.setOffline(true);
        PersonAtBrowser.type(page, "Temperature", "25.5");
        assertThat(page.locator("#sync")).containsText(KEPT);
        tablet.clearCookies();
        tablet.setOffline(false);
        Page other = tablet.newPage();
        other.navigate(people.signInPath(Role.OFFICE));
        other.navigate("/visits/" + stop.visit());
        PersonAtBrowser.allIsSaved(other);
        Assertions.assertThat(temperatures()).isEmpty();

        tablet.clearCookies();
        other.navigate(people.signInPath(Role.TECHNICIAN));
        other.navigate("/visits/" + stop.visit());
        PersonAtBrowser.allIsSaved(other);
        Assertions.assertThat(temperatures()).containsExactly("25.5");
    }

    /** A day that was fetched in somebody's name is nobody else's. */
    @Test
    void showsNobodyTheDayOfSomebodyElseOnTheSameDevice() {
        takeTheDayAlong();
        begin("");
        tablet.setOffline(true);
        PersonAtBrowser.type(page, "Temperature", "25.5");
        assertThat(page.locator("#sync")).containsText(KEPT);
        tablet.clearCookies();
        tablet.setOffline(false);
        Page other = tablet.newPage();
        other.navigate(people.signInPath(Role.OFFICE));
        other.navigate("/day");
        assertThat(other.locator("#person")).containsText("Test office");
        tablet.setOffline(true);
        other.navigate("/visits/" + stop.visit());
        assertThat(other.locator("#sync")).containsText("kept this for somebody else");
        Assertions.assertThat(other.content()).doesNotContain("Dining room").doesNotContain("25.5");
        other.navigate("/day");
        assertThat(other.locator("#person")).containsText("Test office");
        assertThat(other.locator(".day-stops a[href='/visits/" + stop.visit() + "']"))
                .hasCount(0);
        other.navigate("/rounds/" + stop.round() + "/load");
        assertThat(other.locator("#sync")).containsText("this device has kept nothing of it");
        Assertions.assertThat(temperatures()).isEmpty();
    }

    /**
     * The store of the browser itself is full: its profile has no room for one thing more, as on a full disk. Nothing is said
     * to be saved that is not, and once there is room again nothing is lost.
     */
    @Test
    void saysThatADeviceIsFullAndLosesNothingOfWhatWasEnteredMeanwhile() {
        CDPSession disk = small();
        begin("");
        PersonAtBrowser.write(page, "Temperature", "25.6");
        fill(disk);
        PersonAtBrowser.type(page, "Out", "40");
        assertThat(page.locator("[data-tab=water]")).containsText("Not saved: this device is full");
        assertThat(page.locator("#sync")).containsText("Not saved yet: Water change");
        assertThat(page.locator("[data-tab=water] [data-field]")).not().containsText("saved on this device");
        Assertions.assertThat(inbox()).containsExactly("visit.start", "visit.reading");

        empty(disk);
        PersonAtBrowser.type(page, "Out", "41");
        PersonAtBrowser.allIsSaved(page);
        assertThat(page.locator("[data-tab=water]")).not().containsText("this device is full");
        Assertions.assertThat(temperatures()).containsExactly("25.6");
        Assertions.assertThat(changedLitres()).containsExactly("41");
        Assertions.assertThat(inbox()).containsExactly("visit.start", "visit.reading", "visit.water-change");
    }

    /**
     * The same without a signal: what was entered before is safe and waits. What found no room stands on the page alone, says
     * so at once, and can be saved as a file and given back, with its photo.
     */
    @Test
    void saysWithoutASignalThatADeviceIsFullAndSavesAsAFileWhatFoundNoRoom() throws IOException {
        takeTheDayAlong();
        CDPSession disk = small();
        begin("");
        tablet.setOffline(true);
        PersonAtBrowser.type(page, "Temperature", "25.6");
        assertThat(page.locator("#sync")).containsText("1 entry");
        fill(disk);
        PersonAtBrowser.type(page, "Out", "40");
        Locator water = page.locator("[data-tab=water]");
        assertThat(water).containsText("Not saved: this device is full");
        page.locator("[data-tab=photos] input[type=file]").setInputFiles(PersonAtBrowser.photo());
        Locator photos = page.locator("[data-tab=photos]");
        assertThat(photos).containsText("Not saved: this device is full");
        assertThat(page.locator("#sync")).containsText("Not saved yet: Water change, Photos");
        assertThat(water).not().containsText("saved on this device");
        assertThat(photos).not().containsText("saved on this device");
        page.screenshot(new Page.ScreenshotOptions()
                .setPath(Path.of("target", "full-820.png"))
                .setFullPage(true));
        PersonAtBrowser.assertAccessible(page);
        Download file = page.waitForDownload(
                () -> water.getByRole(AriaRole.BUTTON, new Locator.GetByRoleOptions().setName("as a file"))
                        .click());
        assertThat(water).containsText("In the file: entries 3, photos 1");
        byte[] saved = Files.readAllBytes(file.path());

        empty(disk);
        page.reload();
        assertThat(temperature(page)).hasValue("25.6");
        assertThat(page.locator("#sync")).containsText("1 entry");
        tablet.setOffline(false);
        page.navigate("/day");
        page.locator("#device input[type=file]")
                .setInputFiles(new FilePayload("unsent.json", "application/json", saved));
        assertThat(page.locator("#device")).containsText("Taken 3, refused 0");
        page.navigate("/visits/" + stop.visit());
        PersonAtBrowser.allIsSaved(page);
        Assertions.assertThat(temperatures()).containsExactly("25.6");
        Assertions.assertThat(changedLitres()).containsExactly("40");
        Assertions.assertThat(visits.require(VisitId.of(stop.visit())).photos())
                .singleElement()
                .satisfies(photo -> Assertions.assertThat(photo.arrived()).isTrue());
    }

    /** A tablet with room for little more than the program and a day. */
    private CDPSession small() {
        CDPSession disk = tablet.newCDPSession(page);
        room(disk, 8L << 20);
        return disk;
    }

    /** So many bytes are all that this tablet's browser may keep of the program. */
    private void room(CDPSession disk, long bytes) {
        JsonObject quota = new JsonObject();
        quota.addProperty("origin", "http://localhost:" + port);
        quota.addProperty("quotaSize", bytes);
        disk.send("Storage.overrideQuotaForOrigin", quota);
    }

    /**
     * Writes beside what the program keeps, until the browser itself refuses the smallest thing. What it may find by tidying
     * up later is no room either.
     */
    private void fill(CDPSession disk) {
        String refused = String.valueOf(page.evaluate("""
                async () => {
                  const opening = indexedDB.open("others", 1);
                  opening.onupgradeneeded = () => opening.result.createObjectStore("all", { autoIncrement: true });
                  await new Promise((done, failed) => ((opening.onsuccess = done), (opening.onerror = failed)));
                  let name = "";
                  // Twice, since the browser may tidy up after the first time.
                  for (let size = 1 << 20, again = true; size >= 16; size = size === 16 && again ? ((again = false), 1 << 20) : size / 4) {
                    for (let full = false; !full; ) {
                      const writing = opening.result.transaction("all", "readwrite");
                      writing.objectStore("all").put(crypto.getRandomValues(new Uint8Array(Math.min(size, 65536))).toString() + "x".repeat(size));
                      full = await new Promise((done) => {
                        writing.oncomplete = () => done(false);
                        writing.onabort = () => done(((name = writing.error?.name ?? ""), true));
                      });
                    }
                  }
                  opening.result.close();
                  return name;
                }
                """));
        Assertions.assertThat(refused).isEqualTo("QuotaExceededError");
        room(disk, 1);
    }

    /** There is room again. */
    private void empty(CDPSession disk) {
        page.evaluate("""
                () => new Promise((done, failed) => {
                  const deleting = indexedDB.deleteDatabase("others");
                  deleting.onsuccess = () => done();
                  deleting.onerror = () => failed(deleting.error);
                })
                """);
        room(disk, ROOM);
    }

    private List<String> changedLitres() {
        return jdbc.sql(
                        "select body ->> 'out' as litres from visit_entry where visit_id = :visit and kind = 'visit.water-change'")
                .param("visit", stop.visit())
                .query((row, number) -> row.getString("litres"))
                .list();
    }

    /** Nine hours ahead, and two hours without a signal. */
    @Test
    void tellsTheTimeByTheServersClockWhateverTheTabletsSays() {
        begin("");
        tablet.setOffline(true);
        Instant ahead = clock.instant().plus(Duration.ofHours(9));
        tablet.clock().setFixedTime(Date.from(ahead));
        AtomicBoolean tried = new AtomicBoolean();
        page.onRequestFailed(request -> tried.compareAndSet(false, request.url().endsWith("/api/entries")));
        PersonAtBrowser.type(page, "Temperature", "25.7");
        assertThat(page.locator("#sync")).containsText(KEPT);
        // Else what it says of its clock could be of before these two hours.
        page.waitForCondition(tried::get);
        tablet.clock().setFixedTime(Date.from(ahead.plus(Duration.ofHours(2))));
        Instant before = clock.instant();
        clock.advance(Duration.ofHours(2));
        tablet.setOffline(false);
        PersonAtBrowser.sendNow(page);
        PersonAtBrowser.allIsSaved(page);
        Assertions.assertThat(readings.byVisit(stop.visit()))
                .singleElement()
                .satisfies(reading -> Assertions.assertThat(
                                Duration.between(before, reading.takenAt()).abs())
                        .isLessThan(Duration.ofMinutes(1)));
    }

    /** The database of yesterday was put back: what came since then is sent again by itself. */
    @Test
    void sendsAgainWhatAServerHasLostThatWasPutBack() {
        begin("");
        PersonAtBrowser.write(page, "Temperature", "25.8");
        PersonAtBrowser.write(page, "Out", "40");
        List<String> sent = new ArrayList<>();
        page.onRequest(request -> {
            if (request.url().endsWith("/api/entries")) {
                sent.add(request.postData());
            }
        });
        jdbc.sql("delete from inbox_entry where kind = 'visit.water-change' and subject_id = :visit")
                .param("visit", stop.visit())
                .update();
        page.reload();
        PersonAtBrowser.allIsSaved(page);
        page.waitForCondition(() -> sent.stream().anyMatch(each -> each.contains("visit.water-change")));
        Assertions.assertThat(String.join(" ", sent)).doesNotContain("visit.reading");
    }

    /** It holds nothing of this device, and what is sent first afterwards is not the beginning. */
    @Test
    void sendsAllAgainToAServerThatHasLostEverythingOfTheDevice() {
        begin("");
        PersonAtBrowser.write(page, "Temperature", "25.8");
        jdbc.sql("delete from inbox_entry where subject_id = :visit")
                .param("visit", stop.visit())
                .update();
        PersonAtBrowser.write(page, "Out", "40");
        PersonAtBrowser.allIsSaved(page);
        page.waitForCondition(() -> inbox().containsAll(List.of("visit.start", "visit.reading", "visit.water-change")));
        Assertions.assertThat(temperatures()).containsExactly("25.8");
    }

    /** Nothing is missing at the server afterwards, so that it is not sent all that follows again and again. */
    @Test
    void tellsOfAPhotoThatTheServerCannotOpen() {
        begin("");
        // What the tablet itself can open, the server may not.
        page.route(
                "**/api/photos/*",
                route -> route.fulfill(new Route.FulfillOptions()
                        .setStatus(422)
                        .setContentType("application/problem+json")
                        .setBody("""
                                {"errors":[{"field":"photo","code":"tablet.photo-broken","message":"This is no photo"}]}\
                                """)));
        AtomicInteger sent = new AtomicInteger();
        page.onRequest(request -> {
            if (request.url().endsWith("/api/entries")) {
                sent.incrementAndGet();
            }
        });
        page.locator("input[type=file]").setInputFiles(PersonAtBrowser.photo());
        assertThat(page.locator("[data-tab=photos]")).containsText("This is no photo");
        PersonAtBrowser.type(page, "Temperature", "25.1");
        assertThat(page.locator("#sync")).containsText("Not saved yet: Photos.");
        page.waitForCondition(() -> inbox().contains("visit.reading"));
        page.reload();
        assertThat(page.locator("[data-tab=photos]")).containsText("This is no photo");
        Assertions.assertThat(inbox()).contains("tablet.given-up").doesNotContain("visit.photo");
        // The reload may have cut off the second answer.
        Assertions.assertThat(sent.get()).isBetween(2, 3);
    }

    @Test
    void givesBackAsAFileWhatADeviceCouldNotSend() throws IOException {
        takeTheDayAlong();
        begin("");
        tablet.setOffline(true);
        PersonAtBrowser.type(page, "Temperature", "25.9");
        assertThat(page.locator("#sync")).containsText(KEPT);
        page.navigate("/day");
        Download file = page.waitForDownload(() -> PersonAtBrowser.press(page, "Save unsent work as a file"));
        assertThat(page.locator("#device")).containsText("In the file: entries 1, photos 0");
        byte[] saved = Files.readAllBytes(file.path());

        try (BrowserContext other = browser.person(port, 820, 1180)) {
            Page there = other.newPage();
            there.navigate(people.signInPath(Role.TECHNICIAN));
            there.navigate("/day");
            there.locator("#device input[type=file]")
                    .setInputFiles(new FilePayload("unsent.json", "application/json", saved));
            assertThat(there.locator("#device")).containsText("Taken 1, refused 0");
            PersonAtBrowser.assertAccessible(there);
        }
        Assertions.assertThat(temperatures()).containsExactly("25.9");
        tablet.setOffline(false);
        page.reload();
        PersonAtBrowser.allIsSaved(page);
        Assertions.assertThat(temperatures()).containsExactly("25.9");
    }

    @Test
    void forgetsHowToGetInWhenItsPersonSignsOutAndTellsFirstWhatIsNotSent() {
        takeTheDayAlong();
        begin("");
        tablet.setOffline(true);
        PersonAtBrowser.type(page, "Temperature", "25.9");
        assertThat(page.locator("#sync")).containsText(KEPT);
        page.navigate("/day");
        PersonAtBrowser.press(page, "Sign out on this device");
        assertThat(page.locator("#device")).containsText("Not sent: 1");

        tablet.setOffline(false);
        page.navigate("/rounds");
        page.navigate("/day");
        PersonAtBrowser.allIsSaved(page);
        page.navigate("/rounds");
        PersonAtBrowser.press(page, "Sign out");
        page.waitForURL("**/sign-in?out");
        tablet.setOffline(true);
        page.navigate("/visits/" + stop.visit());
        assertThat(page.locator("#sync")).containsText("this device has kept nothing of it");
        Assertions.assertThat(page.content()).doesNotContain("Dining room");
        Assertions.assertThat(temperatures()).containsExactly("25.9");
    }

    /** On another tablet, which keeps its pages. */
    @Override
    void takeTheDayAlong() {
        tablet.close();
        take(newTablet(ServiceWorkerPolicy.ALLOW));
        super.takeTheDayAlong();
    }

    private static Locator temperature(Page page) {
        return page.getByLabel("Temperature", new Page.GetByLabelOptions().setExact(true));
    }
}
