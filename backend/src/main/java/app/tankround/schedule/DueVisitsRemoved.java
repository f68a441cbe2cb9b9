package app.tankround.schedule;

import java.util.List;

/** These due visits were dropped, or their agreement no longer asks for them; whoever planned on them must let go. */
public record DueVisitsRemoved(List<PlannedVisitId> visits) {

    public DueVisitsRemoved {
        visits = List.copyOf(visits);
    }
}
