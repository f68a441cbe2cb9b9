package app.tankround.socks;

import app.tankround.accounts.ChangeLog;
import app.tankround.accounts.ChangedFields;
import app.tankround.persistence.RecordLock;
import app.tankround.web.StaleVersion;
import java.time.DayOfWeek;
import java.util.Arrays;
import java.util.Set;
import java.util.stream.Collectors;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** How the business washes its socks, as it says. */
@Service
public class SockWashingSettings {

    private final JdbcClient jdbc;
    private final RecordLock lock;
    private final ChangeLog changes;

    SockWashingSettings(JdbcClient jdbc, RecordLock lock, ChangeLog changes) {
        this.jdbc = jdbc;
        this.lock = lock;
        this.changes = changes;
    }

    /** As it is; the usual where nobody has changed it. */
    @Transactional(readOnly = true)
    public SockWashing current() {
        return jdbc.sql("select * from sock_washing")
                .query((row, number) -> new SockWashing(
                        days(row.getString("wash_days")),
                        row.getInt("hours_until_clean"),
                        row.getInt("socks_in_load"),
                        row.getInt("loads_a_day"),
                        row.getInt("delivery_days"),
                        row.getInt("longest_swap_days"),
                        row.getInt("most_washes"),
                        row.getInt("version")))
                .optional()
                .orElseGet(SockWashing::usual);
    }

    private static Set<DayOfWeek> days(String digits) {
        return digits.chars()
                .mapToObj(digit -> DayOfWeek.of(Character.digit(digit, 10)))
                .collect(Collectors.toSet());
    }

    private static String digits(Set<DayOfWeek> days) {
        return Arrays.stream(DayOfWeek.values())
                .filter(days::contains)
                .map(day -> Integer.toString(day.getValue()))
                .collect(Collectors.joining());
    }

    /** @throws StaleVersion if somebody else changed it meanwhile */
    @Transactional
    public void change(SockWashing wanted) {
        lock.hold("sock washing");
        SockWashing before = current();
        if (before.version() != wanted.version()) {
            throw new StaleVersion("/socks/washing/edit", before, wanted);
        }
        jdbc.sql("""
                        insert into sock_washing (
                            wash_days, hours_until_clean, socks_in_load, loads_a_day, delivery_days, longest_swap_days, most_washes,
                            version)
                        values (:days, :hours, :load, :loads, :delivery, :longest, :most, 1)
                        on conflict (only_one) do update
                        set wash_days = excluded.wash_days, hours_until_clean = excluded.hours_until_clean,
                            socks_in_load = excluded.socks_in_load, loads_a_day = excluded.loads_a_day,
                            delivery_days = excluded.delivery_days, longest_swap_days = excluded.longest_swap_days,
                            most_washes = excluded.most_washes,
                            version = sock_washing.version + 1
                        """)
                .param("days", digits(wanted.washDays()))
                .param("hours", wanted.hoursUntilClean())
                .param("load", wanted.socksInLoad())
                .param("loads", wanted.loadsADay())
                .param("delivery", wanted.deliveryDays())
                .param("longest", wanted.longestSwapDays())
                .param("most", wanted.mostWashes())
                .update();
        changes.record("sock-washing", "all", "changed", ChangedFields.between(before, wanted));
    }
}
