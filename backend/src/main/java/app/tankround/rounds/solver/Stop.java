package app.tankround.rounds.solver;

import app.tankround.tanks.InfectionClass;
import org.jspecify.annotations.Nullable;

/**
 * One place to visit.
 *
 * @param serviceMinutes work on site, 0 to 1440 minutes
 * @param window when work may start; null means all day
 * @param arrivesAs class of the cleanest system looked after here: what the crew must still be clean enough for
 * @param leavesAs class of the sickest system looked after here: what the crew carries on from here
 */
public record Stop(int serviceMinutes, @Nullable TimeWindow window, InfectionClass arrivesAs, InfectionClass leavesAs) {

    private static final int MAX_SERVICE_MINUTES = 1440;

    /** Refuses, with {@link IllegalArgumentException}, service outside its range and a stop left cleaner than it was reached. */
    public Stop {
        if (serviceMinutes < 0 || serviceMinutes > MAX_SERVICE_MINUTES) {
            throw new IllegalArgumentException("Service must be 0 to 1440 minutes, not " + serviceMinutes);
        }
        if (leavesAs.compareTo(arrivesAs) < 0) {
            throw new IllegalArgumentException(
                    "The sickest system (" + leavesAs + ") cannot be cleaner than the cleanest (" + arrivesAs + ")");
        }
    }

    /** A stop where every system is healthy. */
    public static Stop healthy(int serviceMinutes, @Nullable TimeWindow window) {
        return new Stop(serviceMinutes, window, InfectionClass.HEALTHY, InfectionClass.HEALTHY);
    }

    /** Whether any system here is healthy or new, so that nobody may come here from a sick one. */
    public boolean arrivesClean() {
        return !arrivesAs.isSick();
    }

    /**
     * Whether any system here is in quarantine, suspected or under treatment, so that the visit must wait until all
     * others are done. Cleanest stock first, new and sick stock last, is the advice of fishery biosecurity guides;
     * applying it to a whole round is common practice, no source.
     */
    public boolean sick() {
        return leavesAs.isSick();
    }
}
