package app.tankround.rounds.solver;

import java.util.ArrayList;
import java.util.List;

/**
 * A round in order, with its times. A stop whose window cannot be met stays in the plan, with its lateness.
 *
 * @param problem what was planned
 * @param stops the stops in the order of the visits
 * @param returnSecond when the van is back at the depot, in seconds of day
 * @param cost the totals
 * @param proven whether no other allowed order costs less; false means "not proven best"
 * @param method how the order came about
 */
public record RoundPlan(
        RoundProblem problem,
        List<PlannedStop> stops,
        int returnSecond,
        RoundCost cost,
        boolean proven,
        PlanningMethod method) {

    public RoundPlan {
        stops = List.copyOf(stops);
    }

    /** Indexes of the stops in the order of the visits. */
    public List<Integer> order() {
        return stops.stream().map(PlannedStop::stop).toList();
    }

    /** The stops that are late, in the order of the visits. */
    public List<PlannedStop> lateStops() {
        return stops.stream().filter(stop -> stop.latenessSeconds() > 0).toList();
    }

    /**
     * What another order, given by hand, costs against this plan and what it breaks. An order that breaks the rule of
     * clean before sick is costed all the same, so that the office sees both.
     *
     * @throws IllegalArgumentException unless the order names every stop exactly once
     */
    public PlanCost evaluate(List<Integer> order) {
        RoundArrays arrays = new RoundArrays(problem);
        RoundPlan given = arrays.plan(arrays.checkedOrder(order), false, PlanningMethod.GIVEN);
        List<PlanFinding> findings = new ArrayList<>();
        int at = arrays.n;
        for (PlannedStop stop : given.stops()) {
            if (stop.latenessSeconds() > 0) {
                findings.add(
                        new PlanFinding(PlanFinding.Code.WINDOW_MISSED, List.of(stop.stop(), stop.latenessMinutes())));
            }
            if (arrays.disinfects(at, stop.stop())) {
                findings.add(
                        new PlanFinding(PlanFinding.Code.SICK_BEFORE_CLEAN, List.of(arrays.place(at), stop.stop())));
            }
            if (arrays.blocked[at][stop.stop()]) {
                findings.add(new PlanFinding(PlanFinding.Code.LEG_BLOCKED, List.of(arrays.place(at), stop.stop())));
            }
            at = stop.stop();
        }
        if (arrays.blocked[at][arrays.n]) {
            findings.add(new PlanFinding(PlanFinding.Code.LEG_BLOCKED, List.of(at, TravelTimes.DEPOT)));
        }
        return new PlanCost(given, this, findings);
    }
}
