package app.tankround.rounds.solver;

import java.util.List;

/**
 * An order given by hand against a plan. Extras are negative where the given order is lower: it drives less but is
 * later, breaks clean before sick, or the plan was not proven best.
 *
 * @param given the given order with its times
 * @param best the plan it is compared with
 * @param findings what the given order breaks, in the order of its visits; empty if nothing
 */
public record PlanCost(RoundPlan given, RoundPlan best, List<PlanFinding> findings) {

    public PlanCost {
        findings = List.copyOf(findings);
    }

    /** Driving beyond the best plan, in minutes. */
    public double extraDrivingMinutes() {
        return (given.cost().drivingSeconds() - best.cost().drivingSeconds()) / 60.0;
    }

    /** Distance beyond the best plan, in kilometres. */
    public double extraKilometres() {
        return (given.cost().metres() - best.cost().metres()) / 1000.0;
    }

    /** Total lateness beyond the best plan, in minutes. */
    public double extraLatenessMinutes() {
        return (given.cost().latenessSeconds() - best.cost().latenessSeconds()) / 60.0;
    }

    /** Whether no stop with a clean system follows one that was left sick. */
    public boolean cleanBeforeSick() {
        return findings.stream().noneMatch(finding -> finding.code() == PlanFinding.Code.SICK_BEFORE_CLEAN);
    }
}
