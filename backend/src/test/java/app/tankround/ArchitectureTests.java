package app.tankround;

import static com.tngtech.archunit.base.DescribedPredicate.describe;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.GeneralCodingRules.NO_CLASSES_SHOULD_USE_FIELD_INJECTION;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaMethodCall;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;
import org.springframework.data.repository.Repository;
import org.springframework.stereotype.Controller;

@AnalyzeClasses(packages = "app.tankround", importOptions = ImportOption.DoNotIncludeTests.class)
class ArchitectureTests {

    /** Time comes from the injected clock, so that tests and the demo decide what day it is. */
    @ArchTest
    static final ArchRule TIME_IS_INJECTED = noClasses()
            .should()
            .callMethodWhere(describe(
                    "reads the machine's clock",
                    (JavaMethodCall call) ->
                            call.getTarget().getOwner().getPackageName().startsWith("java.time")
                                    && call.getTarget().getName().equals("now")
                                    && call.getTarget().getRawParameterTypes().isEmpty()));

    @ArchTest
    static final ArchRule UNITS_NEED_THE_JDK_ONLY = classes()
            .that()
            .resideInAPackage("app.tankround.units..")
            .should()
            .onlyDependOnClassesThat()
            .resideInAnyPackage("java..", "app.tankround.units..", "org.jspecify..", "org.springframework.modulith..");

    @ArchTest
    static final ArchRule SOLVER_IS_PURE = noClasses()
            .that()
            .resideInAPackage("app.tankround.rounds.solver..")
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage("org.springframework..", "java.sql..", "org.slf4j..", "java.time..");

    @ArchTest
    static final ArchRule REPORTS_KNOW_NO_BACKEND = noClasses()
            .that()
            .resideInAPackage("app.tankround.reports..")
            .should()
            .dependOnClassesThat(notAReport().and(inTheProgram()))
            .orShould()
            .dependOnClassesThat()
            .resideInAnyPackage("org.springframework..", "java.sql..");

    @ArchTest
    static final ArchRule CONTROLLERS_ARE_HIDDEN =
            classes().that().areAnnotatedWith(Controller.class).should().notBePublic();

    @ArchTest
    static final ArchRule REPOSITORIES_ARE_HIDDEN =
            classes().that().areAssignableTo(Repository.class).should().notBePublic();

    @ArchTest
    static final ArchRule FIELDS_ARE_NOT_INJECTED = NO_CLASSES_SHOULD_USE_FIELD_INJECTION;

    private static DescribedPredicate<JavaClass> notAReport() {
        return describe("outside reports", type -> !type.getPackageName().startsWith("app.tankround.reports"));
    }

    private static DescribedPredicate<JavaClass> inTheProgram() {
        return describe("in the program", type -> type.getPackageName().startsWith("app.tankround"));
    }
}
