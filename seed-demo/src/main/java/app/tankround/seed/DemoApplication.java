package app.tankround.seed;

import app.tankround.TankroundApplication;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.stream.Stream;
import org.springframework.boot.SpringApplication;
import org.springframework.boot.autoconfigure.SpringBootApplication;

/** The program with the invented business, on the working copy's own data directory. */
@SpringBootApplication(scanBasePackageClasses = TankroundApplication.class)
public class DemoApplication {

    private static final String DATA = ".tankround";

    public static void main(String[] args) {
        application().run(args);
    }

    /** The application with its defaults; {@code tankround.data} given by argument or environment goes before them. */
    static SpringApplication application() {
        var application = new SpringApplication(DemoApplication.class);
        application.setDefaultProperties(Map.of(
                "tankround.data",
                besideParent(Path.of("").toAbsolutePath()).resolve(DATA).toString()));
        return application;
    }

    /** The outermost folder above with a POM in it: Maven runs the demo inside its module. */
    static Path besideParent(Path workingDirectory) {
        return Stream.iterate(workingDirectory, folder -> folder != null, Path::getParent)
                .takeWhile(folder -> Files.exists(folder.resolve("pom.xml")))
                .reduce((inner, outer) -> outer)
                .orElse(workingDirectory);
    }
}
