package app.tankround.seed;

import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.MonthDay;
import java.time.Period;
import java.time.ZoneId;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;

/**
 * The days of the demo, counted back from the day of its first fill.
 *
 * @param today the day of the first fill
 */
record DemoDays(LocalDate today) {

    static final ZoneId ZONE = ZoneId.of("Europe/Dublin");

    /** Whole months of history. */
    static final int MONTHS = 18;

    private static final Set<MonthDay> CLOSED =
            Set.of(MonthDay.of(1, 1), MonthDay.of(12, 25), MonthDay.of(12, 26), MonthDay.of(12, 27));

    /** The first day of the history. */
    LocalDate start() {
        return today.minusMonths(MONTHS);
    }

    /** The first day of a month of the history; month 0 begins with the history, month {@value #MONTHS} is today. */
    LocalDate month(int number) {
        return number >= MONTHS ? today : start().plus(Period.ofMonths(number));
    }

    /** The days of a month of the history, which ends before today. */
    List<LocalDate> daysOf(int month) {
        return Stream.iterate(month(month), day -> day.isBefore(month(month + 1)), day -> day.plusDays(1))
                .toList();
    }

    /** The day the rounds of today are for: today, or after it the first one that is worked. */
    LocalDate roundsDay() {
        return Stream.iterate(today, day -> day.plusDays(1))
                .filter(day -> isWorkingDay(day) && !isClosed(day))
                .findFirst()
                .orElseThrow();
    }

    /** The last day before today on which the vans went out. */
    LocalDate lastWorked() {
        return Stream.iterate(today.minusDays(1), day -> day.minusDays(1))
                .filter(day -> isWorkingDay(day) && !isClosed(day))
                .findFirst()
                .orElseThrow();
    }

    /** The working day so many working days after {@link #roundsDay()}. */
    LocalDate slot(int number) {
        return Stream.iterate(roundsDay(), day -> day.plusDays(1))
                .filter(DemoDays::isWorkingDay)
                .skip(number)
                .findFirst()
                .orElseThrow();
    }

    /** Today if it is a Thursday, else the next one. */
    LocalDate thursday() {
        return Stream.iterate(today, day -> day.plusDays(1))
                .filter(day -> day.getDayOfWeek() == DayOfWeek.THURSDAY)
                .findFirst()
                .orElseThrow();
    }

    static boolean isWorkingDay(LocalDate day) {
        return day.getDayOfWeek() != DayOfWeek.SATURDAY && day.getDayOfWeek() != DayOfWeek.SUNDAY;
    }

    /** Days of the year on which nobody works. */
    static boolean isClosed(LocalDate day) {
        return CLOSED.contains(MonthDay.from(day));
    }

    static Instant at(LocalDate day, LocalTime time) {
        return day.atTime(time).atZone(ZONE).toInstant();
    }
}
