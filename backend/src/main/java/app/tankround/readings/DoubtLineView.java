package app.tankround.readings;

import app.tankround.accounts.PersonId;
import java.time.Instant;
import java.util.Optional;

/**
 * A reading or a decision in doubt; one of the two is there.
 *
 * @param id within all lists
 * @param happenedAt when it was read or decided
 */
public record DoubtLineView(
        long id,
        DoubtListId listId,
        Instant happenedAt,
        DoubtChange change,
        DoubtRisk risk,
        Optional<Doubted> reading,
        Optional<DecisionView> decision,
        Optional<Ending> ending) {

    /**
     * A reading with what was thought of it and what is thought now.
     *
     * @param before while the instrument was believed; empty if the reading came in when it no longer was
     */
    public record Doubted(ReadingView reading, Optional<AssessmentView> before, AssessmentView after) {}

    /**
     * How the line ended.
     *
     * @param by empty if it ended with a decision about the whole list
     * @param again the new reading
     */
    public record Ending(
            DoubtOutcome outcome,
            Instant at,
            Optional<PersonId> by,
            Optional<ReadingId> again,
            Optional<String> note) {}
}
