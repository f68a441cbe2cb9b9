package app.tankround.plans;

import app.tankround.readings.TreatedWater;
import app.tankround.tanks.WaterSystemId;
import java.util.Optional;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;

/**
 * Copper that a treatment keeps in the water: within its aim it is what was ordered, and no accident. It asks the rows itself,
 * since {@link Treatments} stand on the readings that ask it.
 */
@Component
class CopperOnPurpose implements TreatedWater {

    private final JdbcClient jdbc;

    CopperOnPurpose(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    @Override
    @Transactional(readOnly = true)
    public Optional<Double> copperUpTo(WaterSystemId system) {
        return jdbc.sql("""
                        select high_mg_l
                        from treatment
                        where water_system_id = :system and ended_on is null and copper_form is not null
                        order by high_mg_l desc
                        limit 1
                        """).param("system", system.value()).query(Double.class).optional();
    }
}
