package app.tankround.testing;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.springframework.util.FileSystemUtils;

/** Directories below {@code target} that are gone when the JVM ends. */
public final class TestDirectories {

    private static final Path ROOT = root();

    private TestDirectories() {}

    /** An absolute path of a new, empty directory. */
    public static Path fresh(String name) {
        try {
            return Files.createTempDirectory(ROOT, name + "-");
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static Path root() {
        try {
            Path parent = Files.createDirectories(Path.of("target", "test-data").toAbsolutePath());
            Path root = Files.createTempDirectory(parent, "jvm-");
            Runtime.getRuntime().addShutdownHook(new Thread(() -> {
                try {
                    TestPostgres.closeIfStarted();
                    FileSystemUtils.deleteRecursively(root);
                } catch (IOException e) {
                    throw new UncheckedIOException(e);
                }
            }));
            return root;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
