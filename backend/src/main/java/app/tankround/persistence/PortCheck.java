package app.tankround.persistence;

import java.io.IOException;
import java.net.BindException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import org.springframework.boot.web.server.PortInUseException;
import org.springframework.boot.web.server.context.ConfigurableWebServerApplicationContext;
import org.springframework.context.ApplicationContextInitializer;
import org.springframework.context.ConfigurableApplicationContext;
import org.springframework.core.env.Environment;

/**
 * Asks before anything else whether the web server's ports are free.
 *
 * <p>The web server itself finds out only after the migrations ran, which a second start by mistake must not do.
 */
class PortCheck implements ApplicationContextInitializer<ConfigurableApplicationContext> {

    private static final int DEFAULT_PORT = 8080;
    private static final int DEFAULT_HTTPS_PORT = 8443;

    @Override
    public void initialize(ConfigurableApplicationContext context) {
        if (!(context instanceof ConfigurableWebServerApplicationContext)) {
            return;
        }
        Environment environment = context.getEnvironment();
        int port = environment.getProperty("server.port", Integer.class, DEFAULT_PORT);
        try {
            bind(environment, port);
        } catch (IOException e) {
            // Any other refusal is left to the web server, which knows more about it.
            PortInUseException.throwIfPortBindingException(e, () -> port);
        }
        int https = environment.getProperty("tankround.https.port", Integer.class, DEFAULT_HTTPS_PORT);
        try {
            bind(environment, https);
        } catch (BindException e) {
            throw new StartFailure(
                    "Port %d, on which HTTPS is to be answered, was already in use.".formatted(https),
                    "Stop what listens there, or choose another port with --tankround.https.port=PORT.",
                    e);
        } catch (IOException e) {
            // As above.
        }
    }

    private static void bind(Environment environment, int port) throws IOException {
        if (port <= 0) {
            return;
        }
        String address = environment.getProperty("server.address");
        try (var socket = new ServerSocket()) {
            // As the web server does: a port that only waits for its last packets is free.
            socket.setReuseAddress(true);
            socket.bind(
                    address == null
                            ? new InetSocketAddress(port)
                            : new InetSocketAddress(InetAddress.getByName(address), port));
        }
    }
}
