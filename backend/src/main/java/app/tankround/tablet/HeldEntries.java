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

    /**
     * The last sequence before the first one that is missing.
     *
     * @param first the first that the device could send again; what came before it is held, or lost for good
     */
    @Transactional(readOnly = true)
    public long upTo(String device, long first) {
        return jdbc.sql("""
                        select min(sequence)
                        from (select sequence, lead(sequence) over (order by sequence) as following
                              from (select distinct sequence from inbox_entry where device = :device and sequence >= :first
                                    union select :first - 1) each_once) numbered
                        where following is distinct from sequence + 1
                        """)
                .param("device", device)
                .param("first", first)
                .query(Long.class)
                .single();
    }
}
