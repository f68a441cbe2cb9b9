package app.tankround.schedule;

import java.math.BigDecimal;
import java.time.DayOfWeek;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.IntStream;

/**
 * A task that should be done more often than the visits come, such as socks every four days on weekly visits.
 *
 * @param everyDays the longest time between two visits
 * @param times how often it falls due between two visits, at least 1
 */
public record IntervalGap(TaskView task, int everyDays, int times) {

    private static final int DAYS_PER_WEEK = 7;

    /**
     * The tasks that the visits alone do not meet. Socks that are left with the client to swap meet it, where there are
     * enough of that size.
     *
     * @param everyDays the longest time between two visits; nothing is unmet where there is none
     */
    public static List<IntervalGap> of(List<TaskView> tasks, Optional<Integer> everyDays) {
        return everyDays.stream()
                .flatMap(days -> tasks.stream()
                        .filter(task -> task.intervalDays()
                                .filter(interval -> interval < days)
                                .isPresent())
                        .map(task -> new IntervalGap(
                                task,
                                days,
                                Math.ceilDiv(days, task.intervalDays().orElseThrow()) - 1)))
                .filter(gap -> !gap.isMetBy(tasks))
                .toList();
    }

    private boolean isMetBy(List<TaskView> tasks) {
        return socks().filter(needed -> tasks.stream()
                                .filter(other -> other.kind() == TaskKind.SOCKS_LEFT
                                        && other.sockSize().equals(task.sockSize()))
                                .mapToInt(other ->
                                        other.amount().orElse(BigDecimal.ZERO).intValue())
                                .sum()
                        >= needed)
                .isPresent();
    }

    /** How many socks the client needs to swap between two visits; empty for any other task. */
    public Optional<Integer> socks() {
        return task.kind() == TaskKind.SOCK_SWAP
                ? task.amount().map(count -> count.intValue() * times)
                : Optional.empty();
    }

    /** The task with which the client swaps them; empty for any other task. */
    public Optional<TaskView> leftWithClient() {
        return socks().flatMap(count -> task.sockSize().map(size -> TaskView.socksLeft(count, size)));
    }

    /**
     * As few weekdays as possible on which visits would meet a task every so many days: at weekends as few as can be, then
     * as evenly spread and as early in the week as can be.
     *
     * @param intervalDays at least 1
     * @param kept a weekday that stays one of them
     */
    public static Set<DayOfWeek> weekdaysFor(int intervalDays, DayOfWeek kept) {
        return IntStream.range(1, 1 << DAYS_PER_WEEK)
                .mapToObj(IntervalGap::days)
                .filter(days -> days.contains(kept) && longestGap(days) <= Math.min(intervalDays, DAYS_PER_WEEK))
                .min(Comparator.comparingInt((Set<DayOfWeek> days) -> days.size())
                        .thenComparingInt(IntervalGap::atWeekends)
                        .thenComparingInt(
                                days -> gaps(days).map(gap -> gap * gap).sum())
                        .thenComparingInt(days ->
                                days.stream().mapToInt(DayOfWeek::getValue).sum()))
                .orElseThrow();
    }

    private static Set<DayOfWeek> days(int bits) {
        return EnumSet.allOf(DayOfWeek.class).stream()
                .filter(day -> (bits & 1 << day.ordinal()) != 0)
                .collect(Collectors.toCollection(() -> EnumSet.noneOf(DayOfWeek.class)));
    }

    private static int atWeekends(Set<DayOfWeek> days) {
        return (int)
                days.stream().filter(day -> day.compareTo(DayOfWeek.FRIDAY) > 0).count();
    }

    private static int longestGap(Set<DayOfWeek> days) {
        return gaps(days).max().orElse(DAYS_PER_WEEK);
    }

    private static IntStream gaps(Set<DayOfWeek> days) {
        int[] at = days.stream().mapToInt(DayOfWeek::ordinal).toArray();
        return IntStream.range(0, at.length)
                .map(i -> i + 1 < at.length ? at[i + 1] - at[i] : at[0] + DAYS_PER_WEEK - at[i]);
    }
}
