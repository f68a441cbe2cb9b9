package app.tankround.schedule;

import java.util.List;

/** Work beside what is agreed goes with these due visits now, or no longer does, so that they take other minutes. */
public record WorkMoved(List<PlannedVisitId> visits) {

    public WorkMoved {
        visits = List.copyOf(visits);
    }
}
