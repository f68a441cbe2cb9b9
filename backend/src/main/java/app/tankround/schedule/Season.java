package app.tankround.schedule;

import app.tankround.web.FieldRefusal;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.MonthDay;

/**
 * A part of each year in which an agreement has another rhythm, such as every two weeks in winter.
 *
 * @param from its first day of each year
 * @param until its last day; before {@code from} where it goes over the turn of the year
 * @param rule counted from the first day of the agreement, as its own rule is
 */
public record Season(MonthDay from, MonthDay until, RecurrenceRule rule) {

    /** Its first day as it is shown, such as {@code 10-01}. */
    public String fromText() {
        return text(from);
    }

    public String untilText() {
        return text(until);
    }

    boolean contains(LocalDate day) {
        MonthDay on = MonthDay.from(day);
        return from.isAfter(until)
                ? !on.isBefore(from) || !on.isAfter(until)
                : !on.isBefore(from) && !on.isAfter(until);
    }

    /**
     * Reads a day of each year, such as {@code 10-01}.
     *
     * @throws FieldRefusal if it is none
     */
    public static MonthDay dayOfYear(String field, String typed) {
        try {
            return MonthDay.parse("--" + typed.strip());
        } catch (DateTimeException malformed) {
            throw new FieldRefusal(field, "schedule.season-day", typed.strip());
        }
    }

    private static String text(MonthDay day) {
        return day.toString().substring(2);
    }
}
