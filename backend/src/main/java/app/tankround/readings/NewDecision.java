package app.tankround.readings;

import java.util.List;
import java.util.UUID;

/**
 * A decision to be registered.
 *
 * @param kind water-change, dose, plan-step, instrument-adjusted, batch-released or report-sent
 * @param page where the decision is shown
 * @param summaryCode message code of its one line, which takes {@code args}
 * @param readings what it rests on; where it rests on nothing, nothing is registered
 */
public record NewDecision(
        String kind,
        String subjectKind,
        UUID subjectId,
        String page,
        String summaryCode,
        List<String> args,
        List<ReadingId> readings) {

    public NewDecision {
        args = List.copyOf(args);
        readings = List.copyOf(readings);
    }
}
