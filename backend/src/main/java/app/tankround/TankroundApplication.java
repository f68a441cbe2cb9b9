package app.tankround;

import org.springframework.boot.SpringApplication;
import org.springframework.boot.autoconfigure.SpringBootApplication;
import org.springframework.util.ResourceUtils;

/** The program: pages, API and jobs over one PostgreSQL database. */
@SpringBootApplication
public class TankroundApplication {

    /** What the build works out about the beans; only the packaged program holds it. */
    private static final String WORKED_OUT = "TankroundApplication__ApplicationContextInitializer.class";

    public static void main(String[] args) {
        var workedOut = TankroundApplication.class.getResource(WORKED_OUT);
        if (workedOut != null && ResourceUtils.isJarURL(workedOut)) {
            System.setProperty("spring.aot.enabled", "true");
        }
        SpringApplication.run(TankroundApplication.class, args);
    }
}
