package app.tankround.plans;

import app.tankround.chemistry.Salt;
import app.tankround.readings.ReadingId;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.tanks.WaterSystemId;
import app.tankround.units.Quantity;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;

/**
 * A plan with its steps, in S, dKH, mg/L, degrees Celsius or pH.
 *
 * @param readingId that the steps to come were drawn from
 * @param first what it was when the plan was made
 * @param from what that reading says
 * @param addedPerDay in all, limewater included
 * @param visitsNeeded empty if no number of visits reaches the target
 * @param carryNeeded what would have to be brought to each visit, where it is the carry that holds the plan up
 * @param cautions codes with their arguments, in the order in which they matter
 */
public record PlanView(
        CorrectivePlanId id,
        WaterSystemId systemId,
        Quantity quantity,
        PlanState state,
        ReadingId readingId,
        double first,
        double from,
        LocalDate readOn,
        double to,
        double perDay,
        Optional<Salt> salt,
        double purity,
        double newWater,
        double temperature,
        double salinity,
        double addedPerDay,
        double usedPerDay,
        double carryLitres,
        double carryKilograms,
        boolean reached,
        Optional<Integer> visitsNeeded,
        Optional<Double> carryNeededLitres,
        Optional<Double> carryNeededKilograms,
        List<PlanCaution> cautions,
        Optional<String> stoppedBecause,
        Instant createdAt,
        int version,
        List<PlanStep> steps) {

    public PlanView {
        cautions = List.copyOf(cautions);
        steps = List.copyOf(steps);
    }

    /**
     * One step.
     *
     * @param heldBy RATE or CARRY; empty where nothing holds it down
     * @param newWater the quantity in the new water; empty where no water is changed
     * @param phAfter expected, where the step raises pH
     * @param ammoniaAfter un-ionised ammonia then, mg/L as the total was measured
     * @param agreedRise what the doses that are agreed for the visit bring of it anyway; the product is so much less
     */
    public record PlanStep(
            PlannedVisitId visit,
            LocalDate on,
            double before,
            double after,
            Optional<String> heldBy,
            double productKilograms,
            double waterLitres,
            Optional<Double> newWater,
            Optional<Double> phAfter,
            Optional<Double> ammoniaAfter,
            double agreedRise) {}

    /** Something to know before the plan is followed; shown as the message {@code plans.caution.CODE}. */
    public record PlanCaution(String code, List<String> args) {

        public PlanCaution {
            args = List.copyOf(args);
        }
    }

    /** What its steps change at most at one visit, in litres; above the carry where the agreement changes more anyway. */
    public double mostChangedLitres() {
        return steps.stream().mapToDouble(PlanStep::waterLitres).max().orElse(0);
    }

    /** Whether it is followed or still to be decided on. */
    public boolean open() {
        return state == PlanState.PROPOSED || state == PlanState.RUNNING;
    }

    /** Whether its steps raise pH, and so set ammonia free. */
    public boolean raisesPh() {
        return to > from && (quantity == Quantity.PH || quantity == Quantity.ALKALINITY);
    }

    /** Whether a step would harm by the ammonia that it sets free: then something else comes first. */
    public boolean ammoniaFirst() {
        return ammoniaFirst(cautions);
    }

    static boolean ammoniaFirst(List<PlanCaution> cautions) {
        return cautions.stream().anyMatch(caution -> caution.code().equals("AMMONIA_FIRST"));
    }
}
