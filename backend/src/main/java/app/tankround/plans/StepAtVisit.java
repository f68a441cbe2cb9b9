package app.tankround.plans;

import app.tankround.units.Quantity;
import java.util.List;

/**
 * What a task of a visit is as the step of a plan that is followed.
 *
 * @param quantity that the plan corrects
 * @param first what is measured at the visit before the step, in order: the step follows from it
 * @param agreedRise what the doses that are agreed for the visit bring of the step, in the unit of the plan; above 0 the task
 *     is so much less
 */
public record StepAtVisit(Quantity quantity, List<Quantity> first, double agreedRise) {

    public StepAtVisit {
        first = List.copyOf(first);
    }
}
