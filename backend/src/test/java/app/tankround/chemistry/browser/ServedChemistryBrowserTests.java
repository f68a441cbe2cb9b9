package app.tankround.chemistry.browser;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import app.tankround.chemistry.SalinityVerdictRule;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBrowser;
import com.microsoft.playwright.Page;
import org.junit.jupiter.api.Test;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.web.server.LocalServerPort;

/** The compiled module as the running program serves it, under the program's own Content-Security-Policy. */
@SpringBootTest(webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT)
@IntegrationTest
class ServedChemistryBrowserTests {

    @LocalServerPort
    private int port;

    @Test
    void isImportedByAPageOfTheProgram() {
        try (TestBrowser browser = TestBrowser.open()) {
            Page page = browser.browser().newPage();
            var response = page.navigate("http://localhost:" + port + "/sign-in");
            assertThat(response.headerValue("content-security-policy")).contains("script-src 'self'");

            assertThat(page.evaluate("import('/js/chemistry/chemistry.js').then(chemistry => chemistry.ruleVersion())"))
                    .isEqualTo(SalinityVerdictRule.RULE_VERSION);
            // UNESCO Technical Papers in Marine Science 44 (1983), p. 19: S 35 at 25 degrees of IPTS-68 is 1023.34306
            // kg/m3; at 25 of ITS-90 it is 1023.3412.
            Object density = page.evaluate("""
                    import('/js/chemistry/chemistry.js').then(chemistry => {
                        const answer = chemistry.density(35, 25);
                        return typeof answer === 'number' ? answer : answer.value;
                    })""");
            assertThat(((Number) density).doubleValue()).isCloseTo(1023.3412, within(0.0002));
        }
    }

    @Test
    void runsNoScriptThatDoesNotComeFromTheProgram() {
        try (TestBrowser browser = TestBrowser.open()) {
            Page page = browser.browser().newPage();
            page.navigate("http://localhost:" + port + "/sign-in");

            Object ran = page.evaluate("""
                    () => new Promise(resolve => {
                        const script = document.createElement('script');
                        script.textContent = 'window.intruder = true';
                        document.body.append(script);
                        setTimeout(() => resolve(window.intruder === true), 100);
                    })""");

            assertThat(ran).isEqualTo(false);
        }
    }
}
