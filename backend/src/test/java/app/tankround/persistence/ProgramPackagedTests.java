package app.tankround.persistence;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.testing.ChildJvm;
import app.tankround.testing.TestDatabase;
import app.tankround.testing.TestDirectories;
import app.tankround.testing.TestPostgres;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.util.Map;
import java.util.jar.JarFile;
import java.util.regex.Matcher;
import org.junit.jupiter.api.Test;

/**
 * The packaged program, whose classes are found another way than in a build and whose beans were worked out when it was
 * built; Maven runs this after packaging.
 */
class ProgramPackagedTests {

    private static final Path JAR = Path.of("target", "tankround-exec.jar").toAbsolutePath();

    @Test
    void answersWithoutSignInAndLeavesNothingRunning() throws Exception {
        Path data = TestDirectories.fresh("packaged");
        try (ChildJvm program = ChildJvm.ofJar(
                JAR, Map.of("TANKROUND_DATA", data.toString(), "SERVER_PORT", "0", "TANKROUND_HTTPS_PORT", "0"))) {
            Matcher ready = ready(program);

            assertHealthy(ready.group(1));
            ChildJvm.signal("INT", program.pid());
            assertThat(program.exitCode()).as("128 + SIGINT").isEqualTo(130);
            assertThat(ProgramStartTests.serversIn(data)).isEmpty();
        }
    }

    @Test
    void usesTheServersThatItIsTold() throws Exception {
        TestDatabase database = TestPostgres.shared().createEmpty();
        Path data = TestDirectories.fresh("packaged").resolve("data");
        try (ChildJvm program = ChildJvm.ofJar(
                JAR,
                Map.of(
                        "TANKROUND_DATA", data.toString(),
                        "SERVER_PORT", "0",
                        "TANKROUND_HTTPS_PORT", "0",
                        "SPRING_DATASOURCE_URL", database.jdbcUrl(),
                        "SPRING_DATASOURCE_USERNAME", database.username(),
                        "SPRING_DATASOURCE_PASSWORD", database.password(),
                        // Nobody listens there, and the program is none the worse for it.
                        "SPRING_MAIL_HOST", "192.0.2.1"))) {
            Matcher ready = ready(program);

            assertThat(ready.group(2)).isEqualTo(data + " and " + database.jdbcUrl());
            assertThat(data.resolve("postgresql")).doesNotExist();
            assertHealthy(ready.group(1));
            ChildJvm.signal("TERM", program.pid());
            assertThat(program.exitCode()).as("128 + SIGTERM").isEqualTo(143);
        }
    }

    @Test
    void holdsItsBeansWorkedOut() throws IOException {
        try (var jar = new JarFile(JAR.toFile())) {
            assertThat(jar.getEntry(
                            "BOOT-INF/classes/app/tankround/TankroundApplication__ApplicationContextInitializer.class"))
                    .isNotNull();
        }
    }

    private static Matcher ready(ChildJvm program) throws Exception {
        Matcher ready = ProgramStartTests.READY.matcher(
                program.await(line -> ProgramStartTests.READY.matcher(line).find()));
        assertThat(ready.find()).isTrue();
        return ready;
    }

    private static void assertHealthy(String port) throws Exception {
        try (HttpClient client = HttpClient.newHttpClient()) {
            URI health = URI.create("http://127.0.0.1:" + port + "/actuator/health");
            HttpResponse<String> answer =
                    client.send(HttpRequest.newBuilder(health).build(), HttpResponse.BodyHandlers.ofString());
            assertThat(answer.statusCode()).isEqualTo(200);
            assertThat(answer.body()).contains("UP");
        }
    }
}
