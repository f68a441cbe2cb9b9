package app.tankround.plans;

import app.tankround.chemistry.Salt;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.schedule.TaskKind;
import app.tankround.schedule.TaskView;
import app.tankround.tanks.WaterSystemView;
import app.tankround.units.Quantity;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.springframework.stereotype.Component;

/** How far doses raise alkalinity, calcium or magnesium, so that all that raise the same share one day's safe rate. */
@Component
class DailyRise {

    private final DoseRules rules;

    DailyRise(DoseRules rules) {
        this.rules = rules;
    }

    /**
     * What is held against one safe rate.
     *
     * @param perDay the safe rate, above 0
     * @param product of the plan that is followed or drawn, with its purity; every other salt is taken to be pure
     */
    record Held(WaterSystemView system, Quantity quantity, double perDay, Optional<Salt> product, double purity) {

        private double purityOf(Salt salt) {
            return product.filter(salt::equals).isPresent() ? purity : 1;
        }
    }

    /**
     * What the doses that are agreed for a visit bring.
     *
     * @param rise in the unit of the quantity
     * @param uncounted products that raise it by nobody knows how much
     */
    record Agreed(double rise, List<String> uncounted) {

        static final Agreed NOTHING = new Agreed(0, List.of());

        Agreed {
            uncounted = List.copyOf(uncounted);
        }
    }

    /**
     * How far a dose raises the quantity; 0 if it does not. A product whose strength nobody knows, but that the business says
     * raises alkalinity and how much of it a day may bring, brings the safe rate of a day by that much.
     *
     * @return empty if it raises it by nobody knows how much
     */
    OptionalDouble of(Held held, String product, double amount, String unit) {
        Optional<Salt> salt = NamedSalt.of(product);
        if (salt.isPresent()) {
            boolean same = salt.get().raises().name().equals(held.quantity().name());
            if (!same) {
                return OptionalDouble.of(0);
            }
            return unit.equals("g")
                    ? OptionalDouble.of(amount
                            * held.purityOf(salt.get())
                            / DoseGuard.gramsFor(salt.get(), held.system().netVolume(), 1))
                    : OptionalDouble.empty();
        }
        Optional<DoseRuleView> rule = rules.of(product);
        if (held.quantity() != Quantity.ALKALINITY || !raisesPh(product, rule)) {
            return OptionalDouble.of(0);
        }
        return rule.filter(known -> known.unit().equals(unit))
                .flatMap(DoseRuleView::mostPerDay)
                .map(most -> held.perDay()
                        * amount
                        / (most * held.system().netVolume().litres() / 100))
                .map(OptionalDouble::of)
                .orElseGet(OptionalDouble::empty);
    }

    /** The doses of a visit besides those of the plan itself. */
    Agreed agreed(Held held, PlannedVisitView visit) {
        double rise = 0;
        List<String> uncounted = new ArrayList<>();
        for (TaskView task : visit.tasks()) {
            if (task.kind() != TaskKind.DOSE || task.amount().isEmpty()) {
                continue;
            }
            String product = task.item().orElse("");
            OptionalDouble brought = of(
                    held,
                    product,
                    task.amount().get().doubleValue(),
                    task.unit().orElse(""));
            rise += brought.orElse(0);
            if (brought.isEmpty()) {
                uncounted.add(product);
            }
        }
        return new Agreed(rise, uncounted);
    }

    /** Whether the office says that a product raises pH, or its name does. */
    static boolean raisesPh(String product, Optional<DoseRuleView> rule) {
        return rule.filter(stated -> stated.kind() == DoseKind.ALKALINITY).isPresent() || NamedSalt.raisesPh(product);
    }
}
