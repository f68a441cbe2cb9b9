package app.tankround.network;

import java.io.IOException;
import java.security.GeneralSecurityException;
import java.security.KeyStore;
import java.security.cert.Certificate;
import org.apache.catalina.connector.Connector;
import org.apache.catalina.valves.RemoteIpValve;
import org.apache.coyote.ProtocolHandler;
import org.apache.coyote.http11.Http11NioProtocol;
import org.apache.tomcat.util.net.SSLHostConfig;
import org.apache.tomcat.util.net.SSLHostConfigCertificate;
import org.jspecify.annotations.Nullable;
import org.springframework.boot.tomcat.TomcatProtocolHandlerCustomizer;
import org.springframework.boot.tomcat.servlet.TomcatServletWebServerFactory;
import org.springframework.boot.util.LambdaSafe;
import org.springframework.boot.web.server.WebServerFactoryCustomizer;
import org.springframework.core.Ordered;
import org.springframework.core.annotation.Order;
import org.springframework.core.env.Environment;
import org.springframework.stereotype.Component;

/** Answers HTTPS beside plain HTTP, on {@code tankround.https.port}, with whatever certificate is the present one. */
@Component
// After all that is set for the plain one, so that both are set alike.
@Order(Ordered.LOWEST_PRECEDENCE)
class HttpsConnector implements WebServerFactoryCustomizer<TomcatServletWebServerFactory> {

    private static final int DEFAULT_PORT = 8443;

    private final CertificateSource certificates;
    private final NamedProxies proxies;
    private final int chosenPort;

    private volatile @Nullable Serving serving;

    private record Serving(Connector connector, Http11NioProtocol protocol, Identity identity) {}

    HttpsConnector(CertificateSource certificates, NamedProxies proxies, Environment environment) {
        this.certificates = certificates;
        this.proxies = proxies;
        this.chosenPort = environment.getProperty("tankround.https.port", Integer.class, DEFAULT_PORT);
    }

    @Override
    public void customize(TomcatServletWebServerFactory factory) {
        Identity identity = certificates.current();
        var protocol = new Http11NioProtocol();
        protocol.setSSLEnabled(true);
        protocol.addSslHostConfig(configuration(identity));
        if (factory.getAddress() != null) {
            protocol.setAddress(factory.getAddress());
        }
        var connector = new Connector(protocol);
        connector.setPort(chosenPort);
        connector.setScheme("https");
        connector.setSecure(true);
        factory.getConnectorCustomizers().forEach(each -> each.customize(connector));
        alike(factory, protocol);
        factory.addAdditionalConnectors(connector);
        factory.addEngineValves(new PlainHttp(proxies, this::port), forwarded());
        serving = new Serving(connector, protocol, identity);
    }

    /** The port on which HTTPS is answered; the chosen one while it is not. */
    int port() {
        Serving now = serving;
        return now == null || now.connector().getLocalPort() <= 0
                ? chosenPort
                : now.connector().getLocalPort();
    }

    /** Takes the present certificate for all connections to come, where it is another; those that are open stay. */
    synchronized void follow() {
        Serving now = serving;
        if (now == null) {
            return;
        }
        Identity present = certificates.current();
        if (!present.equals(now.identity())) {
            now.protocol().addSslHostConfig(configuration(present), true);
            serving = new Serving(now.connector(), now.protocol(), present);
        }
    }

    private static SSLHostConfig configuration(Identity identity) {
        var configuration = new SSLHostConfig();
        configuration.setProtocols("TLSv1.2+TLSv1.3");
        var certificate = new SSLHostConfigCertificate(configuration, SSLHostConfigCertificate.Type.UNDEFINED);
        certificate.setCertificateKeystore(keyStore(identity));
        // Only in memory, where a password protects nothing.
        certificate.setCertificateKeystorePassword("");
        configuration.addCertificate(certificate);
        return configuration;
    }

    private static KeyStore keyStore(Identity identity) {
        try {
            KeyStore store = KeyStore.getInstance("PKCS12");
            store.load(null, null);
            store.setKeyEntry(
                    "server", identity.key(), new char[0], identity.chain().toArray(Certificate[]::new));
            return store;
        } catch (GeneralSecurityException | IOException impossible) {
            throw new IllegalStateException(impossible);
        }
    }

    /** What a proxy says of a request counts only if the proxy is named. */
    private RemoteIpValve forwarded() {
        var valve = new RemoteIpValve();
        valve.setInternalProxies(proxies.pattern());
        valve.setHostHeader("X-Forwarded-Host");
        valve.setPortHeader("X-Forwarded-Port");
        return valve;
    }

    private static void alike(TomcatServletWebServerFactory factory, ProtocolHandler protocol) {
        LambdaSafe.callbacks(TomcatProtocolHandlerCustomizer.class, factory.getProtocolHandlerCustomizers(), protocol)
                .invoke(customizer -> customizer.customize(protocol));
    }
}
