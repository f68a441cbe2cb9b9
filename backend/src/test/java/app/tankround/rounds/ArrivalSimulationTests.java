package app.tankround.rounds;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import app.tankround.rounds.ArrivalSimulation.Leg;
import app.tankround.rounds.solver.Rest;
import java.util.Collections;
import java.util.List;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class ArrivalSimulationTests {

    private static final double LEAVES = 7.5 * 3600;
    private static final int TRIES = 100_000;

    /**
     * A sum of independent normally distributed times is normally distributed, with the sum of their means and of their
     * variances; the quantiles are those of Apache Commons Statistics. Their standard error is
     * sqrt(p (1 - p) / n) / f(q), below 0.009 standard deviations for 100,000 tries between 2.5 % and 97.5 %.
     */
    @ParameterizedTest
    @ValueSource(doubles = {0.025, 0.05, 0.25, 0.5, 0.75, 0.95, 0.975})
    void agreesWithTheSumOfNormalDistributions(double probability) {
        List<Leg> legs = Collections.nCopies(5, new Leg(900, 150, 0, 0, 2400, 360));
        ArrivalSimulation simulation = ArrivalSimulation.of(LEAVES, legs, Rest.NONE, TRIES, 1);
        for (int stop = 0; stop < 5; stop++) {
            double mean = LEAVES + (stop + 1) * 900 + stop * 2400;
            double deviation = Math.sqrt((stop + 1) * 150.0 * 150 + stop * 360.0 * 360);
            double quantile = NormalDistribution.of(mean, deviation).inverseCumulativeProbability(probability);
            assertThat(simulation.quantile(stop, probability)).isCloseTo(quantile, within(4 * 0.009 * deviation));
        }
    }

    /** Between its 5 % and 95 % points it lies with 90 %, within four standard errors of sqrt(0.9 x 0.1 / n). */
    @Test
    void windowHasTheProbabilityThatItWasMadeFor() {
        List<Leg> legs = List.of(new Leg(1800, 300, 0, 0, 0, 0), new Leg(1800, 400, 600, 0, 0, 0));
        ArrivalSimulation made = ArrivalSimulation.of(LEAVES, legs, Rest.NONE, TRIES, 1);
        ArrivalSimulation judged = ArrivalSimulation.of(LEAVES, legs, Rest.NONE, TRIES, 2);
        assertThat(judged.within(1, made.quantile(1, 0.05), made.quantile(1, 0.95)))
                .isCloseTo(0.9, within(4 * Math.sqrt(2 * 0.9 * 0.1 / TRIES)));
    }

    /** Who comes at 08:00 on average where it opens at 08:00 starts then in half of the cases, and never earlier. */
    @Test
    void waitsUntilTheSiteOpens() {
        ArrivalSimulation simulation =
                ArrivalSimulation.of(LEAVES, List.of(new Leg(1800, 300, 0, 8 * 3600, 600, 60)), Rest.NONE, TRIES, 7);
        assertThat(simulation.quantile(0, 0.01)).isEqualTo(8 * 3600);
        assertThat(simulation.quantile(0, 0.49)).isEqualTo(8 * 3600);
        assertThat(simulation.quantile(0, 0.6)).isGreaterThan(8 * 3600);
        assertThat(simulation.within(0, 8 * 3600, 8 * 3600)).isCloseTo(0.5, within(0.01));
    }

    /** Nobody is told the time of the break: half an hour at 08:00 is over at 08:30, and all later starts are later by it. */
    @Test
    void startsNothingInTheBreakAndTheRestAfterIt() {
        List<Leg> legs = List.of(new Leg(1800, 0, 0, 0, 600, 0), new Leg(1800, 0, 0, 0, 600, 0));
        Rest rest = new Rest(8 * 3600 + 900, 1800);
        ArrivalSimulation simulation = ArrivalSimulation.of(LEAVES, legs, rest, 10, 1);
        assertThat(simulation.quantile(0, 0.5)).isEqualTo(8 * 3600);
        assertThat(simulation.quantile(1, 0.5)).isEqualTo(8 * 3600 + 2400 + 1800);
        List<Leg> opens = List.of(new Leg(1800, 0, 0, 8 * 3600 + 1200, 600, 0), new Leg(600, 0, 0, 10 * 3600, 600, 0));
        ArrivalSimulation waits = ArrivalSimulation.of(LEAVES, opens, rest, 10, 1);
        assertThat(waits.quantile(0, 0.5)).isEqualTo(8 * 3600 + 900 + 1800);
        assertThat(waits.quantile(1, 0.5)).isEqualTo(10 * 3600);
    }

    @Test
    void sameSeedGivesTheSameTimes() {
        List<Leg> legs = List.of(new Leg(1800, 300, 0, 0, 600, 60));
        assertThat(ArrivalSimulation.of(LEAVES, legs, Rest.NONE, 100, 5).quantile(0, 0.9))
                .isEqualTo(ArrivalSimulation.of(LEAVES, legs, Rest.NONE, 100, 5).quantile(0, 0.9))
                .isNotEqualTo(
                        ArrivalSimulation.of(LEAVES, legs, Rest.NONE, 100, 6).quantile(0, 0.9));
    }
}
