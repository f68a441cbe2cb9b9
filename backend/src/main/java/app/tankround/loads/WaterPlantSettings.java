package app.tankround.loads;

import app.tankround.accounts.ChangeLog;
import app.tankround.accounts.ChangedFields;
import app.tankround.persistence.RecordLock;
import app.tankround.web.StaleVersion;
import java.math.BigDecimal;
import java.sql.Types;
import java.time.LocalTime;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** The terms that the water plan keeps to. */
@Service
public class WaterPlantSettings {

    private final JdbcClient jdbc;
    private final RecordLock lock;
    private final ChangeLog changes;

    WaterPlantSettings(JdbcClient jdbc, RecordLock lock, ChangeLog changes) {
        this.jdbc = jdbc;
        this.lock = lock;
        this.changes = changes;
    }

    /** The terms as they are; the usual ones where nobody has changed them. */
    @Transactional(readOnly = true)
    public WaterPlantTerms current() {
        return jdbc.sql("select * from water_plant_terms")
                .query((row, number) -> new WaterPlantTerms(
                        Optional.ofNullable(row.getBigDecimal("feed_c")),
                        Optional.ofNullable(row.getBigDecimal("rated_l_per_hour")),
                        row.getBigDecimal("loss_percent_per_year"),
                        row.getBigDecimal("fill_l_per_hour"),
                        row.getInt("salt_minutes"),
                        row.getInt("heat_minutes"),
                        row.getInt("circulate_minutes"),
                        row.getInt("measure_minutes"),
                        row.getInt("spare_minutes"),
                        row.getInt("load_minutes"),
                        row.getObject("attended_from", LocalTime.class),
                        row.getObject("attended_until", LocalTime.class),
                        row.getObject("leaves_at", LocalTime.class),
                        Optional.ofNullable(row.getObject("night_from", LocalTime.class)),
                        Optional.ofNullable(row.getObject("night_until", LocalTime.class)),
                        row.getInt("version")))
                .optional()
                .orElseGet(WaterPlantTerms::usual);
    }

    /** @throws StaleVersion if somebody else changed them meanwhile */
    @Transactional
    public void change(WaterPlantTerms wanted) {
        lock.hold("water plant terms");
        WaterPlantTerms before = current();
        if (before.version() != wanted.version()) {
            throw new StaleVersion("/water-plan/terms", before, wanted);
        }
        jdbc.sql("""
                        insert into water_plant_terms (
                            feed_c, rated_l_per_hour, loss_percent_per_year, fill_l_per_hour, salt_minutes, heat_minutes,
                            circulate_minutes, measure_minutes, spare_minutes, load_minutes, attended_from, attended_until,
                            leaves_at, night_from, night_until, version)
                        values (
                            :feed, :rated, :loss, :fill, :salt, :heat, :circulate, :measure, :spare, :load, :from, :until,
                            :leaves, :nightFrom, :nightUntil, 1)
                        on conflict (only_one) do update
                        set feed_c = excluded.feed_c, rated_l_per_hour = excluded.rated_l_per_hour,
                            loss_percent_per_year = excluded.loss_percent_per_year,
                            fill_l_per_hour = excluded.fill_l_per_hour, salt_minutes = excluded.salt_minutes,
                            heat_minutes = excluded.heat_minutes, circulate_minutes = excluded.circulate_minutes,
                            measure_minutes = excluded.measure_minutes, spare_minutes = excluded.spare_minutes,
                            load_minutes = excluded.load_minutes, attended_from = excluded.attended_from,
                            attended_until = excluded.attended_until, leaves_at = excluded.leaves_at,
                            night_from = excluded.night_from, night_until = excluded.night_until,
                            version = water_plant_terms.version + 1
                        """)
                .param("feed", or(wanted.feedCelsius()), Types.NUMERIC)
                .param("rated", or(wanted.ratedLitresPerHour()), Types.NUMERIC)
                .param("loss", wanted.lossPercentPerYear())
                .param("fill", wanted.fillLitresPerHour())
                .param("salt", wanted.saltMinutes())
                .param("heat", wanted.heatMinutes())
                .param("circulate", wanted.circulateMinutes())
                .param("measure", wanted.measureMinutes())
                .param("spare", wanted.spareMinutes())
                .param("load", wanted.loadMinutes())
                .param("from", wanted.attendedFrom())
                .param("until", wanted.attendedUntil())
                .param("leaves", wanted.leavesAt())
                .param("nightFrom", wanted.nightFrom().orElse(null), Types.TIME)
                .param("nightUntil", wanted.nightUntil().orElse(null), Types.TIME)
                .update();
        changes.record("water-plant-terms", "all", "changed", ChangedFields.between(before, wanted));
    }

    private static @Nullable BigDecimal or(Optional<BigDecimal> number) {
        return number.orElse(null);
    }
}
