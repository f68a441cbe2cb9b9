package app.tankround.rounds;

import app.tankround.clients.SiteId;
import app.tankround.clients.SiteView;
import app.tankround.rounds.solver.Position;
import app.tankround.rounds.solver.TravelEstimate;
import app.tankround.rounds.solver.TravelLeg;
import app.tankround.rounds.solver.TravelTimes;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * How to get from site to site: by the travel table where it says so, else guessed from the straight line and what trips
 * took that were recorded. Everybody who needs travel times asks here.
 *
 * @param table per pair what the table says; nothing where it says that it cannot be driven
 * @param estimate for all other pairs
 * @param learned how much longer than that trips take
 */
record SiteTravel(Map<Ends, Optional<TravelLeg>> table, TravelEstimate estimate, LearnedTravel learned) {

    private static final double METRES_PER_KILOMETRE = 1000;
    private static final double SECONDS_PER_HOUR = 3600;
    /** What is taken where no number is of use, since the leg cannot be driven. */
    private static final TravelLeg ALL_DAY = new TravelLeg(86_400, 0);

    /** From one site to another one. */
    record Ends(SiteId from, SiteId to) {}

    SiteTravel {
        table = Map.copyOf(table);
    }

    /** Whether the table says how to get there, or that one cannot; else it is guessed. */
    boolean isKnown(SiteView from, SiteView to) {
        return table.containsKey(new Ends(from.id(), to.id()));
    }

    /** Whether there is a way: none where the table says so, or farther than any van drives, as with swapped coordinates. */
    boolean isDrivable(SiteView from, SiteView to) {
        return Optional.ofNullable(table.get(new Ends(from.id(), to.id())))
                .map(Optional::isPresent)
                .orElseGet(() -> position(from).greatCircleMetresTo(position(to))
                        <= RoundTiming.FARTHEST_KM * METRES_PER_KILOMETRE);
    }

    /** Seconds by the straight line alone. */
    static double between(TravelEstimate estimate, SiteView from, SiteView to) {
        double metres = position(from).greatCircleMetresTo(position(to));
        return metres
                * estimate.circuity()
                * SECONDS_PER_HOUR
                / (METRES_PER_KILOMETRE * estimate.averageKilometresPerHour());
    }

    /** The way at any hour, whatever number is told where there is none. */
    TravelLeg leg(SiteView from, SiteView to) {
        return leg(from, to, learned.usual());
    }

    /** The way as it is in an hour of the day, 0 to 23; as at any other where the table says so. */
    TravelLeg leg(SiteView from, SiteView to, int hour) {
        return leg(from, to, learned.ratios().get(hour));
    }

    private TravelLeg leg(SiteView from, SiteView to, double ratio) {
        if (from.id().equals(to.id())) {
            return new TravelLeg(0, 0);
        }
        Optional<TravelLeg> known =
                Optional.ofNullable(table.get(new Ends(from.id(), to.id()))).flatMap(leg -> leg);
        return known.orElseGet(
                () -> position(from).greatCircleMetresTo(position(to)) <= RoundTiming.FARTHEST_KM * METRES_PER_KILOMETRE
                        ? slower(estimate.leg(position(from), position(to)), ratio)
                        : ALL_DAY);
    }

    private static TravelLeg slower(TravelLeg guessed, double ratio) {
        return new TravelLeg(
                (int) Math.min(ALL_DAY.seconds(), Math.round(guessed.seconds() * ratio)), guessed.metres());
    }

    /** Travel times for the solvers: stops by their index, depots after each other. */
    TravelTimes between(List<SiteView> stops, List<SiteView> depots) {
        return new TravelTimes() {
            @Override
            public TravelLeg leg(int from, int to) {
                return SiteTravel.this.leg(site(from), site(to));
            }

            @Override
            public boolean drivable(int from, int to) {
                return isDrivable(site(from), site(to));
            }

            private SiteView site(int name) {
                return name >= 0 ? stops.get(name) : depots.get(TravelTimes.DEPOT - name);
            }
        };
    }

    static Position position(SiteView site) {
        return new Position(site.latitude(), site.longitude());
    }
}
