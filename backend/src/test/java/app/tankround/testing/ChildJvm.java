package app.tankround.testing;

import java.io.BufferedReader;
import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.function.Predicate;
import java.util.stream.Collectors;

/** A program of its own, started from this JVM's class path, so that it can be killed. */
public final class ChildJvm implements AutoCloseable {

    /** Whoever runs the build in the background ignores SIGINT, and a child would inherit that. */
    private static final List<String> INTERRUPTIBLE = List.of("env", "--default-signal=INT");

    private final Process process;
    private final BufferedReader output;
    private final StringBuilder said = new StringBuilder();

    private ChildJvm(List<String> prefix, Map<String, String> environment, List<String> arguments) throws IOException {
        var command = new ArrayList<>(prefix);
        command.addAll(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:TieredStopAtLevel=1",
                "-Xmx300m"));
        command.addAll(arguments);
        var builder = new ProcessBuilder(command).redirectErrorStream(true);
        builder.environment().putAll(environment);
        process = builder.start();
        output = process.inputReader();
    }

    /** Runs a main class of the tests, with a command such as {@code unshare} in front of it. */
    public static ChildJvm ofTests(List<String> prefix, Class<?> main, String... arguments) throws IOException {
        var all = new ArrayList<>(List.of("-cp", classPath(true), main.getName()));
        all.addAll(List.of(arguments));
        return new ChildJvm(prefix, Map.of(), all);
    }

    /** Runs a main class as it is delivered, without the tests' own beans. */
    public static ChildJvm ofProgram(Class<?> main, Map<String, String> environment) throws IOException {
        return new ChildJvm(INTERRUPTIBLE, environment, List.of("-cp", classPath(false), main.getName()));
    }

    /** Runs the packaged program. */
    public static ChildJvm ofJar(Path jar, Map<String, String> environment) throws IOException {
        return new ChildJvm(INTERRUPTIBLE, environment, List.of("-jar", jar.toString()));
    }

    private static String classPath(boolean withTests) {
        return Arrays.stream(System.getProperty("java.class.path").split(File.pathSeparator))
                .filter(entry -> withTests || !entry.contains("test-classes"))
                .collect(Collectors.joining(File.pathSeparator));
    }

    public long pid() {
        return process.pid();
    }

    /** Reads on to the first line that fits. */
    public String await(Predicate<String> fits) throws IOException {
        for (String line = output.readLine(); line != null; line = output.readLine()) {
            said.append(line).append('\n');
            if (fits.test(line)) {
                return line;
            }
        }
        throw new IOException("ended before the awaited line, after saying: " + said);
    }

    /** All it ever said, once it has ended. */
    public String awaitEnd() throws IOException {
        for (String line = output.readLine(); line != null; line = output.readLine()) {
            said.append(line).append('\n');
        }
        return said.toString();
    }

    public int exitCode() throws InterruptedException {
        if (!process.waitFor(30, TimeUnit.SECONDS)) {
            throw new IllegalStateException("still running after 30 s, having said: " + said);
        }
        return process.exitValue();
    }

    /** Sends one signal to several processes in one go. */
    public static void signal(String name, long... pids) throws IOException, InterruptedException {
        String all = Arrays.stream(pids).mapToObj(Long::toString).collect(Collectors.joining(" "));
        new ProcessBuilder("sh", "-c", "kill -" + name + " " + all)
                .inheritIO()
                .start()
                .waitFor();
    }

    @Override
    public void close() {
        process.destroyForcibly();
        try {
            output.close();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
