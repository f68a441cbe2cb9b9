package app.tankround.network;

import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.beans.factory.DisposableBean;
import org.springframework.boot.context.event.ApplicationReadyEvent;
import org.springframework.context.event.EventListener;
import org.springframework.stereotype.Component;

/**
 * Looks once a minute whether the certificate is still the right one: the machine was given another address, its end is
 * near, or somebody put other files in place. No job of the database, since each instance has a certificate of its own.
 */
@Component
class CertificateWatch implements DisposableBean {

    private static final Logger LOG = LoggerFactory.getLogger(CertificateWatch.class);

    private final HttpsConnector connector;
    private final ScheduledExecutorService watch = Executors.newSingleThreadScheduledExecutor(
            Thread.ofPlatform().name("certificate-watch").daemon().factory());

    CertificateWatch(HttpsConnector connector) {
        this.connector = connector;
    }

    @EventListener
    void begin(ApplicationReadyEvent event) {
        watch.scheduleWithFixedDelay(this::look, 1, 1, TimeUnit.MINUTES);
    }

    private void look() {
        try {
            connector.follow();
        } catch (RuntimeException e) {
            LOG.error("HTTPS goes on with the certificate that it has: {}", e.getMessage());
        }
    }

    @Override
    public void destroy() {
        watch.shutdownNow();
    }
}
