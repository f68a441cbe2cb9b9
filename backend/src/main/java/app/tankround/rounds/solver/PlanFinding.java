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
        /**
         * A stop with a clean system follows one that was left sick, so that the crew has to disinfect in between;
         * arguments: index of the sick stop, -1 where the crew comes from one before the round; index of the other.
         */
        SICK_BEFORE_CLEAN,
        /** A leg cannot be driven; arguments: index of the stop it leaves, index of the stop it goes to, -1 for the depot. */
        LEG_BLOCKED
    }
}
