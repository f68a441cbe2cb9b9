package app.tankround.feeds;

import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Map;
import java.util.function.Supplier;

/** Rows of the reference tables about times that a clock change touches. */
public final class ClockChangeRows {

    public static final Map<String, Supplier<List<String>>> BOUND = Map.of(
            "TZ-GAP",
            () -> List.of(CalendarText.at(LocalDate.of(2007, 3, 11), LocalTime.of(2, 30), ZoneId.of("America/New_York"))
                    .withZoneSameInstant(ZoneOffset.UTC)
                    .format(DateTimeFormatter.ofPattern("uuuu-MM-dd'T'HH:mmXX"))));

    private ClockChangeRows() {}
}
