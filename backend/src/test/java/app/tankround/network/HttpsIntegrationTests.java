package app.tankround.network;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import app.tankround.accounts.Role;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestClock;
import app.tankround.testing.TestPeople;
import java.io.IOException;
import java.net.Inet6Address;
import java.net.InetAddress;
import java.net.NetworkInterface;
import java.net.Socket;
import java.net.SocketException;
import java.net.http.HttpResponse;
import java.security.GeneralSecurityException;
import java.security.MessageDigest;
import java.security.cert.X509Certificate;
import java.time.Clock;
import java.util.HexFormat;
import java.util.List;
import javax.net.ssl.SSLHandshakeException;
import javax.net.ssl.SSLSocket;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.context.annotation.Import;

/** Both doors of the running program, as devices find them that trust what they are told to trust and nothing more. */
@SpringBootTest(webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT)
@IntegrationTest
@Import(MachineOfTests.class)
class HttpsIntegrationTests {

    @Autowired
    private HttpsConnector https;

    @Autowired
    private SecureAddresses addresses;

    @Autowired
    private MachineOfTests.Movable machine;

    @Autowired
    private TestPeople people;

    @Autowired
    private TestClock clock;

    @LocalServerPort
    private int port;

    /** A real client holds certificates against the real hour. */
    @BeforeEach
    void isToday() {
        clock.set(Clock.systemUTC().instant());
        https.follow();
    }

    @Test
    void answersADeviceThatTrustsNothingButTheAuthority() throws Exception {
        try (Visitor device = Visitor.trusting(takenFromThePage())) {
            for (String host : List.of("localhost", "127.0.0.1", "[::1]")) {
                assertThat(device.get(secure(host, "/sign-in")).statusCode())
                        .as(host)
                        .isEqualTo(200);
            }
            for (InetAddress address : machine.names().addresses()) {
                String host = address instanceof Inet6Address
                        ? "[" + address.getHostAddress() + "]"
                        : address.getHostAddress();
                assertThat(device.get(secure(host, "/sign-in")).statusCode())
                        .as(host)
                        .isEqualTo(200);
            }
        }
        try (Visitor stranger = Visitor.trustingNobody()) {
            assertThatExceptionOfType(SSLHandshakeException.class)
                    .isThrownBy(() -> stranger.get(secure("localhost", "/sign-in")));
        }
    }

    /** RFC 9110, 4.3.4, without a name server: the machine's names are those that its certificate stands for. */
    @Test
    void isTheMachineUnderItsNamesAndUnderNoOther() throws Exception {
        byte[] authority = takenFromThePage();

        for (String host : machine.names().hosts()) {
            assertThat(certificateFor(host, authority)).as(host).isNotNull();
        }
        assertThatExceptionOfType(SSLHandshakeException.class)
                .isThrownBy(() -> certificateFor("elsewhere.example", authority));
    }

    @Test
    void takesOnANewAddressWhileItRuns() throws Exception {
        byte[] authority = takenFromThePage();
        X509Certificate before = certificateFor("localhost", authority);
        https.follow();
        assertThat(certificateFor("localhost", authority)).isEqualTo(before);
        assertThatExceptionOfType(SSLHandshakeException.class).isThrownBy(() -> certificateFor("10.9.8.7", authority));

        machine.alsoAt("10.9.8.7");
        try {
            https.follow();

            assertThat(certificateFor("10.9.8.7", authority)).isNotEqualTo(before);
        } finally {
            machine.alsoAt();
        }
    }

    /** RFC 6265bis, 4.1.3.2: __Host- asks for Secure, for the path / and for no domain. */
    @Test
    void givesACookieThatNoOtherHostSeesAndNoPlainRequestCarries() throws Exception {
        try (Visitor device = Visitor.trusting(takenFromThePage())) {
            HttpResponse<String> answer = device.get(secure("localhost", people.signInPath(Role.TECHNICIAN)));
            String cookie = Visitor.cookie(answer);
            String id = cookie.split("[=;]")[1];

            assertThat(cookie).startsWith("__Host-tankround-session=");
            assertThat(cookie.split("; ?")).contains("Path=/", "Secure", "HttpOnly", "SameSite=Lax");
            assertThat(cookie).doesNotContain("Domain");
            assertThat(answer.headers().firstValue("Location").orElseThrow()).isEqualTo(secure("localhost", "/"));
            assertThat(answer.headers().firstValue("Strict-Transport-Security"))
                    .as("it would hold for the plain port too, where a device finds the authority again")
                    .isEmpty();
            String session = secure("localhost", "/api/session");
            assertThat(device.get(session, "Cookie", "__Host-tankround-session=" + id)
                            .statusCode())
                    .isEqualTo(200);
            assertThat(device.get(session, "Cookie", "tankround-session=" + id).statusCode())
                    .as("a name that any neighbour may set")
                    .isEqualTo(401);
        }
    }

    @Test
    void answersPlainHttpToTheMachineItself() throws Exception {
        try (Visitor here = Visitor.trustingNobody()) {
            HttpResponse<String> answer = here.get(plain("localhost", people.signInPath(Role.OFFICE)));

            assertThat(answer.statusCode()).isEqualTo(302);
            assertThat(Visitor.cookie(answer)).startsWith("tankround-session=").doesNotContain("Secure");
        }
    }

