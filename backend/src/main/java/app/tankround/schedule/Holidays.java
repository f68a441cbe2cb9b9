package app.tankround.schedule;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.ChangeLog;
import app.tankround.persistence.RecordLock;
import app.tankround.persistence.Uuids;
import app.tankround.web.Choice;
import app.tankround.web.FieldRefusal;
import app.tankround.web.StaleVersion;
import java.time.Clock;
import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Which public holidays the business keeps: those of a country or a part of one, or none. No visit falls due on them. */
@Service
public class Holidays {

    /** A holiday with its name in the business's language. */
    public record Named(LocalDate day, String name) {}

    /**
     * Whose holidays are kept.
     *
     * @param code such as {@code DE-BY}; empty where none are
     * @param version 0 where nobody has chosen yet
     */
    public record Kept(Optional<String> code, int version) {}

    private final HolidayCalendar calendar;
    private final DueVisits dueVisits;
    private final BusinessProfile business;
    private final ChangeLog changes;
    private final RecordLock lock;
    private final JdbcClient jdbc;
    private final Clock clock;

    Holidays(
            HolidayCalendar calendar,
            DueVisits dueVisits,
            BusinessProfile business,
            ChangeLog changes,
            RecordLock lock,
            JdbcClient jdbc,
            Clock clock) {
        this.calendar = calendar;
        this.dueVisits = dueVisits;
        this.business = business;
        this.changes = changes;
        this.lock = lock;
        this.jdbc = jdbc;
        this.clock = clock;
    }

    @Transactional(readOnly = true)
    public Kept kept() {
        return jdbc.sql("select code, version from holiday_calendar")
                .query((row, number) -> new Kept(Optional.ofNullable(row.getString("code")), row.getInt("version")))
                .optional()
                .orElse(new Kept(Optional.empty(), 0));
    }

    /** What can be chosen: the business's country and its parts, by name, and what is chosen already. */
    @Transactional(readOnly = true)
    public List<Choice> choices() {
        String country = business.current().country().toUpperCase(Locale.ROOT);
        Stream<String> known = Stream.concat(
                calendar.countryKnown(country) ? Stream.of(country) : Stream.empty(),
                kept().code().map(code -> code.replaceFirst("-.*", "")).stream());
        return known.distinct()
                .flatMap(land -> Stream.concat(
                        Stream.of(new Choice(land, Locale.of("", land).getDisplayCountry(language()))),
                        calendar.regions(land).stream().map(part -> new Choice(part.code(), part.name()))))
                .toList();
    }

    /** The holidays kept in a year and the one after it, by day. */
    @Transactional(readOnly = true)
    public List<Named> ofTwoYears(int first) {
        return kept().code().stream()
                .flatMap(code -> IntStream.of(first, first + 1)
                        .boxed()
                        .flatMap(year -> calendar.year(code, year, language()).entrySet().stream()))
                .map(day -> new Named(day.getKey(), day.getValue()))
                .sorted(Comparator.comparing(Named::day))
                .toList();
    }

    /**
     * Chooses whose holidays are kept. Visits still to come move at once.
     *
     * @param code empty for none
     * @throws FieldRefusal if there is no such calendar
     * @throws StaleVersion if somebody else chose meanwhile
     */
    @Transactional
    public void keep(Optional<String> code, int version) {
        lock.hold("holidays");
        Kept before = kept();
        if (before.code().equals(code)) {
            return;
        }
        if (before.version() != version) {
            throw new StaleVersion("/holidays", before, new Kept(code, version));
        }
        code.filter(chosen -> !calendar.knows(chosen)).ifPresent(unknown -> {
            throw new FieldRefusal("code", "schedule.holidays-unknown", unknown);
        });
        UUID id = jdbc.sql("""
                        insert into holiday_calendar (id, only_one, code, version) values (:id, true, :code, 1)
                        on conflict (only_one) do update set code = excluded.code, version = holiday_calendar.version + 1
                        returning id
                        """)
                .param("id", Uuids.next(clock.instant()))
                .param("code", code.orElse(null))
                .query(UUID.class)
                .single();
        changes.record("holidays", id, "changed", Map.of("code", code.orElse("")));
        dueVisits.placeAllAgain();
    }

    private Locale language() {
        return business.current().locale();
    }
}
