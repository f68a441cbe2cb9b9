package app.tankround.rounds;

import app.tankround.clients.SiteId;
import app.tankround.schedule.PlannedVisitId;
import java.time.Instant;
import java.time.LocalTime;
import java.util.List;
import java.util.Optional;

/**
 * One stop of a round, with its planned times in the business's zone.
 *
 * @param position 1 for the first stop
 * @param starts when work starts: on arrival, or when the site opens
 * @param lateMinutes by how much work starts after the end of the attended hours, rounded up; 0 when on time
 * @param sick whether a system here is in quarantine, suspected or under treatment now
 * @param plannedVisits the due visits this stop is for, in the order of work: clean systems before sick ones
 * @param startedAt when the work there began; from then on the stop keeps its place
 * @param finishedAt when the work there was finished
 */
public record StopView(
        StopId id,
        int position,
        SiteId siteId,
        String siteName,
        LocalTime arrives,
        LocalTime starts,
        LocalTime departs,
        int lateMinutes,
        boolean sick,
        List<PlannedVisitId> plannedVisits,
        Optional<Instant> startedAt,
        Optional<Instant> finishedAt) {

    /** A stop of a round that nobody drives. */
    public static StopView invented(
            StopId id, int position, SiteId site, String siteName, boolean sick, List<PlannedVisitId> visits) {
        return new StopView(
                id,
                position,
                site,
                siteName,
                LocalTime.NOON,
                LocalTime.NOON,
                LocalTime.NOON,
                0,
                sick,
                visits,
                Optional.empty(),
                Optional.empty());
    }

    public StopView {
        plannedVisits = List.copyOf(plannedVisits);
    }
}