    @Test
    void sendsAPlainRequestFromElsewhereToThePageThatATabletBeginsWith() throws Exception {
        String elsewhere = ownAddress();
        try (Visitor device = Visitor.trustingNobody()) {
            HttpResponse<String> page = device.get(plain(elsewhere, "/"), "Accept", "text/html,*/*;q=0.8");
            assertThat(page.statusCode()).isEqualTo(303);
            assertThat(page.headers().firstValue("Location")).contains("/connect");

            HttpResponse<String> begin = device.get(plain(elsewhere, "/connect"));
            assertThat(begin.statusCode()).isEqualTo(200);
            assertThat(Visitor.cookie(begin)).isEmpty();
            assertThat(begin.body())
                    .contains(secure(elsewhere, "/"), "/connect/tankround-authority.crt")
                    .as("a fingerprint that may have been changed on its way")
                    .doesNotContain(fingerprint());
            assertThat(device.download(plain(elsewhere, "/connect/tankround-authority.crt"))
                            .body())
                    .isEqualTo(addresses.authority().orElseThrow().getEncoded());
            assertThat(device.get(plain(elsewhere, "/css/tankround.css")).statusCode())
                    .isEqualTo(200);
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "/sign-in",
                "/actuator/health",
                "/api/session",
                "/css/../people",
                "/css/%2e%2e/people",
                "/css;x=/..;y/people",
                "/connect/../sign-in",
                "/connectx"
            })
    void answersNothingElseToAPlainRequestFromElsewhereWhateverItSaysOfItself(String path) throws Exception {
        String address = plain(ownAddress(), path);
        try (Visitor device = Visitor.trustingNobody()) {
            for (String[] headers : new String[][] {
                {"Accept", "*/*"},
                {"X-Forwarded-Proto", "https", "X-Forwarded-For", "127.0.0.1", "X-Forwarded-Host", "localhost"},
                {"Forwarded", "for=127.0.0.1;proto=https"}
            }) {
                HttpResponse<String> answer = device.get(address, headers);
                assertThat(answer.statusCode()).isEqualTo(403);
                assertThat(answer.body()).contains("plain HTTP to its own machine only", secure(ownAddress(), "/"));
                assertThat(Visitor.cookie(answer)).isEmpty();
            }
            assertThat(device.post(address, "signInName=owner&password=whatever")
                            .statusCode())
                    .isEqualTo(403);
        }
    }

    @Test
    void asksAProxyOnThisMachineToBeNamed() throws Exception {
        try (Visitor proxy = Visitor.trustingNobody()) {
            HttpResponse<String> answer = proxy.get(
                    plain("127.0.0.1", "/sign-in"), "X-Forwarded-Proto", "https", "X-Forwarded-For", "10.0.0.9");

            assertThat(answer.statusCode()).isEqualTo(403);
            assertThat(answer.body()).contains("a proxy that is not named", "--tankround.proxies=127.0.0.1");
        }
    }

    @Test
    void showsTheFingerprintWhereNobodyCanHaveChangedIt() throws Exception {
        try (Visitor device = Visitor.trusting(takenFromThePage())) {
            assertThat(device.get(plain("localhost", "/connect")).body()).contains(fingerprint());
            assertThat(device.get(secure("localhost", "/connect")).body()).contains(fingerprint());
        }
    }

    private byte[] takenFromThePage() throws IOException, InterruptedException {
        try (Visitor device = Visitor.trustingNobody()) {
            HttpResponse<byte[]> file = device.download(plain("localhost", "/connect/tankround-authority.crt"));
            assertThat(file.headers().firstValue("Content-Type")).contains("application/x-x509-ca-cert");
            return file.body();
        }
    }

    /** As `openssl x509 -fingerprint -sha256` makes it: SHA-256 over the certificate's DER. */
    private String fingerprint() throws GeneralSecurityException {
        byte[] hash = MessageDigest.getInstance("SHA-256")
                .digest(addresses.authority().orElseThrow().getEncoded());
        return HexFormat.ofDelimiter(" ").withUpperCase().formatHex(hash);
    }

    /** What the server shows to a client that believes to have called this host. */
    private X509Certificate certificateFor(String host, byte[] authority) throws GeneralSecurityException, IOException {
        try (var plain = new Socket(InetAddress.getLoopbackAddress(), https.port());
                var socket = (SSLSocket)
                        Visitor.context(authority).getSocketFactory().createSocket(plain, host, https.port(), true)) {
            var parameters = socket.getSSLParameters();
            parameters.setEndpointIdentificationAlgorithm("HTTPS");
            socket.setSSLParameters(parameters);
            socket.startHandshake();
            return (X509Certificate) socket.getSession().getPeerCertificates()[0];
        }
    }

    /** One that is not loopback, so that the program is called as from another machine. */
    private static String ownAddress() throws SocketException {
        return NetworkInterface.networkInterfaces()
                .flatMap(NetworkInterface::inetAddresses)
                .filter(address -> !(address instanceof Inet6Address) && !address.isLoopbackAddress())
                .map(InetAddress::getHostAddress)
                .findFirst()
                .orElseGet(
                        () -> Assumptions.<String>abort("this machine is on no network, so nobody else can call it"));
    }

    private String secure(String host, String path) {
        return "https://" + host + ":" + https.port() + path;
    }

    private String plain(String host, String path) {
        return "http://" + host + ":" + port + path;
    }
}
