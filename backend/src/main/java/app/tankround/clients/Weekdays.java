package app.tankround.clients;

import java.time.DayOfWeek;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.Set;
import java.util.stream.Collectors;

/** A set of weekdays as stored and exchanged: the two-letter days of RFC 5545 (BYDAY) in the order of the week. */
public record Weekdays(Set<DayOfWeek> days) {

    public Weekdays {
        days = Set.copyOf(days);
    }

    /** @throws IllegalArgumentException if the text names no day, a day twice or something else */
    public static Weekdays parse(String text) {
        Set<DayOfWeek> days = EnumSet.noneOf(DayOfWeek.class);
        for (String part : text.split(",", -1)) {
            DayOfWeek day = Arrays.stream(DayOfWeek.values())
                    .filter(candidate -> code(candidate).equals(part.strip()))
                    .findFirst()
                    .orElseThrow(() -> new IllegalArgumentException("No weekday: " + part));
            if (!days.add(day)) {
                throw new IllegalArgumentException("Weekday twice: " + part);
            }
        }
        return new Weekdays(days);
    }

    public static String code(DayOfWeek day) {
        return day.name().substring(0, 2);
    }

    /** Every day of the week. */
    public static Weekdays all() {
        return new Weekdays(EnumSet.allOf(DayOfWeek.class));
    }

    @Override
    public String toString() {
        return days.stream().sorted().map(Weekdays::code).collect(Collectors.joining(","));
    }
}
