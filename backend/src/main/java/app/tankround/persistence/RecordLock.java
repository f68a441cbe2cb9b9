package app.tankround.persistence;

import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;

/**
 * Makes transactions about the same thing wait for each other, also while that thing is not stored yet: a form that
 * arrives twice at once must create once, and the second must find what the first has made.
 */
@Component
public class RecordLock {

    /** An import holds the locks of thousands of records; the server has room for some thousands in all. */
    private static final int LOCKS_PER_KIND = 512;

    private final JdbcClient jdbc;

    RecordLock(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /**
     * Waits until no other transaction holds {@code key}, then holds it until the running transaction ends. Whoever needs
     * things of two kinds takes the part before the whole.
     *
     * @param key the kind of the thing, a space, and which one it is
     */
    @Transactional(propagation = Propagation.MANDATORY)
    public void hold(String key) {
        int end = key.lastIndexOf(' ');
        jdbc.sql("select pg_advisory_xact_lock(:kind, :thing)")
                .param("kind", key.substring(0, Math.max(end, 0)).hashCode())
                .param("thing", Math.floorMod(key.hashCode(), LOCKS_PER_KIND))
                .query(row -> {});
    }
}
