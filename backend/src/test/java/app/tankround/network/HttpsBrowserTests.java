package app.tankround.network;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;

import app.tankround.accounts.Role;
import app.tankround.persistence.Sha256;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.PersonAtBrowser;
import app.tankround.testing.TestBrowser;
import app.tankround.testing.TestPeople;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.PlaywrightException;
import com.microsoft.playwright.options.Cookie;
import java.util.Base64;
import java.util.List;
import org.assertj.core.api.Assertions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.web.server.LocalServerPort;

/** What a browser makes of the certificate, the cookie and the page with which a tablet begins. */
@SpringBootTest(webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT)
@IntegrationTest
class HttpsBrowserTests {

    @Autowired
    private HttpsConnector https;

    @Autowired
    private CertificateSource certificates;

    @Autowired
    private TestPeople people;

    @LocalServerPort
    private int port;

    @Test
    void keepsTheCookieAndRunsAServiceWorkerWhereTheCertificateIsTrusted() {
        try (TestBrowser browser = TestBrowser.openTrusting(keyOfServer());
                BrowserContext tablet = browser.keepingPages(secure(), 820, 1180)) {
            Page page = tablet.newPage();
            page.navigate(people.signInPath(Role.TECHNICIAN));
            assertThat(page).hasURL(secure() + "/rounds");

            List<Cookie> cookies = tablet.cookies();
            Assertions.assertThat(cookies).singleElement().satisfies(cookie -> {
                Assertions.assertThat(cookie.name).isEqualTo("__Host-tankround-session");
                Assertions.assertThat(cookie.secure).isTrue();
                Assertions.assertThat(cookie.httpOnly).isTrue();
            });
            Assertions.assertThat(page.evaluate("isSecureContext")).isEqualTo(true);
            page.evaluate("""
                    async () => {
                      const registration = await navigator.serviceWorker.register("/js/network/worker-of-tests.js");
                      const worker = registration.installing ?? registration.waiting ?? registration.active;
                      if (worker.state !== "activated") {
                        await new Promise((done) => worker.addEventListener("statechange", () => {
                          if (worker.state === "activated") done();
                        }));
                      }
                    }""");
            page.navigate("/js/network/from-the-worker");
            assertThat(page.locator("body")).hasText("answered by the worker");
        }
    }

    @Test
    void refusesTheCertificateWhereNobodyInstalledTheAuthority() {
        try (TestBrowser browser = TestBrowser.open();
                BrowserContext tablet = browser.person(secure(), 820, 1180)) {
            Page page = tablet.newPage();
            Assertions.assertThatExceptionOfType(PlaywrightException.class)
                    .isThrownBy(() -> page.navigate("/sign-in"))
                    .withMessageContaining("ERR_CERT_AUTHORITY_INVALID");
        }
    }

    @ParameterizedTest
    @CsvSource({"1280, 800", "820, 1180", "360, 740"})
    void tellsEverybodyHowToConnectADevice(int width, int height) {
        try (TestBrowser browser = TestBrowser.open();
                BrowserContext office = browser.person(port, width, height)) {
            Page page = office.newPage();
            page.navigate("/connect");

            PersonAtBrowser.sees(page, "Begin at the device", "Install the authority", "Compare the fingerprint");
            Assertions.assertThat(page.evaluate("document.querySelector('.camera-code').naturalWidth > 0"))
                    .isEqualTo(true);
            page.getByText("Android", new Page.GetByTextOptions().setExact(true))
                    .click();
            PersonAtBrowser.sees(page, "CA certificate");
            PersonAtBrowser.assertAccessible(page);
        }
    }

    private String secure() {
        return "https://localhost:" + https.port();
    }

    private String keyOfServer() {
        return Base64.getEncoder()
                .encodeToString(Sha256.of(
                        certificates.current().certificate().getPublicKey().getEncoded()));
    }
}
