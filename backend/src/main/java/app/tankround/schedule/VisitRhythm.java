package app.tankround.schedule;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;

/**
 * The days on which the visits of an agreement fall.
 *
 * <p>Time from {@code validFrom} on is cut into periods of {@code everyWeeks} weeks. Each period has one visit: on its
 * first day that is one of the allowed weekdays. The first visit is therefore on the first allowed weekday not before
 * {@code validFrom}, and each further one exactly {@code everyWeeks} weeks later. A day after {@code validUntil} has no
 * visit.
 *
 * @param everyWeeks 1 to 52
 * @param weekdays at least one
 * @param validUntil the last day, if there is one
 */
public record VisitRhythm(
        int everyWeeks, Set<DayOfWeek> weekdays, LocalDate validFrom, Optional<LocalDate> validUntil) {

    /** @throws IllegalArgumentException if a value is outside the ranges above */
    public VisitRhythm {
        weekdays = Set.copyOf(weekdays);
        if (everyWeeks < 1 || everyWeeks > 52) {
            throw new IllegalArgumentException("Weeks between visits must be 1 to 52, not " + everyWeeks);
        }
        if (weekdays.isEmpty()) {
            throw new IllegalArgumentException("At least one weekday must be allowed");
        }
    }

    /**
     * One period and its visit.
     *
     * @param start first day of the period
     * @param end first day of the next period
     * @param visitOn the day of the visit
     */
    record Period(LocalDate start, LocalDate end, LocalDate visitOn) {}

    /** The days of the visits from one day up to and including another, in order. */
    public Stream<LocalDate> days(LocalDate from, LocalDate until) {
        return periods(from, until).map(Period::visitOn);
    }

    /** The periods whose visit falls on one of these days, both included. */
    Stream<Period> periods(LocalDate from, LocalDate until) {
        LocalDate last = validUntil.filter(end -> end.isBefore(until)).orElse(until);
        return Stream.iterate(periodOn(from), this::after)
                .takeWhile(period -> !period.visitOn().isAfter(last))
                .filter(period -> !period.visitOn().isBefore(from));
    }

    /** The period a day lies in; the first period for a day before the agreement. */
    Period periodOn(LocalDate day) {
        long days = Math.max(0, day.toEpochDay() - validFrom.toEpochDay());
        return period(validFrom.plusDays(days - days % length()));
    }

    private Period after(Period period) {
        return period(period.end());
    }

    private Period period(LocalDate start) {
        LocalDate visit = start;
        while (!weekdays.contains(visit.getDayOfWeek())) {
            visit = visit.plusDays(1);
        }
        return new Period(start, start.plusDays(length()), visit);
    }

    private int length() {
        return 7 * everyWeeks;
    }
}
