package app.tankround.plans.web;

import app.tankround.chemistry.Salt;
import app.tankround.plans.CorrectivePlanId;
import app.tankround.plans.NewPlan;
import app.tankround.tanks.WaterSystemId;
import app.tankround.units.Quantity;
import app.tankround.web.FormReader;
import java.math.BigDecimal;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * A plan as asked for, in the units of plans: S, dKH, mg/L, degrees Celsius, pH, litres and kilograms.
 *
 * @param id made when the form is shown, so that sending it twice makes one plan
 */
record PlanForm(
        String id,
        @Nullable String to,
        @Nullable String salt,
        @Nullable String purity,
        @Nullable String newWater,
        @Nullable String addedPerDay,
        @Nullable String limewaterPerDay,
        @Nullable String usedPerDay,
        @Nullable String carryLitres,
        @Nullable String carryKilograms) {

    private static final BigDecimal LARGEST = new BigDecimal("20000");
    private static final BigDecimal HUNDRED = new BigDecimal("100");

    /** What is asked for; empty if a field cannot be read, which is then shown at it. */
    Optional<NewPlan> toCommand(WaterSystemId system, Quantity chosen, FormReader reader) {
        BigDecimal lowest = chosen == Quantity.TEMPERATURE ? new BigDecimal("-2") : BigDecimal.ZERO;
        Optional<BigDecimal> target = reader.requiredNumber("to", to, lowest, highest(chosen));
        Optional<Salt> product =
                salt == null || salt.isBlank() ? Optional.empty() : reader.choice("salt", salt, Salt.class);
        double percent = number("purity", purity, new BigDecimal("1"), HUNDRED, 100, reader);
        double water = number("newWater", newWater, BigDecimal.ZERO, LARGEST, 0, reader);
        double added = number("addedPerDay", addedPerDay, BigDecimal.ZERO, HUNDRED, 0, reader);
        double limewater = number("limewaterPerDay", limewaterPerDay, BigDecimal.ZERO, LARGEST, 0, reader);
        double used = number("usedPerDay", usedPerDay, BigDecimal.ZERO, HUNDRED, 0, reader);
        Optional<BigDecimal> litres = reader.requiredNumber("carryLitres", carryLitres, BigDecimal.ZERO, LARGEST);
        Optional<BigDecimal> kilograms =
                reader.requiredNumber("carryKilograms", carryKilograms, BigDecimal.ZERO, LARGEST);
        if (!reader.accepted()) {
            return Optional.empty();
        }
        return Optional.of(new NewPlan(
                CorrectivePlanId.of(FormReader.madeWith("plan", id)),
                system,
                chosen,
                target.orElseThrow().doubleValue(),
                product,
                percent / 100,
                water,
                added,
                limewater,
                used,
                litres.orElseThrow().doubleValue(),
                kilograms.orElseThrow().doubleValue()));
    }

    private static BigDecimal highest(Quantity quantity) {
        return switch (quantity) {
            case SALINITY -> new BigDecimal("45");
            case ALKALINITY -> new BigDecimal("50");
            case TEMPERATURE -> new BigDecimal("40");
            case PH -> new BigDecimal("11");
            default -> new BigDecimal("5000");
        };
    }

    private static double number(
            String field, @Nullable String text, BigDecimal low, BigDecimal high, double otherwise, FormReader reader) {
        return reader.number(field, text, low, high)
                .map(BigDecimal::doubleValue)
                .orElse(otherwise);
    }
}
