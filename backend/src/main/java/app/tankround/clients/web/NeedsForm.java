package app.tankround.clients.web;

import app.tankround.clients.Closure;
import app.tankround.clients.SiteNeedsDetails;
import app.tankround.clients.SiteNeedsView;
import app.tankround.web.FormReader;
import app.tankround.web.VersionedForm;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/** What a stop at a site needs, as typed. Closures without anything in them are empty rows. */
record NeedsForm(
        int version,
        List<String> weekdays,
        @Nullable String arrivalMinutes,
        @Nullable String parkingMinutes,
        @Nullable String keyLeadDays,
        @Nullable Boolean twoPeople,
        @Nullable Boolean electrician,
        @Nullable Boolean diving,
        @Nullable String lift,
        List<ClosureForm> closures)
        implements VersionedForm<NeedsForm> {

    private static final LocalDate FIRST_DAY = LocalDate.of(2000, 1, 1);
    private static final LocalDate LAST_DAY = LocalDate.of(2099, 12, 31);

    NeedsForm {
        twoPeople = Boolean.TRUE.equals(twoPeople);
        electrician = Boolean.TRUE.equals(electrician);
        diving = Boolean.TRUE.equals(diving);
        weekdays = weekdays == null ? List.of() : List.copyOf(weekdays);
        closures = closures == null ? List.of() : List.copyOf(closures);
    }

    /** A closure as typed. */
    record ClosureForm(
            @Nullable String first,
            @Nullable String last,
            @Nullable String reason) {

        static ClosureForm blank() {
            return new ClosureForm(null, null, null);
        }

        boolean isEmpty() {
            return toString().isEmpty();
        }

        /** What was typed, as the comparison of two versions shows it. */
        @Override
        public String toString() {
            return Stream.of(first, last, reason)
                    .filter(text -> text != null && !text.isBlank())
                    .collect(Collectors.joining(" "));
        }

        Optional<Closure> toClosure(String path, FormReader reader) {
            Optional<LocalDate> from = reader.requiredDate(path + "first", first, FIRST_DAY, LAST_DAY);
            Optional<LocalDate> until = reader.requiredDate(path + "last", last, FIRST_DAY, LAST_DAY);
            Optional<String> why =
                    Optional.ofNullable(reason).map(String::strip).filter(text -> !text.isEmpty());
            return from.flatMap(day -> until.map(end -> new Closure(day, end, why)));
        }
    }

    static NeedsForm of(SiteNeedsView needs) {
        SiteNeedsDetails details = needs.details();
        return new NeedsForm(
                needs.version(),
                details.weekdays().stream().sorted().map(DayOfWeek::name).toList(),
                text(details.arrivalMinutes()),
                text(details.parkingMinutes()),
                text(details.keyLeadDays()),
                details.twoPeople(),
                details.electrician(),
                details.diving(),
                details.lift(),
                details.closures().stream()
                        .map(closure -> new ClosureForm(
                                closure.first().toString(),
                                closure.last().toString(),
                                closure.reason().orElse(null)))
                        .toList());
    }

    private static @Nullable String text(@Nullable Integer number) {
        return number == null ? null : number.toString();
    }

    @Override
    public NeedsForm withVersion(int newest) {
        return with(newest, closures);
    }

    NeedsForm withOneMoreClosure() {
        return with(
                version,
                Stream.concat(closures.stream(), Stream.of(ClosureForm.blank())).toList());
    }

    NeedsForm withoutEmptyRows() {
        return with(
                version, closures.stream().filter(closure -> !closure.isEmpty()).toList());
    }

    private NeedsForm with(int newest, List<ClosureForm> others) {
        return new NeedsForm(
                newest,
                weekdays,
                arrivalMinutes,
                parkingMinutes,
                keyLeadDays,
                twoPeople,
                electrician,
                diving,
                lift,
                others);
    }

    Optional<SiteNeedsDetails> toCommand(FormReader reader) {
        Set<DayOfWeek> days = Arrays.stream(DayOfWeek.values())
                .filter(day -> weekdays.contains(day.name()))
                .collect(Collectors.toSet());
        Optional<Integer> arrival = whole("arrivalMinutes", arrivalMinutes, 0, 240, reader);
        Optional<Integer> parking = whole("parkingMinutes", parkingMinutes, 5, 1440, reader);
        Optional<Integer> lead = whole("keyLeadDays", keyLeadDays, 1, 90, reader);
        List<Closure> read = new ArrayList<>();
        for (int i = 0; i < closures.size(); i++) {
            closures.get(i).toClosure("closures[" + i + "].", reader).ifPresent(read::add);
        }
        if (!reader.accepted()) {
            return Optional.empty();
        }
        return reader.read(() -> new SiteNeedsDetails(
                days,
                read,
                arrival.orElse(null),
                parking.orElse(null),
                lead.orElse(null),
                Boolean.TRUE.equals(twoPeople),
                Boolean.TRUE.equals(electrician),
                Boolean.TRUE.equals(diving),
                lift));
    }

    private static Optional<Integer> whole(
            String field, @Nullable String text, int least, int most, FormReader reader) {
        return text == null || text.isBlank() ? Optional.empty() : reader.requiredWhole(field, text, least, most);
    }
}
