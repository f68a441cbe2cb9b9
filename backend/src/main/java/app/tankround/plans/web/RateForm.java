package app.tankround.plans.web;

import app.tankround.plans.PlanWords;
import app.tankround.plans.SafeRateView;
import app.tankround.plans.SafeRates;
import app.tankround.units.Quantity;
import app.tankround.web.FormReader;
import java.math.BigDecimal;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** The safe rates of one quantity as typed, temperatures in the unit of the business, and why. */
record RateForm(
        int version,
        @Nullable String raising,
        @Nullable String lowering,
        @Nullable String why) {

    static RateForm of(SafeRateView held, int version, PlanWords words) {
        return new RateForm(
                version,
                held.raising()
                        .map(rate -> words.field(words.typedChange(held.quantity(), rate)))
                        .orElse(null),
                held.lowering()
                        .map(rate -> words.field(words.typedChange(held.quantity(), rate)))
                        .orElse(null),
                held.why());
    }

    Optional<Double> raising(Quantity quantity, PlanWords words, FormReader reader) {
        return rate("raising", raising, quantity, words, reader);
    }

    Optional<Double> lowering(Quantity quantity, PlanWords words, FormReader reader) {
        return rate("lowering", lowering, quantity, words, reader);
    }

    private static Optional<Double> rate(
            String field, @Nullable String text, Quantity quantity, PlanWords words, FormReader reader) {
        BigDecimal most = words.typedChange(quantity, SafeRates.largest(quantity));
        return reader.number(field, text)
                .filter(typed -> {
                    boolean safe = typed.signum() > 0 && typed.compareTo(most) <= 0;
                    if (!safe) {
                        reader.refuse(field, "plans.rate-range", typed, BigDecimal.ZERO, most);
                    }
                    return safe;
                })
                .map(typed -> words.heldChange(quantity, typed));
    }
}
