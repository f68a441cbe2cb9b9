package app.tankround.chemistry;

import app.tankround.units.Salinity;
import app.tankround.units.Temperature;
import app.tankround.units.Volume;
import java.util.List;

/** How a {@link CorrectivePlan} moves a quantity. */
public sealed interface PlanMeans {

    /**
     * A salt, dissolved outside and given slowly.
     *
     * @param purity share of the salt in the product by mass, above 0 to 1
     * @param held net volume
     */
    record Supplement(Salt salt, double purity, Volume held) implements PlanMeans {}

    /**
     * Water taken out and replaced by as much new water, matched to the tank in salinity and temperature.
     *
     * @param held net volume
     * @param newWater the quantity in the new water, in the plan's unit
     * @param salinity of both waters, which decides what the new water weighs
     * @param temperature likewise
     */
    record Exchange(Volume held, double newWater, Salinity salinity, Temperature temperature) implements PlanMeans {}

    /**
     * Water taken out and replaced by as much water mixed for that step: never saltier or fresher than the step asks for.
     *
     * @param held net volume
     * @param temperature at which volumes are measured
     * @param yield grams of anhydrous salt per gram of salt mix, 0.5 to 1
     * @param agreed what is changed at each visit anyway, in their order; at visits beyond these as much as at the last
     */
    record SaltWaterExchange(Volume held, Temperature temperature, double yield, List<Volume> agreed)
            implements PlanMeans {

        public SaltWaterExchange {
            agreed = List.copyOf(agreed);
        }

        /** What is changed at a visit anyway, at most all of the water. */
        Volume agreedAt(int visit) {
            double litres = agreed.isEmpty()
                    ? 0
                    : agreed.get(Math.min(visit, agreed.size() - 1)).litres();
            return new Volume(Math.min(litres, held.litres()));
        }
    }

    /** Something is set or its cause is removed; nothing is brought: a controller, gas exchange, the air of the room. */
    record Adjustment() implements PlanMeans {}
}
