package app.tankround.schedule;

import app.tankround.accounts.BusinessProfile;
import app.tankround.clients.Closure;
import app.tankround.clients.SiteId;
import app.tankround.clients.SiteNeedsService;
import app.tankround.clients.SiteNeedsView;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;

/** Puts visits to the nearest day within their tolerance on which somebody can come. */
@Component
class VisitPlacing {

    /**
     * Where a nominal day's visit falls.
     *
     * @param hindrance why nobody can come on the nominal day; the visit stays there only if no other day will do
     */
    record Placed(LocalDate nominalOn, LocalDate dueOn, Optional<DayHindrance> hindrance) {}

    private final SiteNeedsService needs;
    private final HolidayCalendar holidays;
    private final BusinessProfile business;
    private final JdbcClient jdbc;

    VisitPlacing(SiteNeedsService needs, HolidayCalendar holidays, BusinessProfile business, JdbcClient jdbc) {
        this.needs = needs;
        this.holidays = holidays;
        this.business = business;
        this.jdbc = jdbc;
    }

    /** What is asked of each day, read once for all the visits of an agreement. */
    private record Days(SiteNeedsView there, Function<LocalDate, Optional<String>> holiday) {

        Optional<DayHindrance> hindrance(LocalDate day) {
            Optional<Closure> closed = there.closedOn(day);
            if (closed.isPresent()) {
                return Optional.of(
                        new DayHindrance(DayHindrance.Kind.CLOSED, closed.get().reason()));
            }
            Optional<String> named = holiday.apply(day);
            if (named.isPresent()) {
                return Optional.of(new DayHindrance(DayHindrance.Kind.HOLIDAY, named));
            }
            return there.opensOn(day.getDayOfWeek())
                    ? Optional.empty()
                    : Optional.of(new DayHindrance(DayHindrance.Kind.WEEKDAY, Optional.empty()));
        }
    }

    /** @param today before which no visit is moved */
    List<Placed> place(Agreement agreement, SiteId site, List<LocalDate> nominal, LocalDate today) {
        Optional<String> kept = jdbc.sql("select code from holiday_calendar where code is not null")
                .query(String.class)
                .optional();
        Locale language = business.current().locale();
        var days = new Days(needs.of(site), day -> kept.flatMap(code -> holidays.nameOf(code, day, language)));
        return nominal.stream()
                .map(day -> place(agreement.rhythm(), days, day, today))
                .toList();
    }

    private static Placed place(VisitRhythm rhythm, Days days, LocalDate nominal, LocalDate today) {
        Optional<DayHindrance> hindrance = days.hindrance(nominal);
        if (hindrance.isEmpty()) {
            return new Placed(nominal, nominal, hindrance);
        }
        LocalDate earliest = nominal.isBefore(today) ? nominal : today;
        return nearest(nominal, rhythm.toleranceDays())
                .filter(day -> !day.isBefore(earliest) && rhythm.allows(day))
                .filter(day -> days.hindrance(day).isEmpty())
                .findFirst()
                .map(day -> new Placed(nominal, day, hindrance))
                .orElseGet(() -> new Placed(nominal, nominal, hindrance));
    }

    /** The days around one, nearest first; of two that are as near, the earlier, since what is due is not put off. */
    private static Stream<LocalDate> nearest(LocalDate day, int tolerance) {
        return IntStream.rangeClosed(1, tolerance)
                .boxed()
                .flatMap(away -> Stream.of(day.minusDays(away), day.plusDays(away)));
    }
}
