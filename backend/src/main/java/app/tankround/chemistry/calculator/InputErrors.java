package app.tankround.chemistry.calculator;

import java.io.Serializable;
import java.util.List;

/** What was given is not what the calculator takes: something is missing, unknown, or no number. */
public final class InputErrors extends RuntimeException {

    private static final long serialVersionUID = 1L;

    /** Why an input was not taken. */
    public enum Code {
        MISSING,
        UNKNOWN,
        NOT_TOGETHER,
        NOT_A_NUMBER,
        NOT_A_SERIES,
        NOT_A_CHOICE,
        /** One input stands there more than once. */
        GIVEN_TWICE,
        /** The inputs as a whole cannot be read. */
        MALFORMED
    }

    /**
     * One input that was not taken.
     *
     * @param message in English, for whoever calls from a program
     */
    public record InputError(String input, Code code, String message) implements Serializable {}

    private final List<InputError> errors;

    /** Says what is wrong with at least one input. */
    public InputErrors(List<InputError> errors) {
        super(errors.toString());
        this.errors = List.copyOf(errors);
    }

    /** At least one; the unknown ones first, then in the order of the calculator's inputs. */
    public List<InputError> errors() {
        return errors;
    }
}
