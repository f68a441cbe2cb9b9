package app.tankround.accounts;

import java.time.DayOfWeek;
import java.util.Map;
import java.util.Optional;

/**
 * Who rides along with a van's technician, and when the van is out.
 *
 * @param hours by weekday; it does not drive on those that are missing
 * @param version 0 where nobody has said anything
 */
public record CrewView(VanId van, Optional<PersonId> second, Map<DayOfWeek, WorkingHours> hours, int version) {

    public CrewView {
        hours = Map.copyOf(hours);
    }
}
