package app.tankround.loads;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import app.tankround.loads.PooledNeed.Use;
import app.tankround.schedule.LearnedUse;
import app.tankround.schedule.LearnedUses;
import app.tankround.schedule.TaskKind;
import app.tankround.tanks.SystemKind;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.apache.commons.math3.distribution.GammaDistribution;
import org.apache.commons.math3.distribution.LogNormalDistribution;
import org.apache.commons.math3.random.RandomGenerator;
import org.apache.commons.math3.random.RandomGeneratorFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class PooledNeedTests {

    private static final int ROUNDS = 1000;
    private static final int STOPS = 15;
    private static final int SYSTEMS = 30;

    /** A standard error counts rounds of which each keeps the promise or not. */
    private static final double ERRORS = 3;

    /**
     * The promise over 1,000 rounds of 15 stops, each with a history and a day of its own: on so many it is enough as was
     * promised, within three standard errors sqrt(p (1 - p) / 1000), 2.1 of 100 at 95 % and 1.3 at 98 %. Parts are drawn by
     * gamma or lognormal distributions, which the program does not assume of a single visit.
     *
     * @param visits of each system before the round
     * @param spread of a visit around its system's mean
     */
    @ParameterizedTest
    @CsvSource({
        "0.95, 0, 0.2, gamma",
        "0.98, 2, 0.2, gamma",
        "0.95, 5, 0.2, lognormal",
        "0.98, 20, 0.1, gamma",
        "0.95, 20, 0.3, lognormal",
        "0.98, 20, 0.3, gamma",
        "0.90, 10, 0.2, gamma"
    })
    void promiseIsKeptOverAThousandRounds(double level, int visits, double spread, String shape) {
        Random random = new Random(20261127L + visits);
        int enough = 0;
        for (int round = 0; round < ROUNDS; round++) {
            enough += holds(random, level, visits, spread, shape) ? 1 : 0;
        }
        double error = Math.sqrt(level * (1 - level) / ROUNDS);
        assertThat(enough / (double) ROUNDS).isCloseTo(level, within(ERRORS * error));
    }

    private static boolean holds(Random random, double level, int visits, double spread, String shape) {
        double between = spread / Math.sqrt(LearnedUse.PRIOR_VISITS);
        double kind = 1 + random.nextGaussian() * between;
        double[] means = new double[SYSTEMS];
        List<List<Double>> histories = new ArrayList<>();
        for (int system = 0; system < SYSTEMS; system++) {
            means[system] = Math.max(0.1, kind + random.nextGaussian() * between);
            List<Double> history = new ArrayList<>();
            // Others of the kind are known even where those of the round are not.
            int known = system < STOPS ? visits : Math.max(visits, 10);
            for (int visit = 0; visit < known; visit++) {
                history.add(draw(random, means[system], spread, shape));
            }
            histories.add(history);
        }
        List<LearnedUse> learned = LearnedUses.of(histories);
        List<Use> uses = new ArrayList<>();
        double used = 0;
        for (int stop = 0; stop < STOPS; stop++) {
            double planned = 10 + random.nextInt(50);
            uses.add(new Use(planned, Optional.of(learned.get(stop)), SystemKind.REEF, TaskKind.WATER_CHANGE));
            used += planned * draw(random, means[stop], spread, shape);
        }
        return used <= PooledNeed.of(uses).quantile(level);
    }

    private static double draw(Random random, double mean, double spread, String shape) {
        RandomGenerator generator = RandomGeneratorFactory.createRandomGenerator(random);
        if (shape.equals("gamma")) {
            double scale = spread * spread / mean;
            return new GammaDistribution(generator, mean / scale, scale).sample();
        }
        double variance = Math.log1p(spread * spread / (mean * mean));
        return new LogNormalDistribution(generator, Math.log(mean) - variance / 2, Math.sqrt(variance)).sample();
    }

    /** Variances of tasks add, so that a round needs far less beyond the plan than each stop for itself. */
    @Test
    void poolingNeedsLessThanPaddingEachStop() {
        LearnedUse part = LearnedUses.of(List.of(List.of(1.0, 1.2, 0.8, 1.1, 0.9, 1.0, 1.2, 0.8, 1.1, 0.9)))
                .getFirst();
        LearnedUse alone = new LearnedUse(10, 400, 1, 1, part.variance(), 0, 0);
        List<Use> stops =
                Collections.nCopies(16, new Use(25, Optional.of(alone), SystemKind.REEF, TaskKind.WATER_CHANGE));
        PooledNeed round = PooledNeed.of(stops);
        assertThat(round.mean()).isCloseTo(400, within(1e-9));
        assertThat(round.deviation()).isCloseTo(4 * 25 * Math.sqrt(part.variance()), within(1e-9));
        double padded = 16 * PooledNeed.of(stops.subList(0, 1)).quantile(0.98) - 400;
        assertThat(round.quantile(0.98) - 400).isLessThan(padded / 3);
    }

    /** What the mean of a kind is uncertain by moves all its tasks the same way: there the deviations add. */
    @Test
    void whatAKindIsUncertainByIsSharedByItsTasks() {
        LearnedUse shared = new LearnedUse(0, 5, 1, 1, 1e-12, 1, 0.01);
        List<Use> reef =
                Collections.nCopies(4, new Use(25, Optional.of(shared), SystemKind.REEF, TaskKind.WATER_CHANGE));
        assertThat(PooledNeed.of(reef).deviation()).isCloseTo(4 * 25 * 0.1, within(1e-4));
    }

    @Test
    void whatIsUsedExactlyHasNoSpreadAndNothingLearnedIsNotKnown() {
        PooledNeed exact = PooledNeed.of(List.of(new Use(7, Optional.empty(), SystemKind.REEF, TaskKind.SOCKS_LEFT)));
        assertThat(exact.quantile(0.99)).isEqualTo(7);
        assertThat(exact.enough(7)).isEqualTo(1);
        assertThat(exact.enough(6)).isEqualTo(0);
        assertThat(exact.known()).isFalse();
    }

    @ParameterizedTest
    @CsvSource({
        "0.98, 49, 50",
        "0.979, 97, 100",
        "0.9505, 19, 20",
        "0.983, 49, 50",
        "0.95, 19, 20",
        "0.99, 99, 100",
        "0.9999, 999, 1000",
        "0.5, 1, 2"
    })
    void oddsNeverPromiseMore(double enough, int on, int of) {
        Assurance.Odds odds = new Assurance(BigDecimal.ONE, BigDecimal.TEN, enough).odds();
        assertThat(odds).isEqualTo(new Assurance.Odds(on, of));
        assertThat(odds.enough() / (double) odds.rounds()).isLessThanOrEqualTo(enough + 1e-9);
    }
}
