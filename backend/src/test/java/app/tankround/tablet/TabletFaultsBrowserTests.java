package app.tankround.tablet;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;

import app.tankround.testing.PersonAtBrowser;
import app.tankround.testing.TestClock;
import app.tankround.visits.VisitId;
import app.tankround.visits.VisitView;
import com.google.gson.JsonObject;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.CDPSession;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Route;
import com.microsoft.playwright.assertions.LocatorAssertions;
import com.microsoft.playwright.options.FilePayload;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Base64;
import java.util.Date;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.assertj.core.api.Assertions;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.beans.factory.annotation.Qualifier;
import org.springframework.test.util.ReflectionTestUtils;

/** What happens to the tablet itself: tabs, updates, a dead battery, a store that the browser took back, a week away. */
class TabletFaultsBrowserTests extends AtATablet {

    /** One pixel, which is a picture. */
    private static final byte[] PICTURE = Base64.getDecoder()
            .decode("iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==");

    /** By its name, since nobody else needs it. */
    @Autowired
    @Qualifier("workerController") private Object worker;

    @Override
    BrowserContext newTablet() {
        BrowserContext keeping = browser.keepingPages("http://localhost:" + port, 820, 1180);
        keeping.clock().setFixedTime(Date.from(clock.instant()));
        return keeping;
    }

    @BeforeEach
    void takeTheDayAlongAndBegin() {
        takeTheDayAlong();
        begin("");
    }

    @AfterEach
    void putItBack() {
        ReflectionTestUtils.setField(worker, "script", Optional.empty());
    }

    @Test
    void sendsWhatTwoTabsEnteredOnceEach() {
        Page other = tablet.newPage();
        other.navigate("/visits/" + stop.visit());
        assertThat(other.locator("#sync")).containsText("Everything on this page is saved");
        List<String> answered = new ArrayList<>();
        tablet.onResponse(response -> {
            if (response.url().endsWith("/api/entries")) {
                answered.add(response.request().postData());
            }
        });
        tablet.setOffline(true);
        PersonAtBrowser.type(page, "Temperature", "25.1");
        PersonAtBrowser.type(other, "Out", "40");
        assertThat(page.locator("#sync")).containsText("not sent yet");
        assertThat(other.locator("#sync")).containsText("not sent yet");
        tablet.setOffline(false);
        PersonAtBrowser.sendNow(page);
        PersonAtBrowser.sendNow(other);
        PersonAtBrowser.allIsSaved(page);
        PersonAtBrowser.allIsSaved(other);
        Assertions.assertThat(temperatures()).containsExactly("25.1");
        Assertions.assertThat(inbox()).containsExactlyInAnyOrder("visit.start", "visit.reading", "visit.water-change");
        Assertions.assertThat(answered.stream().filter(body -> body.contains("visit.reading")))
                .as("times that the server was given the reading")
                .hasSize(1);
    }

    /** WebKit fails on a Blob in IndexedDB. */
    @Test
    void keepsAPhotoAsBytes() {
        tablet.setOffline(true);
        page.locator("input[type=file]").setInputFiles(new FilePayload("tank.png", "image/png", PICTURE));
        assertThat(page.locator("[data-tab=photos]")).containsText("saved on this device");
        Assertions.assertThat(page.evaluate("""
                        async () => {
                          const { openDB } = await import("/js/lib/idb/index.js");
                          const [photo] = await (await openDB("tankround")).getAll("photos");
                          return [photo.content instanceof ArrayBuffer, photo.content.byteLength > 0, photo.type].join(" ");
                        }
                        """)).isEqualTo("true true image/jpeg");
    }

    @Test
    void keepsAllElseWhenTheBatteryDiesInAPhoto() {
        tablet.setOffline(true);
        PersonAtBrowser.type(page, "Temperature", "25.2");
        assertThat(page.locator("#sync")).containsText("not sent yet");
        page.evaluate("() => { Blob.prototype.arrayBuffer = () => new Promise(() => {}); }");
        page.locator("input[type=file]").setInputFiles(new FilePayload("tank.png", "image/png", PICTURE));
        assertThat(page.locator("[data-tab=photos] img")).hasCount(1);
        assertThat(page.locator("[data-tab=photos]")).not().containsText("saved");
        assertThat(page.locator("#sync")).containsText("Not saved yet: Photos");
        page.close();

        page = tablet.newPage();
        page.navigate("/visits/" + stop.visit());
        assertThat(page.locator("[data-tab=photos] img")).hasCount(0);
        assertThat(page.getByLabel("Temperature", new Page.GetByLabelOptions().setExact(true)))
                .hasValue("25.2");
        tablet.setOffline(false);
        page.reload();
        PersonAtBrowser.allIsSaved(page);
        Assertions.assertThat(temperatures()).containsExactly("25.2");
        Assertions.assertThat(visits.require(VisitId.of(stop.visit())).photos()).isEmpty();
    }

