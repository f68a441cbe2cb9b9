package app.tankround.network;

import app.tankround.persistence.StartFailure;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.security.cert.X509CertSelector;
import java.security.cert.X509Certificate;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * A certificate from an authority of the program's own, made at the first start and kept in the data directory. It
 * follows the names and addresses that the machine has, and its own end, by itself.
 */
final class OwnCertificate implements CertificateSource {

    private static final Logger LOG = LoggerFactory.getLogger(OwnCertificate.class);

    /** So long before its end a certificate is renewed. */
    private static final Duration AHEAD = Duration.ofDays(30);

    /** So long before its end an authority is: nothing it certifies may outlive it. */
    private static final Duration AUTHORITY_AHEAD = Duration.ofDays(400);

    private static final List<InetAddress> LOOPBACK =
            List.of(InetAddress.ofLiteral("127.0.0.1"), InetAddress.ofLiteral("::1"));

    private final Path directory;
    private final Machine machine;
    private final Clock clock;

    private @Nullable Identity authority;
    private @Nullable Identity server;

    /** @param directory made when missing; holds nothing else */
    OwnCertificate(Path directory, Machine machine, Clock clock) {
        this.directory = directory;
        this.machine = machine;
        this.clock = clock;
    }

    @Override
    public synchronized Identity current() {
        Instant now = clock.instant();
        MachineNames names = machine.names();
        Identity vouching = authority(names, now);
        Collection<String> hosts = hosts(names, vouching.certificate());
        Collection<InetAddress> addresses =
                Stream.concat(LOOPBACK.stream(), names.addresses().stream()).toList();
        if (server == null) {
            server = readServer();
        }
        if (server == null || !fits(server.certificate(), vouching, hosts, addresses, now)) {
            server = write("server.pem", Issuing.server(vouching, hosts, addresses, now));
        }
        return server;
    }

    @Override
    public synchronized Optional<X509Certificate> authority() {
        return Optional.of(authority(machine.names(), clock.instant()).certificate());
    }

    private Identity authority(MachineNames names, Instant now) {
        if (authority == null) {
            authority = readAuthority();
        }
        // A machine that has lost the time may believe that the authority is yet to come; that is no reason for a new
        // one.
        if (authority == null || endsWithin(AUTHORITY_AHEAD, authority.certificate(), now)) {
            if (authority != null) {
                LOG.warn(
                        "The authority in {} ends soon, so there is a new one: each device has to install it.",
                        directory);
            }
            authority = write("authority.pem", Issuing.authority(names, now));
        }
        return authority;
    }

    /** What the authority may vouch for; a machine that was given another name keeps the one under {@code .local}. */
    private static Collection<String> hosts(MachineNames names, X509Certificate authority) {
        var hosts = new ArrayList<>(List.of("localhost"));
        names.hosts().stream().filter(host -> permits(authority, host)).forEach(hosts::add);
        return hosts;
    }

    private static boolean fits(
            X509Certificate certificate,
            Identity authority,
            Collection<String> hosts,
            Collection<InetAddress> addresses,
            Instant now) {
        try {
            certificate.verify(authority.certificate().getPublicKey());
        } catch (GeneralSecurityException ofAnother) {
            return false;
        }
        Set<String> wanted = Stream.concat(hosts.stream(), addresses.stream().map(InetAddress::getHostAddress))
                .collect(Collectors.toSet());
        return !now.isBefore(certificate.getNotBefore().toInstant())
                && !endsWithin(AHEAD, certificate, now)
                && Alternatives.all(certificate).equals(wanted);
    }

    private static boolean endsWithin(Duration ahead, X509Certificate certificate, Instant now) {
        return !now.plus(ahead).isBefore(certificate.getNotAfter().toInstant());
    }

    private static boolean permits(X509Certificate authority, String host) {
        try {
            var selector = new X509CertSelector();
            selector.addPathToName(Alternatives.HOST, host);
            return selector.match(authority);
        } catch (IOException impossible) {
            throw new UncheckedIOException(impossible);
        }
    }

    private @Nullable Identity readAuthority() {
        Path file = directory.resolve("authority.pem");
        try {
            return Files.exists(file) ? PemFile.read(file, file) : null;
        } catch (IOException | IllegalArgumentException e) {
            throw new StartFailure(
                    "The certificate authority in %s cannot be read: %s.".formatted(file, reason(e)),
                    "Put it back from a copy and let the user who runs this program own it. Or remove it: then the"
                            + " program makes a new one, which each device has to install again.",
                    e);
        }
    }

    /** What cannot be read is made anew: nobody but the program needs to know this one. */
    private @Nullable Identity readServer() {
        Path file = directory.resolve("server.pem");
        try {
            return Files.exists(file) ? PemFile.read(file, file) : null;
        } catch (IOException | IllegalArgumentException e) {
            LOG.warn("The certificate in {} cannot be read, so there is a new one: {}", file, reason(e));
            return null;
        }
    }

    private Identity write(String name, Identity identity) {
        try {
            PemFile.write(directory.resolve(name), identity);
            return identity;
        } catch (IOException e) {
            throw new StartFailure(
                    "The certificate for HTTPS cannot be written to %s: %s.".formatted(directory, reason(e)),
                    "Let the user who runs this program own that directory, and see that its disk is not full.",
                    e);
        }
    }

    private static String reason(Exception e) {
        return e instanceof IOException
                ? e.getClass().getSimpleName() + " " + e.getMessage()
                : "it is no certificate with its key";
    }
}
