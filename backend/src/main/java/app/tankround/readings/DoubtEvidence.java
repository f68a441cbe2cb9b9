package app.tankround.readings;

/**
 * What a trusted instrument showed on the same water within a day of the one in doubt.
 *
 * @param doubted the reading in doubt, with what was thought of it before
 * @param before what was thought of it
 * @param other what the other instrument showed
 * @param compared the two on one scale; within an En of 1 they agree (ISO 13528:2015, 9.7, from memory)
 */
public record DoubtEvidence(
        ReadingView doubted, AssessmentView before, ReadingView other, DoubtWitness.Compared compared) {

    public boolean agrees() {
        return compared.agrees();
    }
}
