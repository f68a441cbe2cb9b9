package app.tankround.persistence;

import java.util.Collection;
import java.util.Comparator;
import java.util.List;
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

    private static final Comparator<Lock> ORDER =
            Comparator.comparingInt(Lock::kind).thenComparingInt(Lock::thing);

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
        hold(List.of(key));
    }

    /** As {@link #hold(String)} for many keys; whoever asks for the same ones at the same moment asks in the same order. */
    @Transactional(propagation = Propagation.MANDATORY)
    public void hold(Collection<String> keys) {
        List<Lock> locks =
                keys.stream().map(RecordLock::lock).distinct().sorted(ORDER).toList();
        jdbc.sql("""
                        select pg_advisory_xact_lock(lock.kind, lock.thing)
                        from unnest(cast(:kinds as int[]), cast(:things as int[])) with ordinality as lock (kind, thing, place)
                        order by lock.place
                        """)
                .param("kinds", locks.stream().map(Lock::kind).toArray(Integer[]::new))
                .param("things", locks.stream().map(Lock::thing).toArray(Integer[]::new))
                .query(row -> {});
    }

    private static Lock lock(String key) {
        int end = key.lastIndexOf(' ');
        return new Lock(key.substring(0, Math.max(end, 0)).hashCode(), Math.floorMod(key.hashCode(), LOCKS_PER_KIND));
    }

    private record Lock(int kind, int thing) {}
}
