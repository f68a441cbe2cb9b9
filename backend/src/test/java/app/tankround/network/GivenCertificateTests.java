package app.tankround.network;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import app.tankround.persistence.StartFailure;
import app.tankround.testing.TestClock;
import app.tankround.testing.TestDirectories;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.cert.X509Certificate;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** A certificate from elsewhere, by its files. */
class GivenCertificateTests {

    private final Path folder = TestDirectories.fresh("given");
    private final Path certificate = folder.resolve("full-chain.pem");
    private final Path key = folder.resolve("key.pem");
    private final GivenCertificate given = new GivenCertificate(certificate, key);

    @BeforeEach
    void begin() throws IOException {
        put(issued("office.example"));
    }

    @Test
    void servesTheWholeChainAndHasNothingToInstall() {
        assertThat(given.current().chain()).hasSize(2);
        assertThat(Alternatives.hosts(given.current().certificate())).containsExactly("office.example");
        assertThat(given.authority()).isEmpty();
    }

    @Test
    void followsTheFilesWhenTheyAreRenewed() throws Exception {
        X509Certificate before = given.current().certificate();
        put(issued("office.example"));

        assertThat(given.current().certificate()).isNotEqualTo(before);
    }

    @Test
    void refusesTheKeyOfAnotherCertificateAndWhatIsNone() throws Exception {
        Files.writeString(key, Files.readString(keyOf(issued("office.example"))));
        assertRefused("are no certificate with its key");

        Files.writeString(key, "nothing");
        assertRefused("are no certificate with its key");

        Files.delete(key);
        assertRefused("cannot be read: NoSuchFileException " + key);
    }

    private void assertRefused(String why) {
        assertThatExceptionOfType(StartFailure.class)
                .isThrownBy(given::current)
                .withMessage("The files for HTTPS, %s and %s, %s.", certificate, key, why)
                .satisfies(failure -> assertThat(failure.remedy())
                        .contains("tankround.https.certificate", "tankround.https.private-key"));
    }

    private static Identity issued(String host) {
        Identity authority = Issuing.authority(MachineNames.of("elsewhere", List.of()), TestClock.START);
        Identity server = Issuing.server(authority, List.of(host), List.of(), TestClock.START);
        return new Identity(List.of(server.certificate(), authority.certificate()), server.key());
    }

    private void put(Identity identity) throws IOException {
        Path both = keyOf(identity);
        String text = Files.readString(both);
        int split = text.indexOf("-----BEGIN CERTIFICATE-----");
        Files.writeString(key, text.substring(0, split));
        Files.writeString(certificate, text.substring(split));
    }

    private static Path keyOf(Identity identity) throws IOException {
        Path both = TestDirectories.fresh("issued").resolve("both.pem");
        PemFile.write(both, identity);
        return both;
    }
}
