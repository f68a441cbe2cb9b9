package app.tankround.persistence;

import org.jspecify.annotations.Nullable;

/** The program's own database cannot be started; says in one sentence why and in another what to do about it. */
public class DatabaseStartException extends RuntimeException {

    private final String remedy;

    DatabaseStartException(String problem, String remedy, @Nullable Throwable cause) {
        super(problem, cause);
        this.remedy = remedy;
    }

    /** What the person who started the program can do. */
    public String remedy() {
        return remedy;
    }
}
