package app.tankround.persistence;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.net.UnknownHostException;
import org.springframework.boot.web.server.PortInUseException;
import org.springframework.boot.web.server.context.ConfigurableWebServerApplicationContext;
import org.springframework.context.ApplicationContextInitializer;
import org.springframework.context.ConfigurableApplicationContext;

/**
 * Asks before anything else whether the web server's port is free.
 *
 * <p>The web server itself finds out only after the migrations ran, which a second start by mistake must not do.
 */
class PortCheck implements ApplicationContextInitializer<ConfigurableApplicationContext> {

    private static final int DEFAULT_PORT = 8080;

    @Override
    public void initialize(ConfigurableApplicationContext context) {
        if (!(context instanceof ConfigurableWebServerApplicationContext)) {
            return;
        }
        int port = context.getEnvironment().getProperty("server.port", Integer.class, DEFAULT_PORT);
        if (port <= 0) {
            return;
        }
        try (var socket = new ServerSocket()) {
            // As the web server does: a port that only waits for its last packets is free.
            socket.setReuseAddress(true);
            socket.bind(new InetSocketAddress(address(context), port));
        } catch (IOException e) {
            // Any other refusal is left to the web server, which knows more about it.
            PortInUseException.throwIfPortBindingException(e, () -> port);
        }
    }

    private static InetAddress address(ConfigurableApplicationContext context) throws UnknownHostException {
        return InetAddress.getByName(context.getEnvironment().getProperty("server.address", "127.0.0.1"));
    }
}
