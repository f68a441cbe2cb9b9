import java.io.IOException;
import java.nio.file.FileSystem;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.List;
import java.util.stream.Stream;
import javax.tools.JavaCompiler;
import javax.tools.StandardJavaFileManager;
import javax.tools.ToolProvider;
import org.springframework.boot.SpringApplicationAotProcessor;
import org.springframework.util.FileSystemUtils;

/**
 * Works out the beans of the packaged program and adds the outcome to it, and to nothing else, so that no build or test
 * ever runs on beans of yesterday. Boot's own goal would compile with Maven's JDK, which may be older than the classes.
 *
 * <p>Run by the build as a source file: {@code AheadOfTime.java APPLICATION WORK_DIRECTORY JAR}.
 */
class AheadOfTime {

    public static void main(String[] args) throws Exception {
        String application = args[0];
        Path work = Path.of(args[1]);
        Path jar = Path.of(args[2]);
        FileSystemUtils.deleteRecursively(work);
        Path sources = work.resolve("sources");
        Path resources = work.resolve("resources");
        Path classes = work.resolve("classes");
        String group = application.substring(0, application.lastIndexOf('.'));
        // Neither a database nor a port is needed here; what is said of them counts for this run only.
        SpringApplicationAotProcessor.main(new String[] {
            application,
            sources.toString(),
            resources.toString(),
            classes.toString(),
            group,
            "tankround",
            "--spring.datasource.url=jdbc:postgresql://none/none",
            "--server.port=0",
            "--tankround.https.port=0"
        });
        compile(sources, classes);
        add(classes, jar);
    }

    private static void compile(Path sources, Path classes) throws IOException {
        JavaCompiler compiler = ToolProvider.getSystemJavaCompiler();
        try (StandardJavaFileManager files = compiler.getStandardFileManager(null, null, null)) {
            String classpath = classes + System.getProperty("path.separator") + System.getProperty("java.class.path");
            List<String> options =
                    List.of("-proc:none", "-nowarn", "-XDsuppressNotes", "-d", classes.toString(), "-cp", classpath);
            if (!compiler.getTask(null, files, null, options, null, files.getJavaFileObjectsFromPaths(under(sources)))
                    .call()) {
                throw new IllegalStateException("What was generated does not compile");
            }
        }
    }

    private static void add(Path classes, Path jar) throws IOException {
        try (FileSystem archive = FileSystems.newFileSystem(jar)) {
            Path root = archive.getPath("BOOT-INF", "classes");
            for (Path file : under(classes)) {
                Path place = root.resolve(classes.relativize(file).toString());
                Files.createDirectories(place.getParent());
                Files.copy(file, place, StandardCopyOption.REPLACE_EXISTING);
            }
        }
    }

    private static List<Path> under(Path directory) throws IOException {
        try (Stream<Path> found = Files.walk(directory)) {
            return found.filter(Files::isRegularFile).toList();
        }
    }
}
