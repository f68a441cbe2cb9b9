package app.tankround.plans;

import app.tankround.chemistry.Salt;
import app.tankround.tanks.WaterSystemId;
import app.tankround.units.Quantity;
import java.util.Optional;

/**
 * A plan as asked for, in S, dKH, mg/L, degrees Celsius or pH.
 *
 * @param to target
 * @param salt for alkalinity, calcium and magnesium that are raised
 * @param purity of the product, above 0 to 1
 * @param newWater the quantity in new water, where it is lowered by changing water
 * @param addedPerDay by dosing pumps and reactors
 * @param limewaterPerDay litres of saturated limewater; no more than evaporates
 * @param usedPerDay by animals and plants
 * @param carryLitres of new water that a visit can bring
 * @param carryKilograms of new water and product together
 * @param because why the target lies outside the system's own
 */
public record NewPlan(
        CorrectivePlanId id,
        WaterSystemId systemId,
        Quantity quantity,
        double to,
        Optional<Salt> salt,
        double purity,
        double newWater,
        double addedPerDay,
        double limewaterPerDay,
        double usedPerDay,
        double carryLitres,
        double carryKilograms,
        Optional<String> because) {}
