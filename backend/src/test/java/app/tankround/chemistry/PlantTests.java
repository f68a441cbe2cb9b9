package app.tankround.chemistry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.within;

import app.tankround.chemistry.LiftingEquation.Coupling;
import app.tankround.chemistry.LiftingEquation.Duration;
import app.tankround.chemistry.LiftingEquation.Measures;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.Temperature;
import java.util.Random;
import org.assertj.core.api.ThrowableAssert.ThrowingCallable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Reverse osmosis, waves in basins and lifting beyond the reference tables: limits, inverses, properties. */
class PlantTests {

    @Test
    void balancesTheSaltOfAnOsmosisUnit() {
        Random random = new Random(4);
        for (int i = 0; i < 500; i++) {
            double recovery = 0.01 + 0.9 * random.nextDouble();
            double rejection = random.nextDouble();
            double concentrate = ReverseOsmosis.concentrateFactor(recovery, rejection);

            assertThat(recovery * (1 - rejection) + (1 - recovery) * concentrate)
                    .isCloseTo(1, within(1e-12));
            assertThat(ReverseOsmosis.feedSideFactor(recovery)).isBetween(1.0, 1 / (1 - recovery));
        }
        assertThat(ReverseOsmosis.recovery(0, 10)).isZero();
        assertThat(ReverseOsmosis.rejection(300, 330)).isNegative();
    }

    @Test
    void bringsAFlowTo25DegreesAndBack() {
        for (double t = 4.5; t <= 40; t += 0.5) {
            double correction = ReverseOsmosis.temperatureCorrection(new Temperature(t));
            assertThat(ReverseOsmosis.flowAt25(correction, ReverseOsmosis.flowAt(correction, 280)))
                    .isCloseTo(280, within(1e-9));
            assertThat(ReverseOsmosis.temperatureCorrection(new Temperature(t - 0.1)))
                    .isGreaterThan(correction);
        }
        assertThat(ReverseOsmosis.temperatureCorrection(new Temperature(25))).isCloseTo(1, within(1e-12));
    }

    @ParameterizedTest
    @CsvSource({"3.9", "40.1"})
    void correctsNoFlowOutsideItsTemperatures(double celsius) {
        refuses(() -> ReverseOsmosis.temperatureCorrection(new Temperature(celsius)));
    }

    @Test
    void refusesToDivideByNoFeed() {
        refuses(() -> ReverseOsmosis.recovery(0, 0));
        refuses(() -> ReverseOsmosis.rejection(0, 0));
        refuses(() -> ReverseOsmosis.concentrateFactor(1, 1));
        refuses(() -> ReverseOsmosis.feedSideFactor(0));
        refuses(() -> ReverseOsmosis.flowAt(0, 100));
    }

    /** The wave that stands once in a basin is as long as twice the basin. */
    @Test
    void findsTheLengthOfTheWaveWhosePeriodItGave() {
        Random random = new Random(5);
        for (int i = 0; i < 300; i++) {
            double length = 0.2 + 20 * random.nextDouble();
            double depth = 0.05 + 3 * random.nextDouble();
            int mode = 1 + random.nextInt(4);
            double period = StandingWave.period(length, depth, mode, StandingWave.GRAVITY);

            assertThat(StandingWave.wavelength(period, depth, StandingWave.GRAVITY))
                    .isCloseTo(2 * length / mode, within(1e-9 * length));
            assertThat(StandingWave.merianPeriod(length, depth, mode, StandingWave.GRAVITY))
                    .isLessThan(period);
            assertThat(StandingWave.period(length, depth, mode + 1, StandingWave.GRAVITY))
                    .isLessThan(period);
        }
    }

    @Test
    void meetsMerianWhereTheBasinIsLongAndTheDeepWaveWhereItIsDeep() {
        assertThat(StandingWave.merianPeriod(1000, 1, 1, StandingWave.GRAVITY)
                        / StandingWave.period(1000, 1, 1, StandingWave.GRAVITY))
                .isCloseTo(1, within(1e-5));
        assertThat(StandingWave.wavelength(1, 50, StandingWave.GRAVITY))
                .isCloseTo(StandingWave.deepWaterWavelength(1, StandingWave.GRAVITY), within(1e-9));
        refuses(() -> StandingWave.period(1, 0, 1, StandingWave.GRAVITY));
        refuses(() -> StandingWave.period(1, 1, 0, StandingWave.GRAVITY));
    }

    /** more-notes.md section 8: 25 cm, 75 cm, 25 cm and no turn are ideal; zero beyond 63 cm, 175 cm, 135 degrees. */
    @Test
    void stopsLiftingWhereTheEquationDoes() {
        Measures metric = Measures.METRIC;

        assertThat(metric.loadConstant()).isEqualTo(23);
        assertThat(metric.horizontalMultiplier(10)).isEqualTo(1);
        assertThat(metric.horizontalMultiplier(63)).isCloseTo(0.3968, within(0.0001));
        assertThat(metric.horizontalMultiplier(63.1)).isZero();
        assertThat(metric.verticalMultiplier(75)).isEqualTo(1);
        assertThat(metric.verticalMultiplier(0)).isCloseTo(0.775, within(1e-9));
        assertThat(metric.verticalMultiplier(175.1)).isZero();
        assertThat(metric.distanceMultiplier(10)).isCloseTo(1, within(1e-12));
        assertThat(metric.distanceMultiplier(175.1)).isZero();
        assertThat(LiftingEquation.asymmetryMultiplier(0)).isEqualTo(1);
        assertThat(LiftingEquation.asymmetryMultiplier(135)).isCloseTo(0.568, within(1e-9));
        assertThat(LiftingEquation.asymmetryMultiplier(135.1)).isZero();
        assertThat(Coupling.FAIR.multiplier(metric, 74.9)).isEqualTo(0.95);
        assertThat(Coupling.FAIR.multiplier(metric, 75)).isEqualTo(1);
        assertThat(Coupling.POOR.multiplier(metric, 100)).isEqualTo(0.9);
        refuses(() -> metric.horizontalMultiplier(-1));
        refuses(() -> LiftingEquation.asymmetryMultiplier(-1));
    }

    /** Waters et al., table 5, from memory; .91, .84 and .88 read in examples of the Applications Manual. */
    @ParameterizedTest
    @CsvSource({
        "0.1, UP_TO_1_HOUR, 50, 1",
        "2, UP_TO_1_HOUR, 50, 0.91",
        "3, UP_TO_1_HOUR, 50, 0.88",
        "4, UP_TO_1_HOUR, 50, 0.84",
        "2.5, UP_TO_1_HOUR, 50, 0.895",
        "2, UP_TO_2_HOURS, 50, 0.84",
        "2, UP_TO_8_HOURS, 50, 0.65",
        "12, UP_TO_1_HOUR, 50, 0.37",
        "12.5, UP_TO_1_HOUR, 50, 0",
        "15, UP_TO_1_HOUR, 80, 0.28",
        "15.1, UP_TO_1_HOUR, 80, 0",
        "8, UP_TO_8_HOURS, 50, 0.18",
        "9, UP_TO_8_HOURS, 50, 0",
        "9, UP_TO_8_HOURS, 80, 0.15"
    })
    void liftsLessTheOftener(double frequency, Duration duration, double vertical, double multiplier) {
        assertThat(LiftingEquation.frequencyMultiplier(frequency, duration, Measures.METRIC, vertical))
                .isCloseTo(multiplier, within(1e-9));
    }

    private static void refuses(ThrowingCallable call) {
        assertThatExceptionOfType(OutOfRangeException.class).isThrownBy(call);
    }
}
