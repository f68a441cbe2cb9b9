package app.tankround.persistence;

import org.jspecify.annotations.Nullable;

/** The program cannot be started; says in one sentence why and in another what to do about it. */
public class StartFailure extends RuntimeException {

    private final String remedy;

    public StartFailure(String problem, String remedy, @Nullable Throwable cause) {
        super(problem, cause);
        this.remedy = remedy;
    }

    /** What the person who started the program can do. */
    public String remedy() {
        return remedy;
    }
}
