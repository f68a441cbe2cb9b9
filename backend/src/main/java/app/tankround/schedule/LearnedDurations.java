package app.tankround.schedule;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** How long visits take, by what was recorded of those before. Nothing of it is stored: the visits say it. */
@Service
public class LearnedDurations {

    private final JdbcClient jdbc;

    LearnedDurations(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    private record Known(UUID agreement, int agreed, String kind, List<Double> recorded) {}

    /** Of each of these agreements; those that do not exist are left out. */
    @Transactional(readOnly = true)
    public Map<AgreementId, LearnedMinutes> of(Collection<AgreementId> agreements) {
        Set<AgreementId> asked = new HashSet<>(agreements);
        if (asked.isEmpty()) {
            return Map.of();
        }
        List<Known> known = jdbc.sql("""
                        select a.id, a.minutes, w.kind,
                               array(select v.worked_minutes * a.minutes / v.minutes
                                     from planned_visit v
                                     where v.agreement_id = a.id and v.worked_minutes is not null
                                     order by v.done_on desc, v.id desc
                                     limit :most) as recorded
                        from agreement a
                        join water_system w on w.id = a.water_system_id
                        where a.id = any(:agreements)
                        """)
                .param("agreements", asked.stream().map(AgreementId::value).toArray(UUID[]::new))
                .param("most", LearnedMinutes.MOST_VISITS)
                .query((row, number) -> known(row))
                .list();
        Map<String, Double> ratios = kindRatios();
        Map<AgreementId, LearnedMinutes> learned = new HashMap<>();
        for (Known each : known) {
            learned.put(
                    new AgreementId(each.agreement()),
                    LearnedMinutes.of(each.agreed(), ratios.getOrDefault(each.kind(), 1.0), each.recorded()));
        }
        return learned;
    }

    private static Known known(ResultSet row) throws SQLException {
        List<Double> recorded = new ArrayList<>();
        for (Object minutes : (Object[]) row.getArray("recorded").getArray()) {
            recorded.add(((Number) minutes).doubleValue());
        }
        return new Known(
                row.getObject("id", UUID.class), row.getInt("minutes"), row.getString("kind"), List.copyOf(recorded));
    }

    /** Recorded over agreed minutes by kind of system: the median of all visits recorded in the last half year of them. */
    private Map<String, Double> kindRatios() {
        Map<String, Double> ratios = new HashMap<>();
        jdbc.sql("""
                        select w.kind, count(*) as visits,
                               percentile_cont(0.5) within group (order by v.worked_minutes / v.minutes) as ratio
                        from planned_visit v
                        join water_system w on w.id = v.water_system_id
                        where v.worked_minutes is not null
                          and v.done_on > (select max(done_on) - 182 from planned_visit where worked_minutes is not null)
                        group by w.kind
                        """).query(row -> {
            ratios.put(row.getString("kind"), LearnedMinutes.drawn(row.getDouble("ratio"), row.getLong("visits"), 1));
        });
        return ratios;
    }
}
