package app.tankround.rounds;

import app.tankround.clients.SiteView;
import app.tankround.schedule.PlannedVisitView;
import java.time.LocalDate;
import java.util.List;

/**
 * A site with visits that are due and on no round yet.
 *
 * @param sick whether a system to be visited is in quarantine, suspected or under treatment
 * @param visits oldest first; at least one
 */
public record DueStop(SiteView site, boolean sick, List<PlannedVisitView> visits) {

    public DueStop {
        visits = List.copyOf(visits);
    }

    /** Work on site, with what goes along, in minutes. */
    public int minutes() {
        return visits.stream().mapToInt(PlannedVisitView::allMinutes).sum();
    }

    /** The day of the visit that has waited longest. */
    public LocalDate oldest() {
        return visits.getFirst().dueOn();
    }
}
