package app.tankround.readings;

/**
 * What a trusted instrument showed on the same water within a day of the one in doubt.
 *
 * @param doubted the reading in doubt, with what was thought of it before
 * @param before what was thought of it
 * @param other what the other instrument showed
 * @param normalizedError En, the doubted value less the other one; within 1 the two agree (ISO 13528:2015, 9.7, from memory)
 */
public record DoubtEvidence(ReadingView doubted, AssessmentView before, ReadingView other, double normalizedError) {

    public boolean agrees() {
        return Math.abs(normalizedError) <= 1;
    }
}
