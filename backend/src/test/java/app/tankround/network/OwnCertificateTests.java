package app.tankround.network;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.assertThatNoException;

import app.tankround.persistence.StartFailure;
import app.tankround.testing.TestClock;
import app.tankround.testing.TestDirectories;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.security.GeneralSecurityException;
import java.security.cert.CertPathValidator;
import java.security.cert.CertPathValidatorException;
import java.security.cert.CertificateFactory;
import java.security.cert.PKIXParameters;
import java.security.cert.PKIXReason;
import java.security.cert.TrustAnchor;
import java.security.cert.X509Certificate;
import java.time.Duration;
import java.time.Instant;
import java.util.Date;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The program's own authority and what it certifies, held against the path validation of RFC 5280 (section 6) as the JDK
 * does it, and against what browsers take.
 */
class OwnCertificateTests {

    private static final String NAME_CONSTRAINTS = "2.5.29.30";
    private static final InetAddress ADDRESS = InetAddress.ofLiteral("192.168.7.20");

    private final Path directory = TestDirectories.fresh("own").resolve("https");
    private final TestClock clock = new TestClock();
    private MachineNames names = MachineNames.of("Pumproom", List.of(ADDRESS, InetAddress.ofLiteral("fd12::7")));
    private OwnCertificate own = started();

    private OwnCertificate started() {
        return new OwnCertificate(directory, () -> names, clock);
    }

    @BeforeEach
    void begin() {
        own = started();
    }

    @Test
    void certifiesTheMachineUnderItsNamesAndPrivateAddresses() throws Exception {
        X509Certificate server = own.current().certificate();

        assertValid(server);
        assertThat(Alternatives.all(server))
                .containsExactlyInAnyOrder(
                        "localhost",
                        "pumproom",
                        "pumproom.local",
                        "127.0.0.1",
                        "0:0:0:0:0:0:0:1",
                        "192.168.7.20",
                        "fd12:0:0:0:0:0:0:7");
        assertThat(server.getExtendedKeyUsage()).containsExactly("1.3.6.1.5.5.7.3.1");
        assertThat(server.getBasicConstraints()).as("no authority itself").isEqualTo(-1);
    }

    /** Baseline Requirements of the CA/Browser Forum, 6.3.2, at the time of their longest limit: 398 days. */
    @Test
    void livesNoLongerThanBrowsersTake() {
        X509Certificate server = own.current().certificate();

        assertThat(Duration.between(
                        server.getNotBefore().toInstant(), server.getNotAfter().toInstant()))
                .isLessThanOrEqualTo(Duration.ofDays(398));
        assertThat(server.getNotBefore().toInstant())
                .as("valid for a tablet whose clock is nine hours late")
                .isBefore(clock.instant().minus(Duration.ofHours(9)));
    }

    /** RFC 5280, 4.2.1.3, 4.2.1.9 and 4.2.1.10: an authority for servers of its own, and for no other authority. */
    @Test
    void limitsTheAuthority() throws Exception {
        X509Certificate authority = own.authority().orElseThrow();

        assertThat(authority.getBasicConstraints()).as("path length").isZero();
        assertThat(authority.getKeyUsage())
                .as("keyCertSign, the sixth, and nothing else")
                .containsExactly(false, false, false, false, false, true, false, false, false);
        assertThat(authority.getCriticalExtensionOIDs()).contains(NAME_CONSTRAINTS);
        assertThat(authority.getExtendedKeyUsage()).containsExactly("1.3.6.1.5.5.7.3.1");
    }

    @ParameterizedTest
    @ValueSource(strings = {"bank.example", "example.local.example", "pumproom.example", "notpumproom"})
    void vouchesForNoOtherName(String host) throws Exception {
        assertRefused(Issuing.server(authority(), List.of(host), List.of(ADDRESS), clock.instant())
                .certificate());
    }

