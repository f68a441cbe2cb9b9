package app.tankround.visits;

import app.tankround.plans.DoseGuard;
import app.tankround.schedule.TaskView;
import app.tankround.tanks.WaterSystemView;
import app.tankround.web.EntryAnswer;
import java.math.BigDecimal;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Component;

/** What was dosed: entries of their own, and agreed doses that are ticked. The guard over doses sees both. */
@Component
class DoseEntries {

    private final DoseGuard guard;
    private final Reliance reliance;
    private final MessageSource messages;

    DoseEntries(DoseGuard guard, Reliance reliance, MessageSource messages) {
        this.guard = guard;
        this.reliance = reliance;
        this.messages = messages;
    }

    /** {@code visit.dose}: a product, how much of it, and why where it was given against the guard over doses. */
    Written dose(EntryContext context) {
        EntryBody body = context.body();
        WaterSystemView system = SystemOfVisit.require(context);
        String product = body.text("product", 200);
        BigDecimal amount = body.number("amount", "0.001", "100000");
        String unit = body.choice("unit", List.of("mL", "g"));
        Optional<String> because = body.optionalReason("because");
        String field = "dose/" + body.text("line", 80);
        var dose = new DoseGuard.Dose(
                context.place(field),
                context.visit().id().value(),
                false,
                system,
                product,
                amount.doubleValue(),
                unit,
                at(context),
                body.isSet("prepared"),
                because,
                body.optionalFlag("further"));
        Facts facts = new Facts()
                .put("product", product)
                .number("amount", Optional.of(amount))
                .put("unit", unit)
                .put("because", because);
        return given(context, field, dose, amount, facts);
    }

    /** An agreed dose that is ticked as done; without an amount there is nothing to look at. */
    Written ticked(EntryContext context, String field, TaskView agreed, WaterSystemView system, Facts facts) {
        Optional<String> because = context.body().optionalReason("because");
        facts.put("because", because);
        if (agreed.amount().isEmpty()) {
            return Written.only(field, Optional.of(system.id()), facts.node());
        }
        BigDecimal amount = agreed.amount().get();
        var dose = new DoseGuard.Dose(
                context.place(field),
                context.visit().id().value(),
                true,
                system,
                agreed.item().orElse(""),
                amount.doubleValue(),
                agreed.unit().orElse(""),
                at(context),
                context.body().isSet("prepared"),
                because,
                Optional.empty());
        return given(context, field, dose, amount, facts);
    }

    /** Nothing is given at a visit before it has begun, whatever the device says. */
    private static Instant at(EntryContext context) {
        return context.visit()
                .startedAt()
                .filter(begun -> context.at().isBefore(begun))
                .orElse(context.at());
    }

    /** An agreed dose that was not given after all. */
    Written notGiven(EntryContext context, String field, WaterSystemView system, Facts facts) {
        return new Written(field, Optional.of(system.id()), facts.node(), () -> {
            guard.notGiven(context.place(field));
            context.desk().withdraw(List.of(context.place(field)));
            return EntryAnswer::applied;
        });
    }

    private Written given(EntryContext context, String field, DoseGuard.Dose dose, BigDecimal amount, Facts facts) {
        WaterSystemView system = dose.system();
        context.desk().settle(system.id());
        DoseGuard.Looked looked = guard.check(dose);
        if (dose.givenBecause().isEmpty()) {
            reliance.require(context, system.id(), DoseGuard.raises(dose.product()));
        }
        List<String> args = List.of(amount.toPlainString(), dose.unit(), dose.product(), system.name());
        return new Written(field, Optional.of(system.id()), facts.node(), () -> {
            guard.given(dose, looked)
                    .ifPresent(replaced -> context.desk()
                            .register(context.decision("dose", "visits.decision.dose", args, system.id(), List.of())
                                    .writtenAs(context.place(field), replaced)));
            return () -> answer(context, looked);
        });
    }

    private EntryAnswer answer(EntryContext context, DoseGuard.Looked looked) {
        if (looked.notes().isEmpty()) {
            return EntryAnswer.applied();
        }
        return EntryAnswer.applied(
                looked.notes().getFirst().code(),
                Map.of(
                        "words",
                        looked.notes().stream()
                                .map(note -> messages.getMessage(
                                        note.code(), note.args().toArray(), context.locale()))
                                .collect(Collectors.joining(" "))));
    }
}
