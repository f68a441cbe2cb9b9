package app.tankround.schedule;

import java.util.List;

/**
 * These due visits were dropped, their agreement no longer asks for them, or they moved to another day; whoever planned on
 * them must let go.
 */
public record DueVisitsRemoved(List<PlannedVisitId> visits) {

    public DueVisitsRemoved {
        visits = List.copyOf(visits);
    }
}
