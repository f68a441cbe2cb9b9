package app.tankround.readings;

import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.InstrumentUse;
import java.time.Clock;
import java.time.Duration;
import java.time.ZoneOffset;
import java.util.List;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;

/** The newest readings of an instrument tell where it is used. */
@Component
class ReadLately implements InstrumentUse {

    private static final int NEWEST = 20;

    /** Waters that were read on longer ago are hardly its own any more; common practice, no source. */
    private static final Duration LATELY = Duration.ofDays(90);

    private final JdbcClient jdbc;
    private final Clock clock;

    ReadLately(JdbcClient jdbc, Clock clock) {
        this.jdbc = jdbc;
        this.clock = clock;
    }

    @Override
    public List<Double> lately(InstrumentId instrument) {
        return jdbc.sql("""
                        select r.value
                        from reading r
                        where r.instrument_id = :instrument
                            and r.answer = 'VALUE'
                            and not exists (select 1 from reading n where n.replaces_id = r.id)
                        order by r.taken_at desc
                        limit :newest
                        """)
                .param("instrument", instrument.value())
                .param("newest", NEWEST)
                .query((row, number) -> row.getDouble("value"))
                .list();
    }

    @Override
    public List<Double> really(InstrumentId instrument) {
        return jdbc.sql("""
                        select a.corrected_value
                        from (
                            select distinct on (r.water_system_id, r.sample_point_id) r.id
                            from reading r
                            where r.instrument_id = :instrument
                                and r.answer = 'VALUE'
                                and r.taken_at > :since
                                and not exists (select 1 from reading n where n.replaces_id = r.id)
                            order by r.water_system_id, r.sample_point_id, r.taken_at desc
                        ) newest
                        join newest_assessment w on w.reading_id = newest.id
                        join assessment a on a.id = w.assessment_id
                        where a.corrected_value is not null
                        """)
                .param("instrument", instrument.value())
                .param("since", clock.instant().minus(LATELY).atOffset(ZoneOffset.UTC))
                .query((row, number) -> row.getDouble("corrected_value"))
                .list();
    }
}
