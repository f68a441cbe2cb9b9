package app.tankround.schedule;

import de.focus_shift.jollyday.core.CalendarHierarchy;
import de.focus_shift.jollyday.core.Holiday;
import de.focus_shift.jollyday.core.HolidayManager;
import de.focus_shift.jollyday.core.HolidayType;
import de.focus_shift.jollyday.core.ManagerParameters;
import java.time.LocalDate;
import java.time.Year;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.concurrent.ConcurrentHashMap;
import org.springframework.stereotype.Component;

/** Public holidays of countries and their parts, as the library of holidays knows them; checked by nobody else here. */
@Component
class HolidayCalendar {

    /** A part of a country with its code, such as {@code DE-BY}. */
    record Region(String code, String name) {}

    private record YearOf(String code, int year, Locale language) {}

    /** A year of a calendar never changes while the program runs. */
    private final Map<YearOf, Map<LocalDate, String>> years = new ConcurrentHashMap<>();

    /** Whether there is a calendar of that code: a country, or a country with one of its parts behind a hyphen. */
    boolean knows(String code) {
        String country = country(code);
        return countryKnown(country)
                && (code.equals(country)
                        || regions(country).stream()
                                .anyMatch(region -> region.code().equals(code)));
    }

    boolean countryKnown(String country) {
        return HolidayManager.getSupportedCalendarCodes().contains(country);
    }

    /** The parts of a country that have holidays of their own, by name. */
    List<Region> regions(String country) {
        return manager(country).getCalendarHierarchy().getChildren().values().stream()
                .map(part -> new Region(country + "-" + part.getId().toUpperCase(Locale.ROOT), name(part)))
                .sorted(Comparator.comparing(Region::name))
                .toList();
    }

    private static String name(CalendarHierarchy part) {
        return part.getDescription(Locale.ENGLISH);
    }

    /** The name of the holiday that a day is, if it is one. */
    Optional<String> nameOf(String code, LocalDate day, Locale language) {
        return Optional.ofNullable(year(code, day.getYear(), language).get(day));
    }

    /** The holidays of a year with their names, by day. */
    Map<LocalDate, String> year(String code, int year, Locale language) {
        return years.computeIfAbsent(new YearOf(code, year, language), HolidayCalendar::read);
    }

    private static Map<LocalDate, String> read(YearOf asked) {
        String country = country(asked.code());
        HolidayManager manager = manager(country);
        String[] part = asked.code().equals(country)
                ? new String[0]
                : new String[] {asked.code().substring(country.length() + 1).toLowerCase(Locale.ROOT)};
        Map<LocalDate, String> days = new TreeMap<>();
        for (Holiday holiday : manager.getHolidays(Year.of(asked.year()), part)) {
            if (holiday.getType() == HolidayType.PUBLIC_HOLIDAY) {
                days.merge(
                        holiday.getDate(),
                        holiday.getDescription(asked.language()),
                        (one, other) -> one.equals(other) ? one : one + ", " + other);
            }
        }
        return Map.copyOf(days);
    }

    private static String country(String code) {
        return code.replaceFirst("-.*", "");
    }

    private static HolidayManager manager(String country) {
        return HolidayManager.getInstance(ManagerParameters.create(country.toLowerCase(Locale.ROOT)));
    }
}
