package app.tankround.readings;

import java.time.Instant;
import java.util.List;
import java.util.UUID;

/**
 * Something done because of readings.
 *
 * @param kind water-change, dose, plan-step, instrument-adjusted, batch-released or report-sent
 * @param subjectKind what it was done to, such as {@code water-system}
 * @param page where it is shown
 * @param summaryCode message code of its one line, with {@code args}
 */
public record DecisionView(
        DecisionId id,
        String kind,
        String subjectKind,
        UUID subjectId,
        String page,
        String summaryCode,
        List<String> args,
        Instant decidedAt) {

    public DecisionView {
        args = List.copyOf(args);
    }
}
