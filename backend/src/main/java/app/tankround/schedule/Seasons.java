package app.tankround.schedule;

import app.tankround.web.FieldRefusal;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;

/** Seasons as stored and exchanged, such as {@code 10-01/03-31 FREQ=WEEKLY;INTERVAL=2;BYDAY=MO}, with bars between. */
record Seasons(List<Season> seasons) {

    private static final String BETWEEN = " | ";

    /** @throws FieldRefusal at {@code seasons} if the text cannot be read */
    static Seasons parse(String text) {
        return new Seasons(
                text.isBlank()
                        ? List.of()
                        : Arrays.stream(text.split("\\|", -1)).map(Seasons::one).toList());
    }

    private static Season one(String text) {
        String[] parts = text.strip().split("[/ ]", 3);
        if (parts.length < 3) {
            throw new FieldRefusal("seasons", "schedule.season-malformed", text.strip());
        }
        return new Season(
                Season.dayOfYear("seasons", parts[0]),
                Season.dayOfYear("seasons", parts[1]),
                RecurrenceRule.read("seasons", parts[2]));
    }

    Optional<Season> on(LocalDate day) {
        return seasons.stream().filter(season -> season.contains(day)).findFirst();
    }

    @Override
    public String toString() {
        return seasons.stream()
                .map(season -> season.fromText() + "/" + season.untilText() + " "
                        + season.rule().text())
                .collect(Collectors.joining(BETWEEN));
    }
}
