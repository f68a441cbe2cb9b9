package app.tankround.accounts.web;

import app.tankround.accounts.CrewView;
import app.tankround.accounts.PersonId;
import app.tankround.accounts.VanId;
import app.tankround.accounts.WorkingHours;
import app.tankround.web.FormReader;
import app.tankround.web.VersionedForm;
import java.time.DayOfWeek;
import java.time.LocalTime;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/** Who rides along and when a van is out, as typed: the days from Monday on, and the van does not drive on an empty one. */
record CrewForm(int version, @Nullable String second, List<DayForm> days) implements VersionedForm<CrewForm> {

    CrewForm {
        List<DayForm> typed = days == null ? List.of() : days;
        days = IntStream.range(0, DayOfWeek.values().length)
                .mapToObj(i -> i < typed.size() && typed.get(i) != null ? typed.get(i) : DayForm.EMPTY)
                .toList();
    }

    /** One weekday as typed. */
    record DayForm(
            @Nullable String from,
            @Nullable String until,
            @Nullable String offFrom,
            @Nullable String offUntil) {

        private static final DayForm EMPTY = new DayForm(null, null, null, null);

        private static DayForm of(WorkingHours hours) {
            return new DayForm(
                    hours.from().toString(),
                    hours.until().toString(),
                    hours.off().map(off -> off.from().toString()).orElse(null),
                    hours.off().map(off -> off.until().toString()).orElse(null));
        }

        /** What was typed, as the comparison of two versions shows it. */
        @Override
        public String toString() {
            return Stream.of(from, offFrom, offUntil, until)
                    .filter(text -> text != null && !text.isBlank())
                    .collect(Collectors.joining("-"));
        }
    }

    static CrewForm of(CrewView crew) {
        return new CrewForm(
                crew.version(),
                crew.second().map(PersonId::toString).orElse(null),
                Arrays.stream(DayOfWeek.values())
                        .map(day -> Optional.ofNullable(crew.hours().get(day)))
                        .map(hours -> hours.map(DayForm::of).orElse(DayForm.EMPTY))
                        .toList());
    }

    @Override
    public CrewForm withVersion(int newest) {
        return new CrewForm(newest, second, days);
    }

    Optional<CrewView> toCommand(VanId van, FormReader reader) {
        Optional<PersonId> rider = second == null || second.isBlank()
                ? Optional.empty()
                : reader.id("second", second).map(PersonId::of);
        Map<DayOfWeek, WorkingHours> hours = new EnumMap<>(DayOfWeek.class);
        DayOfWeek[] weekdays = DayOfWeek.values();
        for (int i = 0; i < weekdays.length; i++) {
            DayForm day = days.get(i);
            if (day.toString().isEmpty()) {
                continue;
            }
            Optional<LocalTime> from = time(reader, "days[" + i + "].from", day.from());
            Optional<LocalTime> until = time(reader, "days[" + i + "].until", day.until());
            Optional<WorkingHours.Off> off = off(reader, "days[" + i + "].", day);
            if (from.isPresent() && until.isPresent()) {
                hours.put(weekdays[i], new WorkingHours(from.get(), until.get(), off));
            }
        }
        return reader.accepted() ? Optional.of(new CrewView(van, rider, hours, version)) : Optional.empty();
    }

    private static Optional<WorkingHours.Off> off(FormReader reader, String path, DayForm day) {
        boolean whole = Stream.of(day.offFrom(), day.offUntil()).allMatch(text -> text == null || text.isBlank());
        if (whole) {
            return Optional.empty();
        }
        Optional<LocalTime> from = time(reader, path + "offFrom", day.offFrom());
        Optional<LocalTime> until = time(reader, path + "offUntil", day.offUntil());
        return from.flatMap(begin -> until.map(end -> new WorkingHours.Off(begin, end)));
    }

    private static Optional<LocalTime> time(FormReader reader, String field, @Nullable String text) {
        if (text == null || text.isBlank()) {
            reader.refuse(field, "accounts.crew.both-times");
        }
        return reader.time(field, text);
    }
}
