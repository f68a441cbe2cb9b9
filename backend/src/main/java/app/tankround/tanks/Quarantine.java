package app.tankround.tanks;

import java.time.LocalDate;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;

/**
 * How long new animals are kept apart. 30 days unless {@code tankround.quarantine-days} says otherwise: of 42 zoos and
 * aquaria that answered, 95 % kept fish at least that long (Hadfield and Clayton 2011, Journal of Zoo and Wildlife
 * Medicine 42(4)). For kinds of animals the office may name other days; a veterinarian may want another number. A system waits
 * for the animals that need longest.
 */
@Component
public class Quarantine {

    private final int usualDays;
    private final JdbcClient jdbc;

    Quarantine(@Value("${tankround.quarantine-days:30}") int days, JdbcClient jdbc) {
        if (days < 1 || days > 365) {
            throw new IllegalArgumentException("tankround.quarantine-days is " + days + ", accepted is 1 to 365");
        }
        this.usualDays = days;
        this.jdbc = jdbc;
    }

    /** Of animals whose kind has no days of its own. */
    public int usualDays() {
        return usualDays;
    }

    /** Days that a quarantine of this system lasts, by the animals that are in it. */
    public int days(WaterSystemId system) {
        return days(List.of(system)).getOrDefault(system, usualDays);
    }

    /** The same of many; every one is in the answer. */
    public Map<WaterSystemId, Integer> days(Collection<WaterSystemId> systems) {
        Map<WaterSystemId, Integer> days = new HashMap<>();
        systems.forEach(system -> days.put(system, usualDays));
        jdbc.sql("""
                        select a.water_system_id, max(coalesce(a.days, :usual)) as days
                        from (
                            select l.water_system_id, max(p.days) as days
                            from livestock l
                            left join quarantine_period p on l.common_name ~* ('\\m' || p.kind || '(s|es)?\\M')
                            where l.quantity > 0 and l.water_system_id = any(cast(:systems as uuid[]))
                            group by l.id, l.water_system_id
                        ) a
                        group by a.water_system_id
                        """)
                .param("usual", usualDays)
                .param("systems", systems.stream().map(WaterSystemId::value).toArray(UUID[]::new))
                .query(row -> {
                    days.put(WaterSystemId.of(row.getObject("water_system_id", UUID.class)), row.getInt("days"));
                });
        return days;
    }

    /** Whether it was left for an illness or a treatment, and was not released. */
    boolean isLeftUnreleased(WaterSystemId system) {
        return jdbc.sql("select exists (select 1 from quarantine_left where water_system_id = :system)")
                .param("system", system.value())
                .query(Boolean.class)
                .single();
    }

    void leaveUnreleased(WaterSystemId system, LocalDate on) {
        jdbc.sql("insert into quarantine_left (water_system_id, left_on) values (:system, :on) on conflict do nothing")
                .param("system", system.value())
                .param("on", on)
                .update();
    }

    void takeUpAgain(WaterSystemId system) {
        jdbc.sql("delete from quarantine_left where water_system_id = :system")
                .param("system", system.value())
                .update();
    }

    /** The first day on which a quarantine that began on {@code since} may end. */
    public static LocalDate over(LocalDate since, int days) {
        return since.plusDays(days);
    }
}
