package app.tankround.visits;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.BusinessSettings;
import app.tankround.schedule.WorkProposal;
import app.tankround.schedule.WorkProposal.Source;
import app.tankround.schedule.WorkSource;
import app.tankround.tanks.QuarantineService;
import app.tankround.tanks.WaterSystems;
import java.time.LocalDate;
import java.util.List;
import org.springframework.context.MessageSource;
import org.springframework.core.annotation.Order;
import org.springframework.stereotype.Component;

/** What is looked at before a quarantine ends, once its days are nearly over; settled when it ends or begins anew. */
@Component
@Order(4)
class QuarantineWork implements WorkSource {

    /** So long ahead a quarantine's end is of use to whoever plans. */
    private static final int WEEKS_AHEAD = 8;

    private static final int DAYS = 7;
    private static final int MINUTES = 20;

    private final QuarantineService quarantine;
    private final WaterSystems systems;
    private final BusinessProfile business;
    private final MessageSource messages;

    QuarantineWork(
            QuarantineService quarantine, WaterSystems systems, BusinessProfile business, MessageSource messages) {
        this.quarantine = quarantine;
        this.systems = systems;
        this.business = business;
        this.messages = messages;
    }

    @Override
    public List<WorkProposal> waiting() {
        LocalDate today = systems.today();
        LocalDate furthest = today.plusWeeks(WEEKS_AHEAD);
        BusinessSettings settings = business.current();
        return quarantine.all(today).stream()
                .filter(state -> !state.over().isAfter(furthest))
                .map(state -> WorkProposal.of(
                        "quarantine " + state.system().id() + " " + state.over(),
                        "/systems/" + state.system().id() + "/quarantine",
                        state.system().id(),
                        Source.QUARANTINE,
                        messages.getMessage("visits.work.quarantine", new Object[] {state.days()}, settings.locale()),
                        state.over(),
                        state.over().plusDays(DAYS),
                        MINUTES))
                .toList();
    }
}