    @ParameterizedTest
    @ValueSource(strings = {"8.8.8.8", "172.32.0.1", "192.169.0.1", "11.0.0.1", "2001:db8::1"})
    void vouchesForNoPublicAddress(String address) throws Exception {
        assertRefused(Issuing.server(
                        authority(), List.of("localhost"), List.of(InetAddress.ofLiteral(address)), clock.instant())
                .certificate());
    }

    @ParameterizedTest
    @ValueSource(
            strings = {"10.255.0.1", "172.16.0.1", "172.31.255.254", "192.168.0.1", "127.0.0.1", "fdff::1", "fe80::1"})
    void vouchesForAnyPrivateAddress(String address) throws Exception {
        assertValid(Issuing.server(
                        authority(), List.of("other.local"), List.of(InetAddress.ofLiteral(address)), clock.instant())
                .certificate());
    }

    /** As devices hold it that trust the authority itself: OpenSSL (X509_verify_cert) asks an anchor for its limits too. */
    @ParameterizedTest
    @CsvSource({"pumproom.local, OK", "bank.example, permitted subtree violation"})
    void isHeldToItsNamesByOpenSsl(String host, String expected) throws Exception {
        Path folder = TestDirectories.fresh("openssl");
        Path trusted = Files.writeString(
                folder.resolve("ca.pem"), PemFile.text(own.authority().orElseThrow()));
        Identity server = Issuing.server(authority(), List.of(host), List.of(ADDRESS), clock.instant());
        Path shown = Files.writeString(folder.resolve("server.pem"), PemFile.text(server.certificate()));
        String moment = Long.toString(clock.instant().getEpochSecond());
        Process openssl;
        try {
            openssl = new ProcessBuilder(
                            "openssl",
                            "verify",
                            "-x509_strict",
                            "-purpose",
                            "sslserver",
                            "-attime",
                            moment,
                            "-CAfile",
                            trusted.toString(),
                            shown.toString())
                    .redirectErrorStream(true)
                    .start();
        } catch (IOException notInstalled) {
            Assumptions.abort("no openssl found: install it to have this checked");
            return;
        }

        assertThat(new String(openssl.getInputStream().readAllBytes(), StandardCharsets.UTF_8))
                .contains(expected);
    }

