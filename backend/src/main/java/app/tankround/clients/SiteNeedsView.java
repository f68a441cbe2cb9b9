package app.tankround.clients;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;

/**
 * What a stop at a site needs and when it can be.
 *
 * @param version 0 for a site of which nobody has said anything
 */
public record SiteNeedsView(SiteId siteId, SiteNeedsDetails details, int version) {

    /** Whether somebody can come on that weekday. */
    public boolean opensOn(DayOfWeek day) {
        return details.weekdays().contains(day);
    }

    /** The closure that a day lies in. */
    public Optional<Closure> closedOn(LocalDate day) {
        return details.closedOn(day);
    }

    /** The weekdays from Monday on; empty where every day will do. */
    public List<DayOfWeek> onlyWeekdays() {
        return details.weekdays().size() == DayOfWeek.values().length
                ? List.of()
                : details.weekdays().stream().sorted().toList();
    }
}
