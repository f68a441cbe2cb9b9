package app.tankround;

import static app.tankround.testing.PersonAtBrowser.allIsSaved;
import static app.tankround.testing.PersonAtBrowser.answersYes;
import static app.tankround.testing.PersonAtBrowser.assertAccessible;
import static app.tankround.testing.PersonAtBrowser.begin;
import static app.tankround.testing.PersonAtBrowser.csv;
import static app.tankround.testing.PersonAtBrowser.field;
import static app.tankround.testing.PersonAtBrowser.letIn;
import static app.tankround.testing.PersonAtBrowser.pdf;
import static app.tankround.testing.PersonAtBrowser.press;
import static app.tankround.testing.PersonAtBrowser.text;
import static app.tankround.testing.PersonAtBrowser.type;
import static app.tankround.testing.PersonAtBrowser.write;
import static app.tankround.testing.PersonAtBrowser.zip;
import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.persistence.DataDirectory;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBrowser;
import app.tankround.testing.TestClock;
import com.microsoft.playwright.APIResponse;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import com.microsoft.playwright.options.FilePayload;
import com.microsoft.playwright.options.SelectOption;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.time.Duration;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.web.server.LocalServerPort;

/**
 * One day of a small business, from an empty installation to the text of the client's PDF, by what people see and press.
 * Every figure is worked out by hand beside its check. A property of its own gives the test an empty database.
 */
@SpringBootTest(
        webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT,
        properties = "tankround.test.whole-line=true")
@IntegrationTest
class WholeLineBrowserTests {

    private static final List<String> FILES = List.of(
            "clients",
            "contacts",
            "sites",
            "vans",
            "systems",
            "tanks",
            "equipment",
            "livestock",
            "targets",
            "instruments",
            "standards",
            "calibrations",
            "agreements");

    @Autowired
    private DataDirectory dataDirectory;

    @Autowired
    private TestClock clock;

    @LocalServerPort
    private int port;

    private TestBrowser browser;
    private BrowserContext office;
    private BrowserContext van;

    @BeforeEach
    void openBrowsers() {
        browser = TestBrowser.open();
        office = browser.person(port, 1280, 800);
        van = browser.person(port, 820, 1180);
    }

    @AfterEach
    void closeBrowsers() {
        browser.close();
    }

    @Test
    void livesADayFromAnEmptyInstallationToTheTextOfTheReport() throws IOException {
        Page owner = office.newPage();
        setUpTheBusiness(owner);
        importTheFiles(owner);
        String technicianLink = letIn(owner, "mara");
        String roundPath = putTheStopOnTheVan(owner);

        Page technician = van.newPage();
        technician.navigate(technicianLink);
        loadTheVan(technician, roundPath);
        String visitPath = doTheVisit(technician, roundPath);
        checkTheRefractometer(technician);
        seeThatTheReadingIsInDoubt(technician, visitPath);
        finishTheVisit(technician);
        readTheReport(owner, visitPath);
        seeWhatTheOwnerSees(owner);
    }

    private void setUpTheBusiness(Page owner) throws IOException {
        String link = Files.readString(dataDirectory.path().resolve("sign-in-links.txt"))
                .strip();
        // Written before the test server knew its port.
        owner.navigate(link.substring(link.indexOf("/first-owner/")));
        assertAccessible(owner);
        begin(owner);
        assertThat(owner.locator("h1")).containsText("2 March 2026");
    }

    private void importTheFiles(Page owner) throws IOException {
        owner.navigate("/imports");
        owner.getByLabel("Zip or CSV file")
                .setInputFiles(new FilePayload("corran.zip", "application/zip", zip("line", FILES)));
        press(owner, "Import");
        assertAccessible(owner);
        // 1 client, 1 contact, 2 sites, 1 van, 1 system, 1 tank, 1 device, 1 kind of animal, 2 targets, 2 instruments,
        // 1 standard, 1 check and 4 tasks of 1 agreement: 19 rows.
        assertThat(owner.getByText("19 new, 0 changed, 0 as they were.")).isVisible();

        APIResponse exported = office.request().get("/api/exports/business.zip");
        Map<String, String> files = unzip(exported.body());
        for (String file : FILES) {
            assertThat(files.get(file + ".csv")).as(file).isEqualTo(csv("line", file));
        }
    }

    private String putTheStopOnTheVan(Page owner) {
        owner.navigate("/rounds?date=2026-03-02");
        assertThat(owner.locator("main")).containsText("Gannet House");
        owner.locator("input[name=sites]").check();
        owner.locator("select[name=van]").selectOption(new SelectOption().setLabel("Blue van"));
        press(owner, "Put these on");
        owner.navigate("/rounds?date=2026-03-02");
        String path = Objects.requireNonNull(
                owner.locator("main a[href^='/rounds/0']").first().getAttribute("href"));
        owner.navigate(path);
        // 0.01 degrees of latitude are 6371.0088 km x pi / 180 / 100 = 1.11195 km; times 1.3 is 1.4455 km, there and
        // back 2.891 km; at 35 km/h one leg takes 149 s, both 5 min, so leaving at 07:30 the van is there at 07:32 and
        // waits for 08:00.
        assertThat(owner.locator("main")).containsText("2.9 km, 5 min driving");
        assertAccessible(owner);
        assertThat(owner.locator("main")).containsText("08:00");
        return path;
    }

