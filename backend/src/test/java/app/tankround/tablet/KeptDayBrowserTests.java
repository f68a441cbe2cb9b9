package app.tankround.tablet;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;

import app.tankround.accounts.ContainerRegister;
import app.tankround.accounts.ContainerRole;
import app.tankround.accounts.PersonId;
import app.tankround.accounts.Role;
import app.tankround.accounts.WaterContainerId;
import app.tankround.accounts.WaterContainerView;
import app.tankround.loads.LoadLine;
import app.tankround.loads.LoadSheets;
import app.tankround.loads.LoadTick;
import app.tankround.loads.LoadTicks;
import app.tankround.persistence.Uuids;
import app.tankround.plans.Emergency;
import app.tankround.readings.NewReading;
import app.tankround.readings.ReadingId;
import app.tankround.testing.PersonAtBrowser;
import app.tankround.testing.TestClock;
import app.tankround.units.Mass;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.units.Volume;
import app.tankround.web.Entry;
import app.tankround.web.EntryAnswer;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Route;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Date;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import org.assertj.core.api.Assertions;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import tools.jackson.databind.json.JsonMapper;

/** What a tablet shows of the day that it took along, where there is no signal. */
@SpringBootTest(
        webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT,
        properties = "spring.application.name=kept-day")
class KeptDayBrowserTests extends AtATablet {

    private static final String CODE = "Key safe 4711, left of the gate";

    @Autowired
    private EntryInbox inbox;

    @Autowired
    private LoadTicks loadTicks;

    @Autowired
    private LoadSheets sheets;

    @Autowired
    private ContainerRegister containers;

    @Autowired
    private JsonMapper json;

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

    /** The van is loaded in a basement, by two people. */
    @Test
    void ticksTheLoadWithoutASignalBesideSomebodyWhoHasOne() {
        tablet.setOffline(true);
        page.navigate("/rounds/" + stop.round() + "/load");
        Locator socks = line(page, "sock:100");
        Locator water = page.locator("[data-line^='salt-water']").first();
        box(socks).check();
        assertThat(socks).containsText("saved on this device, not sent yet");
        box(water).check();
        PersonAtBrowser.sees(page, "In the van: 2 of", "2 entries are saved on this device");
        Assertions.assertThat(ticks()).isEmpty();
        page.reload();
        assertThat(box(line(page, "sock:100"))).isChecked();
        assertThat(line(page, "sock:100")).containsText("saved on this device, not sent yet");
        PersonAtBrowser.assertAccessible(page);

        // Meanwhile somebody at the van takes the water out again.
        clock.advance(Duration.ofMinutes(5));
        String key =
                String.valueOf(page.locator("[data-line^='salt-water']").first().getAttribute("data-line"));
        PersonId other = people.person(Role.OFFICE);
        Assertions.assertThat(inbox.take(new Entry(
                                Uuids.next(clock.instant()),
                                "load.tick",
                                Optional.of(stop.round().value()),
                                "another device",
                                1,
                                clock.instant().atOffset(ZoneOffset.UTC),
                                Duration.ZERO,
                                Optional.empty(),
                                json.readTree("{\"line\":\"%s\",\"amount\":\"%s\",\"ticked\":false,\"version\":%d}"
                                        .formatted(key, amount(key), version())),
                                other.value()))
                        .status())
                .isEqualTo(EntryAnswer.Status.APPLIED);
        tablet.clock().setFixedTime(Date.from(clock.instant()));
        tablet.setOffline(false);
        PersonAtBrowser.sendNow(page);
        PersonAtBrowser.allIsSaved(page);

        Assertions.assertThat(ticks()).hasSize(3);
        // The later word counts, though the earlier one arrived after it.
        Assertions.assertThat(isTicked("sock:100")).isTrue();
        Assertions.assertThat(isTicked(key)).isFalse();
        assertThat(box(page.locator("[data-line^='salt-water']").first())).not().isChecked();
        PersonAtBrowser.sees(page, "In the van: 1 of", "Test office took it out");
    }

