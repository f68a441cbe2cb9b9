package app.tankround.rounds;

/**
 * How times are reckoned.
 *
 * @param learnedMinutes whether work is planned with what its visits took, else with the agreed minutes
 * @param learnedTravel whether trips are planned with what they took, else with the guess from the straight line
 * @param confidence how likely the van is to come within the times that a client is told, 50 to 99 percent
 * @param version 0 where nobody has chosen yet
 */
public record TimeRules(boolean learnedMinutes, boolean learnedTravel, int confidence, int version) {

    public static final int LEAST_CONFIDENCE = 50;
    public static final int MOST_CONFIDENCE = 99;

    /** Common practice, no source. */
    private static final int USUAL_CONFIDENCE = 90;

    static TimeRules usual() {
        return new TimeRules(true, true, USUAL_CONFIDENCE, 0);
    }
}
