package app.tankround.chemistry;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.chemistry.calculator.AnswerJson;
import app.tankround.chemistry.calculator.CommandLine;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The command line of DEVELOPERS.md as it stands there, on the packaged program; Maven runs this after packaging. */
class CalculatePackagedTests {

    private static final Path PROJECT = Path.of("..").toAbsolutePath().normalize();
    private static final Pattern COMMAND =
            Pattern.compile("`(java -cp \\S+ -Dloader\\.main=\\S*Calculate \\S+PropertiesLauncher)((?: [^`\\s]+)+)`");

    private record Run(int exit, String output) {}

    @Test
    void runsTheLineThatTheGuideShows() throws Exception {
        Matcher command = command();

        Run run = run(command.group(1) + command.group(2));

        assertThat(run.exit()).isZero();
        assertThat(run.output())
                .startsWith("{\"results\":{")
                .isEqualTo(printed(command.group(2).strip()));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "seawater-density salinity=35 temperature_c=25 temperature_scale=IPTS-68 | 0",
                "seawater-density salinity=35 temperature_c=41 | 2",
                "seawater-density salinity=salt temperature_c=25 | 64",
                "seawater-density temperature_c=25 | 64",
                "seawater-density salinity=35 temperature_c=25 depth_m=3 | 64",
                "seawater-density salinity=35 salinity=36 temperature_c=25 | 64",
                "sea-density salinity=35 | 64"
            })
    void endsWithTheStatusOfItsAnswer(String words, int exit) throws Exception {
        Run run = run(command().group(1) + " " + words);

        assertThat(run.exit()).isEqualTo(exit);
        assertThat(run.output()).isEqualTo(printed(words));
    }

    private static String printed(String words) {
        return AnswerJson.write(CommandLine.answer(List.of(words.split(" "))).body()) + "\n";
    }

    private static Matcher command() throws IOException {
        Matcher command = COMMAND.matcher(Files.readString(PROJECT.resolve("DEVELOPERS.md")));
        assertThat(command.find()).as("the command line in DEVELOPERS.md").isTrue();
        return command;
    }

    private static Run run(String line) throws IOException, InterruptedException {
        var builder = new ProcessBuilder("sh", "-c", line).directory(PROJECT.toFile());
        String java = Path.of(System.getProperty("java.home"), "bin").toString();
        builder.environment().merge("PATH", java, (path, first) -> first + ":" + path);
        Process process = builder.start();
        process.getOutputStream().close();
        String output = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        String errors = new String(process.getErrorStream().readAllBytes(), StandardCharsets.UTF_8);
        assertThat(process.waitFor(60, TimeUnit.SECONDS)).isTrue();
        assertThat(errors).isEmpty();
        return new Run(process.exitValue(), output);
    }
}
