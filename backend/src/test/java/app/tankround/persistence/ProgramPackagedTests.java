package app.tankround.persistence;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.testing.TestDirectories;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** The packaged program, whose classes are found another way than in a build; Maven runs this after packaging. */
class ProgramPackagedTests {

    @Test
    void answersWithoutSignInAndLeavesNothingRunning() throws Exception {
        Path data = TestDirectories.fresh("packaged");
        Path jar = Path.of("target", "tankround-exec.jar").toAbsolutePath();
        try (ChildJvm program = ChildJvm.ofJar(jar, Map.of("TANKROUND_DATA", data.toString(), "SERVER_PORT", "0"));
                HttpClient client = HttpClient.newHttpClient()) {
            var ready = ProgramStartTests.READY.matcher(
                    program.await(line -> ProgramStartTests.READY.matcher(line).find()));
            assertThat(ready.find()).isTrue();
            URI health = URI.create("http://127.0.0.1:" + ready.group(1) + "/actuator/health");

            HttpResponse<String> answer =
                    client.send(HttpRequest.newBuilder(health).build(), HttpResponse.BodyHandlers.ofString());

            assertThat(answer.statusCode()).isEqualTo(200);
            assertThat(answer.body()).contains("UP");
            ChildJvm.signal("INT", program.pid());
            assertThat(program.exitCode()).as("128 + SIGINT").isEqualTo(130);
            assertThat(ProgramStartTests.serversIn(data)).isEmpty();
        }
    }
}
