package app.tankround.network;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import app.tankround.accounts.Role;
import app.tankround.persistence.StartFailure;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestPeople;
import java.net.http.HttpResponse;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.web.server.LocalServerPort;

/** Behind a reverse proxy of this machine, which was named. */
@SpringBootTest(
        webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT,
        properties = "tankround.proxies=127.0.0.1, ::1")
@IntegrationTest
class ProxyIntegrationTests {

    @Autowired
    private TestPeople people;

    @LocalServerPort
    private int port;

    @Test
    void believesANamedProxyThatTookHttps() throws Exception {
        try (Visitor proxy = Visitor.trustingNobody()) {
            HttpResponse<String> answer = proxy.get(
                    address(people.signInPath(Role.OWNER)),
                    "X-Forwarded-Proto",
                    "https",
                    "X-Forwarded-For",
                    "203.0.113.9",
                    "X-Forwarded-Host",
                    "water.example",
                    "X-Forwarded-Port",
                    "443");

            assertThat(answer.statusCode()).isEqualTo(302);
            assertThat(answer.headers().firstValue("Location")).contains("https://water.example/");
            assertThat(Visitor.cookie(answer))
                    .startsWith("__Host-tankround-session=")
                    .contains("Secure");
        }
    }

    @Test
    void takesNothingFromAProxyThatTookPlainHttp() throws Exception {
        try (Visitor proxy = Visitor.trustingNobody()) {
            for (String protocol : new String[] {"http", "https,http"}) {
                HttpResponse<String> answer = proxy.get(address("/sign-in"), "X-Forwarded-Proto", protocol);
                assertThat(answer.statusCode()).isEqualTo(403);
                assertThat(answer.body()).contains("127.0.0.1", "X-Forwarded-Proto: https");
            }
            assertThat(proxy.get(address("/sign-in"), "X-Forwarded-For", "203.0.113.9")
                            .statusCode())
                    .isEqualTo(403);
        }
    }

    @Test
    void answersTheMachineItselfAsBefore() throws Exception {
        try (Visitor here = Visitor.trustingNobody()) {
            assertThat(here.get(address("/sign-in")).statusCode()).isEqualTo(200);
        }
    }

    @Test
    void takesAddressesOnly() {
        assertThat(NamedProxies.of("").addresses()).isEmpty();
        assertThatExceptionOfType(StartFailure.class)
                .isThrownBy(() -> NamedProxies.of("192.168.1.2, proxy.example"))
                .withMessage("tankround.proxies names “proxy.example”, which is no IP address.");
    }

    private String address(String path) {
        return "http://127.0.0.1:" + port + path;
    }
}
