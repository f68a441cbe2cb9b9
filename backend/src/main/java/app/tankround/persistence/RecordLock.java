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

    private final JdbcClient jdbc;

    RecordLock(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** Waits until no other transaction holds {@code key}, then holds it until the running transaction ends. */
    @Transactional(propagation = Propagation.MANDATORY)
    public void hold(String key) {
        jdbc.sql("select pg_advisory_xact_lock(hashtextextended(:key, 0))")
                .param("key", key)
                .query(row -> {});
    }
}
