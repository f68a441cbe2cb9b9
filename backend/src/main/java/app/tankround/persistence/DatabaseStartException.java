package app.tankround.persistence;

import org.jspecify.annotations.Nullable;

/** The program's own database cannot be started. */
public class DatabaseStartException extends StartFailure {

    DatabaseStartException(String problem, String remedy, @Nullable Throwable cause) {
        super(problem, remedy, cause);
    }
}
