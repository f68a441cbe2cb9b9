package app.tankround.persistence;

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
            String address = server.getAddress() == null
                    ? "127.0.0.1"
                    : server.getAddress().getHostAddress();
            LOG.info(
                    "Tankround is ready at {}://{}:{} and keeps its data in {}",
                    secure ? "https" : "http",
                    address,
                    web.getWebServer().getPort(),
                    place());
        }
    }

    /** The directory, and without what may be a password, the address of a server that is not ours. */
    private String place() {
        String url = environment.getProperty("spring.datasource.url");
        return url == null ? data.toString() : data + " and " + url.split("\\?", 2)[0];
    }
}
