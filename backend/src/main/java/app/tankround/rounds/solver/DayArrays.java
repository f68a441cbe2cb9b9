package app.tankround.rounds.solver;

/**
 * One van's day as {@link SubsetProgramme} takes it: stops are 0 to n - 1, the start is n, and so is the end. What it costs
 * is compared by a first number, then by a second one.
 */
final class DayArrays {

    /** Seconds of a way that there is not. */
    static final int NO_WAY = 1_000_000;

    final int n;
    int start;
    int regularEnd = Integer.MAX_VALUE;
    int latestEnd = Integer.MAX_VALUE;
    long perOvertimeSecond;
    /** First cost of a second's lateness; 0 where work must never start late. */
    long perSecondLate;
    /** First cost of a disinfection where fewer of them come before all else but the driving at all, else 0. */
    long perDisinfection;

    Rest rest = Rest.NONE;

    final int[] service;
    /** In seconds without the break; the ends of windows and of the day are by the clock. */
    final int[] open;

    final int[] close;
    /** Seconds from the end of work to the arrival, the disinfection included. */
    final int[][] way;

    final long[][] first;
    final int[][] second;
    /** Stops where a clean system is, and stops that are left sick, as bits. */
    int clean;

    int sick;
    boolean startsSick;
    /** Whether to disinfect once more may spare a leg that cannot be driven. */
    boolean someLegCannotBeDriven;

    /** What each stop takes out of the van and puts into it, in grams and millilitres, and what the van can carry. */
    final int[][] delivered = new int[2][];

    final int[][] collected = new int[2][];
    final long[] capacity = {Long.MAX_VALUE, Long.MAX_VALUE};

    DayArrays(int n) {
        this.n = n;
        service = new int[n];
        open = new int[n];
        close = new int[n];
        way = new int[n + 1][n + 1];
        first = new long[n + 1][n + 1];
        second = new int[n + 1][n + 1];
        for (int measure = 0; measure < 2; measure++) {
            delivered[measure] = new int[n];
            collected[measure] = new int[n];
        }
    }

    void read(boolean[] arrivesClean, boolean[] leavesSick, boolean fromSick) {
        for (int stop = 0; stop < n; stop++) {
            clean |= arrivesClean[stop] ? 1 << stop : 0;
            sick |= leavesSick[stop] ? 1 << stop : 0;
        }
        startsSick = fromSick;
    }
}
