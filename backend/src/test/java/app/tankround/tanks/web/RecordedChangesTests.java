package app.tankround.tanks.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.Reader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Properties;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** The page of a system has words for all that any module writes into its history. */
class RecordedChangesTests {

    private static final Path SOURCES = Path.of("src", "main", "java");
    private static final Path WORDS = Path.of("src", "main", "resources", "messages", "tanks.properties");

    /** The third argument: subject and action come before what changed. */
    private static final Pattern RECORDED =
            Pattern.compile("\\.record\\(\\s*\"water-system\",[^;\"]*?,\\s*\"([a-z-]+)\"", Pattern.DOTALL);

    @Test
    void hasWordsForEachOfThem() throws IOException {
        Set<String> recorded = new TreeSet<>();
        try (Stream<Path> files = Files.walk(SOURCES)) {
            for (Path file :
                    files.filter(each -> each.toString().endsWith(".java")).toList()) {
                Matcher matcher = RECORDED.matcher(Files.readString(file));
                while (matcher.find()) {
                    recorded.add(matcher.group(1));
                }
            }
        }
        assertThat(recorded).contains("added", "class-changed", "treatment-begun", "veterinary-order", "work-settled");
        Properties words = new Properties();
        try (Reader reader = Files.newBufferedReader(WORDS, StandardCharsets.UTF_8)) {
            words.load(reader);
        }
        assertThat(recorded).allSatisfy(action -> assertThat(words).containsKey("tanks.history." + action));
    }
}
