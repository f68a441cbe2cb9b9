package app.tankround.plans;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.BusinessSettings;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.WorkProposal;
import app.tankround.schedule.WorkProposal.Source;
import app.tankround.schedule.WorkSource;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.springframework.context.MessageSource;
import org.springframework.core.annotation.Order;
import org.springframework.stereotype.Component;

/**
 * What treatments ask for next, and plans that are followed but for which no visit is agreed any more. The program prescribes
 * nothing: how much is given, and until when, is for whoever ordered it.
 */
@Component
@Order(1)
class PlannedWork implements WorkSource {

    /** A residual is read the day after, and once more a day later at most; common practice, no source. */
    private static final int RESIDUAL_DAYS = 1;

    /** What was ordered without a kit that sees it is looked after within this time; common practice, no source. */
    private static final int UNSEEN_DAYS = 3;

    private static final int PLAN_DAYS = 7;
    private static final int DOSE_MINUTES = 10;

    private final PlanRows plans;
    private final Treatments treatments;
    private final WaterSystems systems;
    private final DueVisits dueVisits;
    private final BusinessProfile business;
    private final MessageSource messages;
    private final Clock clock;

    PlannedWork(
            PlanRows plans,
            Treatments treatments,
            WaterSystems systems,
            DueVisits dueVisits,
            BusinessProfile business,
            MessageSource messages,
            Clock clock) {
        this.plans = plans;
        this.treatments = treatments;
        this.systems = systems;
        this.dueVisits = dueVisits;
        this.business = business;
        this.messages = messages;
        this.clock = clock;
    }

    @Override
    public List<WorkProposal> waiting() {
        LocalDate today = dueVisits.today();
        return Stream.concat(
                        treatments.open().stream().map(this::next),
                        plans.open().stream()
                                .filter(plan -> plan.state() == PlanState.RUNNING)
                                .filter(plan -> plan.steps().stream()
                                        .noneMatch(step -> !step.on().isBefore(today)))
                                .map(plan -> step(plan, today)))
                .filter(work -> systems.require(work.system()).active())
                .toList();
    }

    private WorkProposal next(Treatment treatment) {
        WaterSystemView system = systems.require(treatment.systemId());
        Instant now = clock.instant();
        Optional<LocalDate> dosed = treatments.lastDose(treatment, "").map(this::day);
        if (dosed.isEmpty()) {
            LocalDate first = treatment.startedOn();
            return work(treatment, "first", first, first, first.plusDays(1));
        }
        if (treatment.copper().isEmpty()) {
            LocalDate first = dosed.get().plusDays(1);
            return work(treatment, "next", dosed.get(), first, first.plusDays(UNSEEN_DAYS));
        }
        Treatments.Residual residual = treatments.residual(treatment, now, "");
        if (residual.value().isEmpty() || residual.at().isEmpty()) {
            LocalDate first = dosed.get().plusDays(1);
            return work(treatment, "residual", dosed.get(), first, first.plusDays(RESIDUAL_DAYS));
        }
        double left = residual.value().get();
        LocalDate read = day(residual.at().get());
        boolean wanting =
                treatment.dose(treatment.low(), left, system.netVolume().litres()) > 0;
        LocalDate first = wanting ? read : read.plusDays(1);
        return work(
                treatment,
                wanting ? "dose" : "residual",
                read,
                first,
                first.plusDays(RESIDUAL_DAYS),
                DoseGuard.text(left),
                DoseGuard.text(treatment.low()),
                DoseGuard.text(treatment.high()));
    }

    /** @param since the day that the matter is told apart by */
    private WorkProposal work(
            Treatment treatment, String what, LocalDate since, LocalDate first, LocalDate last, String... figures) {
        String code = "plans.work.treatment." + what + (figures.length == 0 ? "" : ".read");
        Object[] args = Stream.concat(Stream.of(treatment.product(), treatment.orderedBy()), Stream.of(figures))
                .toArray();
        return WorkProposal.of(
                "treatment " + what + " " + treatment.id() + " " + since,
                "/systems/" + treatment.systemId(),
                treatment.systemId(),
                Source.TREATMENT,
                text(code, args),
                first,
                last,
                DOSE_MINUTES);
    }

    private WorkProposal step(PlanView plan, LocalDate today) {
        LocalDate since =
                plan.steps().isEmpty() ? plan.readOn() : plan.steps().getLast().on();
        LocalDate first = since.plusDays(1);
        return WorkProposal.of(
                "plan step " + plan.id() + " " + since,
                "/plans/" + plan.id(),
                plan.systemId(),
                Source.PLAN,
                text("plans.work.step." + plan.quantity()),
                first,
                first.plusDays(PLAN_DAYS),
                PlanFollowing.STEP_MINUTES);
    }

    private LocalDate day(Instant at) {
        return LocalDate.ofInstant(at, business.zone());
    }

    private String text(String code, Object... args) {
        BusinessSettings settings = business.current();
        return messages.getMessage(code, args, settings.locale());
    }
}
