package app.tankround.chemistry;

import static com.tngtech.archunit.base.DescribedPredicate.not;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAPackage;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAnyPackage;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;

import app.tankround.chemistry.calculator.AnswerJson;
import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaMethodCall;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;
import java.util.Set;

/** What keeps chemistry pure, and equal on the server and in the browser. */
@AnalyzeClasses(
        packages = {"app.tankround.chemistry", "app.tankround.units"},
        importOptions = ImportOption.DoNotIncludeTests.class)
class ChemistryArchitectureTests {

    /** Equal on both sides, or within a few units in the last place; others of java.lang.Math are not. */
    private static final Set<String> SAFE_FUNCTIONS =
            Set.of("sqrt", "pow", "exp", "log", "abs", "min", "max", "floor", "ceil");

    @ArchTest
    static final ArchRule unitsDependOnTheJdkAlone = classes()
            .that()
            .resideInAPackage("app.tankround.units")
            .and()
            .doNotHaveSimpleName("package-info")
            .should()
            .onlyDependOnClassesThat()
            .resideInAnyPackage(
                    "app.tankround.units", "java.lang..", "java.util..", "java.io", "java.math", "org.jspecify..");

    @ArchTest
    static final ArchRule chemistryDependsOnUnitsAndTheJdkAlone = classes()
            .that()
            .resideInAPackage("app.tankround.chemistry")
            .and()
            .doNotHaveSimpleName("package-info")
            .and(areNotTheCommandLine())
            .should()
            .onlyDependOnClassesThat()
            .resideInAnyPackage(
                    "app.tankround.chemistry", "app.tankround.units", "java.lang..", "java.util..", "org.jspecify..");

    @ArchTest
    static final ArchRule calculatorsDependOnChemistryAndTheJdkAlone = classes()
            .that()
            .resideInAPackage("app.tankround.chemistry.calculator")
            .and()
            .doNotHaveSimpleName("package-info")
            .and(areNotTheirJson())
            .should()
            .onlyDependOnClassesThat(resideInAnyPackage(
                            "app.tankround.chemistry..",
                            "app.tankround.units",
                            "java.lang..",
                            "java.util..",
                            "java.io",
                            "java.math",
                            "org.jspecify..")
                    .and(not(resideInAPackage("app.tankround.chemistry.browser"))));

    @ArchTest
    static final ArchRule formulasKnowNoCalculator = noClasses()
            .that()
            .resideInAnyPackage("app.tankround.chemistry", "app.tankround.chemistry.browser")
            .and(areNotTheCommandLine())
            .should()
            .dependOnClassesThat()
            .resideInAPackage("app.tankround.chemistry.calculator");

    @ArchTest
    static final ArchRule browserFaceDependsOnNothingElse = classes()
            .that()
            .resideInAPackage("app.tankround.chemistry.browser")
            .should()
            .onlyDependOnClassesThat(
                    resideInAnyPackage("app.tankround.chemistry..", "app.tankround.units", "java.lang..", "java.util..")
                            .or(resideInAPackage("org.teavm.jso.."))
                            .or(resideInAPackage("org.jspecify..")));

    @ArchTest
    static final ArchRule functionsAreThoseThatAgreeInTheBrowser = noClasses()
            .should()
            .callMethodWhere(call(
                    "a function of java.lang.Math that differs in the browser",
                    target -> target.owner().equals("java.lang.Math") && !SAFE_FUNCTIONS.contains(target.name())
                            || target.owner().equals("java.lang.StrictMath")));

    @ArchTest
    static final ArchRule nothingIsFormattedOrLookedUpByName = noClasses()
            .should()
            .callMethodWhere(call(
                    "formatting, or an enum constant by name",
                    target -> target.owner().equals("java.lang.String")
                                    && Set.of("format", "formatted", "matches", "replaceAll", "split")
                                            .contains(target.name())
                            || target.name().equals("valueOf") && target.returnsEnum()))
            .orShould()
            .dependOnClassesThat()
            .resideInAnyPackage("java.text..", "java.util.regex..", "java.time..");

    /** The main class calls calculators and prints; it computes nothing. */
    private static DescribedPredicate<JavaClass> areNotTheCommandLine() {
        return DescribedPredicate.describe("are not the command line", type -> !type.isEquivalentTo(Calculate.class));
    }

    /** The one class that may read and write JSON. */
    private static DescribedPredicate<JavaClass> areNotTheirJson() {
        return DescribedPredicate.describe(
                "are not their JSON", type -> !type.getName().startsWith(AnswerJson.class.getName()));
    }

    private record Target(String owner, String name, boolean returnsEnum) {}

    private static DescribedPredicate<JavaMethodCall> call(
            String description, java.util.function.Predicate<Target> predicate) {
        return DescribedPredicate.describe(
                description,
                call -> predicate.test(new Target(
                        call.getTargetOwner().getName(),
                        call.getName(),
                        call.getTarget().getRawReturnType().isAssignableTo(Enum.class)
                                && !call.getOriginOwner().isEnum())));
    }
}
