package app.tankround.tablet;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;

import app.tankround.TankroundApplication;
import app.tankround.accounts.Role;
import app.tankround.testing.PersonAtBrowser;
import app.tankround.testing.TestBrowser;
import app.tankround.testing.TestClockConfiguration;
import app.tankround.testing.TestDirectories;
import app.tankround.testing.TestPeople;
import app.tankround.visits.VisitId;
import app.tankround.visits.VisitService;
import app.tankround.visits.VisitView;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Page;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.assertj.core.api.Assertions;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.springframework.boot.builder.SpringApplicationBuilder;
import org.springframework.context.ConfigurableApplicationContext;
import org.springframework.jdbc.core.simple.JdbcClient;

/** The server's disk is gone, and the copy of its directory of yesterday is put back. */
class RestoredBrowserTests {

    private static TestBrowser browser;

    @BeforeAll
    static void openBrowser() {
        browser = TestBrowser.open();
    }

    @AfterAll
    static void closeBrowser() {
        browser.close();
    }

    @Test
    void givesTheServerAgainWhatItsCopyOfYesterdayDoesNotHold() throws Exception {
        Path data = TestDirectories.fresh("restored").resolve("data");
        Path copy = data.resolveSibling("copy");
        int port = freePort();
        try (BrowserContext tablet = browser.person(port, 820, 1180)) {
            Page page = tablet.newPage();
            VisitFixture.Stop stop;
            try (ConfigurableApplicationContext yesterday = server(data, port)) {
                stop = yesterday.getBean(VisitFixture.class).stop();
                page.navigate(yesterday.getBean(TestPeople.class).signInPath(Role.TECHNICIAN));
                page.navigate("/visits/" + stop.visit());
                PersonAtBrowser.press(page, "Start the visit");
                PersonAtBrowser.write(page, "Temperature", "25.1");
            }
            run("cp", "-a", data.toString(), copy.toString());
            try (ConfigurableApplicationContext today = server(data, port)) {
                PersonAtBrowser.write(page, "Out", "40");
                page.locator("[data-tab=photos] input[type=file]").setInputFiles(PersonAtBrowser.photo());
                PersonAtBrowser.allIsSaved(page);
                Assertions.assertThat(kinds(today, stop))
                        .containsExactly("visit.start", "visit.reading", "visit.water-change", "visit.photo");
            }
            run("rm", "-r", data.toString());
            run("cp", "-a", copy.toString(), data.toString());
            try (ConfigurableApplicationContext restored = server(data, port)) {
                Assertions.assertThat(kinds(restored, stop)).containsExactly("visit.start", "visit.reading");
                // Nobody enters anything: it is enough that the page is looked at.
                page.reload();
                page.waitForCondition(() -> kinds(restored, stop).size() == 4);
                PersonAtBrowser.allIsSaved(page);
                assertThat(page.getByLabel("Out", new Page.GetByLabelOptions().setExact(true)))
                        .hasValue("40");
                Assertions.assertThat(kinds(restored, stop))
                        .containsExactly("visit.start", "visit.reading", "visit.water-change", "visit.photo");
                VisitView visit = restored.getBean(VisitService.class).require(VisitId.of(stop.visit()));
                Assertions.assertThat(visit.photos())
                        .singleElement()
                        .satisfies(
                                photo -> Assertions.assertThat(photo.arrived()).isTrue());
                Assertions.assertThat(visit.systems().getFirst().readings()).hasSize(1);
            }
        }
    }

    /** What the visit was told, in the order in which it counts. */
    private static List<String> kinds(ConfigurableApplicationContext server, VisitFixture.Stop stop) {
        return server.getBean(JdbcClient.class)
                .sql("select kind from visit_entry where visit_id = :visit and counts order by number")
                .param("visit", stop.visit())
                .query((row, number) -> row.getString("kind"))
                .list();
    }

    private static ConfigurableApplicationContext server(Path data, int port) {
        return new SpringApplicationBuilder(TankroundApplication.class, TestClockConfiguration.class)
                .run("--tankround.data=" + data, "--server.port=" + port, "--tankround.https.port=0");
    }

    private static int freePort() throws IOException {
        try (var free = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            return free.getLocalPort();
        }
    }

    /** Whoever owns the files goes on owning them. */
    private static void run(String... command) throws IOException, InterruptedException {
        Process process = new ProcessBuilder(command).inheritIO().start();
        Assertions.assertThat(process.waitFor(60, TimeUnit.SECONDS)).isTrue();
        Assertions.assertThat(process.exitValue()).isZero();
    }
}
