package app.tankround.health;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.readings.Bench;
import app.tankround.tanks.WaterSystemId;
import app.tankround.testing.IntegrationTest;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.context.annotation.Import;
import org.springframework.jdbc.core.simple.JdbcClient;

/** The whole ranking on a business of 110 systems with weekly readings of eight quantities over eighteen months. */
@SpringBootTest(properties = "spring.application.name=scale")
@IntegrationTest
@Import(Bench.class)
class HealthScaleTests {

    private static final int SYSTEMS = 110;
    private static final int WEEKS = 78;

    @Autowired
    HealthReview review;

    @Autowired
    Bench bench;

    @Autowired
    JdbcClient jdbc;

    @Test
    void ranksEverySystemOfALongHistory() {
        fill(bench.marineSystem());

        assertThat(review.review().ranked()).hasSize(SYSTEMS);
    }

    private void fill(WaterSystemId model) {
        jdbc.sql("""
                        insert into water_system (id, code, site_id, name, kind, infection_class, class_since, volume_basis,
                            net_volume_l, evaporation_l_day, active, version)
                        select gen_random_uuid(), 'copy-' || n, w.site_id, 'Copy ' || n, w.kind, w.infection_class,
                            w.class_since, w.volume_basis, w.net_volume_l, w.evaporation_l_day, true, 0
                        from water_system w, generate_series(2, :systems) as n
                        where w.id = :model
                        """).param("systems", SYSTEMS).param("model", model.value()).update();
        jdbc.sql("""
                        insert into reading (id, water_system_id, quantity, answer, value, unit, taken_at, person_id, recorded_at)
                        select gen_random_uuid(), w.id, q, 'VALUE', 10, 'mg/L',
                            timestamptz '2026-03-01 12:00Z' - week * interval '7 days', :person, now()
                        from water_system w, generate_series(0, :weeks) as week,
                            unnest(array['NITRATE', 'AMMONIA', 'NITRITE', 'PHOSPHATE', 'CALCIUM', 'MAGNESIUM', 'OXYGEN',
                                'COPPER']) as q
                        """)
                .param("person", bench.person().value())
                .param("weeks", WEEKS - 1)
                .update();
        jdbc.sql("""
                        with assessed as (
                            insert into assessment (reading_id, rule_version, verdict, verdict_as_read, trusted, doubtful,
                                corrected_value, uncertainty, reasons, calibration_ids, computed_at)
                            select id, 1, 'INSIDE', 'INSIDE', true, false, 10, 1, '[]', '{}', now() from reading
                            returning id, reading_id
                        )
                        insert into newest_assessment (reading_id, assessment_id) select reading_id, id from assessed
                        """).update();
        jdbc.sql("analyze").update();
    }
}
