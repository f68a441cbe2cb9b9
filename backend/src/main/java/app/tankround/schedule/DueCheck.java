package app.tankround.schedule;

import app.tankround.instruments.ChosenStandard;
import app.tankround.instruments.InstrumentView;
import app.tankround.instruments.StandardView;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.List;
import java.util.Optional;

/**
 * The check of an instrument as a task of a day.
 *
 * @param dueOn the day on which its history wants it; empty where it is due whatever the day
 * @param standard what it is held in
 * @param doneAt when it was done that day, by the clock of the business; empty while it is to be done
 */
public record DueCheck(
        InstrumentView instrument,
        Why why,
        Optional<LocalDate> dueOn,
        int intervalDays,
        ChosenStandard standard,
        Optional<LocalTime> doneAt) {

    /** Why it is due. */
    public enum Why {
        DUE,
        OVERDUE,
        NEVER_CHECKED,
        ZERO_CHECKED_ONLY,
        /** The readings of its last check contradict each other, so that it neither passed nor failed. */
        REPEAT,
        /** A check in another standard or lot decides whether it is out of use. */
        SUSPECT
    }

    /** Those of its standards that nobody has opened before that day. */
    public List<StandardView> unopenedOn(LocalDate day) {
        return standard.standards().stream()
                .filter(bottle -> ChosenStandard.unopened(bottle, day))
                .toList();
    }

    public boolean isOpen() {
        return doneAt.isEmpty();
    }
}
