package app.tankround.readings;

import app.tankround.chemistry.VerdictCode;
import java.util.List;
import java.util.Optional;

/**
 * A reading in doubt, with what was thought of it before and what was done because of it.
 *
 * @param verdictBefore the verdict it had while its instrument was still believed; empty if it never was
 */
public record DoubtfulReading(ReadingView reading, Optional<VerdictCode> verdictBefore, List<DecisionView> decisions) {

    public DoubtfulReading {
        decisions = List.copyOf(decisions);
    }
}
