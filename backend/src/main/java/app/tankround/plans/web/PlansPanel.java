package app.tankround.plans.web;

import app.tankround.accounts.BusinessProfile;
import app.tankround.plans.CorrectivePlans;
import app.tankround.plans.DoseGuard;
import app.tankround.plans.DoseRules;
import app.tankround.plans.PlanView;
import app.tankround.plans.PlanWords;
import app.tankround.plans.Treatments;
import app.tankround.plans.VeterinaryOrder;
import app.tankround.tanks.SystemPanel;
import app.tankround.tanks.WaterSystemView;
import app.tankround.units.Quantity;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.springframework.context.i18n.LocaleContextHolder;
import org.springframework.stereotype.Component;

/** What is being put right on a system, what could be, and the way to the emergencies, on its page. */
@Component
class PlansPanel implements SystemPanel {

    private static final int MOST_CLOSED = 5;

    private final CorrectivePlans plans;
    private final DoseRules rules;
    private final DoseGuard guard;
    private final Treatments treatments;
    private final BusinessProfile business;

    PlansPanel(
            CorrectivePlans plans, DoseRules rules, DoseGuard guard, Treatments treatments, BusinessProfile business) {
        this.treatments = treatments;
        this.plans = plans;
        this.rules = rules;
        this.guard = guard;
        this.business = business;
    }

    @Override
    public int order() {
        return 20;
    }

    @Override
    public String fragment() {
        return "plans/panels :: system";
    }

    @Override
    public Map<String, Object> model(WaterSystemView system) {
        List<PlanView> all = plans.bySystem(system.id());
        List<PlanView> open = all.stream().filter(PlanView::open).toList();
        List<Quantity> planned = open.stream().map(PlanView::quantity).toList();
        List<Quantity> possible = PlanController.inOrder(plans.known(system.id())).stream()
                .filter(quantity -> !planned.contains(quantity))
                .toList();
        return Map.of(
                "system",
                system,
                "open",
                open,
                "closed",
                all.stream().filter(plan -> !plan.open()).limit(MOST_CLOSED).toList(),
                "possible",
                possible,
                "lowSump",
                plans.lowSump(system.id()),
                "orders",
                rules.orders(system.id()).stream().map(this::ordered).toList(),
                "treatments",
                treatments.bySystem(system.id()),
                "words",
                new PlanWords(business.current().unitSystem(), LocaleContextHolder.getLocale()));
    }

    /**
     * An order with what follows from it.
     *
     * @param given last day on which it was given; empty if it never was
     * @param eatableFrom first day on which an animal may be eaten again
     */
    record Ordered(VeterinaryOrder order, Optional<LocalDate> given, Optional<LocalDate> eatableFrom) {}

    private Ordered ordered(VeterinaryOrder order) {
        Optional<LocalDate> given = guard.lastGiven(order.systemId(), order.product());
        return new Ordered(order, given, given.map(day -> day.plusDays(order.waitingDays())));
    }
}
