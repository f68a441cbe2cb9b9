package app.tankround.schedule;

import app.tankround.web.FieldRefusal;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;

/** Pauses as stored and exchanged: ISO 8601 intervals such as {@code 2026-12-20/2027-01-06}, with bars between. */
record Pauses(List<Pause> pauses) {

    private static final String BETWEEN = " | ";

    /** @throws FieldRefusal at {@code pauses} if the text cannot be read */
    static Pauses parse(String text) {
        return new Pauses(
                text.isBlank()
                        ? List.of()
                        : Arrays.stream(text.split("\\|", -1)).map(Pauses::one).toList());
    }

    private static Pause one(String text) {
        String[] days = text.strip().split("/", -1);
        try {
            if (days.length == 2) {
                return new Pause(LocalDate.parse(days[0]), LocalDate.parse(days[1]));
            }
        } catch (DateTimeException malformed) {
            throw new FieldRefusal("pauses", "schedule.pause-malformed", text.strip());
        }
        throw new FieldRefusal("pauses", "schedule.pause-malformed", text.strip());
    }

    @Override
    public String toString() {
        return pauses.stream().map(pause -> pause.first() + "/" + pause.last()).collect(Collectors.joining(BETWEEN));
    }
}
