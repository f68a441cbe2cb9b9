package app.tankround.schedule;

import app.tankround.web.FieldRefusal;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.time.temporal.TemporalAdjusters;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/**
 * The days on which the visits of an agreement fall.
 *
 * <p>A rule counts them from {@code validFrom} on; inside a season that season's rule does, counted from the same day, so
 * that both stay in step over the years. A day inside a pause or after {@code validUntil} has no visit.
 *
 * @param weekdays on which a visit may be, at least one
 * @param validUntil the last day, if there is one
 * @param toleranceDays by how many days a visit may leave its nominal day, 0 to {@value #MOST_TOLERANCE_DAYS} and fewer than lie between two visits
 * @param seasons none of which overlap
 */
public record VisitRhythm(
        RecurrenceRule rule,
        Set<DayOfWeek> weekdays,
        LocalDate validFrom,
        Optional<LocalDate> validUntil,
        int toleranceDays,
        List<Season> seasons,
        List<Pause> pauses) {

    /** By how many days a visit may leave its nominal day at most. */
    public static final int MOST_TOLERANCE_DAYS = 28;

    /** Every day of the week. */
    public static final Set<DayOfWeek> ANY_DAY = Set.copyOf(EnumSet.allOf(DayOfWeek.class));

    private static final int MOST_WEEKS = 52;

    /** Days to look around for a neighbouring visit, further and further; no rule that is accepted has a longer gap. */
    private static final List<Integer> LOOK_AROUND = List.of(8, 70, 800, 4400);

    private static final int USUAL_YEARS = 3;
    private static final int LONGEST_YEARS = 12;

    /** How a rhythm was written, and so how it is shown. */
    public enum Pattern {
        /** One visit in each period of so many weeks, on the first allowed weekday. */
        ONE_IN_WEEKS,
        /** A visit on each of some weekdays, every so many weeks. */
        EACH_WEEKDAY,
        /** One visit, on the first day. */
        ONCE,
        /** A rule of the business's own. */
        RULE
    }

    public VisitRhythm {
        weekdays = Set.copyOf(weekdays);
        seasons = List.copyOf(seasons);
        pauses = List.copyOf(pauses);
    }

    /**
     * One visit in each period of so many weeks, counted from the first day: on the first day of the period that is an
     * allowed weekday.
     *
     * @param everyWeeks 1 to 52
     * @throws FieldRefusal if the weeks are outside that range or no weekday is allowed
     */
    public static VisitRhythm oneInWeeks(
            int everyWeeks, Set<DayOfWeek> weekdays, LocalDate validFrom, Optional<LocalDate> validUntil) {
        return new VisitRhythm(
                ruleOfOneInWeeks(everyWeeks, weekdays, validFrom),
                weekdays,
                validFrom,
                validUntil,
                0,
                List.of(),
                List.of());
    }

    private static RecurrenceRule ruleOfOneInWeeks(int everyWeeks, Set<DayOfWeek> weekdays, LocalDate validFrom) {
        requireWeeks(everyWeeks, weekdays);
        DayOfWeek visited = IntStream.range(0, 7)
                .mapToObj(days -> validFrom.getDayOfWeek().plus(days))
                .filter(weekdays::contains)
                .findFirst()
                .orElseThrow();
        return RecurrenceRule.weekly(everyWeeks, Set.of(visited), validFrom);
    }

    /**
     * A visit on each of these weekdays, every so many weeks.
     *
     * @throws FieldRefusal as {@link #oneInWeeks}
     */
    public static VisitRhythm eachWeekday(
            int everyWeeks, Set<DayOfWeek> weekdays, LocalDate validFrom, Optional<LocalDate> validUntil) {
        requireWeeks(everyWeeks, weekdays);
        return new VisitRhythm(
                RecurrenceRule.weekly(everyWeeks, weekdays, validFrom),
                ANY_DAY,
                validFrom,
                validUntil,
                0,
                List.of(),
                List.of());
    }

    /** One visit only, on that day. */
    public static VisitRhythm once(LocalDate day) {
        return new VisitRhythm(RecurrenceRule.ONCE, ANY_DAY, day, Optional.of(day), 0, List.of(), List.of());
    }

    /**
     * By a rule of RFC 5545 such as {@code FREQ=MONTHLY;BYDAY=1FR}.
     *
     * @throws FieldRefusal at {@code rule} if it cannot be one
     */
    public static VisitRhythm byRule(
            String rule, Set<DayOfWeek> weekdays, LocalDate validFrom, Optional<LocalDate> validUntil) {
        return new VisitRhythm(
                RecurrenceRule.read("rule", rule), weekdays, validFrom, validUntil, 0, List.of(), List.of());
    }

    /** The same with seasons and pauses. */
    public VisitRhythm with(List<Season> others, List<Pause> rests) {
        return new VisitRhythm(rule, weekdays, validFrom, validUntil, toleranceDays, others, rests);
    }

    /** The same with so many days around each nominal one. */
    public VisitRhythm within(int days) {
        return new VisitRhythm(rule, weekdays, validFrom, validUntil, days, seasons, pauses);
    }

    private static void requireWeeks(int everyWeeks, Set<DayOfWeek> weekdays) {
        if (everyWeeks < 1 || everyWeeks > MOST_WEEKS) {
            throw new FieldRefusal("everyWeeks", "schedule.out-of-range", everyWeeks, 1, MOST_WEEKS);
        }
        if (weekdays.isEmpty()) {
            throw new FieldRefusal("weekdays", "schedule.weekday-missing");
        }
    }

    public Pattern pattern() {
        if (rule.equals(RecurrenceRule.ONCE)) {
            return Pattern.ONCE;
        }
        OptionalInt weeks = rule.weeks().stream().filter(n -> n <= MOST_WEEKS).findFirst();
        if (weeks.isPresent() && rule.equals(ruleOfOneInWeeks(weeks.getAsInt(), weekdays, validFrom))) {
            return Pattern.ONE_IN_WEEKS;
        }
        boolean each = weeks.isPresent()
                && weekdays.equals(ANY_DAY)
                && rule.equals(RecurrenceRule.weekly(weeks.getAsInt(), rule.weekdays(), validFrom));
        return each ? Pattern.EACH_WEEKDAY : Pattern.RULE;
    }

    /** Weeks from one period to the next; present for {@link Pattern#ONE_IN_WEEKS} and {@link Pattern#EACH_WEEKDAY}. */
    public Optional<Integer> everyWeeks() {
        return switch (pattern()) {
            case ONE_IN_WEEKS, EACH_WEEKDAY -> Optional.of(rule.weeks().orElseThrow());
            case ONCE, RULE -> Optional.empty();
        };
    }

    /** The weekdays that a person chose, from Monday on: those visited, or of which one is. */
    public List<DayOfWeek> chosenWeekdays() {
        return (pattern() == Pattern.EACH_WEEKDAY ? rule.weekdays() : weekdays)
                .stream().sorted().toList();
    }

    /** The rule of a season that has one visit in so many weeks, on the first of the weekdays that a person chose. */
    public RecurrenceRule seasonOf(int everyWeeks) {
        return ruleOfOneInWeeks(everyWeeks, Set.copyOf(chosenWeekdays()), validFrom);
    }

    /** Weeks of a season that has one visit in so many weeks on the same weekdays. */
    public Optional<Integer> everyWeeks(Season season) {
        OptionalInt weeks = season.rule().weeks();
        return weeks.isPresent()
                        && weeks.getAsInt() <= MOST_WEEKS
                        && season.rule().equals(seasonOf(weeks.getAsInt()))
                ? Optional.of(weeks.getAsInt())
                : Optional.empty();
    }

    /**
     * One period and its visit.
     *
     * @param start first day of the period
     * @param end first day of the next period
     * @param visitOn the day of the visit
     */
    record Period(LocalDate start, LocalDate end, LocalDate visitOn) {

        boolean contains(LocalDate day) {
            return !day.isBefore(start) && day.isBefore(end);
        }
    }

    /** The days of the visits from one day up to and including another, in order. */
    public Stream<LocalDate> days(LocalDate from, LocalDate until) {
        LocalDate last = validUntil.filter(end -> end.isBefore(until)).orElse(until);
        Stream<LocalDate> all = seasons.isEmpty()
                ? rule.days(validFrom, from, last).stream()
                : Stream.concat(
                        rule.days(validFrom, from, last).stream()
                                .filter(day -> seasons.stream().noneMatch(season -> season.contains(day))),
                        seasons.stream()
                                .flatMap(season -> season.rule().days(validFrom, from, last).stream()
                                        .filter(season::contains)));
        return all.filter(day -> pauses.stream().noneMatch(pause -> pause.contains(day)))
                .sorted();
    }

    /**
     * The periods whose visit falls on one of these days, both included. A period begins on the last day before its visit
     * that has the weekday of {@code validFrom}, but after the visit before it, and lasts until the next one begins.
     */
    List<Period> periods(LocalDate from, LocalDate until) {
        List<LocalDate> visits = days(from, until).toList();
        if (visits.isEmpty()) {
            return List.of();
        }
        List<LocalDate> around = new ArrayList<>(visits);
        before(visits.getFirst()).ifPresent(around::addFirst);
        after(visits.getLast()).ifPresent(around::addLast);
        List<Period> periods = new ArrayList<>();
        for (int i = 0; i < around.size(); i++) {
            LocalDate visit = around.get(i);
            if (!visit.isBefore(from) && !visit.isAfter(until)) {
                LocalDate start = start(i == 0 ? Optional.empty() : Optional.of(around.get(i - 1)), visit);
                LocalDate end = i + 1 < around.size() ? start(Optional.of(visit), around.get(i + 1)) : LocalDate.MAX;
                periods.add(new Period(start, end, visit));
            }
        }
        return periods;
    }

    private LocalDate start(Optional<LocalDate> visitBefore, LocalDate visit) {
        LocalDate week = visit.with(TemporalAdjusters.previousOrSame(validFrom.getDayOfWeek()));
        return visitBefore
                .filter(last -> !last.isBefore(week))
                .map(last -> last.plusDays(1))
                .orElse(week);
    }

    private Optional<LocalDate> before(LocalDate day) {
        return LOOK_AROUND.stream()
                .map(days -> days(day.minusDays(days), day.minusDays(1)).reduce((first, second) -> second))
                .flatMap(Optional::stream)
                .findFirst();
    }

    private Optional<LocalDate> after(LocalDate day) {
        return LOOK_AROUND.stream()
                .map(days -> days(day.plusDays(1), day.plusDays(days)).findFirst())
                .flatMap(Optional::stream)
                .findFirst();
    }

    /** The day before the next visit after a day, as far as one looks for it. */
    LocalDate lastDayBeforeVisitAfter(LocalDate day) {
        return after(day).map(next -> next.minusDays(1)).orElseGet(() -> day.plusDays(LOOK_AROUND.getLast()));
    }

    /** First day of the period that a day lies in; the first day of all for a day before the first period or after the last. */
    LocalDate startOfPeriod(LocalDate day) {
        Optional<LocalDate> next = after(day);
        Optional<LocalDate> same = days(day, day).findFirst();
        Optional<LocalDate> last = before(day);
        return Stream.of(next, same, last)
                .flatMap(Optional::stream)
                .flatMap(visit -> periods(visit, visit).stream())
                .filter(period -> period.contains(day))
                .map(Period::start)
                .findFirst()
                .orElse(validFrom);
    }

    /** The longest and the shortest time between two visits that follow one another, in days. */
    record Gaps(int shortest, int longest) {}

    /** Of the years from the first day on, pauses left out; none for fewer than two visits. */
    Optional<Gaps> gaps() {
        VisitRhythm steady = with(seasons, List.of());
        return Stream.of(USUAL_YEARS, LONGEST_YEARS)
                .map(years -> steady.days(validFrom, validFrom.plusYears(years)).toList())
                .filter(days -> days.size() > 1)
                .findFirst()
                .map(days -> IntStream.range(1, days.size())
                        .map(i -> (int) ChronoUnit.DAYS.between(days.get(i - 1), days.get(i)))
                        .summaryStatistics())
                .map(statistics -> new Gaps(statistics.getMin(), statistics.getMax()));
    }

    /** Whether a visit may be moved to that day. */
    boolean allows(LocalDate day) {
        return weekdays.contains(day.getDayOfWeek())
                && !day.isBefore(validFrom)
                && validUntil.map(last -> !day.isAfter(last)).orElse(true)
                && pauses.stream().noneMatch(pause -> pause.contains(day));
    }

    /** Whether there is any visit in the dozen years from the first day on. */
    boolean everHappens() {
        return Stream.of(USUAL_YEARS, LONGEST_YEARS)
                .anyMatch(years ->
                        days(validFrom, validFrom.plusYears(years)).findFirst().isPresent());
    }
}
