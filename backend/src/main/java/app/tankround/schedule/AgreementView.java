package app.tankround.schedule;

import app.tankround.tanks.WaterSystemId;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.joda.money.Money;

/**
 * What is agreed for one water system; see {@link VisitRhythm} for the days that follow from it.
 *
 * @param everyWeeks 1 to 52
 * @param weekdays at least one
 * @param validUntil the last day, if there is one
 * @param minutes agreed work on site at each visit, 1 to 1440
 * @param price of one visit
 */
public record AgreementView(
        AgreementId id,
        String code,
        WaterSystemId waterSystemId,
        int everyWeeks,
        Set<DayOfWeek> weekdays,
        LocalDate validFrom,
        Optional<LocalDate> validUntil,
        int minutes,
        Money price,
        List<TaskView> tasks,
        int version) {

    public AgreementView {
        weekdays = Set.copyOf(weekdays);
        tasks = List.copyOf(tasks);
    }

    /** The days on which visits fall. */
    public VisitRhythm rhythm() {
        return new VisitRhythm(everyWeeks, weekdays, validFrom, validUntil);
    }

    /** The allowed weekdays from Monday on. */
    public List<DayOfWeek> sortedWeekdays() {
        return weekdays.stream().sorted().toList();
    }

    /** Tasks that should be done more often than the visits come, such as socks every four days on weekly visits. */
    public List<TaskView> tasksOftenerThanVisits() {
        return tasks.stream()
                .filter(task -> task.intervalDays()
                        .filter(days -> days < 7 * everyWeeks)
                        .isPresent())
                .toList();
    }

    /** Whether it is in force on that day. */
    public boolean validOn(LocalDate day) {
        return !day.isBefore(validFrom)
                && validUntil.map(last -> !day.isAfter(last)).orElse(true);
    }
}
