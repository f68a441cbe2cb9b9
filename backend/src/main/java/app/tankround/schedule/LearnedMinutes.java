package app.tankround.schedule;

import app.tankround.chemistry.statistics.Credibility;
import app.tankround.chemistry.statistics.RobustEstimates;
import java.util.List;
import java.util.Optional;

/**
 * How long a visit by an agreement takes, as its recorded visits tell.
 *
 * <p>The median of the recorded minutes, so that a visit that nobody ended in time counts no more than any other, drawn
 * towards what is known without them by the weight n / (n + {@value #PRIOR_VISITS}) of n visits ({@link Credibility}). What
 * is known without them are the agreed
 * minutes times the ratio that is usual for systems of the kind, which is drawn towards 1 the same way. That
 * {@value #PRIOR_VISITS} visits count as much as the agreement is common practice, no source.
 *
 * @param agreed minutes
 * @param visits how many of the last {@value #MOST_VISITS} were recorded
 * @param median of their minutes, at the minutes agreed now; empty if there are none
 * @param minutes what to plan with
 * @param spread standard deviation in minutes: 1.4826 median absolute deviations, drawn towards
 *     {@value #USUAL_SPREAD} of the minutes while there are few visits (common practice, no source)
 */
public record LearnedMinutes(int agreed, int visits, Optional<Double> median, double minutes, double spread) {

    /** So many visits count as much as what is known without them. */
    static final int PRIOR_VISITS = 4;
    /** Older ones tell of another routine. */
    static final int MOST_VISITS = 20;

    static final double USUAL_SPREAD = 0.2;

    private static final double SHORTEST = 1;
    private static final double LONGEST = 1440;

    /**
     * @param kindRatio recorded over agreed minutes, as it is for systems of the kind; 1 where nothing is known
     * @param recorded minutes of the last visits, at the minutes agreed now
     */
    static LearnedMinutes of(int agreed, double kindRatio, List<Double> recorded) {
        double known = agreed * kindRatio;
        int n = recorded.size();
        if (n == 0) {
            double minutes = Math.clamp(known, SHORTEST, LONGEST);
            return new LearnedMinutes(agreed, 0, Optional.empty(), minutes, USUAL_SPREAD * minutes);
        }
        double[] values = recorded.stream().mapToDouble(Double::doubleValue).toArray();
        double median = RobustEstimates.median(values);
        double minutes = Math.clamp(drawn(median, n, known), SHORTEST, LONGEST);
        double seen = RobustEstimates.scaledDeviation(values);
        double usual = USUAL_SPREAD * minutes;
        return new LearnedMinutes(
                agreed, n, Optional.of(median), minutes, Math.sqrt(drawn(seen * seen, n, usual * usual)));
    }

    /** What n observations tell, drawn towards what is known without them. */
    static double drawn(double seen, long n, double known) {
        return Credibility.drawn(seen, n, known, PRIOR_VISITS);
    }

    /** Whole minutes to plan with. */
    public int rounded() {
        return (int) Math.max(1, Math.round(minutes));
    }
}
