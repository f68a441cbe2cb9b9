package app.tankround.schedule;

import static java.util.Map.entry;

import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Supplier;

/**
 * Rows of the reference tables about recurrence. A visit is a day, so the standard's nine o'clock in New York is put to the
 * days that a rule gives, which shows on both sides of a clock change whether they are the right ones.
 */
public final class CalendarRows {

    public static final Map<String, Supplier<List<String>>> BOUND = Map.ofEntries(
            entry("RRULE-W10", times("FREQ=WEEKLY;COUNT=10", "1997-09-02", 10)),
            entry("RRULE-1FR", times("FREQ=MONTHLY;COUNT=10;BYDAY=1FR", "1997-09-05", 10)),
            entry("RRULE-SU", times("FREQ=MONTHLY;INTERVAL=2;COUNT=10;BYDAY=1SU,-1SU", "1997-09-07", 10)),
            entry("RRULE-WKSTSU", times("FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=SU", "1997-08-05", 4)),
            entry("RRULE-M3", times("FREQ=MONTHLY;BYMONTHDAY=-3", "1997-09-28", 6)),
            entry("RRULE-POS3", times("FREQ=MONTHLY;COUNT=3;BYDAY=TU,WE,TH;BYSETPOS=3", "1997-09-04", 3)),
            entry("RRULE-UNTIL", CalendarRows::daily));

    private static final ZoneId NEW_YORK = ZoneId.of("America/New_York");
    private static final LocalTime NINE = LocalTime.of(9, 0);
    private static final DateTimeFormatter WITH_OFFSET = DateTimeFormatter.ofPattern("uuuu-MM-dd'T'HH:mmxx");

    private CalendarRows() {}

    /** The first so many of a rule; asked for two years, in which a counted rule has to end by itself. */
    private static Supplier<List<String>> times(String rule, String first, int shown) {
        return () -> {
            List<String> all = rhythm(rule, first, Optional.empty())
                    .days(LocalDate.parse(first), LocalDate.parse(first).plusYears(2))
                    .map(day -> day.atTime(NINE).atZone(NEW_YORK).format(WITH_OFFSET))
                    .toList();
            return rule.contains("COUNT") ? all : all.subList(0, shown);
        };
    }

    /** The end of the standard's example is an instant; the last day is the one that it lies on in New York. */
    private static List<String> daily() {
        LocalDate last = LocalDate.ofInstant(Instant.parse("1997-12-24T00:00:00Z"), NEW_YORK);
        List<LocalDate> days = rhythm("FREQ=DAILY", "1997-09-02", Optional.of(last))
                .days(LocalDate.parse("1997-09-02"), LocalDate.parse("1999-01-01"))
                .toList();
        return List.of(String.valueOf(days.size()), days.getLast().toString());
    }

    private static VisitRhythm rhythm(String rule, String first, Optional<LocalDate> last) {
        return VisitRhythm.byRule(rule, VisitRhythm.ANY_DAY, LocalDate.parse(first), last);
    }
}
