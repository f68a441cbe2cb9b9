package app.tankround.schedule;

import app.tankround.tanks.WaterSystemId;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.joda.money.Money;

/**
 * What is agreed for one water system.
 *
 * @param everyDays the longest time between two visits; empty for fewer than two
 * @param heldFrom the day from which due visits are made on these terms; visits before it keep the earlier ones
 * @param minutes agreed work on site at each visit, 1 to 1440
 * @param price of one visit
 */
public record AgreementView(
        AgreementId id,
        String code,
        WaterSystemId waterSystemId,
        VisitRhythm rhythm,
        Optional<Integer> everyDays,
        LocalDate heldFrom,
        int minutes,
        Money price,
        List<TaskView> tasks,
        int version) {

    public AgreementView {
        tasks = List.copyOf(tasks);
    }

    public LocalDate validFrom() {
        return rhythm.validFrom();
    }

    /** The last day, if there is one. */
    public Optional<LocalDate> validUntil() {
        return rhythm.validUntil();
    }

    /** Tasks that should be done more often than the visits come, and that nobody does in between. */
    public List<IntervalGap> tasksOftenerThanVisits() {
        return IntervalGap.of(tasks, everyDays);
    }

    /** Whether it is in force on that day. */
    public boolean validOn(LocalDate day) {
        return !day.isBefore(validFrom())
                && validUntil().map(last -> !day.isAfter(last)).orElse(true);
    }
}
