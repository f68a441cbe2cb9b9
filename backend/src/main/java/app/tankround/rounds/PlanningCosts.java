package app.tankround.rounds;

import app.tankround.rounds.solver.Disinfection;
import app.tankround.rounds.solver.FleetWeights;

/**
 * What the parts of a plan cost, in thousandths of a cent; common practice, no source.
 *
 * @param perDrivingHour an hour on the road
 * @param perKilometre a kilometre driven
 * @param perOvertimeHour an hour after the van should be back
 * @param perRound a van that leaves at all
 * @param perDayOff a day that a visit lies away from its own
 * @param stranger a visit by another technician than the one known there
 * @param promise another time than the one promised
 * @param leftOut a site that is not visited
 * @param disinfection one disinfection with its materials
 */
record PlanningCosts(
        long perDrivingHour,
        long perKilometre,
        long perOvertimeHour,
        long perRound,
        long perDayOff,
        long stranger,
        long promise,
        long leftOut,
        long disinfection) {

    /** A thousandth of a cent in a cent. */
    static final long CENT = 1000;

    private static final int SECONDS_PER_HOUR = 3600;
    private static final int METRES_PER_KILOMETRE = 1000;
    private static final int SECONDS_PER_MINUTE = 60;

    static PlanningCosts usual() {
        return new PlanningCosts(
                3000 * CENT,
                40 * CENT,
                4500 * CENT,
                2000 * CENT,
                200 * CENT,
                1000 * CENT,
                2500 * CENT,
                100_000 * CENT,
                1800 * CENT);
    }

    FleetWeights weights() {
        return new FleetWeights(
                perDrivingHour / SECONDS_PER_HOUR,
                perKilometre / METRES_PER_KILOMETRE,
                perOvertimeHour / SECONDS_PER_HOUR,
                perRound);
    }

    Disinfection disinfection(int minutes) {
        return new Disinfection(minutes * SECONDS_PER_MINUTE, disinfection);
    }
}
