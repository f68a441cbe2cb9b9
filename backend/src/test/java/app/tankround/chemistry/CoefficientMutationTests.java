package app.tankround.chemistry;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.function.ToDoubleFunction;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;

/**
 * The published check values would not let a misprinted coefficient pass: each one moved by 0.1 % either way disagrees with
 * at least one of them, while all of them agree with the coefficients as they stand.
 */
class CoefficientMutationTests {

    private record Cell(String source, double expected, double tolerance, ToDoubleFunction<double[]> computed) {

        boolean agrees(double[] coefficients) {
            return Math.abs(computed.applyAsDouble(coefficients) - expected) <= tolerance;
        }
    }

    /** Fofonoff and Millard 1983, UNESCO Technical Papers in Marine Science 44, page 19. */
    private static final List<Cell> DENSITIES = List.of(
            density(0, 5, 999.96675),
            density(0, 25, 997.04796),
            density(35, 5, 1027.67547),
            density(35, 25, 1023.34306));

    /** UNESCO 44, pages 9, 13 and 14, and the check cast of the TEOS-10 library. */
    private static final List<Cell> SALINITIES = List.of(
            salinity(1, 15, 35, 0.000002),
            salinity(0.6990725, 0, 36.2864, 0.0002),
            salinity(0.6990725, 30, 16.7100, 0.0002),
            salinity(1.1651206, 20, 36.7173, 0.0002),
            salinity(
                    55.19754712635529 / PracticalSalinity.CONDUCTIVITY_35_15,
                    TemperatureScale.t68(27.962),
                    34.306287393,
                    1e-7));

    /** Worked out in Python from the coefficients of Quan and Fry 1995, Applied Optics 34, 3477. */
    private static final List<Cell> INDICES = List.of(
            index(35, 25, 589.3, 1.338857777608),
            index(20, 10, 450, 1.343840694102),
            index(0, 30, 700, 1.329116078717),
            index(33, 20, 550, 1.340420089331));

    private static Cell density(double s, double t68, double expected) {
        return new Cell(
                "UNESCO 44 p. 19", expected, 0.00002, k -> SeawaterDensity.kilogramsPerCubicMetreAtT68(s, t68, k));
    }

    private static Cell salinity(double ratio, double t68, double expected, double tolerance) {
        return new Cell(
                "UNESCO 44, TEOS-10", expected, tolerance, k -> PracticalSalinity.salinityOfRatio(ratio, t68, k));
    }

    private static Cell index(double s, double t, double nanometres, double expected) {
        return new Cell("Quan and Fry 1995", expected, 1e-11, n -> RefractiveIndex.quanFry(s, t, nanometres, n));
    }

    @TestFactory
    Stream<DynamicTest> noCoefficientOfDensityMayMove() {
        return eachMoved(SeawaterDensity.EOS_80, DENSITIES);
    }

    @TestFactory
    Stream<DynamicTest> noCoefficientOfPracticalSalinityMayMove() {
        return eachMoved(PracticalSalinity.PSS_78, SALINITIES);
    }

    @TestFactory
    Stream<DynamicTest> noCoefficientOfRefractionMayMove() {
        return eachMoved(RefractiveIndex.QUAN_FRY, INDICES);
    }

    private static Stream<DynamicTest> eachMoved(double[] published, List<Cell> cells) {
        return IntStream.range(0, published.length)
                .mapToObj(i -> DynamicTest.dynamicTest(
                        "coefficient " + i + " [" + cells.getFirst().source() + "]", () -> {
                            assertThat(cells).allMatch(cell -> cell.agrees(published));
                            assertThat(cells).anyMatch(cell -> !cell.agrees(moved(published, i, 1.001)));
                            assertThat(cells).anyMatch(cell -> !cell.agrees(moved(published, i, 0.999)));
                        }));
    }

    private static double[] moved(double[] published, int which, double by) {
        double[] coefficients = published.clone();
        coefficients[which] *= by;
        return coefficients;
    }
}
