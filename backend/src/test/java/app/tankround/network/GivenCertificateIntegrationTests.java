package app.tankround.network;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestDirectories;
import java.io.IOException;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.security.cert.X509Certificate;
import java.time.Clock;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.test.context.DynamicPropertyRegistry;
import org.springframework.test.context.DynamicPropertySource;

/** The running program with a certificate that an authority elsewhere made, and that somebody else renews. */
@SpringBootTest(webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT)
@IntegrationTest
class GivenCertificateIntegrationTests {

    private static final Path FILE = TestDirectories.fresh("given").resolve("both.pem");
    private static final Identity ELSEWHERE = Issuing.authority(
            MachineNames.of("elsewhere", List.of()), Clock.systemUTC().instant());

    @Autowired
    private HttpsConnector https;

    @LocalServerPort
    private int port;

    @DynamicPropertySource
    static void files(DynamicPropertyRegistry properties) throws IOException {
        renew();
        properties.add("tankround.https.certificate", FILE::toString);
        properties.add("tankround.https.private-key", FILE::toString);
    }

    @BeforeEach
    void begin() {
        https.follow();
    }

    @Test
    void provesItselfWithTheGivenFilesAndTakesNewOnesWhileItRuns() throws Exception {
        String page = "https://localhost:" + https.port() + "/sign-in";
        byte[] authority = ELSEWHERE.certificate().getEncoded();
        try (Visitor before = Visitor.trusting(authority);
                Visitor after = Visitor.trusting(authority)) {
            X509Certificate shown = shownTo(before, page);
            renew();
            https.follow();

            assertThat(shownTo(after, page)).isNotEqualTo(shown);
            assertThat(before.get(page).statusCode())
                    .as("over the open connection")
                    .isEqualTo(200);
        }
    }

    @Test
    void hasNothingToInstall() throws Exception {
        try (Visitor office = Visitor.trustingNobody()) {
            HttpResponse<String> page = office.get("http://localhost:" + port + "/connect");

            assertThat(page.body())
                    .contains("There is nothing to install", "https://office.local:" + https.port() + "/")
                    .doesNotContain("Install the authority", "fingerprint");
            assertThat(office.get("http://localhost:" + port + "/connect/tankround-authority.crt")
                            .statusCode())
                    .isEqualTo(404);
        }
    }

    private static X509Certificate shownTo(Visitor visitor, String page) throws Exception {
        HttpResponse<String> answer = visitor.get(page);
        assertThat(answer.statusCode()).isEqualTo(200);
        return (X509Certificate) answer.sslSession().orElseThrow().getPeerCertificates()[0];
    }

    private static void renew() throws IOException {
        PemFile.write(
                FILE,
                Issuing.server(
                        ELSEWHERE,
                        List.of("office.local", "localhost"),
                        List.of(),
                        Clock.systemUTC().instant()));
    }
}
