package app.tankround.network;

import app.tankround.persistence.DataDirectory;
import app.tankround.persistence.StartFailure;
import java.nio.file.Path;
import java.time.Clock;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.core.env.Environment;

/** What whoever starts the program may choose about HTTPS, asked when the beans are made. */
@Configuration(proxyBeanMethods = false)
class NetworkConfiguration {

    /** {@code tankround.https.certificate} with {@code tankround.https.private-key}, else one of our own. */
    @Bean
    CertificateSource certificateSource(Environment environment, DataDirectory data, Machine machine, Clock clock) {
        String certificate = environment.getProperty("tankround.https.certificate", "");
        String key = environment.getProperty("tankround.https.private-key", "");
        if (certificate.isBlank() && key.isBlank()) {
            return new OwnCertificate(data.resolve("https"), machine, clock);
        }
        if (certificate.isBlank() || key.isBlank()) {
            throw new StartFailure(
                    "A certificate for HTTPS needs its key and a key its certificate, but only %s is named."
                            .formatted(certificate.isBlank() ? key : certificate),
                    "Name both, with tankround.https.certificate and tankround.https.private-key, or neither.",
                    null);
        }
        return new GivenCertificate(Path.of(certificate), Path.of(key));
    }

    /** {@code tankround.proxies}: addresses, with commas between them. */
    @Bean
    NamedProxies namedProxies(Environment environment) {
        return NamedProxies.of(environment.getProperty("tankround.proxies", ""));
    }
}
