package app.tankround.purification;

import app.tankround.tanks.WaterSystemId;
import java.util.List;
import org.springframework.data.jdbc.repository.query.Query;
import org.springframework.data.repository.ListCrudRepository;

interface StageRepository extends ListCrudRepository<Stage, StageId> {

    @Query("select * from purification_stage where water_system_id = :systemId order by installed_on, name, id")
    List<Stage> findBySystem(WaterSystemId systemId);
}
