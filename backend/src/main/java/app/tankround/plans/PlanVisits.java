package app.tankround.plans;

import app.tankround.chemistry.PlanOrder;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.schedule.TaskKind;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.units.Quantity;
import java.math.BigDecimal;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.springframework.stereotype.Component;

/** The visits that a plan may use, and what is agreed for them anyway. */
@Component
class PlanVisits {

    private final PlanRows rows;
    private final DueVisits dueVisits;

    PlanVisits(PlanRows rows, DueVisits dueVisits) {
        this.rows = rows;
        this.dueVisits = dueVisits;
    }

    /** The plans of a system that are followed or still to be decided on. */
    List<PlanView> openPlans(WaterSystemId system) {
        return rows.bySystem(system).stream()
                .filter(plan -> plan.state() == PlanState.PROPOSED || plan.state() == PlanState.RUNNING)
                .toList();
    }

    /** The visits to come on which no plan works that must not work together with one for this quantity. */
    List<PlannedVisitView> free(WaterSystemId system, Quantity quantity) {
        Set<PlannedVisitId> taken = new HashSet<>();
        openPlans(system).stream()
                .filter(other -> other.quantity() != quantity && !PlanOrder.together(other.quantity(), quantity))
                .flatMap(other -> other.steps().stream())
                .forEach(step -> taken.add(step.visit()));
        return dueVisits.dueFor(system).stream()
                .filter(visit -> !taken.contains(visit.id()))
                .toList();
    }

    /** Litres that are changed at a visit anyway: as on the load sheet, the largest change that is agreed. */
    static double agreedLitres(PlannedVisitView visit, WaterSystemView system) {
        return largest(visit, system, false);
    }

    /** The same with what other plans change beside it. */
    static double changedLitres(PlannedVisitView visit, WaterSystemView system) {
        return agreedLitres(visit, system) + largest(visit, system, true);
    }

    private static double largest(PlannedVisitView visit, WaterSystemView system, boolean ofPlans) {
        double share = system.netVolume().litres() / 100;
        return visit.tasks().stream()
                .filter(task ->
                        task.kind() == TaskKind.WATER_CHANGE && task.item().isPresent() == ofPlans)
                .mapToDouble(task -> task.amount().map(BigDecimal::doubleValue).orElse(0.0)
                        * (task.unit().filter("%"::equals).isPresent() ? share : 1))
                .max()
                .orElse(0);
    }
}
