package app.tankround.persistence;

import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.beans.factory.DisposableBean;
import org.springframework.beans.factory.support.DefaultListableBeanFactory;
import org.springframework.context.ApplicationContextInitializer;
import org.springframework.context.ConfigurableApplicationContext;

/**
 * Lets the PostgreSQL that the program brings along start while the beans are still being read, since neither needs the
 * other; whoever asks for the server waits for it. It is ended with the context, also with one that never got ready.
 */
class EarlyPostgres implements ApplicationContextInitializer<ConfigurableApplicationContext> {

    /** Naming a server of one's own. */
    static final String OTHER_SERVER = "spring.datasource.url";

    private static final Logger LOG = LoggerFactory.getLogger(EarlyPostgres.class);

    @Override
    public void initialize(ConfigurableApplicationContext context) {
        if (!(context.getBeanFactory() instanceof DefaultListableBeanFactory beans)
                || context.getEnvironment().containsProperty(OTHER_SERVER)) {
            return;
        }
        var starting = new Starting(PersistenceConfiguration.dataDirectory(context.getEnvironment()));
        beans.registerSingleton("startingPostgres", starting);
        beans.registerDisposableBean("startingPostgres", starting);
    }

    /** A server that has been told to start. */
    static final class Starting implements DisposableBean {

        private final CompletableFuture<EmbeddedPostgres> server = new CompletableFuture<>();

        Starting(DataDirectory data) {
            // A thread of its own inherits the class loader that finds the JDBC driver in the packaged program.
            server.completeAsync(
                    () -> EmbeddedPostgres.start(data.path(), problem -> {
                        LOG.error(problem);
                        System.exit(1);
                    }),
                    start -> new Thread(start, "postgres-start").start());
        }

        /**
         * The server, as soon as it answers.
         *
         * @throws DatabaseStartException as {@link EmbeddedPostgres#start} does
         */
        EmbeddedPostgres await() {
            try {
                return server.join();
            } catch (CompletionException e) {
                if (e.getCause() instanceof RuntimeException refusal) {
                    throw refusal;
                }
                throw e;
            }
        }

        @Override
        public void destroy() {
            server.thenAccept(EmbeddedPostgres::close)
                    .exceptionally(refused -> null)
                    .join();
        }
    }
}
