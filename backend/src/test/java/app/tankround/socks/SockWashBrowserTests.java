package app.tankround.socks;

import app.tankround.accounts.Role;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.PersonAtBrowser;
import app.tankround.testing.TestBrowser;
import app.tankround.testing.TestPeople;
import com.microsoft.playwright.Browser;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Response;
import com.microsoft.playwright.options.ColorScheme;
import java.util.List;
import java.util.Objects;
import org.assertj.core.api.Assertions;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.web.server.LocalServerPort;

/** The pages of the wash in a real browser, before anything is dirty. */
@SpringBootTest(webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT)
@IntegrationTest
class SockWashBrowserTests {

    private static @Nullable TestBrowser browser;

    @Autowired
    private TestPeople people;

    @LocalServerPort
    private int port;

    @BeforeAll
    static void openBrowser() {
        browser = TestBrowser.open();
    }

    @AfterAll
    static void closeBrowser() {
        Objects.requireNonNull(browser).close();
    }

    @ParameterizedTest
    @CsvSource({"1280,LIGHT", "820,DARK", "360,LIGHT"})
    void areReadByEverybody(int width, ColorScheme scheme) {
        try (BrowserContext context = Objects.requireNonNull(browser)
                .browser()
                .newContext(new Browser.NewContextOptions()
                        .setBaseURL("http://127.0.0.1:" + port)
                        .setViewportSize(width, 900)
                        .setColorScheme(scheme))) {
            Page page = context.newPage();
            page.navigate(people.signInPath(Role.OFFICE));
            for (String path : List.of("/socks/wash", "/socks/wash/start", "/socks/wash/out", "/socks/wash/tags")) {
                Response response = page.navigate(path);
                Assertions.assertThat(response.status()).as(path).isEqualTo(200);
                PersonAtBrowser.assertAccessible(page);
            }
        }
    }
}
