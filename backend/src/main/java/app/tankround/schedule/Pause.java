package app.tankround.schedule;

import java.time.LocalDate;

/** Days on which an agreement rests, both of them included: no visit falls due. */
public record Pause(LocalDate first, LocalDate last) {

    /** Whether that day lies in it. */
    public boolean contains(LocalDate day) {
        return !day.isBefore(first) && !day.isAfter(last);
    }
}