    /** Before, it is said that it may happen; after, that the store is new, and which visits are not finished. */
    @Test
    void saysWhenTheBrowserTookItsStoreBack() {
        tablet.setOffline(true);
        PersonAtBrowser.type(page, "Temperature", "25.3");
        assertThat(page.locator("#sync")).containsText("not sent yet");
        page.addInitScript("navigator.storage.persist = navigator.storage.persisted = () => Promise.resolve(false);");
        page.navigate("/day");
        assertThat(page.locator("#device")).containsText("may throw away what is not sent");
        assertThat(page.locator("#sync")).containsText("since 09:00");

        CDPSession session = tablet.newCDPSession(page);
        JsonObject all = new JsonObject();
        all.addProperty("origin", "http://localhost:" + port);
        all.addProperty("storageTypes", "indexeddb");
        session.send("Storage.clearDataForOrigin", all);
        tablet.setOffline(false);
        clock.advance(Duration.ofHours(1));
        tablet.clock().setFixedTime(Date.from(clock.instant()));
        page.navigate("/day");
        assertThat(page.locator("#device")).containsText("Its store was begun at 10:00");
        assertThat(page.locator(
                        "li", new Page.LocatorOptions().setHas(page.locator("a[href='/visits/" + stop.visit() + "']"))))
                .containsText("Begun 09:00");
    }

    @Test
    void sends200EntriesAfterAWeekInTheirOrder() {
        tablet.setOffline(true);
        page.evaluate("""
                async visit => {
                  const { enqueue } = await import("/js/tablet/store.js");
                  for (let n = 0; n < 200; n++) {
                    await new Promise((kept) => {
                      enqueue("visit.note", visit, { line: `note-${n}`, text: `Note ${n}` }, null, (step) => step === "kept" && kept());
                    });
                  }
                }
                """, stop.visit().toString());
        clock.advance(Duration.ofDays(7));
        tablet.clock().setFixedTime(Date.from(clock.instant()));
        page.reload();
        assertThat(page.locator("#sync")).containsText("200 entries");
        tablet.setOffline(false);
        page.reload();
        assertThat(page.locator("#sync"))
                .containsText(
                        "Everything on this page is saved",
                        new LocatorAssertions.ContainsTextOptions().setTimeout(60_000));
        List<VisitView.Note> notes = visits.require(VisitId.of(stop.visit())).notes();
        Assertions.assertThat(notes).hasSize(200);
        Assertions.assertThat(notes).extracting(VisitView.Note::at).isSorted();
        Assertions.assertThat(notes.getFirst().at())
                .isBetween(TestClock.START.minusSeconds(60), TestClock.START.plusSeconds(60));
    }

    /** Newer pages are taken by a tap, also without a signal, and never throw away what was entered. */
    @Test
    void takesNewerPagesWithoutASignalAndKeepsWhatWasEntered() {
        tablet.setOffline(true);
        PersonAtBrowser.type(page, "Temperature", "25.4");
        assertThat(page.locator("#sync")).containsText("not sent yet");
        tablet.setOffline(false);
        tablet.route("**/api/**", Route::abort);
        giveOutNewerPages();
        page.evaluate("() => navigator.serviceWorker.getRegistration().then((each) => each.update())");
        assertThat(page.locator("main")).containsText("The program has newer pages");
        tablet.setOffline(true);
        PersonAtBrowser.press(page, "Use them now");
        page.waitForFunction("() => caches.keys().then((names) => names.join() === 'tankround-newer')");
        assertThat(page.getByLabel("Temperature", new Page.GetByLabelOptions().setExact(true)))
                .hasValue("25.4");
        tablet.unroute("**/api/**");
        tablet.setOffline(false);
        page.reload();
        PersonAtBrowser.allIsSaved(page);
        Assertions.assertThat(temperatures()).containsExactly("25.4");
    }

    /** As an update of the program does, whose files are others. */
    private void giveOutNewerPages() {
        String script = (String) page.evaluate("async () => (await fetch('/sw.js')).text()");
        ReflectionTestUtils.setField(
                worker, "script", Optional.of(script.replaceFirst("BUILD = \"[^\"]+\"", "BUILD = \"newer\"")));
    }

    /** The program was updated while the tablet was away, and the day that it took along says less than its pages know. */
    @Test
    void showsADayThatAnOlderProgramGaveAndTakesEntries() throws IOException {
        tablet.setOffline(true);
        page.evaluate("""
                async shape => {
                  const { openDB } = await import("/js/lib/idb/index.js");
                  const database = await openDB("tankround");
                  const asItWas = (value, shape) => {
                    if (Array.isArray(value)) {
                      return value.map((each) => asItWas(each, shape?.[0]));
                    }
                    if (value === null || typeof value !== "object" || shape === "any") {
                      return value;
                    }
                    return Object.fromEntries(Object.entries(value).filter(([name]) => name in shape).map(([name, each]) => [name, asItWas(each, shape[name])]));
                  };
                  for (const day of await database.getAll("days")) {
                    await database.put("days", { ...day, bundle: asItWas(day.bundle, JSON.parse(shape)) });
                  }
                }
                """, shape());
        page.reload();
        PersonAtBrowser.type(page, "Temperature", "25.5");
        assertThat(page.locator("#sync")).containsText("not sent yet");
        page.reload();
        assertThat(page.getByLabel("Temperature", new Page.GetByLabelOptions().setExact(true)))
                .hasValue("25.5");
        tablet.setOffline(false);
        page.reload();
        PersonAtBrowser.allIsSaved(page);
        Assertions.assertThat(temperatures()).containsExactly("25.5");
    }

    /** The members that a day had when tablets began to take it along; it is not changed with the program. */
    private static String shape() throws IOException {
        try (var in = TabletFaultsBrowserTests.class.getResourceAsStream("/tablet/first-day.json")) {
            return new String(Objects.requireNonNull(in).readAllBytes(), StandardCharsets.UTF_8);
        }
    }
}
