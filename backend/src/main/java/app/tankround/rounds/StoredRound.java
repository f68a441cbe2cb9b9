package app.tankround.rounds;

import app.tankround.accounts.PersonId;
import app.tankround.accounts.VanId;
import app.tankround.clients.SiteId;
import app.tankround.rounds.solver.PlanningMethod;
import app.tankround.schedule.PlannedVisitId;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * A round as its tables hold it.
 *
 * @param trip which of its van's rounds of that day, the first being 1
 * @param notBefore before which a further round does not leave, though the one before it is back
 */
record StoredRound(
        RoundId id,
        String code,
        LocalDate date,
        VanId vanId,
        int trip,
        @Nullable PersonId technicianId,
        LocalTime leavesAt,
        @Nullable LocalTime notBefore,
        List<StoredStop> stops,
        Timing timing,
        boolean locked,
        int version) {

    StoredRound {
        stops = List.copyOf(stops);
    }

    StoredRound with(List<StoredStop> others, Timing newTiming) {
        return new StoredRound(
                id, code, date, vanId, trip, technicianId, leavesAt, notBefore, others, newTiming, locked, version);
    }

    /** The same round leaving at another time, its stops as they were. */
    StoredRound leaving(LocalTime at) {
        return new StoredRound(
                id, code, date, vanId, trip, technicianId, at, notBefore, stops, timing, locked, version);
    }

    /** The same round as another one of its van's, leaving not before then. */
    StoredRound as(int otherTrip, @Nullable LocalTime otherNotBefore) {
        return new StoredRound(
                id,
                code,
                date,
                vanId,
                otherTrip,
                technicianId,
                leavesAt,
                otherNotBefore,
                stops,
                timing,
                locked,
                version);
    }

    /** The same round by the number that it has from now on. */
    StoredRound numbered(String number) {
        return new StoredRound(
                id, number, date, vanId, trip, technicianId, leavesAt, notBefore, stops, timing, locked, version);
    }

    /** The round as it is once it has been saved. */
    StoredRound saved() {
        return new StoredRound(
                id, code, date, vanId, trip, technicianId, leavesAt, notBefore, stops, timing, locked, version + 1);
    }

    /** Whether no planning may move it: it was promised as it is, or work has begun. */
    boolean settled() {
        return locked || started();
    }

    /** Those of vans and days of which one round is settled: the others of that day depend on it. */
    static List<StoredRound> ofSettledDays(List<StoredRound> rounds) {
        record Day(VanId van, LocalDate date) {}
        Set<Day> settled = rounds.stream()
                .filter(StoredRound::settled)
                .map(round -> new Day(round.vanId(), round.date()))
                .collect(Collectors.toSet());
        return rounds.stream()
                .filter(round -> settled.contains(new Day(round.vanId(), round.date())))
                .toList();
    }

    boolean started() {
        return stops.stream().anyMatch(stop -> stop.startedAt() != null);
    }

    /** How the order was found and what it comes to. */
    record Timing(PlanningMethod method, boolean provenBest, int drivingSeconds, int distanceM, LocalTime returnsAt) {}

    /** A stop; its place in the list is its place in the round. */
    record StoredStop(
            StopId id,
            SiteId siteId,
            LocalTime arrivesAt,
            LocalTime startsAt,
            LocalTime departsAt,
            int lateMinutes,
            @Nullable Instant startedAt,
            @Nullable Instant finishedAt,
            List<HeldVisit> visits) {

        StoredStop {
            visits = List.copyOf(visits);
        }

        /** When the van left or, before it did, will leave; in the business's zone. */
        LocalTime leftAt(ZoneId zone) {
            return Optional.ofNullable(finishedAt)
                    .map(finished -> finished.atZone(zone).toLocalTime())
                    .orElse(departsAt);
        }

        StoredStop at(LocalTime arrives, LocalTime starts, LocalTime departs, int late) {
            return new StoredStop(id, siteId, arrives, starts, departs, late, startedAt, finishedAt, visits);
        }

        StoredStop withVisits(List<HeldVisit> others) {
            return new StoredStop(
                    id, siteId, arrivesAt, startsAt, departsAt, lateMinutes, startedAt, finishedAt, others);
        }
    }

    /** A due visit of a stop; not held once a later round took it over. */
    record HeldVisit(PlannedVisitId id, boolean held) {}
}
