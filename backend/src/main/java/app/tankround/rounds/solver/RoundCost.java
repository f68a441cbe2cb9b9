package app.tankround.rounds.solver;

import java.util.Comparator;

/**
 * What an order of stops costs; fewer legs that cannot be driven are better, then fewer disinfections, then less
 * lateness, then less driving, then less distance.
 *
 * @param blockedLegs legs that cannot be driven; more than none only where there is no other way
 * @param disinfections how often the crew has to disinfect, since a clean stop follows one that was left sick
 * @param latenessSeconds sum over the stops of the time by which work starts after the end of the window
 * @param drivingSeconds time on the road; waiting, disinfection and service are not driving
 * @param metres distance driven
 */
public record RoundCost(int blockedLegs, int disinfections, long latenessSeconds, long drivingSeconds, long metres)
        implements Comparable<RoundCost> {

    private static final Comparator<RoundCost> ORDER = Comparator.comparingInt(RoundCost::blockedLegs)
            .thenComparingInt(RoundCost::disinfections)
            .thenComparingLong(RoundCost::latenessSeconds)
            .thenComparingLong(RoundCost::drivingSeconds)
            .thenComparingLong(RoundCost::metres);

    @Override
    public int compareTo(RoundCost other) {
        return ORDER.compare(this, other);
    }
}
