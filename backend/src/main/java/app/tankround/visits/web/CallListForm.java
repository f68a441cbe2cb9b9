package app.tankround.visits.web;

import app.tankround.accounts.PersonId;
import app.tankround.visits.CallList;
import app.tankround.web.FormReader;
import app.tankround.web.VersionedForm;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/** Who is told, as typed. Rows without a person are empty rows. */
record CallListForm(int version, List<LineForm> lines) implements VersionedForm<CallListForm> {

    private static final int MOST_LINES = 5;

    CallListForm {
        lines = lines == null ? List.of() : List.copyOf(lines);
    }

    record LineForm(
            @Nullable String person,
            @Nullable String email,
            @Nullable String phone,
            @Nullable String minutes) {

        static LineForm of(CallList.Line line) {
            return new LineForm(
                    line.personId().toString(),
                    line.email(),
                    line.phone().orElse(null),
                    Long.toString(line.patience().toMinutes()));
        }
    }

    static CallListForm of(CallList.View list) {
        List<LineForm> lines =
                new ArrayList<>(list.lines().stream().map(LineForm::of).toList());
        while (lines.size() < MOST_LINES) {
            lines.add(new LineForm(null, null, null, null));
        }
        return new CallListForm(list.version(), lines);
    }

    @Override
    public CallListForm withVersion(int newest) {
        return new CallListForm(newest, lines);
    }

    /** The lines in their order; an empty row between two stays empty, so that a refusal meets its row. */
    Optional<List<CallList.Line>> toCommand(FormReader reader) {
        List<CallList.Line> read = new ArrayList<>();
        boolean gap = false;
        for (int at = 0; at < lines.size(); at++) {
            LineForm line = lines.get(at);
            String path = "lines[" + at + "].";
            if (line.person() == null || line.person().isBlank()) {
                boolean said = isSaid(line.email()) || isSaid(line.phone()) || isSaid(line.minutes());
                if (said) {
                    reader.refuse(path + "person", "visits.alone.person-missing");
                }
                gap = true;
                continue;
            }
            if (gap) {
                reader.refuse(path + "person", "visits.alone.row-empty-before");
            }
            Optional<Integer> wait =
                    reader.requiredWhole(path + "minutes", line.minutes(), 1, CallList.LONGEST_WAIT_MINUTES);
            Optional<PersonId> person = person(line.person());
            if (person.isEmpty()) {
                reader.refuse(path + "person", "visits.alone.person-unknown");
            }
            if (wait.isPresent() && person.isPresent()) {
                read.add(new CallList.Line(
                        person.get(),
                        Objects.requireNonNullElse(line.email(), ""),
                        Optional.ofNullable(line.phone()),
                        Duration.ofMinutes(wait.get())));
            }
        }
        return reader.accepted() ? Optional.of(read) : Optional.empty();
    }

    private static boolean isSaid(@Nullable String text) {
        return text != null && !text.isBlank();
    }

    static Optional<PersonId> person(@Nullable String text) {
        try {
            return text == null ? Optional.empty() : Optional.of(PersonId.of(UUID.fromString(text)));
        } catch (IllegalArgumentException malformed) {
            return Optional.empty();
        }
    }
}
