package app.tankround;

import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAPackage;

import org.junit.jupiter.api.Test;
import org.springframework.modulith.core.ApplicationModules;

class ModularityTests {

    /**
     * The printed documents are a Maven module of their own that knows nothing of this one; {@link ArchitectureTests}
     * holds that, so here they count as a library.
     */
    private static final ApplicationModules MODULES =
            ApplicationModules.of(TankroundApplication.class, resideInAPackage("app.tankround.reports.."));

    @Test
    void everyModuleDependsOnlyOnWhatItNames() {
        MODULES.verify();
    }
}
