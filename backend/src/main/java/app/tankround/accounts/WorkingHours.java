package app.tankround.accounts;

import java.time.LocalTime;
import java.util.List;
import java.util.Optional;

/**
 * When a van is out on one day.
 *
 * @param until when it should be back, after {@code from}
 * @param off when its crew is off in between, where the day is cut in two halves
 */
public record WorkingHours(LocalTime from, LocalTime until, Optional<Off> off) {

    /**
     * A time that is nobody's work.
     *
     * @param until after {@code from}
     */
    public record Off(LocalTime from, LocalTime until) {}

    /** A day in one piece. */
    public WorkingHours(LocalTime from, LocalTime until) {
        this(from, until, Optional.empty());
    }

    /** The pieces of the day, each in one piece, from the first on. */
    public List<WorkingHours> halves() {
        return off.map(between ->
                        List.of(new WorkingHours(from, between.from()), new WorkingHours(between.until(), until)))
                .orElseGet(() -> List.of(this));
    }

    /** The half in which somebody works then, or next; the last where the day is over. */
    public WorkingHours at(LocalTime time) {
        List<WorkingHours> halves = halves();
        return halves.stream()
                .filter(half -> time.isBefore(half.until()))
                .findFirst()
                .orElseGet(halves::getLast);
    }
}
