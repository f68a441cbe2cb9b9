package app.tankround.visits;

import app.tankround.readings.KitTimesKept;
import app.tankround.readings.ReadingId;
import java.time.Duration;
import java.util.Collection;
import java.util.HashMap;
import java.util.Map;
import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;

/** Whether a kit was read in its time, as the entry of its reading says; a reading has the id of its entry. */
@Component
class KitTimesOfVisits implements KitTimesKept {

    /** What an entry of a reading calls it: seconds, negative before the time was over. */
    static final String FIELD = "kitOffSeconds";

    /** Nobody waits for a kit for longer. */
    static final int MOST_SECONDS = 12 * 3600;

    private final JdbcClient jdbc;

    KitTimesOfVisits(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    @Override
    public Map<ReadingId, Duration> missed(Collection<ReadingId> readings) {
        Map<ReadingId, Duration> missed = new HashMap<>();
        jdbc.sql("""
                        select id, (body ->> 'kitOffSeconds')::int as seconds
                        from visit_entry
                        where id = any(cast(:ids as uuid[])) and body ->> 'kitOffSeconds' is not null
                        """)
                .param("ids", readings.stream().map(ReadingId::value).toArray(UUID[]::new))
                .query(row -> {
                    missed.put(
                            ReadingId.of(row.getObject("id", UUID.class)), Duration.ofSeconds(row.getInt("seconds")));
                });
        return missed;
    }
}
