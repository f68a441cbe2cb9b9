package app.tankround.visits;

import java.time.Duration;

/**
 * What a technician opens, switches off or turns for a while, and must not leave so. The times are common practice, no
 * source: how often the tablet reminds, and after how long somebody should have come back to it.
 */
public enum RunningThing {
    WATER_RUNNING(5, 20),
    TOP_OFF_OFF(30, 150),
    RETURN_PUMP_OFF(15, 60),
    HEATER_OFF(30, 120),
    SKIMMER_OFF(45, 180),
    DOSING_OFF(45, 180),
    PUMPS_PAUSED(15, 60),
    VALVE_TURNED(20, 90);

    private final Duration reminder;
    private final Duration limit;

    RunningThing(int reminderMinutes, int limitMinutes) {
        this.reminder = Duration.ofMinutes(reminderMinutes);
        this.limit = Duration.ofMinutes(limitMinutes);
    }

    /** How often the tablet reminds of it. */
    public Duration reminder() {
        return reminder;
    }

    /** After how long it alarms, on the tablet and at the office. */
    public Duration limit() {
        return limit;
    }
}
