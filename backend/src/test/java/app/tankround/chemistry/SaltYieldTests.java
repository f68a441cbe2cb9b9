package app.tankround.chemistry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import app.tankround.units.Mass;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.Salinity;
import app.tankround.units.Temperature;
import app.tankround.units.Volume;
import java.util.List;
import java.util.random.RandomGenerator;
import java.util.random.RandomGeneratorFactory;
import java.util.stream.IntStream;
import org.assertj.core.data.Percentage;
import org.junit.jupiter.api.Test;

/** The yield of salt mix, and mixing itself beside TEOS-10. */
class SaltYieldTests {

    private static final Temperature WARM = Temperature.ofCelsius(25);

    /** MIX-S-100 of the check values: 100 L of S 35 at 25 °C hold 3.5986 kg of anhydrous salt. */
    @Test
    void isTheSaltInTheBatchOverTheProductThatWentIn() {
        double yield = SaltYield.ofBatch(Mass.ofKilograms(4.2), Volume.ofLitres(100), Salinity.ofPractical(35), WARM);
        assertThat(yield).isCloseTo(3.5986 / 4.2, Percentage.withPercentage(0.05));
        assertThatThrownBy(() ->
                        SaltYield.ofBatch(Mass.ofKilograms(0), Volume.ofLitres(100), Salinity.ofPractical(35), WARM))
                .isInstanceOf(OutOfRangeException.class);
    }

    /** TEOS-10 by GSW-C: density times volume, and the reference salinity in g/kg of it. */
    @Test
    void mixesTheMassesOfTeos10() {
        for (double s = 5; s <= 40; s += 2.5) {
            for (double t = 18; t <= 30; t += 2) {
                SaltWater.Batch batch = SaltWater.mix(
                        Volume.ofLitres(180), Salinity.ofPractical(s), Temperature.ofCelsius(t), WARM, 0.86);
                double mass = 0.180 * Gsw.density(s, t);
                double salt = mass * s * 35.16504 / 35 / 1000;
                assertThat(batch.seawater().kilograms())
                        .as("S %s at %s", s, t)
                        .isCloseTo(mass, Percentage.withPercentage(0.005));
                assertThat(batch.anhydrousSalt().kilograms()).isCloseTo(salt, Percentage.withPercentage(0.005));
                assertThat(SaltYield.ofBatch(
                                batch.product(), batch.volume(), batch.salinity(), Temperature.ofCelsius(t)))
                        .isCloseTo(0.86, within(1e-12));
            }
        }
    }

    @Test
    void withoutBatchesIsWhatWasKnown() {
        SaltYield yield = SaltYield.of(0.86, 0.03, List.of());
        assertThat(yield.after(0)).isCloseTo(0.86, within(1e-12));
        assertThat(yield.deviationAfter(0)).isCloseTo(0.03, within(1e-12));
        assertThat(yield.deviationAfter(4)).isCloseTo(Math.hypot(0.03, 4 * SaltYield.WEEKLY_SPREAD), within(1e-12));
    }

    /** The textbook case of one measurement as sharp as the prior: half way, and 1/sqrt 2 of its deviation. */
    @Test
    void meetsOneMeasurementHalfWay() {
        SaltYield yield = SaltYield.of(0.86, 0.02, List.of(new SaltYield.Measured(0.80, 0.02, 0)));
        assertThat(yield.fresh()).isCloseTo(0.83, within(1e-12));
        assertThat(yield.deviationAfter(0)).isCloseTo(0.02 / Math.sqrt(2), within(1e-12));
    }

    /** Against the posterior added up over a fine grid, which knows nothing of matrices. */
    @Test
    void agreesWithThePosteriorAddedUpOverAGrid() {
        RandomGenerator random = RandomGeneratorFactory.of("L64X128MixRandom").create(7);
        for (int run = 0; run < 20; run++) {
            int n = 1 + random.nextInt(5);
            List<SaltYield.Measured> batches = random.doubles(n)
                    .mapToObj(some -> new SaltYield.Measured(
                            0.82 + 0.06 * some, 0.01 + 0.02 * random.nextDouble(), random.nextInt(9)))
                    .toList();
            SaltYield yield = SaltYield.of(0.86, 0.03, batches);
            double weeks = random.nextInt(12);
            double[] moments = grid(0.86, 0.03, batches, weeks);
            assertThat(yield.after(weeks)).as("run %d", run).isCloseTo(moments[0], within(1e-6));
            assertThat(yield.deviationAfter(weeks)).as("run %d", run).isCloseTo(moments[1], within(1e-5));
        }
    }

    private static double[] grid(double known, double spread, List<SaltYield.Measured> batches, double weeks) {
        int steps = 401;
        double sum = 0;
        double first = 0;
        double second = 0;
        for (int i = 0; i < steps; i++) {
            double a = known + spread * (12.0 * i / (steps - 1) - 6);
            for (int j = 0; j < steps; j++) {
                double b = SaltYield.WEEKLY_SPREAD * (12.0 * j / (steps - 1) - 6);
                double log = -square((a - known) / spread) / 2 - square(b / SaltYield.WEEKLY_SPREAD) / 2;
                for (SaltYield.Measured batch : batches) {
                    log -= square((batch.yield() - a - b * batch.weeksOpen()) / batch.deviation()) / 2;
                }
                double weight = Math.exp(log);
                double at = a + b * weeks;
                sum += weight;
                first += weight * at;
                second += weight * at * at;
            }
        }
        double mean = first / sum;
        return new double[] {mean, Math.sqrt(second / sum - mean * mean)};
    }

    private static double square(double number) {
        return number * number;
    }

    /** A bag that loses 0.004 a week, well measured, is found out. */
    @Test
    void learnsThatAnOpenBagDrawsWater() {
        List<SaltYield.Measured> batches = IntStream.range(0, 10)
                .mapToObj(week -> new SaltYield.Measured(0.86 - 0.004 * week, 0.004, week))
                .toList();
        SaltYield yield = SaltYield.of(0.86, 0.03, batches);
        assertThat(yield.weekly()).isBetween(-0.0042, -0.0035);
        assertThat(yield.after(10)).isCloseTo(0.82, within(0.004));
    }
}
