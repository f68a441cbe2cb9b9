package app.tankround.rounds.solver;

import java.util.Set;

/**
 * One van with its crew on one day. Times are in seconds of day.
 *
 * @param day 0 to 399
 * @param depot where it starts, 0 to 199; see {@link TravelTimes#depot(int)}
 * @param returnsTo where it ends and loads again on the way, 0 to 199
 * @param startSecond when it leaves the depot, 0 or more
 * @param regularEndSecond when it must be back without costing overtime, from {@code startSecond} on
 * @param latestEndSecond when it must be back in any case, from {@code regularEndSecond} to 172 800
 * @param capacity what it can carry on any leg
 * @param skills what the crew has
 * @param crew who they are; empty where that makes no difference
 * @param startsSick whether they come from a stop that was left sick
 * @param out whether the van drives anyway, so that a round of it costs nothing but its way
 * @param rest their break, no earlier than {@code startSecond}; {@link Rest#NONE} for none
 */
public record VanShift(
        int day,
        int depot,
        int returnsTo,
        int startSecond,
        int regularEndSecond,
        int latestEndSecond,
        Cargo capacity,
        Set<String> skills,
        String crew,
        boolean startsSick,
        boolean out,
        Rest rest) {

    private static final int MAX_DEPOT = 199;

    /** Refuses, with {@link IllegalArgumentException}, values outside the ranges above. */
    public VanShift {
        skills = Set.copyOf(skills);
        if (day < 0 || day > FleetStop.LAST_DAY) {
            throw new IllegalArgumentException("Day must be 0 to " + FleetStop.LAST_DAY + ", not " + day);
        }
        for (int place : new int[] {depot, returnsTo}) {
            if (place < 0 || place > MAX_DEPOT) {
                throw new IllegalArgumentException("Depot must be 0 to " + MAX_DEPOT + ", not " + place);
            }
        }
        if (startSecond < 0
                || regularEndSecond < startSecond
                || latestEndSecond < regularEndSecond
                || latestEndSecond > FleetStop.LAST_SECOND) {
            throw new IllegalArgumentException(
                    "Start, regular end and latest end must follow each other within 0 to 172800 seconds, not "
                            + startSecond + ", " + regularEndSecond + ", " + latestEndSecond);
        }
        if (rest.bySecond() < startSecond) {
            throw new IllegalArgumentException(
                    "The break must not be before the start at " + startSecond + ", but is at " + rest.bySecond());
        }
    }

    /** A van that comes back to where it starts, with any crew. */
    public VanShift(
            int day,
            int depot,
            int startSecond,
            int regularEndSecond,
            int latestEndSecond,
            Cargo capacity,
            Set<String> skills) {
        this(
                day,
                depot,
                depot,
                startSecond,
                regularEndSecond,
                latestEndSecond,
                capacity,
                skills,
                "",
                false,
                false,
                Rest.NONE);
    }
}