    /** One of three containers that are shown as one is carried in, then the others. */
    @Test
    void ticksContainersThatAreAlikeOneByOneOrTogetherWithoutASignal() {
        var van = sheets.loadSheet(stop.round()).round().van();
        for (String number : List.of("P1", "P2", "P3")) {
            containers.save(new WaterContainerView(
                    WaterContainerId.of(UUID.randomUUID()),
                    number,
                    Optional.of(van.id()),
                    Optional.empty(),
                    ContainerRole.SALT,
                    Volume.ofLitres(5),
                    Mass.ofKilograms(1),
                    true,
                    0,
                    false,
                    0));
        }
        page.waitForResponse(response -> response.url().contains("/api/bundles/"), () -> page.navigate("/day"));
        assertThat(page.locator(".day-stops a[href='/visits/" + stop.visit() + "']"))
                .isVisible();
        tablet.setOffline(true);
        page.navigate("/rounds/" + stop.round() + "/load");
        Locator row = page.locator("tr[data-line*=':P1:']");
        assertThat(row).containsText("Numbers P1");
        row.locator("summary").click();
        row.locator("li label").nth(1).click();
        assertThat(row).containsText("1 of 3 in the van.");
        Assertions.assertThat(row.locator(".tick-only input").evaluate("box => box.indeterminate"))
                .isEqualTo(true);
        PersonAtBrowser.assertAccessible(page);
        row.locator(".tick-only").click();
        assertThat(row.locator(".tick-only input")).isChecked();
        PersonAtBrowser.sees(page, "3 entries are saved on this device");
        page.reload();
        assertThat(row.locator(".tick-only input")).isChecked();
        PersonAtBrowser.sees(page, "In the van: 1 of", "3 entries are saved on this device");
        Assertions.assertThat(ticks()).isEmpty();
        tablet.setOffline(false);
        PersonAtBrowser.sendNow(page);
        PersonAtBrowser.allIsSaved(page);
        Assertions.assertThat(ticks()).hasSize(3).doesNotHaveDuplicates().allMatch(this::isTicked);
        assertThat(row).containsText("Test technician");
    }

    /** What was loaded for another round is loaded anew. */
    @Test
    void saysThatATickWasNotKeptWhereTheRoundWasChangedMeanwhile() {
        tablet.setOffline(true);
        page.navigate("/rounds/" + stop.round() + "/load");
        box(line(page, "sock:100")).check();
        assertThat(line(page, "sock:100")).containsText("saved on this device, not sent yet");
        jdbc.sql("update round set version = version + 1 where id = :id")
                .param("id", stop.round().value())
                .update();
        tablet.setOffline(false);
        PersonAtBrowser.sendNow(page);
        assertThat(line(page, "sock:100")).containsText("That tick was not kept");
        assertThat(box(line(page, "sock:100"))).not().isChecked();
        Assertions.assertThat(ticks()).isEmpty();
        // On the sheet as it is now it can be.
        page.waitForResponse(response -> response.url().contains("/api/bundles/"), () -> page.navigate("/day"));
        assertThat(page.locator(".day-stops a[href='/visits/" + stop.visit() + "']"))
                .isVisible();
        tablet.setOffline(true);
        page.navigate("/rounds/" + stop.round() + "/load");
        box(line(page, "sock:100")).check();
        assertThat(line(page, "sock:100")).containsText("saved on this device, not sent yet");
        tablet.setOffline(false);
        PersonAtBrowser.sendNow(page);
        PersonAtBrowser.allIsSaved(page);
        Assertions.assertThat(ticks()).hasSize(1);
    }

