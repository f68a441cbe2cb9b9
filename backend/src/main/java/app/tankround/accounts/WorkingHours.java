package app.tankround.accounts;

import java.time.LocalTime;

/**
 * When a van is out on one day.
 *
 * @param until when it should be back, after {@code from}
 */
public record WorkingHours(LocalTime from, LocalTime until) {}
