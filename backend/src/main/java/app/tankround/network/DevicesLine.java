package app.tankround.network;

import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.boot.context.event.ApplicationReadyEvent;
import org.springframework.boot.web.server.autoconfigure.ServerProperties;
import org.springframework.boot.web.server.context.WebServerApplicationContext;
import org.springframework.context.event.EventListener;
import org.springframework.core.annotation.Order;
import org.springframework.stereotype.Component;

/** Says where other devices begin. */
@Component
class DevicesLine {

    private static final Logger LOG = LoggerFactory.getLogger(DevicesLine.class);

    private final SecureAddresses addresses;

    DevicesLine(SecureAddresses addresses) {
        this.addresses = addresses;
    }

    @EventListener
    @Order(50)
    void say(ApplicationReadyEvent event) {
        if (!(event.getApplicationContext() instanceof WebServerApplicationContext web)
                || web.getWebServer() == null
                || addresses.hosts().isEmpty()) {
            return;
        }
        var only = web.getBean(ServerProperties.class).getAddress();
        if (only == null || !only.isLoopbackAddress()) {
            String host = addresses.hosts().getFirst();
            LOG.info("Other devices reach it at {}; they begin at {}", addresses.of(host, "/"), addresses.begin(host));
        }
    }
}
