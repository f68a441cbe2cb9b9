package app.tankround.schedule;

import app.tankround.clients.SiteId;
import app.tankround.tanks.WaterSystemId;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.joda.money.Money;

/**
 * A due visit with its own copy of what was agreed.
 *
 * @param dueOn the day in the business's zone
 * @param minutes agreed work on site, 1 to 1440
 * @param doneOn present exactly if it was done
 * @param droppedReason present exactly if it was dropped
 */
public record PlannedVisitView(
        PlannedVisitId id,
        AgreementId agreementId,
        WaterSystemId waterSystemId,
        SiteId siteId,
        LocalDate dueOn,
        PlannedVisitState state,
        int minutes,
        Money price,
        List<TaskView> tasks,
        Optional<LocalDate> doneOn,
        Optional<String> droppedReason) {

    public PlannedVisitView {
        tasks = List.copyOf(tasks);
    }
}
