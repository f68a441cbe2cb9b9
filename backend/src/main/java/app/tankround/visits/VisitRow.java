package app.tankround.visits;

import app.tankround.accounts.PersonId;
import app.tankround.clients.SiteId;
import app.tankround.rounds.RoundId;
import app.tankround.rounds.StopId;
import app.tankround.schedule.PlannedVisitId;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;

/** What is kept of a visit beside its entries; components as in {@link VisitView}. */
record VisitRow(
        VisitId id,
        String code,
        SiteId siteId,
        LocalDate serviceDate,
        Optional<RoundId> roundId,
        Optional<StopId> stopId,
        PersonId technicianId,
        List<PlannedVisitId> plannedVisits,
        Optional<Instant> startedAt,
        Optional<Instant> finishedAt) {

    VisitRow {
        plannedVisits = List.copyOf(plannedVisits);
    }

    VisitRow finished(Instant at) {
        return new VisitRow(
                id,
                code,
                siteId,
                serviceDate,
                roundId,
                stopId,
                technicianId,
                plannedVisits,
                startedAt,
                Optional.of(at));
    }
}
