package app.tankround.rounds.solver;

/**
 * When work at a stop may start, in minutes of the local day.
 *
 * @param fromMinute first minute, 0 to 1439
 * @param untilMinute end, after {@code fromMinute} and at most 1440
 */
public record TimeWindow(int fromMinute, int untilMinute) {

    private static final int MINUTES_OF_DAY = 1440;

    /** Refuses, with {@link IllegalArgumentException}, minutes outside the day and a window that does not end after it starts. */
    public TimeWindow {
        if (fromMinute < 0 || fromMinute >= MINUTES_OF_DAY) {
            throw new IllegalArgumentException("Window start must be 0 to 1439 minutes of day, not " + fromMinute);
        }
        if (untilMinute <= fromMinute || untilMinute > MINUTES_OF_DAY) {
            throw new IllegalArgumentException("Window end must be after its start (minute " + fromMinute
                    + ") and at most 1440 minutes of day, not " + untilMinute);
        }
    }
}
