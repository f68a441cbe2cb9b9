package app.tankround.rounds.solver;

import java.util.Comparator;

/**
 * What an order of stops costs; less lateness is better, then less driving, then less distance.
 *
 * @param latenessSeconds sum over the stops of the time by which work starts after the end of the window
 * @param drivingSeconds time on the road; waiting and service are not driving
 * @param metres distance driven
 */
public record RoundCost(long latenessSeconds, long drivingSeconds, long metres) implements Comparable<RoundCost> {

    private static final Comparator<RoundCost> ORDER = Comparator.comparingLong(RoundCost::latenessSeconds)
            .thenComparingLong(RoundCost::drivingSeconds)
            .thenComparingLong(RoundCost::metres);

    @Override
    public int compareTo(RoundCost other) {
        return ORDER.compare(this, other);
    }
}
