package app.tankround.rounds.solver;

/**
 * One stop of a plan, times in seconds of day.
 *
 * @param stop index of the stop
 * @param arrivalSecond when the van gets there
 * @param startSecond when work starts: on arrival, or when the window opens
 * @param departureSecond when the van leaves, after the disinfection where there is one
 * @param waitSeconds from arrival to start
 * @param latenessSeconds from the end of the window to the start of work, 0 when on time
 * @param disinfectionSeconds at the end of the stop, so that a clean one may follow; 0 for none
 */
public record PlannedStop(
        int stop,
        int arrivalSecond,
        int startSecond,
        int departureSecond,
        int waitSeconds,
        int latenessSeconds,
        int disinfectionSeconds) {

    /** Lateness in minutes, rounded up so that a late stop never reads as 0. */
    public int latenessMinutes() {
        return Math.ceilDiv(latenessSeconds, 60);
    }
}