    /** What is not there is entered in the tick itself, and who goes without is told at once: as by the server afterwards. */
    @Test
    void ticksWithWhatIsThereAndSaysWhoGoesWithoutWithoutASignal() {
        fixture.refractometer("1.0266");
        page.waitForResponse(response -> response.url().contains("/api/bundles/"), () -> page.navigate("/day"));
        assertThat(page.locator(".day-stops a[href='/visits/" + stop.visit() + "']"))
                .isVisible();
        tablet.setOffline(true);
        page.navigate("/rounds/" + stop.round() + "/load");
        Locator socks = line(page, "sock:100");
        socks.locator("summary").click();
        PersonAtBrowser.assertAccessible(page);
        tickShort(socks, "two", "");
        assertThat(socks).containsText("as a number");
        tickShort(socks, "99", "");
        assertThat(socks).containsText("as a number");
        assertThat(box(socks)).not().isChecked();
        tickShort(socks, "1", "a pad of floss");
        assertThat(box(socks)).isChecked();
        assertThat(socks).containsText("1 socks missing. Instead: a pad of floss. Goes without: 1 Client of");
        assertThat(socks).containsText("saved on this device");
        String said = socks.locator(".state-signal").innerText();
        page.reload();
        assertThat(socks).containsText(said);
        Assertions.assertThat(ticks()).isEmpty();

        LoadLine deadly = sheets.loadSheet(stop.round()).lines().stream()
                .filter(LoadLine::isSafety)
                .findFirst()
                .orElseThrow();
        Locator instrument = line(page, deadly.key());
        instrument.locator("summary").click();
        tickShort(instrument, deadly.amount().toPlainString(), "");
        assertThat(instrument).containsText("Something could die without it");
        assertThat(box(instrument)).not().isChecked();

        tablet.setOffline(false);
        PersonAtBrowser.sendNow(page);
        PersonAtBrowser.allIsSaved(page);
        LoadTick tick = Objects.requireNonNull(loadTicks.of(stop.round()).get("sock:100"));
        Assertions.assertThat(tick.missing()).isEqualByComparingTo("1");
        Assertions.assertThat(tick.instead()).contains("a pad of floss");
        Assertions.assertThat(ticks()).hasSize(1);
        assertThat(socks).containsText(said);
        assertThat(socks).containsText("Test technician");
    }

    private static void tickShort(Locator line, String missing, String instead) {
        line.locator("input[name=missing]").fill(missing);
        line.locator("input[name=instead]").fill(instead);
        line.locator("button").click();
    }

    private static Locator line(Page page, String key) {
        return page.locator("[data-line='" + key + "']");
    }

    private static Locator box(Locator line) {
        return line.locator("input[type=checkbox]");
    }

    private List<String> ticks() {
        return jdbc.sql("select line from load_tick where round_id = :round")
                .param("round", stop.round().value())
                .query((row, number) -> row.getString("line"))
                .list();
    }

    private boolean isTicked(String key) {
        return Objects.requireNonNull(loadTicks.of(stop.round()).get(key)).ticked();
    }

    private String amount(String key) {
        return sheets.loadSheet(stop.round()).line(key).orElseThrow().amount().toPlainString();
    }

    private int version() {
        return sheets.loadSheet(stop.round()).round().version();
    }

    /** Its clock is two days late; the day of the office counts. */
    @Test
    void asksForTheDayOfTheOfficeWhateverDateTheTabletHas() {
        tablet.clock().setFixedTime(Date.from(TestClock.START.minus(Duration.ofDays(2))));
        page.navigate("/day");
        assertThat(page.locator("#number")).containsText("2 March");
        assertThat(page.locator(".day-stops a[href='/visits/" + stop.visit() + "']"))
                .isVisible();
        tablet.setOffline(true);
        page.reload();
        assertThat(page.locator("#number")).containsText("2 March");
        assertThat(page.locator(".day-stops a[href='/visits/" + stop.visit() + "']"))
                .isVisible();
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
        page.navigate("/day");
        assertThat(page.locator("#sync")).containsText("Nobody is signed in on this device");
        assertThat(page.locator("#sync").getByText("Sign in", new Locator.GetByTextOptions().setExact(true)))
                .hasAttribute("href", "/sign-in");
        PersonAtBrowser.assertAccessible(page);
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

    /** What was kept stands there until the server answers. */
    @Test
    void showsTheDayAnewOnceASlowServerHasAnswered() {
        List<Route> held = new ArrayList<>();
        tablet.route("**/api/bundles/**", held::add);
        page.navigate("/day");
        assertThat(page.locator("#visit")).containsText("Bellwether");
        jdbc.sql("update site set name = 'Renamed at noon' where id = :site")
                .param("site", stop.site().value())
                .update();
        assertThat(page.locator("#sync")).containsText("What is shown is of");
        held.forEach(Route::resume);
        PersonAtBrowser.sees(page, "Renamed at noon");
        tablet.unrouteAll();
        tablet.setOffline(true);
        page.reload();
        PersonAtBrowser.sees(page, "Renamed at noon");
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
