package app.tankround.persistence;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import app.tankround.TankroundApplication;
import app.tankround.testing.ChildJvm;
import app.tankround.testing.TestDatabase;
import app.tankround.testing.TestDirectories;
import app.tankround.testing.TestPostgres;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.DriverManager;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.springframework.boot.builder.SpringApplicationBuilder;
import org.springframework.boot.web.server.PortInUseException;

/** The program as it is delivered: what it says when it starts, when it cannot, and what it leaves behind. */
class ProgramStartTests {

    static final Pattern READY =
            Pattern.compile("Tankround is ready at http://127\\.0\\.0\\.1:(\\d+) and keeps its data in (.*)");

    @Test
    void runsOnceAndLeavesNothingRunningWhenInterrupted() throws Exception {
        Path data = TestDirectories.fresh("program");
        try (ChildJvm program = start(data, "0")) {
            var ready = READY.matcher(program.await(line -> READY.matcher(line).find()));
            assertThat(ready.find()).isTrue();
            assertThat(ready.group(2)).isEqualTo(data.toString());

            try (ChildJvm samePort = start(TestDirectories.fresh("other"), ready.group(1))) {
                assertThat(samePort.awaitEnd()).contains("Port " + ready.group(1) + " was already in use");
                assertThat(samePort.exitCode()).isEqualTo(1);
            }
            try (ChildJvm sameData = start(data, "0")) {
                assertThat(sameData.awaitEnd())
                        .contains("The data directory %s is in use by another run of Tankround (process %d)."
                                .formatted(data, program.pid()))
                        .doesNotContain("\tat ");
                assertThat(sameData.exitCode()).isEqualTo(1);
            }

            ChildJvm.signal("INT", program.pid());

            assertThat(program.exitCode()).as("128 + SIGINT").isEqualTo(130);
            assertThat(serversIn(data)).isEmpty();
            assertThat(data.resolve("postgresql/cluster/postmaster.pid")).doesNotExist();
        }
    }

    @Test
    void endsWhenItsServerDies() throws Exception {
        Path data = TestDirectories.fresh("program");
        try (ChildJvm program = start(data, "0")) {
            program.await(line -> READY.matcher(line).find());

            ChildJvm.signal(
                    "KILL",
                    Long.parseLong(Files.readAllLines(data.resolve("postgresql/cluster/postmaster.pid"))
                            .getFirst()));

            assertThat(program.awaitEnd()).contains("The database server in %s ended unexpectedly".formatted(data));
            assertThat(program.exitCode()).isEqualTo(1);
        }
    }

    @Test
    void findsThePortInUseBeforeItTouchesTheDatabase() throws Exception {
        TestDatabase database = TestPostgres.shared().createEmpty();
        try (var taken = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            int port = taken.getLocalPort();

            assertThatExceptionOfType(PortInUseException.class)
                    .isThrownBy(() -> new SpringApplicationBuilder(TankroundApplication.class)
                            .properties("spring.main.register-shutdown-hook=false")
                            .run(
                                    "--server.port=" + port,
                                    "--spring.datasource.url=" + database.jdbcUrl(),
                                    "--spring.datasource.username=" + database.username(),
                                    "--spring.datasource.password=" + database.password()))
                    .satisfies(refusal -> assertThat(refusal.getPort()).isEqualTo(port));
        }

        try (var connection =
                        DriverManager.getConnection(database.jdbcUrl(), database.username(), database.password());
                var tables = connection.getMetaData().getTables(null, "public", "%", new String[] {"TABLE"})) {
            assertThat(tables.next())
                    .as("any table, the migrations' history included")
                    .isFalse();
        }
    }

    @Test
    void findsThePortInUseBeforeItSetsUpAServer() throws Exception {
        Path data = TestDirectories.fresh("program").resolve("data");
        try (var taken = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            assertThatExceptionOfType(PortInUseException.class)
                    .isThrownBy(() -> new SpringApplicationBuilder(TankroundApplication.class)
                            .run("--server.port=" + taken.getLocalPort(), "--tankround.data=" + data));
        }

        assertThat(data).doesNotExist();
    }

    @Test
    void findsThePortForHttpsInUseToo() throws Exception {
        Path data = TestDirectories.fresh("program").resolve("data");
        try (var taken = new ServerSocket(0)) {
            int port = taken.getLocalPort();
            assertThatExceptionOfType(StartFailure.class)
                    .isThrownBy(() -> new SpringApplicationBuilder(TankroundApplication.class)
                            .run("--server.port=0", "--tankround.https.port=" + port, "--tankround.data=" + data))
                    .withMessage("Port %d, on which HTTPS is to be answered, was already in use.".formatted(port))
                    .satisfies(failure -> assertThat(failure.remedy()).contains("--tankround.https.port="));
        }

        assertThat(data).doesNotExist();
    }

    @Test
    void saysInOneSentenceWhyThereIsNoCertificate() throws Exception {
        Path data = TestDirectories.fresh("program");
        Path authority = Files.createDirectories(data.resolve("https")).resolve("authority.pem");
        Files.writeString(authority, "not any more");

        try (ChildJvm program = start(data, "0")) {
            assertThat(program.awaitEnd())
                    .contains("The certificate authority in " + authority + " cannot be read")
                    .contains("Put it back from a copy")
                    .doesNotContain("\tat ");
            assertThat(program.exitCode()).isEqualTo(1);
        }
        assertThat(serversIn(data)).isEmpty();
    }

    private static ChildJvm start(Path data, String port) throws IOException {
        return ChildJvm.ofProgram(
                TankroundApplication.class,
                Map.of("TANKROUND_DATA", data.toString(), "SERVER_PORT", port, "TANKROUND_HTTPS_PORT", "0"));
    }

    static List<ProcessHandle> serversIn(Path data) {
        return ProcessHandle.allProcesses()
                .filter(process -> process.info().command().orElse("").startsWith(data.toString()))
                .toList();
    }
}
