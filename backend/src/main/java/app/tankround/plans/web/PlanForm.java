package app.tankround.plans.web;

import app.tankround.chemistry.CorrectivePlan.Carry;
import app.tankround.chemistry.Salt;
import app.tankround.instruments.SalinityScales;
import app.tankround.plans.CorrectivePlanId;
import app.tankround.plans.NewPlan;
import app.tankround.plans.PlanMaking;
import app.tankround.plans.PlanWords;
import app.tankround.tanks.WaterSystemView;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.PlausibleRanges;
import app.tankround.units.Quantity;
import app.tankround.web.FieldRefusal;
import app.tankround.web.FormReader;
import java.math.BigDecimal;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * A plan as asked for: S, dKH, mg/L and pH; temperatures, volumes and masses in the units of the business.
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
        @Nullable String carryKilograms,
        @Nullable String because) {

    private static final BigDecimal LARGEST = new BigDecimal("20000");
    private static final BigDecimal HUNDRED = new BigDecimal("100");

    /**
     * @param carry what a visit is said to bring before anybody says otherwise
     * @param adds whether something stands there that adds the quantity every day: then somebody has to say how much
     */
    static PlanForm proposed(
            String id, Quantity quantity, Optional<Double> target, Carry carry, boolean adds, PlanWords words) {
        @Nullable String daily = adds ? null : "0";
        return new PlanForm(
                id,
                target.map(value -> words.field(words.typed(quantity, value))).orElse(null),
                null,
                "100",
                "0",
                daily,
                "0",
                "0",
                words.field(words.typedVolume(carry.water().litres())),
                words.field(words.typedMass(carry.mass().kilograms())),
                null);
    }

    /**
     * What is asked for; empty if a field cannot be read, which is then shown at it.
     *
     * @param adds as when the form was shown
     */
    Optional<NewPlan> toCommand(
            WaterSystemView system, Quantity chosen, boolean adds, PlanWords words, FormReader reader) {
        Optional<BigDecimal> target = target(chosen, words, reader);
        Optional<Salt> product =
                salt == null || salt.isBlank() ? Optional.empty() : reader.choice("salt", salt, Salt.class);
        double percent =
                number("purity", purity, BigDecimal.ONE, HUNDRED, reader).orElse(100.0);
        double water =
                number("newWater", newWater, BigDecimal.ZERO, LARGEST, reader).orElse(0.0);
        double added = (adds
                        ? reader.requiredNumber("addedPerDay", addedPerDay, BigDecimal.ZERO, HUNDRED)
                        : reader.number("addedPerDay", addedPerDay, BigDecimal.ZERO, HUNDRED))
                .map(BigDecimal::doubleValue)
                .orElse(0.0);
        double limewater = reader.number(
                        "limewaterPerDay",
                        limewaterPerDay,
                        BigDecimal.ZERO,
                        words.typedVolume(system.evaporationPerDay().litres()))
                .map(typed ->
                        Math.min(words.litres(typed), system.evaporationPerDay().litres()))
                .orElse(0.0);
        double used = number("usedPerDay", usedPerDay, BigDecimal.ZERO, HUNDRED, reader)
                .orElse(0.0);
        Optional<BigDecimal> litres = reader.requiredNumber(
                "carryLitres", carryLitres, BigDecimal.ZERO, words.typedVolume(PlanMaking.HIGHEST_CARRY));
        Optional<BigDecimal> kilograms = reader.requiredNumber(
                "carryKilograms", carryKilograms, BigDecimal.ZERO, words.typedMass(PlanMaking.HIGHEST_CARRY));
        if (!reader.accepted()) {
            return Optional.empty();
        }
        return Optional.of(new NewPlan(
                CorrectivePlanId.of(FormReader.madeWith("plan", id)),
                system.id(),
                chosen,
                words.held(chosen, target.orElseThrow()),
                product,
                percent / 100,
                water,
                added,
                limewater,
                used,
                words.litres(litres.orElseThrow()),
                words.kilograms(kilograms.orElseThrow()),
                Optional.ofNullable(because).filter(text -> !text.isBlank())));
    }

    private Optional<BigDecimal> target(Quantity quantity, PlanWords words, FormReader reader) {
        BigDecimal lowest = words.typed(quantity, lowest(quantity));
        BigDecimal highest = words.typed(quantity, highest(quantity));
        if (to == null || to.isBlank()) {
            return reader.requiredNumber("to", to, lowest, highest);
        }
        return reader.number("to", to)
                .flatMap(typed -> reader.read(() -> asMeant(quantity, words.measured(quantity), typed)))
                .flatMap(typed -> reader.number("to", to, lowest, highest));
    }

    /** What likely means something on another scale, or lost its decimal point, is asked back as in a reading. */
    private static BigDecimal asMeant(Quantity quantity, MeasurementUnit unit, BigDecimal typed) {
        if (quantity == Quantity.SALINITY) {
            SalinityScales.requireNoGravity("to", typed);
        }
        PlausibleRanges.check(quantity, unit, typed)
                .filter(asked -> asked.likely().isPresent())
                .ifPresent(asked -> {
                    throw new FieldRefusal("to", asked.code(), asked.args());
                });
        return typed;
    }

    private static double lowest(Quantity quantity) {
        return quantity == Quantity.TEMPERATURE ? -2 : 0;
    }

    private static double highest(Quantity quantity) {
        return switch (quantity) {
            case SALINITY -> 45;
            case ALKALINITY -> 50;
            case TEMPERATURE -> 40;
            case PH -> 11;
            default -> 5000;
        };
    }

    private static Optional<Double> number(
            String field, @Nullable String text, BigDecimal low, BigDecimal high, FormReader reader) {
        return reader.number(field, text, low, high).map(BigDecimal::doubleValue);
    }
}
