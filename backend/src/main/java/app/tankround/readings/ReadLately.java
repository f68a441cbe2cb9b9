package app.tankround.readings;

import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.InstrumentUse;
import java.util.List;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;

/** The newest readings of an instrument tell where it is used. */
@Component
class ReadLately implements InstrumentUse {

    private static final int NEWEST = 20;

    private final JdbcClient jdbc;

    ReadLately(JdbcClient jdbc) {
        this.jdbc = jdbc;
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
}