    @Test
    void keepsItsKeysToItsOwner() throws Exception {
        own.current();

        assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(directory)))
                .isEqualTo("rwx------");
        try (var files = Files.list(directory)) {
            assertThat(files.map(OwnCertificateTests::permissions)).containsExactly("rw-------", "rw-------");
        }
    }

    @Test
    void staysTheSameOverARestart() {
        Identity before = own.current();

        assertThat(started().current()).isEqualTo(before);
        assertThat(started().authority()).isEqualTo(own.authority());
    }

    @Test
    void followsTheAddressesUnderTheSameAuthority() throws Exception {
        X509Certificate before = own.current().certificate();
        X509Certificate authority = own.authority().orElseThrow();
        names = MachineNames.of("pumproom", List.of(InetAddress.ofLiteral("10.0.0.5")));

        for (OwnCertificate each : List.of(own, started())) {
            X509Certificate after = each.current().certificate();
            assertThat(after).isNotEqualTo(before);
            assertThat(Alternatives.all(after)).contains("10.0.0.5").doesNotContain("192.168.7.20");
            assertThat(each.authority()).contains(authority);
            assertValid(after);
        }
    }

    @Test
    void keepsItsAuthorityWhenTheMachineIsRenamedAndVouchesForWhatItMay() throws Exception {
        X509Certificate authority = own.authority().orElseThrow();
        names = MachineNames.of("office", List.of(ADDRESS));

        X509Certificate after = own.current().certificate();

        assertThat(Alternatives.hosts(after)).containsExactlyInAnyOrder("localhost", "office.local");
        assertThat(own.authority()).contains(authority);
        assertValid(after);
    }

    @Test
    void renewsACertificateBeforeItsEnd() throws Exception {
        X509Certificate before = own.current().certificate();
        X509Certificate authority = own.authority().orElseThrow();

        clock.advance(Duration.ofDays(365));
        assertThat(own.current().certificate()).isEqualTo(before);
        clock.advance(Duration.ofDays(2));
        X509Certificate after = own.current().certificate();

        assertThat(after.getNotAfter().toInstant()).isAfter(clock.instant().plus(Duration.ofDays(390)));
        assertThat(own.authority()).contains(authority);
        assertThat(started().current().certificate()).isEqualTo(after);
        assertValid(after);
    }

    @Test
    void makesANewAuthorityOnlyShortlyBeforeTheEndOfTheOld() throws Exception {
        own.current();
        X509Certificate authority = own.authority().orElseThrow();

        clock.set(authority.getNotAfter().toInstant().minus(Duration.ofDays(401)));
        assertThat(own.authority()).contains(authority);
        clock.advance(Duration.ofDays(2));

        X509Certificate server = own.current().certificate();
        assertThat(own.authority()).isPresent().isNotEqualTo(Optional.of(authority));
        assertValid(server);
    }

    /** Small computers without a battery for their clock start in 1970. */
    @Test
    void keepsItsAuthorityWhenTheClockLostTheTime() {
        own.current();
        var authority = own.authority();

        clock.set(Instant.EPOCH.plus(Duration.ofDays(1)));

        assertThat(started().authority()).isEqualTo(authority);
    }

    @Test
    void makesABrokenServerCertificateAnewAndRefusesABrokenAuthority() throws Exception {
        X509Certificate before = own.current().certificate();
        Path server = directory.resolve("server.pem");
        Files.writeString(server, "half");

        assertThat(started().current().certificate()).isNotEqualTo(before);

        Path authority = directory.resolve("authority.pem");
        Files.writeString(authority, Files.readString(authority).substring(0, 200));
        assertThatExceptionOfType(StartFailure.class)
                .isThrownBy(() -> started().current())
                .withMessage(
                        "The certificate authority in %s cannot be read: it is no certificate with its key.", authority)
                .satisfies(failure -> assertThat(failure.remedy()).contains("copy", "each device"));
    }

    @Test
    void saysWhatIsWrongWithItsDirectory() throws IOException {
        Files.writeString(directory, "in the way");

        assertThatExceptionOfType(StartFailure.class)
                .isThrownBy(() -> own.current())
                .withMessageContaining("The certificate for HTTPS cannot be written to " + directory)
                .satisfies(failure -> assertThat(failure.remedy()).contains("own that directory"));
    }

    private Identity authority() throws IOException {
        own.current();
        Path file = directory.resolve("authority.pem");
        return PemFile.read(file, file);
    }

    private void assertValid(X509Certificate certificate) {
        assertThatNoException().isThrownBy(() -> validate(certificate));
    }

    private void assertRefused(X509Certificate certificate) {
        assertThatExceptionOfType(CertPathValidatorException.class)
                .isThrownBy(() -> validate(certificate))
                .satisfies(refusal -> assertThat(refusal.getReason()).isEqualTo(PKIXReason.INVALID_NAME));
    }

    /**
     * From the bare key of the authority, so that its certificate is one of the path and its limits are held: of an anchor
     * (6.1.1) RFC 5280 asks no more than name and key, and the JDK no more either.
     */
    private void validate(X509Certificate certificate) throws GeneralSecurityException {
        X509Certificate authority = own.authority().orElseThrow();
        var anchor = new TrustAnchor(authority.getSubjectX500Principal(), authority.getPublicKey(), null);
        var parameters = new PKIXParameters(Set.of(anchor));
        parameters.setRevocationEnabled(false);
        parameters.setDate(Date.from(clock.instant()));
        CertPathValidator.getInstance("PKIX")
                .validate(
                        CertificateFactory.getInstance("X.509").generateCertPath(List.of(certificate, authority)),
                        parameters);
    }

    private static String permissions(Path file) {
        try {
            return PosixFilePermissions.toString(Files.getPosixFilePermissions(file));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
