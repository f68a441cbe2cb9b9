package app.tankround.rounds.solver;

/** Travel between the places of one round. Times need be neither symmetric nor shortest. */
@FunctionalInterface
public interface TravelTimes {

    /** The place where the round starts and ends; stops are 0 and up. */
    int DEPOT = -1;

    /**
     * Travel from one place to another one, each {@link #DEPOT} or the index of a stop. Asked only for two different
     * places, and the same pair always has the same answer.
     */
    TravelLeg leg(int from, int to);
}
