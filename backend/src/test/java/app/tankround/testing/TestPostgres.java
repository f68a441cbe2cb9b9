package app.tankround.testing;

import app.tankround.persistence.EmbeddedPostgres;
import java.io.IOException;
import java.sql.Connection;
import java.sql.SQLException;
import java.time.Duration;
import java.util.concurrent.atomic.AtomicInteger;
import org.flywaydb.core.Flyway;
import org.jspecify.annotations.Nullable;
import org.testcontainers.DockerClientFactory;
import org.testcontainers.postgresql.PostgreSQLContainer;
import org.testcontainers.utility.DockerImageName;

/**
 * The one PostgreSQL server of this JVM's integration tests.
 *
 * <p>The system property {@code tankround.test.postgres} chooses it: {@code embedded} (the default) is the server that
 * the program brings along, {@code testcontainers} the image named by {@code tankround.test.image}.
 */
public final class TestPostgres {

    private static final String EMBEDDED = "embedded";
    private static final String CONTAINERS = "testcontainers";
    private static final String TEMPLATE = "migrated";
    private static final Duration RECOVERY = Duration.ofSeconds(30);

    private static @Nullable TestPostgres shared;

    private final Server server;
    private final AtomicInteger databases = new AtomicInteger();

    private TestPostgres(Server server) {
        this.server = server;
        createEmpty(TEMPLATE);
        Flyway.configure()
                .dataSource(server.jdbcUrl(TEMPLATE), EmbeddedPostgres.ROLE, server.rolePassword())
                .load()
                .migrate();
    }

    /** Started and migrated at its first use. */
    public static synchronized TestPostgres shared() {
        if (shared == null) {
            shared = new TestPostgres(startServer(chosen()));
        }
        return shared;
    }

    /** Whether the server that was chosen can be had here. */
    static boolean isAvailable() {
        return !chosen().equals(CONTAINERS) || DockerClientFactory.instance().isDockerAvailable();
    }

    private static String chosen() {
        return System.getProperty("tankround.test.postgres", EMBEDDED);
    }

    /** A new database with all tables and no rows beyond the migrations' own. */
    public TestDatabase createMigrated() {
        String name = "test_" + databases.incrementAndGet();
        asSuperuser("create database %s template %s owner %s".formatted(name, TEMPLATE, EmbeddedPostgres.ROLE));
        return describe(name);
    }

    /** A new database without tables. */
    public TestDatabase createEmpty() {
        return createEmpty("empty_" + databases.incrementAndGet());
    }

    private TestDatabase createEmpty(String name) {
        asSuperuser("create database %s owner %s".formatted(name, EmbeddedPostgres.ROLE));
        return describe(name);
    }

    private TestDatabase describe(String name) {
        return new TestDatabase(server.jdbcUrl(name), EmbeddedPostgres.ROLE, server.rolePassword());
    }

    /** Lets it die as it does when one of its processes is killed: all connections break, then it recovers by itself. */
    public void crash() throws SQLException, IOException, InterruptedException {
        try (Connection connection = connectAsSuperuser();
                var statement = connection.createStatement();
                var row = statement.executeQuery("select pg_backend_pid()")) {
            row.next();
            server.kill(row.getLong(1));
        }
        boolean recovered = false;
        for (long until = System.nanoTime() + RECOVERY.toNanos(); !recovered; ) {
            try (Connection connection = connectAsSuperuser()) {
                recovered = connection.isValid(1);
            } catch (SQLException recovering) {
                if (System.nanoTime() > until) {
                    throw recovering;
                }
                Thread.sleep(50);
            }
        }
    }

    Connection connectAsSuperuser() throws SQLException {
        return server.connectAsSuperuser();
    }

    private void asSuperuser(String sql) {
        try (Connection connection = connectAsSuperuser();
                var statement = connection.createStatement()) {
            statement.execute(sql);
        } catch (SQLException e) {
            throw new IllegalStateException(e);
        }
    }

    static synchronized void closeIfStarted() {
        if (shared != null) {
            shared.server.close();
            shared = null;
        }
    }

    private static Server startServer(String choice) {
        return switch (choice) {
            case EMBEDDED ->
                new EmbeddedServer(EmbeddedPostgres.start(TestDirectories.fresh("server"), problem -> {
                    throw new IllegalStateException(problem);
                }));
            case CONTAINERS -> ContainerServer.start(System.getProperty("tankround.test.image", "postgres:18"));
            default ->
                throw new IllegalArgumentException(
                        "tankround.test.postgres must be embedded or testcontainers, was " + choice);
        };
    }

    private interface Server {

        String jdbcUrl(String database);

        String rolePassword();

        Connection connectAsSuperuser() throws SQLException;

        void kill(long process) throws IOException, InterruptedException;

        void close();
    }

    private record EmbeddedServer(EmbeddedPostgres postgres) implements Server {

        @Override
        public String jdbcUrl(String database) {
            return postgres.jdbcUrl(database);
        }

        @Override
        public String rolePassword() {
            return postgres.password();
        }

        @Override
        public Connection connectAsSuperuser() throws SQLException {
            return postgres.connectAsSuperuser();
        }

        @Override
        public void kill(long process) throws IOException, InterruptedException {
            ChildJvm.signal("KILL", process);
        }

        @Override
        public void close() {
            postgres.close();
        }
    }

    private record ContainerServer(PostgreSQLContainer container) implements Server {

        static ContainerServer start(String image) {
            if (!isAvailable()) {
                throw new IllegalStateException(
                        "tankround.test.postgres is testcontainers, but no Docker engine answers here.");
            }
            var container = new PostgreSQLContainer(DockerImageName.parse(image).asCompatibleSubstituteFor("postgres"));
            container.start();
            var server = new ContainerServer(container);
            try (Connection connection = server.connectAsSuperuser();
                    var statement = connection.createStatement()) {
                statement.execute(
                        "create role %s login password '%s'".formatted(EmbeddedPostgres.ROLE, server.rolePassword()));
            } catch (SQLException e) {
                throw new IllegalStateException(e);
            }
            return server;
        }

        @Override
        public String jdbcUrl(String database) {
            return "jdbc:postgresql://%s:%d/%s"
                    .formatted(
                            container.getHost(),
                            container.getMappedPort(PostgreSQLContainer.POSTGRESQL_PORT),
                            database);
        }

        @Override
        public String rolePassword() {
            return container.getPassword();
        }

        @Override
        public Connection connectAsSuperuser() throws SQLException {
            return container.createConnection("");
        }

        @Override
        public void kill(long process) throws IOException, InterruptedException {
            container.execInContainer("sh", "-c", "kill -KILL " + process);
        }

        @Override
        public void close() {
            container.stop();
        }
    }
}
