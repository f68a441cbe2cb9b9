package app.tankround.rounds.solver;

import java.util.List;

/**
 * Something an order given by hand breaks.
 *
 * @param code what is broken
 * @param arguments as each code says
 */
public record PlanFinding(Code code, List<Integer> arguments) {

    public PlanFinding {
        arguments = List.copyOf(arguments);
    }

    /** What can be broken. */
    public enum Code {
        /** A window is missed; arguments: index of the stop, lateness in minutes, rounded up. */
        WINDOW_MISSED,
        /** A stop that is not sick follows a sick one; arguments: index of the first sick stop, index of the other. */
        SICK_BEFORE_CLEAN
    }
}
