package app.tankround.tablet;

import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;

/** Up to where the server holds all that a device has sent: where it is less than it was, the device sends again. */
@Component
class HeldEntries {

    private final JdbcClient jdbc;

    HeldEntries(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** The last sequence before the first gap; 0 where nothing is held. */
    @Transactional(readOnly = true)
    public long upTo(String device) {
        return jdbc.sql("""
                        select coalesce(min(sequence), 0)
                        from (select sequence, lead(sequence) over (order by sequence) as following
                              from (select distinct sequence from inbox_entry where device = :device) each_once) numbered
                        where following is distinct from sequence + 1
                        """).param("device", device).query(Long.class).single();
    }
}
