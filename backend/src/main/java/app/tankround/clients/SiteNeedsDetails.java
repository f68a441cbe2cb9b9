package app.tankround.clients;

import app.tankround.web.FieldRefusal;
import app.tankround.web.TextInput;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * What a stop at a site needs and when it can be, as it is written down.
 *
 * @param weekdays on which somebody can come, at least one
 * @param closures days on which nobody can, 40 at most
 * @param arrivalMinutes from the arrival of the van until work can begin, 0 to 240: parking, lift, key
 * @param parkingMinutes how long the van may stand there, 5 to 1440
 * @param keyLeadDays how many days ahead a key or a code is asked for, 1 to 90
 * @param twoPeople nobody does it alone
 * @param electrician a licensed electrician comes too
 * @param diving somebody who may dive comes too
 * @param lift what fits into it, in words
 */
public record SiteNeedsDetails(
        Set<DayOfWeek> weekdays,
        List<Closure> closures,
        @Nullable Integer arrivalMinutes,
        @Nullable Integer parkingMinutes,
        @Nullable Integer keyLeadDays,
        boolean twoPeople,
        boolean electrician,
        boolean diving,
        @Nullable String lift) {

    private static final int MOST_CLOSURES = 40;
    private static final int LONGEST_REASON = 100;
    private static final int LONGEST_LIFT = 200;
    private static final LocalDate FIRST_DAY = LocalDate.of(2000, 1, 1);
    private static final LocalDate LAST_DAY = LocalDate.of(2099, 12, 31);

    /** @throws FieldRefusal naming the field, the refused value and what is accepted */
    public SiteNeedsDetails {
        weekdays = Set.copyOf(weekdays);
        closures = List.copyOf(closures);
        if (weekdays.isEmpty()) {
            throw new FieldRefusal("weekdays", "clients.needs.weekday-missing");
        }
        if (closures.size() > MOST_CLOSURES) {
            throw new FieldRefusal("closures", "clients.needs.too-many-closures", closures.size(), 0, MOST_CLOSURES);
        }
        for (int i = 0; i < closures.size(); i++) {
            requireSense("closures[" + i + "].", closures.get(i));
        }
        within("arrivalMinutes", arrivalMinutes, 0, 240);
        within("parkingMinutes", parkingMinutes, 5, 1440);
        within("keyLeadDays", keyLeadDays, 1, 90);
        lift = TextInput.optional("lift", lift, LONGEST_LIFT);
    }

    private static void requireSense(String field, Closure closure) {
        day(field + "first", closure.first());
        day(field + "last", closure.last());
        if (closure.last().isBefore(closure.first())) {
            throw new FieldRefusal(field + "last", "clients.needs.closure-backwards", closure.last(), closure.first());
        }
        String reason = TextInput.optional(field + "reason", closure.reason().orElse(null), LONGEST_REASON);
        if (reason != null && reason.indexOf('|') >= 0) {
            throw new FieldRefusal(field + "reason", "clients.needs.closure-bar", reason);
        }
    }

    private static void day(String field, LocalDate day) {
        if (day.isBefore(FIRST_DAY) || day.isAfter(LAST_DAY)) {
            throw new FieldRefusal(field, "web.date-out-of-range", day, FIRST_DAY, LAST_DAY);
        }
    }

    private static void within(String field, @Nullable Integer value, int least, int most) {
        if (value != null && (value < least || value > most)) {
            throw new FieldRefusal(field, "web.number-out-of-range", value, least, most);
        }
    }

    /** Of a site of which nobody has said anything: every day, and nothing special. */
    static SiteNeedsDetails none() {
        return new SiteNeedsDetails(Weekdays.all().days(), List.of(), null, null, null, false, false, false, null);
    }

    /** The closure that a day lies in. */
    Optional<Closure> closedOn(LocalDate day) {
        return closures.stream().filter(closure -> closure.contains(day)).findFirst();
    }

    int arrivalMinutesOrNone() {
        return arrivalMinutes == null ? 0 : arrivalMinutes;
    }
}
