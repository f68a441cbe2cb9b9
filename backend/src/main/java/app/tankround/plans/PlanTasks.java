package app.tankround.plans;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.BusinessSettings;
import app.tankround.plans.PlanView.PlanStep;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.schedule.TaskView;
import app.tankround.tanks.WaterSystemView;
import app.tankround.units.Quantity;
import app.tankround.units.UnitSystem;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Component;

/** A step of a plan as tasks of a visit, and as one line of what was decided. */
@Component
class PlanTasks {

    /** Tells the water of a plan from the water that is changed anyway, so that one is not taken for the other. */
    static final String WATER_OF_PLAN = "plan";

    private static final MathContext DIGITS = new MathContext(3, RoundingMode.HALF_EVEN);
    private static final MathContext MORE_DIGITS = new MathContext(4, RoundingMode.HALF_EVEN);
    private static final double LEAST_LITRES = 0.05;

    private final BusinessProfile business;
    private final MessageSource messages;

    PlanTasks(BusinessProfile business, MessageSource messages) {
        this.business = business;
        this.messages = messages;
    }

    List<TaskView> of(PlanView plan, PlanStep step, PlannedVisitView visit, WaterSystemView system) {
        List<TaskView> tasks = new ArrayList<>();
        boolean asked = visit.tasks().stream()
                .anyMatch(
                        task -> task.quantity().filter(plan.quantity()::equals).isPresent());
        if (!asked) {
            tasks.add(TaskView.test(plan.quantity()));
        }
        plan.salt()
                .filter(salt -> step.productKilograms() > 0)
                .ifPresent(
                        salt -> tasks.add(TaskView.dose(salt.formula(), rounded(1000 * step.productKilograms()), "g")));
        if (step.waterLitres() > 0) {
            double more = step.waterLitres() - PlanVisits.agreedLitres(visit, system);
            if (more > LEAST_LITRES) {
                tasks.add(TaskView.moreWaterLitres(rounded(more), WATER_OF_PLAN));
            }
        }
        if (plan.salt().isEmpty()) {
            tasks.add(TaskView.work(words(plan, step)));
        }
        return tasks;
    }

    private String words(PlanView plan, PlanStep step) {
        BusinessSettings settings = business.current();
        PlanWords words = new PlanWords(settings.unitSystem(), settings.locale());
        Object[] args = {
            words.value(plan.quantity(), step.before()),
            words.value(plan.quantity(), step.after()),
            step.newWater().map(value -> words.value(plan.quantity(), value)).orElse(""),
            words.volume(step.waterLitres())
        };
        return messages.getMessage("plans.task." + plan.quantity(), args, settings.locale());
    }

    /** Code of the one line that says what a step was decided to be. */
    String decisionCode(PlanView plan) {
        String code = "plans.decision.step." + plan.quantity();
        return plan.quantity() == Quantity.TEMPERATURE && business.unitSystem() == UnitSystem.US_CUSTOMARY
                ? code + ".US_CUSTOMARY"
                : code;
    }

    /** What the line takes: before, after and the name of the system. */
    List<String> decisionArgs(PlanView plan, PlanStep step, WaterSystemView system) {
        PlanWords words =
                new PlanWords(business.unitSystem(), business.current().locale());
        return List.of(
                number(words, plan.quantity(), step.before()),
                number(words, plan.quantity(), step.after()),
                system.name());
    }

    private static String number(PlanWords words, Quantity quantity, double value) {
        return rounded(words.typed(quantity, value).doubleValue()).toPlainString();
    }

    private static BigDecimal rounded(double value) {
        BigDecimal number = new BigDecimal(value).round(value >= 1000 ? MORE_DIGITS : DIGITS);
        return new BigDecimal(number.stripTrailingZeros().toPlainString());
    }
}
