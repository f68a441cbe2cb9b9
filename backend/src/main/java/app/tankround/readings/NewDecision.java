package app.tankround.readings;

import app.tankround.instruments.CalibrationId;
import app.tankround.instruments.InstrumentId;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Stream;

/**
 * A decision to be registered.
 *
 * @param kind water-change, dose, plan-step, instrument-adjusted, batch-released or report-sent
 * @param page where the decision is shown
 * @param summaryCode message code of its one line, which takes {@code args}
 * @param readings what it rests on; where it rests on nothing at all, nothing is registered
 * @param decisions on which decisions it rests, such as the release of a batch of water
 * @param checks on which checks of an instrument it rests, as its adjustment does
 * @param replaces what it and those that it takes the place of were written down as, its own first; empty for a decision
 *     that is never written over
 * @param measured what else was measured for it
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
        List<CalibrationId> checks,
        List<String> replaces,
        List<Measured> measured) {

    /** Something was measured for it that is no reading of a system, such as new water: with which instrument, and when. */
    public record Measured(InstrumentId instrument, Instant at) {}

    public NewDecision {
        args = List.copyOf(args);
        readings = List.copyOf(readings);
        decisions = List.copyOf(decisions);
        checks = List.copyOf(checks);
        replaces = List.copyOf(replaces);
        measured = List.copyOf(measured);
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

    /** A decision that is never written over. */
    public NewDecision(
            String kind,
            String subjectKind,
            UUID subjectId,
            String page,
            String summaryCode,
            List<String> args,
            List<ReadingId> readings,
            List<DecisionId> decisions,
            List<CalibrationId> checks) {
        this(kind, subjectKind, subjectId, page, summaryCode, args, readings, decisions, checks, List.of(), List.of());
    }

    /**
     * This decision, written down in a place where it takes that of the one before.
     *
     * @param others further places whose decisions no longer stand because of it
     */
    public NewDecision writtenAs(String place, List<String> others) {
        return new NewDecision(
                kind,
                subjectKind,
                subjectId,
                page,
                summaryCode,
                args,
                readings,
                decisions,
                checks,
                Stream.concat(Stream.of(place), others.stream()).toList(),
                measured);
    }

    /** This decision, for which this was measured as well. */
    public NewDecision withMeasured(List<Measured> more) {
        return new NewDecision(
                kind, subjectKind, subjectId, page, summaryCode, args, readings, decisions, checks, replaces, more);
    }

    Optional<String> place() {
        return replaces.stream().findFirst();
    }

    boolean restsOnNothing() {
        return readings.isEmpty() && decisions.isEmpty() && checks.isEmpty() && measured.isEmpty();
    }
}
