package app.tankround.rounds.solver;

import java.lang.management.ManagementFactory;

/** How long a search may go on. */
@FunctionalInterface
public interface SearchBudget {

    /** Part of the budget used up after so many plans tried: 0 at first, 1 or more when the search has to end. */
    double spent(long iterations);

    /** So many plans tried; the same seed then gives the same plan on every machine. */
    static SearchBudget iterations(long most) {
        return iterations -> (double) iterations / most;
    }

    /**
     * So many seconds that the processor spends on the thread that makes this budget, from now on; the search has to run
     * on that same thread. It uses no other one.
     */
    static SearchBudget processorSeconds(double most) {
        var threads = ManagementFactory.getThreadMXBean();
        long begin = threads.getCurrentThreadCpuTime();
        double nanos = most * 1e9;
        return iterations -> (threads.getCurrentThreadCpuTime() - begin) / nanos;
    }
}
