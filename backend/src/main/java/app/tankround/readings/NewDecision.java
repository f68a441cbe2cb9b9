package app.tankround.readings;

import app.tankround.instruments.CalibrationId;
import java.util.List;
import java.util.UUID;

/**
 * A decision to be registered.
 *
 * @param kind water-change, dose, plan-step, instrument-adjusted, batch-released or report-sent
 * @param page where the decision is shown
 * @param summaryCode message code of its one line, which takes {@code args}
 * @param readings what it rests on; where it rests on nothing at all, nothing is registered
 * @param decisions on which decisions it rests, such as the release of a batch of water
 * @param checks on which checks of an instrument it rests, as its adjustment does
 */
public record NewDecision(
        String kind,
        String subjectKind,
        UUID subjectId,
        String page,
        String summaryCode,
        List<String> args,
        List<ReadingId> readings,
        List<DecisionId> decisions,
        List<CalibrationId> checks) {

    public NewDecision {
        args = List.copyOf(args);
        readings = List.copyOf(readings);
        decisions = List.copyOf(decisions);
        checks = List.copyOf(checks);
    }

    /** A decision that rests on readings alone. */
    public NewDecision(
            String kind,
            String subjectKind,
            UUID subjectId,
            String page,
            String summaryCode,
            List<String> args,
            List<ReadingId> readings) {
        this(kind, subjectKind, subjectId, page, summaryCode, args, readings, List.of());
    }

    /** A decision that rests on no check. */
    public NewDecision(
            String kind,
            String subjectKind,
            UUID subjectId,
            String page,
            String summaryCode,
            List<String> args,
            List<ReadingId> readings,
            List<DecisionId> decisions) {
        this(kind, subjectKind, subjectId, page, summaryCode, args, readings, decisions, List.of());
    }

    boolean restsOnNothing() {
        return readings.isEmpty() && decisions.isEmpty() && checks.isEmpty();
    }
}
