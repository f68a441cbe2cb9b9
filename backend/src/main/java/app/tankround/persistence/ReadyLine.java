package app.tankround.persistence;

import java.net.Inet6Address;
import java.net.InetAddress;
import java.net.URI;
import java.net.URISyntaxException;
import org.apache.tomcat.util.net.IPv6Utils;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.boot.context.event.ApplicationReadyEvent;
import org.springframework.boot.web.server.autoconfigure.ServerProperties;
import org.springframework.boot.web.server.context.WebServerApplicationContext;
import org.springframework.context.event.EventListener;
import org.springframework.core.env.Environment;
import org.springframework.stereotype.Component;

/** Says where to look once the program can be used. */
@Component
class ReadyLine {

    private static final Logger LOG = LoggerFactory.getLogger(ReadyLine.class);

    private final DataDirectory data;
    private final Environment environment;

    ReadyLine(DataDirectory data, Environment environment) {
        this.data = data;
        this.environment = environment;
    }

    @EventListener
    void say(ApplicationReadyEvent event) {
        if (event.getApplicationContext() instanceof WebServerApplicationContext web && web.getWebServer() != null) {
            ServerProperties server = web.getBean(ServerProperties.class);
            boolean secure = server.getSsl() != null && server.getSsl().isEnabled();
            LOG.info(
                    "Tankround is ready at {} and keeps its data in {}",
                    uri(
                            secure ? "https" : "http",
                            server.getAddress(),
                            web.getWebServer().getPort()),
                    place());
        }
    }

    /** As a browser takes it: an address of IPv6 in brackets, in the form of RFC 5952. */
    static URI uri(String scheme, @Nullable InetAddress address, int port) {
        String host = address == null ? "127.0.0.1" : address.getHostAddress();
        try {
            return new URI(
                    scheme,
                    null,
                    address instanceof Inet6Address ? IPv6Utils.canonize(host) : host,
                    port,
                    null,
                    null,
                    null);
        } catch (URISyntaxException impossible) {
            throw new IllegalStateException(impossible);
        }
    }

    /** The directory, and without what may be a password, the address of a server that is not ours. */
    private String place() {
        String url = environment.getProperty("spring.datasource.url");
        return url == null ? data.toString() : data + " and " + url.split("\\?", 2)[0];
    }
}
