package app.tankround.rounds;

import app.tankround.chemistry.statistics.Credibility;
import app.tankround.chemistry.statistics.RobustEstimates;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.stream.IntStream;

/**
 * How much longer than the guess from the straight line trips take, by the hour in which they begin.
 *
 * <p>The median of recorded over guessed seconds, drawn towards the median of all hours by n / (n + {@value #PRIOR_TRIPS})
 * while an hour has few trips (n), and that towards 1 the same way; see {@link Credibility} for
 * the rule. Trips that took less than a quarter of the guess or more than four times as long are left out: a break, or a
 * wrong position. These numbers are common practice, no source.
 *
 * @param trips how many there are in each hour of the day, 24 of them
 * @param ratios recorded over guessed seconds in each hour, 24 of them
 * @param usual the same over all hours
 * @param spread standard deviation of the ratio as a part of it
 */
record LearnedTravel(List<Integer> trips, List<Double> ratios, double usual, double spread) {

    static final int HOURS = 24;
    static final int PRIOR_TRIPS = 10;
    static final double USUAL_SPREAD = 0.25;

    private static final double LEAST_RATIO = 0.25;
    private static final double MOST_RATIO = 4;
    /** On shorter ones the minutes for leaving and arriving say more than the road. */
    private static final int SHORTEST_SECONDS = 120;

    /**
     * A recorded trip from one stop to the next.
     *
     * @param hour in which it began, 0 to 23
     * @param seconds that it took, without the time from arrival to work
     * @param guessed seconds by the straight line
     */
    record Trip(int hour, double seconds, double guessed) {

        double ratio() {
            return seconds / guessed;
        }

        boolean tells() {
            return guessed >= SHORTEST_SECONDS && ratio() >= LEAST_RATIO && ratio() <= MOST_RATIO;
        }
    }

    LearnedTravel {
        trips = List.copyOf(trips);
        ratios = List.copyOf(ratios);
    }

    /** Where nothing is learned, the guess stands. */
    static LearnedTravel nothing() {
        return new LearnedTravel(Collections.nCopies(HOURS, 0), Collections.nCopies(HOURS, 1.0), 1, USUAL_SPREAD);
    }

    static LearnedTravel of(List<Trip> recorded) {
        List<Trip> telling = recorded.stream().filter(Trip::tells).toList();
        if (telling.isEmpty()) {
            return nothing();
        }
        double usual = drawn(median(telling), telling.size(), 1);
        List<Integer> trips = new ArrayList<>();
        List<Double> ratios = new ArrayList<>();
        for (int hour = 0; hour < HOURS; hour++) {
            int of = hour;
            List<Trip> then = telling.stream().filter(trip -> trip.hour() == of).toList();
            trips.add(then.size());
            ratios.add(then.isEmpty() ? usual : drawn(median(then), then.size(), usual));
        }
        double[] around = telling.stream()
                .mapToDouble(trip -> trip.ratio() / ratios.get(trip.hour()))
                .toArray();
        double seen = RobustEstimates.scaledDeviation(around);
        return new LearnedTravel(
                trips, ratios, usual, Math.sqrt(drawn(seen * seen, telling.size(), USUAL_SPREAD * USUAL_SPREAD)));
    }

    private static double median(List<Trip> trips) {
        return RobustEstimates.median(trips.stream().mapToDouble(Trip::ratio).toArray());
    }

    private static double drawn(double seen, int n, double known) {
        return Credibility.drawn(seen, n, known, PRIOR_TRIPS);
    }

    /** Hours in which trips were recorded. */
    List<Integer> hours() {
        return IntStream.range(0, HOURS)
                .filter(hour -> trips.get(hour) > 0)
                .boxed()
                .toList();
    }

    int all() {
        return trips.stream().mapToInt(Integer::intValue).sum();
    }
}