    private void loadTheVan(Page technician, String roundPath) {
        technician.navigate(roundPath + "/load");
        String sheet = text(technician);
        // A tenth of 400 L is 40 L of salt water at the middle of S 30 to 36: one drum of 25 L and one of 15 L.
        assertThat(sheet).contains("40 L");
        // Density of S 33 at 25 C is 1.02486 (25/25, SG-33-25/25) x 997.048 = 1021.83 kg/m3: 40 L weigh 40.9 kg; with
        // two
        // drums of 1.2 kg 43.3 kg. The full drum is 25 x 1.02183 + 1.2 = 26.7 kg, the other 15 x 1.02183 + 1.2 = 16.5
        // kg.
        assertThat(sheet).contains("43.3 kg", "26.7 kg", "16.5 kg");
        assertThat(sheet).contains("of 650 kg");
        assertThat(sheet).contains("100 × 400 mm, 200 µm");
        for (Locator tick :
                technician.locator(".cell-tick input[type=checkbox]").all()) {
            tick.check();
        }
        assertThat(technician.locator("main")).containsText("6 of 6 lines");
        assertAccessible(technician);
        technician.reload();
        for (Locator tick :
                technician.locator(".cell-tick input[type=checkbox]").all()) {
            assertThat(tick).isChecked();
        }
    }

    private String doTheVisit(Page technician, String roundPath) {
        technician.navigate(roundPath);
        technician
                .getByRole(AriaRole.LINK, new Page.GetByRoleOptions().setName("Start this visit"))
                .first()
                .click();
        press(technician, "Start the visit");
        technician.getByLabel("Yes, at the mark").check();
        String path = URI.create(technician.url()).getPath();

        write(technician, "Temperature", "25.1");
        write(technician, "Salinity", "1.025");
        // Five weeks after a good check 1.025 at 20/20 is S 32.9 (reference table 4): inside 30 to 36.
        assertThat(field(technician, "Salinity")).containsText("Inside");

        type(technician, "Out", "40");
        type(technician, "In, if it differs from out", "40");
        for (Locator task : technician
                .locator("[data-tab=work] .ticks input[type=checkbox]")
                .all()) {
            task.check();
        }
        type(technician, "100 × 400 mm, 200 µm", "2");
        allIsSaved(technician);
        return path;
    }

    /** A standard of S 35 shows 1.0266 at 20/20; this instrument shows 1.0186 in it, so it reads 0.008 low. */
    private void checkTheRefractometer(Page technician) {
        clock.advance(Duration.ofMinutes(20));
        technician.navigate("/instruments");
        technician
                .getByRole(AriaRole.LINK, new Page.GetByRoleOptions().setName("R-1"))
                .first()
                .click();
        technician.locator("a[href*='/checks/new']").first().click();
        technician.locator("select[name='points[0].standardId']").selectOption(new SelectOption().setIndex(1));
        technician.locator("input[name='points[0].asFound[0].value']").fill("1.0186");
        technician.locator("input[name='points[0].temperature']").fill("20");
        press(technician, "Save");
        if (technician.locator("input[name=farOffConfirmed]").count() > 0) {
            technician.locator("input[name=farOffConfirmed]").check(new Locator.CheckOptions().setForce(true));
            press(technician, "Save");
        }
        assertThat(technician.locator("main")).containsText("0.008");
        assertAccessible(technician);
    }

    private void seeThatTheReadingIsInDoubt(Page technician, String visitPath) {
        technician.navigate(visitPath);
        Locator salinity = field(technician, "Salinity");
        assertThat(salinity).containsText("In doubt");
        // 1.025 + 0.008 = 1.033, beyond S 42 of EOS-80
        assertThat(salinity).containsText("1.033");
        assertThat(salinity).containsText("Do not correct it in one visit");
        assertAccessible(technician);
    }

    private void finishTheVisit(Page technician) {
        press(technician, "Finish the visit");
        assertThat(technician.locator("[data-tab=finish] .field-error")).containsText("Top-off is back on");
        answersYes(technician);
        allIsSaved(technician);
        press(technician, "Finish the visit");
        assertThat(technician.locator("[data-tab=finish]")).containsText("This visit was finished");
        allIsSaved(technician);
    }

    private void readTheReport(Page owner, String visitPath) throws IOException {
        owner.navigate(visitPath + "/report");
        press(owner, "Make");
        assertAccessible(owner);
        assertThat(pdf(office, visitPath + "/report.pdf"))
                .contains("Corran Water Care", "Gannet House", "Lobby tank", "Temperature", "25.1", "Changed 40 L")
                // What was read never stands alone: the real value and the word are beside it.
                .contains("Not trusted", "1.025 SG 20/20", "1.033 SG 20/20");
    }

    private void seeWhatTheOwnerSees(Page owner) {
        owner.navigate("/");
        assertThat(owner.locator("main")).containsText("R-1");
        assertAccessible(owner);
        // The instrument stands there once, for all that was read by it.
        owner.locator("main a[href^='/health?instrument=']").first().click();
        assertThat(owner.locator("main")).containsText("Lobby tank");
        assertAccessible(owner);
        for (String path : List.of(
                "/clients",
                "/systems",
                "/agreements",
                "/stock",
                "/vans",
                "/people",
                "/settings",
                "/target-presets",
                "/target-presets/REEF",
                "/account",
                "/bench",
                "/bench/seawater-density")) {
            owner.navigate(path);
            assertAccessible(owner);
        }
        owner.navigate("/billing/month?month=2026-03");
        assertThat(owner.locator("main")).containsText("Gannet House Hotel");
        assertThat(owner.locator("main")).containsText("85.00");
    }

    private static Map<String, String> unzip(byte[] bytes) throws IOException {
        var files = new LinkedHashMap<String, String>();
        try (var zip = new ZipInputStream(new ByteArrayInputStream(bytes))) {
            for (ZipEntry entry = zip.getNextEntry(); entry != null; entry = zip.getNextEntry()) {
                files.put(entry.getName(), new String(zip.readAllBytes(), StandardCharsets.UTF_8));
            }
        }
        return files;
    }
}
