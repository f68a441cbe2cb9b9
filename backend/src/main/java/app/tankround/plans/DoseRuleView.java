package app.tankround.plans;

import java.util.Optional;
import java.util.UUID;

/**
 * What is known about giving a product.
 *
 * @param leastHours that have to pass between two doses, 1 to 8760
 * @param mostPerDay for 100 litres of net volume in 24 hours, in the unit
 * @param unit mL or g
 * @param why where it is from, such as the label
 */
public record DoseRuleView(
        UUID id,
        String product,
        DoseKind kind,
        Optional<Integer> leastHours,
        Optional<Double> mostPerDay,
        String unit,
        String why,
        int version) {

    /** Whether it says how much may be given. A conditioner follows each volume of tap water. */
    boolean limits() {
        return mostPerDay.isPresent() || kind == DoseKind.CONDITIONER;
    }
}
