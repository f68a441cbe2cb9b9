package app.tankround.rounds.solver;

/** Travel between stops and depots. Times need be neither symmetric nor shortest. */
@FunctionalInterface
public interface TravelTimes {

    /** The place where the round starts and ends, the first depot of a fleet; stops are 0 and up. */
    int DEPOT = -1;

    /** The place of a fleet's depot, counted from 0: further depots are -2, -3 and so on. */
    static int depot(int index) {
        return DEPOT - index;
    }

    /**
     * Travel from one place to another one, each a depot or the index of a stop. Asked only for two different
     * places, and the same pair always has the same answer.
     */
    TravelLeg leg(int from, int to);

    /** Whether that leg can be driven at all; where it cannot, {@link #leg} says what it would be otherwise. */
    default boolean drivable(int from, int to) {
        return true;
    }
}
