package app.tankround;

import java.util.Arrays;
import org.springframework.beans.factory.BeanCreationNotAllowedException;
import org.springframework.beans.factory.config.ConfigurableListableBeanFactory;
import org.springframework.boot.SpringApplication;
import org.springframework.boot.autoconfigure.SpringBootApplication;
import org.springframework.boot.context.event.ApplicationReadyEvent;
import org.springframework.context.ApplicationListener;
import org.springframework.util.ResourceUtils;

/** The program: pages, API and jobs over one PostgreSQL database. */
@SpringBootApplication
public class TankroundApplication {

    /** What the build works out about the beans; only the packaged program holds it. */
    private static final String WORKED_OUT = "TankroundApplication__ApplicationContextInitializer.class";

    public static void main(String[] args) {
        var application = new SpringApplication(TankroundApplication.class);
        var workedOut = TankroundApplication.class.getResource(WORKED_OUT);
        if (workedOut != null && ResourceUtils.isJarURL(workedOut)) {
            System.setProperty("spring.aot.enabled", "true");
            application.setLazyInitialization(true);
            application.addListeners((ApplicationListener<ApplicationReadyEvent>)
                    event -> makeTheRest(event.getApplicationContext().getBeanFactory()));
        }
        application.run(args);
    }

    /** Makes the beans that the start did not need, so that the first page need not wait for them. */
    private static void makeTheRest(ConfigurableListableBeanFactory beans) {
        Thread.ofPlatform().name("other-beans").daemon().start(() -> {
            try {
                Arrays.stream(beans.getBeanDefinitionNames())
                        .filter(name -> beans.getBeanDefinition(name).isSingleton())
                        .forEach(beans::getBean);
            } catch (BeanCreationNotAllowedException endedMeanwhile) {
                // Nobody needs the rest any more.
            }
        });
    }
}
