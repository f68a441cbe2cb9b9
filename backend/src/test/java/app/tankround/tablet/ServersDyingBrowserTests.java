package app.tankround.tablet;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;

import app.tankround.TankroundApplication;
import app.tankround.testing.ChildJvm;
import app.tankround.testing.PersonAtBrowser;
import app.tankround.testing.TestDirectories;
import app.tankround.testing.TestPostgres;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.assertions.LocatorAssertions;
import com.microsoft.playwright.options.Cookie;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.assertj.core.api.Assertions;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Value;

/** Servers and databases that die while an entry is being taken in, and several servers at once: one effect, nothing lost. */
class ServersDyingBrowserTests extends AtATablet {

    private static final int COPIES = 20;

    @Value("${spring.datasource.url}")
    private String url;

    @Value("${spring.datasource.username}")
    private String username;

    @Value("${spring.datasource.password}")
    private String password;

    @Override
    BrowserContext newTablet() {
        return browser.person(port, 820, 1180);
    }

    @Test
    void takesAnEntryInOnceWhenTheServerIsKilledInTheMiddle() throws Exception {
        int other = freePort();
        try (Connection connection = DriverManager.getConnection(url, username, password)) {
            try (ChildJvm server = another(other)) {
                begin("http://localhost:" + other);
                holdUp(connection);
                PersonAtBrowser.type(page, "Temperature", "25.1");
                awaitHeldUp();
                ChildJvm.signal("KILL", server.pid());
                assertThat(page.locator("#sync")).containsText("The program cannot be reached");
                connection.rollback();
            }
            Assertions.assertThat(temperatures()).isEmpty();
            try (ChildJvm server = another(other)) {
                PersonAtBrowser.sendNow(page);
                PersonAtBrowser.allIsSaved(page);
                Assertions.assertThat(server.pid()).isPositive();
            }
        }
        Assertions.assertThat(temperatures()).containsExactly("25.1");
    }

    /** As when the power fails: what was not committed is gone, what was acknowledged is there. */
    @Test
    void takesAnEntryInOnceWhenTheDatabaseDiesInTheMiddle() throws Exception {
        begin("");
        PersonAtBrowser.write(page, "Out", "40");
        try (Connection connection = DriverManager.getConnection(url, username, password)) {
            holdUp(connection);
            PersonAtBrowser.type(page, "Temperature", "25.2");
            awaitHeldUp();
            TestPostgres.shared().crash();
            // It waits for the database first, as long as it may.
            assertThat(page.locator("#sync"))
                    .containsText(
                            "The program cannot be reached",
                            new LocatorAssertions.ContainsTextOptions().setTimeout(30_000));
        }
        PersonAtBrowser.sendNow(page);
        PersonAtBrowser.allIsSaved(page);
        Assertions.assertThat(temperatures()).containsExactly("25.2");
        Assertions.assertThat(inbox()).containsExactly("visit.start", "visit.water-change", "visit.reading");
    }

    @Test
    void takesFortyCopiesOverTwoServersInOnce() throws Exception {
        begin("");
        int other = freePort();
        try (ChildJvm server = another(other);
                BrowserContext elsewhere = browser.person(other, 820, 1180)) {
            elsewhere.addCookies(tablet.cookies().stream()
                    .map(cookie -> new Cookie(cookie.name, cookie.value)
                            .setUrl("http://localhost:" + other)
                            .setSecure(cookie.secure)
                            .setHttpOnly(cookie.httpOnly))
                    .toList());
            Page there = elsewhere.newPage();
            there.navigate("/visits/" + stop.visit());
            Assertions.assertThat(server.pid()).isPositive();
            Object entry = page.evaluate("""
                    visit => ({
                      id: "0195fb1e-0000-7000-8000-" + String(Math.random()).slice(2, 14).padEnd(12, "0"),
                      kind: "visit.note", subject: visit, device: "copied", sequence: 1,
                      deviceTime: new Date().toISOString(), base: null, body: { line: "copied", text: "Once" },
                    })
                    """, stop.visit().toString());
            String copies = """
                    async ([entry, copies]) => {
                      const { csrf } = await (await fetch("/api/session")).json();
                      const send = () => fetch("/api/entries", {
                        method: "POST",
                        headers: { "Content-Type": "application/json", [csrf.headerName]: csrf.token },
                        body: JSON.stringify({ entries: [entry] }),
                      }).then((answer) => answer.json());
                      globalThis.said = Promise.all(Array.from({ length: copies }, send))
                        .then((all) => all.map((each) => JSON.stringify(each.results)));
                    }
                    """;
            page.evaluate(copies, List.of(entry, COPIES));
            there.evaluate(copies, List.of(entry, COPIES));
            Set<Object> answers = new TreeSet<>();
            for (Page each : List.of(page, there)) {
                List<?> said = (List<?>) each.evaluate("() => globalThis.said");
                Assertions.assertThat(said).hasSize(COPIES);
                answers.addAll(said);
            }
            Assertions.assertThat(answers).singleElement().asString().contains("\"status\":\"applied\"");
        }
        Assertions.assertThat(inbox()).containsExactlyInAnyOrder("visit.start", "visit.note");
        Assertions.assertThat(
                        jdbc.sql("select count(*) from visit_entry where visit_id = :visit and kind = 'visit.note'")
                                .param("visit", stop.visit())
                                .query(Long.class)
                                .single())
                .isEqualTo(1);
    }

    /** Whoever writes a reading waits from here on, with half of its transaction done. */
    private static void holdUp(Connection connection) throws SQLException {
        connection.setAutoCommit(false);
        try (var statement = connection.createStatement()) {
            statement.execute("lock table visit_entry in exclusive mode");
        }
    }

    private void awaitHeldUp() {
        page.waitForCondition(() -> jdbc.sql("select exists (select 1 from pg_locks where not granted)")
                .query(Boolean.class)
                .single());
    }

    /** Another server of the same business. */
    private ChildJvm another(int at) throws IOException {
        ChildJvm server = ChildJvm.ofProgram(
                TankroundApplication.class,
                Map.of(
                        "SERVER_PORT",
                        String.valueOf(at),
                        "TANKROUND_HTTPS_PORT",
                        "0",
                        "TANKROUND_DATA",
                        TestDirectories.fresh("another").toString(),
                        "SPRING_DATASOURCE_URL",
                        url,
                        "SPRING_DATASOURCE_USERNAME",
                        username,
                        "SPRING_DATASOURCE_PASSWORD",
                        password));
        server.await(line -> line.contains("Tankround is ready at"));
        return server;
    }

    private static int freePort() throws IOException {
        try (var free = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            return free.getLocalPort();
        }
    }
}
