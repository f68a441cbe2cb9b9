package app.tankround.rounds;

import app.tankround.rounds.solver.Rest;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;

/**
 * When work at each stop of a round starts, if trips and work take now longer and now shorter: the round is driven through
 * many times with random numbers that a seed repeats.
 *
 * <p>Trips and work are normally distributed and independent of each other, but never shorter than a tenth of what they
 * usually take. Work starts on arrival or when the site opens; the break of the crew begins at its time whatever happens.
 */
final class ArrivalSimulation {

    /** So many rounds put a quantile of 5 % where it belongs within a third of a percent (one standard error). */
    static final int TRIES = 4000;

    private static final double SHORTEST = 0.1;

    /** Starts of work per stop, in seconds of the day and in ascending order. */
    private final double[][] starts;

    private ArrivalSimulation(double[][] starts) {
        this.starts = starts;
    }

    /**
     * A stop with the way to it.
     *
     * @param travel usual seconds of the trip
     * @param travelSpread its standard deviation in seconds
     * @param pause seconds before the trip that are always the same, such as for a disinfection
     * @param opens second of the day before which no work starts
     * @param work usual seconds from arrival to the end of the work
     * @param workSpread its standard deviation in seconds
     */
    record Leg(double travel, double travelSpread, double pause, double opens, double work, double workSpread) {}

    /**
     * @param leaves second of the day at which the van sets out
     * @param rest the break that is still to come
     */
    static ArrivalSimulation of(double leaves, List<Leg> legs, Rest rest, int tries, long seed) {
        double[][] starts = new double[legs.size()][tries];
        SplittableRandom random = new SplittableRandom(seed);
        for (int attempt = 0; attempt < tries; attempt++) {
            double now = leaves;
            for (int stop = 0; stop < legs.size(); stop++) {
                Leg leg = legs.get(stop);
                double arrives = now + leg.pause() + some(leg.travel(), leg.travelSpread(), random);
                double begins = Math.max(arrives, rest.open((int) leg.opens()));
                starts[stop][attempt] = begins < rest.bySecond() ? begins : begins + rest.seconds();
                now = begins + some(leg.work(), leg.workSpread(), random);
            }
        }
        for (double[] ofStop : starts) {
            Arrays.sort(ofStop);
        }
        return new ArrivalSimulation(starts);
    }

    private static double some(double usual, double spread, SplittableRandom random) {
        return Math.max(usual * SHORTEST, usual + spread * random.nextGaussian());
    }

    /** The second before which work at a stop starts with that probability, 0 to 1: the smallest that will do. */
    double quantile(int stop, double probability) {
        double[] sorted = starts[stop];
        int rank = (int) Math.ceil(probability * sorted.length);
        return sorted[Math.clamp(rank - 1, 0, sorted.length - 1)];
    }

    /** How likely work at a stop starts from one second of the day to another, both included; 0 to 1. */
    double within(int stop, double from, double until) {
        return Arrays.stream(starts[stop])
                        .filter(start -> start >= from && start <= until)
                        .count()
                / (double) starts[stop].length;
    }
}
