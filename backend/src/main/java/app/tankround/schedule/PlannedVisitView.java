package app.tankround.schedule;

import app.tankround.clients.SiteId;
import app.tankround.tanks.WaterSystemId;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.joda.money.Money;

/**
 * A due visit with its own copy of what was agreed.
 *
 * @param nominalOn the day that the rhythm gives, in the business's zone
 * @param dueOn the day of the visit, within the tolerance of the nominal one
 * @param toleranceDays by how many days it may leave the nominal day
 * @param hindrance why nobody can come on the nominal day; if it is due there all the same, no other day would do
 * @param minutes agreed work on site, 1 to 1440
 * @param besideMinutes for what goes along beside what is agreed
 * @param doneOn present exactly if it was done
 * @param droppedReason present exactly if it was dropped
 */
public record PlannedVisitView(
        PlannedVisitId id,
        AgreementId agreementId,
        WaterSystemId waterSystemId,
        SiteId siteId,
        LocalDate nominalOn,
        LocalDate dueOn,
        int toleranceDays,
        Optional<DayHindrance> hindrance,
        PlannedVisitState state,
        int minutes,
        int besideMinutes,
        Money price,
        List<TaskView> tasks,
        Optional<LocalDate> doneOn,
        Optional<String> droppedReason) {

    public PlannedVisitView {
        tasks = List.copyOf(tasks);
    }

    /** The same with so many litres less to change. */
    public PlannedVisitView changingLess(BigDecimal litres, BigDecimal netLitres) {
        return new PlannedVisitView(
                id,
                agreementId,
                waterSystemId,
                siteId,
                nominalOn,
                dueOn,
                toleranceDays,
                hindrance,
                state,
                minutes,
                besideMinutes,
                price,
                MovedChanges.changedBy(tasks, litres.negate(), netLitres),
                doneOn,
                droppedReason);
    }

    /** Agreed work and what goes along. */
    public int allMinutes() {
        return minutes + besideMinutes;
    }

    /** Whether it was moved off its nominal day. */
    public boolean isMoved() {
        return !dueOn.equals(nominalOn);
    }
}
