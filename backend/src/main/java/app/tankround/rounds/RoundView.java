package app.tankround.rounds;

import app.tankround.accounts.PersonView;
import app.tankround.accounts.VanView;
import app.tankround.rounds.solver.PlanningMethod;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.List;
import java.util.Optional;

/**
 * One of a van's rounds on one day, in order: it leaves the depot and comes back to it.
 *
 * @param code the number of the sheet, such as R-0417
 * @param trip which of the van's rounds of that day, the first being 1
 * @param leavesAt when the van leaves its depot
 * @param returnsAt when it is planned to be back
 * @param provenBest whether no other allowed order is better: less lateness, then less driving, then less distance
 * @param drivingSeconds planned time on the road
 * @param locked whether it was promised as it is, so that no planning moves it
 * @param distanceM planned distance, straight lines times 1.3, in metres
 */
public record RoundView(
        RoundId id,
        String code,
        LocalDate date,
        VanView van,
        int trip,
        Optional<PersonView> technician,
        LocalTime leavesAt,
        LocalTime returnsAt,
        List<StopView> stops,
        PlanningMethod method,
        boolean provenBest,
        int drivingSeconds,
        int distanceM,
        boolean locked,
        int version) {

    public RoundView {
        stops = List.copyOf(stops);
    }

    /** A round that nobody drives, of which is asked what it would carry. */
    public static RoundView invented(RoundId id, VanView van, LocalDate day, LocalTime leavesAt, List<StopView> stops) {
        return new RoundView(
                id,
                "",
                day,
                van,
                1,
                Optional.empty(),
                leavesAt,
                leavesAt,
                stops,
                PlanningMethod.GIVEN,
                false,
                0,
                0,
                false,
                0);
    }

    /** Whether the work of any stop has begun. */
    public boolean started() {
        return stops.stream().anyMatch(stop -> stop.startedAt().isPresent());
    }

    /** The first stop that is not finished. */
    public Optional<StopView> nextStop() {
        return stops.stream().filter(stop -> stop.finishedAt().isEmpty()).findFirst();
    }
}
