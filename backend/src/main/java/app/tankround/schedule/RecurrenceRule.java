package app.tankround.schedule;

import app.tankround.clients.Weekdays;
import app.tankround.web.FieldRefusal;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import net.fortuna.ical4j.model.Recur;

/**
 * On which days something comes again: a recurrence rule of RFC 5545 (3.3.10) over whole days. Clock changes cannot touch
 * it, since a day is a day in whatever zone the business keeps.
 *
 * @param text the rule without {@code RRULE:}, its parts in one order and without those that say what holds anyway, so
 *     that equal rules written in that order are equal
 */
public record RecurrenceRule(String text) {

    /** How a visit that comes only once is written. */
    static final RecurrenceRule ONCE = new RecurrenceRule("FREQ=DAILY;COUNT=1");

    private static final int LONGEST = 200;
    private static final int LARGEST_NUMBER = 1000;
    private static final int MOST_A_YEAR = 366;
    private static final List<String> PARTS = List.of(
            "FREQ", "INTERVAL", "COUNT", "BYMONTH", "BYWEEKNO", "BYYEARDAY", "BYMONTHDAY", "BYDAY", "BYSETPOS", "WKST");
    private static final Set<String> OFTENER_THAN_DAILY = Set.of("SECONDLY", "MINUTELY", "HOURLY");
    private static final Set<String> OF_THE_CLOCK = Set.of("BYHOUR", "BYMINUTE", "BYSECOND");

    /**
     * Reads a rule as a person or a file wrote it.
     *
     * @param field where a refusal is shown
     * @throws FieldRefusal if it is no rule of the standard, counts hours or less, names hours or a last day, or has an
     *     interval or a count outside 1 to 1000
     */
    public static RecurrenceRule read(String field, String typed) {
        String written = typed.strip().toUpperCase(Locale.ROOT).replaceFirst("^RRULE:", "");
        if (written.length() > LONGEST) {
            throw new FieldRefusal(field, "schedule.text-too-long", written.length(), 1, LONGEST);
        }
        Map<String, String> parts = parts(field, written);
        String frequency = parts.getOrDefault("FREQ", "");
        if (OFTENER_THAN_DAILY.contains(frequency)) {
            throw new FieldRefusal(field, "schedule.rule-too-often", written, MOST_A_YEAR);
        }
        if (parts.keySet().stream().anyMatch(OF_THE_CLOCK::contains)) {
            throw new FieldRefusal(field, "schedule.rule-hours", written);
        }
        if (parts.containsKey("UNTIL")) {
            throw new FieldRefusal(field, "schedule.rule-until", written);
        }
        if (!PARTS.containsAll(parts.keySet())) {
            throw new FieldRefusal(field, "schedule.rule-malformed", written);
        }
        number(field, "INTERVAL", parts);
        number(field, "COUNT", parts);
        parts.remove("INTERVAL", "1");
        parts.remove("WKST", "MO");
        String text = PARTS.stream()
                .filter(parts::containsKey)
                .map(name -> name + "=" + parts.get(name))
                .collect(Collectors.joining(";"));
        try {
            new Recur<LocalDate>(text);
        } catch (RuntimeException noRule) {
            throw new FieldRefusal(field, "schedule.rule-malformed", written);
        }
        return new RecurrenceRule(text);
    }

    private static Map<String, String> parts(String field, String written) {
        Map<String, String> parts = new LinkedHashMap<>();
        for (String part : written.split(";", -1)) {
            int equals = part.indexOf('=');
            if (equals < 1
                    || parts.put(
                                    part.substring(0, equals).strip(),
                                    part.substring(equals + 1).strip())
                            != null) {
                throw new FieldRefusal(field, "schedule.rule-malformed", written);
            }
        }
        return parts;
    }

    private static void number(String field, String name, Map<String, String> parts) {
        String value = parts.get(name);
        if (value != null
                && !(value.matches("\\d{1,4}")
                        && Integer.parseInt(value) >= 1
                        && Integer.parseInt(value) <= LARGEST_NUMBER)) {
            throw new FieldRefusal(field, "schedule.rule-number", name + "=" + value, 1, LARGEST_NUMBER);
        }
        if (value != null) {
            parts.put(name, String.valueOf(Integer.parseInt(value)));
        }
    }

    /**
     * Each of these weekdays, every so many weeks. Weeks begin on the weekday of the first day, so that they are counted
     * from it whatever weekday it is.
     */
    static RecurrenceRule weekly(int everyWeeks, Collection<DayOfWeek> days, LocalDate first) {
        DayOfWeek start = first.getDayOfWeek();
        return new RecurrenceRule("FREQ=WEEKLY"
                + (everyWeeks > 1 ? ";INTERVAL=" + everyWeeks : "")
                + ";BYDAY=" + new Weekdays(new TreeSet<>(days))
                + (everyWeeks > 1 && start != DayOfWeek.MONDAY ? ";WKST=" + Weekdays.code(start) : ""));
    }

    /** Every how many weeks, if it is written as {@link #weekly} writes. */
    OptionalInt weeks() {
        if (!text.matches("FREQ=WEEKLY(;INTERVAL=\\d+)?;BYDAY=[A-Z,]+(;WKST=[A-Z]{2})?")) {
            return OptionalInt.empty();
        }
        return OptionalInt.of(interval());
    }

    /** The weekdays that it names, if it is written as {@link #weekly} writes. */
    Set<DayOfWeek> weekdays() {
        return weeks().isEmpty()
                ? Set.of()
                : Weekdays.parse(text.replaceFirst(".*BYDAY=([A-Z,]+).*", "$1")).days();
    }

    /** Whether it ends by itself after so many times. */
    boolean isCounted() {
        return text.contains("COUNT=");
    }

    /**
     * The days from one day up to and including another, in order.
     *
     * @param first the day from which the rule counts; it is one of the days only if the rule says so
     */
    List<LocalDate> days(LocalDate first, LocalDate from, LocalDate until) {
        LocalDate start = from.isBefore(first) ? first : from;
        return start.isAfter(until) ? List.of() : recur().getDates(first, start, until);
    }

    /** The library takes the first day of a week from the machine's language where the standard says Monday. */
    private Recur<LocalDate> recur() {
        return new Recur<>(text.contains("WKST=") ? text : text + ";WKST=MO");
    }

    private int interval() {
        return text.contains("INTERVAL=") ? Integer.parseInt(text.replaceFirst(".*INTERVAL=(\\d+).*", "$1")) : 1;
    }
}
