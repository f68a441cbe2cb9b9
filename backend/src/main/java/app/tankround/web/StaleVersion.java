package app.tankround.web;

import org.jspecify.annotations.Nullable;

/**
 * Somebody else changed the same thing since the form was opened. Nothing was saved.
 *
 * <p>{@code theirs} and {@code yours} are the two versions, each as a record whose components the 409 page lists side by
 * side; either may be missing where there is nothing to show.
 */
public class StaleVersion extends RuntimeException {

    private static final long serialVersionUID = 1L;

    private final transient @Nullable Object theirs;
    private final transient @Nullable Object yours;
    private final String page;

    /** @param page address at which the newest version is shown */
    public StaleVersion(String page, @Nullable Object theirs, @Nullable Object yours) {
        super("stale version of " + page);
        this.page = page;
        this.theirs = theirs;
        this.yours = yours;
    }

    public String page() {
        return page;
    }

    public @Nullable Object theirs() {
        return theirs;
    }

    public @Nullable Object yours() {
        return yours;
    }
}
