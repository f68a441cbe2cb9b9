package app.tankround.clients;

import org.springframework.jdbc.core.simple.JdbcClient;

/** Proposes the code that a new record may carry: one more than the largest number behind the prefix. */
public final class NextCode {

    private NextCode() {}

    /**
     * @param table one of the program's own tables with a column {@code code}
     * @param prefix letters, such as {@code C}; the proposal is then {@code C-1}, {@code C-2} and so on
     */
    public static String of(JdbcClient jdbc, String table, String prefix) {
        long largest = jdbc.sql("""
                        select coalesce(max(substring(code from '^' || :prefix || '-([0-9]{1,9})$')::bigint), 0)
                        from %s
                        """.formatted(table))
                .param("prefix", prefix)
                .query(Long.class)
                .single();
        return prefix + "-" + (largest + 1);
    }
}
