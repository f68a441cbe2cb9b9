package app.tankround.tanks;

import app.tankround.web.FieldRefusal;
import java.time.LocalDate;
import org.jspecify.annotations.Nullable;

/** The days that a record of the trade can carry: anything else is a slip of the finger, such as the year 20225. */
final class Days {

    static final LocalDate FIRST = LocalDate.of(1970, 1, 1);
    static final LocalDate LAST = LocalDate.of(2099, 12, 31);

    private Days() {}

    static LocalDate required(String field, LocalDate day) {
        if (day.isBefore(FIRST) || day.isAfter(LAST)) {
            throw new FieldRefusal(field, "web.date-out-of-range", day, FIRST, LAST);
        }
        return day;
    }

    static @Nullable LocalDate optional(String field, @Nullable LocalDate day) {
        return day == null ? null : required(field, day);
    }
}
