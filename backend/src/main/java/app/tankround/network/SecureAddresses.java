package app.tankround.network;

import java.security.cert.X509Certificate;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.springframework.core.env.Environment;
import org.springframework.stereotype.Service;

/** Under which addresses other devices reach the program, and what they must trust for it. */
@Service
public class SecureAddresses {

    private final CertificateSource certificates;
    private final HttpsConnector connector;
    private final Machine machine;
    private final Environment environment;

    SecureAddresses(
            CertificateSource certificates, HttpsConnector connector, Machine machine, Environment environment) {
        this.certificates = certificates;
        this.connector = connector;
        this.machine = machine;
        this.environment = environment;
    }

    /**
     * Hosts as they stand in an address, the likeliest to be reached first: of a certificate that was given its names,
     * else the machine's private addresses and its name under {@code .local}.
     */
    public List<String> hosts() {
        if (authority().isEmpty()) {
            return Alternatives.hosts(certificates.current().certificate()).stream()
                    .filter(host -> !host.startsWith("*"))
                    .toList();
        }
        MachineNames names = machine.names();
        return Stream.concat(
                        names.addresses().stream().map(AddressText::inUri),
                        names.hosts().stream().filter(host -> host.endsWith("." + MachineNames.LOCAL)))
                .toList();
    }

    /** The address of a path by HTTPS. */
    public String of(String host, String path) {
        return "https://" + host + ":" + connector.port() + path;
    }

    /** The address of a path by HTTPS under which another device is likeliest to reach it; empty where none is known. */
    public Optional<String> elsewhere(String path) {
        return hosts().stream().findFirst().map(host -> of(host, path));
    }

    /** Where a device begins: at the page that plain HTTP has for it, or at once where it trusts the certificate anyway. */
    public String begin(String host) {
        return authority().isEmpty()
                ? of(host, "/")
                : "http://" + host + ":" + environment.getProperty("local.server.port", "8080") + PlainHttp.BEGIN;
    }

    /** The program's own authority; none where somebody gave it a certificate. */
    public Optional<X509Certificate> authority() {
        return certificates.authority();
    }
}
