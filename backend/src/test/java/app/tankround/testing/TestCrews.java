package app.tankround.testing;

import app.tankround.accounts.CrewView;
import app.tankround.accounts.VanId;
import app.tankround.accounts.WorkingHours;
import java.time.DayOfWeek;
import java.time.LocalTime;
import java.util.Map;
import java.util.Optional;

/** Crews of invented vans. */
public final class TestCrews {

    private TestCrews() {}

    /** Out on one weekday only, from seven to eleven and from three to seven. */
    public static CrewView offInBetween(VanId van, DayOfWeek weekday) {
        return new CrewView(
                van,
                Optional.empty(),
                Map.of(
                        weekday,
                        new WorkingHours(
                                LocalTime.of(7, 0),
                                LocalTime.of(19, 0),
                                Optional.of(new WorkingHours.Off(LocalTime.of(11, 0), LocalTime.of(15, 0))))),
                0);
    }
}
